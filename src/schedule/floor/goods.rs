//! Good pieces after a step: when they are done and from when on the next operation may use them.

/// Pieces that lie there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Batch {
    /// From when on the next operation may use them.
    pub(super) ready: i64,
    /// When they are done.
    pub(super) done: i64,
    pub(super) pieces: u32,
}

/// All pieces after a step that nobody has taken yet, soonest ready first.
#[derive(Debug, Clone, Default)]
pub(super) struct Goods {
    batches: Vec<Batch>,
}

impl Goods {
    pub(super) fn add(&mut self, batch: Batch) {
        if batch.pieces > 0 {
            let key = |of: &Batch| (of.ready, of.done);
            let place = self.batches.partition_point(|of| key(of) <= key(&batch));
            self.batches.insert(place, batch);
        }
    }

    /// Pieces that may be used by a time.
    pub(super) fn ready_by(&self, time: i64) -> u32 {
        self.batches.iter().take_while(|batch| batch.ready <= time).map(|batch| batch.pieces).sum()
    }

    /// Pieces that are done by a time.
    pub(super) fn done_by(&self, time: i64) -> u32 {
        self.batches.iter().filter(|batch| batch.done <= time).map(|batch| batch.pieces).sum()
    }

    /// Batches in the order in which they may be used, each with the pieces before it.
    pub(super) fn in_order(&self) -> impl Iterator<Item = (u32, i64)> + '_ {
        self.batches.iter().scan(0, |before, batch| {
            let place = *before;
            *before += batch.pieces;
            Some((place, batch.ready))
        })
    }

    /// Takes pieces, soonest ready first, and says when the last of them is ready.
    pub(super) fn take(&mut self, pieces: u32) -> i64 {
        let mut open = pieces;
        let mut last = i64::MIN;
        for batch in &mut self.batches {
            let taken = batch.pieces.min(open);
            if taken > 0 {
                last = last.max(batch.ready);
            }
            batch.pieces -= taken;
            open -= taken;
        }
        self.batches.retain(|batch| batch.pieces > 0);
        last
    }

    /// Takes pieces that are done, soonest done first, and says when: pieces by time.
    pub(super) fn take_done(&mut self, pieces: u32) -> Vec<(i64, u32)> {
        let mut order: Vec<usize> = (0..self.batches.len()).collect();
        order.sort_by_key(|at| self.batches[*at].done);
        let mut open = pieces;
        let mut taken = Vec::new();
        for at in order {
            let batch = &mut self.batches[at];
            let now = batch.pieces.min(open);
            if now > 0 {
                taken.push((batch.done, now));
                batch.pieces -= now;
                open -= now;
            }
        }
        self.batches.retain(|batch| batch.pieces > 0);
        taken
    }
}

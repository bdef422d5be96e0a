//! The bound of one machine: its tasks with breaks allowed, the one with the longest tail first.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Least greatest value of tasks (head, time, tail) on one machine if they may be broken off at any time: whenever a
/// task arrives or ends, the waiting task with the longest tail goes on.
pub(super) fn greatest_with_breaks(tasks: &[(i64, i64, i64)]) -> Option<i64> {
    let mut arrivals = tasks.to_vec();
    arrivals.sort_unstable();
    let mut waiting: BinaryHeap<(i64, Reverse<i64>)> = BinaryHeap::new();
    let mut greatest = None;
    let mut now = i64::MIN;
    let mut at = 0;
    while at < arrivals.len() || !waiting.is_empty() {
        if waiting.is_empty() {
            now = now.max(arrivals[at].0);
        }
        while at < arrivals.len() && arrivals[at].0 <= now {
            waiting.push((arrivals[at].2, Reverse(arrivals[at].1)));
            at += 1;
        }
        if let Some((tail, Reverse(left))) = waiting.pop() {
            let until = arrivals.get(at).map_or(i64::MAX, |next| next.0);
            if left <= until.saturating_sub(now) {
                now += left;
                greatest = greatest.max(Some(now + tail));
            } else {
                waiting.push((tail, Reverse(left - (until - now))));
                now = until;
            }
        }
    }
    greatest
}

#[cfg(test)]
mod tests {
    use super::greatest_with_breaks;

    #[test]
    fn the_task_with_the_longest_tail_goes_first() {
        // From 0 to 1 the first task, then the second to 3 + 10, then the rest of the first to 6.
        assert_eq!(greatest_with_breaks(&[(0, 4, 0), (1, 2, 10)]), Some(13));
        assert_eq!(greatest_with_breaks(&[(0, 4, 9), (1, 2, 10)]), Some(15));
        assert_eq!(greatest_with_breaks(&[]), None);
    }
}

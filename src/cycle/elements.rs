//! What fills the time from piece to piece beside the tool changes, each element worked for one piece.

use super::bar::bar_share;
use super::cut::CutEstimate;
use super::item::{Item, LoadedBy, Making, Operation, Shop, Stock, While};
use super::station::{Passage, spread};
use crate::cutting::bar::PIECES_PER_BAR;
use crate::plant::Machine;
use crate::quantity::{Duration, Formula, Record, Term, Workings};

/// A part of the cycle, for each piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Element {
    /// What it is: `in cut`.
    pub name: &'static str,
    /// Time for each piece.
    pub time: Duration,
}

/// Machine time of a load beyond what is done while the machine cuts.
pub const LOAD_BEYOND: Formula = Formula {
    figure: "loading not hidden by cutting",
    text: "t = max(0, t_load - t_inner)",
    source: "common-practice",
};

/// Time of one channel: it indexes for each of its tools if it has more than one.
pub const CHANNEL_TIME: Formula = Formula {
    figure: "time of the longest channel",
    text: "t = t_cut + t_rapid + t_index",
    source: "common-practice",
};

/// In cut, at rapid, indexing, for one machine cycle.
type ChannelTime = (Duration, Duration, Duration);

/// Cutting, indexing and loading: channels work beside each other, the longest rules.
pub(super) fn machine_elements(
    operation: &Operation,
    machine: &Machine,
    work: (&[(CutEstimate, Workings)], Option<Passage>),
    record: &mut impl Record,
) -> Vec<Element> {
    let (cuts, passage) = work;
    let pieces = f64::from(operation.pieces.max(1));
    let longest = longest_channel(operation, machine, cuts);
    let all = longest.0 + longest.1 + longest.2;
    if !cuts.is_empty() {
        record.step(&CHANNEL_TIME, all.into(), || {
            vec![("t_cut", longest.0.into()), ("t_rapid", longest.1.into()), ("t_index", longest.2.into())]
        });
    }
    let station = passage.map_or(Duration::ZERO, |passage| passage.interval) * pieces;
    let inner = all + operation.transfer + station;
    let loading = operation.load.map_or(Duration::ZERO, |load| match load.during {
        While::Stopped => load.time,
        While::Cutting => {
            let beyond = (load.time - inner).larger(Duration::ZERO);
            record.step(&LOAD_BEYOND, beyond.into(), || {
                vec![("t_load", load.time.into()), ("t_inner", inner.into())]
            });
            beyond
        }
    });
    let elements = [
        ("in cut", longest.0),
        ("rapid moves", longest.1),
        ("tool indexing", longest.2),
        ("transfer", operation.transfer),
        ("station time", station),
        ("load and unload", loading),
    ];
    let of_one = |(name, time): (&'static str, Duration)| {
        if pieces > 1.0 && time > Duration::ZERO {
            spread(time, operation.pieces, record);
        }
        Element { name, time: time / pieces }
    };
    elements.into_iter().map(of_one).collect()
}

fn longest_channel(
    operation: &Operation,
    machine: &Machine,
    cuts: &[(CutEstimate, Workings)],
) -> ChannelTime {
    let pieces = f64::from(operation.pieces.max(1));
    let mut channels: Vec<u32> = operation.cuts.iter().map(|cut| cut.channel).collect();
    channels.sort_unstable();
    channels.dedup();
    let time_of = |channel: u32| {
        let mut time = ChannelTime::default();
        let mut tools = 0.0;
        for (_, (estimate, _)) in operation.cuts.iter().zip(cuts).filter(|(cut, _)| cut.channel == channel) {
            time.0 += estimate.cut_time * pieces;
            time.1 += estimate.rapid_time * pieces;
            tools += 1.0;
        }
        if tools > 1.0 {
            time.2 = machine.index * tools;
        }
        time
    };
    channels
        .into_iter()
        .map(time_of)
        .max_by(|one, other| (one.0 + one.1 + one.2).total_cmp(&(other.0 + other.1 + other.2)))
        .unwrap_or_default()
}

/// Bar feed, bar change and gauging.
pub(super) fn side_elements(
    of: (&Shop, &Item),
    operation: &Operation,
    machine: &Machine,
    record: &mut impl Record,
) -> Vec<Element> {
    let (shop, item) = of;
    let mut elements = Vec::new();
    let by_bar = operation.load.is_some_and(|load| load.by == LoadedBy::Bar);
    if let (true, Making::Part { material, length: Some(length), stock: Stock::Bar(bar), .. }) =
        (by_bar, &item.making)
    {
        let share = bar_share(bar, *length, shop.materials[*material].density.value);
        record.step(&PIECES_PER_BAR, Term::Plain(f64::from(share.pieces)), || {
            vec![
                ("L", bar.length.into()),
                ("L_r", bar.remnant.into()),
                ("L_e", bar.end_facing.into()),
                ("l", (*length).into()),
                ("w", bar.cutoff.into()),
                ("l_f", bar.facing.into()),
            ]
        });
        elements.push(Element { name: "bar feed", time: machine.bar_feed });
        elements.push(Element { name: "bar change", time: spread(machine.bar_change, share.pieces, record) });
    }
    if let Some(gauge) = operation.gauge.filter(|gauge| gauge.during == While::Stopped) {
        elements.push(Element { name: "gauging", time: spread(gauge.time, gauge.every, record) });
    }
    elements
}

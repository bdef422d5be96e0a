//! Rows that were pasted twice.

use super::error::FitError;
use super::sample::Row;
use std::collections::BTreeMap;

/// Fewest rows that make a block.
const BLOCK: usize = 3;
/// Blocks as long that may come again by chance in logs like this one, at most, for one to count as pasted.
const CHANCE: f64 = 0.05;

/// Refuses a log in which a block of rows comes again.
///
/// A block is three or more rows one after another, at least two of them failures and with at least two different
/// lives, that come again later in the same order. Rows that are frequent in the log make a block that may come again by
/// chance: it counts only if less than one in twenty such logs would show one, or if it is half of the log.
///
/// # Errors
/// [`FitError::Pasted`] with the longest block from the first row that starts one.
pub fn refuse_pasted_rows(rows: &[Row]) -> Result<(), FitError> {
    let keys: Vec<Vec<u64>> = rows.iter().map(key).collect();
    let mut count: BTreeMap<&[u64], f64> = BTreeMap::new();
    for key in &keys {
        *count.entry(key).or_default() += 1.0;
    }
    let mut starts: BTreeMap<&[Vec<u64>], usize> = BTreeMap::new();
    let mut found: Option<(usize, usize, usize)> = None;
    for (again, window) in keys.windows(BLOCK).enumerate() {
        let first = *starts.entry(window).or_insert(again);
        if first + BLOCK > again || found.is_some_and(|(known, _, _)| known < first) {
            continue;
        }
        let length = shared(&keys, first, again);
        let longer = found.is_none_or(|(known, _, longest)| first < known || longest < length);
        if longer && tells(&rows[first..first + length]) && pasted(&keys[first..first + length], &count) {
            found = Some((first, again, length));
        }
    }
    found.map_or(Ok(()), |(first, again, length)| Err(FitError::Pasted { first, again, length }))
}

/// All that a row says, to be compared.
fn key(row: &Row) -> Vec<u64> {
    let told = [row.life, row.weight, f64::from(u8::from(row.has_failed()))];
    row.x.iter().chain(&told).map(|value| value.to_bits()).collect()
}

/// How many rows from `first` on come again from `again` on, without overlap.
fn shared(keys: &[Vec<u64>], first: usize, again: usize) -> usize {
    keys[first..again].iter().zip(&keys[again..]).take_while(|(one, other)| one == other).count()
}

fn tells(block: &[Row]) -> bool {
    let failures = block.iter().filter(|row| row.has_failed()).count();
    failures >= 2 && block.iter().any(|row| row.life.to_bits() != block[0].life.to_bits())
}

/// Whether a block is unlikely to come again by itself: places for it times the frequencies of its rows.
fn pasted(block: &[Vec<u64>], count: &BTreeMap<&[u64], f64>) -> bool {
    let all: f64 = count.values().sum();
    let mut expected = 0.5 * all * all;
    let mut length = 0.0;
    for row in block {
        expected *= count.get(row.as_slice()).map_or(0.0, |count| count / all);
        length += 1.0;
    }
    expected < CHANCE || 2.0 * length >= all
}

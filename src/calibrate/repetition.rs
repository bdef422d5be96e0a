//! Rows that were pasted twice.

use super::error::FitError;
use super::sample::Row;

/// Fewest rows that make a block.
const BLOCK: usize = 3;

/// Refuses a log in which a block of rows comes again.
///
/// A block is three or more rows one after another, at least two of them failures and with at least two different
/// lives, that come again later in the same order. Lives read to the minute can repeat by chance in a long log.
///
/// # Errors
/// [`FitError::Pasted`] with the longest block from the first row that starts one.
pub fn refuse_pasted_rows(rows: &[Row]) -> Result<(), FitError> {
    for first in 0..rows.len() {
        let longest =
            (first + BLOCK..rows.len()).map(|again| (again, shared(rows, first, again))).max_by_key(|x| x.1);
        if let Some((again, length)) = longest
            && length >= BLOCK
            && tells(&rows[first..first + length])
        {
            return Err(FitError::Pasted { first, again, length });
        }
    }
    Ok(())
}

/// How many rows from `first` on come again from `again` on, without overlap.
fn shared(rows: &[Row], first: usize, again: usize) -> usize {
    let pairs = rows[first..again].iter().zip(&rows[again..]);
    pairs.take_while(|(one, other)| one == other).count()
}

fn tells(block: &[Row]) -> bool {
    let failures = block.iter().filter(|row| row.has_failed()).count();
    failures >= 2 && block.iter().any(|row| row.life.to_bits() != block[0].life.to_bits())
}

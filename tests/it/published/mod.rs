//! Published figures: every row of `tests/published/*.toml` is worked and held against what was printed.

mod chains;
mod designation;
mod fits;
mod formulas;
mod gears;
mod holes;
mod grinding;
mod inputs;
mod life;
mod limits;
mod milling;
mod replacement;
mod rows;
mod turning;
mod wear;

//! A proposed operation as TOML, every choice with its reason beside it.

mod lines;
mod work;

pub(super) use lines::write;

//! What is wrong with the user's text, where, and what to write instead.
//!
//! Knows files, places and severities; knows neither TOML nor machining. Mistakes are collected, sorted by place and
//! shown together, each with a code that can be explained on request.

mod code;
mod diagnostic;
mod escape;
mod explanation;
mod nearest;
mod render;
mod source;
mod span;

pub use code::{Code, UnknownCode};
pub use diagnostic::{Diagnostic, Diagnostics, SHOWN_AT_MOST, Severity};
pub use escape::{escaped, is_unprintable};
pub use explanation::Explanation;
pub use nearest::nearest;
pub use render::{Color, render};
pub use source::{FileId, Place, SourceFile, SourceMap};
pub use span::Span;

//! From text to a scenario: bytes, spanned tree, fields of a table, values with units, names to places.
//!
//! Mistakes are collected in file order with the place of each; nothing is computed while an error stands.

mod decode;
mod files;

mod depth;
mod syntax;
mod tree;

mod fields;
mod figure;
pub mod read;

mod built_in;
mod catalog;
mod citation;
mod life;
mod life_figures;
mod material;
mod registry;
mod replacement;
mod tool;

mod calendar;
mod firm;
mod machine;
mod overtime;

mod bill;
mod cut;
mod drawing;
mod edges;
mod entries;
mod lots;
mod operation;
mod order;
mod part;
mod station;
mod work;

mod load;
pub mod log;
mod shelves;

pub use citation::Citation;
pub use cut::CutPlaces;
pub use decode::{LARGEST_FILE, Unreadable, decode};
pub use drawing::DrawingPlaces;
pub use entries::{Entries, EntriesError, entries};
pub use fields::{Fields, Spanned};
pub use figure::Figured;
pub use files::FileError;
pub use load::{Loaded, Origin, Places, Purpose, load, load_for};
pub use operation::OperationPlaces;

pub use shelves::{CATALOG_KINDS, CatalogEntry, CatalogFigure, catalog_entries};
pub use tree::{Entry, Node, Table, Value, merge, parse};

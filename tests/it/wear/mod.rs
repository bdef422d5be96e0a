//! Change points, constants from logs, counts against the model, and files laid over scenarios.

mod actual_command;
mod change_points;
mod common_stops;
mod early_changes;
mod fit_command;
mod fit_overlay;
mod fit_reference;
mod kept_size;
mod overlay;
mod program_files;
mod shop;
mod wear_command;

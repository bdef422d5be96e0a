//! The sequencer against published examples, and on small random floors against all orders there are.

mod checker;
mod every_order;
mod examples;
mod floors;
mod layout;

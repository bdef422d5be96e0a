//! Which task runs on which machine in which order: the sequencing of one shift, or of any small floor.
//!
//! A [`TaskSet`] knows tasks, ways to do them, links, setups and machines, and nothing of plans or cutting. [`order()`]
//! starts from dispatch rules and improves by tabu search: a task on a critical path is taken out of its queue and put
//! back at the best place of any machine that can do it. The work is counted in moves, so the same set, aim and effort
//! always give the same answer.

mod aim;
mod tasks;
mod setups;
mod fault;
mod graph;
mod board;
mod dispatch;
mod gap;
mod memory;
mod offers;
mod search;
mod critical;
mod starts;
mod bound;
mod one_machine;
mod answer;

pub use aim::{Aim, Effort};
pub use answer::{Ordered, order};
pub use fault::OrderFault;
pub use setups::Setups;
pub use tasks::{Link, Task, TaskSet, Tie, Way};

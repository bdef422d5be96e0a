//! The search for a plan as the person at the terminal sees it: Ctrl-C and a time limit end the search, not the program, and a
//! line tells how far it is.
//!
//! `signal-hook` sets flags from the signal itself: no thread of its own, no handler of ours, and the second Ctrl-C ends the
//! program at once even if nobody looks at the flags any more.

use crate::arguments::Effort;
use signal_hook::consts::SIGINT;
use signal_hook::flag;
use std::cell::Cell;
use std::io::{IsTerminal, Write};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};
use wearland::commands::{Answer, Failure, Verdict};
use wearland::schedule::{Progress, Search};

/// What ends a search.
struct Stops {
    /// Ends the search.
    stop: Arc<AtomicBool>,
    /// Somebody pressed Ctrl-C.
    interrupted: Arc<AtomicBool>,
}

/// Exit code of a program that Ctrl-C has ended: 128 and the number of the signal.
const ENDED_BY_INTERRUPT: i32 = 130;

impl Stops {
    /// Watches for Ctrl-C and, if there is one, the time limit.
    fn watch(limit: Option<Duration>) -> Result<Self, Failure> {
        let stops = Self { stop: Arc::default(), interrupted: Arc::default() };
        let refused = |error: std::io::Error| Failure::Bug(format!("Ctrl-C cannot be watched for: {error}"));
        // In this order: the first Ctrl-C finds the flag unset, sets it and goes on; the second ends the program.
        flag::register_conditional_shutdown(SIGINT, ENDED_BY_INTERRUPT, Arc::clone(&stops.interrupted))
            .map_err(refused)?;
        flag::register(SIGINT, Arc::clone(&stops.interrupted)).map_err(refused)?;
        flag::register(SIGINT, Arc::clone(&stops.stop)).map_err(refused)?;
        if let Some(limit) = limit {
            let stop = Arc::clone(&stops.stop);
            // It ends with the program.
            std::thread::spawn(move || {
                std::thread::sleep(limit);
                stop.store(true, Ordering::Relaxed);
            });
        }
        Ok(stops)
    }

    fn why(&self) -> &'static str {
        if self.interrupted.load(Ordering::Relaxed) { "was interrupted" } else { "came to its time limit" }
    }
}

/// A line on standard error.
struct ProgressLine {
    begun: Instant,
    terminal: bool,
    asked: bool,
    drawn: Cell<bool>,
}

/// Time after which a search is worth a line.
const PATIENCE: Duration = Duration::from_secs(1);

impl ProgressLine {
    #[expect(clippy::disallowed_methods, reason = "how long somebody has waited is no part of a report")]
    fn new(effort: &Effort) -> Self {
        Self {
            begun: Instant::now(),
            terminal: std::io::stderr().is_terminal(),
            asked: effort.progress,
            drawn: Cell::new(false),
        }
    }

    fn tell(&self, progress: &Progress) {
        if !self.asked && (!self.terminal || self.begun.elapsed() < PATIENCE) {
            return;
        }
        let Progress { round, lateness, cost } = progress;
        let line = format!("round {round}: {lateness:.1} piece h late, cost {cost:.0}");
        if self.terminal {
            self.drawn.set(true);
            say(&format!("\r\x1b[K{line}"));
        } else {
            say(&format!("{line}\n"));
        }
    }

    fn clear(&self) {
        if self.drawn.get() {
            say("\r\x1b[K");
        }
    }
}

/// Runs a command that searches for a plan.
pub(crate) fn searched(
    effort: &Effort,
    run: impl FnOnce(Search<'_>) -> Result<Answer, Failure>,
) -> Result<Answer, Failure> {
    let stops = Stops::watch(effort.time_limit)?;
    let line = ProgressLine::new(effort);
    let told = |progress: &Progress| line.tell(progress);
    let usual = Search::default();
    let search = Search {
        rounds: effort.rounds.unwrap_or(usual.rounds),
        gap: effort.gap.unwrap_or(usual.gap),
        stop: Some(&stops.stop),
        told: Some(&told),
    };
    let answer = run(search);
    line.clear();
    let answer = answer?;
    if answer.verdict == Verdict::CutShort {
        let why = stops.why();
        say(&format!("warning: the search {why}: this is the best plan found so far; it keeps every rule\n"));
    }
    Ok(answer)
}

/// Words go to standard error; if nobody listens there, nothing is lost.
fn say(text: &str) {
    let mut error = std::io::stderr().lock();
    let _ = error.write_all(text.as_bytes());
    let _ = error.flush();
}

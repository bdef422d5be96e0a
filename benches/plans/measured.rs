//! Seconds of the processor and memory of this process, as the system counts them.

/// A result and the seconds of the processor it took.
pub(crate) struct Measured<T> {
    pub(crate) result: T,
    pub(crate) seconds: f64,
}

/// Does work and counts its seconds.
pub(crate) fn measured<T>(work: impl FnOnce() -> T) -> Measured<T> {
    let before = processor_seconds();
    let result = work();
    Measured { result, seconds: processor_seconds() - before }
}

/// Seconds of all processors so far; none where the system does not say.
#[expect(clippy::disallowed_methods, reason = "what the system tells of this process is no input")]
fn processor_seconds() -> f64 {
    // Nanoseconds run by each thread.
    let Ok(tasks) = std::fs::read_dir("/proc/self/task") else { return f64::NAN };
    let told = tasks.flatten().filter_map(|task| std::fs::read_to_string(task.path().join("schedstat")).ok());
    let nanoseconds = told.filter_map(|text| text.split_whitespace().next()?.parse::<f64>().ok());
    nanoseconds.sum::<f64>() / 1e9
}

/// Most memory held at a time so far.
#[expect(clippy::disallowed_methods, reason = "what the system tells of this process is no input")]
pub(crate) fn peak_megabytes() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = peak.and_then(|peak| peak.split_whitespace().next()?.parse::<f64>().ok());
    kilobytes.unwrap_or(f64::NAN) / 1024.0
}

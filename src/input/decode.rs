//! From bytes to text.

use crate::diag::{Code, Diagnostic};
use thiserror::Error;

/// Largest file that is read, in bytes.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;

/// Why bytes are no text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum Unreadable {
    /// Nothing but blanks.
    #[error("the file is empty")]
    Empty,
    /// Larger than [`LARGEST_FILE`].
    #[error("the file has {bytes} bytes, more than the {LARGEST_FILE} that are read")]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// Starts with the byte order mark of UTF-16.
    #[error("the file is UTF-16, expected UTF-8")]
    Utf16,
    /// A NUL byte.
    #[error("line {line} has a NUL byte, expected plain text in UTF-8")]
    Nul {
        /// Line, from 1.
        line: usize,
    },
    /// Bytes that are not UTF-8.
    #[error("line {line} has bytes that are not UTF-8")]
    NotUtf8 {
        /// Line, from 1.
        line: usize,
    },
}

impl Unreadable {
    /// As a mistake of the named file.
    #[must_use]
    pub fn diagnostic(self, file_name: &str) -> Diagnostic {
        let (code, help) = match self {
            Self::TooLarge { .. } => (Code::TooLarge, "split it over several files of one folder"),
            Self::Empty => (Code::NotText, "write a scenario or a catalog into it, or leave the file out"),
            Self::Utf16 | Self::Nul { .. } | Self::NotUtf8 { .. } => {
                (Code::NotText, "save it as plain text in UTF-8")
            }
        };
        Diagnostic::new(code, format!("cannot read `{file_name}`: {self}")).help(help)
    }
}

/// The text of a file, without the byte order mark of UTF-8.
///
/// # Errors
/// [`Unreadable`] if it is empty, too large or no text in UTF-8.
///
/// # Example
/// ```
/// use wearland::input::{Unreadable, decode};
/// assert_eq!(decode(b"\xEF\xBB\xBFa = 1"), Ok("a = 1".to_owned()));
/// assert_eq!(decode(b"a = 1\n\xFF"), Err(Unreadable::NotUtf8 { line: 2 }));
/// ```
pub fn decode(bytes: &[u8]) -> Result<String, Unreadable> {
    if LARGEST_FILE < bytes.len() {
        return Err(Unreadable::TooLarge { bytes: bytes.len() });
    }
    if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        return Err(Unreadable::Utf16);
    }
    let line = |end: usize| bytes[..end].split(|byte| *byte == b'\n').count();
    if let Some(at) = bytes.iter().position(|byte| *byte == 0) {
        return Err(Unreadable::Nul { line: line(at) });
    }
    let text = std::str::from_utf8(bytes)
        .map_err(|error| Unreadable::NotUtf8 { line: line(error.valid_up_to()) })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() { Err(Unreadable::Empty) } else { Ok(text.to_owned()) }
}

#[cfg(test)]
mod tests {
    use super::{LARGEST_FILE, Unreadable, decode};
    use crate::diag::Code;

    #[test]
    fn what_is_no_text_is_refused() {
        assert_eq!(decode(b" \r\n"), Err(Unreadable::Empty));
        assert_eq!(decode(b"\xFF\xFEa\0"), Err(Unreadable::Utf16));
        assert_eq!(decode(b"a\n\n\0"), Err(Unreadable::Nul { line: 3 }));
        let large = vec![b' '; LARGEST_FILE + 1];
        let error = decode(&large).unwrap_err();
        assert_eq!(error.diagnostic("a.toml").code, Code::TooLarge);
        assert_eq!(Unreadable::Utf16.diagnostic("a.toml").code, Code::NotText);
    }
}

//! How deep a TOML text nests, told before it is parsed, so that no text can exhaust the stack.

/// Deepest nesting that is read: brackets, braces, and the dots of keys and headers.
pub(super) const DEEPEST: usize = 64;

/// The byte at which the text nests deeper than [`DEEPEST`]. Strings and comments are passed over. A dot inside a
/// number counts too, which makes the answer at most one too strict.
pub(super) fn too_deep_at(text: &str) -> Option<usize> {
    let bytes = text.as_bytes();
    let mut depth = Depth { header: 0, open: vec![0], total: 0 };
    let mut line_is_blank = true;
    let mut at = 0;
    while let Some(&byte) = bytes.get(at) {
        let here = at;
        match byte {
            b'"' | b'\'' => at = string_end(bytes, at) - 1,
            b'#' => at = line_end(bytes, at) - 1,
            b'[' if line_is_blank && depth.open.len() == 1 => {
                let end = line_end(bytes, at);
                depth.set_header(header_depth(&bytes[at..end]));
                at = end - 1;
            }
            b'[' | b'{' => depth.enter(),
            b']' | b'}' => depth.leave(),
            b'.' => depth.dot(),
            b',' if depth.open.len() != 1 => depth.next_entry(),
            b'\n' if depth.open.len() == 1 => depth.next_entry(),
            _ => {}
        }
        if DEEPEST < depth.total {
            return Some(here);
        }
        line_is_blank = byte == b'\n' || (line_is_blank && matches!(byte, b' ' | b'\t' | b'\r'));
        at += 1;
    }
    None
}

struct Depth {
    /// Of the last table header.
    header: usize,
    /// For each open bracket, and for the line outside all of them: itself and the dots of its current key.
    open: Vec<usize>,
    /// Sum of it all.
    total: usize,
}

impl Depth {
    fn set_header(&mut self, depth: usize) {
        self.total = self.total - self.header + depth;
        self.header = depth;
    }

    fn enter(&mut self) {
        self.open.push(1);
        self.total += 1;
    }

    fn leave(&mut self) {
        if 1 < self.open.len() {
            self.total -= self.open.pop().unwrap_or(0);
        }
    }

    fn dot(&mut self) {
        if let Some(last) = self.open.last_mut() {
            *last += 1;
            self.total += 1;
        }
    }

    fn next_entry(&mut self) {
        let base = usize::from(self.open.len() != 1);
        if let Some(last) = self.open.last_mut() {
            self.total = self.total - *last + base;
            *last = base;
        }
    }
}

fn header_depth(line: &[u8]) -> usize {
    let mut depth = 0;
    let mut at = 0;
    while let Some(&byte) = line.get(at) {
        match byte {
            b'"' | b'\'' => at = string_end(line, at) - 1,
            b'#' => break,
            b'[' | b'.' => depth += 1,
            _ => {}
        }
        at += 1;
    }
    depth
}

fn line_end(bytes: &[u8], from: usize) -> usize {
    bytes[from..].iter().position(|byte| *byte == b'\n').map_or(bytes.len(), |length| from + length)
}

/// One past the string that opens at a byte; an unclosed one ends with its line, one of several lines with the text.
fn string_end(bytes: &[u8], open: usize) -> usize {
    let quote = bytes[open];
    let long = bytes[open..].starts_with(&[quote; 3]);
    let mut at = if long { open + 3 } else { open + 1 };
    while let Some(&byte) = bytes.get(at) {
        if byte == b'\\' && quote == b'"' {
            at += 1;
        } else if byte == b'\n' && !long {
            return at;
        } else if byte == quote && !long {
            return at + 1;
        } else if byte == quote && bytes[at..].starts_with(&[quote; 3]) {
            // Up to two more quotes may stand before the closing three.
            let more = bytes[at + 3..].iter().take(2).take_while(|next| **next == quote).count();
            return at + 3 + more;
        }
        at += 1;
    }
    bytes.len()
}

#[cfg(test)]
mod tests {
    use super::too_deep_at;

    #[test]
    fn brackets_dots_and_headers_add_up() {
        assert!(too_deep_at(&"[".repeat(10_000)).is_some());
        assert!(too_deep_at(&format!("a = {}", "[".repeat(10_000))).is_some());
        assert!(too_deep_at(&format!("a{} = 1", ".a".repeat(10_000))).is_some());
        assert!(too_deep_at(&format!("[a{}]", ".a".repeat(10_000))).is_some());
        assert!(too_deep_at(&"{ a.b.c = ".repeat(30)).is_some());
        assert!(too_deep_at(&format!("[a{}]\nb{} = 1", ".a".repeat(40), ".b".repeat(40))).is_some());
        assert_eq!(too_deep_at(&format!("a = {}{}", "[".repeat(60), "]".repeat(60))), None);
    }

    #[test]
    fn strings_comments_and_many_shallow_lines_are_not_deep() {
        let quiet = "a = \"[[[...\\\"[[[\" # [[[...\nb = '''[[[\n[[['''\nc = [0.5, 0.25,\n 1.5]\n[[d.e]]\n";
        assert_eq!(too_deep_at(&quiet.repeat(1000)), None);
        assert_eq!(too_deep_at(&"x = \"[[[\n".repeat(1000)), None);
    }
}

//! A written report into a file, whole or not at all.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Names tried for the file beside the target before giving up.
const ATTEMPTS: u32 = 100;

/// Saves a text: the file has all of it or is left as it was.
///
/// The text goes to a new file in the same folder, which takes the place of the target once it is on the disk. A target
/// that is no plain file, such as a pipe or a device, is written straight.
///
/// # Errors
/// Whatever the file system reports; nothing is left behind.
pub fn save(path: &Path, text: &str) -> io::Result<()> {
    // A link keeps pointing where it points: its target is replaced.
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let known = fs::metadata(path).ok();
    if known.as_ref().is_some_and(|known| !known.is_file()) {
        return OpenOptions::new().write(true).open(path)?.write_all(text.as_bytes());
    }
    let (part, file) = part_beside(path)?;
    let done = fill(file, text)
        .and_then(|()| known.map_or(Ok(()), |known| fs::set_permissions(&part, known.permissions())))
        .and_then(|()| fs::rename(&part, path));
    if done.is_err() {
        // The first error is the one to report.
        let _ = fs::remove_file(&part);
    }
    done
}

fn fill(mut file: File, text: &str) -> io::Result<()> {
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

/// A new file in the folder of the target.
fn part_beside(path: &Path) -> io::Result<(PathBuf, File)> {
    let folder = path.parent().unwrap_or(Path::new(""));
    let mut attempt = 0;
    loop {
        let part = folder.join(format!(".wearland-{}-{attempt}.part", std::process::id()));
        match File::create_new(&part) {
            Ok(file) => return Ok((part, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && attempt < ATTEMPTS => attempt += 1,
            Err(error) => return Err(error),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::save;
    use std::fs;

    #[test]
    fn a_file_is_replaced_whole_and_a_folder_refused() {
        let folder = std::env::temp_dir().join(format!("wearland-save-{}", std::process::id()));
        fs::create_dir_all(folder.join("taken")).unwrap();
        let target = folder.join("plan.csv");
        save(&target, "a long first text\n").unwrap();
        save(&target, "short\n").unwrap();
        assert_eq!(fs::read(&target).unwrap(), b"short\n");
        assert!(save(&folder.join("taken"), "text").is_err());
        assert!(save(&folder.join("absent/plan.csv"), "text").is_err());
        let mut left: Vec<_> =
            fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().file_name()).collect();
        left.sort();
        fs::remove_dir_all(&folder).unwrap();
        assert_eq!(left, ["plan.csv", "taken"]);
    }
}

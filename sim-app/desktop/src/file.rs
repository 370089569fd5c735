//! Files: cards in, results out.
//!
//! In: a path. Out: a job, or a file that appears whole or not at all. Rule: a
//! result is written beside its target and then takes its name, so that a full
//! disk or a pulled plug leaves the old file as it was. What is no ordinary file
//! (a pipe, a terminal) is written straight.

use boltbay_core::Job;
use boltbay_core::card::{CardError, CardReader};
use std::fs::{self, OpenOptions};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// Bytes read at a time; the reader itself holds no more than a row.
const CHUNK: usize = 8192;

/// Why there is no job.
#[derive(Debug)]
pub enum ReadError {
    /// The file cannot be read.
    File(io::Error),
    /// It is no good card.
    Card(CardError),
}

/// Reads a card; `-` is standard input.
pub fn read_card(path: &Path, stdin: &mut dyn Read, job: &mut Job) -> Result<(), ReadError> {
    if path == Path::new("-") {
        return read_from(stdin, job);
    }
    let mut file = fs::File::open(path).map_err(ReadError::File)?;
    read_from(&mut file, job)
}

fn read_from(source: &mut dyn Read, job: &mut Job) -> Result<(), ReadError> {
    let mut reader = CardReader::new();
    let mut chunk = [0; CHUNK];
    loop {
        let count = match source.read(&mut chunk) {
            Ok(0) => return reader.finish(job).map_err(ReadError::Card),
            Ok(count) => count,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            Err(error) => return Err(ReadError::File(error)),
        };
        let bytes = chunk.get(..count).unwrap_or(&chunk);
        reader.feed(bytes, job).map_err(ReadError::Card)?;
    }
}

/// Writes a result whole or not at all.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let target = resolved(path);
    match fs::metadata(&target) {
        Ok(found) if found.is_dir() => Err(io::ErrorKind::IsADirectory.into()),
        Ok(found) if !found.is_file() => straight(&target, bytes),
        Ok(found) if found.permissions().readonly() => Err(io::ErrorKind::PermissionDenied.into()),
        Ok(found) => beside(&target, bytes, Some(found.permissions())),
        Err(error) if error.kind() == io::ErrorKind::NotFound => beside(&target, bytes, None),
        Err(error) => Err(error),
    }
}

/// The file that a link points to, so that the link stays one.
fn resolved(path: &Path) -> PathBuf {
    fs::canonicalize(path).unwrap_or_else(|_| path.to_owned())
}

fn straight(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).open(path)?;
    file.write_all(bytes)?;
    file.flush()
}

/// Through a file of another name in the same folder.
fn beside(path: &Path, bytes: &[u8], old: Option<fs::Permissions>) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".boltbay-");
    #[cfg(unix)]
    let ordinary = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(ordinary);
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    if let Some(old) = old {
        file.as_file().set_permissions(old)?;
    }
    file.as_file().sync_all()?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

//! Memory cards as files: made empty with a FAT, filled and read by tools that share
//! nothing with the firmware.

use std::fs::{File, OpenOptions};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// First sector of the one partition.
const PARTITION: u64 = 2048;
/// Bytes of a sector.
const SECTOR: u64 = 512;
/// Bytes of the journal's file.
const JOURNAL: u64 = 8 << 20;

/// A card, gone when dropped.
pub struct MemoryCard {
    folder: TempDir,
}

fn tool(name: &str, arguments: &[&str]) -> Vec<u8> {
    let missing = "apt-get install mtools dosfstools";
    let done = Command::new(name).args(arguments).output().expect(missing);
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "{name} {arguments:?}: {said}");
    done.stdout
}

impl MemoryCard {
    /// A card without partitions.
    pub fn blank(megabytes: u64) -> MemoryCard {
        let card = MemoryCard {
            folder: tempfile::tempdir().unwrap(),
        };
        let file = File::create(card.path()).unwrap();
        file.set_len(megabytes << 20).unwrap();
        card
    }

    /// A card with one partition, formatted with a FAT of so many bits.
    pub fn formatted(megabytes: u64, bits: u8) -> MemoryCard {
        let card = MemoryCard::blank(megabytes);
        let sectors = (megabytes << 20) / SECTOR - PARTITION;
        // Kinds of partitions, by logical block address: FAT16 and FAT32.
        let kind = if bits == 32 { 0x0C } else { 0x0E };
        let mut entry = vec![0, 0xFE, 0xFF, 0xFF, kind, 0xFE, 0xFF, 0xFF];
        entry.extend(u32::try_from(PARTITION).unwrap().to_le_bytes());
        entry.extend(u32::try_from(sectors).unwrap().to_le_bytes());
        let mut file = OpenOptions::new().write(true).open(card.path()).unwrap();
        file.seek(SeekFrom::Start(446)).unwrap();
        file.write_all(&entry).unwrap();
        file.seek(SeekFrom::Start(510)).unwrap();
        file.write_all(&[0x55, 0xAA]).unwrap();
        let (bits, start) = (bits.to_string(), PARTITION.to_string());
        let (path, kilobytes) = (card.text(), (sectors / 2).to_string());
        let place = ["-h", &start, "--offset", &start, &path, &kilobytes];
        tool("/sbin/mkfs.vfat", &[&["-F", &bits], &place[..]].concat());
        card
    }

    /// Where it is.
    pub fn path(&self) -> PathBuf {
        self.folder.path().join("card.img")
    }

    fn text(&self) -> String {
        self.path().to_str().unwrap().to_owned()
    }

    fn volume(&self) -> String {
        format!("{}@@1M", self.text())
    }

    /// Puts a file into its root.
    pub fn put(&self, name: &str, bytes: &[u8]) {
        let beside = self.folder.path().join(name);
        std::fs::write(&beside, bytes).unwrap();
        self.put_file(&beside, name);
    }

    /// Puts a file that is there already into its root.
    pub fn put_file(&self, from: &Path, name: &str) {
        let (volume, name) = (self.volume(), format!("::{name}"));
        tool("mcopy", &["-i", &volume, from.to_str().unwrap(), &name]);
    }

    /// Takes a file out of its root.
    pub fn remove(&self, name: &str) {
        tool("mdel", &["-i", &self.volume(), &format!("::{name}")]);
    }

    /// A file of zeros for the journal, so that the firmware need not make it.
    pub fn with_journal(self) -> MemoryCard {
        let zeros = vec![0; usize::try_from(JOURNAL).unwrap()];
        self.put("BOLTBAY.JNL", &zeros);
        self
    }

    /// Every byte of it.
    pub fn bytes(&self) -> Vec<u8> {
        std::fs::read(self.path()).unwrap()
    }

    /// Pulled, before anything is started.
    pub fn take_out(&self) {
        std::fs::rename(self.path(), self.folder.path().join("out")).unwrap();
    }

    /// Put in, whatever runs.
    pub fn put_in(&self) {
        std::fs::rename(self.folder.path().join("out"), self.path()).unwrap();
    }

    /// Another card in its place, in the midst of whatever the emulator does.
    pub fn swap(&self, bytes: &[u8]) {
        let mut file = OpenOptions::new().write(true).open(self.path()).unwrap();
        file.write_all(bytes).unwrap();
    }

    /// Puts files into its root until nothing more fits.
    pub fn fill(&self) {
        let zeros = self.folder.path().join("zeros");
        for bytes in [1 << 22, 1 << 16, 1 << 11] {
            std::fs::write(&zeros, vec![0; bytes]).unwrap();
            for number in 0.. {
                let name = format!("::F{bytes:07}.{number:03}");
                let (volume, from) = (self.volume(), zeros.to_str().unwrap());
                let copied = Command::new("mcopy")
                    .args(["-i", &volume, from, &name])
                    .output()
                    .unwrap();
                if !copied.status.success() {
                    break;
                }
            }
        }
    }

    /// What a file of its root holds.
    pub fn get(&self, name: &str) -> String {
        let bytes = tool("mtype", &["-i", &self.volume(), &format!("::{name}")]);
        String::from_utf8(bytes).unwrap()
    }

    /// The names of its root.
    pub fn names(&self) -> String {
        let bytes = tool("mdir", &["-b", "-i", &self.volume(), "::"]);
        String::from_utf8(bytes).unwrap()
    }

    /// Fails if the volume is damaged.
    pub fn check(&self) {
        let mut file = File::open(self.path()).unwrap();
        file.seek(SeekFrom::Start(PARTITION * SECTOR)).unwrap();
        let alone = self.folder.path().join("volume.img");
        let mut volume = Vec::new();
        file.read_to_end(&mut volume).unwrap();
        std::fs::write(&alone, volume).unwrap();
        tool("/sbin/fsck.vfat", &["-n", alone.to_str().unwrap()]);
    }
}

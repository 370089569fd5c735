//! A memory card in memory, formatted by hand, and a slow reading of it that shares
//! nothing with the firmware: every chain is followed, every cluster counted.
//!
//! Source of all offsets: FAT Specification 1.03, 3 to 6.

use std::collections::BTreeMap;
use std::io::Write;
use std::process::Command;
use std::rc::Rc;

/// A block.
pub type Block = [u8; 512];

/// First block of the partition.
const START: u32 = 64;
/// Blocks before the tables.
const RESERVED: u32 = 32;
/// Where the first block of a FAT32 volume lies once more.
const BACKUP: u32 = 6;
/// Bytes of an entry of a folder.
const ENTRY: usize = 32;
/// Attributes of a file that is not backed up yet, and of a folder.
const ARCHIVE: u8 = 0x20;
const FOLDER: u8 = 0x10;

/// How a card is formatted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Format {
    /// 16 or 32.
    pub bits: u32,
    pub clusters: u32,
    pub blocks_a_cluster: u32,
}

/// The fewest clusters of each kind, and some more than the journal takes.
pub const FAT16: Format = Format {
    bits: 16,
    clusters: 4200,
    blocks_a_cluster: 8,
};
pub const FAT32: Format = Format {
    bits: 32,
    clusters: 65_525,
    blocks_a_cluster: 1,
};

/// What lies on a card. Cloned, it shares what is not written.
#[derive(Clone, PartialEq, Eq)]
pub struct Card {
    pub format: Format,
    blocks: BTreeMap<u32, Rc<Block>>,
}

/// A file that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    pub bytes: Vec<u8>,
    pub clusters: Vec<u32>,
}

fn number(bytes: &[u8]) -> u32 {
    bytes
        .iter()
        .rev()
        .fold(0, |sum, byte| sum * 256 + u32::from(*byte))
}

impl Format {
    fn bytes_an_entry(self) -> usize {
        self.bits as usize / 8
    }

    fn table_blocks(self) -> u32 {
        ((self.clusters + 2) * self.bits / 8).div_ceil(512)
    }

    /// Blocks of the root folder where it is no chain: 512 entries.
    fn root_blocks(self) -> u32 {
        if self.bits == 16 { 32 } else { 0 }
    }

    fn table(self) -> u32 {
        START + RESERVED
    }

    fn root(self) -> u32 {
        self.table() + 2 * self.table_blocks()
    }

    fn data(self) -> u32 {
        self.root() + self.root_blocks()
    }

    /// The first block behind everything.
    pub fn end(self) -> u32 {
        self.data() + self.clusters * self.blocks_a_cluster
    }

    pub fn first_block(self, cluster: u32) -> u32 {
        self.data() + (cluster - 2) * self.blocks_a_cluster
    }

    fn is_last(self, entry: u32) -> bool {
        entry >= if self.bits == 16 { 0xFFF8 } else { 0x0FFF_FFF8 }
    }
}

impl Card {
    /// A card with nothing on it.
    pub fn formatted(format: Format) -> Card {
        let mut card = Card {
            format,
            blocks: BTreeMap::new(),
        };
        let mut first = [0; 512];
        first[446 + 4] = if format.bits == 16 { 0x0E } else { 0x0C };
        first[446 + 8..446 + 12].copy_from_slice(&START.to_le_bytes());
        first[446 + 12..446 + 16].copy_from_slice(&(format.end() - START).to_le_bytes());
        first[510..].copy_from_slice(&[0x55, 0xAA]);
        card.put(0, &first);
        card.put(START, &card.boot_sector());
        if format.bits == 32 {
            let mut info = [0; 512];
            info[..4].copy_from_slice(b"RRaA");
            info[484..488].copy_from_slice(b"rrAa");
            info[488..492].copy_from_slice(&(format.clusters - 1).to_le_bytes());
            info[492..496].copy_from_slice(&3_u32.to_le_bytes());
            info[510..].copy_from_slice(&[0x55, 0xAA]);
            card.put(START + 1, &info);
            card.put(START + BACKUP, &card.boot_sector());
            card.set_entry(2, 0x0FFF_FFFF);
        }
        card.set_entry(0, 0x0FFF_FFF8);
        card.set_entry(1, 0x0FFF_FFFF);
        card
    }

    fn boot_sector(&self) -> Block {
        let format = self.format;
        let mut boot = [0; 512];
        let mut put = |at: usize, bytes: usize, value: u32| {
            boot[at..at + bytes].copy_from_slice(&value.to_le_bytes()[..bytes]);
        };
        // A jump over the rest, and the name of whatever formatted it.
        put(0, 3, 0x0090_3CEB);
        put(11, 2, 512);
        put(13, 1, format.blocks_a_cluster);
        put(14, 2, RESERVED);
        put(16, 1, 2);
        put(17, 2, format.root_blocks() * 16);
        put(21, 1, 0xF8);
        put(28, 4, START);
        put(32, 4, format.end() - START);
        if format.bits == 16 {
            put(22, 2, format.table_blocks());
            put(38, 1, 0x29);
        } else {
            put(36, 4, format.table_blocks());
            put(44, 4, 2);
            put(48, 2, 1);
            put(50, 2, BACKUP);
            put(66, 1, 0x29);
        }
        put(510, 2, 0xAA55);
        boot[3..11].copy_from_slice(b"BYHAND  ");
        let (label, kind) = match format.bits {
            16 => (43, b"FAT16   "),
            _ => (71, b"FAT32   "),
        };
        boot[label..label + 11].copy_from_slice(b"NO NAME    ");
        boot[label + 11..label + 19].copy_from_slice(kind);
        boot
    }

    pub fn get(&self, at: u32) -> Block {
        self.blocks.get(&at).map_or([0; 512], |block| **block)
    }

    pub fn put(&mut self, at: u32, block: &Block) {
        self.blocks.insert(at, Rc::new(*block));
    }

    fn entry_of(&self, copy: u32, cluster: u32) -> u32 {
        let bytes = self.format.bytes_an_entry();
        let at = cluster as usize * bytes;
        let table = self.format.table() + copy * self.format.table_blocks();
        let block = self.get(table + (at / 512) as u32);
        number(&block[at % 512..at % 512 + bytes]) & 0x0FFF_FFFF
    }

    fn set_entry(&mut self, cluster: u32, value: u32) {
        let bytes = self.format.bytes_an_entry();
        let at = cluster as usize * bytes;
        for copy in 0..2 {
            let table = self.format.table() + copy * self.format.table_blocks();
            let place = table + (at / 512) as u32;
            let mut block = self.get(place);
            block[at % 512..at % 512 + bytes].copy_from_slice(&value.to_le_bytes()[..bytes]);
            self.put(place, &block);
        }
    }

    /// Takes clusters, as if something lay there that no file names.
    pub fn take(&mut self, clusters: impl IntoIterator<Item = u32>) {
        for cluster in clusters {
            self.set_entry(cluster, 0x0FFF_FFFF);
        }
    }

    /// The blocks of the root folder.
    fn root(&self) -> Vec<u32> {
        match self.format.bits {
            16 => (self.format.root()..self.format.data()).collect(),
            _ => {
                let blocks = |cluster: &u32| {
                    let first = self.format.first_block(*cluster);
                    first..first + self.format.blocks_a_cluster
                };
                self.chain(2).iter().flat_map(blocks).collect()
            }
        }
    }

    /// Puts an empty folder into the root, of one cluster.
    pub fn put_folder(&mut self, name: &[u8; 11], cluster: u32) {
        let blank = vec![0; self.format.blocks_a_cluster as usize * 512];
        self.put_entry(name, FOLDER, &blank, &[cluster], 0);
    }

    /// Puts a file into the root, its clusters as given.
    pub fn put_file(&mut self, name: &[u8; 11], bytes: &[u8], clusters: &[u32]) {
        self.put_entry(name, ARCHIVE, bytes, clusters, bytes.len());
    }

    fn put_entry(
        &mut self,
        name: &[u8; 11],
        kind: u8,
        bytes: &[u8],
        clusters: &[u32],
        length: usize,
    ) {
        for (at, cluster) in clusters.iter().enumerate() {
            let next = clusters.get(at + 1).copied().unwrap_or(0x0FFF_FFFF);
            self.set_entry(*cluster, next);
        }
        let cluster_bytes = self.format.blocks_a_cluster as usize * 512;
        for (at, piece) in bytes.chunks(512).enumerate() {
            let cluster = clusters[at * 512 / cluster_bytes];
            let behind = (at % self.format.blocks_a_cluster as usize) as u32;
            let mut block = [0; 512];
            block[..piece.len()].copy_from_slice(piece);
            self.put(self.format.first_block(cluster) + behind, &block);
        }
        let first = clusters.first().copied().unwrap_or_default();
        let mut entry = [0; ENTRY];
        entry[..11].copy_from_slice(name);
        entry[11] = kind;
        entry[20..22].copy_from_slice(&(first >> 16).to_le_bytes()[..2]);
        entry[26..28].copy_from_slice(&first.to_le_bytes()[..2]);
        entry[28..].copy_from_slice(&u32::try_from(length).unwrap().to_le_bytes());
        for at in self.root() {
            let mut block = self.get(at);
            if let Some(place) = (0..512).step_by(ENTRY).find(|place| block[*place] == 0) {
                block[place..place + ENTRY].copy_from_slice(&entry);
                return self.put(at, &block);
            }
        }
        panic!("the root is full");
    }

    /// A chain, as the first table has it.
    fn chain(&self, first: u32) -> Vec<u32> {
        let mut chain = vec![first];
        loop {
            let last = *chain.last().unwrap();
            assert!(
                (2..self.format.clusters + 2).contains(&last),
                "no cluster {last}"
            );
            assert!(
                chain.len() <= self.format.clusters as usize,
                "{first} bites its tail"
            );
            let next = self.entry_of(0, last);
            if self.format.is_last(next) {
                return chain;
            }
            chain.push(next);
        }
    }

    /// Every file of the root folder.
    pub fn files(&self) -> BTreeMap<String, File> {
        let mut files = BTreeMap::new();
        let blocks: Vec<Block> = self.root().into_iter().map(|at| self.get(at)).collect();
        for entry in blocks.as_flattened().chunks(ENTRY) {
            if entry[0] == 0 {
                break;
            }
            if entry[0] == 0xE5 {
                continue;
            }
            let name = String::from_utf8(entry[..11].to_vec()).unwrap();
            let first = number(&entry[20..22]) << 16 | number(&entry[26..28]);
            let file = match entry[11] {
                FOLDER => File {
                    bytes: Vec::new(),
                    clusters: self.chain(first),
                },
                _ => self.file(first, number(&entry[28..32]) as usize),
            };
            assert!(files.insert(name, file).is_none(), "a name twice");
        }
        files
    }

    fn file(&self, first: u32, length: usize) -> File {
        if first == 0 {
            assert_eq!(length, 0, "bytes without a cluster");
            return File {
                bytes: Vec::new(),
                clusters: Vec::new(),
            };
        }
        let clusters = self.chain(first);
        let cluster_bytes = self.format.blocks_a_cluster as usize * 512;
        assert_eq!(
            clusters.len(),
            length.div_ceil(cluster_bytes),
            "chain and size"
        );
        let mut bytes = Vec::new();
        // The journal is long and mostly blank.
        if length < 1 << 20 {
            for cluster in &clusters {
                let first = self.format.first_block(*cluster);
                let blocks = first..first + self.format.blocks_a_cluster;
                bytes.extend(blocks.flat_map(|at| self.get(at)));
            }
            bytes.truncate(length);
        }
        File { bytes, clusters }
    }

    /// Fails if the volume is damaged. Clusters that are taken and belong to nothing are
    /// no damage; how many there are. With `is_whole`, both tables must be the same and
    /// the free clusters counted.
    pub fn check(&self, is_whole: bool) -> usize {
        let mut owned = std::collections::BTreeSet::new();
        if self.format.bits == 32 {
            owned.extend(self.chain(2));
        }
        for (name, file) in self.files() {
            for cluster in file.clusters {
                assert!(owned.insert(cluster), "{cluster} of {name} has two owners");
            }
        }
        let all = 2..self.format.clusters + 2;
        let taken = |cluster: &u32| self.entry_of(0, *cluster) != 0;
        let lost = all.clone().filter(taken).filter(|it| !owned.contains(it));
        if is_whole {
            for cluster in 0..self.format.clusters + 2 {
                let [first, second] = [0, 1].map(|copy| self.entry_of(copy, cluster));
                assert_eq!(first, second, "tables differ at {cluster}");
            }
            if self.format.bits == 32 {
                let free = all.clone().filter(|cluster| !taken(cluster)).count();
                let counted = number(&self.get(START + 1)[488..492]);
                assert_eq!(counted as usize, free, "free clusters");
            }
        }
        lost.count()
    }

    /// Corrects the count of free clusters after clusters were taken by hand.
    pub fn count(&mut self) {
        if self.format.bits == 32 {
            let all = 2..self.format.clusters + 2;
            let free = all.filter(|it| self.entry_of(0, *it) == 0).count();
            let mut info = self.get(START + 1);
            info[488..492].copy_from_slice(&u32::try_from(free).unwrap().to_le_bytes());
            self.put(START + 1, &info);
        }
    }

    /// The same question to a tool that shares nothing with us.
    pub fn check_by_tool(&self) {
        let mut volume = tempfile::NamedTempFile::new().unwrap();
        for at in START..self.format.end() {
            volume.write_all(&self.get(at)).unwrap();
        }
        let done = Command::new("/sbin/fsck.vfat")
            .arg("-n")
            .arg(volume.path())
            .output()
            .expect("apt-get install dosfstools");
        let said = String::from_utf8_lossy(&done.stdout);
        assert!(done.status.success(), "{said}");
    }
}

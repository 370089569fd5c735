//! Which block holds what. One place, so that no two things share one.

use super::block::BLOCK;

/// Jobs that a card holds.
pub const JOBS: usize = 16;

/// Blocks of a region: 4 MiB.
pub(super) const REGION: u32 = 8192;
/// Blocks of the whole file: 8 MiB.
pub const STORE_BLOCKS: u32 = 2 * REGION;
/// Records in the ring of one region.
pub(super) const RING: u32 = 128;
/// Block of a region at which its ring starts.
const RING_AT: u32 = 1;
/// Block of a region at which its slots start.
const SLOTS_AT: u32 = 256;
/// Blocks of a slot: its head and its text.
pub(super) const SLOT_BLOCKS: u32 = 32;

/// Bytes that a slot holds besides its head: more than the fullest job has, by a
/// test.
pub const SLOT_BYTES: usize = (SLOT_BLOCKS as usize - 1) * BLOCK;

/// A job of the card, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct JobNumber(u8);

impl JobNumber {
    /// The one that a new card starts with.
    pub const FIRST: JobNumber = JobNumber(0);

    /// All of them.
    pub fn all() -> impl Iterator<Item = JobNumber> {
        (0..JOBS as u8).map(JobNumber)
    }

    /// `None` from [`JOBS`] on.
    pub const fn new(number: u8) -> Option<JobNumber> {
        match (number as usize) < JOBS {
            true => Some(JobNumber(number)),
            false => None,
        }
    }

    /// From 0.
    pub const fn get(self) -> u8 {
        self.0
    }

    pub(super) const fn index(self) -> usize {
        self.0 as usize
    }
}

/// The two halves of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Region {
    Front,
    Back,
}

impl Region {
    /// Both.
    pub(super) const BOTH: [Region; 2] = [Region::Front, Region::Back];

    /// Where record `number` lies.
    pub(super) const fn of(number: u32) -> Region {
        match number.is_multiple_of(2) {
            true => Region::Front,
            false => Region::Back,
        }
    }

    /// The other one.
    pub(super) const fn other(self) -> Region {
        match self {
            Region::Front => Region::Back,
            Region::Back => Region::Front,
        }
    }

    /// Its entry of a pair.
    pub(super) const fn entry<T>(self, [front, back]: &[T; 2]) -> &T {
        match self {
            Region::Front => front,
            Region::Back => back,
        }
    }

    /// Its entry of a pair, to be changed.
    pub(super) const fn entry_mut<T>(self, [front, back]: &mut [T; 2]) -> &mut T {
        match self {
            Region::Front => front,
            Region::Back => back,
        }
    }

    const fn start(self) -> u32 {
        match self {
            Region::Front => 0,
            Region::Back => REGION,
        }
    }
}

/// The block that says whose card this is.
pub(super) const fn head(region: Region) -> u32 {
    region.start()
}

/// Blocks of a store that must be blank when a journal is set up in it; what the others
/// hold does not matter: heads, because one of another journal would be believed, and the
/// rings, because records without a head are a journal that is damaged.
pub fn must_be_blank() -> impl Iterator<Item = u32> {
    let heads = Region::BOTH.into_iter().map(head);
    heads.chain((0..2 * RING).map(ring))
}

/// The block of record `number`.
pub(super) const fn ring(number: u32) -> u32 {
    Region::of(number).start() + RING_AT + (number / 2) % RING
}

/// The head of a job's slot; its text follows.
pub(super) const fn slot(region: Region, job: JobNumber) -> u32 {
    region.start() + SLOTS_AT + job.0 as u32 * SLOT_BLOCKS
}

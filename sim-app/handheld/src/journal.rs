//! The journal: an accepted key press is durable before the screen shows it.
//!
//! In: edits and places of the screens, as bytes that only the handheld
//! understands, and a job that can be written whole ([`Kept`]). Out: the same
//! job, edit for edit, after power went at whatever moment. Knows 512-byte blocks
//! ([`BlockStore`]) and nothing else: a file on a desktop and a memory card on a
//! board run this same code.
//!
//! # The file
//!
//! [`STORE_BLOCKS`] blocks, made once and never extended: two *regions* of 4 MiB,
//! front and back, laid out alike. All numbers are little-endian; every block but
//! those inside a slot ends in a CRC-32C and starts with its kind, the format version
//! and the card's number.
//!
//! ```text
//! block of a region
//!     0          head     whose card this is
//!     1 .. 128   ring     records: one an accepted key
//!   256 ..       slots    one a job, 32 blocks each: a head, then the job
//! ```
//!
//! A *record* holds its number, the job, how many edits that job has had, the
//! place of the screens, what the newest key changed, and as many of the changes
//! before it as fit (one at least, some twenty readings). Records go to the two
//! regions in turn: number n lies in the back if n is odd, at (n / 2) modulo 128.
//! A *slot* holds a job whole.
//!
//! # What holds at every moment
//!
//! **The region that is not being written holds everything that was accepted, by
//! itself.** Cards are known to damage what lies near a sector that was being
//! written when power went. 4 MiB is the largest stretch that a card of up to 32 GB
//! handles as one. Source: SD Physical Layer Simplified Specification 4.10, Tables
//! 4-46 and 4-47 (AU_SIZE).
//!
//! - A record goes to the region that lacks the one before it, and repeats it.
//! - A job's slot is written to the region that lacks the newest record: after
//!   [`SLOT_EVERY`] keys in each region, so that either ring reaches back to its
//!   own slot. Before another job is opened, both.
//! - [`Journal::open`] repairs one region before it writes to the other.
//! - A job that was begun without a card is written only where both regions are whole, and
//!   nothing is recorded before the next opening: see [`Journal::take_in`].
//!
//! A write counts when the block read back is the block written, whatever the
//! card said. A key that was refused has no effect until the next one is accepted
//! in its place; if power goes in between, the job has it or has it not.
//!
//! What no program on one card can survive: a card that puts a block over the newest
//! record, which lies in one place until the next key (that one key is gone); and a
//! card that forgets what it had acknowledged and given back. Then the job is the one before the forgotten
//! edits; where later ones are still there, [`Opening::missing`] says which are not.

mod block;
mod elsewhere;
mod fault;
mod jobs;
mod keeper;
mod kept;
mod late;
mod layout;
mod open;
mod part;
mod record;
mod slot;
mod whole;

pub use block::{BLOCK, Block, BlockStore, CardNumber, StoreError};
pub use fault::Fault;
pub use jobs::Listed;
pub use keeper::{Keeper, Outcome};
pub use kept::{Full, Kept, Sink, Source, Unreadable};
pub use layout::{JOBS, JobNumber, SLOT_BYTES, STORE_BLOCKS, must_be_blank};
pub use open::{Missing, Opening};
pub use record::{EDIT_MOST, PLACE_MOST, Place};
pub use slot::{TITLE_MOST, Title};
pub use whole::edits_as_bytes;

use block::{Kind, TRIES, VERSION};
use late::Begun;
use layout::{RING, Region};
use record::Standing;
use slot::Mark;

/// Records after which a region's slot of the open job is written anew.
pub const SLOT_EVERY: u32 = 128;
/// Records after which both regions' slots are written at once, because nobody
/// called [`Journal::tend`] when it was time.
const SLOT_LATE: u32 = 192;
/// Records that may follow an edit before a slot must hold it. Both rings
/// together are `2 * RING` long; the rest is margin for repeats.
const SLOT_AT_LATEST: u32 = 2 * RING - 16;

/// The journal of one card.
///
/// Some 1,800 bytes, of them two blocks of 512; meant to lie in a static.
/// [`Journal::open`] comes first, and again after a card was out.
pub struct Journal<S> {
    store: S,
    card: CardNumber,
    /// Opened, and not since lost sight of.
    is_open: bool,
    /// The newest record: its number, job, edits and place.
    now: Standing,
    /// Slots by region and job.
    marks: [[Option<Mark>; JOBS]; 2],
    /// By region: the first record with an edit of the open job that its slot
    /// does not hold.
    uncovered: [Option<u32>; 2],
    /// A record that was refused may lie on the card.
    unsettled: bool,
    /// The seal of that record.
    refused: [u8; block::SEAL],
    /// Why one region is not whole.
    unmended: Option<Fault>,
    /// A block could not be read since the card was looked at.
    is_unread: bool,
    /// What is not known to lie whole on a card that came late.
    begun: Option<Begun>,
    /// The card was out, and was not looked through since.
    was_out: bool,
    /// The newest record as written, for its repeats.
    history: Block,
    /// The block being read or written.
    work: Block,
}

impl<S: BlockStore> Journal<S> {
    /// A journal that is not open yet.
    pub const fn new(store: S) -> Journal<S> {
        Journal {
            store,
            card: CardNumber([0; 8]),
            is_open: false,
            now: Standing::new(),
            marks: [[None; JOBS]; 2],
            uncovered: [None; 2],
            unsettled: false,
            unmended: None,
            is_unread: false,
            begun: None,
            refused: [0; block::SEAL],
            was_out: false,
            history: [0; BLOCK],
            work: [0; BLOCK],
        }
    }

    /// The blocks, for a host that must look after them.
    pub fn store(&mut self) -> &mut S {
        &mut self.store
    }

    /// The open job.
    pub fn job(&self) -> JobNumber {
        self.now.job
    }

    /// How many edits the open job has had.
    pub fn edits(&self) -> u32 {
        self.now.edits
    }

    /// Whether the card is there and still the one that was opened, for a host that is
    /// about to write a file beside the journal.
    ///
    /// # Errors
    /// [`Fault::OtherCard`], or whatever the card did.
    pub fn is_here(&mut self) -> Result<(), Fault> {
        self.check_card(Region::Front)
    }

    /// Why nothing can be accepted at present, although jobs can be read: one
    /// region of the card could not be repaired. Cleared by the next
    /// [`Journal::open`] that can.
    pub fn read_only(&self) -> Option<Fault> {
        self.unmended
    }

    /// Makes one accepted key durable: an edit of the open job (empty if the key
    /// only moved the screens), and the place that the screens come back to. One
    /// block is written. After `Ok`, and only then, may the screen show it.
    ///
    /// # Errors
    /// Whatever the card did, after three tries; [`Fault::TendFirst`] if
    /// [`Journal::tend`] was not called for too long, or failed; [`Fault::EditTooLong`],
    /// [`Fault::PlaceTooLong`]. The job is then as before this call.
    pub fn record(&mut self, edit: &[u8], place: &[u8]) -> Result<(), Fault> {
        self.check_writable()?;
        let mut next = self.now.clone();
        next.number = self.next_number()?;
        next.place = Place::from_slice(place).map_err(|_| Fault::PlaceTooLong)?;
        next.edits += u32::from(!edit.is_empty());
        self.check_covered(next.number)?;
        self.put_record(next, edit)?;
        if !edit.is_empty() {
            let number = self.now.number;
            for first in &mut self.uncovered {
                first.get_or_insert(number);
            }
        }
        Ok(())
    }

    /// Writes the open job whole where that is due: seldom, some ten blocks. Call
    /// it after every accepted key, once the screen shows it; `kept` is the job
    /// with every edit recorded so far. Whether anything was written.
    ///
    /// # Errors
    /// Whatever the card did. Nothing is lost, and no key is accepted until a
    /// later call succeeds.
    pub fn tend(&mut self, kept: &impl Kept) -> Result<bool, Fault> {
        self.check_writable()?;
        let lacking = Region::of(self.now.number).other();
        let other = lacking.other();
        // The other one's turn comes with the next key, unless it is late for that.
        let both = self.is_due(other, SLOT_LATE);
        let due = both || self.is_due(lacking, SLOT_EVERY);
        if due && self.slot_number(lacking) != Some(self.now.number) {
            self.write_slot(lacking, kept)?;
        }
        if both {
            self.write_slot(other, kept)?;
        }
        Ok(due)
    }

    /// Whether a region has no slot of the open job, or an edit that the slot does
    /// not hold lies this many records back.
    fn is_due(&self, region: Region, records: u32) -> bool {
        let first = *region.entry(&self.uncovered);
        self.slot_number(region).is_none()
            || first.is_some_and(|first| self.now.number - first >= records)
    }

    /// The newest record when a region's slot of the open job was written.
    fn slot_number(&self, region: Region) -> Option<u32> {
        self.mark(region, self.now.job).map(|mark| mark.number)
    }

    /// Open, whole, and on the card that it was opened on.
    fn check_writable(&mut self) -> Result<(), Fault> {
        if !self.is_open {
            return Err(Fault::NotOpen);
        }
        self.unmended.map_or(Ok(()), Err)
    }

    fn next_number(&self) -> Result<u32, Fault> {
        self.now.number.checked_add(1).ok_or(Fault::WornOut)
    }

    /// Refuses to run a ring over an edit that no slot of its region holds, and to
    /// rely on a region without a slot.
    fn check_covered(&self, number: u32) -> Result<(), Fault> {
        let torn = Region::BOTH.map(|region| self.slot_number(region).is_none());
        let oldest = self.uncovered.iter().flatten().min();
        let late = oldest.is_some_and(|first| number - first >= SLOT_AT_LATEST);
        match late || torn.contains(&true) {
            true => Err(Fault::TendFirst),
            false => Ok(()),
        }
    }

    /// Writes a record and takes it as the newest.
    fn put_record(&mut self, next: Standing, edit: &[u8]) -> Result<(), Fault> {
        self.check_card(Region::of(next.number))?;
        record::write(&mut self.work, self.card, &next, edit, &self.history)?;
        match self.put_back_read(layout::ring(next.number)) {
            Ok(()) => {
                self.unsettled = false;
                self.now = next;
                Ok(())
            }
            Err(fault) => {
                // What was read back is no history; the block written is one,
                // without the edit that was refused.
                record::copy_entries(&self.work, usize::from(!edit.is_empty()), &mut self.history);
                self.unsettled = true;
                self.refused = block::seal(&self.work);
                Err(fault)
            }
        }
    }

    /// Writes `work` and reads it back into `history` until both are the same.
    fn put_back_read(&mut self, at: u32) -> Result<(), Fault> {
        let mut fault = Fault::NotKept;
        for _ in 0..TRIES {
            // The block read back decides, not what the card says of a write:
            // an error may come after the block has landed.
            let wrote = self.store.write(at, &self.work);
            match self.store.read(at, &mut self.history) {
                Ok(()) if self.history == self.work => return Ok(()),
                Ok(()) => fault = wrote.map_or_else(Fault::Store, |()| Fault::NotKept),
                Err(error) => fault = Fault::Store(error),
            }
        }
        Err(fault)
    }

    /// Makes sure that the card is still the one that was opened, and as it was left.
    fn check_card(&mut self, region: Region) -> Result<(), Fault> {
        self.read_block(layout::head(region))?;
        match block::opened(&self.work, Kind::Head) {
            Some(head) if head.card == self.card && head.version == VERSION => self.check_unused(),
            // Most likely a card that has no journal at all.
            _ => Err(Fault::OtherCard),
        }
    }

    /// Overwrites a refused record by one that only says where the screens are,
    /// so that nothing but what was accepted lies on the card.
    fn settle(&mut self) -> Result<(), Fault> {
        if !self.unsettled {
            return Ok(());
        }
        let place = self.now.place.clone();
        self.record(&[], &place)
    }
}

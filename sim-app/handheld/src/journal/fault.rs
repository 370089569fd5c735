//! Why the journal did not do what was asked, in words of the crew.

use super::block::StoreError;

/// What went wrong. Nothing that was accepted before is lost by any of these.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Fault {
    /// The card did not do it, after three tries.
    Store(StoreError),
    /// The card took a block and gave back another.
    NotKept,
    /// No journal on this card: make one, or take another card.
    NoJournal,
    /// Records of a journal, but both its heads are damaged.
    Damaged,
    /// Another card than the one that was opened.
    OtherCard,
    /// The card was out, and somebody has entered something on it meanwhile.
    UsedElsewhere,
    /// A journal of another version of this program.
    OtherVersion(u8),
    /// The file has fewer than [`super::STORE_BLOCKS`] blocks.
    TooSmall,
    /// [`super::Journal::open`] comes first.
    NotOpen,
    /// [`super::Journal::tend`] was not called for too long, or could not write.
    TendFirst,
    /// More than [`super::EDIT_MOST`] bytes.
    EditTooLong,
    /// More than [`super::PLACE_MOST`] bytes.
    PlaceTooLong,
    /// More than [`super::SLOT_BYTES`].
    JobTooLong,
    /// All [`super::JOBS`] jobs are there, none removed.
    JobsFull,
    /// No such job on this card.
    NoSuchJob,
    /// The job is open: open another one first.
    JobIsOpen,
    /// What lies there means nothing to this program.
    Unreadable,
    /// More records than can be counted.
    WornOut,
}

impl Fault {
    /// What is wrong and what to do, in two lines of at most 21 characters.
    pub fn on_screen(self) -> [&'static str; 2] {
        match self {
            Fault::Store(StoreError::NoCard) => ["NO CARD", "PUT IT BACK, OK"],
            Fault::Store(StoreError::Protected) => ["CARD IS LOCKED", "SLIDE ITS LOCK, OK"],
            Fault::Store(StoreError::Read) => ["CARD CANNOT BE READ", "TAKE ANOTHER CARD"],
            Fault::Store(StoreError::Write | StoreError::NoSuchBlock) | Fault::NotKept => {
                ["CARD DOES NOT KEEP IT", "TAKE ANOTHER CARD"]
            }
            Fault::NoJournal => ["CARD IS NOT SET UP", "HOLD OK TO SET IT UP"],
            Fault::Damaged => ["CARD IS DAMAGED", "KEEP IT, TAKE ANOTHER"],
            Fault::OtherCard => ["ANOTHER CREW'S CARD?", "PUT YOURS BACK, OK"],
            Fault::UsedElsewhere => ["CARD USED ELSEWHERE", "TAKE ANOTHER CARD"],
            Fault::OtherVersion(_) => ["CARD OF NEWER PROGRAM", "UPDATE THIS HANDHELD"],
            Fault::TooSmall => ["CARD FILE TOO SHORT", "SET THE CARD UP ANEW"],
            Fault::NotOpen => ["CARD NOT YET READ", "PRESS OK"],
            Fault::TendFirst => ["CARD DOES NOT KEEP UP", "TAKE ANOTHER CARD"],
            Fault::EditTooLong | Fault::PlaceTooLong => ["ENTRY TOO LONG", "MAKE IT SHORTER"],
            Fault::JobTooLong => ["JOB TOO LONG", "START A SECOND JOB"],
            Fault::JobsFull => ["CARD HOLDS 16 JOBS", "REMOVE AN OLD ONE"],
            Fault::NoSuchJob => ["NO SUCH JOB HERE", "PICK FROM THE LIST"],
            Fault::JobIsOpen => ["THIS JOB IS OPEN", "OPEN ANOTHER FIRST"],
            Fault::Unreadable => ["JOB CANNOT BE READ", "KEEP THE CARD, ASK"],
            Fault::WornOut => ["CARD IS FULL", "TAKE ANOTHER CARD"],
        }
    }
}

//! A record: one accepted key in one block, with the edits before it repeated.
//!
//! ```text
//! number u32 | job u8 | edits u32 | place length u8, 48 bytes | entries, newest first
//! entry: length u8 (0 = no more) | job u8 | which edit of that job u32 | bytes
//! ```

use super::Fault;
use super::block::{self, BEFORE, Block, CardNumber, Fields, INSIDE, Kind, Pen};
use super::layout::JobNumber;
use heapless::Vec;

/// Bytes of all that one key may change.
pub const EDIT_MOST: usize = 200;
/// Bytes of the longest place.
pub const PLACE_MOST: usize = 48;

/// Where the screens are, as only the handheld understands it.
pub type Place = Vec<u8, PLACE_MOST, u8>;

/// Bytes before the entries.
const HEAD: usize = 4 + 1 + 4 + 1 + PLACE_MOST;
/// Bytes of an entry besides its edit.
const ENTRY: usize = 6;
/// Two of the longest fit: the newest, and the one before it.
const _: () = assert!(INSIDE - HEAD >= 2 * (ENTRY + EDIT_MOST));

/// What a record says besides its entries.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Standing {
    /// Counts records of the card, from 1.
    pub(super) number: u32,
    pub(super) job: JobNumber,
    /// Edits that the job has had, this one included. They start at the record
    /// that made the job, so that no number of an earlier job in the same slot
    /// comes again.
    pub(super) edits: u32,
    pub(super) place: Place,
}

impl Standing {
    /// Before the first record.
    pub(super) const fn new() -> Standing {
        Standing {
            number: 0,
            job: JobNumber::FIRST,
            edits: 0,
            place: Place::new(),
        }
    }
}

/// One edit in a record.
#[derive(Clone, Copy)]
pub(super) struct Entry<'a> {
    pub(super) job: JobNumber,
    pub(super) which: u32,
    pub(super) edit: &'a [u8],
}

/// Fills a block: `edit` first unless it is empty, then the entries of `before`.
pub(super) fn write(
    block: &mut Block,
    card: CardNumber,
    now: &Standing,
    edit: &[u8],
    before: &Block,
) -> Result<(), Fault> {
    if edit.len() > EDIT_MOST {
        return Err(Fault::EditTooLong);
    }
    let filled = block::sealed(block, Kind::Record, card, |pen| {
        pen.put_u32(now.number)?;
        pen.put(&[now.job.get()])?;
        pen.put_u32(now.edits)?;
        pen.put_padded(&now.place, PLACE_MOST)?;
        let newest = Entry {
            job: now.job,
            which: now.edits,
            edit,
        };
        put_entry(pen, newest);
        put_entries(pen, entries(before));
        Some(())
    });
    filled.ok_or(Fault::PlaceTooLong)
}

/// Copies the entries of a block, but for the first `skip`, into another that is
/// read for its entries only.
pub(super) fn copy_entries(from: &Block, skip: usize, to: &mut Block) {
    to.fill(0);
    if let Some(room) = to.get_mut(BEFORE + HEAD..BEFORE + INSIDE) {
        put_entries(&mut Pen(room), entries(from).skip(skip));
    }
}

/// Entries while there is room.
fn put_entries<'a>(pen: &mut Pen<'_>, mut entries: impl Iterator<Item = Entry<'a>>) {
    while entries.next().is_some_and(|entry| put_entry(pen, entry)) {}
}

/// Whether there was room. An empty edit is no entry.
fn put_entry(pen: &mut Pen<'_>, entry: Entry<'_>) -> bool {
    let Ok(length) = u8::try_from(entry.edit.len()) else {
        return false;
    };
    if length == 0 || pen.room() < ENTRY + entry.edit.len() {
        return false;
    }
    let put = pen
        .put(&[length, entry.job.get()])
        .and_then(|()| pen.put_u32(entry.which))
        .and_then(|()| pen.put(entry.edit));
    put.is_some()
}

/// What a block says, if it is the record of this card that belongs there.
pub(super) fn read(block: &Block, card: CardNumber) -> Option<Standing> {
    let mut fields = block::fields(block, Kind::Record, card)?;
    let number = fields.take_u32()?;
    let [job] = fields.take()?;
    Some(Standing {
        number,
        job: JobNumber::new(job)?,
        edits: fields.take_u32()?,
        place: Place::from_slice(fields.take_padded(PLACE_MOST)?).ok()?,
    })
}

/// The entries of a record, newest first.
pub(super) fn entries(block: &Block) -> impl Iterator<Item = Entry<'_>> {
    let inside = block.get(BEFORE + HEAD..BEFORE + INSIDE);
    let mut fields = Fields(inside.unwrap_or_default());
    core::iter::from_fn(move || entry(&mut fields))
}

/// What a record says that this edit of a job was.
pub(super) fn edit(block: &Block, job: JobNumber, which: u32) -> Option<&[u8]> {
    let mut entries = entries(block);
    let entry = entries.find(|entry| entry.job == job && entry.which == which)?;
    Some(entry.edit)
}

fn entry<'a>(fields: &mut Fields<'a>) -> Option<Entry<'a>> {
    let [length, job] = fields.take()?;
    if length == 0 {
        return None;
    }
    Some(Entry {
        job: JobNumber::new(job)?,
        which: fields.take_u32()?,
        edit: fields.take_bytes(usize::from(length))?,
    })
}

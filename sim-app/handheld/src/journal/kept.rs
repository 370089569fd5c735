//! What the journal keeps, seen from the journal: something that edits change,
//! that can be written whole, and read back.

/// A job in working memory. The journal never looks inside.
pub trait Kept {
    /// Back to a job with nothing in it.
    fn clear(&mut self);

    /// Does what the edits of one key say, all of them or none; the same edits in
    /// the same order on the same job give the same job, always.
    ///
    /// # Errors
    /// They mean nothing to this program, or not for this job. It may then be
    /// half done.
    fn apply(&mut self, edits: &[u8]) -> Result<(), Unreadable>;

    /// Writes the whole job, so that [`Kept::read`] makes the same one of it,
    /// however unfinished it is. At most [`super::SLOT_BYTES`].
    ///
    /// # Errors
    /// Those of `out`.
    fn write(&self, out: &mut dyn Sink) -> Result<(), Full>;

    /// Reads what [`Kept::write`] wrote, whatever was in here before.
    ///
    /// # Errors
    /// What comes is no job of this program; this one then holds anything.
    fn read(&mut self, from: &mut dyn Source) -> Result<(), Unreadable>;

    /// What the list of jobs calls it.
    fn title(&self) -> &str;
}

/// Where a job is written to.
pub trait Sink {
    /// Takes these bytes.
    ///
    /// # Errors
    /// It takes no more. The journal knows why.
    fn put(&mut self, bytes: &[u8]) -> Result<(), Full>;
}

/// Where a job is read from.
pub trait Source {
    /// Fills `bytes`.
    ///
    /// # Errors
    /// There is no more, or the card gives no more. The journal knows which, and
    /// does not use what was read.
    fn take(&mut self, bytes: &mut [u8]) -> Result<(), Unreadable>;
}

/// No more can be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Full;

/// The bytes mean nothing here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Unreadable;

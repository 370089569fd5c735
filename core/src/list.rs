//! Lists of fixed room, filled and emptied with no way to stop the program.
//!
//! A list's own `collect`, `insert` and `remove` stop the program where it is full, or
//! where there is no such place. Here every caller has room, or looked for the place
//! before; but the compiler cannot know that, and so would leave a way to panic behind.

use heapless::Vec;

/// What an iterator gives, as a list.
pub trait Listed: Iterator + Sized {
    /// The first `N`. Whoever may have more than that counts them instead.
    fn listed<const N: usize>(self) -> Vec<Self::Item, N, u8> {
        let mut list = Vec::new();
        self.take(N).for_each(|item| {
            let _ = list.push(item);
        });
        list
    }
}

impl<I: Iterator> Listed for I {}

/// Puts an entry in before the one at `at`, or at the end where the list is shorter.
///
/// # Errors
/// The list is full: the entry comes back.
pub fn put_in<T, const N: usize>(list: &mut Vec<T, N, u8>, at: usize, item: T) -> Result<(), T> {
    let at = at.min(list.len());
    list.insert(at, item)
}

/// Takes the entry at `at` out; `None` where there is none.
pub fn take_out<T, const N: usize>(list: &mut Vec<T, N, u8>, at: usize) -> Option<T> {
    (at < list.len()).then(|| list.remove(at))
}

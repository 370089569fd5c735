//! Seats: what each support takes, and the posts under them.

use super::{Beam, Carried};
use crate::check::{Checklist, Lack, Place};
use crate::checks::bearing::{Bearing, Seat, Steel, add_post_checks};
use crate::checks::profile::Profile;
use crate::decimal::Decimal;
use crate::defaults;
use crate::force::{Force, Stress};
use crate::job::{Job, Post, Support};
use crate::statics::Reaction;

impl Beam<'_> {
    /// Bearing of every support, and posts.
    #[inline(never)]
    pub(super) fn seat_checks(&self, carried: &Carried, checks: &mut dyn Checklist) {
        for (index, reaction) in (0_u8..).zip(&carried.statics.reactions) {
            let Some(support) = self.job.supports.get(usize::from(reaction.row)) else {
                continue;
            };
            let place = Place::Support(index);
            let seat = seat(self.job, support);
            match self.bearing(place, reaction, support, seat) {
                Ok((bearing, steel)) => bearing.add_checks(&steel, self.job.units, checks),
                Err(lack) => checks.lack(seat.kind(), place, lack),
            }
            self.post_checks(place, reaction, support, checks);
        }
    }

    /// One support as the steel bears on it.
    fn bearing(
        &self,
        place: Place,
        reaction: &Reaction,
        support: &Support,
        seat: Seat,
    ) -> Result<(Bearing, Steel), Lack> {
        let steel = Steel {
            profile: Profile::of(&self.section)?,
            fy: self.fy(),
        };
        let to_b = self.frame.length.saturating_sub(reaction.at);
        let bearing = Bearing {
            place,
            reaction: reaction.max,
            length: reaction.length.ok_or(Lack::Row("support"))?,
            width: support.width,
            from_end: reaction.at.min(to_b),
            seat,
            in_wall: self.in_wall(support),
        };
        Ok((bearing, steel))
    }

    /// Whether a support is the wall at an end.
    fn in_wall(&self, support: &Support) -> bool {
        let [a, b] = self.frame.faces;
        let named = |letter| support.name.eq_ignore_ascii_case(letter);
        (a.is_some() && named("A")) || (b.is_some() && named("B"))
    }

    /// The post of a support against its row; a wall has none.
    fn post_checks(
        &self,
        place: Place,
        reaction: &Reaction,
        support: &Support,
        checks: &mut dyn Checklist,
    ) {
        let mut posts = self.job.posts.iter();
        let post = posts.find(|post| post.support.eq_ignore_ascii_case(&support.name));
        if post.is_none() && self.in_wall(support) {
            return;
        }
        let force = |keyed: Decimal| Force::keyed(keyed, self.job.units);
        let allowable = post.map(|post: &Post| force(post.allowable));
        let footing = post.and_then(|post| post.footing).map(force);
        add_post_checks(place, reaction.max, [allowable, footing], checks);
    }
}

/// What a support is, as its stress check takes it.
fn seat(job: &Job, support: &Support) -> Seat {
    Seat {
        material: support.material,
        keyed: support
            .allowable
            .map(|keyed| Stress::keyed_psi(keyed, job.units)),
        species: defaults::species(job),
    }
}

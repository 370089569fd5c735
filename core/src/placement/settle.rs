//! Settling: of the ways in which the stations of a trail may stand, pairs as
//! early as possible, then the top row first.
//!
//! In: a trail whose stations keep every way that costs the least up to there.
//! Out: one way each. Ways that lead nowhere are struck from the far end, then
//! the wanted ones are chosen from the near end.

use super::PlaceError;
use super::old::Stop;
use super::sweep::Sweep;
use super::walk::{Node, Trail, Trodden, code};
use crate::words::Row;
use heapless::Vec;

/// The ways of one station: bit and node.
pub(super) type Ways = Vec<(u16, Node), 16, u8>;

impl Sweep<'_, '_> {
    /// Leaves one way at every seen station.
    pub fn settle(&mut self, trail: &mut Trail) -> Result<(), PlaceError> {
        if self.course.gates.iter().any(|gate| gate.pair) || !self.course.olds.is_empty() {
            self.prefer(trail, |_, node| node.kind.pair())?;
        }
        // Illegal pairs at the very start take their turns too, the first top.
        let (first, row) = self.first_turn(trail);
        let wanted = |place| if place == first { row } else { Row::Top };
        self.prefer(trail, |place, node| node.kind.turn() == wanted(place))?;
        // Old stations may yet stand in more than one way.
        self.prefer(trail, |_, _| true)
    }

    /// The first station that covers see, and the row whose turn it then is.
    fn first_turn(&self, trail: &Trail) -> (usize, Row) {
        let mut turn = Row::Top;
        let unseen = trail.iter().take_while(|trodden| trodden.unseen());
        let mut first = 0;
        for trodden in unseen {
            let single = self.unseen_stop(trodden).and_then(|stop| stop.single);
            turn = single.unwrap_or(turn).other();
            first += 1;
        }
        (first, turn)
    }

    /// Prefers some ways, as early as possible.
    fn prefer(
        &mut self,
        trail: &mut Trail,
        wanted: impl Fn(usize, &Node) -> bool,
    ) -> Result<(), PlaceError> {
        if trail.iter().any(|trodden| trodden.ways().count_ones() > 1) {
            self.strike_dead_ends(trail)?;
            self.choose(trail, wanted)?;
        }
        Ok(())
    }

    /// Fills in the ways of a station that are still open.
    pub fn ways(&mut self, trodden: &Trodden, ways: &mut Ways) -> Result<(), PlaceError> {
        ways.clear();
        self.look_back(self.index_of(trodden))?;
        let at = trodden.new_at();
        let mut open = trodden.ways();
        for (index, piece) in self.pieces.numbered(usize::from(trodden.hint())) {
            if open == 0 {
                break;
            }
            let here = match at {
                Some(at) => !piece.kind.is_stop() && piece.from <= at && at <= piece.to,
                None => {
                    let own = Some(piece.group) == trodden.group();
                    piece.kind.is_stop() && !piece.kind.is_via() && own
                }
            };
            let bit = code(piece);
            if here && open & bit != 0 {
                let node = self.node(index, at);
                open &= !bit;
                let _ = node.map(|node| ways.push((bit, node)));
            }
        }
        Ok(())
    }

    /// The lattice index at or beyond a station of the trail.
    fn index_of(&self, trodden: &Trodden) -> i32 {
        let old = trodden.group().and_then(|g| self.course.group_of(g));
        match old {
            Some(group) => self.course.up(self.course.group_lo(&group)),
            None => trodden.new_at().map_or(i32::MIN, i32::from),
        }
    }

    /// From the far end: a way stays if one at the next seen station follows it.
    #[inline(never)]
    fn strike_dead_ends(&mut self, trail: &mut Trail) -> Result<(), PlaceError> {
        let [one, other] = &mut [Ways::new(), Ways::new()];
        let (mut ways, mut next) = (one, other);
        let mut any_next = false;
        let mut passed: usize = 0;
        for place in (0..trail.len()).rev() {
            let Some(&trodden) = trail.get(place) else {
                continue;
            };
            if trodden.unseen() {
                passed += 1;
                continue;
            }
            self.ways(&trodden, ways)?;
            let between = trail.get(place + 1..=place + passed).unwrap_or(&[]);
            if any_next {
                ways.retain(|(_, y)| next.iter().any(|(_, z)| self.leads(y, between, z)));
            }
            if let Some(trodden) = trail.get_mut(place) {
                trodden.leave(ways.iter().fold(0, |all, (bit, _)| all | bit));
            }
            core::mem::swap(&mut ways, &mut next);
            any_next = true;
            passed = 0;
        }
        Ok(())
    }

    /// From the near end: the wanted ways where there are any, and of the
    /// following ones only what can follow them.
    #[inline(never)]
    fn choose(
        &mut self,
        trail: &mut Trail,
        wanted: impl Fn(usize, &Node) -> bool,
    ) -> Result<(), PlaceError> {
        let [one, other] = &mut [Ways::new(), Ways::new()];
        let (mut ways, mut before) = (one, other);
        let mut any_before = false;
        let mut passed: usize = 0;
        for place in 0..trail.len() {
            let Some(&trodden) = trail.get(place) else {
                continue;
            };
            if trodden.unseen() {
                passed += 1;
                continue;
            }
            self.ways(&trodden, ways)?;
            let between = trail.get(place - passed..place).unwrap_or(&[]);
            if any_before {
                ways.retain(|(_, z)| before.iter().any(|(_, y)| self.leads(y, between, z)));
            }
            if ways.iter().any(|(_, node)| wanted(place, node)) {
                ways.retain(|(_, node)| wanted(place, node));
            }
            if let Some(trodden) = trail.get_mut(place) {
                trodden.leave(ways.iter().fold(0, |all, (bit, _)| all | bit));
            }
            core::mem::swap(&mut ways, &mut before);
            any_before = true;
            passed = 0;
        }
        Ok(())
    }

    /// Whether z follows y, past illegal stations, at exactly y's rest.
    fn leads(&self, y: &Node, between: &[Trodden], z: &Node) -> bool {
        let mut turn = y.kind.turn();
        let mut rest = y.rest();
        let mut last = y.stop;
        for trodden in between {
            let Some(stop) = self.unseen_stop(trodden) else {
                return false;
            };
            if !self.spaced(&last, &stop) {
                return false;
            }
            turn = stop.single.unwrap_or(turn.other());
            rest = rest.less(stop.own);
            last = stop;
        }
        let in_turn = !self.course.turns() || z.kind.free() || z.kind.turn() != turn;
        let gates = match (y.stop.seen, z.stop.seen) {
            (Some(before), Some(beyond)) => {
                self.course.lets(before, beyond)
                    && (!y.gained(self) || self.course.asks_before(before, beyond))
                    && (!z.kind.needs() || self.course.asks_beyond(before, beyond))
            }
            _ => false,
        };
        in_turn && gates && rest == z.cost && self.spaced(&last, &z.stop)
    }

    /// The one way in which an illegal drilled station stands.
    pub fn unseen_stop(&self, trodden: &Trodden) -> Option<Stop> {
        let group = self.course.group_of(trodden.group()?)?;
        self.course
            .stops(&group)
            .map(|(_, stop)| stop)
            .find(|stop| stop.seen.is_none())
    }
}

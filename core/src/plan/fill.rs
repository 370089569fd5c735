//! From a job to its plan, part by part; each answer needs only its own rows.
//!
//! In: a job. Out: every part of the plan that the card asks for and has the
//! rows for; what is missing otherwise; cautions in the order found. The parts are
//! not inlined into one: each gives its stack back before the next one begins.

use super::{Asked, Missing, Plan, Scratch, Standing};
use crate::caution::{self, Caution};
use crate::code::PlanToCode;
use crate::frame::{Frame, Piece, Pieces};
use crate::hardware::Hardware;
use crate::job::{Job, Pattern};
use crate::length::Length;
use crate::packing::{self, PackingInput, Stack};
use crate::placement::{self, PlacedHole};
use crate::rods::{Bolts, RodInput};
use crate::rule::Rule;
use crate::shapes::Section;
use crate::words::{Row, Side, Sides};
use crate::{hardware, joists, rows};

impl Plan {
    /// Makes the plan of `job`; what was there before is forgotten.
    pub fn make(&mut self, job: &Job, scratch: &mut Scratch) {
        self.clear();
        self.asked = Asked::by(job);
        self.read_house(job);
        if self.asked.holes {
            self.read_note(job);
        }
        if self.asked.packing {
            self.pack(job);
        }
        if self.asked.holes && self.has_enough_for_holes() {
            self.place_holes(job, scratch);
        }
        if self.asked.rods && self.list_rods(job) {
            self.cut_rods(job, scratch);
        }
        self.closing_cautions();
        self.carry(job, scratch);
    }

    fn clear(&mut self) {
        self.frame = None;
        self.joists.clear();
        self.runs.clear();
        self.rule = None;
        self.heights = None;
        self.placed = false;
        self.trouble = None;
        self.packing = [None, None];
        self.rods_answered = false;
        self.standing = Standing::default();
        self.missing.clear();
        self.cautions.clear();
        self.code = None;
    }

    /// Walls, joists, runs.
    #[inline(never)]
    fn read_house(&mut self, job: &Job) {
        self.frame = Frame::of(job).ok();
        let read = joists::read(job, &mut self.joists, &mut self.runs, &mut self.cautions);
        if let Err(problem) = read
            && !job.runs.is_empty()
            && let Some(missing) = problem.missing(job)
        {
            self.lack(missing);
        }
        if let Some(frame) = self.frame {
            frame.cautions(job, &mut self.cautions);
        }
        self.lack_unproved_runs();
    }

    /// A run out of tolerance that nobody lets stand stops the placement.
    fn lack_unproved_runs(&mut self) {
        for index in 0..self.runs.len() {
            if let Some(run) = self.runs.get(index)
                && run.ok == Some(false)
                && !run.overridden
            {
                self.lack(Missing::Run(run.side, run.number));
            }
        }
    }

    /// Rule, row heights, hardware.
    #[inline(never)]
    fn read_note(&mut self, job: &Job) {
        match Rule::of(job) {
            Ok(rule) => self.rule = Some(rule),
            Err(lacking) => lacking
                .iter()
                .for_each(|kind| self.lack(Missing::Row(kind))),
        }
        match rows::heights(job) {
            Ok(heights) => self.heights = Some(heights),
            Err(kind) => self.lack(Missing::Row(kind)),
        }
        for kind in hardware::missing(job) {
            self.lack(Missing::Row(kind));
        }
        hardware::hardware_cautions(job, &mut self.cautions);
    }

    /// Layers for both sides.
    #[inline(never)]
    fn pack(&mut self, job: &Job) {
        let packed = self.packed_sides(job);
        if PackingInput::outstand_missing(job, packed) {
            self.lack(Missing::Row("outstand"));
            return;
        }
        let section = Section::of(job);
        let input = PackingInput::of(job, section.as_ref(), packed);
        self.packing = packing::choose(&input);
        packing::cautions(&input, &self.packing, &mut self.cautions);
    }

    /// Sides that have packing anywhere; both where the card does not say.
    fn packed_sides(&self, job: &Job) -> [bool; 2] {
        if job.packing.is_empty() {
            return [true, true];
        }
        Side::BOTH.map(|side| job.packing.iter().any(|piece| piece.sides.holds(side)))
    }

    /// Whether nothing that holes need is missing.
    fn has_enough_for_holes(&self) -> bool {
        let lacks = |missing: &Missing| match missing {
            Missing::Run(..) => true,
            Missing::Row(kind) => !NOT_FOR_HOLES.contains(kind),
        };
        !self.missing.iter().any(lacks)
    }

    /// The holes. What is inlined into it stands on the stack while they are placed:
    /// as little as can be.
    #[inline(never)]
    fn place_holes(&mut self, job: &Job, scratch: &mut Scratch) {
        let (Some(rule), Some(mut room)) = (self.rule, scratch.placing()) else {
            return;
        };
        if self.frame.is_none() {
            return;
        }
        let out = &mut self.placement;
        match placement::place_in(job, &self.joists, rule, out, &mut room) {
            Ok(()) => self.placed = true,
            Err(trouble) => self.trouble = Some(trouble),
        }
        self.code_holes(job);
        self.one_sided_cautions(job);
        self.turn_cautions();
    }

    #[inline(never)]
    fn code_holes(&mut self, job: &Job) {
        let (Some(rule), Some(frame)) = (self.rule, self.frame) else {
            return;
        };
        let plan = PlanToCode { job, frame, rule };
        self.code = self.placement().and_then(|placement| plan.code(placement));
    }

    /// Lists rods for the bolts of a feasible plan, and other pieces; whether there is
    /// anything to be cut.
    #[inline(never)]
    fn list_rods(&mut self, job: &Job) -> bool {
        if job.sticks.is_empty() {
            self.lack(Missing::Row("rod"));
        }
        if !self.asked.holes && job.pieces.is_empty() {
            self.lack(Missing::Row("bolt"));
            return false;
        }
        let bolts = match self.bolts(job) {
            Some(bolts) => bolts,
            None if self.asked.holes => return false, // no plan, or something missing
            None => Bolts::default(),
        };
        let Some(packing) = self.rod_packing(job, &bolts) else {
            self.lack(Missing::Row("outstand"));
            return false;
        };
        let section = Section::of(job);
        let hardware = Hardware::of(job);
        let input = section
            .zip(hardware.as_ref())
            .map(|(section, hardware)| RodInput {
                bolts,
                packing,
                web: section.web(),
                hardware,
            });
        if job.sticks.is_empty() || (input.is_none() && bolts != Bolts::default()) {
            return false;
        }
        self.rods.list(job, input.as_ref());
        true
    }

    /// How to cut the pieces that are listed.
    #[inline(never)]
    fn cut_rods(&mut self, job: &Job, scratch: &mut Scratch) {
        if let Some(room) = scratch.cutting() {
            self.rods.cut(job, room);
            self.rods_answered = true;
        }
    }

    /// Bolts of a feasible plan.
    fn bolts(&self, job: &Job) -> Option<Bolts> {
        let placement = self.placement().filter(|placement| placement.feasible)?;
        let pieces = self.frame?.packing(job).ok()?;
        Some(Bolts::of(placement, &pieces))
    }

    /// Packing that the rods go through: the stack as it measures, or the
    /// greatest measured outstand, with a caution. `None` where a side that bolts
    /// go through has neither.
    fn rod_packing(&mut self, job: &Job, bolts: &Bolts) -> Option<[Length; 2]> {
        let mut packing = [Length::ZERO; 2];
        for (side, slot) in Side::BOTH.into_iter().zip(&mut packing) {
            if !bolts.through(side) {
                continue;
            }
            let stack = self.packing.get(side.index())?.as_ref();
            *slot = match stack.and_then(Stack::thickness) {
                Some(thickness) => thickness,
                None => {
                    let outstand = packing::greatest_outstand(job, side)?;
                    caution::add(&mut self.cautions, Caution::RodFromOutstand { side });
                    outstand
                }
            };
        }
        Some(packing)
    }

    /// Stretches with packing on one side only.
    #[inline(never)]
    fn one_sided_cautions(&mut self, job: &Job) {
        let Some(pieces) = self.frame.and_then(|frame| frame.packing(job).ok()) else {
            return;
        };
        for piece in &pieces {
            if let Sides::One(side) = piece.sides {
                self.warn_where_bare(piece, side.other(), &pieces);
            }
        }
    }

    /// The parts of `piece` across from which nothing is packed on `side`.
    fn warn_where_bare(&mut self, piece: &Piece, side: Side, pieces: &Pieces) {
        let mut bare = piece.from;
        while bare < piece.to {
            let across = |p: &&Piece| p.sides.holds(side) && p.to > bare;
            let next = pieces.iter().filter(across).min_by_key(|p| p.from);
            let (from, to) = next.map_or((piece.to, piece.to), |p| (p.from, p.to));
            if from > bare {
                self.warn_one_sided(bare, from.min(piece.to));
            }
            bare = bare.max(to);
        }
    }

    fn warn_one_sided(&mut self, from: Length, to: Length) {
        caution::add(&mut self.cautions, Caution::OneSided { from, to });
    }

    /// Neighbours in one row where rows should take turns.
    #[inline(never)]
    fn turn_cautions(&mut self) {
        let turns = self
            .rule
            .is_some_and(|rule| rule.pattern == Pattern::Staggered);
        if !turns || !self.placed || !self.placement.feasible {
            return;
        }
        let mut before: Option<(u8, Option<Row>)> = None;
        for index in 0..self.placement.holes.len() {
            let Some(hole) = self.placement.holes.get(index) else {
                continue;
            };
            let (station, row) = (hole.station, hole.row);
            let same = |h: &&PlacedHole| h.station == station;
            let single = self.placement.holes.iter().filter(same).count() == 1;
            if let Some((last, Some(last_row))) = before
                && single
                && last != station
                && last_row == row
            {
                let caution = Caution::NeighboursInOneRow { station: last, row };
                caution::add(&mut self.cautions, caution);
            }
            before = Some((station, single.then_some(row)));
        }
    }

    /// What is said on every list with a plan.
    fn closing_cautions(&mut self) {
        if self.placement().is_none_or(|placement| !placement.feasible) {
            return;
        }
        caution::add(&mut self.cautions, Caution::BeforeDrilling);
        if !self.joists.is_empty() {
            caution::add(&mut self.cautions, Caution::ShoresFirst);
        }
    }

    /// Notes once what is missing.
    pub(super) fn lack(&mut self, missing: Missing) {
        if !self.missing.contains(&missing) {
            // The list holds every kind of row that can be missing.
            let _ = self.missing.push(missing);
        }
    }
}

/// Missing rows that the holes do without.
const NOT_FOR_HOLES: [&str; 3] = ["outstand", "layer", "rod"];

impl Asked {
    /// What the rows of a job ask for.
    pub fn by(job: &Job) -> Self {
        let rule = job.pattern.is_some() || job.spacing.is_some() || job.ends.is_some();
        let holes = !job.nears.is_empty() || job.bolt.is_some() || !job.holes.is_empty();
        Asked {
            holes: rule || holes,
            packing: !job.layers.is_empty(),
            rods: !job.sticks.is_empty() || !job.pieces.is_empty(),
            statics: !job.loads.is_empty(),
        }
    }
}

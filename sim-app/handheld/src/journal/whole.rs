//! A job whole: every part of it, in a fixed order, as bytes of a slot.
//!
//! Not its card: a card may not say what a job holds between two keys, such as a
//! layer without a name or a beam shorter than where its holes are. Whatever a
//! job can hold comes back as it was.
//!
//! The first byte is [`LAYOUT`]. Whoever adds a field to the job, or a choice in
//! front of another, changes what lies in slots: count it up, and keep the way
//! of reading the layout before. The tests hold the bytes of one job and shout.

use super::kept::{Full, Kept, Sink, Source, Unreadable};
use super::part::{Part, Reader, Writer, choices, structs};
use crate::edit::{self, Edit, Edits};
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::{
    BarsCut, Beam, BeamLength, Bolt, Check, CheckKind, Edge, Ends, Face, Floor, Hanger, HangerRef,
    Hole, HoleState, Hook, Job, JoistReading, Keepout, KeepoutKind, Layer, LayerKind, Load,
    LoadKind, Material, Moisture, Nail, Near, Nut, OtherPiece, PackingPiece, Pattern, PatternRows,
    Pocket, Position, Post, Reach, Run, RunHook, Shape, Spacing, SpacingBasis, Species, Square,
    Stand, Stays, Steel, Stick, StickSource, Support, Washer, WasherShape,
};
use boltbay_core::words::{End, Row, Side, Sides, Units};

/// How a job lies in a slot. Layout 1 ended without the bars that are
/// cut and how far the packing stands off the web.
const LAYOUT: u8 = 2;

impl Kept for Job {
    fn clear(&mut self) {
        Job::clear(self);
    }

    fn apply(&mut self, edits: &[u8]) -> Result<(), Unreadable> {
        let mut rest = edits;
        while !rest.is_empty() {
            let (edit, length) = Edit::read(rest).map_err(|_| Unreadable)?;
            edit::apply(self, &edit).map_err(|_| Unreadable)?;
            rest = rest.get(length..).unwrap_or_default();
        }
        Ok(())
    }

    fn write(&self, out: &mut dyn Sink) -> Result<(), Full> {
        let mut out = Writer::new(out);
        LAYOUT.put(&mut out);
        put_job(self, &mut out);
        self.bars_cut.put(&mut out);
        self.standoff.put(&mut out);
        out.finish()
    }

    fn read(&mut self, from: &mut dyn Source) -> Result<(), Unreadable> {
        let mut from = Reader::new(from);
        match u8::take(&mut from) {
            1 => {
                self.bars_cut.clear();
                self.standoff = None;
                fill_job(self, &mut from);
            }
            LAYOUT => {
                fill_job(self, &mut from);
                self.bars_cut.fill(&mut from);
                self.standoff.fill(&mut from);
            }
            _ => return Err(Unreadable),
        }
        from.finish()
    }

    fn title(&self) -> &str {
        &self.name
    }
}

/// The edits of one key as bytes for [`super::Journal::record`]. `None` if they are
/// more than a record takes: [`super::EDIT_MOST`] bytes.
pub fn edits_as_bytes(edits: &Edits) -> Option<heapless::Vec<u8, { super::EDIT_MOST }, u8>> {
    let mut bytes = heapless::Vec::new();
    for edit in edits {
        let mut buffer = [0; edit::BYTES];
        let length = edit.write(&mut buffer)?;
        bytes.extend_from_slice(buffer.get(..length)?).ok()?;
    }
    Some(bytes)
}

/// A job in place: it is too large to come by value.
macro_rules! job {
    ($($field:ident)*) => {
        fn put_job(job: &Job, out: &mut Writer) {
            // What came with a later layout is written behind all this.
            let Job { $($field,)* bars_cut: _, standoff: _ } = job;
            $($field.put(out);)*
        }

        fn fill_job(job: &mut Job, from: &mut Reader) {
            $(job.$field.fill(from);)*
        }
    };
}

job! {
    name units sides beam shape steel braced walls clear squares pockets stand outstands
    supports posts loads duration runs joists checks counts floors hangers nails keepouts
    packing seated bolt washers nut gap lattice play pattern rows spacing ends nears layers
    face service wood sticks kerf trim projection spare pieces holes placed
}

structs! {
    Beam { designation, length, measured }
    Shape { depth, width, web, flange, k_design, k_detail, k1, weight, ix, sx, zx }
    Steel { fy, fu }
    Floor { joist_depth, offset, subfloor }
    Position { reading, hook }
    Square { side, end, offset }
    Pocket { depth, height, width }
    Keepout { sides, from, to, kind, stays, name }
    PackingPiece { from, to, sides }
    Support { name, centre, length, width, material, allowable }
    Post { support, allowable, footing }
    Load { kind, dead, live, side }
    Run { side, hook, edge, burn, thickness, read_to, overridden }
    JoistReading { reading, thickness, hanger, run, guessed }
    Check { kind, reading, point, run, guessed }
    Hanger { name, metal, height, rated }
    Nail { name, length, diameter, slant }
    Stand { side, a_at_left }
    Bolt { diameter, web_hole, wood_hole, fyb }
    Washer { size, shape, thickness }
    Nut { thickness, across_corners }
    PatternRows { top, bot }
    Spacing { spacing, basis, hold_back, minimum }
    Ends { least, most, paired }
    Near { at, within, reach, paired, name }
    Layer { name, thickness, kind, moisture, count }
    Face { shy, proud, aim }
    Stick { length, count, source }
    OtherPiece { length, count, name }
    BarsCut { list, bars }
}

choices! {
    Units { 0: [Imperial]; 1: [Metric]; }
    End { 0: [A]; 1: [B]; }
    Side { 0: [N]; 1: [S]; }
    Sides { 0: [Both]; 1: [One(side)], side; }
    Row { 0: [Top]; 1: [Bot]; }
    BeamLength { 0: [Ordered]; 1: [Measured]; }
    Hook { 0: [EndA]; 1: [EndB]; 2: [WallA]; 3: [WallB]; }
    Stays { 0: [Stays]; 1: [Rides]; }
    KeepoutKind { 0: [Solid]; 1: [Access]; 2: [Zone]; }
    Material { 0: [Concrete]; 1: [Masonry]; 2: [Wood]; 3: [Steel]; }
    LoadKind {
        0: [Area { tributary, from, to }], tributary, from, to;
        1: [Line { from, to }], from, to;
        2: [Point { at }], at;
    }
    LoadSide { 0: [Halves]; 1: [On(side)], side; 2: [Top]; }
    RunHook {
        0: [Wall(end)], end;
        1: [Steel(end)], end;
        2: [Mark(at, toward)], at, toward;
    }
    Edge { 0: [Near]; 1: [Centre]; 2: [Far]; }
    HangerRef { 0: [Default]; 1: [None]; 2: [Row(row)], row; }
    CheckKind { 0: [Check]; 1: [Close]; }
    WasherShape { 0: [Round]; 1: [Square]; 2: [Turns]; }
    Pattern { 0: [Single]; 1: [Staggered]; 2: [Paired]; }
    SpacingBasis { 0: [Every]; 1: [Row]; }
    Reach { 0: [One]; 1: [Each]; }
    HoleState { 0: [Marked]; 1: [Drilled]; 2: [Abandoned]; }
    LayerKind { 0: [Solid]; 1: [Sheet]; }
    Moisture { 0: [Green]; 1: [Percent(percent)], percent; }
    Species { 0: [Spf]; 1: [DfL]; 2: [Hf]; 3: [Sp]; }
    StickSource { 0: [Rod]; 1: [Offcut]; }
}

impl Part for Hole {
    fn put(&self, out: &mut Writer) {
        self.at().put(out);
        self.row.put(out);
        self.state.put(out);
    }

    fn take(from: &mut Reader) -> Self {
        let (at, row, state) = (Part::take(from), Part::take(from), Part::take(from));
        Hole::new(at, row, state)
    }
}

//! All words that the screens can show, and how lengths and names are written
//! where there is little room. Field labels stand in the table of `field.rs`.
//!
//! Capitals, so that 9 px of height carry every letter. 18 letters a line, 63 a
//! hint (three lines of 21): a test measures all of them.

use crate::screen::Look;
use crate::text;
use crate::view::Text;
use boltbay_core::Job;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{Edge, Hook, Run, RunHook};
use boltbay_core::length::{Length, Rounding};
use boltbay_core::placement::{Broken, Thing};
use boltbay_core::words::{End, Row, Side, Units};
use core::fmt::Write;

/// `14'3 5/16`, `4351`, `4351.5`: no inch mark, no unit, no spare space. To the
/// nearest 1/64 in or 0.1 mm.
pub fn short(length: Length, units: Units) -> Text {
    let mut out = Text::new();
    let _ = write_short(length, units, &mut out);
    out
}

fn write_short(length: Length, units: Units, out: &mut Text) -> core::fmt::Result {
    let (step, parts) = match units {
        Units::Imperial => (Length::from_sixty_fourths(1), 64),
        Units::Metric => (Length::from_tenth_millimetres(1), 10),
    };
    let count = length.to_multiple(step, Rounding::Nearest).counts() / step.counts();
    if count < 0 {
        out.write_char('-')?;
    }
    let (whole, part) = (count.unsigned_abs() / parts, count.unsigned_abs() % parts);
    match units {
        Units::Metric if part == 0 => write!(out, "{whole}"),
        Units::Metric => write!(out, "{whole}.{part}"),
        Units::Imperial => {
            if whole >= 12 {
                write!(out, "{}'", whole / 12)?;
            }
            let shift = part.trailing_zeros();
            match (whole % 12, part) {
                (inches, 0) => write!(out, "{inches}"),
                (0, part) if whole == 0 => write!(out, "{}/{}", part >> shift, 64 >> shift),
                (inches, part) => write!(out, "{inches} {}/{}", part >> shift, 64 >> shift),
            }
        }
    }
}

/// Rounded down to 1/16 in or 1 mm: gaps and play, so that nobody counts on room
/// that is not there.
pub fn down(length: Length, units: Units) -> Text {
    let step = match units {
        Units::Imperial => Length::from_sixteenths(1),
        Units::Metric => Length::from_millimetres(1),
    };
    short(length.to_multiple(step, Rounding::Down), units)
}

/// What a gap is measured to: `N3`, a thing's name.
pub fn thing(thing: Thing, look: Look) -> Text {
    match thing {
        Thing::Joist { joist: index, .. } => match look.plan.joists.get(usize::from(index)) {
            Some(found) => joist(look.job, found.side, found.number),
            None => text!("JOIST"),
        },
        Thing::Keepout(index) => match look.job.keepouts.get(usize::from(index)) {
            Some(found) if !found.name.is_empty() => capitals(&found.name, 6),
            _ => text!("THING{}", u16::from(index) + 1),
        },
        Thing::Packing(index) => text!("PACK{}", u16::from(index) + 1),
        Thing::Hole(_) => text!("HOLE"),
    }
}

/// Which part of the engineer's note a hole breaks.
pub const fn broken(broken: Broken) -> &'static str {
    match broken {
        Broken::EndDistance => "NEAR PACK END",
        Broken::Zone => "IN A ZONE",
        Broken::Access => "NO ACCESS",
        Broken::LeastSpacing => "NEAR A HOLE",
        Broken::Abandoned => "NEAR OLD HOLE",
        Broken::GreatestSpacing => "TOO WIDE",
        Broken::Partner => "NO PARTNER",
        Broken::NotPacked => "NOT PACKED",
    }
}

/// `+15 7/8`: a difference with its sign.
pub fn signed(length: Length, units: Units) -> Text {
    match length < Length::ZERO {
        true => short(length, units),
        false => text!("+{}", short(length, units)),
    }
}

/// `+15 7/8`, `+28`: a bay with its sign, in inches alone, as spacings are said.
pub fn bay(length: Length, units: Units) -> Text {
    let inches = length.to_multiple(Length::from_inches(1), Rounding::Down);
    match units {
        Units::Imperial if length >= Length::from_inches(12) => {
            let whole = inches.counts() / Length::from_inches(1).counts();
            let rest = length.saturating_sub(inches);
            match rest == Length::ZERO {
                true => text!("+{whole}"),
                false => text!("+{whole} {}", short(rest, units)),
            }
        }
        _ => signed(length, units),
    }
}

/// `40`, `7.41`.
pub fn number(number: Decimal) -> Text {
    text!("{number}")
}

/// A name in capitals, at most so many letters of it.
pub fn capitals(name: &str, most: usize) -> Text {
    let mut capitals = text!("{name:.most$}");
    capitals.make_ascii_uppercase();
    capitals
}

/// `N12`.
pub fn joist(job: &Job, side: Side, number: impl core::fmt::Display) -> Text {
    text!("{}{number}", job.letter(side))
}

/// `TOP`, `BOT`.
pub const fn row(row: Row) -> &'static str {
    match row {
        Row::Top => "TOP",
        Row::Bot => "BOT",
    }
}

/// `A`, `B`.
pub const fn end(end: End) -> &'static str {
    match end {
        End::A => "A",
        End::B => "B",
    }
}

/// What a position hangs on.
pub const fn hook(hook: Hook) -> &'static str {
    match hook {
        Hook::EndA => "END A",
        Hook::EndB => "END B",
        Hook::WallA => "WALL A",
        Hook::WallB => "WALL B",
    }
}

/// What a run hangs on.
pub const fn run_hook(run: RunHook) -> &'static str {
    match run {
        RunHook::Wall(End::A) => "WALL A",
        RunHook::Wall(End::B) => "WALL B",
        RunHook::Steel(End::A) => "END A",
        RunHook::Steel(End::B) => "END B",
        RunHook::Mark(_, End::B) => "MARK>B",
        RunHook::Mark(_, End::A) => "MARK>A",
    }
}

/// The edge that a run reads.
pub const fn edge(edge: Edge) -> &'static str {
    match edge {
        Edge::Near => "NEAR",
        Edge::Centre => "CTR",
        Edge::Far => "FAR",
    }
}

/// `NEAR-1`: the edge and the burn, `N-10 55/64` where they are too long; with a
/// coarse tape and no burn `NEAR 1/8`.
pub fn edge_and_burn(run: &Run, units: Units) -> Text {
    let edge = edge(run.edge);
    match (run.burn, run.read_to) {
        (Some(burn), _) if burn != Length::ZERO => {
            let burn = short(burn, units);
            // Beside a hook there is room for eleven letters.
            let edge = if edge.len() + burn.len() < 11 {
                edge
            } else {
                edge.get(..1).unwrap_or(edge)
            };
            text!("{edge}-{burn}")
        }
        (_, Some(step)) => text!("{edge} {}", short(step, units)),
        _ => text!("{edge}"),
    }
}

/// Home, in the order of the day.
pub const DAY: [&str; 8] = [
    "JOB", "MEASURE", "PLAN", "MARK", "DRILL", "PACK", "BOLT", "SET",
];

/// Said where leaving needs more than LEFT.
pub const HOLD_OK_LEAVES: &str = "HOLD OK: LEAVE";
/// On a list that is locked for a helper.
pub const HOLD_RIGHT_UNLOCKS: &str = "HOLD RIGHT: UNLOCK";
/// A line that adds an entry to a list.
pub const ADD: &str = "ADD ONE";
/// A value that is not keyed and has no default.
pub const NOT_KEYED: &str = "-";

/// Cautions, each shown once when its step is first opened: a title and three lines.
pub mod told {
    /// Under a floor.
    pub const MEASURE: [&str; 4] = [
        "BEFORE YOU CRAWL",
        "AIR AND LIGHT IN.",
        "SOMEBODY OUTSIDE",
        "KNOWS YOU ARE IN.",
    ];
    /// Drilling steel.
    pub const DRILL: [&str; 4] = [
        "BEFORE YOU DRILL",
        "EYES COVERED,",
        "BEAM CLAMPED,",
        "NO TORCH ON STEEL.",
    ];
    /// What fastens packing.
    pub const PACK: [&str; 4] = [
        "BEFORE YOU PACK",
        "NO POWDER-DRIVEN",
        "PINS INTO STEEL",
        "UNLESS DRAWN SO.",
    ];
    /// Lifting the steel in.
    pub const SET: [&str; 4] = [
        "BEFORE YOU SET IT",
        "SHORES IN BEFORE A",
        "JOIST IS CUT. NO",
        "ONE UNDER THE LIFT",
    ];
}

/// Hints: what the keys do here, and the caution that belongs to the step.
pub mod hint {
    /// A caution of a step.
    pub const CAUTION: &str = "THE ENGINEER OF RECORD AND THE LOCAL CODE RULE OVER THIS.";
    /// The day's steps.
    pub const HOME: &str = "UP, DOWN: STEPS OF THE DAY, TOP FIRST. OK OPENS ONE.";
    /// A list of fields.
    pub const FORM: &str = "UP, DOWN CHOOSE. OK CHANGES. LEFT GOES BACK. ALL IS KEPT.";
    /// Everything that is measured.
    pub const MEASURE: &str = "CRAWLSPACE: AIR AND LIGHT FIRST, SOMEBODY OUTSIDE KNOWS.";
    /// Walls.
    pub const WALLS: &str = "TAPE WALL TO WALL AT THE BEAM'S HEIGHT, NOT OFF THE DRAWING.";
    /// The engineer's note.
    pub const NOTE: &str = "ONLY WHAT THE ENGINEER'S DRAWING SAYS. OPEN QUESTION: ASK.";
    /// Packing.
    pub const PACK: &str = "NO POWDER-DRIVEN PINS INTO FLANGE OR WEB: THROUGH BOLTS ONLY.";
    /// Rods.
    pub const BOLT: &str = "SNUG, NOT SUNK. AGAIN BEFORE THE CEILING CLOSES.";
    /// Setting.
    pub const SET: &str = "SHORES BOTH SIDES BEFORE A JOIST IS CUT. NOBODY UNDER A LIFT.";
    /// A list of entries.
    pub const LIST: &str = "OK OPENS. HOLD RIGHT 1 S: DELETE. LEFT GOES BACK.";
    /// A length.
    pub const LENGTH: &str = "UP DOWN 1 TICK, LEFT RIGHT 1/4. HOLD FOR FEET AND INCHES.";
    /// A length, metric.
    pub const LENGTH_METRIC: &str = "UP DOWN 1 TICK, LEFT RIGHT 5 MM. HOLD FOR 100 AND 10.";
    /// A number.
    pub const NUMBER: &str = "UP DOWN 1, LEFT RIGHT 10. HOLD FOR TENTHS AND 100.";
    /// One of several.
    pub const CHOOSE: &str = "UP, DOWN CHOOSE. OK TAKES IT. LEFT GOES BACK.";
    /// Letters.
    pub const LETTERS: &str = "UP DOWN TURN THE LETTER, RIGHT NEXT, LEFT TAKES ONE BACK.";
    /// The shape.
    pub const SHAPE: &str = "UP DOWN: DEPTH. RIGHT: HEAVIER, LEFT: LIGHTER. OK TAKES IT.";
    /// A tape run about to start.
    pub const RUN: &str = "ONE EDGE FOR THE WHOLE RUN. TAPE STAYS HOOKED. OK ON START.";
    /// A joist reading.
    pub const READING: &str = "GREY IS A GUESS: READ THE TAPE FIRST. HOLD UP: NEXT PLACE.";
    /// The closing reading.
    pub const CLOSE: &str = "FROM THE LAST JOIST'S SAME EDGE TO THE WALL. NO BURN NOW.";
    /// A check with the tape still hooked.
    pub const CHECK: &str = "TAPE STILL HOOKED: READ IT AT THE FAR WALL FACE, AS IT IS.";
    /// The count by eye.
    pub const COUNT: &str = "COUNT THE JOISTS BY EYE, DOUBLES AS ONE. DO NOT LOOK HERE.";
    /// How a run came out.
    pub const CLOSED: &str = "OUT OF TOLERANCE: TAPE THE LAST JOISTS AND THE WALL AGAIN.";
    /// The readings of a run.
    pub const READINGS: &str = "OK CORRECTS ONE. HOLD OK: ONE MORE. HOLD RIGHT: DELETE.";
    /// A slip.
    pub const SLIP: &str = "OK: IT IS SO. LEFT: BACK TO THE READING.";
    /// Where end A is.
    pub const STAND: &str = "IN THE HOUSE, BEFORE THE TAPE GOES UP. IT TELLS N FROM S LATER.";
    /// Whether both sides hang on the same line.
    pub const LINE: &str = "WALLS LEAN: STRIKE ONE LINE ACROSS AND HOOK BOTH SIDES ON IT.";
    /// How the beam lies.
    pub const LIE: &str = "STAND WHERE YOU WILL WORK. A BEAM STANDING UP: TOP IS AWAY.";
    /// The length of the delivered steel.
    pub const MEASURED: &str = "MEASURE THE STEEL ITSELF ON BOTH FLANGES, END A TO END B.";
    /// The painted face.
    pub const FACE: &str = "CROWN UP? A, B, TOP AND THE SIDES PAINTED? IF NOT, STOP.";
    /// Marking.
    pub const MARK: &str = "OK: MARKED AND PUNCHED. LEFT: HOLE BEFORE. HOLD OK: MORE.";
    /// Drilling.
    pub const DRILL: &str = "EYES COVERED, BEAM CLAMPED, NO TORCH. OK: DRILLED ON ITS MARK.";
    /// The next mark is farther than the tape is long.
    pub const PAST_TAPE: &str = "THE TAPE ENDS BEFORE THIS MARK. OK: ANOTHER HOOK OR TAPE.";
    /// What the tape hangs on.
    pub const REHOOK: &str = "ON A HOLE: FROM ITS CENTRE. EVERY NEW HOOK CAN ADD AN ERROR.";
    /// A mark that no longer stands.
    pub const STRIKE: &str = "CROSS THE OLD MARK OUT SO THAT NOBODY DRILLS IT. THEN OK.";
    /// A hole off its mark.
    pub const OFF: &str = "KEY WHERE THE HOLE IS, NOT WHERE IT SHOULD BE.";
    /// What is said of a hole.
    pub const VERDICT: &str = "FOULS, RULE OR TIGHT: LEAVE IT OPEN, ASK THE ENGINEER.";
    /// Blind readings.
    pub const BLIND: &str = "READ THE MARK FROM END B WITH ANOTHER TAPE, THEN KEY IT.";
    /// A blind reading that is off.
    pub const BLIND_OFF: &str = "IS THE TAPE ON END B? THEN SAY WHAT IS TO BE DONE.";
    /// No plan.
    pub const NO_PLAN: &str = "OK TRIES THIS WAY OUT. UP, DOWN: OTHERS. RIGHT: NEXT BAY.";
    /// The map.
    pub const MAP: &str = "UP, DOWN: NEXT HOLE. RIGHT: NEARER, THEN ALL. OK: NUMBERS.";
    /// The numbers of what is chosen on it.
    pub const NUMBERS: &str = "UP, DOWN: NEXT HOLE. OK OR LEFT: BACK TO THE MAP.";
    /// The list to chalk from.
    pub const CHALK: &str = "+ MARKED, * DRILLED. RIGHT: OTHER END. HOLD RIGHT: LOCK IT.";
    /// The rule said back.
    pub const RULE: &str = "READ IT OUT BESIDE THE DRAWING BEFORE ANYTHING IS MARKED.";
    /// Cautions.
    pub const CAUTIONS: &str = "EACH ONE: LOOK, THEN DECIDE. THE ENGINEER'S WORD RULES.";
    /// Checks.
    pub const CHECKS: &str = "CROSS-CHECKS ONLY. SHORES STAY UNTIL THE ENGINEER SAYS.";
    /// Packing.
    pub const PACKING: &str = "RIGHT: LAYERS, RIP. UP: OTHER SIDE. C: CHAMFER AN ARRIS.";
    /// Rods.
    pub const RODS: &str = "DOWN: NEXT LENGTH, STICK, LIST. TWO NUTS ON BEFORE A CUT.";
    /// A stick to cut.
    pub const STICK: &str = "OK: ONE BAR IS CUT SO. HOLD RIGHT: IT IS NOT. TWO NUTS FIRST.";
    /// Bars cut by lists that are gone.
    pub const CUTS_GONE: &str = "THE PLAN CHANGED. WHAT IS CUT ALREADY MAY NOT FIT ANY MORE.";
    /// The jobs of the card.
    pub const JOBS: &str = "OK OPENS; THIS JOB IS KEPT. HOLD RIGHT 1 S: OFF THE LIST.";
    /// No card, so no list of jobs.
    pub const NO_JOBS: &str = "A CARD KEEPS SIXTEEN. LEFT GOES BACK.";
    /// A plan that lacks something.
    pub const NEEDS: &str = "KEY WHAT IS NAMED HERE, OFF THE DRAWING. LEFT GOES BACK.";
    /// No plan is possible as things are.
    pub const WAYS_OUT: &str = "PLAN, WAYS OUT SHOWS WHERE AND WHAT HELPS.";
    /// A job about to go off the list.
    pub const DELETE_JOB: &str = "IT STAYS ON THE CARD UNTIL A NEW JOB NEEDS ITS ROOM.";
    /// A new job that needs the room of one taken off.
    pub const TAKE_ROOM: &str = "16 JOBS ARE ALL. THE OLDEST TAKEN OFF GIVES ITS ROOM.";
    /// A run about to be deleted.
    pub const DELETE_RUN: &str = "NOTHING BRINGS READINGS BACK. IF IN DOUBT KEEP THE RUN.";
    /// A question.
    pub const QUESTION: &str = "OK: YES. LEFT: NO.";
}

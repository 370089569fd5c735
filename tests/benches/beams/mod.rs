//! Beams for the benchmarks: the same floor at any length, as job cards.
//!
//! In: how many joists hang on the beam in all. Out: a card of each kind. Rule:
//! joists 12 in on centre on both sides, so twice the joists mean twice the
//! steel; what varies between kinds is what costs a planner time: how the sides
//! lie to each other, pairs, breaks, things in the way, holes there already.
//! Readings are drawn at random where the floor is irregular.

use crate::judges::dice::Dice;
use boltbay_core::card;
use boltbay_core::job::{Hole, HoleState, Job, Position};
use boltbay_core::joists::{self, Joists};
use boltbay_core::placement::{Placement, Scratch, place};
use boltbay_core::rule::Rule;
use boltbay_core::words::Units;
use std::fmt::Write;

/// A beam and what hangs on it.
#[derive(Clone, Debug)]
pub struct BenchBeam {
    /// Which kind, in a few words.
    pub name: &'static str,
    /// Its card.
    pub card: String,
}

/// What one kind differs in.
struct Kind {
    name: &'static str,
    /// S joists lie this far toward B of their N neighbours, in 1/16 in.
    lapped: i64,
    /// Readings vary by up to this, in 1/16 in.
    uneven: i64,
    note: &'static str,
    more: fn(card: &mut String, inches: i64),
}

/// Rows of the note that most kinds share.
const STAGGERED: &str = "bolt,1/2\nspacing,16,every\nends,2 1/2,9\n";

const KINDS: [Kind; 9] = [
    Kind {
        name: "regular, joists across",
        lapped: 0,
        uneven: 0,
        note: STAGGERED,
        more: |_, _| {},
    },
    Kind {
        name: "lapped, ends paired",
        lapped: 24,
        uneven: 0,
        note: "bolt,1/2\nspacing,16,every\nends,2 1/2,9,paired\n",
        more: |_, _| {},
    },
    Kind {
        name: "irregular",
        lapped: 20,
        uneven: 10,
        note: STAGGERED,
        more: |_, _| {},
    },
    Kind {
        name: "paired everywhere",
        lapped: 24,
        uneven: 6,
        note: "bolt,1/2\npattern,paired\nspacing,16,every\nends,2 1/2,9\n",
        more: |_, _| {},
    },
    Kind {
        name: "single row every 24 in, irregular",
        lapped: 12,
        uneven: 10,
        note: "bolt,1/2\npattern,single\nspacing,24,every\nends,2 1/2,9\n",
        more: |_, _| {},
    },
    Kind {
        name: "posts, things in the way, zones",
        lapped: 16,
        uneven: 6,
        note: STAGGERED,
        more: things,
    },
    Kind {
        name: "packing in pieces, one-sided part",
        lapped: 16,
        uneven: 4,
        note: STAGGERED,
        more: pieces,
    },
    Kind {
        name: "lapped, a mark every 1 in only",
        lapped: 24,
        uneven: 0,
        note: "bolt,1/2\nlattice,1\nspacing,16,every\nends,2 1/2,9\n",
        more: |_, _| {},
    },
    Kind {
        name: "impossible in the middle",
        lapped: 16,
        uneven: 6,
        note: STAGGERED,
        more: |card, inches| {
            let (from, to) = (inches / 2 - 14, inches / 2 + 14);
            let _ = writeln!(card, "obstacle,both,{from},{to},solid,stays,duct");
        },
    },
];

/// A post every 10 ft or so, a pipe and a zone every 8 ft.
fn things(card: &mut String, inches: i64) {
    for n in 1..=(inches / 120).min(6) {
        let at = n * 120 - 33;
        let _ = writeln!(card, "near,{at},14,one,paired,post");
    }
    for n in 0..inches / 96 {
        let at = 96 * n + 27;
        let _ = writeln!(card, "obstacle,N,{at},{},solid,stays,pipe", at + 2);
        let _ = writeln!(card, "obstacle,S,{at},{},access,stays,duct", at + 30);
        let _ = writeln!(card, "zone,{},{},rides,cope", at + 45, at + 48);
    }
}

/// A break every 10 ft or so, each on a joist; past the last one only side N is
/// packed.
fn pieces(card: &mut String, inches: i64) {
    let breaks = (inches / 120).clamp(1, 6);
    let joists = inches / 12 / (breaks + 1);
    let mut from = 1;
    for n in 0..=breaks {
        let last = n == breaks;
        let to = if last {
            inches - 1
        } else {
            12 * joists * (n + 1) + 5
        };
        let sides = if last { "N" } else { "both" };
        let _ = writeln!(card, "packing,{from},{to},{sides}");
        from = to + 2;
    }
}

/// A count of 1/16 in as a card says it.
fn inches_of(sixteenths: i64) -> String {
    let (whole, rest) = (sixteenths / 16, sixteenths % 16);
    match rest {
        0 => format!("{whole}"),
        _ => {
            let two = 1 << rest.trailing_zeros();
            format!("{whole} {}/{}", rest / two, 16 / two)
        }
    }
}

/// The readings of one side's run, near edges from end A.
fn run(card: &mut String, dice: &mut Dice, side: char, joists: i64, kind: &Kind) {
    let _ = writeln!(card, "tape,{side},end A,,near");
    let first = 80 + if side == 'S' { kind.lapped } else { 0 };
    for n in 0..joists {
        let off = dice.between(-kind.uneven, kind.uneven);
        let _ = writeln!(card, "joist,{}", inches_of(first + 192 * n + off));
    }
}

fn beam(kind: &Kind, joists: usize) -> BenchBeam {
    let mut dice = Dice::new(joists as u64);
    let (north, south) = (joists.div_ceil(2) as i64, (joists / 2) as i64);
    let inches = 12 * north;
    let mut card = format!(
        "boltbay,1\njob,{}\nunits,imperial\nbeam,W10x33,{inches}\nwall,A,4\nwall,B,4\n\
         hanger,face 2x10,1 1/4\n{}",
        kind.name.split(',').next().unwrap_or_default(),
        kind.note
    );
    (kind.more)(&mut card, inches);
    run(&mut card, &mut dice, 'N', north, kind);
    run(&mut card, &mut dice, 'S', south, kind);
    BenchBeam {
        name: kind.name,
        card,
    }
}

/// One beam of each kind.
pub fn beams(joists: usize) -> Vec<BenchBeam> {
    KINDS.iter().map(|kind| beam(kind, joists)).collect()
}

/// A job with its joists read and its note compiled.
#[derive(Debug)]
pub struct Ready {
    /// Which kind.
    pub name: String,
    /// The job.
    pub job: Box<Job>,
    /// Its joists.
    pub joists: Joists,
    /// Its note.
    pub rule: Rule,
}

impl Ready {
    /// The job of a card that is known to be whole.
    fn of(name: &str, text: &str) -> Ready {
        let mut job = Box::new(Job::new(Units::Imperial));
        if let Err(error) = card::read(text.as_bytes(), &mut job) {
            panic!("{name}: {error}\n{text}");
        }
        let mut joists = Joists::new();
        joists::read(
            &job,
            &mut joists,
            &mut Default::default(),
            &mut Default::default(),
        )
        .expect("readings");
        let rule = Rule::of(&job).expect("a note");
        Ready {
            name: name.to_owned(),
            job,
            joists,
            rule,
        }
    }

    /// Places the bolts.
    pub fn place(&self, out: &mut Placement, scratch: &mut Scratch) {
        place(&self.job, &self.joists, self.rule, out, scratch).expect("an answer");
    }
}

/// All kinds, and one beam that is marked and half drilled.
pub fn ready(joists: usize) -> Vec<Ready> {
    let mut list: Vec<Ready> = beams(joists)
        .iter()
        .map(|beam| Ready::of(beam.name, &beam.card))
        .collect();
    let (mut out, mut scratch) = (Box::new(Placement::new()), Box::new(Scratch::new()));
    let mut marked = Ready::of("all marked, half drilled", &beams(joists)[1].card);
    marked.place(&mut out, &mut scratch);
    let half = out.holes.len() / 2;
    for (n, hole) in out.holes.iter().enumerate() {
        let state = match n < half {
            true => HoleState::Drilled,
            false => HoleState::Marked,
        };
        let hole = Hole::new(Position::from_end_a(hole.at), hole.row, state);
        marked.job.holes.push(hole).expect("room");
    }
    list.push(marked);
    list
}

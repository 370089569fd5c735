//! What stands on which form, in the order of the working day.

use super::super::Look;
use super::super::reading;
use super::{Item, Items};
use crate::field::{Field, Kind, List, Value};
use crate::text;
use crate::view::{Text, text};
use crate::words::{self, hint};
use boltbay_core::Job;
use boltbay_core::words::Side;

/// The forms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// The job's head.
    Job,
    /// Everything that is measured.
    Measure,
    /// The steel itself.
    Steel,
    /// A shape that is not in the table.
    OwnShape,
    /// Web to flange tip.
    Tips,
    /// Walls and pockets.
    Walls,
    /// How walls and joists stand: squareness, floor.
    Floor,
    /// Tape runs.
    Runs,
    /// The engineer's note.
    Plan,
    /// What of the note and the hardware is usual.
    Hardware,
    /// Packing.
    Pack,
    /// Rods.
    Bolt,
    /// Setting the beam: supports and loads.
    Set,
    /// The entries of a list.
    List(List),
    /// One entry.
    Entry(List, u8),
}

/// Fields of one entry of a list.
pub const fn kinds(list: List) -> &'static [Kind] {
    match list {
        List::Supports => &[
            Kind::SupportName,
            Kind::SupportMaterial,
            Kind::SupportCentre,
            Kind::SupportLength,
            Kind::SupportWidth,
            Kind::SupportAllowable,
            Kind::PostAllowable,
            Kind::PostFooting,
        ],
        List::Loads => &[
            Kind::LoadKind,
            Kind::LoadDead,
            Kind::LoadLive,
            Kind::LoadTributary,
            Kind::LoadFrom,
            Kind::LoadTo,
            Kind::LoadAt,
            Kind::LoadSide,
        ],
        List::Runs => &[
            Kind::RunSide,
            Kind::RunHook,
            Kind::RunMark,
            Kind::RunToward,
            Kind::RunEdge,
            Kind::RunBurn,
            Kind::RunThickness,
            Kind::RunReadTo,
            Kind::RunOverride,
        ],
        List::Joists => &[Kind::Reading, Kind::JoistThickness, Kind::JoistHanger],
        List::Checks => &[Kind::CheckReading, Kind::CheckPoint],
        List::Hangers => &[
            Kind::HangerName,
            Kind::HangerMetal,
            Kind::HangerHeight,
            Kind::HangerRated,
        ],
        List::Nails => &[
            Kind::NailName,
            Kind::NailLength,
            Kind::NailDiameter,
            Kind::NailSlant,
        ],
        List::Keepouts => &[
            Kind::ThingKind,
            Kind::ThingSides,
            Kind::ThingFrom,
            Kind::ThingTo,
            Kind::ThingStays,
            Kind::ThingName,
        ],
        List::Packing => &[Kind::PieceFrom, Kind::PieceTo, Kind::PieceSides],
        List::Nears => &[
            Kind::NearAt,
            Kind::NearWithin,
            Kind::NearReach,
            Kind::NearPaired,
            Kind::NearName,
        ],
        List::Layers => &[
            Kind::LayerName,
            Kind::LayerThickness,
            Kind::LayerKind,
            Kind::LayerMoisture,
            Kind::LayerCount,
        ],
        List::Sticks => &[Kind::StickLength, Kind::StickSource, Kind::StickCount],
        List::Pieces => &[Kind::OtherLength, Kind::OtherCount, Kind::OtherName],
        List::Holes => &[Kind::HoleAt, Kind::HoleRow, Kind::HoleState],
    }
}

/// A field that stands once.
const fn once(kind: Kind) -> Item {
    Item::Field(Field::of(kind))
}

/// A field of an end or a side.
const fn nth(kind: Kind, index: u8) -> Item {
    Item::Field(Field::at(kind, index))
}

const fn list(list: List) -> Item {
    Item::Form(Form::List(list))
}

/// The job's head.
const JOB: &[Item] = &[
    once(Kind::JobName),
    once(Kind::Units),
    nth(Kind::Letter, 0),
    nth(Kind::Letter, 1),
    Item::Jobs,
];

/// What is measured.
const MEASURE: &[Item] = &[
    Item::Form(Form::Steel),
    Item::Form(Form::Walls),
    Item::Form(Form::Runs),
    list(List::Keepouts),
    list(List::Hangers),
    Item::Form(Form::Tips),
    Item::Form(Form::Floor),
];

/// The steel.
const STEEL: &[Item] = &[
    once(Kind::Shape),
    once(Kind::Length),
    once(Kind::Measured),
    Item::Form(Form::OwnShape),
    once(Kind::Fy),
    once(Kind::Fu),
];

/// A shape that is not in the table.
const OWN_SHAPE: &[Item] = &[
    once(Kind::OwnDepth),
    once(Kind::OwnWidth),
    once(Kind::OwnWeb),
    once(Kind::OwnFlange),
    once(Kind::OwnKDesign),
    once(Kind::OwnKDetail),
    once(Kind::OwnK1),
    once(Kind::OwnWeight),
    once(Kind::OwnIx),
    once(Kind::OwnSx),
    once(Kind::OwnZx),
];

/// Web to flange tip, three a side.
const TIPS: &[Item] = &[
    nth(Kind::Outstand, 0),
    nth(Kind::Outstand, 1),
    nth(Kind::Outstand, 2),
    nth(Kind::Outstand, 3),
    nth(Kind::Outstand, 4),
    nth(Kind::Outstand, 5),
];

/// Walls and pockets.
const WALLS: &[Item] = &[
    nth(Kind::Bearing, 0),
    once(Kind::Clear),
    nth(Kind::Bearing, 1),
    nth(Kind::PocketDepth, 0),
    nth(Kind::PocketHeight, 0),
    nth(Kind::PocketWidth, 0),
    nth(Kind::PocketDepth, 1),
    nth(Kind::PocketHeight, 1),
    nth(Kind::PocketWidth, 1),
    once(Kind::Stand),
];

/// How joists and walls stand.
const FLOOR: &[Item] = &[
    nth(Kind::JoistDepth, 0),
    nth(Kind::JoistOffset, 0),
    nth(Kind::Subfloor, 0),
    nth(Kind::JoistDepth, 1),
    nth(Kind::JoistOffset, 1),
    nth(Kind::Subfloor, 1),
    nth(Kind::Square, 0),
    nth(Kind::Square, 1),
    nth(Kind::Square, 2),
    nth(Kind::Square, 3),
    nth(Kind::CountedJoists, 0),
    nth(Kind::CountedJoists, 1),
];

/// The engineer's note, and what comes of it.
const PLAN: &[Item] = &[
    once(Kind::Bolt),
    once(Kind::Spacing),
    once(Kind::SpacingBasis),
    once(Kind::EndLeast),
    once(Kind::EndMost),
    once(Kind::EndPaired),
    once(Kind::Pattern),
    list(List::Nears),
    list(List::Packing),
    Item::Form(Form::Hardware),
    list(List::Holes),
    Item::Rule,
    Item::Outcome,
    Item::Cautions,
    Item::Map,
    Item::Chalk,
];

/// What is usual, and can be keyed.
const HARDWARE: &[Item] = &[
    once(Kind::Gap),
    once(Kind::Play),
    once(Kind::HoldBack),
    once(Kind::LeastSpacing),
    once(Kind::Lattice),
    once(Kind::RowTop),
    once(Kind::RowBot),
    nth(Kind::WasherSize, 0),
    nth(Kind::WasherShape, 0),
    nth(Kind::WasherThickness, 0),
    nth(Kind::WasherSize, 1),
    nth(Kind::WasherShape, 1),
    nth(Kind::WasherThickness, 1),
    once(Kind::NutThickness),
    once(Kind::NutCorners),
    once(Kind::WebHole),
    once(Kind::WoodHole),
    once(Kind::Fyb),
];

/// Packing.
const PACK: &[Item] = &[
    Item::Stack,
    list(List::Layers),
    once(Kind::Wood),
    once(Kind::Seated),
    once(Kind::Standoff),
    once(Kind::Shy),
    once(Kind::Proud),
    once(Kind::Aim),
    once(Kind::Service),
];

/// Rods.
const BOLT: &[Item] = &[
    Item::Rods,
    list(List::Sticks),
    once(Kind::Kerf),
    once(Kind::Trim),
    once(Kind::Projection),
    once(Kind::Spare),
    list(List::Pieces),
];

/// Setting the beam.
const SET: &[Item] = &[
    Item::Checks,
    once(Kind::Placed),
    list(List::Supports),
    list(List::Loads),
    once(Kind::Duration),
    once(Kind::Braced),
    once(Kind::BracedBottom),
    list(List::Nails),
];

/// What stands on the fixed forms.
const fn fixed(form: Form) -> &'static [Item] {
    match form {
        Form::Job => JOB,
        Form::Measure => MEASURE,
        Form::Steel => STEEL,
        Form::OwnShape => OWN_SHAPE,
        Form::Tips => TIPS,
        Form::Walls => WALLS,
        Form::Floor => FLOOR,
        Form::Plan => PLAN,
        Form::Hardware => HARDWARE,
        Form::Pack => PACK,
        Form::Bolt => BOLT,
        Form::Set => SET,
        Form::Runs | Form::List(_) | Form::Entry(..) => &[],
    }
}

/// The lines of a form.
pub fn items(form: Form, job: &Job) -> Items {
    let mut items = Items::new();
    let mut add = |item: Item| {
        let _ = items.push(item);
    };
    match form {
        Form::Runs => {
            add(Item::NewRun);
            let runs = 0..List::Runs.len(job);
            runs.for_each(|run| add(Item::Entry(List::Runs, run)));
        }
        Form::List(list) => {
            let entries = 0..list.len(job);
            entries.for_each(|at| add(Item::Entry(list, at)));
            add(Item::Add(list));
        }
        Form::Entry(list, at) => {
            if list == List::Runs {
                add(Item::Read(at));
                add(Item::Readings(at));
            }
            for kind in kinds(list) {
                if fits(*kind, at, job) {
                    add(nth(*kind, at));
                }
            }
            if list == List::Runs {
                let checks = (0_u8..).zip(&job.checks);
                let own = checks.filter(|(_, check)| check.run == at);
                own.for_each(|(check, _)| add(Item::Entry(List::Checks, check)));
            }
        }
        form => fixed(form).iter().copied().for_each(add),
    }
    items
}

/// Whether a field means anything in this entry as it is.
fn fits(kind: Kind, at: u8, job: &Job) -> bool {
    let chosen = |kind: Kind| Field::at(kind, at).get(job);
    match kind {
        Kind::RunMark | Kind::RunToward => chosen(Kind::RunHook) == Value::Choice(4),
        Kind::LoadTributary => chosen(Kind::LoadKind) == Value::Choice(0),
        Kind::LoadFrom | Kind::LoadTo => chosen(Kind::LoadKind) != Value::Choice(2),
        Kind::LoadAt => chosen(Kind::LoadKind) == Value::Choice(2),
        Kind::ThingSides => chosen(Kind::ThingKind) != Value::Choice(2),
        _ => true,
    }
}

/// What to mind on a form: most say what the keys do, some the step's caution.
pub const fn hint_of(form: Form) -> &'static str {
    match form {
        Form::Measure => hint::MEASURE,
        Form::Walls => hint::WALLS,
        Form::Plan => hint::NOTE,
        Form::Pack => hint::PACK,
        Form::Bolt => hint::BOLT,
        Form::Set => hint::SET,
        Form::List(_) | Form::Runs => hint::LIST,
        _ => hint::FORM,
    }
}

/// The heading of a form, and its name on the form above.
pub fn title(form: Form, job: &Job) -> Text {
    text(match form {
        Form::Job => "JOB",
        Form::Measure => "MEASURE",
        Form::Steel => "STEEL",
        Form::OwnShape => "ITS OWN SHAPE",
        Form::Tips => "WEB TO TIPS",
        Form::Walls => "WALLS",
        Form::Floor => "FLOOR, SQUARE",
        Form::Runs => "TAPE RUNS",
        Form::Plan => "NOTE AND PLAN",
        Form::Hardware => "USUAL VALUES",
        Form::Pack => "PACKING",
        Form::Bolt => "RODS",
        Form::Set => "SETTING",
        Form::List(list) => title_of(list),
        Form::Entry(list, at) => return entry(list, at, job),
    })
}

const fn title_of(list: List) -> &'static str {
    match list {
        List::Supports => "SUPPORTS",
        List::Loads => "LOADS",
        List::Runs => "TAPE RUNS",
        List::Joists => "JOISTS",
        List::Checks => "CHECKS",
        List::Hangers => "HANGERS",
        List::Nails => "NAILS",
        List::Keepouts => "IN THE WAY",
        List::Packing => "PACKING PIECES",
        List::Nears => "BOLTS NEAR",
        List::Layers => "BOARDS, SHEETS",
        List::Sticks => "RODS ON HAND",
        List::Pieces => "OTHER PIECES",
        List::Holes => "HOLES",
    }
}

/// One entry's name: its own, or its number.
pub fn entry(list: List, at: u8, job: &Job) -> Text {
    let named = match list {
        List::Supports => Some(Kind::SupportName),
        List::Hangers => Some(Kind::HangerName),
        List::Nails => Some(Kind::NailName),
        List::Keepouts => Some(Kind::ThingName),
        List::Nears => Some(Kind::NearName),
        List::Layers => Some(Kind::LayerName),
        List::Pieces => Some(Kind::OtherName),
        _ => None,
    };
    if let Some(Value::Words(words)) = named.map(|kind| Field::at(kind, at).get(job)) {
        return text!("{} {}", at + 1, words::capitals(&words, 12));
    }
    let word = match list {
        List::Supports => "SUPPORT",
        List::Loads => "LOAD",
        List::Runs => return run(at, job),
        List::Joists => "JOIST",
        List::Checks => "CHECK",
        List::Hangers => "HANGER",
        List::Nails => "NAIL",
        List::Keepouts => "THING",
        List::Packing => "PIECE",
        List::Nears => "NEAR",
        List::Layers => "BOARD",
        List::Sticks => "ROD",
        List::Pieces => "PIECE",
        List::Holes => "HOLE",
    };
    text!("{word} {}", at + 1)
}

/// `RUN N1 WALL A`.
fn run(at: u8, job: &Job) -> Text {
    match job.runs.get(usize::from(at)) {
        Some(run) => text!(
            "RUN {}{} {}",
            job.letter(run.side),
            job.run_number(at),
            words::run_hook(run.hook)
        ),
        None => text("RUN"),
    }
}

/// What an entry comes to, in one line.
pub fn entry_said(list: List, at: u8, look: Look) -> Text {
    let job = look.job;
    let value = |kind: Kind| {
        let field = Field::at(kind, at);
        super::value_said(field, &field.get(job), job)
    };
    match list {
        List::Runs => proof_said(at, look),
        List::Supports => value(Kind::SupportMaterial),
        List::Loads => {
            let (dead, live) = (value(Kind::LoadDead), value(Kind::LoadLive));
            text!("{} + {}", brief(&dead), brief(&live))
        }
        List::Joists => value(Kind::Reading),
        List::Checks => value(Kind::CheckReading),
        List::Hangers => value(Kind::HangerMetal),
        List::Nails => value(Kind::NailLength),
        List::Keepouts => value(Kind::ThingFrom),
        List::Packing => value(Kind::PieceFrom),
        List::Nears => value(Kind::NearAt),
        List::Layers => value(Kind::LayerThickness),
        List::Sticks => value(Kind::StickLength),
        List::Pieces => value(Kind::OtherLength),
        List::Holes => value(Kind::HoleAt),
    }
}

/// A number's first seven letters, whole if it has no point: beside another one
/// there is no room for more, and its own form shows all of it.
fn brief(number: &Text) -> &str {
    match number.get(..7) {
        Some(first) if number.contains('.') => first.trim_end_matches('.'),
        _ => number,
    }
}

/// How many readings, and how the run came out.
fn proof_said(run: u8, look: Look) -> Text {
    let count = reading::of_run(look.job, run).count();
    let report = look.plan.runs.iter().find(|report| report.run == run);
    let proof = match report.and_then(|report| report.ok) {
        Some(true) => "PROVED",
        Some(false) => "OUT",
        None => "NOT PROVED",
    };
    text!("{count}  {proof}")
}

/// What a form says of itself on the form above.
pub fn form_said(form: Form, job: &Job) -> Text {
    match form {
        Form::Steel => match &job.beam {
            Some(beam) => words::capitals(&beam.designation, 12),
            None => text(words::NOT_KEYED),
        },
        Form::Walls => match job.clear {
            Some(clear) => words::short(clear, job.units),
            None => text(words::NOT_KEYED),
        },
        Form::Runs => {
            let [n, s] = Side::BOTH.map(|side| job.runs.iter().filter(|r| r.side == side).count());
            text!("{} {n}, {} {s}", job.letter(Side::N), job.letter(Side::S))
        }
        Form::List(list) => text!("{}", list.len(job)),
        _ => Text::new(),
    }
}

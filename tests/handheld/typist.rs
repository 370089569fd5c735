//! Whole jobs, from nothing, by keys alone: every demo card's job is keyed in
//! through the forms and the reading screen, and is then the same job.

use super::crew::Crew;
use super::walk::demo;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::{HangerRef, Hook, Job, Position};
use boltbay_core::length::Length;
use boltbay_core::words::Units;
use boltbay_handheld::field::{Field, Kind, List, Sort, Value};
use boltbay_handheld::screen::form::kinds;
use boltbay_handheld::view::Amount;
use boltbay_handheld::{Key, Memory};

/// A crew with a job to copy.
struct Typist<'m> {
    crew: Crew<'m>,
    wanted: Job,
}

impl Typist<'_> {
    /// Digits, and a point where there is one.
    fn digits(&mut self, text: &str) {
        for letter in text.bytes() {
            self.crew.tap(match letter {
                b'.' => Key::Separator,
                digit => Key::Digit(digit - b'0'),
            });
        }
    }

    /// A length: the digits as far as they go, then ticks.
    fn length(&mut self, length: Length, fine: bool) {
        let units = self.wanted.units;
        let (step, tick) = match units {
            Units::Imperial => (Length::from_sixteenths(1), Length::from_sixty_fourths(2)),
            Units::Metric => (
                Length::from_millimetres(1),
                Length::from_tenth_millimetres(1),
            ),
        };
        let size = length.abs().counts();
        let whole = size / step.counts();
        match units {
            Units::Imperial => {
                let (feet, rest) = (whole / 192, whole % 192);
                self.digits(&format!("{feet:02}{:02}{:02}", rest / 16, rest % 16));
            }
            Units::Metric => self.digits(&format!("{whole:05}")),
        }
        let left = size - whole * step.counts();
        if left > 0 {
            assert!(fine, "{length:?} is finer than this field is keyed");
            assert_eq!(left % tick.counts(), 0, "{length:?} is finer than a tick");
            self.crew
                .taps(Key::Up, usize::try_from(left / tick.counts()).unwrap());
        }
        assert!(length >= Length::ZERO, "no demo job has a negative length");
        match self.crew.view().figure.map(|figure| figure.amount) {
            Some(Amount::Length(shown, _)) => assert_eq!(shown, length, "{:?}", self.crew.view()),
            other => panic!("{other:?}"),
        }
    }

    fn number(&mut self, number: Decimal) {
        self.digits(&number.to_string());
    }

    fn words(&mut self, words: &str) {
        const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZ 0123456789-/.,:;+&'()#%*=\"!?<>_@$";
        let mut at = 0;
        while !self.crew.view().lines[0].left.is_empty() {
            self.crew.tap(Key::Left);
        }
        for letter in words.to_ascii_uppercase().chars() {
            let to = LETTERS
                .find(letter)
                .unwrap_or_else(|| panic!("{letter:?} cannot be keyed"));
            let (key, steps) = if to > at {
                (Key::Up, to - at)
            } else {
                (Key::Down, at - to)
            };
            self.crew.taps(key, steps);
            self.crew.tap(Key::Right);
            at = to;
        }
    }

    /// On the line of a field: opens it, keys it, accepts it.
    fn field(&mut self, field: Field, value: &Value) {
        self.crew.tap(Key::Ok);
        match (field.kind.about().sort, value) {
            (Sort::Fine, Value::Length(length)) => self.length(*length, true),
            (Sort::Decimal, Value::Length(length)) => {
                let thousandths = match self.wanted.units {
                    Units::Imperial => length.counts() / Length::from_thousandths(1).counts(),
                    Units::Metric => length.counts() / 40,
                };
                self.number(Decimal::new(thousandths, 3));
            }
            (Sort::Length, Value::Length(length)) => self.length(*length, false),
            (Sort::At, Value::At(Position { reading, hook })) => {
                self.length(*reading, false);
                self.crew.tap(Key::Ok);
                self.crew.to(match hook {
                    Hook::EndA => "END A",
                    Hook::EndB => "END B",
                    Hook::WallA => "WALL A",
                    Hook::WallB => "WALL B",
                });
            }
            (Sort::Number(..), Value::Number(number)) => self.number(*number),
            (Sort::Count, Value::Count(count)) => self.digits(&count.to_string()),
            (Sort::Choice(_), Value::Choice(choice)) => {
                let before = field.get(self.crew.job());
                let from = match before {
                    Value::Choice(choice) => choice,
                    _ => 0,
                };
                let key = if *choice > from { Key::Down } else { Key::Up };
                self.crew.taps(key, usize::from(choice.abs_diff(from)));
            }
            (Sort::Words(_), Value::Words(words)) => self.words(words),
            (Sort::Shape, Value::Words(shape)) => self.shape(shape),
            (sort, value) => panic!("{sort:?} {value:?}"),
        }
        self.crew.tap(Key::Ok);
        let kept = field.get(self.crew.job());
        let same = match (&kept, value) {
            (Value::Words(kept), Value::Words(value)) => kept.eq_ignore_ascii_case(value),
            (kept, value) => kept == value,
        };
        assert!(
            same,
            "{field:?}: {kept:?}, not {value:?}: {:?}",
            self.crew.view()
        );
    }

    fn shape(&mut self, shape: &str) {
        let chosen = |crew: &Crew| crew.view().status.tab.to_ascii_uppercase();
        self.crew.taps(Key::Up, 20);
        for _ in 0..20 {
            loop {
                let before = chosen(&self.crew);
                if before == shape.to_ascii_uppercase() {
                    return;
                }
                self.crew.tap(Key::Right);
                if chosen(&self.crew) == before {
                    break;
                }
            }
            self.crew.tap(Key::Down);
        }
        panic!("no shape {shape}");
    }

    /// Goes down the lines of the form in sight and keys what differs; an entry
    /// of a list is keyed in a form of its own. `fields` names what each line is.
    fn form(&mut self, fields: &[Field]) {
        for field in fields {
            let value = field.get(&self.wanted);
            if value == field.get(self.crew.job()) {
                continue;
            }
            let inherited = matches!(field.kind, Kind::RunBurn | Kind::RunThickness);
            if value == Value::Nothing && !inherited {
                continue;
            }
            let which = boltbay_handheld::screen::form::which(*field, self.crew.job());
            let label = field.kind.about().label;
            let name = format!("{label} {which}");
            self.crew.to(name.trim());
            match value {
                Value::Nothing => {
                    self.crew.tap(Key::Ok);
                    self.crew.sheet("AS IF NOT KEYED");
                }
                value => self.field(*field, &value),
            }
        }
    }

    fn all(&mut self, path: &[&str], fields: &[Field]) {
        for line in path {
            self.crew.open(line);
        }
        self.form(fields);
        self.crew.taps(Key::Left, path.len());
        assert_eq!(self.crew.view().screen, "home", "{path:?}");
    }

    fn list(&mut self, path: &[&str], list: List) {
        for line in path {
            self.crew.open(line);
        }
        for at in 0..list.len(&self.wanted) {
            self.crew.open("ADD ONE");
            let fields: Vec<Field> = kinds(list)
                .iter()
                .map(|kind| Field::at(*kind, at))
                .collect();
            self.form(&fields);
            self.crew.tap(Key::Left);
        }
        self.crew.taps(Key::Left, path.len());
    }

    fn runs(&mut self) {
        for run in 0..u8::try_from(self.wanted.runs.len()).unwrap() {
            self.crew.open("MEASURE");
            self.crew.open("TAPE RUNS");
            self.crew.open("NEW TAPE RUN");
            self.crew.start();
            self.crew.sheet("LEAVE");
            // The newest run stands last.
            let runs = self.crew.job().runs.len();
            while self.crew.view().selected != Some(0)
                || self.crew.view().lines[0].left != "NEW TAPE RUN"
            {
                self.crew.tap(Key::Up);
            }
            self.crew.taps(Key::Down, runs);
            self.crew.tap(Key::Ok);
            let fields = kinds(List::Runs).iter().map(|kind| Field::at(*kind, run));
            self.form(&fields.collect::<Vec<_>>());
            self.crew.open("GO ON READING");
            self.readings(run);
            self.proofs(run);
            while self.crew.view().screen != "home" {
                self.crew.tap(Key::Left);
            }
        }
    }

    fn readings(&mut self, run: u8) {
        let wanted: Vec<_> = self
            .wanted
            .joists
            .iter()
            .copied()
            .filter(|j| j.run == run)
            .collect();
        for joist in wanted {
            self.length(joist.reading, false);
            self.crew.tap(Key::Ok);
            while self.crew.view().screen != "reading" {
                match self.crew.view().screen {
                    "slip" => self.crew.tap(Key::Ok),
                    "ask" => self.crew.tap(Key::Left),
                    other => panic!("{other}"),
                }
            }
            let last = u8::try_from(self.crew.job().joists.len() - 1).unwrap();
            if joist.thickness.is_some() || joist.hanger != HangerRef::Default {
                self.crew.sheet("CORRECT ONE");
                self.crew.sheet("THICKNESS, HANGER");
                // The page of the newest reading, against the wanted one's.
                let at = self
                    .wanted
                    .joists
                    .iter()
                    .position(|other| *other == joist)
                    .unwrap();
                let at = u8::try_from(at).unwrap();
                for kind in [Kind::JoistThickness, Kind::JoistHanger] {
                    let value = Field::at(kind, at).get(&self.wanted);
                    if value != Value::Nothing {
                        self.crew.to(kind.about().label);
                        self.field(Field::at(kind, last), &value);
                    }
                }
                self.crew.tap(Key::Left);
                self.crew.tap(Key::Left);
            }
        }
    }

    fn proofs(&mut self, run: u8) {
        use boltbay_core::job::CheckKind;
        let wanted: Vec<_> = self
            .wanted
            .checks
            .iter()
            .copied()
            .filter(|c| c.run == run)
            .collect();
        for check in wanted {
            if self.crew.view().screen != "reading" {
                self.crew.open("GO ON READING");
            }
            self.crew.sheet(match check.kind {
                CheckKind::Close => "CLOSE THE RUN",
                CheckKind::Check => "CHECK, STILL HUNG",
            });
            self.length(check.reading, false);
            self.crew.tap(Key::Ok);
            self.crew.tap(Key::Left);
            let last = self.crew.job().checks.last().unwrap();
            assert_eq!(
                last.point, check.point,
                "the far wall is what it is closed to"
            );
        }
    }
}

fn once(kinds: &[Kind]) -> Vec<Field> {
    kinds.iter().map(|kind| Field::of(*kind)).collect()
}

fn each(kinds: &[Kind], indices: u8) -> Vec<Field> {
    let of = |index| kinds.iter().map(move |kind| Field::at(*kind, index));
    (0..indices).flat_map(of).collect()
}

/// Keys a demo card's job in and compares.
fn copy(card: &str) {
    let wanted = demo(card).job;
    let mut memory = Box::new(Memory::new());
    let mut typist = Typist {
        crew: Crew::new(&mut memory),
        wanted,
    };
    let t = &mut typist;
    t.crew.open(match t.wanted.units {
        Units::Imperial => "NEW JOB, INCHES",
        Units::Metric => "NEW JOB, MM",
    });
    t.crew.tap(Key::Left);
    while t.crew.view().screen != "home" {
        t.crew.sheet("LEAVE");
    }
    let mut head = once(&[Kind::JobName]);
    // The second letter first: it may be the first one's of before.
    head.extend([Field::at(Kind::Letter, 1), Field::at(Kind::Letter, 0)]);
    t.all(&["JOB"], &head);
    t.all(
        &["MEASURE", "STEEL"],
        &once(&[
            Kind::Shape,
            Kind::Length,
            Kind::Measured,
            Kind::Fy,
            Kind::Fu,
        ]),
    );
    let mut walls = each(
        &[
            Kind::Bearing,
            Kind::PocketDepth,
            Kind::PocketHeight,
            Kind::PocketWidth,
        ],
        2,
    );
    walls.extend(once(&[Kind::Clear, Kind::Stand]));
    t.all(&["MEASURE", "WALLS"], &walls);
    t.list(&["MEASURE", "HANGERS"], List::Hangers);
    t.all(&["MEASURE", "WEB TO TIPS"], &each(&[Kind::Outstand], 6));
    let floor = [
        Kind::JoistDepth,
        Kind::JoistOffset,
        Kind::Subfloor,
        Kind::CountedJoists,
    ];
    let mut floor = each(&floor, 2);
    floor.extend(each(&[Kind::Square], 4));
    t.all(&["MEASURE", "FLOOR, SQUARE"], &floor);
    t.runs();
    t.list(&["MEASURE", "IN THE WAY"], List::Keepouts);
    note(t);
    stock(t);
    setting(t);
    let (mut got, mut want) = (typist.crew.job().clone(), typist.wanted);
    // Names are keyed in capitals.
    for job in [&mut got, &mut want] {
        capitals(job);
    }
    // Only a run that nobody asked about has no stand on its card.
    if want.stand.is_none() {
        got.stand = None;
    }
    // A part at a time: the whole of two jobs is more than a person can compare.
    assert_eq!(got.runs, want.runs, "{card}");
    assert_eq!(got.joists, want.joists, "{card}");
    assert_eq!(got.checks, want.checks, "{card}");
    assert_eq!(got.holes, want.holes, "{card}");
    assert_eq!(got, want, "{card}");
}

fn note(t: &mut Typist) {
    t.all(
        &["PLAN"],
        &once(&[
            Kind::Bolt,
            Kind::Spacing,
            Kind::SpacingBasis,
            Kind::EndLeast,
            Kind::EndMost,
            Kind::EndPaired,
            Kind::Pattern,
        ]),
    );
    t.list(&["PLAN", "BOLTS NEAR"], List::Nears);
    t.list(&["PLAN", "PACKING PIECES"], List::Packing);
    let mut usual = once(&[
        Kind::Gap,
        Kind::Play,
        Kind::HoldBack,
        Kind::LeastSpacing,
        Kind::Lattice,
        Kind::RowTop,
        Kind::RowBot,
        Kind::NutThickness,
        Kind::NutCorners,
        Kind::WebHole,
        Kind::WoodHole,
        Kind::Fyb,
    ]);
    usual.extend(each(
        &[Kind::WasherSize, Kind::WasherShape, Kind::WasherThickness],
        2,
    ));
    t.all(&["PLAN", "USUAL VALUES"], &usual);
    t.list(&["PLAN", "HOLES"], List::Holes);
}

fn stock(t: &mut Typist) {
    t.list(&["PACK", "BOARDS, SHEETS"], List::Layers);
    t.all(
        &["PACK"],
        &once(&[
            Kind::Wood,
            Kind::Seated,
            Kind::Standoff,
            Kind::Shy,
            Kind::Proud,
            Kind::Aim,
            Kind::Service,
        ]),
    );
    t.list(&["BOLT", "RODS ON HAND"], List::Sticks);
    t.list(&["BOLT", "OTHER PIECES"], List::Pieces);
    t.all(
        &["BOLT"],
        &once(&[Kind::Kerf, Kind::Trim, Kind::Projection, Kind::Spare]),
    );
}

fn setting(t: &mut Typist) {
    t.list(&["SET", "SUPPORTS"], List::Supports);
    t.list(&["SET", "LOADS"], List::Loads);
    t.list(&["SET", "NAILS"], List::Nails);
    t.all(
        &["SET"],
        &once(&[
            Kind::Placed,
            Kind::Duration,
            Kind::Braced,
            Kind::BracedBottom,
        ]),
    );
}

fn capitals(job: &mut Job) {
    job.name.make_ascii_uppercase();
    if let Some(beam) = job.beam.as_mut() {
        beam.designation.make_ascii_uppercase();
    }
    job.supports
        .iter_mut()
        .for_each(|s| s.name.make_ascii_uppercase());
    job.posts
        .iter_mut()
        .for_each(|p| p.support.make_ascii_uppercase());
    job.hangers
        .iter_mut()
        .for_each(|h| h.name.make_ascii_uppercase());
    job.nails
        .iter_mut()
        .for_each(|n| n.name.make_ascii_uppercase());
    job.keepouts
        .iter_mut()
        .for_each(|k| k.name.make_ascii_uppercase());
    job.nears
        .iter_mut()
        .for_each(|n| n.name.make_ascii_uppercase());
    job.layers
        .iter_mut()
        .for_each(|l| l.name.make_ascii_uppercase());
    job.pieces
        .iter_mut()
        .for_each(|p| p.name.make_ascii_uppercase());
}

#[test]
fn the_demo_jobs_keyed_in_by_hand_are_the_same_jobs() {
    for card in [
        "01-larch-new-framing.csv",
        "02-squall-lapped-joists.csv",
        "03-rowan-old-doubles.csv",
        "04-drizzle-stair.csv",
        "05-sycamore-post.csv",
        "06-mistral-metric.csv",
        "07-hail-impossible.csv",
        "08-hail-way-out.csv",
        "09-hazel-half-drilled.csv",
        "10-juniper-short-back-span.csv",
        "11-sleet-shallow-pocket.csv",
    ] {
        println!("{card}");
        copy(card);
    }
}

//! The memory card when things go wrong, by the firmware's own code on this machine: at
//! every operation of the card, one after the other. The job in memory is compared with
//! that of a handheld that has no card; the words on the screen are looked for; the card
//! is read again by a slow reader.

use super::fat::{Card, FAT16, FAT32, Format};
use super::handheld::key;
use super::slot::{Mishap, Slot};
use boltbay_board::app::{App, Work};
use boltbay_board::board::Board;
use boltbay_board::card::{CardFault, FILE_BYTES, Files};
use boltbay_board::debounce::Edge;
use boltbay_board::frame::Frame;
use boltbay_board::session::{self, Keeping, NotKept, Session};
use boltbay_board::{crash, pages};
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::journal::{Fault, Keeper};
use boltbay_handheld::{Handheld, Key, Memory, Millis, View};
use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// A board without a glass.
struct Bench {
    frame: Frame,
    keys: VecDeque<Key>,
    now: u64,
    slot: Option<Slot>,
    /// Different for every start.
    chance: u64,
}

impl Board for Bench {
    type Card = Slot;

    fn frame(&mut self) -> &mut Frame {
        &mut self.frame
    }

    fn show(&mut self) {}

    fn edge(&mut self) -> Option<Edge> {
        let key = self.keys.pop_front().expect("nobody asked for a key");
        Some(Edge {
            key,
            is_down: false,
            at: Millis(self.now),
        })
    }

    fn now(&self) -> Millis {
        Millis(self.now)
    }

    fn idle(&mut self) {}

    fn alive(&mut self) {}

    fn chance(&self) -> u64 {
        self.chance
    }

    fn card(&mut self) -> Option<Slot> {
        self.slot.take()
    }
}

/// How a run of the program ended.
#[derive(Debug, PartialEq, Eq)]
enum Ended {
    Off,
    Restarts,
    NotKept(NotKept),
}

/// A session that runs, and whoever presses its keys.
struct Crew<'r, 'a> {
    session: &'r mut Session<'a, Slot>,
    board: &'r mut Bench,
}

impl Crew<'_, '_> {
    fn edge(&mut self, key: Key, is_down: bool) {
        let at = Millis(self.board.now);
        let edge = Edge { key, is_down, at };
        self.session.edge(edge, self.board);
    }

    fn press(&mut self, (key, time): Press) {
        self.edge(key, true);
        self.board.now += time;
        self.tick();
        self.edge(key, false);
        self.board.now += 1100;
        self.tick();
    }

    fn tick(&mut self) {
        let now = Millis(self.board.now);
        self.session.tick(now, self.board);
        while self.session.work(now, self.board) != Work::None {}
    }

    fn tap(&mut self, key: Key) {
        self.press((key, TAP));
    }

    fn view(&self) -> View {
        App::<Bench>::view(self.session)
    }

    /// Everything that is written on the screen.
    fn words(&self) -> String {
        words(&self.view())
    }

    /// Whether the screen is about the card.
    fn is_told(&self) -> bool {
        matches!(self.view().screen, "card" | "board")
    }
}

fn words(view: &View) -> String {
    let lines = view.lines.iter();
    let lines: Vec<_> = lines.map(|line| line.left.as_str()).collect();
    format!(
        "{} | {} | {}",
        view.status.left,
        lines.join(" | "),
        view.hint
    )
}

/// Switches on with this card, and works.
fn switched_on(slot: &Slot, first: &[Key], work: impl FnOnce(&mut Crew<'_, '_>)) -> Ended {
    switched_on_at(7, slot, first, work)
}

/// The same at another moment, which is where a new journal's number comes from.
fn switched_on_at(
    chance: u64,
    slot: &Slot,
    first: &[Key],
    work: impl FnOnce(&mut Crew<'_, '_>),
) -> Ended {
    let mut ended = Ended::Off;
    let run = AssertUnwindSafe(|| {
        let mut memory = Box::new(Memory::new());
        let mut board = Bench {
            frame: Frame::new(),
            keys: first.iter().copied().collect(),
            now: 1000,
            slot: Some(slot.clone()),
            chance,
        };
        let files = Files::on(board.card().unwrap());
        let mut keeper = None;
        let keeping = session::find_journal(&mut board, &files).and_then(|blocks| {
            let keeper = keeper.insert(Keeper::new(blocks));
            session::open(&mut board, &files, keeper, &mut memory.job)
        });
        let keeping = keeping.unwrap_or_else(|why| {
            ended = Ended::NotKept(why);
            Keeping::in_memory()
        });
        let mut session = Session::new(&mut memory, keeping, &files);
        session.resume();
        work(&mut Crew {
            session: &mut session,
            board: &mut board,
        });
    });
    if let Err(panic) = catch_unwind(run) {
        let words = panic.downcast_ref::<String>().map(String::as_str);
        let words = words.or(panic.downcast_ref::<&str>().copied());
        if words != Some(crash::RESTART) {
            std::panic::resume_unwind(panic);
        }
        return Ended::Restarts;
    }
    ended
}

const HAZEL: &[u8] = include_bytes!("../../demo-data/09-hazel-half-drilled.csv");
/// From the first screen to the next hole, all drilled, and back to the first screen.
const DRILLED: &str = "down down down down ok left ok ok ok ok ok ok ok ok ok ok ok";

/// A key, and how many milliseconds it is down.
type Press = (Key, u64);
const TAP: u64 = 60;
const HOLD: u64 = 1000;

fn presses(names: &str) -> Vec<Press> {
    let press = |name: &str| match name.strip_prefix("hold:") {
        Some(name) => (key(name), HOLD),
        None => (key(name), TAP),
    };
    names.split_whitespace().map(press).collect()
}

fn empty_job() -> Box<Job> {
    Box::new(Job::new(Units::Imperial))
}

/// The job after each key of a script, on a handheld that has no card; the first is the
/// one before any key.
fn jobs_of(card: &[u8], script: &[Press]) -> Vec<Box<Job>> {
    let mut memory = Box::new(Memory::new());
    boltbay_core::card::read(card, &mut memory.job).unwrap();
    let mut handheld = Handheld::new(&mut memory);
    let mut jobs = vec![Box::new(handheld.job().clone())];
    let mut now = 1000;
    for (key, time) in script {
        handheld.press(*key, Millis(now));
        now += time;
        handheld.tick(Millis(now));
        handheld.release(*key, Millis(now));
        now += 1100;
        handheld.tick(Millis(now));
        jobs.push(Box::new(handheld.job().clone()));
    }
    jobs
}

/// A card with a job card on it.
fn with_hazel(format: Format) -> Card {
    let mut card = Card::formatted(format);
    let first = if format.bits == 16 { 2 } else { 3 };
    let clusters = HAZEL.len().div_ceil(format.blocks_a_cluster as usize * 512);
    let clusters: Vec<u32> = (first..).take(clusters).collect();
    card.put_file(b"HAZEL   CSV", HAZEL, &clusters);
    card.count();
    card.check(true);
    card
}

/// The same, set up, its job chosen.
fn in_work(format: Format) -> Card {
    let slot = Slot::with(&with_hazel(format));
    assert_eq!(switched_on(&slot, &[Key::Ok], |_| {}), Ended::Off);
    let card = slot.ours();
    assert_eq!(card.check(true), 0);
    card
}

/// The job that a card has, read without mishaps; `None` if it has no journal.
fn kept_on(card: &Card) -> Option<Box<Job>> {
    let slot = Slot::with(card);
    let mut job = empty_job();
    // Where nothing is keyed yet, cards are listed: none of them.
    let ended = switched_on(&slot, &[Key::Left], |crew| {
        *job = crew.session.job().clone();
    });
    assert_eq!(ended, Ended::Off);
    Some(job)
}

#[test]
fn the_card_by_hand_is_sound_to_begin_with_and_damage_is_seen() {
    for format in [FAT16, FAT32] {
        let card = with_hazel(format);
        assert_eq!(card.check(true), 0);
        card.check_by_tool();
        assert_eq!(card.files()["HAZEL   CSV"].bytes, HAZEL);
        let mut lost = card.clone();
        lost.take([100, 101]);
        assert_eq!(lost.check(false), 2);
        let mut crossed = card.clone();
        let first = card.files()["HAZEL   CSV"].clusters[0];
        crossed.put_file(b"TWICE   CSV", &[1; 100], &[first]);
        let damage = catch_unwind(|| crossed.check(false));
        assert!(damage.is_err(), "two owners are seen");
    }
}

#[test]
fn nothing_happens_and_everything_is_kept() {
    for format in [FAT16, FAT32] {
        let slot = Slot::with(&with_hazel(format));
        let script = presses(DRILLED);
        let jobs = jobs_of(HAZEL, &script);
        let ended = switched_on(&slot, &[Key::Ok], |crew| {
            for (key, job) in script.iter().zip(&jobs[1..]) {
                crew.press(*key);
                assert!(*crew.session.job() == **job, "{key:?}");
                assert!(!crew.is_told(), "{}", crew.words());
            }
            assert_eq!(crew.view().screen, "home");
        });
        assert_eq!(ended, Ended::Off);
        assert!(jobs[0] != jobs[script.len()], "the script changes the job");
        let card = slot.ours();
        assert_eq!(card.check(true), 0);
        card.check_by_tool();
        assert!(kept_on(&card).unwrap() == jobs[script.len()]);
        let files = card.files();
        assert!(!files["PLAN02  TXT"].bytes.is_empty());
        assert!(!files["PLAN02  CSV"].bytes.is_empty());
    }
}

/// What a crew does once it has read that something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Answer {
    /// Puts everything right first, then OK.
    MendsAndOk,
    /// OK once, in vain; then puts everything right.
    OkFirst,
    /// Goes on without the card; it is put right when the script is through.
    GoesOn,
    /// Goes on without, and nothing is ever put right.
    Never,
}

/// A script of keys, and what must hold whatever happens meanwhile.
struct Trial<'c> {
    card: &'c Card,
    other: Option<&'c Card>,
    script: Vec<Press>,
    /// Keys before anything happens.
    warm: usize,
    /// The job after each key, the first one after none.
    jobs: Vec<Box<Job>>,
    /// What the screen may say.
    words: &'c [&'c str],
}

impl<'c> Trial<'c> {
    fn of(card: &'c Card, other: Option<&'c Card>, words: &'c [&'c str]) -> Trial<'c> {
        Trial::long(card, other, words, "", DRILLED)
    }

    fn long(
        card: &'c Card,
        other: Option<&'c Card>,
        words: &'c [&'c str],
        warm: &str,
        rest: &str,
    ) -> Trial<'c> {
        let warm = presses(warm);
        let script = [warm.clone(), presses(rest)].concat();
        Trial {
            card,
            other,
            jobs: jobs_of(HAZEL, &script),
            script,
            warm: warm.len(),
            words,
        }
    }

    /// Reads what is wrong, and answers.
    fn hear(&self, crew: &mut Crew<'_, '_>, slot: &Slot, answer: Answer) {
        let told = crew.words();
        let is_plain = self.words.iter().any(|words| told.contains(words));
        assert!(is_plain && told.contains("LEFT: GO ON WITHOUT"), "{told}");
        match answer {
            Answer::OkFirst => {
                crew.tap(Key::Ok);
                let is_known = self.other.is_none() || crew.words().contains(ANOTHER[0]);
                assert!(is_known || !crew.is_told(), "{}", crew.words());
                slot.mend();
            }
            Answer::MendsAndOk => {
                slot.mend();
                crew.tap(Key::Ok);
            }
            Answer::GoesOn | Answer::Never => crew.tap(Key::Left),
        }
    }

    /// One run; whether the mishap has come.
    fn run(&self, mishap: Mishap, answer: Answer) -> bool {
        let case = format!("{mishap:?} {answer:?}");
        let slot = Slot::with(self.card);
        let last = &self.jobs[self.script.len()];
        let (mut happened, mut is_kept) = (false, false);
        // Keys that were heard, and what was said last.
        let (mut heard, mut told) = (0, String::new());
        let ended = switched_on(&slot, &[], |crew| {
            for (at, (press, job)) in self.script.iter().zip(&self.jobs[1..]).enumerate() {
                if at == self.warm {
                    slot.let_happen(mishap, self.other);
                }
                crew.press(*press);
                heard = at + 1;
                assert!(*crew.session.job() == **job, "{case}: lost from memory");
                for _ in 0..4 {
                    if crew.is_told() {
                        told = crew.words();
                        self.hear(crew, &slot, answer);
                    }
                }
                assert!(!crew.is_told(), "{case}: {}", crew.words());
                assert!(*crew.session.job() == **job, "{case}: lost by the answer");
            }
            happened = slot.has_happened();
            if answer != Answer::Never {
                slot.mend();
                // A look at another screen and back is a moment to notice.
                crew.tap(Key::Ok);
                crew.tap(Key::Left);
            }
            assert_eq!(crew.view().screen, "home", "{case}");
            assert!(*crew.session.job() == **last, "{case}");
            is_kept = crew.view().status.left != pages::CARD_AWAY;
            if answer != Answer::Never && !told.contains(MENDING[0]) {
                assert!(is_kept, "{case}: the journal has not caught up");
            }
        });
        let card = slot.ours();
        card.check(false);
        let on_card = kept_on(&card).unwrap();
        match (ended, is_kept) {
            (Ended::Off, true) => assert!(on_card == *last, "{case}: said to be kept"),
            (Ended::Off, false) => assert!(self.jobs.contains(&on_card), "{case}: what job?"),
            // Said, and heard by OK: all but the last entry.
            (Ended::Restarts, _) if told.contains(MENDING[0]) => {
                happened = true;
                let ever = &self.jobs[heard - 1..=heard];
                assert!(
                    ever.contains(&on_card),
                    "{case}: more than an entry is gone"
                );
            }
            (ended, _) => panic!("{case}: {ended:?}"),
        }
        if let (Some(before), Some(after)) = (self.other, slot.other()) {
            assert!(*before == after, "{case}: another crew's card is written");
        }
        happened
    }

    /// Something at every operation.
    fn at_every_operation(&self, mishap: impl Fn(u32) -> Mishap, answers: &[Answer]) {
        for answer in answers {
            let mut at = 0;
            while self.run(mishap(at), *answer) {
                at += 1;
            }
            assert!(at > 100, "the script has only {at} operations");
            println!("{answer:?}: {at} operations");
        }
    }
}

/// The same at every operation of the script, on a card in work.
fn at_every_operation(
    mishap: impl Fn(u32) -> Mishap,
    other: Option<&Card>,
    words: &[&str],
    answers: &[Answer],
) {
    let card = in_work(FAT16);
    Trial::of(&card, other, words).at_every_operation(mishap, answers);
}

const MENDING: [&str; 1] = ["CARD WANTS MENDING | OK: READ IT ANEW, | LAST ENTRY IS GONE"];

/// One hole drilled, and so many keys that the job is about to be written whole.
fn about_to_be_whole() -> String {
    let walk = "down down down down ok left ok ok ok ok ".to_owned();
    walk + &"up down ".repeat(60)
}

#[test]
fn whatever_happens_while_the_job_is_written_whole() {
    let card = in_work(FAT16);
    let words = [
        AWAY[0],
        REFUSES[0],
        ANOTHER[0],
        MENDING[0],
        "CARD DOES NOT KEEP UP",
    ];
    let [other, _] = others();
    let rest =
        "up down up down up down up down up down up down up down up down ok ok ok ok ok ok ok";
    let trial = Trial::long(&card, Some(&other), &words, &about_to_be_whole(), rest);
    let mishaps = [
        Mishap::Pulled,
        Mishap::Swapped,
        Mishap::Locked,
        Mishap::Fails,
    ];
    let answers = [
        Answer::MendsAndOk,
        Answer::GoesOn,
        Answer::Never,
        Answer::OkFirst,
    ];
    for (mishap, answer) in mishaps.into_iter().zip(answers) {
        trial.at_every_operation(mishap, &[answer]);
    }
}

const AWAY: [&str; 1] = ["NO CARD | PUT IT BACK, OK"];
const REFUSES: [&str; 1] = ["CARD DOES NOT KEEP IT | TAKE ANOTHER CARD"];

#[test]
fn pulled_at_every_operation_and_put_back() {
    at_every_operation(
        Mishap::Pulled,
        None,
        &AWAY,
        &[Answer::MendsAndOk, Answer::OkFirst],
    );
}

#[test]
fn pulled_at_every_operation_and_gone_on_without() {
    at_every_operation(
        Mishap::Pulled,
        None,
        &AWAY,
        &[Answer::GoesOn, Answer::Never],
    );
}

#[test]
fn locked_at_every_operation() {
    at_every_operation(
        Mishap::Locked,
        None,
        &REFUSES,
        &[Answer::MendsAndOk, Answer::Never],
    );
}

#[test]
fn one_operation_fails_whichever() {
    for mishap in [Mishap::Fails, Mishap::FailsLate] {
        at_every_operation(mishap, None, &REFUSES, &[Answer::OkFirst]);
    }
}

#[test]
fn loose_for_a_few_operations_from_every_one() {
    // Gone for the last of three tries: then it is there again, and was not read.
    let words = [AWAY[0], "CARD CANNOT BE READ | TAKE ANOTHER CARD"];
    for count in [1, 2, 5] {
        let mishap = |at| Mishap::Loose(at, count);
        at_every_operation(mishap, None, &words, &[Answer::MendsAndOk]);
    }
}

const ANOTHER: [&str; 1] = ["ANOTHER CREW'S CARD? | PUT YOURS BACK, OK"];

/// Cards of another crew: with a journal and plans of its own, and with files only.
fn others() -> [Card; 2] {
    let slot = Slot::with(&with_hazel(FAT16));
    let ended = switched_on_at(8, &slot, &[Key::Ok], |crew| {
        for press in presses(DRILLED) {
            crew.press(press);
        }
    });
    assert_eq!(ended, Ended::Off);
    let mut files = Card::formatted(FAT16);
    let clusters: Vec<u32> = (2..4000).collect();
    let bytes = vec![0xA5; 3998 * 4096];
    files.put_file(b"PLAN02  TXT", &bytes, &clusters);
    [slot.ours(), files]
}

#[test]
fn another_crews_card_in_its_place_is_never_written() {
    // Between two blocks of one entry it is only seen that the card was away.
    let words = [ANOTHER[0], AWAY[0]];
    for other in others() {
        let answers = [
            Answer::MendsAndOk,
            Answer::OkFirst,
            Answer::GoesOn,
            Answer::Never,
        ];
        at_every_operation(Mishap::Swapped, Some(&other), &words, &answers);
    }
}

/// Switched on while something happens; then switched off, put right and switched on.
fn starts_with(card: &Card, mishap: Mishap) -> bool {
    let slot = Slot::with(card);
    slot.let_happen(mishap, None);
    let mut told = String::new();
    let mut in_memory = empty_job();
    let ended = switched_on(&slot, &[Key::Ok, Key::Ok, Key::Left], |crew| {
        told = crew.words();
        if crew.is_told() {
            crew.tap(Key::Left);
        }
        crew.tap(Key::Down);
        crew.tap(Key::Up);
        told += &crew.words();
        *in_memory = crew.session.job().clone();
    });
    let happened = slot.has_happened();
    // Whatever it was that did not work, it was said.
    if let Ended::NotKept(why) = ended {
        assert!(told.contains(pages::NOTHING_KEPT), "{mishap:?}: {told}");
        assert!(!why.on_screen()[0].is_empty());
        assert!(*in_memory == *empty_job(), "{mishap:?}");
    }
    slot.ours().check(false);
    let again = Slot::with(&slot.ours());
    let ended = switched_on(&again, &[Key::Ok], |crew| {
        assert!(!crew.is_told(), "{mishap:?}: {}", crew.words());
        assert_eq!(
            crew.session.job().name.as_str(),
            "Hazel: half drilled",
            "{mishap:?}"
        );
    });
    assert_eq!(ended, Ended::Off, "{mishap:?}");
    again.ours().check(false);
    happened
}

#[test]
fn whatever_happens_while_it_starts_the_next_start_is_well() {
    for card in [with_hazel(FAT16), in_work(FAT16)] {
        for mishap in [
            Mishap::Pulled,
            Mishap::Locked,
            Mishap::Fails,
            Mishap::FailsLate,
        ] {
            // A card that is gone before the first operation is not even asked.
            starts_with(&card, mishap(0));
            let mut at = 1;
            while starts_with(&card, mishap(at)) {
                at += 1;
            }
            assert!(at > 300, "{at} operations");
        }
    }
}

/// The clusters of a card, from the first free one on.
fn free_from(card: &Card) -> std::ops::Range<u32> {
    let files = card.files();
    let owned = files.values().flat_map(|file| &file.clusters).max();
    owned.unwrap() + 1..card.format.clusters + 2
}

/// Leaves so many clusters free, at the end.
fn filled(card: &Card, free: u32) -> Card {
    let mut full = card.clone();
    let room = free_from(&full);
    full.take(room.start..room.end - free);
    full.count();
    full
}

#[test]
fn a_new_card_with_any_room_is_set_up_or_refused_and_is_sound() {
    let needed = 2048;
    for free in (0..4).chain(needed - 3..needed + 4) {
        let full = filled(&with_hazel(FAT16), free);
        let lost = full.check(true);
        let slot = Slot::with(&full);
        let ended = switched_on(&slot, &[Key::Ok], |_| {});
        // One more than the journal has, for a folder that must grow.
        let expected = match free > needed {
            true => Ended::Off,
            false => Ended::NotKept(NotKept::Card(CardFault::Full)),
        };
        assert_eq!(ended, expected, "{free} clusters");
        assert_eq!(slot.ours().check(true), lost, "{free} clusters");
        let has_journal = slot.ours().files().contains_key("BOLTBAY JNL");
        assert_eq!(has_journal, free > needed);
    }
}

#[test]
fn a_plan_that_finds_no_room_is_said_to_be_old_and_the_card_is_sound() {
    for format in [FAT16, FAT32] {
        let card = in_work(format);
        let cluster = format.blocks_a_cluster * 512;
        let room = FILE_BYTES / cluster;
        let (mut old, mut written) = (0, 0);
        for free in (0..2 * room).step_by(room as usize / 16) {
            let full = filled(&card, free);
            let lost = full.check(true);
            let slot = Slot::with(&full);
            let ended = switched_on(&slot, &[], |crew| {
                for press in presses(DRILLED) {
                    crew.press(press);
                    assert!(!crew.is_told(), "{}", crew.words());
                }
                match crew.view().status.left == pages::PLAN_IS_OLD {
                    true => old += 1,
                    false => written += 1,
                }
            });
            assert_eq!(ended, Ended::Off);
            assert_eq!(slot.ours().check(true), lost, "{free} clusters");
        }
        assert!(old > 10 && written > 0, "{old}, {written}");
    }
}

#[test]
fn a_hole_near_the_front_is_passed_over() {
    for format in [FAT16, FAT32] {
        let mut card = with_hazel(format);
        // One file here and there, free clusters between them.
        card.take((30..300).step_by(3));
        card.count();
        let slot = Slot::with(&card);
        assert_eq!(switched_on(&slot, &[Key::Ok], |_| {}), Ended::Off);
        let journal = slot.ours().files()["BOLTBAY JNL"].clusters.clone();
        assert!(journal.windows(2).all(|pair| pair[0] + 1 == pair[1]));
        assert!(journal[0] > 297);
        slot.ours().check(true);
    }
}

#[test]
fn room_in_pieces_only_is_no_room() {
    let mut card = with_hazel(FAT16);
    card.take((100..4200).step_by(2000));
    let slot = Slot::with(&card);
    let pieces = Ended::NotKept(NotKept::Card(CardFault::InPieces));
    assert_eq!(switched_on(&slot, &[], |_| {}), pieces);
    assert!(slot.ours() == card, "nothing is written");
}

#[test]
fn a_file_of_our_name_that_is_not_ours_is_not_written_over() {
    let bytes = vec![0xA5; 8 << 20];
    let clusters: Vec<u32> = (20..20 + 2048).collect();
    let short = CardFault::TooShort;
    for (bytes, why) in [
        (&bytes[..4096 * 7], NotKept::Card(short)),
        (&bytes[..], NotKept::Journal(Fault::Damaged)),
    ] {
        let mut card = with_hazel(FAT16);
        let clusters = &clusters[..bytes.len().div_ceil(4096)];
        card.put_file(b"BOLTBAY JNL", bytes, clusters);
        let slot = Slot::with(&card);
        assert_eq!(switched_on(&slot, &[], |_| {}), Ended::NotKept(why));
        assert!(slot.ours() == card, "nothing is written");
    }
}

#[test]
fn a_root_folder_without_room_grows_or_is_refused() {
    for (format, refused) in [(FAT16, true), (FAT32, false)] {
        let mut card = with_hazel(format);
        let entries = if format.bits == 16 { 512 } else { 16 };
        for number in 1..entries {
            card.put_file(
                format!("F{number:07}BIN").as_bytes().try_into().unwrap(),
                &[],
                &[],
            );
        }
        let slot = Slot::with(&card);
        let ended = switched_on(&slot, &[Key::Ok], |_| {});
        let fault = Ended::NotKept(NotKept::Card(CardFault::FolderFull));
        assert_eq!(ended, if refused { fault } else { Ended::Off });
        assert_eq!(slot.ours().check(true), 0);
        slot.ours().check_by_tool();
    }
}

#[test]
fn a_file_has_room_for_twice_the_longest_plan() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-data");
    let mut longest = 0;
    for entry in std::fs::read_dir(demo).unwrap() {
        let mut memory = Box::new(Memory::new());
        let card = std::fs::read(entry.unwrap().path()).unwrap();
        if boltbay_core::card::read(&card, &mut memory.job).is_ok() {
            let mut handheld = Handheld::new(&mut memory);
            let (mut text, mut csv) = (String::new(), String::new());
            handheld.write_text(&mut text).unwrap();
            handheld.write_csv(&mut csv).unwrap();
            longest = longest.max(text.len()).max(csv.len());
        }
    }
    assert!(longest > 1000, "{longest}");
    assert!(longest * 2 < FILE_BYTES as usize, "{longest}");
}

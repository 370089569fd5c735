//! The memory card when things go wrong, by the firmware's own code on this machine: at
//! every operation of the card, one after the other. The job in memory is compared with
//! that of a handheld that has no card; the words on the screen are looked for; the card
//! is read again by a slow reader.

use super::bench::{
    Crew, DRILLED, Ended, Press, empty_job, in_work, jobs_of, kept_on, presses, switched_on,
    switched_on_at, with_hazel,
};
use super::fat::{Card, FAT16, FAT32};
use super::handheld::HAZEL;
use super::late::taken_by_zeros;
use super::slot::{Mishap, Slot};
use boltbay_board::pages;
use boltbay_core::Job;
use boltbay_handheld::Key;
use std::panic::catch_unwind;

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

/// What is swapped in has blanks where the journal would have its heads.
#[test]
fn swapped_while_it_starts_the_other_card_is_never_written() {
    let other = taken_by_zeros();
    for card in [with_hazel(FAT16), in_work(FAT16)] {
        let mut at = 1;
        loop {
            let slot = Slot::with(&card);
            slot.let_happen(Mishap::Swapped(at), Some(&other));
            switched_on(&slot, &[Key::Ok, Key::Ok, Key::Left], |crew| {
                crew.tap(Key::Ok);
                crew.tap(Key::Left);
            });
            assert!(slot.other().as_ref() == Some(&other), "operation {at}");
            slot.ours().check(false);
            if !slot.has_happened() {
                break;
            }
            at += 1;
        }
        assert!(at > 300, "{at} operations");
    }
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

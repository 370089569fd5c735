//! The list of jobs: many jobs on a card, one in the memory, none lost.

use super::crew::Crew;
use super::glass::golden;
use super::journal::card::{Card, Mood};
use super::walk::demo;
use boltbay_core::Job;
use boltbay_core::words::Units;
use boltbay_handheld::journal::{CardNumber, JOBS, JobNumber, Keeper, Outcome};
use boltbay_handheld::{Key, Memory};

/// A crew with a card; what it sees is what the keeper lets it see.
struct Site<'m> {
    crew: Crew<'m>,
    keeper: Keeper<Card>,
}

impl<'m> Site<'m> {
    fn new(memory: &'m mut Memory) -> Site<'m> {
        let mut keeper = Keeper::new(Card::default());
        let number = CardNumber(*b"jobs    ");
        let given = memory.job.clone();
        keeper.journal().set_up(number, &mut memory.job).unwrap();
        if given != memory.job {
            let fill = |job: &mut Job| {
                job.clone_from(&given);
                Ok(())
            };
            keeper.journal().make_job(&mut memory.job, fill).unwrap();
        }
        let crew = Crew::new(memory);
        Site { crew, keeper }
    }

    fn keep(&mut self) -> Outcome {
        self.keeper.keep(&mut self.crew.handheld)
    }

    fn tap(&mut self, key: Key) {
        self.crew.tap(key);
        assert_eq!(self.keep(), Outcome::Kept);
    }

    fn open(&mut self, line: &str) {
        self.crew.to(line);
        self.tap(Key::Ok);
    }

    /// To the list of jobs.
    fn list(&mut self) {
        while self.crew.view().screen != "home" {
            self.tap(Key::Left);
        }
        self.open("JOB");
        self.open("JOBS ON THE CARD");
        assert_eq!(self.crew.view().screen, "jobs");
    }

    /// Names the open job, so that it is known again.
    fn name(&mut self, letters: usize) {
        while self.crew.view().screen != "home" {
            self.tap(Key::Left);
        }
        self.open("JOB");
        self.open("JOB NAME");
        for _ in 0..letters {
            self.tap(Key::Up);
            self.tap(Key::Right);
        }
        self.tap(Key::Ok);
        self.tap(Key::Left);
    }

    fn job(&self) -> Job {
        self.crew.job().clone()
    }
}

#[test]
fn a_second_job_and_back_to_the_first() {
    let mut memory = demo("01-larch-new-framing.csv");
    let larch = memory.job.clone();
    let mut site = Site::new(&mut memory);
    let first = site.keeper.journal().job();
    site.list();
    golden("jobs", &site.crew.view());
    site.open("NEW JOB, MM");
    assert_eq!(
        site.crew.view().screen,
        "shape",
        "a new job leads on by itself"
    );
    assert_eq!(site.job(), Job::new(Units::Metric));
    site.name(3);
    let third = site.job();
    site.list();
    golden("jobs-three", &site.crew.view());
    site.open("LARCH: NEW FR");
    assert_eq!(site.job(), larch);
    assert_eq!(site.keeper.journal().job(), first);
    site.list();
    let name = site.crew.view().lines[1].left.to_string();
    site.open(&name);
    assert_eq!(site.job(), third, "it comes back as it was left");
}

#[test]
fn a_job_goes_off_the_list_and_comes_back() {
    let mut memory = Box::new(Memory::new());
    let mut site = Site::new(&mut memory);
    site.list();
    site.open("NEW JOB, INCHES");
    site.name(2);
    site.list();
    // The open job stays, whatever is held.
    site.tap(Key::Down);
    site.crew.hold(Key::Right, 1);
    assert_eq!(site.keep(), Outcome::Kept);
    golden("delete-job", &site.crew.view());
    site.tap(Key::Ok);
    assert_eq!(
        site.crew.view().screen,
        "delete-job",
        "OK alone takes nothing off"
    );
    site.crew.hold(Key::Right, 1);
    assert_eq!(site.keep(), Outcome::Kept);
    golden("jobs-one-off", &site.crew.view());
    assert_eq!(site.keeper.journal().count(), 1);
    site.tap(Key::Ok);
    assert_eq!(site.keeper.journal().count(), 2);
    assert_eq!(site.crew.view().lines[1].right, "");
}

#[test]
fn sixteen_jobs_and_then_a_question() {
    let mut memory = Box::new(Memory::new());
    let mut site = Site::new(&mut memory);
    for _ in 1..JOBS {
        site.list();
        site.crew.tap(Key::Up);
        site.open("NEW JOB, MM");
    }
    assert_eq!(site.keeper.journal().count(), JOBS);
    site.list();
    site.crew.tap(Key::Up);
    site.crew.to("NEW JOB, MM");
    site.crew.tap(Key::Ok);
    // All sixteen are worked on: nothing gives way.
    assert_eq!(site.keep(), Outcome::Waits);
    golden("jobs-full", &site.keeper.view(&site.crew.handheld));
    assert_eq!(site.keeper.again(&site.crew.handheld), Outcome::Kept);
    site.list();
    site.tap(Key::Down);
    site.crew.hold(Key::Right, 1);
    assert_eq!(site.keep(), Outcome::Kept);
    site.crew.hold(Key::Right, 1);
    assert_eq!(site.keep(), Outcome::Kept);
    site.crew.to("NEW JOB, MM");
    site.tap(Key::Ok);
    golden("take-room", &site.crew.view());
    site.tap(Key::Left);
    assert_eq!(site.keeper.journal().count(), JOBS - 1);
    site.tap(Key::Ok);
    site.tap(Key::Ok);
    assert_eq!(site.keeper.journal().count(), JOBS);
}

/// What was keyed last, with no key after it, is there when the job is opened again;
/// and a card that fails leaves the crew where it was.
#[test]
fn nothing_is_lost_between_jobs() {
    let mut memory = Box::new(Memory::new());
    let mut site = Site::new(&mut memory);
    site.name(4);
    let first = site.job();
    site.list();
    site.crew.tap(Key::Up);
    site.keeper.journal().store().mood = Mood::Refusing;
    site.crew.tap(Key::Ok);
    assert_eq!(site.keep(), Outcome::Waits);
    assert_eq!(
        site.keeper.view(&site.crew.handheld).status.left,
        "NOT DONE"
    );
    assert_eq!(site.job(), first);
    site.keeper.journal().store().mood = Mood::Well;
    site.keeper.again(&site.crew.handheld);
    site.list();
    site.crew.tap(Key::Up);
    site.tap(Key::Ok);
    assert_ne!(site.job(), first);
    // The power goes; the new job is the open one, the first one whole.
    let blocks = site.keeper.journal().store().blocks.clone();
    let mut fresh = Box::new(Memory::new());
    let mut keeper = Keeper::new(Card::of(blocks));
    keeper.open(&mut fresh.job).unwrap();
    assert_eq!(fresh.job, site.job());
    let mut other = Job::new(Units::Metric);
    keeper
        .journal()
        .open_job(JobNumber::FIRST, &mut other)
        .unwrap();
    assert_eq!(other, first);
}

#[test]
fn without_a_card_there_is_one_job() {
    let mut memory = demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    crew.open("JOB");
    crew.open("JOBS ON THE CARD");
    golden("jobs-none", &crew.view());
    crew.tap(Key::Ok);
    crew.tap(Key::Left);
    assert_eq!(crew.view().screen, "form");
}

/// A new job, nothing keyed yet, and both places where it lies are damaged: nothing of
/// it is left, and the crew is told.
#[test]
fn a_new_job_that_is_lost_before_its_first_key_is_said() {
    let mut memory = Box::new(Memory::new());
    let mut site = Site::new(&mut memory);
    site.list();
    site.open("NEW JOB, MM");
    let mut blocks = site.keeper.journal().store().blocks.clone();
    // Slots from block 256 of each region on, 32 blocks each; this one is the second.
    for region in [0, 8192] {
        blocks.spoil_group(region + 256 + 32, 32, 7);
    }
    let mut fresh = Box::new(Memory::new());
    let mut keeper = Keeper::new(Card::of(blocks));
    keeper.open(&mut fresh.job).unwrap();
    let crew = Crew::new(&mut fresh);
    golden("job-lost", &keeper.view(&crew.handheld));
}

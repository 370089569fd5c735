//! The self-test: every part of the board by hand or by a script of keys, without the
//! handheld's screens. What it shows are the pages of `pages.rs`, which the tests paint
//! on a desktop and compare, pixel for pixel.
#![no_std]
#![no_main]

use boltbay_board::app::{self, App};
use boltbay_board::board::Board;
use boltbay_board::card::{CardBlocks, CardFault, Files, JournalFile, Name};
use boltbay_board::debounce::{Edge, KEYS};
use boltbay_board::session::{self, NotKept};
use boltbay_board::{chosen, crash, log, pages, stack};
use boltbay_handheld::journal::{Fault, Full, Journal, Kept, Sink, Source, Unreadable};
use boltbay_handheld::key::{Buttons, Gesture, Holding, Holdings};
use boltbay_handheld::view::Text;
use boltbay_handheld::{Key, Millis, View, text};
use core::hint::black_box;
use core::ops::ControlFlow;
use heapless::Vec;

/// What the journal of the self-test keeps: a count.
#[derive(Default)]
struct Count(u32);

impl Kept for Count {
    fn clear(&mut self) {
        self.0 = 0;
    }

    fn apply(&mut self, edits: &[u8]) -> Result<(), Unreadable> {
        let [more] = *edits else {
            return Err(Unreadable);
        };
        self.0 = self.0.wrapping_add(more.into());
        Ok(())
    }

    fn write(&self, out: &mut dyn Sink) -> Result<(), Full> {
        out.put(&self.0.to_le_bytes())
    }

    fn read(&mut self, from: &mut dyn Source) -> Result<(), Unreadable> {
        let mut bytes = [0; 4];
        from.take(&mut bytes)?;
        self.0 = u32::from_le_bytes(bytes);
        Ok(())
    }

    fn title(&self) -> &str {
        "SELFTEST"
    }
}

/// Where the self-test is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Page {
    Menu,
    Picture(u8),
    Keys,
    Card,
    Journal,
    /// The card or the journal does not do it.
    Trouble([&'static str; 2]),
    Crash,
}

/// Cards that are listed.
const LISTED: usize = 3;

struct Selftest<C: CardBlocks + 'static> {
    files: &'static Files<C>,
    journal: Option<Journal<JournalFile<'static, C>>>,
    count: Count,
    page: Page,
    selected: u8,
    buttons: Buttons,
    taps: [u16; KEYS.len()],
    holds: [u16; KEYS.len()],
    /// The key before this one was LEFT.
    was_left: bool,
    cards: Vec<(Name, u32), LISTED>,
    says: [Text; 2],
}

/// Every key repeats when held, so that holds can be counted.
fn holdings() -> Holdings {
    let again = Some(Holding::again(400, 250));
    Holdings {
        vertical: again,
        left: again,
        right: again,
        ok: again,
    }
}

impl<C: CardBlocks> Selftest<C> {
    fn new(files: &'static Files<C>) -> Selftest<C> {
        Selftest {
            files,
            journal: None,
            count: Count::default(),
            page: Page::Menu,
            selected: 0,
            buttons: Buttons::default(),
            taps: Default::default(),
            holds: Default::default(),
            was_left: false,
            cards: Vec::new(),
            says: Default::default(),
        }
    }

    /// One gesture on the page.
    fn act<B: Board<Card = C>>(&mut self, gesture: Gesture, board: &mut B) {
        match (self.page, gesture) {
            (Page::Keys, gesture) => self.count_key(gesture),
            (_, Gesture::Hold(_)) => {}
            (Page::Menu, Gesture::Tap(key)) => self.choose(key, board),
            (_, Gesture::Tap(Key::Left)) => self.page = Page::Menu,
            (Page::Picture(number), Gesture::Tap(_)) => self.page = Page::Picture(number + 1),
            (Page::Card, Gesture::Tap(Key::Ok)) => {
                self.says = match self.read_and_write() {
                    Ok(says) => says,
                    Err(fault) => fault.on_screen().map(boltbay_handheld::view::text),
                };
            }
            (Page::Journal, Gesture::Tap(key)) => {
                if let Err(fault) = self.record(key) {
                    self.page = Page::Trouble(fault.on_screen());
                }
            }
            (Page::Crash, Gesture::Tap(key)) => stop(key),
            _ => {}
        }
    }

    fn choose<B: Board<Card = C>>(&mut self, key: Key, board: &mut B) {
        let last = pages::MENU.len() as u8 - 1;
        match key {
            Key::Up => self.selected = self.selected.saturating_sub(1),
            Key::Down => self.selected = (self.selected + 1).min(last),
            Key::Ok => self.open(board),
            _ => {}
        }
    }

    fn open<B: Board<Card = C>>(&mut self, board: &mut B) {
        self.page = match self.selected {
            0 => Page::Picture(0),
            1 => Page::Keys,
            2 => match self.list() {
                Ok(()) => Page::Card,
                Err(fault) => Page::Trouble(fault.on_screen()),
            },
            3 => match self.open_journal(board) {
                Ok(()) => Page::Journal,
                Err(why) => Page::Trouble(why.on_screen()),
            },
            _ => Page::Crash,
        };
        // After opening a page, not before it: cards and journals are deep.
        log!("stack so far {}", stack::deepest());
    }

    fn count_key(&mut self, gesture: Gesture) {
        let (Gesture::Tap(key) | Gesture::Hold(key)) = gesture;
        let counts = match gesture {
            Gesture::Tap(_) => &mut self.taps,
            Gesture::Hold(_) => &mut self.holds,
        };
        for (known, count) in KEYS.iter().zip(counts) {
            *count += u16::from(*known == key);
        }
        let is_left = gesture == Gesture::Tap(Key::Left);
        if is_left && self.was_left {
            self.page = Page::Menu;
        }
        self.was_left = is_left;
    }

    fn list(&mut self) -> Result<(), CardFault> {
        self.files.wake()?;
        self.cards.clear();
        let cards = &mut self.cards;
        self.files.job_cards(|name, size| {
            let _ = cards.push((name, size));
        })
    }

    /// Reads the first card, and writes what it has seen of it.
    fn read_and_write(&mut self) -> Result<[Text; 2], CardFault> {
        let (name, _) = self.cards.first().ok_or(CardFault::NoFile)?;
        let (mut bytes, mut sum) = (0_u32, 0_u32);
        self.files.read(name, |piece| {
            bytes += piece.len() as u32;
            let add = |sum: u32, byte: &u8| sum.wrapping_mul(31).wrapping_add((*byte).into());
            sum = piece.iter().fold(sum, add);
            ControlFlow::Continue(())
        })?;
        self.files.write("SELFTEST.TXT", |out| {
            for line in 0..100 {
                writeln!(out, "{line} {name} {bytes} {sum}")?;
            }
            Ok(())
        })?;
        Ok([text!("READ {bytes}"), text!("SUM {sum}")])
    }

    fn open_journal<B: Board<Card = C>>(&mut self, board: &mut B) -> Result<(), NotKept> {
        let file = JournalFile::nowhere(self.files);
        let journal = self.journal.insert(Journal::new(file));
        session::find_journal(board, self.files, journal.store())?;
        let opened = journal.open_or_set_up(session::new_number(board), &mut self.count);
        let opening = opened.map_err(NotKept::Journal)?;
        // A new journal was nowhere yet.
        if let Some(place) = opening.place.first() {
            self.selected = *place;
        }
        Ok(())
    }

    /// OK counts one, other keys their number; where the place was is kept too.
    fn record(&mut self, key: Key) -> Result<(), Fault> {
        let journal = self.journal.as_mut().ok_or(Fault::NotOpen)?;
        let more = if key == Key::Ok { 1 } else { 10 };
        journal.record(&[more], &[self.selected])?;
        self.count.0 += u32::from(more);
        journal.tend(&self.count).map(drop)
    }
}

/// Stops the program in the way that the key stands for.
fn stop(key: Key) {
    match key {
        Key::Up => panic!("asked for by a key"),
        Key::Down => {
            black_box(deeper(black_box(1)));
        }
        Key::Right => loop {
            cortex_m::asm::nop();
        },
        Key::Ok => cortex_m::asm::udf(),
        _ => {}
    }
}

/// Uses the stack until there is no more.
#[inline(never)]
fn deeper(depth: u32) -> u32 {
    let block = black_box([depth; 64]);
    match black_box(depth) {
        0 => 0,
        _ => deeper(depth + 1) + block.iter().sum::<u32>(),
    }
}

impl<B: Board> App<B> for Selftest<B::Card> {
    fn edge(&mut self, edge: Edge, board: &mut B) -> bool {
        if edge.is_down {
            self.buttons.press(edge.key, edge.at, &holdings());
            return false;
        }
        log!("key {}", pages::key_name(edge.key));
        let gesture = self.buttons.release(edge.key, edge.at);
        gesture
            .inspect(|gesture| self.act(*gesture, board))
            .is_some()
    }

    fn tick(&mut self, now: Millis, board: &mut B) -> bool {
        let gesture = self.buttons.tick(now, &holdings());
        gesture
            .inspect(|gesture| self.act(*gesture, board))
            .is_some()
    }

    fn view_into(&self, view: &mut View) {
        *view = match self.page {
            Page::Menu => pages::menu(self.selected),
            Page::Picture(number) => pages::picture(number),
            Page::Keys => pages::keys(&self.taps, &self.holds),
            Page::Card => {
                let cards: Vec<(&str, u32), LISTED> = self
                    .cards
                    .iter()
                    .map(|(name, size)| (&**name, *size))
                    .collect();
                let [first, second] = &self.says;
                pages::card(&cards, [first, second])
            }
            Page::Journal => pages::journal(self.count.0, self.selected),
            Page::Trouble(words) => pages::card_trouble(words, "LEFT: BACK"),
            Page::Crash => pages::crash(),
        };
    }
}

type Card = <chosen::Chosen as Board>::Card;

/// The program, in memory of its own: the stack is for work. Not inlined, so that what
/// making it takes of the stack is given back.
#[inline(never)]
fn program(board: &mut chosen::Chosen) -> Option<&'static mut Selftest<Card>> {
    let card = board.card()?;
    let files = cortex_m::singleton!(: Files<Card> = Files::on(card))?;
    cortex_m::singleton!(: Selftest<Card> = Selftest::new(files))
}

#[cortex_m_rt::entry]
fn main() -> ! {
    let mut board = chosen::start();
    log!("selftest, {} crashes before", crash::count());
    let Some(program) = program(&mut board) else {
        panic!("a program starts once");
    };
    app::tell_crash(&mut board);
    app::run(&mut board, program)
}

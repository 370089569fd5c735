//! A terminal as the handheld's screen and keys.
//!
//! In: key strokes and the size of the window. Out: the screen in cells, the hint
//! below it. A terminal never says that a key was let go: arrows, Enter and digits
//! are taps; Shift with an arrow, or the capital letters U, D, L, R, holds it, Tab
//! or O holds OK. The window is as it was afterwards, also after a panic or a
//! request to end.

use super::Left;
use super::cells::{BELOW, Cell, Glass, Grain};
use super::fingers::Fingers;
use super::guide::guided;
use crate::store::Store;
use boltbay_handheld::journal::{Keeper, Outcome};
use boltbay_handheld::{Handheld, Key, View};
use crossterm::event::{self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use crossterm::style::{Color, Print, ResetColor, SetBackgroundColor, SetForegroundColor};
use crossterm::terminal::{self, Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen};
use crossterm::{cursor, execute, queue};
use std::io::{self, Stdout, Write};
use std::panic;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

/// From one look at the keys to the next: as often as the handheld wants to know
/// the time.
const TICK: Duration = Duration::from_millis(40);
/// What the keys of this terminal are.
const KEYS: &str =
    "Arrows, Enter, digits. Backspace: left. Hold: Shift+arrow or U D L R, Tab: OK. q: quit";

/// What a key stroke asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stroke {
    Tap(Key),
    Hold(Key),
    Quit,
}

/// The terminal, taken over until it is dropped.
pub struct Terminal {
    out: Stdout,
    fingers: Fingers,
    /// What stands there now, row by row.
    shown: Vec<Vec<Cell>>,
    below: Vec<String>,
    colours: Colours,
    ended: Arc<AtomicBool>,
}

/// How greys are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Colours {
    /// By their three parts.
    True,
    /// From the 24 greys of a table of 256.
    Table,
}

impl Colours {
    fn of_terminal() -> Colours {
        let said = std::env::var("COLORTERM").unwrap_or_default();
        match said.contains("truecolor") || said.contains("24bit") {
            true => Colours::True,
            false => Colours::Table,
        }
    }

    /// A grey of 0 to 15.
    fn grey(self, grey: u8) -> Color {
        match self {
            Colours::True => {
                let part = grey.min(15) * 17;
                Color::Rgb {
                    r: part,
                    g: part,
                    b: part,
                }
            }
            // 16 is black, 231 white, 232 to 255 the greys between.
            Colours::Table => Color::AnsiValue(match grey {
                0 => 16,
                15.. => 231,
                _ => 232 + (u16::from(grey) * 24 / 16) as u8,
            }),
        }
    }
}

/// The window is taken over.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// Gives the window back, once: a second time would put the cursor where it was
/// before, on top of what a panic has said since.
fn restore() {
    if !TAKEN.swap(false, Ordering::Relaxed) {
        return;
    }
    // If this fails there is no window left to restore.
    let _ = execute!(io::stdout(), ResetColor, cursor::Show, LeaveAlternateScreen);
    let _ = terminal::disable_raw_mode();
}

impl Drop for Terminal {
    fn drop(&mut self) {
        restore();
    }
}

impl Terminal {
    /// Takes the terminal over.
    pub fn enter() -> io::Result<Terminal> {
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |what| {
            // First the window, then the words: else they go with the window.
            restore();
            before(what);
        }));
        let ended = Arc::new(AtomicBool::new(false));
        #[cfg(unix)]
        for signal in [signal_hook::consts::SIGTERM, signal_hook::consts::SIGHUP] {
            signal_hook::flag::register(signal, Arc::clone(&ended))?;
        }
        TAKEN.store(true, Ordering::Relaxed);
        terminal::enable_raw_mode()?;
        let mut terminal = Terminal {
            out: io::stdout(),
            fingers: Fingers::default(),
            shown: Vec::new(),
            below: Vec::new(),
            colours: Colours::of_terminal(),
            ended,
        };
        execute!(terminal.out, EnterAlternateScreen, cursor::Hide)?;
        Ok(terminal)
    }

    /// Plays until the user leaves or the journal must be read anew.
    pub fn play(
        &mut self,
        keeper: &mut Keeper<Store>,
        handheld: &mut Handheld<'_>,
    ) -> io::Result<Left> {
        let mut outcome = keeper.keep(handheld);
        loop {
            if outcome == Outcome::Reopen {
                return Ok(Left::ToReopen);
            }
            self.show(&guided(keeper.view(handheld), handheld))?;
            outcome = match (self.next_stroke()?, outcome) {
                (Some(Stroke::Quit), _) => return Ok(Left::ByUser),
                (Some(_), Outcome::Waits) => keeper.again(handheld),
                (None, Outcome::Waits) => outcome,
                (stroke, _) => {
                    self.strike(stroke, handheld);
                    keeper.keep(handheld)
                }
            };
        }
    }

    fn strike(&mut self, stroke: Option<Stroke>, handheld: &mut Handheld<'_>) {
        match stroke {
            Some(Stroke::Tap(key)) => self.fingers.tap(handheld, key),
            Some(Stroke::Hold(key)) => self.fingers.hold(handheld, key),
            Some(Stroke::Quit) | None => self.fingers.wait(handheld),
        }
    }

    /// The next stroke, if there is one before the next tick.
    fn next_stroke(&mut self) -> io::Result<Option<Stroke>> {
        if self.ended.load(Ordering::Relaxed) {
            return Ok(Some(Stroke::Quit));
        }
        if !event::poll(TICK)? {
            return Ok(None);
        }
        match event::read()? {
            Event::Key(key) if key.kind != KeyEventKind::Release => Ok(stroke(key)),
            Event::Resize(..) => {
                self.shown.clear();
                self.below.clear();
                queue!(self.out, ResetColor, Clear(ClearType::All))?;
                Ok(None)
            }
            _ => Ok(None),
        }
    }

    /// Puts a view into the window; only rows that changed are written.
    fn show(&mut self, view: &View) -> io::Result<()> {
        let (columns, rows) = terminal::size()?;
        let Some(grain) = Grain::of(columns, rows) else {
            let (wide, high) = Grain::Braille.size();
            let high = high + BELOW;
            return self.say(
                &[format!("Make this window at least {wide} x {high}.")],
                0,
                0,
            );
        };
        let left = (columns - grain.size().0) / 2;
        let cells = Glass::of(view).cells(grain);
        for (y, row) in (0..).zip(&cells) {
            if self.shown.get(usize::from(y)) != Some(row) {
                queue!(self.out, cursor::MoveTo(left, y))?;
                put_row(&mut self.out, row, self.colours)?;
            }
        }
        self.shown = cells;
        let wide = usize::from(columns.min(grain.size().0));
        let mut below = wrapped(view.hint, wide);
        below.truncate(usize::from(BELOW) - 2);
        below.resize(usize::from(BELOW) - 2, String::new());
        below.extend(wrapped(KEYS, wide));
        below.truncate(usize::from(BELOW));
        self.say(&below, left, grain.size().1)
    }

    /// Words in the terminal's own colours.
    fn say(&mut self, lines: &[String], left: u16, top: u16) -> io::Result<()> {
        if self.below != lines {
            queue!(self.out, ResetColor)?;
            for (y, line) in (top..).zip(lines) {
                let clear = Clear(ClearType::CurrentLine);
                queue!(self.out, cursor::MoveTo(left, y), clear, Print(line))?;
            }
            self.below = lines.to_vec();
        }
        self.out.flush()
    }
}

/// A row of cells; a colour is asked for only where it changes.
fn put_row(out: &mut impl Write, row: &[Cell], colours: Colours) -> io::Result<()> {
    let mut before: Option<Cell> = None;
    for cell in row {
        if before.map(|before| before.ink) != Some(cell.ink) {
            queue!(out, SetForegroundColor(colours.grey(cell.ink)))?;
        }
        if before.map(|before| before.ground) != Some(cell.ground) {
            queue!(out, SetBackgroundColor(colours.grey(cell.ground)))?;
        }
        queue!(out, Print(cell.sign))?;
        before = Some(*cell);
    }
    queue!(out, ResetColor)
}

/// Words in lines of at most so many characters.
fn wrapped(words: &str, wide: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words.split_whitespace() {
        let line = lines
            .last_mut()
            .filter(|line| line.len() + word.len() < wide);
        match line {
            Some(line) if line.is_empty() => line.push_str(word),
            Some(line) => {
                line.push(' ');
                line.push_str(word);
            }
            None => lines.push(word.to_owned()),
        }
    }
    lines
}

/// What a key stroke asks for; `None` for keys that the handheld does not have.
fn stroke(event: KeyEvent) -> Option<Stroke> {
    let held = event.modifiers.contains(KeyModifiers::SHIFT);
    let key = |key| {
        Some(if held {
            Stroke::Hold(key)
        } else {
            Stroke::Tap(key)
        })
    };
    match event.code {
        KeyCode::Char('c') if event.modifiers.contains(KeyModifiers::CONTROL) => Some(Stroke::Quit),
        KeyCode::Char('q' | 'Q') => Some(Stroke::Quit),
        KeyCode::Up => key(Key::Up),
        KeyCode::Down => key(Key::Down),
        KeyCode::Left => key(Key::Left),
        KeyCode::Right => key(Key::Right),
        KeyCode::Enter => key(Key::Ok),
        KeyCode::Backspace => key(Key::Left),
        KeyCode::Char('U') => Some(Stroke::Hold(Key::Up)),
        KeyCode::Char('D') => Some(Stroke::Hold(Key::Down)),
        KeyCode::Char('L') => Some(Stroke::Hold(Key::Left)),
        KeyCode::Char('R') => Some(Stroke::Hold(Key::Right)),
        KeyCode::Char('O') | KeyCode::Tab => Some(Stroke::Hold(Key::Ok)),
        KeyCode::Char(digit @ '0'..='9') => {
            let digit = digit
                .to_digit(10)
                .and_then(|digit| u8::try_from(digit).ok());
            digit.map(|digit| Stroke::Tap(Key::Digit(digit)))
        }
        KeyCode::Char('.' | '/' | '-' | ' ' | ',') => Some(Stroke::Tap(Key::Separator)),
        _ => None,
    }
}

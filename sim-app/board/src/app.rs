//! The loop: keys and time to the program, its view to the glass.

use crate::board::Board;
use crate::count::Phase;
use crate::debounce::Edge;
use crate::{count, crash, log, pages};
use boltbay_handheld::{Millis, View, paint};

/// A program on a board.
pub trait App<B: Board> {
    /// A key went down or up. Whether the view may have changed.
    fn edge(&mut self, edge: Edge, board: &mut B) -> bool;

    /// Time passes. Whether the view may have changed.
    fn tick(&mut self, now: Millis, board: &mut B) -> bool;

    /// A step of what a key has left to do, once its frame is out and no key waits.
    fn work(&mut self, _now: Millis, _board: &mut B) -> Work {
        Work::None
    }

    /// What is to be shown, into a view that is blank.
    fn view_into(&self, view: &mut View);
}

/// What a step of work came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// There is none.
    None,
    /// Some was done; the view is the same.
    Done,
    /// Some was done, and is to be shown.
    Shows,
}

/// Runs it for good.
pub fn run<B: Board>(board: &mut B, app: &mut impl App<B>) -> ! {
    show(board, app);
    log!("ready");
    let mut last = board.now();
    loop {
        let (mut changed, mut pressed) = (false, false);
        while let Some(edge) = board.edge() {
            changed |= app.edge(edge, board);
            last = edge.at.max(last);
            pressed = true;
        }
        let now = board.now();
        if now > last {
            last = now;
            if !pressed {
                count::begin();
            }
            changed |= app.tick(now, board);
        }
        // A frame first, then what may take longer than a finger waits.
        let work = match changed {
            true => Work::Shows,
            false => app.work(now, board),
        };
        match work {
            Work::Shows => count::frame(show(board, app)),
            Work::Done => {}
            Work::None => board.idle(),
        }
    }
}

/// The program's view, which is gone again when it is shown; the screen's name.
#[inline(never)]
fn show<B: Board>(board: &mut B, app: &impl App<B>) -> &'static str {
    let mut view = View::default();
    app.view_into(&mut view);
    count::done(Phase::View);
    paint_view(board, &view);
    view.screen
}

/// Shows what stopped the program before, if anything did, until a key is let go.
#[inline(never)]
pub fn tell_crash(board: &mut impl Board) {
    if let Some(words) = crash::take() {
        log!("before: {}", words);
        paint_view(board, &pages::crashed(words));
        wait_for_release(board);
    }
}

/// Waits until a key is let go.
pub fn wait_for_release(board: &mut impl Board) -> Edge {
    loop {
        match board.edge() {
            Some(edge) if !edge.is_down => return edge,
            Some(_) => {}
            None => board.idle(),
        }
    }
}

/// A view, painted and shown. Not inlined: what painting takes of the stack is given
/// back before the next key.
#[inline(never)]
pub fn paint_view(board: &mut impl Board, view: &View) {
    paint(view, board.frame().picture());
    count::done(Phase::Paint);
    board.show();
    count::done(Phase::Send);
}

/// A page that is made for it, painted and shown; its room is given back too.
#[inline(never)]
pub fn paint_page(board: &mut impl Board, page: impl FnOnce() -> View) {
    paint_view(board, &page());
}

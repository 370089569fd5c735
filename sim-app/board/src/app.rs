//! The loop: keys and time to the program, its view to the glass.

use crate::board::Board;
use crate::debounce::Edge;
use crate::{count, crash, log, pages};
use boltbay_handheld::{Millis, View, paint};

/// A program on a board.
pub trait App<B: Board> {
    /// A key went down or up. Whether the view may have changed.
    fn edge(&mut self, edge: Edge, board: &mut B) -> bool;

    /// Time passes. Whether the view may have changed.
    fn tick(&mut self, now: Millis, board: &mut B) -> bool;

    /// What is to be shown.
    fn view(&self) -> View;
}

/// Runs it for good.
pub fn run<B: Board>(board: &mut B, app: &mut impl App<B>) -> ! {
    show(board, app);
    log!("ready");
    let mut last = board.now();
    loop {
        let mut changed = false;
        while let Some(edge) = board.edge() {
            changed |= app.edge(edge, board);
            last = edge.at.max(last);
        }
        let now = board.now();
        if now > last {
            last = now;
            changed |= app.tick(now, board);
        }
        match changed {
            true => {
                show(board, app);
                count::frame();
            }
            false => board.idle(),
        }
    }
}

/// The program's view, which is gone again when it is shown.
#[inline(never)]
fn show<B: Board>(board: &mut B, app: &impl App<B>) {
    paint_view(board, &app.view());
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
    match paint(view, board.frame()) {
        Ok(()) => board.show(),
        Err(never) => match never {},
    }
}

//! The packing of a side: layers from web to face, what they come to, now and
//! dry, and how high to rip them.

use super::{LIST, Look, Reply};
use crate::key::{Gesture, Holdings, Key};
use crate::text;
use crate::view::{View, text};
use crate::words::{self, hint, short, signed};
use boltbay_core::packing::{Stack, rip_shown};
use boltbay_core::words::Side;

/// The side, and whether rip heights are shown instead of thicknesses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PackingScreen {
    pub(super) side: Side,
    pub(super) page: u8,
}

impl Default for PackingScreen {
    fn default() -> Self {
        PackingScreen {
            side: Side::N,
            page: 0,
        }
    }
}

/// Sum, layers, rip heights.
const PAGES: u8 = 3;

impl PackingScreen {
    /// As on a list.
    pub fn holdings(&self, _: Look) -> Holdings {
        Holdings {
            right: None,
            ok: None,
            ..LIST
        }
    }

    /// Nothing to refresh.
    pub fn enter(&mut self, _: Look) {}

    /// What a gesture comes to.
    pub fn on(&mut self, gesture: Gesture, _look: Look) -> Reply {
        match gesture {
            Gesture::Tap(Key::Up | Key::Down) => self.side = self.side.other(),
            Gesture::Tap(Key::Right | Key::Ok) => self.page = (self.page + 1) % PAGES,
            Gesture::Tap(Key::Left) => return Reply::back(),
            _ => {}
        }
        Reply::stay()
    }

    /// What is shown.
    pub fn view(&self, look: Look) -> View {
        let mut view = View::of("packing", hint::PACKING);
        let letter = look.job.letter(self.side);
        view.status.left = text!("PACK {letter}");
        let stack = look.plan.packing.get(self.side.index());
        let Some(stack) = stack.and_then(Option::as_ref) else {
            view.line("NO STACK YET:", "");
            view.line("KEY BOARDS AND", "");
            view.line("WEB TO TIPS", "");
            return view;
        };
        match self.page {
            0 => sum(stack, look, &mut view),
            page => layers(stack, page, look, &mut view),
        }
        view
    }
}

/// The total large, the errors now and dry below.
fn sum(stack: &Stack, look: Look, view: &mut View) {
    let units = look.job.units;
    view.alarm = !stack.feasible;
    view.status.right = match stack.feasible {
        true => text!("AIM {}", short(stack.target, units)),
        false => text("MISSES"),
    };
    view.figure = Some(crate::view::Figure::length(
        stack.total,
        units,
        crate::view::Touch::Keyed,
    ));
    let now = signed(stack.error, units);
    let dry = signed(stack.error_dry, units);
    match now.len() + dry.len() < 10 {
        true => view.line(&text!("NOW {now}"), &text!("DRY {dry}")),
        false if now.len() + dry.len() < 14 => view.line(&now, &text!("DRY {dry}")),
        // So far off, drying does not matter.
        false => view.line("NOW", &now),
    }
}

/// Web to face: thickness, or what to rip to.
fn layers(stack: &Stack, page: u8, look: Look, view: &mut View) {
    let units = look.job.units;
    view.status.right = text(if page == 1 { "WEB 1ST" } else { "RIP WEB 1ST" });
    for layer in &stack.layers {
        let name = look.job.layers.get(usize::from(layer.layer));
        let name = words::capitals(name.map_or("", |layer| &layer.name), 10);
        let right = match (page, layer.rip) {
            (1, _) => short(layer.thickness, units),
            (_, Some(rip)) => {
                let arris = if layer.chamfered { "C" } else { "" };
                text!("{arris}{}", short(rip_shown(rip, units), units))
            }
            (_, None) => text(words::NOT_KEYED),
        };
        view.line(&name, &right);
    }
}

//! The painter: a view into pixels. It decides nothing.

use crate::view::View;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::GrayColor;

/// Paints the whole screen of 128 x 64.
///
/// # Errors
/// Those of the target.
pub fn paint<D: DrawTarget<Color = Gray4>>(view: &View, target: &mut D) -> Result<(), D::Error> {
    let _ = view;
    target.clear(Gray4::BLACK)
}

//! Pictures of the handheld's screen: a view, painted, scaled without blur, as PNG.

use boltbay_handheld::View;
use boltbay_handheld::paint::{HEIGHT, Picture, WIDTH, paint};
use embedded_graphics::geometry::Size;
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::Drawable;
use embedded_graphics_simulator::{OutputSettingsBuilder, SimulatorDisplay};
use std::io;
use std::path::Path;

/// Columns and rows of the screen.
const SCREEN: Size = Size::new(WIDTH, HEIGHT);

/// Paints a view onto a display of the simulator.
pub(crate) fn show(view: &View, display: &mut SimulatorDisplay<Gray4>) {
    let mut picture = Picture::new();
    paint(view, &mut picture);
    match picture.draw(display) {
        Ok(()) => {}
        Err(never) => match never {},
    }
}

/// Writes a PNG of this view, every pixel `scale` x `scale`, whole or not at all.
///
/// # Errors
/// What the file system says.
pub fn write(view: &View, scale: u32, path: &Path) -> io::Result<()> {
    let mut display = SimulatorDisplay::<Gray4>::new(SCREEN);
    show(view, &mut display);
    let settings = OutputSettingsBuilder::new().scale(scale).build();
    let image = display.to_grayscale_output_image(&settings);
    let folder = path.parent().unwrap_or(Path::new("."));
    let scratch = tempfile::Builder::new()
        .suffix(".png")
        .tempfile_in(folder)?;
    image.save_png(scratch.path()).map_err(io::Error::other)?;
    scratch.persist(path).map_err(|failed| failed.error)?;
    Ok(())
}

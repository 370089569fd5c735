//! The screen in the cells of a terminal, against the painter's own pixels.

use boltbay::handheld::cells::{Cell, Glass, Grain};
use boltbay_handheld::view::{View, text};
use boltbay_handheld::{Handheld, Memory};

fn home() -> Glass {
    let mut memory = Box::new(Memory::new());
    Glass::of(&Handheld::new(&mut memory).view())
}

#[test]
fn the_window_decides_the_grain() {
    for (columns, rows, grain) in [
        (128, 36, Some(Grain::Half)),
        (200, 60, Some(Grain::Half)),
        (127, 60, Some(Grain::Braille)),
        (200, 35, Some(Grain::Braille)),
        (80, 24, Some(Grain::Braille)),
        (64, 20, Some(Grain::Braille)),
        (63, 24, None),
        (80, 19, None),
        (0, 0, None),
    ] {
        assert_eq!(Grain::of(columns, rows), grain, "{columns} x {rows}");
    }
}

#[test]
fn half_blocks_keep_every_grey() {
    let glass = home();
    let cells = glass.cells(Grain::Half);
    assert_eq!((cells.len(), cells[0].len()), (32, 128));
    let mut greys = [0; 16];
    for (x, y) in (0..64 * 128).map(|pixel| (pixel % 128, pixel / 128)) {
        let Cell { sign, ink, ground } = cells[y / 2][x];
        assert_eq!(sign, '▀');
        let shown = if y % 2 == 0 { ink } else { ground };
        assert_eq!(shown, glass.grey(x, y), "{x}, {y}");
        greys[usize::from(shown)] += 1;
    }
    assert!(greys[15] > 100 && greys[0] > 1000, "{greys:?}");
}

/// The pixel of a Braille cell, by the names of its dots: 1 2 3 7 down the left, 4
/// 5 6 8 down the right.
fn dot(cell: Cell, x: usize, y: usize) -> u8 {
    let number = [[1, 4], [2, 5], [3, 6], [7, 8]][y][x];
    let bits = u32::from(cell.sign) - 0x2800;
    match (bits >> (number - 1)) & 1 {
        1 => cell.ink,
        _ => cell.ground,
    }
}

/// Black and white come out as they are, whichever is the more; greys come out on
/// the right side of the middle.
#[test]
fn braille_keeps_every_pixel_of_two_greys() {
    let mut alarm = View::of("card", "");
    alarm.alarm = true;
    alarm.status.left = text("ENTRY NOT KEPT");
    for glass in [home(), Glass::of(&alarm)] {
        let cells = glass.cells(Grain::Braille);
        assert_eq!((cells.len(), cells[0].len()), (16, 64));
        let mut same = 0;
        for y in 0..64 {
            for x in 0..128 {
                let block: Vec<u8> = (0..8)
                    .map(|at| glass.grey(x / 2 * 2 + at % 2, y / 4 * 4 + at / 2))
                    .collect();
                let shown = dot(cells[y / 4][x / 2], x % 2, y % 4);
                let grey = glass.grey(x, y);
                let two = block.iter().all(|grey| [0, 15].contains(grey));
                if two {
                    assert_eq!(shown, grey, "{x}, {y}");
                    same += 1;
                }
                let (least, most) = (block.iter().min().unwrap(), block.iter().max().unwrap());
                assert!((*least..=*most).contains(&shown));
            }
        }
        assert!(same > 6000, "{same}");
    }
}

//! The pictures in the README: the handheld's own screens, by scripts of keys.
//!
//! `BOLTBAY_BLESS=1` writes them anew. Four are what `boltbay screens` writes after
//! the last key; the moving one is a picture a key.

use boltbay::handheld::cells::Glass;
use boltbay_handheld::View;
use boltbay_handheld::paint::{HEIGHT, WIDTH};
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

/// What is drawn, what `screens` is asked, and the keys.
struct Picture {
    name: &'static str,
    asked: &'static [&'static str],
    keys: &'static str,
}

const SQUALL: &str = "02-squall-lapped-joists.csv";

const PICTURES: [Picture; 4] = [
    Picture {
        name: "screen-1-reading.png",
        asked: &["--run", "tape,N,wall A,,near"],
        keys: "0 1 0 2 0 5 ok ok hold:right up up",
    },
    Picture {
        name: "screen-2-map.png",
        asked: &[SQUALL],
        keys: "down down down ok up up ok right down down down down",
    },
    Picture {
        name: "screen-3-mark.png",
        asked: &[SQUALL],
        keys: "ok left ok ok ok ok ok ok ok",
    },
    Picture {
        name: "screen-4-packing.png",
        asked: &["01-larch-new-framing.csv"],
        keys: "up up up ok ok ok right",
    },
];

fn demo_data() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data")
}

fn is_blessed() -> bool {
    std::env::var_os("BOLTBAY_BLESS").is_some()
}

/// Compares a picture in the papers with what is painted now.
fn compare(name: &str, painted: &[u8]) {
    let path = demo_data().join(name);
    if is_blessed() {
        fs::write(&path, painted).unwrap();
    }
    let kept = fs::read(&path).unwrap_or_default();
    assert!(kept == painted, "{name} is not what the handheld paints");
}

/// A card of the demo data by its name, anything else as it is.
fn argument(word: &str) -> OsString {
    match word.strip_suffix(".csv") {
        Some(_) => demo_data().join(word).into_os_string(),
        None => OsString::from(word),
    }
}

/// The last picture that a script makes.
fn last_of(picture: &Picture) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().as_os_str();
    let asked = picture.asked.iter().map(|word| argument(word));
    let words = ["boltbay", "screens"].map(OsString::from).into_iter();
    let keys = [OsString::from("--keys"), OsString::from(picture.keys)];
    let to = [OsString::from("--out"), out.to_owned()];
    let (mut said, mut wrong) = (Vec::new(), Vec::new());
    let code = boltbay::run(
        words.chain(asked).chain(keys).chain(to),
        &mut std::io::empty(),
        &mut said,
        &mut wrong,
    );
    assert_eq!(code, 0, "{}", String::from_utf8_lossy(&wrong));
    let mut names: Vec<PathBuf> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    names.sort();
    fs::read(names.last().unwrap()).unwrap()
}

#[test]
fn the_papers_show_the_screens_as_they_are() {
    for picture in &PICTURES {
        compare(picture.name, &last_of(picture));
    }
}

/// Screen pixels a side of one of the handheld's.
const SCALE: u32 = 4;

/// A view as rows of greys, every pixel as a square.
fn greys(view: &View) -> Vec<u8> {
    let glass = Glass::of(view);
    let pixel = |x: u32, y: u32| glass.grey((x / SCALE) as usize, (y / SCALE) as usize) * 17;
    let rows = (0..HEIGHT * SCALE).flat_map(|y| (0..WIDTH * SCALE).map(move |x| (x, y)));
    rows.map(|(x, y)| pixel(x, y)).collect()
}

/// Pictures one after the other, each for this many hundredths of a second.
fn moving(views: &[(View, u16)]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, WIDTH * SCALE, HEIGHT * SCALE);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::High);
    encoder
        .set_animated(u32::try_from(views.len()).unwrap(), 0)
        .unwrap();
    let mut writer = encoder.write_header().unwrap();
    for (view, delay) in views {
        writer.set_frame_delay(*delay, 100).unwrap();
        writer.write_image_data(&greys(view)).unwrap();
    }
    writer.finish().unwrap();
    bytes
}

/// Marks are drilled one by one; one hole is off its mark, is judged at once, and the
/// walk goes on.
#[test]
fn the_papers_show_a_walk_as_it_is() {
    use super::crew::Crew;
    use boltbay_handheld::Key;
    let mut memory = super::walk::demo("01-larch-new-framing.csv");
    let mut crew = Crew::new(&mut memory);
    super::walk::to_drill(&mut crew);
    let mut views = vec![(crew.view(), 120)];
    let mut show = |crew: &mut Crew, key: Key, delay: u16| {
        crew.tap(key);
        views.push((crew.view(), delay));
        crew.rest(1000);
    };
    for _ in 0..3 {
        show(&mut crew, Key::Ok, 90);
    }
    crew.hold(Key::Ok, 1);
    show(&mut crew, Key::Down, 90);
    show(&mut crew, Key::Ok, 90);
    show(&mut crew, Key::Right, 50);
    show(&mut crew, Key::Up, 90);
    show(&mut crew, Key::Ok, 200);
    show(&mut crew, Key::Ok, 120);
    for _ in 0..2 {
        show(&mut crew, Key::Ok, 90);
    }
    assert!(views.iter().any(|(view, _)| view.screen == "verdict"));
    compare("screen-5-drill-walk.png", &moving(&views));
}

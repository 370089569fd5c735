//! The emulator: started with a program and a card, keys pressed over its monitor, its
//! glass looked at pixel by pixel.

use super::memory_card::MemoryCard;
use boltbay::handheld::cells::Glass;
use boltbay_handheld::View;
use boltbay_handheld::paint::{HEIGHT, WIDTH};
use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::thread::sleep;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Long enough for a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);
/// From one look to the next.
const LOOK: Duration = Duration::from_millis(30);
/// The same, for hundreds of keys.
const SHORT: Duration = Duration::from_micros(300);
/// A finger taps so long.
const TAP: Duration = Duration::from_millis(60);
/// After a hold keys are deaf for a while.
const REST: Duration = Duration::from_millis(500);
/// Pixels of a screendump for one of the glass.
const SCALE: usize = 4;
pub const WIDE: usize = WIDTH as usize;
pub const HIGH: usize = HEIGHT as usize;
/// The emulator's names of the buttons.
const BUTTONS: [(&str, &str); 5] = [
    ("up", "up"),
    ("down", "down"),
    ("left", "left"),
    ("right", "right"),
    ("ok", "ctrl"),
];

/// Every instruction takes 8 ns.
const COUNTED: [&str; 2] = ["-icount", "shift=3"];

/// A board that runs.
pub struct Qemu {
    child: Child,
    monitor: BufReader<UnixStream>,
    folder: TempDir,
    /// How far the log was read.
    heard: usize,
    /// Display and keys, where the machine has none.
    line: Option<Line>,
}

/// The greys of a glass, 0 to 15, row by row.
pub type Greys = Vec<u8>;

/// The display and the keys of a machine that has neither: a serial port.
struct Line {
    keys: UnixStream,
    /// The last picture that came whole.
    glass: Arc<Mutex<Greys>>,
}

impl Line {
    fn on(keys: UnixStream) -> Line {
        let glass = Arc::new(Mutex::new(vec![0; WIDE * HIGH]));
        let (shown, mut bytes) = (glass.clone(), keys.try_clone().unwrap());
        std::thread::spawn(move || {
            let mut drawn = vec![0; WIDE * HIGH];
            let mut head = [0];
            // Reading fails once the emulator is gone.
            while bytes.read_exact(&mut head).is_ok() {
                match head {
                    [1] => {
                        let mut row = [0; 1 + WIDE / 2];
                        if bytes.read_exact(&mut row).is_err() {
                            return;
                        }
                        let at = usize::from(row[0]) * WIDE;
                        let pixels = row[1..].iter().flat_map(|byte| [byte >> 4, byte & 15]);
                        drawn[at..at + WIDE].copy_from_slice(&pixels.collect::<Greys>());
                    }
                    [2] => shown.lock().unwrap().clone_from(&drawn),
                    other => panic!("{other:?} begins no row"),
                }
            }
        });
        Line { keys, glass }
    }
}

/// Connects, as soon as somebody listens.
fn connect(socket: &Path) -> UnixStream {
    let started = Instant::now();
    loop {
        match UnixStream::connect(socket) {
            Ok(stream) => return stream,
            Err(error) => assert!(started.elapsed() < PATIENCE, "{socket:?}: {error}"),
        }
        sleep(LOOK);
    }
}

impl Qemu {
    /// Starts a program on the board, with a card in the slot or none.
    pub fn start(program: &Path, card: Option<&MemoryCard>) -> Qemu {
        let drive = card.map(|card| format!("if=sd,format=raw,file={}", card.path().display()));
        let drive: Vec<&str> = drive.iter().flat_map(|drive| ["-drive", drive]).collect();
        let machine = [&["-M", "lm3s6965evb"], &drive[..]].concat();
        let (mut qemu, _) = Qemu::with(program, None, &machine);
        qemu.go();
        qemu
    }

    /// Starts a program on the development machine, with its card in the folder where
    /// the emulator runs.
    pub fn develop(program: &Path, card: Option<&MemoryCard>) -> Qemu {
        Qemu::develop_with(program, card, &[])
    }

    /// The same with more options.
    fn develop_with(program: &Path, card: Option<&MemoryCard>, options: &[&str]) -> Qemu {
        let semihosting = "enable=on,target=native";
        let machine = ["-M", "mps2-an385", "-semihosting-config", semihosting];
        let (mut qemu, line) = Qemu::with(program, card, &[&machine, options].concat());
        qemu.line = Some(Line::on(connect(&line)));
        qemu.go();
        qemu
    }

    /// A program that counts, on the development machine: 8 ns an instruction.
    pub fn count(program: &Path, card: &MemoryCard) -> Qemu {
        Qemu::develop_with(program, Some(card), &COUNTED)
    }

    /// The same on the board, its keys up once.
    pub fn count_on_board(program: &Path) -> Qemu {
        let machine = [&["-M", "lm3s6965evb"], &COUNTED[..]].concat();
        let (mut qemu, _) = Qemu::with(program, None, &machine);
        qemu.go();
        qemu.prime();
        qemu.hears("ready");
        qemu
    }

    /// A byte to a machine whose keys come over a serial port.
    pub fn put(&mut self, byte: u8) {
        let line = self.line.as_mut().expect("the development machine");
        line.keys.write_all(&[byte]).unwrap();
    }

    /// With these options, in the folder of this card; the socket of a second serial
    /// port.
    fn with(program: &Path, card: Option<&MemoryCard>, options: &[&str]) -> (Qemu, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let socket = folder.path().join("monitor");
        let line = folder.path().join("line");
        let at_card = card.map(|card| card.path().parent().unwrap().to_owned());
        let child = Command::new("qemu-system-arm")
            .args(["-S", "-display", "none", "-monitor", "none", "-serial"])
            .arg(format!("file:{}", folder.path().join("log").display()))
            .arg("-serial")
            .arg(format!("unix:{},server=on,wait=off", line.display()))
            .arg("-qmp")
            .arg(format!("unix:{},server=on,wait=off", socket.display()))
            .arg("-kernel")
            .arg(program)
            .args(options)
            .current_dir(at_card.as_deref().unwrap_or(folder.path()))
            .stdin(Stdio::null())
            .stderr(fs::File::create(folder.path().join("errors")).unwrap())
            .spawn()
            .expect("apt-get install qemu-system-arm");
        let mut qemu = Qemu {
            child,
            monitor: BufReader::new(connect(&socket)),
            folder,
            heard: 0,
            line: None,
        };
        let mut greeting = String::new();
        qemu.monitor.read_line(&mut greeting).unwrap();
        qemu.ask("qmp_capabilities", json!({}));
        (qemu, line)
    }

    /// A board on which the keys have been up once: it takes a key that was not seen
    /// open yet for one that is not there.
    pub fn ready(program: &Path, card: Option<&MemoryCard>) -> Qemu {
        let mut qemu = Qemu::start(program, card);
        qemu.prime();
        qemu.hears("ready");
        qemu
    }

    /// Lets every key be up once. The emulator drops a release without a press.
    pub fn prime(&mut self) {
        for (button, _) in BUTTONS {
            self.key(button, true);
            self.key(button, false);
        }
        sleep(REST);
    }

    /// Lets it run, once everybody listens.
    fn go(&mut self) {
        self.ask("cont", json!({}));
    }

    fn ask(&mut self, command: &str, arguments: Value) -> Value {
        let question = json!({"execute": command, "arguments": arguments});
        writeln!(self.monitor.get_mut(), "{question}").unwrap();
        loop {
            let mut line = String::new();
            self.monitor.read_line(&mut line).unwrap();
            assert!(!line.is_empty(), "the emulator is gone: {}", self.errors());
            let answer: Value = serde_json::from_str(&line).unwrap();
            assert!(answer.get("error").is_none(), "{question}: {answer}");
            if let Some(answer) = answer.get("return") {
                return answer.clone();
            }
        }
    }

    fn errors(&self) -> String {
        fs::read_to_string(self.folder.path().join("errors")).unwrap_or_default()
    }

    fn key(&mut self, button: &str, down: bool) {
        let at = BUTTONS.iter().position(|(name, _)| *name == button);
        let at = at.expect(button);
        if let Some(line) = &mut self.line {
            let number = u8::try_from(at).unwrap();
            let byte = number | if down { 0x80 } else { 0 };
            return line.keys.write_all(&[byte]).unwrap();
        }
        let (_, code) = BUTTONS[at];
        let key = json!({"type": "qcode", "data": code});
        let event = json!({"type": "key", "data": {"down": down, "key": key}});
        self.ask("input-send-event", json!({"events": [event]}));
    }

    /// Presses keys by name, one after the other.
    pub fn tap(&mut self, buttons: &str) {
        for button in buttons.split_whitespace() {
            self.key(button, true);
            sleep(TAP);
            self.key(button, false);
            sleep(TAP);
        }
    }

    /// Keeps a key down.
    pub fn hold(&mut self, button: &str, time: Duration) {
        self.key(button, true);
        sleep(time);
        self.key(button, false);
        sleep(REST);
    }

    /// Taps keys so fast that contacts still bounce.
    pub fn rattle(&mut self, button: &str, times: usize) {
        for _ in 0..times {
            self.key(button, true);
            self.key(button, false);
        }
    }

    /// What the glass shows.
    pub fn glass(&mut self) -> Greys {
        if let Some(line) = &self.line {
            return line.glass.lock().unwrap().clone();
        }
        let file = self.folder.path().join("glass.ppm");
        self.ask("screendump", json!({"filename": file.to_str().unwrap()}));
        greys(&fs::read(file).unwrap())
    }

    /// Waits until the glass shows this view, every pixel of it.
    pub fn shows(&mut self, view: &View) {
        let painted = Glass::of(view);
        let pixel = |at| painted.grey(at % WIDE, at / WIDE);
        let wanted: Greys = (0..WIDE * HIGH).map(pixel).collect();
        let asked = Instant::now();
        let mut seen = self.glass();
        while seen != wanted {
            if asked.elapsed() > PATIENCE {
                let differing = seen.iter().zip(&wanted).filter(|(a, b)| a != b).count();
                let (got, want) = (picture("got", &seen), picture("want", &wanted));
                let heard = self.log();
                panic!("{differing} pixels differ: {got:?}, {want:?}; log: {heard}");
            }
            sleep(LOOK);
            seen = self.glass();
        }
    }

    /// Sets the program counter to where no program is, by a debugger.
    pub fn derail(&mut self) {
        let socket = self.folder.path().join("debugger");
        let device = format!("unix:{},server=on,wait=off", socket.display());
        let command = json!({"command-line": format!("gdbserver {device}")});
        self.ask("human-monitor-command", command);
        let mut debugger = connect(&socket);
        // The machine stands still as soon as somebody is there. Whoever has read what
        // registers there are may write one: 15, an address that is never executable.
        // Then it goes on, alone. Source: GDB Remote Serial Protocol, "Packets".
        let target = "qXfer:features:read:target.xml:0,4";
        for (packet, begins) in [
            ("?", "T"),
            (target, "m"),
            ("Pf=000000f0", "OK"),
            ("D", "OK"),
        ] {
            let sum = packet.bytes().fold(0, u8::wrapping_add);
            write!(debugger, "${packet}#{sum:02x}").unwrap();
            while !answer(&mut debugger).starts_with(begins) {}
        }
    }

    /// The bytes that came over the serial port.
    pub fn sent(&self) -> Vec<u8> {
        fs::read(self.folder.path().join("log")).unwrap_or_default()
    }

    /// What came over the serial port.
    pub fn log(&self) -> String {
        String::from_utf8_lossy(&self.sent()).into_owned()
    }

    /// Waits for words on the serial port, behind those that were waited for before;
    /// gives the rest of their line.
    pub fn hears(&mut self, words: &str) -> String {
        let asked = Instant::now();
        loop {
            let log = self.log();
            let found = log[self.heard..].find(words).map(|at| at + self.heard);
            if let Some(at) = found
                && let Some(end) = log[at..].find('\n')
            {
                self.heard = at + end;
                return log[at + words.len()..at + end].to_owned();
            }
            assert!(asked.elapsed() < PATIENCE, "{words:?} is not in: {log}");
            sleep(LOOK);
        }
    }

    /// Waits for a line of the log that is this word; gives the lines before it, from
    /// where was read last.
    pub fn lines_until(&mut self, word: &str) -> Vec<String> {
        let asked = Instant::now();
        let mut file = fs::File::open(self.folder.path().join("log")).unwrap();
        loop {
            let mut log = Vec::new();
            file.seek(SeekFrom::Start(self.heard as u64)).unwrap();
            file.read_to_end(&mut log).unwrap();
            let log = String::from_utf8_lossy(&log);
            let lines: Vec<&str> = log.split_inclusive('\n').collect();
            let is_it = |line: &&str| line.ends_with('\n') && line.trim() == word;
            if let Some(last) = lines.iter().position(is_it) {
                self.heard += lines[..=last].concat().len();
                let lines = lines[..last].iter().map(|line| line.trim().to_owned());
                return lines.collect();
            }
            assert!(asked.elapsed() < PATIENCE, "no {word}: {log}");
            sleep(SHORT);
        }
    }

    /// Share of a host's core that it takes.
    pub fn load(&self, time: Duration) -> f64 {
        let ticks = || {
            let path = format!("/proc/{}/stat", self.child.id());
            let text = fs::read_to_string(path).unwrap();
            let behind = text.rsplit_once(')').unwrap().1.to_owned();
            let parts = behind.split_whitespace().skip(11).take(2);
            parts.map(|part| part.parse::<u64>().unwrap()).sum::<u64>()
        };
        let before = ticks();
        sleep(time);
        // The kernel counts hundredths of a second.
        (ticks() - before) as f64 / 100.0 / time.as_secs_f64()
    }

    /// The battery falls out: nothing is flushed, nothing is said.
    pub fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

/// One answer of the debugger's other side, and that it came.
fn answer(debugger: &mut UnixStream) -> String {
    let (mut text, mut byte) = (String::new(), [0]);
    loop {
        debugger.read_exact(&mut byte).unwrap();
        match byte[0] {
            // What came before was received.
            b'+' if text.is_empty() => {}
            b'$' => text.clear(),
            b'#' => break,
            letter => text.push(char::from(letter)),
        }
    }
    debugger.read_exact(&mut [0; 2]).unwrap();
    debugger.write_all(b"+").unwrap();
    text
}

impl Drop for Qemu {
    fn drop(&mut self) {
        // It may be gone already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A screendump, every pixel a square of one grey, back to the glass.
fn greys(ppm: &[u8]) -> Greys {
    let (wide, high) = (WIDE * SCALE, HIGH * SCALE);
    let head = format!("P6\n{wide} {high}\n255\n");
    let pixels = ppm.strip_prefix(head.as_bytes());
    let pixels = pixels.expect("a screendump of the glass");
    let square = |at: usize| {
        let (x, y) = (at % WIDE * SCALE, at / WIDE * SCALE);
        let first = pixels[3 * (y * wide + x)];
        for (dx, dy) in (0..SCALE).flat_map(|dx| (0..SCALE).map(move |dy| (dx, dy))) {
            let at = 3 * ((y + dy) * wide + x + dx);
            let colours = &pixels[at..at + 3];
            assert!(colours.iter().all(|colour| *colour == first), "at {x} {y}");
        }
        // 0 to 255 in steps of 17.
        first / 17
    };
    (0..WIDE * HIGH).map(square).collect()
}

/// Writes greys as a PNG where failed pictures go.
pub fn picture(name: &str, greys: &[u8]) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/board/pictures");
    fs::create_dir_all(&folder).unwrap();
    let path = folder.join(format!("{name}-{}.png", std::process::id()));
    write_png(&path, greys);
    path
}

/// Writes greys as a PNG, four by four pixels each.
pub fn write_png(path: &Path, greys: &[u8]) {
    let (wide, high) = (WIDE * SCALE, HIGH * SCALE);
    let pixel = |at: usize| greys[at / wide / SCALE * WIDE + at % wide / SCALE] * 17;
    let bytes: Vec<u8> = (0..wide * high).map(pixel).collect();
    let file = fs::File::create(path).unwrap();
    let size = |count| u32::try_from(count).unwrap();
    let mut encoder = png::Encoder::new(file, size(wide), size(high));
    encoder.set_color(png::ColorType::Grayscale);
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(&bytes).unwrap();
}

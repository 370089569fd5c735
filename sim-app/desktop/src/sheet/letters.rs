//! How wide letters are, so that nothing on the sheet runs into its neighbour.
//!
//! In: text and size in points. Out: width in points. The figures are those of
//! the usual sans serif that printers carry (Adobe Core 14 AFM files,
//! Helvetica and Helvetica-Bold, thousandths of the size); the sheet asks for it
//! or its twins of the same widths, and says how wide each text is for where
//! there is neither.

/// Widths of the printable ASCII letters from the blank on.
#[rustfmt::skip]
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/// The same in bold.
#[rustfmt::skip]
const BOLD_WIDTHS: [u16; 95] = [
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
    975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
    333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
];

/// Width of `text` in points.
pub fn width(text: &str, size: f64, bold: bool) -> f64 {
    let widths = if bold { &BOLD_WIDTHS } else { &WIDTHS };
    let thousandths: u32 = text.chars().map(|one| letter(one, widths)).sum();
    f64::from(thousandths) * size / 1000.0
}

/// Thousandths of the size; letters outside ASCII count as wide ones.
fn letter(letter: char, widths: &[u16; 95]) -> u32 {
    let index = (letter as usize).wrapping_sub(' ' as usize);
    u32::from(widths.get(index).copied().unwrap_or(1000))
}

/// Breaks `text` at blanks into lines no wider than `limit`; a word that is
/// wider stands on a line of its own. Lengths such as `14' 3 5/16"` stay whole.
pub fn lines(text: &str, size: f64, limit: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words(text) {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}"), size, false) <= limit => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// Words, with the parts of a length kept together.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let length_goes_on = words.last().is_some_and(|last| {
            let unit = matches!(word, "in" | "mm" | "mm;" | "mm,");
            let figure = word.starts_with(|c: char| c.is_ascii_digit());
            last.ends_with(|c: char| c == '\'' || c.is_ascii_digit()) && (figure || unit)
        });
        match words.last_mut() {
            Some(last) if length_goes_on => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// Cuts `text` so that it is no wider than `limit`, with dots where it was cut.
pub fn cut(text: &str, size: f64, bold: bool, limit: f64) -> String {
    if width(text, size, bold) <= limit {
        return text.to_owned();
    }
    let mut kept = text.to_owned();
    while !kept.is_empty() && width(&format!("{kept}.."), size, bold) > limit {
        kept.pop();
    }
    kept + ".."
}

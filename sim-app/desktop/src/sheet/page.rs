//! A page to draw on: lines, boxes, text, in points, black on white.
//!
//! In: shapes in points from the upper left corner. Out: SVG, and the boxes of
//! all texts, so that a test can see whether two of them overlap. One look for
//! the whole sheet: three strokes, four greys, one family of letters.

use super::letters;
use svg::Document;
use svg::node::Text as Words;
use svg::node::element::{Circle, Group, Line, Path, Polygon, Rectangle, Style, Text};

/// Letters: any of these has the widths of `letters.rs`.
const FAMILY: &str = "'Liberation Sans', Arimo, Helvetica, Arial, sans-serif";

/// Fills and hatches that stay apart in a black and white print.
const PATTERNS: &str = r##"<defs>
<pattern id="lean" width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V3" stroke="#000" stroke-width="0.9"/></pattern>
<pattern id="dots" width="2.4" height="2.4" patternUnits="userSpaceOnUse"><rect width="1" height="1" fill="#000"/></pattern>
<pattern id="bars" width="2" height="2" patternUnits="userSpaceOnUse"><path d="M0 0.5H2" stroke="#000" stroke-width="0.8"/></pattern>
</defs>"##;

/// Paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    /// Width in points (1/72 in).
    pub width: f64,
    /// Height in points.
    pub height: f64,
    /// Width and height as the SVG says them.
    pub names: [&'static str; 2],
}

impl Paper {
    /// The height of so many pages, as the SVG says it.
    fn tall(self, pages: usize) -> String {
        let [_, height] = self.names;
        let unit = height.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
        let one: f64 = height.trim_end_matches(unit).parse().unwrap_or_default();
        format!("{}{unit}", one * pages.max(1) as f64)
    }
}

/// US letter, landscape.
pub const LETTER: Paper = Paper {
    width: 792.0,
    height: 612.0,
    names: ["11in", "8.5in"],
};

/// ISO A4, landscape.
pub const A4: Paper = Paper {
    width: 841.89,
    height: 595.28,
    names: ["297mm", "210mm"],
};

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// Outlines, 0.9 pt.
    Solid,
    /// Everything light, 0.4 pt.
    Thin,
    /// 0.5 pt, dashed.
    Dashed,
    /// 0.4 pt, dash and dot.
    DashDot,
    /// What must be seen, 1.8 pt.
    Heavy,
}

/// How an area is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Not at all.
    None,
    /// Paper white: hides what is below.
    White,
    /// A light grey.
    Light,
    /// A middle grey.
    Grey,
    /// Black.
    Black,
    /// Lines leaning right.
    Lean,
    /// Dots.
    Dots,
    /// Lines lying.
    Bars,
}

/// Where the given point lies in a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its start.
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}

/// How a text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Size in points, never below 7.
    pub size: f64,
    /// Bold.
    pub bold: bool,
    /// Where the point lies.
    pub anchor: Anchor,
    /// Reads upward, turned a quarter to the left.
    pub upward: bool,
}

/// Plain text at its start.
pub const fn plain(size: f64) -> Face {
    Face {
        size,
        bold: false,
        anchor: Anchor::Start,
        upward: false,
    }
}

/// Bold text at its start.
pub const fn bold(size: f64) -> Face {
    Face {
        bold: true,
        ..plain(size)
    }
}

impl Face {
    /// The same, centred on its point.
    pub const fn centred(self) -> Face {
        Face {
            anchor: Anchor::Middle,
            ..self
        }
    }

    /// The same, ending at its point.
    pub const fn ending(self) -> Face {
        Face {
            anchor: Anchor::End,
            ..self
        }
    }

    /// The same, reading upward.
    pub const fn upward(self) -> Face {
        Face {
            upward: true,
            ..self
        }
    }
}

/// A text as it was set, and the box that it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct TextBox {
    /// What it says.
    pub text: String,
    /// Size in points.
    pub size: f64,
    /// Left, top, right, bottom in points.
    pub edges: [f64; 4],
}

/// One page.
pub struct Page {
    /// Its paper.
    pub paper: Paper,
    drawn: Group,
    /// All texts.
    pub texts: Vec<TextBox>,
}

impl Page {
    /// An empty page.
    pub fn new(paper: Paper) -> Self {
        Page {
            paper,
            drawn: Group::new(),
            texts: Vec::new(),
        }
    }

    /// A line from one point to another.
    pub fn line(&mut self, from: [f64; 2], to: [f64; 2], stroke: Stroke) {
        let line = Line::new()
            .set("x1", round(from[0]))
            .set("y1", round(from[1]))
            .set("x2", round(to[0]))
            .set("y2", round(to[1]))
            .set("class", stroke_class(stroke));
        self.add(line);
    }

    /// A box by its left, top, right and bottom.
    pub fn area(&mut self, [left, top, right, bottom]: [f64; 4], fill: Fill, outline: bool) {
        let stroke = if outline { " t" } else { "" };
        let area = Rectangle::new()
            .set("x", round(left))
            .set("y", round(top))
            .set("width", round((right - left).max(0.0)))
            .set("height", round((bottom - top).max(0.0)))
            .set("class", format!("{}{stroke}", fill_class(fill)));
        self.add(area);
    }

    /// A line through many points.
    pub fn path(&mut self, points: &[[f64; 2]], stroke: Stroke) {
        let mut data = String::new();
        for (index, [x, y]) in points.iter().enumerate() {
            let step = if index == 0 { 'M' } else { 'L' };
            data.push_str(&format!("{step}{} {}", round(*x), round(*y)));
        }
        let path = Path::new()
            .set("d", data)
            .set("class", format!("n {}", stroke_class(stroke)));
        self.add(path);
    }

    /// A filled shape with corners.
    pub fn polygon(&mut self, points: &[[f64; 2]], fill: Fill) {
        let list: Vec<String> = points
            .iter()
            .map(|[x, y]| format!("{},{}", round(*x), round(*y)))
            .collect();
        let polygon = Polygon::new()
            .set("points", list.join(" "))
            .set("class", format!("{} t", fill_class(fill)));
        self.add(polygon);
    }

    /// A ring.
    pub fn ring(&mut self, [x, y]: [f64; 2], radius: f64, fill: Fill, stroke: Stroke) {
        let ring = Circle::new()
            .set("cx", round(x))
            .set("cy", round(y))
            .set("r", round(radius))
            .set(
                "class",
                format!("{} {}", fill_class(fill), stroke_class(stroke)),
            );
        self.add(ring);
    }

    /// A text with its point on the base line.
    pub fn text(&mut self, [x, y]: [f64; 2], face: Face, text: &str) {
        if text.is_empty() {
            return;
        }
        let class = match face.anchor {
            Anchor::Start => "",
            Anchor::Middle => "m",
            Anchor::End => "e",
        };
        let class = format!("{class}{}", if face.bold { " b" } else { "" });
        let mut element = Text::new("")
            .set("x", round(x))
            .set("y", round(y))
            .set("font-size", face.size)
            .set(
                "textLength",
                round(letters::width(text, face.size, face.bold)),
            )
            .set("lengthAdjust", "spacingAndGlyphs");
        if !class.trim().is_empty() {
            element = element.set("class", class.trim().to_owned());
        }
        if face.upward {
            let turn = format!("rotate(-90 {} {})", round(x), round(y));
            element = element.set("transform", turn);
        }
        self.add(element.add(Words::new(text)));
        self.texts.push(TextBox {
            text: text.to_owned(),
            size: face.size,
            edges: edges([x, y], face, text),
        });
    }

    /// A text that is left out where it would touch another one.
    pub fn text_if_free(&mut self, at: [f64; 2], face: Face, text: &str) -> bool {
        let free = self.is_free(edges(at, face, text));
        if free {
            self.text(at, face, text);
        }
        free
    }

    /// The same on a white ground, for texts on hatches.
    pub fn tag_if_free(&mut self, at: [f64; 2], face: Face, text: &str) -> bool {
        let [left, top, right, bottom] = edges(at, face, text);
        if !self.is_free([left, top, right, bottom]) {
            return false;
        }
        let ground = [left - 0.8, top - 0.8, right + 0.8, bottom - 0.4];
        self.area(ground, Fill::White, false);
        self.text(at, face, text);
        true
    }

    /// Whether no text stands in a box, with a hair's breadth around it.
    fn is_free(&self, [left, top, right, bottom]: [f64; 4]) -> bool {
        let apart = |text: &TextBox| {
            let [l, t, r, b] = text.edges;
            right + 1.0 < l || r + 1.0 < left || bottom < t || b < top
        };
        self.texts.iter().all(apart)
    }

    /// The page as an SVG document.
    pub fn svg(self) -> String {
        svg(vec![self])
    }

    fn add(&mut self, node: impl svg::Node) {
        use svg::Node as _;
        self.drawn.append(node);
    }
}

/// Pages of one paper as one SVG document, each under the one before it.
pub fn svg(pages: Vec<Page>) -> String {
    let paper = pages.first().map_or(LETTER, |page| page.paper);
    let height = paper.height * pages.len().max(1) as f64;
    let background = Rectangle::new()
        .set("width", paper.width)
        .set("height", round(height))
        .set("class", "w");
    let mut document = Document::new()
        .set("width", paper.names[0])
        .set("height", paper.tall(pages.len()))
        .set("viewBox", (0, 0, paper.width, round(height)))
        .set("font-family", FAMILY)
        .add(Style::new(STYLE))
        .add(svg::node::Blob::new(PATTERNS))
        .add(background);
    for (index, page) in pages.into_iter().enumerate() {
        let drawn = match index {
            0 => page.drawn,
            _ => {
                let down = round(paper.height * index as f64);
                page.drawn.set("transform", format!("translate(0 {down})"))
            }
        };
        document = document.add(drawn);
    }
    format!("{document}\n")
}

/// Classes are short: a sheet has some thousand elements.
const STYLE: &str = "
.m{text-anchor:middle}.e{text-anchor:end}.b{font-weight:bold}
.s{stroke:#000;stroke-width:.9}.t{stroke:#000;stroke-width:.4}.d{stroke:#000;stroke-width:.5;stroke-dasharray:2.5 1.8}
.c{stroke:#000;stroke-width:.4;stroke-dasharray:7 2 1.2 2}.h{stroke:#000;stroke-width:1.8}
.n{fill:none}.w{fill:#fff}.l{fill:#e4e4e4}.g{fill:#9a9a9a}.k{fill:#000}
.f1{fill:url(#lean)}.f2{fill:url(#dots)}.f3{fill:url(#bars)}
";

const fn stroke_class(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Solid => "s",
        Stroke::Thin => "t",
        Stroke::Dashed => "d",
        Stroke::DashDot => "c",
        Stroke::Heavy => "h",
    }
}

const fn fill_class(fill: Fill) -> &'static str {
    match fill {
        Fill::None => "n",
        Fill::White => "w",
        Fill::Light => "l",
        Fill::Grey => "g",
        Fill::Black => "k",
        Fill::Lean => "f1",
        Fill::Dots => "f2",
        Fill::Bars => "f3",
    }
}

/// Hundredths of a point are finer than any printer.
fn round(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

/// The box of a text: capitals are 0.72 of the size high, tails 0.21 deep.
fn edges([x, y]: [f64; 2], face: Face, text: &str) -> [f64; 4] {
    let width = letters::width(text, face.size, face.bold);
    let before = match face.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => width / 2.0,
        Anchor::End => width,
    };
    let (up, down) = (0.72 * face.size, 0.21 * face.size);
    if face.upward {
        [x - up, y - (width - before), x + down, y + before]
    } else {
        [x - before, y - up, x - before + width, y + down]
    }
}

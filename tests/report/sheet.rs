//! The sheet: one page, nothing on top of another, black and white.

use super::host::{Made, demo, demo_cards, job, made, made_of, name_of};
use boltbay::sheet::{A4, LETTER, Page, Paper, Sheet, TextBox, svg};
use boltbay_core::words::Units;
use std::fs;

/// The page of the beam.
fn draw(made: &mut Made) -> Page {
    pages(made).swap_remove(0)
}

fn pages(made: &mut Made) -> Vec<Page> {
    let free = made.plan.free_stretches(&made.job, &mut made.scratch);
    let free = free.cloned().map(Box::new);
    Sheet::new(made.report(), free.as_deref()).pages()
}

fn overlap([l, t, r, b]: [f64; 4], [left, top, right, bottom]: [f64; 4]) -> bool {
    // Boxes may touch within a tenth of a point.
    l < right - 0.1 && left < r - 0.1 && t < bottom - 0.1 && top < b - 0.1
}

pub fn nothing_overlaps(name: &str, texts: &[TextBox]) {
    for (index, one) in texts.iter().enumerate() {
        for other in &texts[index + 1..] {
            assert!(
                !overlap(one.edges, other.edges),
                "{name}: {one:?} on {other:?}"
            );
        }
    }
}

pub fn all_on_the_page(name: &str, texts: &[TextBox], paper: Paper) {
    for text in texts {
        let [left, top, right, bottom] = text.edges;
        let inside =
            left > 18.0 && top > 18.0 && right < paper.width - 18.0 && bottom < paper.height - 12.0;
        assert!(inside, "{name}: {text:?} runs off the page");
        assert!(text.size >= 7.0, "{name}: {text:?} is too small");
    }
}

/// Jobs that are hard on the layout besides the demo cards: nothing at all, a
/// short beam, a long one with the joists of a whole house.
fn hard_jobs() -> Vec<(String, Made)> {
    let mut jobs = vec![
        ("empty".to_owned(), made("boltbay,1\nunits,imperial\n")),
        (
            "short".to_owned(),
            made(
                "boltbay,1\nunits,imperial\nbeam,W12x65,24\nbolt,1/2\nspacing,8,every\nends,2,6\n",
            ),
        ),
    ];
    for (name, metal, spacing) in [("crowded", "1 1/4", 8), ("roomy", "0", 24)] {
        let mut card = format!(
            "boltbay,1\njob,A long name of 24 letter\nunits,imperial\nbeam,W12x30,960\nhanger,face,{metal}\nbolt,1/2\nspacing,{spacing},every\nends,2,9\n"
        );
        for side in ["N", "S"] {
            card.push_str(&format!("tape,{side},end A,,near\n"));
            for joist in 0..80 {
                card.push_str(&format!("joist,{}\n", 6 + 12 * joist));
            }
        }
        jobs.push((name.to_owned(), made(&card)));
    }
    jobs
}

fn all_jobs() -> Vec<(String, Made)> {
    let demo = demo_cards().into_iter().map(|card| {
        let text = fs::read_to_string(&card).expect("a demo card");
        (name_of(&card), made_of(job(&text)))
    });
    demo.chain(hard_jobs()).collect()
}

#[test]
fn texts_keep_apart_on_every_sheet() {
    for (name, mut made) in all_jobs() {
        for page in pages(&mut made) {
            nothing_overlaps(&name, &page.texts);
            all_on_the_page(&name, &page.texts, page.paper);
        }
    }
}

#[test]
fn paper_follows_the_units() {
    for (name, mut made) in all_jobs() {
        for page in pages(&mut made) {
            match made.job.units {
                Units::Imperial => assert_eq!(page.paper, LETTER, "{name}"),
                Units::Metric => assert_eq!(page.paper, A4, "{name}"),
            }
        }
    }
}

#[test]
fn every_mark_can_be_read_from_both_ends() {
    for (name, mut made) in all_jobs() {
        let page = draw(&mut made);
        let Some(placement) = made.plan.placement() else {
            continue;
        };
        let report = made.report();
        let from_b = report.from_end_b();
        for hole in &placement.holes {
            let b = from_b.map(|b| b.reading(hole.at).shown);
            for reading in [Some(hole.at), b].into_iter().flatten() {
                let cell = report.length_cell(reading);
                let wanted = cell.trim_end_matches(" mm");
                let found = page
                    .texts
                    .iter()
                    .any(|text| text.text.split("  ").any(|part| part.starts_with(wanted)));
                assert!(found, "{name}: {wanted} is not on the sheet");
            }
        }
        if let Some(code) = made.plan.code.as_deref() {
            assert!(page.texts.iter().any(|text| text.text == code), "{name}");
        }
    }
}

#[test]
fn the_print_is_black_and_white() {
    for (name, mut made) in all_jobs() {
        let drawn = svg(pages(&mut made));
        for (at, _) in drawn.match_indices('#') {
            let colour: String = drawn[at + 1..]
                .chars()
                .take_while(char::is_ascii_hexdigit)
                .collect();
            let grey = match colour.len() {
                3 => colour.chars().all(|c| colour.starts_with(c)),
                6 => colour[..2] == colour[2..4] && colour[..2] == colour[4..],
                // A reference to a pattern: url(#lean).
                _ => drawn[..at].ends_with("url("),
            };
            assert!(grey, "{name}: #{colour}");
        }
    }
}

#[test]
fn names_from_the_card_do_not_break_the_drawing() {
    let card = "boltbay,1\njob,<b> & \"quotes\"\nunits,imperial\nbeam,W10x33,96\nobstacle,N,20,30,solid,stays,a<b>&c\nbolt,1/2\nspacing,24,every\nends,2,9\n";
    let mut made = made(card);
    let drawn = draw(&mut made).svg();
    assert!(drawn.contains("&lt;b&gt; &amp;"), "the name is escaped");
    assert!(!drawn.contains("<b>"), "no element of the card's making");
}

/// Every check stands on the sheet, and nothing of it is left to the list.
#[test]
fn the_checks_stand_on_pages_of_their_own() {
    let mut with_checks = 0;
    for (name, mut made) in all_jobs() {
        let asked = made.plan.checks(&made.job, &mut made.scratch);
        let (checks, asked) = (asked.cloned().unwrap_or_default(), asked.is_some());
        let pages = pages(&mut made);
        assert_eq!(pages.len() > 1, asked, "{name}");
        let said = |wanted: &str| {
            let mut texts = pages.iter().skip(1).flat_map(|page| &page.texts);
            texts.any(|text| text.text == wanted)
        };
        for check in checks.made() {
            assert!(said(check.name()), "{name}: {}", check.name());
        }
        assert!(!said("more on the printed list"), "{name}");
        with_checks += usize::from(asked);
    }
    assert!(with_checks >= 3, "the demo cards ask for checks");
}

/// A support that lifts is said in large letters at the top of every page.
#[test]
fn lift_is_said_at_the_top() {
    let card = fs::read_to_string(demo("10")).expect("a demo card");
    let mut made = made(&card);
    for page in pages(&mut made) {
        let lifts = page
            .texts
            .iter()
            .find(|text| text.text.starts_with("!!! LIFTS at B"));
        let lifts = lifts.expect("it lifts");
        assert!(lifts.size >= 11.0 && lifts.edges[1] < 90.0, "{lifts:?}");
    }
}

/// Pages lie under each other, each as large as its paper.
#[test]
fn pages_are_stacked() {
    let card = fs::read_to_string(demo("10")).expect("a demo card");
    let mut made = made(&card);
    let pages = pages(&mut made);
    let count = pages.len();
    let drawn = svg(pages);
    assert!(
        drawn.contains(&format!("height=\"{}in\"", 8.5 * count as f64)),
        "{count}"
    );
    assert_eq!(drawn.matches("translate(0 ").count(), count - 1);
}

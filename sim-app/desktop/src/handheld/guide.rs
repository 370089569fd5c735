//! The guided demo: a job with one side taped, and a hint on each screen that says
//! what to do next, up to the first holes.
//!
//! In: a view and the handheld it is of. Out: the view with the guide's words in
//! place of its hint. The guide goes with the job's name: rename it, and the
//! handheld's own hints are back.

use boltbay_core::Job;
use boltbay_core::job::HoleState;
use boltbay_core::words::Side;
use boltbay_handheld::{Handheld, View};

/// The card of the demo job.
pub const CARD: &str = include_str!("demo.csv");
/// Its name.
const NAME: &str = "Guided demo";

/// The view, with the guide's hint where this is the demo.
pub fn guided(mut view: View, handheld: &Handheld<'_>) -> View {
    if handheld.job().name == NAME
        && let Some(hint) = hint(view.screen, handheld.job())
    {
        view.hint = hint;
    }
    view
}

/// Joists read on the side that is left to the user.
fn read(job: &Job) -> usize {
    let runs = (0_u8..)
        .zip(&job.runs)
        .filter(|(_, run)| run.side == Side::S);
    let runs: Vec<u8> = runs.map(|(at, _)| at).collect();
    let joists = job.joists.iter().filter(|joist| runs.contains(&joist.run));
    joists.count()
}

/// What to do next; three lines of 21 letters, like every hint.
fn hint(screen: &str, job: &Job) -> Option<&'static str> {
    let joists = read(job);
    let holes = |state| job.holes.iter().any(|hole| hole.state == state);
    Some(match screen {
        "home" if holes(HoleState::Drilled) => {
            "GUIDE: NOW LOOK INTO PACK, BOLT, SET. LEFT COMES BACK."
        }
        "home" if holes(HoleState::Marked) => "GUIDE: DOWN TO DRILL, THEN OK. LEFT COMES BACK.",
        "home" if joists > 0 => "GUIDE: ALL IS MEASURED AND PLANNED. OK: MARK.",
        "home" => "GUIDE: SIDE N IS TAPED, SIDE S IS YOURS. OK: ITS RUN.",
        "caution" => "GUIDE: READ IT, THEN OK. EACH CAUTION COMES ONCE.",
        "run" => "GUIDE: HUNG ON WALL A LIKE SIDE N. OK ON START.",
        "line" => "GUIDE: BOTH SIDES HANG ON ONE LINE. OK.",
        "reading" if joists >= 7 => "GUIDE: THAT WAS THE LAST. HOLD OK, UP, OK: CLOSE THE RUN.",
        "reading" => "GUIDE: SEVEN JOISTS. ARROWS CORRECT THE GUESS, OK TAKES IT.",
        "slip" => "GUIDE: THAT LOOKS LIKE A SLIP. LEFT: READ AGAIN.",
        "sheet" => "GUIDE: UP AND DOWN CHOOSE, OK DOES IT.",
        "close" => "GUIDE: LAST JOIST TO WALL B IS 1'1 3/4: TYPE 10112, OK.",
        "proof" => "GUIDE: HOW FAR THE RUN IS OUT. OK.",
        "number" => "GUIDE: JOISTS COUNTED BY EYE: UP TO 7, OK.",
        "measured" => "GUIDE: THE STEEL IS AS LONG AS ORDERED. OK.",
        "lie" => "GUIDE: A AT YOUR LEFT, TOP AWAY. OK ON GO ON.",
        "face" => "GUIDE: YOU SEE THE LETTER. OK.",
        "mark" => "GUIDE: STRIKE IT, OK; THEN THE NEXT. AFTER THE LAST OK AGAIN.",
        "blind" => "GUIDE: SKIP IT HERE. HOLD OK, DOWN, OK: LEAVE.",
        "drill" => "GUIDE: OK: DRILLED. HOLD OK: IT IS OFF ITS MARK, AND MORE.",
        _ => return None,
    })
}

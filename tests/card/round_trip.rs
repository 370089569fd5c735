//! Job -> card -> job loses nothing, and neither does card -> job -> card.

use super::jobs::job;
use super::{read, written};
use boltbay_core::Job;
use boltbay_core::words::Units;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: if cfg!(feature = "soak") { 20_000 } else { 1_500 }, ..ProptestConfig::default() })]

    #[test]
    fn arbitrary_jobs(seed in any::<u64>()) {
        let job = job(seed);
        let text = written(&job);
        let back = match read(&text) {
            Ok(back) => back,
            Err(error) => return Err(TestCaseError::fail(format!("{error}\n{text}"))),
        };
        prop_assert_eq!(&back, &job, "{}", text);
        prop_assert_eq!(written(&back), text);
    }
}

/// A job that was full before holds nothing of it after reading another card.
#[test]
fn reading_clears_the_job() {
    let bare = "boltbay,1\nunits,metric\n";
    for seed in 0..200 {
        let mut full = job(seed);
        boltbay_core::card::read(bare.as_bytes(), &mut full).expect("a card");
        assert_eq!(full, Job::new(Units::Metric));
    }
}

/// What is written is plain: no line longer than a reader takes, no trailing
/// commas, the version first, units second or third.
#[test]
fn what_is_written_is_tidy() {
    for seed in 0..300 {
        let text = written(&job(seed));
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines[0], "boltbay,1");
        assert!(lines[1].starts_with("units,") || lines[2].starts_with("units,"));
        assert!(
            lines
                .iter()
                .all(|line| line.len() < 300 && !line.ends_with(',')),
            "{text}"
        );
        assert!(text.ends_with('\n') && text.is_ascii());
    }
}

/// The words and forms on the card, by hand.
#[test]
fn one_card_by_hand() {
    let text = "\
boltbay,1
job,\"Hall, 2nd floor\"
units,imperial
sides,W,E
beam,W10X33,24' 0,measured
wall,A,3 1/2
clear,23' 4 1/2
square,E,A,-1/4
stand,W,left
outstand,W,3 13/16,3 7/8
count,W,2
tape,W,wall A,,near,1,,1/16
joist,1' 3 1/4
joist,2' 7 1/4 g,3,none
check,20' 1,0 wall B
override,W,1
tape,E,4' 0 wall A,B,centre
hanger,face,1 1/4,,1100
obstacle,both,3' 4,4' 2,solid,stays,\"2\"\" pipe\"
zone,5' 0,1' 0 end B,rides
support,A,,,,concrete
load,line,50,12.50,,,W
washer,both,1 3/8,round
spacing,1' 4,every,,2 1/2
ends,2,1' 0
layer,2x8,1 1/2,solid,,4
drilled,1' 0 end B,bot
";
    let job = read(text).unwrap();
    assert_eq!(written(&job), text);
}

/// Each field of a job, taken apart: a new one does not compile until it stands
/// here, and then it must be met in the jobs above, which read and write it.
#[test]
fn no_field_is_left_out() {
    macro_rules! met {
        ($job:ident, $bare:ident: $($field:ident)*) => {{
            let Job { $($field,)* } = $job;
            [$((stringify!($field), *$field != $bare.$field),)*]
        }};
    }
    let bare = Job::new(Units::Imperial);
    let mut unmet: Vec<&str> = Vec::new();
    for seed in 0..100 {
        let job = &job(seed);
        let fields = met!(job, bare: name units sides beam shape steel braced walls clear squares pockets stand outstands supports posts loads duration runs joists checks counts floors hangers nails keepouts packing seated standoff bolt washers nut gap lattice play pattern rows spacing ends nears layers face service wood sticks kerf trim projection spare pieces holes bars_cut placed);
        if seed == 0 {
            unmet = fields.iter().map(|(name, _)| *name).collect();
        }
        for (name, met) in fields {
            unmet.retain(|left| !(met && *left == name));
        }
    }
    assert!(unmet.is_empty(), "{unmet:?}");
}

//! The checks against published figures. Each row names the document that its
//! expected value was typed in from; none was computed by the code under test.

mod arbitrary;
mod bearing;
mod bolt;
mod cautions;
mod dowel;
mod insertion;
mod list;
mod packing;
mod share;
mod steel;

use boltbay_core::checks::profile::Profile;
pub use list::kinds;

/// W18X50, which the built-in table does not hold.
/// Source: AISC Manual Table 1-1 as used in AISC Design Example II.D-2:
/// d 18.0, bf 7.50, tw .355, tf .570, k design .972.
const W18X50: Profile = Profile {
    depth_in: 18.0,
    width_in: 7.5,
    web_in: 0.355,
    flange_in: 0.570,
    k_in: 0.972,
};

/// The profile of a shape of the built-in table.
fn profile(label: &str) -> Profile {
    let section = boltbay_core::shapes::find(label).expect("in the table");
    Profile::of(&section).expect("plates")
}

/// Fails unless `found` is within `tolerance` of the published `wanted`.
#[track_caller]
fn near(found: f64, wanted: f64, tolerance: f64, what: &str) {
    assert!(
        (found - wanted).abs() <= tolerance,
        "{what}: {found}, published {wanted}"
    );
}

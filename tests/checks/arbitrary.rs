//! Figures that make no sense: nothing panics, and every check that is made has
//! numbers in it.

use boltbay_core::check::{Check, Checklist, Checks, Place};
use boltbay_core::checks::bearing::{Bearing, Seat, Steel, add_post_checks};
use boltbay_core::checks::bolt::{self, Bolting, Joint, LoadedMark};
use boltbay_core::checks::flange::{self, Flange, Seated};
use boltbay_core::checks::insertion::{Entry, InTheWay};
use boltbay_core::checks::nail::{self, NailedPacking};
use boltbay_core::checks::profile::{Moduli, Profile};
use boltbay_core::checks::rod::{self, Rolling, WasherOnWood};
use boltbay_core::checks::steel::{self, Bending};
use boltbay_core::checks::{flush, hanger};
use boltbay_core::decimal::Decimal;
use boltbay_core::force::{Force, LineLoad, Moment, Stress};
use boltbay_core::job::{Floor, Material, Nail, Pocket, Species, WasherShape};
use boltbay_core::length::Length;
use boltbay_core::packing::StackLayer;
use boltbay_core::shapes;
use boltbay_core::words::{Row, Side, Units};
use proptest::prelude::*;

fn length() -> impl Strategy<Value = Length> {
    prop_oneof![
        any::<i32>().prop_map(Length::from_counts),
        (-20..2_000).prop_map(Length::from_sixteenths),
        Just(Length::ZERO),
    ]
}

fn figure() -> impl Strategy<Value = f64> {
    prop_oneof![any::<f64>(), -10.0..100_000.0, Just(0.0)]
}

fn numbers(checks: &Checks) -> Result<(), TestCaseError> {
    for check in checks.made() {
        prop_assert!(check.demand().is_finite(), "{check:?}");
        prop_assert!(check.capacity().is_none_or(f64::is_finite), "{check:?}");
    }
    Ok(())
}

proptest! {
    #[test]
    fn steel_and_bearing(
        sizes in prop::array::uniform5(figure()),
        moduli in prop::array::uniform6(figure()),
        figures in prop::array::uniform4(figure()),
        lengths in prop::array::uniform3(length()),
        keyed in prop::option::of(figure()),
        width in prop::option::of(length()),
        pick in 0..4_usize,
        holes: u8,
    ) {
        let profile = Profile {
            depth_in: sizes[0],
            width_in: sizes[1],
            web_in: sizes[2],
            flange_in: sizes[3],
            k_in: sizes[4],
        };
        let moduli = Moduli {
            sx_in3: moduli[0],
            zx_in3: moduli[1],
            ry_in: moduli[2],
            rts_in: moduli[3],
            j_in4: moduli[4],
            ho_in: moduli[5],
        };
        let fy = Stress::from_psi(figures[0]);
        let mut checks = Checks::new();
        if let Ok(bending) = Bending::new(profile, moduli, fy) {
            let moment = (Moment::from_pound_inches(figures[1]), lengths[0]);
            for check in steel::moments(&bending, [lengths[1], lengths[2]], [moment; 2]) {
                checks.add(check);
            }
        }
        let force = Force::from_pounds(figures[2]);
        checks.add(steel::web_shear(&profile, fy, force, lengths[0]));
        let net = steel::allowable_net_shear(&profile, fy, lengths[1], holes);
        checks.add(steel::net_web_shear(net, force, lengths[0]));
        let materials = [Material::Concrete, Material::Masonry, Material::Wood, Material::Steel];
        let bearing = Bearing {
            place: Place::Support(0),
            reaction: force,
            length: lengths[0],
            width,
            from_end: lengths[1],
            seat: Seat {
                material: materials[pick],
                keyed: keyed.map(Stress::from_psi),
                species: Species::Hf,
            },
            in_wall: holes > 100,
        };
        bearing.add_checks(&Steel { profile, fy }, Units::Metric, &mut checks);
        let post = [Some(Force::from_pounds(figures[3])), None];
        add_post_checks(Place::Support(0), force, post, &mut checks);
        checks.sort();
        numbers(&checks)?;
    }

    #[test]
    fn bolts_rods_and_flange(
        lengths in prop::array::uniform6(length()),
        figures in prop::array::uniform6(figure()),
        packing in prop::array::uniform2(prop::option::of(length())),
        bolts: u8,
        layers in prop::collection::vec((length(), any::<bool>()), 0..4),
    ) {
        let [a, b, c, d, e, f] = lengths;
        let joint = Joint {
            diameter: a,
            fyb: Stress::from_psi(figures[0]),
            web: b,
            fu: Stress::from_psi(figures[1]),
            packing,
            species: Species::Spf,
            gap: c,
        };
        let bolting = Bolting { diameter: a, duration: figures[2], largest_spacing: Some(d) };
        let mark = LoadedMark {
            at: d,
            bolts,
            to_end: e,
            nearest: [figures[3], figures[4]].map(Force::from_pounds),
            line: [figures[4], figures[3]].map(LineLoad::from_pounds_per_inch),
        };
        let mut checks = Checks::new();
        bolting.add_checks([mark, mark].into_iter(), |_| joint.value_of(figures[5]), &mut checks);
        let _ = joint.value();
        for check in bolt::edges(a, (Row::Bot, b), Side::S, [c, d]) {
            checks.add(check);
        }
        if let Some(check) = bolt::torque(a, mark.line, b, packing) {
            checks.add(check);
        }
        let rolling = Rolling { load: mark.nearest[0], arm_in: figures[0], height: e };
        let washer = WasherOnWood { size: f, shape: WasherShape::Turns, hole: b, species: Species::Sp };
        for check in rod::checks(&rolling, a, &washer, Place::Beam) {
            checks.add(check);
        }
        let layers: Vec<StackLayer> = layers
            .into_iter()
            .map(|(thickness, seats)| StackLayer { layer: 0, thickness, rip: None, seats, chamfered: false })
            .collect();
        if let Ok(seated) = Seated::of(&layers, c) {
            let steel = Flange { thickness_in: figures[1], fy: Stress::from_psi(figures[2]) };
            for check in flange::checks(mark.line[0], &seated, steel, Species::DfL, Place::Beam) {
                checks.add(check);
            }
        }
        numbers(&checks)?;
    }

    #[test]
    fn nails_hangers_and_entry(
        lengths in prop::array::uniform7(length()),
        slant in prop::option::of((any::<i32>(), 0..7_u8)),
        clear in prop::option::of(length()),
        depths in prop::array::uniform2(prop::option::of(length())),
        service: i32,
    ) {
        let [a, b, c, d, e, f, g] = lengths;
        let mut checks = Checks::new();
        let slant = slant.map(|(digits, places)| Decimal::new(digits, places));
        let nail = Nail { name: "n".try_into().unwrap(), length: a, diameter: b, slant };
        let packing = NailedPacking { total: c, outer: d };
        nail::add_checks(&nail, packing, Place::Nail(0, Side::N), &mut checks);
        nail::cautions((0, &nail), packing, Side::N, &mut Default::default());
        let section = shapes::find("W8X18").unwrap();
        let floor = Floor { joist_depth: e, offset: Some(f), subfloor: None };
        let seat = hanger::seat(&section, &floor);
        hanger::add_nail_checks(Some(seat), Some(g), [a, b], Place::Beam, &mut checks);
        for check in flush::figures(&section, &floor, Decimal::whole(service), Place::Beam) {
            checks.add(check);
        }
        let pocket = |depth: Option<Length>| depth.map(|depth| Pocket { depth, height: Some(g), width: None });
        let entry = Entry {
            length: a,
            clear,
            pockets: depths.map(pocket),
            bearings: [b, c],
            units: Units::Imperial,
        };
        entry.add_checks(&section, &mut checks);
        if let Some(slide) = entry.slide() {
            let way = InTheWay { joists: &[], solids: &[], faces: [Some(d), Some(e)] };
            let _ = slide.rod_meets(f, [Some(g); 2], &way);
            let _ = slide.packing_meets(f, g, &way);
        }
        checks.sort();
        numbers(&checks)?;
        let made: Vec<Option<bool>> = checks.made().iter().map(Check::ok).collect();
        prop_assert_eq!(checks.all_pass(), !made.contains(&Some(false)));
    }
}

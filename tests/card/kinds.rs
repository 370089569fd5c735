//! Every kind of row and every field: what the job holds after reading it.
//! The values are what each row says in plain words; none is read off a job.

use super::read;
use boltbay_core::card::Kind;
use boltbay_core::decimal::Decimal;
use boltbay_core::job::loads::LoadSide;
use boltbay_core::job::*;
use boltbay_core::words::{End, Row, Side, Sides, Units};
use boltbay_core::{Job, Length};

/// An imperial card of these rows.
fn imperial(rows: &str) -> Job {
    match read(&format!("boltbay,1\nunits,imperial\n{rows}\n")) {
        Ok(job) => job,
        Err(error) => panic!("{rows}\n{error}"),
    }
}

fn sixteenths(count: i32) -> Length {
    Length::from_sixteenths(count)
}

fn inches(count: i32) -> Length {
    Length::from_inches(count)
}

fn name(text: &str) -> boltbay_core::words::Name {
    text.try_into().expect("a short name")
}

fn at(inches: i32, hook: Hook) -> Position {
    Position {
        reading: Length::from_inches(inches),
        hook,
    }
}

#[test]
fn the_head() {
    let job = read("boltbay,1\njob,\"Hall, \"\"east\"\" bay\"\nunits,metric\nsides,w,E\n").unwrap();
    assert_eq!(job.name, "Hall, \"east\" bay");
    assert_eq!(job.units, Units::Metric);
    assert_eq!(job.sides, *b"WE");
    assert_eq!(imperial("").sides, *b"NS");
}

#[test]
fn steel_rows() {
    let job = imperial(
        "beam, W 10 x 33 ,24' 0,ordered\nsteel,50,65.5\nbraced,0,6'\nfloor,S,9 1/4,-1/2,3/4",
    );
    let beam = job.beam.unwrap();
    assert_eq!(beam.designation, "W10X33");
    assert_eq!(beam.length, inches(288));
    assert_eq!(beam.measured, BeamLength::Ordered);
    let steel = job.steel.unwrap();
    assert_eq!(
        (steel.fy, steel.fu),
        (Decimal::whole(50), Some(Decimal::new(655, 1)))
    );
    assert_eq!(job.braced, Some((Length::ZERO, Some(inches(72)))));
    assert_eq!(job.floors[0], None);
    assert_eq!(
        job.floors[1],
        Some(Floor {
            joist_depth: sixteenths(148),
            offset: Some(sixteenths(-8)),
            subfloor: Some(sixteenths(12)),
        })
    );
    let job = imperial("beam,w250\u{D7}49.1,20'");
    assert_eq!(job.beam.unwrap().measured, BeamLength::Measured);
}

#[test]
fn a_shape_of_its_own() {
    let job = imperial("shape,10,8,3/8,1/2,1,1 1/8,3/4,33,170.5,35,38.8\nbeam,Custom,20'");
    let shape = job.shape.unwrap();
    assert_eq!(
        [shape.depth, shape.width, shape.web, shape.flange],
        [inches(10), inches(8), sixteenths(6), sixteenths(8)]
    );
    assert_eq!(
        [shape.k_design, shape.k_detail, shape.k1],
        [inches(1), sixteenths(18), sixteenths(12)]
    );
    assert_eq!(shape.weight, Decimal::whole(33));
    assert_eq!(
        [shape.ix, shape.sx, shape.zx],
        [
            Some(Decimal::new(1705, 1)),
            Some(Decimal::whole(35)),
            Some(Decimal::new(388, 1))
        ]
    );
    assert_eq!(job.beam.unwrap().designation, "CUSTOM");
}

#[test]
fn house_rows() {
    let job = imperial(
        "beam,W10x33,24'\nwall,B,4\nwall,A,3 1/2\nclear,23' 4 1/2\nsquare,S,B,-1/4\n\
         pocket,A,8,12,9\npocket,B,7\nstand,S,right\noutstand,N,3 13/16,3 7/8\nplaced,-3/8",
    );
    assert_eq!(job.walls, [Some(sixteenths(56)), Some(inches(4))]);
    assert_eq!(job.clear, Some(sixteenths(280 * 16 + 8)));
    assert_eq!(
        job.squares.as_slice(),
        [Square {
            side: Side::S,
            end: End::B,
            offset: sixteenths(-4)
        }]
    );
    assert_eq!(
        job.pockets[0],
        Some(Pocket {
            depth: inches(8),
            height: Some(inches(12)),
            width: Some(inches(9))
        })
    );
    assert_eq!(job.pockets[1].unwrap().height, None);
    assert_eq!(
        job.stand,
        Some(Stand {
            side: Side::S,
            a_at_left: false
        })
    );
    assert_eq!(
        job.outstands[0].as_slice(),
        [sixteenths(61), sixteenths(62)]
    );
    assert!(job.outstands[1].is_empty());
    assert_eq!(job.placed, Some(sixteenths(-6)));
}

#[test]
fn things_in_the_way() {
    let job = imperial(
        "beam,W10x33,24'\nwall,A,4\nobstacle,both,40,50 ,Solid,stays,duct\n\
         zone,60,5' 6,rides\nobstacle,S,1 wall A,12 end B,access,rides",
    );
    let [duct, zone, access] = job.keepouts.as_slice() else {
        panic!("three, in card order")
    };
    assert_eq!(
        (duct.sides, duct.kind, duct.stays),
        (Sides::Both, KeepoutKind::Solid, Stays::Stays)
    );
    assert_eq!(
        (duct.from, duct.to),
        (at(40, Hook::EndA), at(50, Hook::EndA))
    );
    assert_eq!(duct.name, "duct");
    assert_eq!(
        (zone.sides, zone.kind, zone.stays),
        (Sides::Both, KeepoutKind::Zone, Stays::Rides)
    );
    assert_eq!(zone.to, at(66, Hook::EndA));
    assert_eq!(access.sides, Sides::One(Side::S));
    assert_eq!(
        (access.from, access.to),
        (at(1, Hook::WallA), at(12, Hook::EndB))
    );
    assert_eq!(
        (access.kind, access.name.as_str()),
        (KeepoutKind::Access, "")
    );
}

#[test]
fn supports_and_loads() {
    let job = imperial(
        "support,a,,,,concrete\nsupport,P1,12',6,5.5,wood,625\nsupport,B,,,,masonry,800\npost,p1,12000,9500.5\n\
         load,area,12,40,13' 4\nload,area,10,30,8',wall A,6',N\nload,line,50,0\n\
         load,line,50,20,2',,S\nload,point,11',900,1200,top\nload,point,3',1,2,n\nload,point,3',1,2\nduration,1.15",
    );
    let [a, p1, b] = job.supports.as_slice() else {
        panic!("three supports")
    };
    assert_eq!(
        (a.name.as_str(), a.centre, a.length, a.width),
        ("A", None, None, None)
    );
    assert_eq!(
        (p1.centre, p1.length),
        (Some(at(144, Hook::EndA)), Some(inches(6)))
    );
    assert_eq!(
        (p1.width, p1.material),
        (Some(sixteenths(88)), Material::Wood)
    );
    assert_eq!(
        (p1.allowable, b.allowable),
        (Some(Decimal::whole(625)), Some(Decimal::whole(800)))
    );
    assert_eq!(
        (a.material, b.material),
        (Material::Concrete, Material::Masonry)
    );
    assert_eq!(job.posts[0].allowable, Decimal::whole(12_000));
    assert_eq!(job.posts[0].footing, Some(Decimal::new(95_005, 1)));
    let sides: Vec<LoadSide> = job.loads.iter().map(|load| load.side).collect();
    use LoadSide::{Halves, On, Top};
    assert_eq!(
        sides,
        [
            Halves,
            On(Side::N),
            Halves,
            On(Side::S),
            Top,
            On(Side::N),
            Halves
        ]
    );
    assert_eq!(
        job.loads[1].kind,
        LoadKind::Area {
            tributary: inches(96),
            from: Some(at(0, Hook::WallA)),
            to: Some(at(72, Hook::EndA))
        }
    );
    assert_eq!(
        job.loads[3].kind,
        LoadKind::Line {
            from: Some(at(24, Hook::EndA)),
            to: None
        }
    );
    assert_eq!(
        job.loads[4].kind,
        LoadKind::Point {
            at: at(132, Hook::EndA)
        }
    );
    assert_eq!(
        (job.loads[4].dead, job.loads[4].live),
        (Decimal::whole(900), Decimal::whole(1200))
    );
    assert_eq!(job.duration, Some(Decimal::new(115, 2)));
}

#[test]
fn tapes_and_joists() {
    let job = imperial(
        "tape,N,wall A,,near,1,1 5/8,1/32\njoist,14 1/4\njoist,30 1/4g,3,none\njoist,46 g,,LUS\n\
         check,20' 1,wall B\ntape,S,END B,a,Center\njoist,9\nclose,3 g,4 wall A\n\
         tape,S,4' wall b,A,far\nhanger,lus,1,5 1/2,1100\nhanger,big\ncount,N,3\noverride,S,2\nnail,10d,3,0.148,45",
    );
    let [first, second, third] = job.runs.as_slice() else {
        panic!("three runs")
    };
    assert_eq!(
        (first.side, first.hook, first.edge),
        (Side::N, RunHook::Wall(End::A), Edge::Near)
    );
    assert_eq!(
        (first.burn, first.thickness),
        (Some(inches(1)), Some(sixteenths(26)))
    );
    assert_eq!(first.read_to, Some(Length::from_sixty_fourths(2)));
    assert_eq!(
        (second.side, second.hook, second.edge),
        (Side::S, RunHook::Steel(End::B), Edge::Centre)
    );
    assert_eq!(third.hook, RunHook::Mark(at(48, Hook::WallB), End::A));
    assert_eq!(
        [first.overridden, second.overridden, third.overridden],
        [false, false, true]
    );
    let [one, two, three, four] = job.joists.as_slice() else {
        panic!("four joists")
    };
    assert_eq!(
        (one.reading, one.thickness, one.guessed, one.run),
        (sixteenths(228), None, false, 0)
    );
    assert_eq!(one.hanger, HangerRef::Default);
    assert_eq!(
        (two.thickness, two.hanger, two.guessed),
        (Some(inches(3)), HangerRef::None, true)
    );
    // Named before its row, in another case.
    assert_eq!((three.hanger, three.guessed), (HangerRef::Row(0), true));
    assert_eq!((four.run, four.reading), (1, inches(9)));
    let [check, close] = job.checks.as_slice() else {
        panic!("a check and a close")
    };
    assert_eq!(
        (check.kind, check.point, check.run),
        (CheckKind::Check, at(0, Hook::WallB), 0)
    );
    assert_eq!(check.reading, inches(241));
    assert_eq!(
        (close.kind, close.point, close.run),
        (CheckKind::Close, at(4, Hook::WallA), 1)
    );
    assert!(close.guessed && !check.guessed);
    assert_eq!(
        job.hangers[0],
        Hanger {
            name: name("lus"),
            metal: Some(inches(1)),
            height: Some(sixteenths(88)),
            rated: Some(Decimal::whole(1100))
        }
    );
    assert_eq!((job.hangers[1].metal, job.hangers[1].height), (None, None));
    assert_eq!(job.counts, [Some(3), None]);
    assert_eq!(job.nails[0].diameter, Length::from_thousandths(148));
    assert_eq!(job.nails[0].slant, Some(Decimal::whole(45)));
}

#[test]
fn bars_that_are_cut() {
    let job = imperial("cut,K7FQ2M,3\ncut,AAAAAA,1");
    let cuts: Vec<_> = job
        .bars_cut
        .iter()
        .map(|cut| (cut.list.as_str(), cut.bars))
        .collect();
    assert_eq!(cuts, [("K7FQ2M", 3), ("AAAAAA", 1)]);
}

#[test]
fn bolt_rows() {
    let job = imperial(
        "beam,W10x33,24'\nseated,YES\nstandoff,3/16\nbolt,1/2,9/16,5/8,36\nwasher,S,2,turns,1/8\nnut,7/16,0.866\ngap,0\nlattice,1/8\nplay,3/4\n\
         pattern,Paired\nrows,6 1/2,2\nspacing,16,row,1/4,3\nends,2,12,paired\nnear,12',8,each,paired,post\n\
         near,4',8,one,single\nmarked,12,TOP\ndrilled,24 end B,bot\nabandoned,30,top",
    );
    assert_eq!(job.seated, Some(true));
    assert_eq!(job.standoff, Some(sixteenths(3)));
    let bolt = job.bolt.unwrap();
    assert_eq!(
        (bolt.diameter, bolt.web_hole),
        (sixteenths(8), Some(sixteenths(9)))
    );
    assert_eq!(
        (bolt.wood_hole, bolt.fyb),
        (Some(sixteenths(10)), Some(Decimal::whole(36)))
    );
    assert_eq!(job.washers[0], None);
    assert_eq!(
        job.washers[1],
        Some(Washer {
            size: inches(2),
            shape: WasherShape::Turns,
            thickness: Some(sixteenths(2))
        })
    );
    let nut = job.nut.unwrap();
    assert_eq!(
        (nut.thickness, nut.across_corners),
        (sixteenths(7), Some(Length::from_thousandths(866)))
    );
    assert_eq!(
        (job.gap, job.lattice, job.play),
        (
            Some(Length::ZERO),
            Some(sixteenths(2)),
            Some(sixteenths(12))
        )
    );
    assert_eq!(job.pattern, Some(Pattern::Paired));
    assert_eq!(
        job.rows,
        Some(PatternRows {
            top: sixteenths(104),
            bot: inches(2)
        })
    );
    assert_eq!(
        job.spacing,
        Some(Spacing {
            spacing: inches(16),
            basis: SpacingBasis::Row,
            hold_back: Some(sixteenths(4)),
            minimum: Some(inches(3))
        })
    );
    assert_eq!(
        job.ends,
        Some(Ends {
            least: inches(2),
            most: inches(12),
            paired: Some(true)
        })
    );
    assert_eq!(
        (
            job.nears[0].reach,
            job.nears[0].paired,
            job.nears[0].name.as_str()
        ),
        (Reach::Each, true, "post")
    );
    assert_eq!(
        (job.nears[1].reach, job.nears[1].paired, job.nears[1].within),
        (Reach::One, false, inches(8))
    );
    let holes: Vec<_> = job
        .holes
        .iter()
        .map(|hole| (hole.at(), hole.row, hole.state))
        .collect();
    assert_eq!(
        holes,
        [
            (at(12, Hook::EndA), Row::Top, HoleState::Marked),
            (at(24, Hook::EndB), Row::Bot, HoleState::Drilled),
            (at(30, Hook::EndA), Row::Top, HoleState::Abandoned)
        ]
    );
    let both = imperial("washer,both,1 3/8,round");
    assert!(both.washers[0].is_some() && both.washers[0] == both.washers[1]);
}

#[test]
fn stock_rows() {
    let job = imperial(
        "packing,2,20'\npacking,21',1' end b,S\nbeam,W10x33,24'\nlayer,2x8,1 1/2,solid,19%\nlayer,ply,23/32,sheet,,4\nlayer,old,1.625,solid,GREEN,2\n\
         face,1/16,1/8,-1/16\nservice,9.5\nwood,df-l\nrod,36,10\noffcut,14 3/4,3\nrod,6'\nkerf,1/8\ntrim,no\nprojection,3/8\nspare,2\npiece,9,4,sill\npiece,7 1/2,1",
    );
    assert_eq!(job.packing[0].sides, Sides::Both);
    assert_eq!(
        (job.packing[1].to, job.packing[1].sides),
        (at(12, Hook::EndB), Sides::One(Side::S))
    );
    let [board, ply, old] = job.layers.as_slice() else {
        panic!("three layers")
    };
    assert_eq!(
        (board.kind, board.thickness, board.count),
        (LayerKind::Solid, sixteenths(24), None)
    );
    assert_eq!(board.moisture, Some(Moisture::Percent(Decimal::whole(19))));
    assert_eq!(
        (ply.kind, ply.moisture, ply.count),
        (LayerKind::Sheet, None, Some(4))
    );
    assert_eq!((old.moisture, old.count), (Some(Moisture::Green), Some(2)));
    assert_eq!(
        job.face,
        Some(Face {
            shy: sixteenths(1),
            proud: sixteenths(2),
            aim: Some(sixteenths(-1))
        })
    );
    assert_eq!(
        (job.service, job.wood),
        (Some(Decimal::new(95, 1)), Some(Species::DfL))
    );
    let sticks: Vec<_> = job
        .sticks
        .iter()
        .map(|stick| (stick.length, stick.count, stick.source))
        .collect();
    assert_eq!(
        sticks,
        [
            (inches(36), Some(10), StickSource::Rod),
            (sixteenths(236), Some(3), StickSource::Offcut),
            (inches(72), None, StickSource::Rod)
        ]
    );
    assert_eq!(
        (job.kerf, job.trim, job.projection, job.spare),
        (
            Some(sixteenths(2)),
            Some(false),
            Some(sixteenths(6)),
            Some(2)
        )
    );
    assert_eq!(
        (
            job.pieces[0].length,
            job.pieces[0].count,
            job.pieces[0].name.as_str()
        ),
        (inches(9), 4, "sill")
    );
    assert_eq!((job.pieces[1].count, job.pieces[1].name.as_str()), (1, ""));
}

/// A metric card: bare numbers are millimetres, marks are still imperial.
#[test]
fn metric_rows() {
    let job = read("boltbay,1\nunits,metric\nbeam,W250x49.1,7315\nspacing,400,every,3\nbolt,M,\n");
    assert!(job.is_err(), "no metric designation of bolts");
    let job = read("boltbay,1\nunits,metric\nbeam,W250x49.1,7315\nspacing,400,every,3\nbolt,12\nwall,A,0.1m\nclear,22'\ntape,N,wall A,,near,100,,5\n").unwrap();
    assert_eq!(job.beam.unwrap().length, Length::from_millimetres(7_315));
    assert_eq!(job.bolt.unwrap().diameter, Length::from_millimetres(12));
    assert_eq!(job.walls[0], Some(Length::from_millimetres(100)));
    assert_eq!(job.clear, Some(inches(264)));
    assert_eq!(job.runs[0].read_to, Some(Length::from_millimetres(5)));
}

/// No kind without a reader: each is refused for its fields, not its kind.
#[test]
fn every_kind_is_read() {
    use boltbay_core::card::Wrong;
    for kind in Kind::ALL {
        let Err(error) = read(&format!(
            "boltbay,1\nunits,imperial\n{},?,?,?\n",
            kind.word()
        )) else {
            panic!("{} takes anything", kind.word());
        };
        assert_eq!((error.row, error.kind), (3, Some(*kind)));
        assert!(!matches!(error.wrong, Wrong::UnknownKind { .. }), "{error}");
    }
}

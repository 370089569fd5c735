//! What each check is called, its unit, its source, and what it says nothing
//! about. Crew words; no word of approval.

use super::{Check, Kind, Question, Unit};

/// The words of one kind.
struct Entry {
    name: &'static str,
    unit: Unit,
    question: Question,
    source: &'static str,
    covers: &'static str,
}

/// An entry, in the order name, unit, question, source, covers.
const fn entry(
    name: &'static str,
    unit: Unit,
    question: Question,
    source: &'static str,
    covers: &'static str,
) -> Entry {
    Entry {
        name,
        unit,
        question,
        source,
        covers,
    }
}

impl Unit {
    /// As on lists.
    pub const fn word(self) -> &'static str {
        match self {
            Unit::Inches => "in",
            Unit::Pounds => "lb",
            Unit::PoundsPerSquareInch => "psi",
            Unit::PoundFeet => "lb-ft",
            Unit::PoundInchesPerInch => "lb-in/in",
            Unit::PoundFeetPerFoot => "lb-ft/ft",
        }
    }
}

impl Question {
    /// All questions, in the order in which a foreman asks.
    pub const ALL: [Question; 7] = [
        Question::GoesIn,
        Question::EndsSit,
        Question::SteelHolds,
        Question::PackingHolds,
        Question::BoltsHold,
        Question::NailsReach,
        Question::Flush,
    ];

    /// The question in the crew's words.
    pub const fn words(self) -> &'static str {
        match self {
            Question::GoesIn => "will it go in",
            Question::EndsSit => "do the ends sit",
            Question::SteelHolds => "does the steel carry it",
            Question::PackingHolds => "does the packing hold",
            Question::BoltsHold => "do the bolts hold",
            Question::NailsReach => "will the nails reach",
            Question::Flush => "will the floor be flush",
        }
    }
}

impl Check {
    /// What is checked, in a few words.
    pub const fn name(&self) -> &'static str {
        self.kind.name()
    }

    /// The unit of demand and capacity.
    pub const fn unit(&self) -> Unit {
        self.kind.unit()
    }

    /// The rule that the capacity comes from.
    pub const fn source(&self) -> &'static str {
        self.kind.source()
    }

    /// What the check takes in and what it leaves to others.
    pub const fn covers(&self) -> &'static str {
        self.kind.covers()
    }
}

impl Kind {
    /// What is checked, in a few words.
    pub const fn name(self) -> &'static str {
        self.entry().name
    }

    /// The unit of demand and capacity.
    pub const fn unit(self) -> Unit {
        self.entry().unit
    }

    /// Which of the foreman's questions it answers.
    pub const fn question(self) -> Question {
        self.entry().question
    }

    /// The rule that the capacity comes from.
    pub const fn source(self) -> &'static str {
        self.entry().source
    }

    /// What the check takes in and what it leaves to others.
    pub const fn covers(self) -> &'static str {
        self.entry().covers
    }

    const fn entry(self) -> Entry {
        match self {
            Kind::RoomToEnter
            | Kind::PocketDepth
            | Kind::PocketHeight
            | Kind::PocketWidth
            | Kind::PackingInPocket
            | Kind::BearingLeast
            | Kind::BearingUsual => self.pocket(),
            Kind::OnConcrete | Kind::OnMasonry | Kind::OnWood | Kind::OnSteel | Kind::OnKeyed => {
                self.seats()
            }
            Kind::FlangeOverBearing
            | Kind::WebYielding
            | Kind::WebCrippling
            | Kind::Post
            | Kind::Footing => self.bearing(),
            Kind::MomentDown
            | Kind::MomentUp
            | Kind::WebShear
            | Kind::NetWebShear
            | Kind::LiveDeflection
            | Kind::TotalDeflection => self.steel(),
            Kind::FlangeUnderPacking | Kind::PackingOnFlange => self.packing(),
            Kind::BoltNearest
            | Kind::BoltAverage
            | Kind::BoltsAlone
            | Kind::RodTension
            | Kind::WasherBearing => self.bolts(),
            Kind::BoltEnd | Kind::LoadedEdge | Kind::FreeEdge | Kind::Torque => self.edges(),
            Kind::HangerLoad
            | Kind::LowNails
            | Kind::HighNails
            | Kind::NailDepth
            | Kind::NailHold
            | Kind::LayerNailDepth
            | Kind::LayerNailHold => self.nails(),
            Kind::SteelBelowJoists | Kind::JoistShrinkage => self.flush(),
        }
    }

    const fn pocket(self) -> Entry {
        use Question::{EndsSit, GoesIn};
        use Unit::Inches;
        match self {
            Kind::RoomToEnter => entry(
                "deeper pocket for going in level",
                Inches,
                GoesIn,
                "geometry: length - clear + 1/2 in (12 mm); the 1/2 in is common practice, no source",
                "level entry into the deeper pocket, then sliding back; not tilting, not the hoist",
            ),
            Kind::PocketDepth => entry(
                "steel inside the pocket",
                Inches,
                GoesIn,
                "geometry: bearing as placed against pocket depth",
                "the steel's end against the back of the pocket; not grout or end plates",
            ),
            Kind::PocketHeight => entry(
                "steel height in the pocket",
                Inches,
                GoesIn,
                "geometry: depth of the section against pocket height; mill tolerance is up to 1/8 in more, ASTM A6",
                "the bare section; not bearing plate, shims, grout or tilting",
            ),
            Kind::PocketWidth => entry(
                "flange width in the pocket",
                Inches,
                GoesIn,
                "geometry: flange width against pocket width; mill tolerance is up to 1/4 in more, ASTM A6",
                "the bare flange; not packing that runs into the pocket",
            ),
            Kind::PackingInPocket => entry(
                "packed width in the pocket on the way",
                Inches,
                GoesIn,
                "geometry: packing and web, or the flange where wider, against pocket width",
                "packing ends that go past the wall face while the steel slides in; otherwise they go on afterwards",
            ),
            Kind::BearingLeast => entry(
                "least bearing length by code",
                Inches,
                EndsSit,
                "IRC R502.6: 3 in on masonry or concrete, 1 1/2 in on wood or metal",
                "bearing as placed; the drawing may ask for more",
            ),
            _ => entry(
                "usual bearing length in a wall pocket",
                Inches,
                EndsSit,
                "4 in (100 mm): common practice, no source",
                "what crews keep in a foundation pocket; the drawing's length rules",
            ),
        }
    }

    const fn seats(self) -> Entry {
        use Question::EndsSit;
        use Unit::PoundsPerSquareInch;
        const STRESS: &str = "reaction over bearing length x the narrower of flange and support, spread evenly, support no larger than the bearing; not the wall under it";
        match self {
            Kind::OnConcrete => entry(
                "bearing stress on concrete",
                PoundsPerSquareInch,
                EndsSit,
                "AISC 360-22 J8, same as ACI 318-19 Table 22.8.3.2: 0.85 f'c / 2.31, f'c 2500 psi as the least of IRC Table R402.2, none keyed",
                STRESS,
            ),
            Kind::OnMasonry => entry(
                "bearing stress on masonry",
                PoundsPerSquareInch,
                EndsSit,
                "TMS 402 allowable stress: 0.33 f'm, f'm 1500 psi from memory, none keyed",
                "reaction over bearing length x the narrower of flange and support, solid or filled under the pocket; not the wall under it",
            ),
            Kind::OnWood => entry(
                "bearing stress on wood",
                PoundsPerSquareInch,
                EndsSit,
                "NDS 2024 3.10.2 and 3.10.4: Fc perpendicular of the species x Cb",
                "across the grain, dry, wood running on 3 in or more past the bearing; not the post's own strength",
            ),
            Kind::OnSteel => entry(
                "bearing stress on steel",
                PoundsPerSquareInch,
                EndsSit,
                "AISC 360-22 J7: 1.8 Fy / 2.00",
                "contact of the beam's steel; not cap plate, welds or column",
            ),
            _ => entry(
                "bearing stress against the card's",
                PoundsPerSquareInch,
                EndsSit,
                "allowable stress as keyed in row support",
                STRESS,
            ),
        }
    }

    const fn bearing(self) -> Entry {
        use Question::EndsSit;
        use Unit::{Inches, Pounds};
        match self {
            Kind::FlangeOverBearing => entry(
                "flange thickness over the bearing",
                Inches,
                EndsSit,
                "AISC Manual part 14, Eq. 14-1: n = B/2 - k design, t = sqrt(2 x 1.67 R n2 / (Fy B lb))",
                "the bare flange as its own bearing plate; a plate is the engineer's to size",
            ),
            Kind::WebYielding => entry(
                "web yielding over the bearing",
                Pounds,
                EndsSit,
                "AISC 360-22 J10.2, ASD 1.50",
                "no stiffeners; not sidesway of the web, not beam ends free to roll over",
            ),
            Kind::WebCrippling => entry(
                "web crippling over the bearing",
                Pounds,
                EndsSit,
                "AISC 360-22 J10.3, ASD 2.00",
                "no stiffeners; not sidesway of the web, not beam ends free to roll over",
            ),
            Kind::Post => entry(
                "load on the post",
                Pounds,
                EndsSit,
                "allowable load as keyed in row post",
                "greatest reaction alone; not the cap, the base, or load from above the beam's own",
            ),
            _ => entry(
                "load on the footing",
                Pounds,
                EndsSit,
                "allowable load as keyed in row post",
                "greatest reaction alone; not the post's weight, not the soil",
            ),
        }
    }

    const fn steel(self) -> Entry {
        use Question::SteelHolds;
        use Unit::{Inches, PoundFeet, Pounds};
        match self {
            Kind::MomentDown => entry(
                "moment, top flange pressed",
                PoundFeet,
                SteelHolds,
                "AISC 360-22 F2 and F3, Cb = 1, ASD 1.67",
                "free length of the top flange as keyed, else between supports: if the engineer counts the hung joists as braces, key their spacing; not twist",
            ),
            Kind::MomentUp => entry(
                "moment, bottom flange pressed",
                PoundFeet,
                SteelHolds,
                "AISC 360-22 F2 and F3, Cb = 1, ASD 1.67",
                "free length of the bottom flange as keyed, else between supports; supports hold the bottom flange sideways only where the drawing has them do it; not twist",
            ),
            Kind::WebShear => entry(
                "shear of the web",
                Pounds,
                SteelHolds,
                "AISC 360-22 G2.1, ASD 1.50 or 1.67 by h/tw",
                "the full web; not copes",
            ),
            Kind::NetWebShear => entry(
                "shear through the holes of a mark",
                Pounds,
                SteelHolds,
                "AISC 360-22 J4.2(b) and B4.3b: 0.60 Fu x net web, each hole 1/16 in more, ASD 2.00",
                "the mark with the least left over; holes in flanges never",
            ),
            Kind::LiveDeflection => entry(
                "deflection under live load",
                Inches,
                SteelHolds,
                "L/360: IRC Table R301.7",
                "greatest over all live patterns, constant section; not creep or joists",
            ),
            _ => entry(
                "deflection under all load",
                Inches,
                SteelHolds,
                "L/240: IBC Table 1604.3",
                "greatest over all live patterns, constant section; not creep or joists",
            ),
        }
    }

    const fn packing(self) -> Entry {
        use Question::PackingHolds;
        match self {
            Kind::FlangeUnderPacking => entry(
                "bottom flange under the packing",
                Unit::PoundInchesPerInch,
                PackingHolds,
                "AISC 360-22 F11: Fy tf2 / 4 / 1.67 an inch, bent at the web",
                "line load down where the layers sit that start at the face; not a point load of that side, not stress along the beam at the same time",
            ),
            _ => entry(
                "packing on the bottom flange",
                Unit::PoundsPerSquareInch,
                PackingHolds,
                "NDS 2024 3.10.2: Fc perpendicular of the species, no Cb",
                "line load on layers that start at the face and reach the flange, dry; not a point load of that side, not shims or uneven seat",
            ),
        }
    }

    const fn bolts(self) -> Entry {
        use Question::{BoltsHold, PackingHolds};
        use Unit::{Inches, Pounds, PoundsPerSquareInch};
        const SHEAR: &str = "double shear, twice the heavier side's share (single shear where one side is packed), rod at its root, layers nailed together so that they act as one, standing off the web as far as is keyed (row standoff; tight if none), as if the packing did not sit on the flange; dry wood";
        match self {
            Kind::BoltNearest => entry(
                "bolt against its nearest hangers",
                Pounds,
                BoltsHold,
                "NDS 2024 Table 12.3.1A with the general equations of AWC TR12: Z x CD x end factor",
                SHEAR,
            ),
            Kind::BoltAverage => entry(
                "bolt against the load spread evenly",
                Pounds,
                BoltsHold,
                "NDS 2024 Table 12.3.1A with the general equations of AWC TR12: Z x CD x end factor",
                SHEAR,
            ),
            Kind::BoltsAlone => entry(
                "spacing if bolts alone carry it",
                Inches,
                BoltsHold,
                "bolt value over twice the heavier side's line load",
                SHEAR,
            ),
            Kind::RodTension => entry(
                "rod tension from packing rolling off",
                Pounds,
                BoltsHold,
                "AISC 360-22 J3.7: 0.75 Fu of the full section, Fu 58 ksi (ASTM A36), ASD 2.00",
                "hanger load x its arm over the bolt's height above the packing's lower edge; not tightening",
            ),
            _ => entry(
                "washer pressed into the packing",
                PoundsPerSquareInch,
                PackingHolds,
                "NDS 2024 3.10.2 and 3.10.4: Fc perpendicular of the species x Cb of the washer",
                "rod tension over washer less hole, washer stiff enough; not tightening",
            ),
        }
    }

    const fn edges(self) -> Entry {
        use Question::BoltsHold;
        use Unit::{Inches, PoundFeetPerFoot};
        match self {
            Kind::BoltEnd => entry(
                "bolt to the end of its packing",
                Inches,
                BoltsHold,
                "NDS 2024 Table 12.5.1A: 2D least across the grain, 4D for the full value",
                "first and last bolt of each piece",
            ),
            Kind::LoadedEdge => entry(
                "bolt to the packing's top edge",
                Inches,
                BoltsHold,
                "NDS 2024 Table 12.5.1C: 4D, the bolt pushes up on the wood",
                "packing as high as the pocket; not the 1/16 in (1.5 mm) that is ripped off for the fit",
            ),
            Kind::FreeEdge => entry(
                "bolt to the packing's lower edge",
                Inches,
                BoltsHold,
                "NDS 2024 Table 12.5.1C: 1.5D",
                "packing down on the bottom flange",
            ),
            _ => entry(
                "twist from uneven hanging",
                PoundFeetPerFoot,
                BoltsHold,
                "statics: line load x distance of the packing face from mid web, one side less the other",
                "line loads, not point loads; demand only: ask the engineer where the drawing has no detail for it",
            ),
        }
    }

    const fn nails(self) -> Entry {
        use Question::NailsReach;
        use Unit::{Inches, Pounds};
        match self {
            Kind::HangerLoad => entry(
                "hanger load",
                Pounds,
                NailsReach,
                "rated load as keyed in row hanger",
                "the most loaded hanger of its kind; not its nails, not uplift",
            ),
            Kind::LowNails => entry(
                "lowest hanger nail to packing edge",
                Inches,
                NailsReach,
                "3/8 in; nail 3/4 in above the seat: common practice, no source",
                "face nails; the hanger schedule rules",
            ),
            Kind::HighNails => entry(
                "highest hanger nail to packing edge",
                Inches,
                NailsReach,
                "3/8 in; nail 1/2 in below the hanger's top: common practice, no source",
                "face nails; the hanger schedule rules",
            ),
            Kind::NailDepth => entry(
                "hanger nail short of the web",
                Inches,
                NailsReach,
                "geometry: nail length against packing as it measures; the hanger's own steel is left in hand",
                "straight nails; a shorter nail is the hanger schedule's or the engineer's choice",
            ),
            Kind::NailHold => entry(
                "hanger nail penetration",
                Inches,
                NailsReach,
                "NDS 2024 12.1.6: 6D least, 10D for the full value",
                "penetration alone; the hanger schedule gives the load",
            ),
            Kind::LayerNailDepth => entry(
                "layer nail short of the web",
                Inches,
                NailsReach,
                "geometry: length x cosine of the slant against packing as it measures",
                "nails that fasten layers; not hanger nails, which go in straight",
            ),
            _ => entry(
                "layer nail penetration",
                Inches,
                NailsReach,
                "NDS 2024 12.1.6: 6D least behind the outer layer, 10D for the full value",
                "penetration alone",
            ),
        }
    }

    const fn flush(self) -> Entry {
        use Question::Flush;
        match self {
            Kind::SteelBelowJoists => entry(
                "steel showing below the joists",
                Unit::Inches,
                Flush,
                "geometry: depth of the section + offset - joist depth",
                "demand only: negative = joists hang below the steel; ceiling to suit",
            ),
            _ => entry(
                "joists still to shrink",
                Unit::Inches,
                Flush,
                "FPL-RP-489, width, from 19 % moisture (PS 20 dry lumber) to service",
                "demand only: new joists come down by this and steel does not; old dry joists do not",
            ),
        }
    }
}

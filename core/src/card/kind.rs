//! The kinds of rows: the first field of every row.

/// Declares the kinds: name, word on the card, whether a card holds it once.
macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident $word:literal $once:literal,)*) => {
        /// What a row is about.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum Kind {
            $($(#[$doc])* $name,)*
        }

        impl Kind {
            /// All kinds, in the order in which a card is written.
            pub const ALL: &[Kind] = &[$(Kind::$name,)*];

            /// The word on the card, lower case.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Kind::$name => $word,)*
                }
            }

            /// Whether a second row of this kind contradicts the first.
            pub const fn once(self) -> bool {
                match self {
                    $(Kind::$name => $once,)*
                }
            }
        }
    };
}

kinds! {
    /// Format version, first row.
    Boltbay "boltbay" true,
    /// Name of the job.
    Job "job" true,
    /// Imperial or metric.
    Units "units" true,
    /// The painted letters.
    Sides "sides" true,
    /// The steel.
    Beam "beam" true,
    /// A shape that is not in the table.
    Shape "shape" true,
    /// Strengths.
    Steel "steel" true,
    /// Unbraced lengths.
    Braced "braced" true,
    /// Bearing at an end.
    Wall "wall" false,
    /// Between the walls.
    Clear "clear" true,
    /// A wall hooked off square.
    Square "square" false,
    /// Recess in a wall.
    Pocket "pocket" false,
    /// Which hand end A is at.
    Stand "stand" true,
    /// Web to flange tip.
    Outstand "outstand" false,
    /// A support.
    Support "support" false,
    /// A post under a support.
    Post "post" false,
    /// A load.
    Load "load" false,
    /// Load duration factor.
    Duration "duration" true,
    /// A tape run.
    Tape "tape" false,
    /// A joist of the run above.
    Joist "joist" false,
    /// A check of the run above.
    Check "check" false,
    /// A close of the run above.
    Close "close" false,
    /// A run that shall stand.
    Override "override" false,
    /// Joists counted by eye.
    Count "count" false,
    /// How the floor meets the steel.
    Floor "floor" false,
    /// A hanger.
    Hanger "hanger" false,
    /// A nail.
    Nail "nail" false,
    /// A thing in the way.
    Obstacle "obstacle" false,
    /// A stretch without bolts.
    Zone "zone" false,
    /// A packing piece.
    Packing "packing" false,
    /// Packing stands on the flange.
    Seated "seated" true,
    /// Packing stands off the web.
    Standoff "standoff" true,
    /// The bolt and its holes.
    Bolt "bolt" true,
    /// A washer.
    Washer "washer" false,
    /// The nut.
    Nut "nut" true,
    /// Clear gap.
    Gap "gap" true,
    /// Step of the marks.
    Lattice "lattice" true,
    /// Wanted play.
    Play "play" true,
    /// Pattern of the rows.
    Pattern "pattern" true,
    /// Heights of the rows.
    Rows "rows" true,
    /// Spacing of the bolts.
    Spacing "spacing" true,
    /// End distances.
    Ends "ends" true,
    /// A bolt near a point.
    Near "near" false,
    /// A layer of packing stock.
    Layer "layer" false,
    /// Packing against the flange tips.
    Face "face" true,
    /// Moisture in service.
    Service "service" true,
    /// Species.
    Wood "wood" true,
    /// Rod to buy.
    Rod "rod" false,
    /// Rod on hand.
    Offcut "offcut" false,
    /// Kerf.
    Kerf "kerf" true,
    /// Cut the factory end off.
    Trim "trim" true,
    /// Rod beyond the nut.
    Projection "projection" true,
    /// Spare rods.
    Spare "spare" true,
    /// Another piece from the same rod.
    Piece "piece" false,
    /// Bars cut already.
    Cut "cut" false,
    /// A hole marked.
    Marked "marked" false,
    /// A hole drilled.
    Drilled "drilled" false,
    /// A hole not used.
    Abandoned "abandoned" false,
    /// Where the beam ended up.
    Placed "placed" true,
}

impl Kind {
    /// The kind of this word, in any case.
    pub fn read(word: &str) -> Option<Kind> {
        Kind::ALL
            .iter()
            .copied()
            .find(|kind| kind.word().eq_ignore_ascii_case(word))
    }

    /// The kind that most resembles a misspelt word: at least its first two
    /// letters must agree.
    pub fn like(word: &str) -> Option<Kind> {
        let alike = |kind: &&Kind| {
            kind.word()
                .bytes()
                .zip(word.bytes())
                .take_while(|(a, b)| a.eq_ignore_ascii_case(b))
                .count()
        };
        Kind::ALL
            .iter()
            .max_by_key(alike)
            .filter(|kind| alike(kind) >= 2)
            .copied()
    }
}

//! The words that the file chooses from, each set as an enum.
//!
//! Must not know under which key a word stands.

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$variant_doc])* $variant,)+
        }

        impl $name {
            /// Every word that the file may use, in the order of the variants.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The word for it in the file.
            pub const fn word(self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)+
                }
            }

            /// What `word` stands for, or `None` where it is none of [`Self::WORDS`].
            pub fn from_word(word: &str) -> Option<Self> {
                match word {
                    $($word => Some(Self::$variant),)+
                    _ => None,
                }
            }
        }
    };
}

words! {
    /// Which way the crankshaft turns in running, seen at the belt end.
    CrankTurns {
        /// With the clock.
        Clockwise = "clockwise",
        /// Against the clock.
        Anticlockwise = "anticlockwise",
    }
}

words! {
    /// What a wheel is for.
    Role {
        /// The crankshaft sprocket, which drives the belt.
        Crank = "crank",
        /// A camshaft sprocket.
        Camshaft = "camshaft",
        /// A timed fuel injection pump.
        InjectionPump = "injection_pump",
        /// A balance shaft.
        BalanceShaft = "balance_shaft",
        /// A shaft that drives others behind it.
        IntermediateShaft = "intermediate_shaft",
        /// An ignition distributor.
        Distributor = "distributor",
        /// A coolant pump.
        WaterPump = "water_pump",
        /// An oil pump.
        OilPump = "oil_pump",
        /// A fuel pump that is not timed.
        FuelPump = "fuel_pump",
        /// A pulley that only guides the belt.
        Idler = "idler",
        /// The pulley that the tensioner moves.
        Tensioner = "tensioner",
        /// A pulley set once by hand and bolted.
        Adjuster = "adjuster",
        /// Anything else.
        Other = "other",
    }
}

impl Role {
    /// Whether the shaft must keep step with the crank, so that its wheel must be toothed.
    pub const fn is_timed(self) -> bool {
        matches!(
            self,
            Self::Crank
                | Self::Camshaft
                | Self::InjectionPump
                | Self::BalanceShaft
                | Self::IntermediateShaft
                | Self::Distributor
        )
    }
}

words! {
    /// The face of the belt that runs on a wheel.
    Face {
        /// The face with the teeth.
        Toothed = "toothed",
        /// The smooth back.
        Back = "back",
    }
}

words! {
    /// What of a wheel its timing mark is made on.
    MarkOn {
        /// A groove between two teeth.
        Groove = "groove",
        /// A tooth.
        Tooth = "tooth",
    }
}

words! {
    /// An arrangement from which a layout can be started. Not a word of the file.
    Arrangement {
        /// In line, one camshaft.
        InLineOne = "in_line_one_camshaft",
        /// In line, two camshafts.
        InLineTwo = "in_line_two_camshafts",
        /// A vee, one camshaft a bank.
        VeeOne = "vee_one_camshaft_a_bank",
        /// A vee, two camshafts a bank.
        VeeTwo = "vee_two_camshafts_a_bank",
        /// One camshaft and an injection pump.
        InjectionPump = "injection_pump",
        /// A belt of its own for a balance shaft.
        BalanceShaft = "balance_shaft_belt",
    }
}

words! {
    /// Where a mark is looked at.
    SeenAt {
        /// At the belt cover or the engine behind the wheel.
        Cover = "cover",
        /// At the crankshaft damper.
        Damper = "damper",
        /// At the flywheel.
        Flywheel = "flywheel",
    }
}

words! {
    /// What a mark other than the timing mark is for.
    MarkUse {
        /// It is not for timing and easily taken for the right one.
        Decoy = "decoy",
        /// It serves to put the wheel together or on.
        Assembly = "assembly",
        /// It belongs to another engine that takes the same wheel.
        OtherEngine = "other_engine",
    }
}

words! {
    /// How a sprocket sits on its shaft.
    Fixing {
        /// By a key or a dowel: one way only.
        Keyed = "keyed",
        /// By slotted holes: some degrees to either side.
        Slotted = "slotted",
        /// On a plain taper: any way until the bolt is tight.
        Taper = "taper",
    }
}

words! {
    /// With what a shaft is locked in its timed position.
    LockBy {
        /// A pin.
        Pin = "pin",
        /// A bolt.
        Bolt = "bolt",
        /// A plate or a bar.
        Plate = "plate",
        /// A holding tool.
        Tool = "tool",
    }
}

words! {
    /// What the lock holds.
    LockOn {
        /// The shaft itself.
        Shaft = "shaft",
        /// The sprocket.
        Sprocket = "sprocket",
        /// The flywheel.
        Flywheel = "flywheel",
    }
}

words! {
    /// Which of its two tops cylinder 1 is at when all marks are in time.
    TopAtMarks {
        /// The one between compression and power.
        Firing = "firing",
        /// The one between exhaust and intake.
        Overlap = "overlap",
    }
}

words! {
    /// The law by which a valve's lift rises, and backwards falls.
    Law {
        /// Half a cosine.
        Harmonic = "harmonic",
        /// A cycloid.
        Cycloidal = "cycloidal",
        /// The polynomial of the third to fifth powers.
        P345 = "3-4-5",
        /// The polynomial of the fourth to seventh powers.
        P4567 = "4-5-6-7",
    }
}

words! {
    /// Where a phaser stands at rest.
    PhaserRest {
        /// At its late end.
        Late = "late",
        /// At its early end.
        Early = "early",
    }
}

words! {
    /// Which way a tensioner is turned to tighten the belt, seen at the belt end.
    Tightening {
        /// With the clock.
        Clockwise = "clockwise",
        /// Against the clock.
        Anticlockwise = "anticlockwise",
    }
}

words! {
    /// Between what the teeth of the belt were counted.
    CountedFrom {
        /// The groove nearest the middle of the wrap, the shaft standing in time.
        Reference = "reference",
        /// The marked groove or tooth.
        Mark = "mark",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_come_back() {
        for word in Role::WORDS {
            assert_eq!(Role::from_word(word).map(Role::word), Some(*word));
        }
        assert_eq!(Role::from_word("Crank"), None);
    }
}

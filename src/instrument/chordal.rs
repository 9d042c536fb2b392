//! Chordal values of gear teeth, from the table in `assets/chordal.toml`: decimals, no trigonometry.

use super::Instrument;
use crate::exact::{Exact, Quanta, Quantity, Unit};
use serde::Deserialize;
use std::sync::LazyLock;

/// A standard tooth of module 1, or of diametral pitch 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tooth {
    /// How many teeth the gear has.
    pub teeth: i64,
    /// The chordal thickness, in millimetres or inches.
    pub thickness: Exact,
    /// The chordal addendum.
    pub addendum: Exact,
}

/// The size of a gear's teeth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pitch {
    /// The module, in millimetres.
    Module(Exact),
    /// The diametral pitch: teeth to an inch of pitch diameter.
    Diametral(Exact),
}

#[derive(Deserialize)]
struct File {
    tooth: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    teeth: i64,
    thickness: String,
    addendum: String,
}

static TEETH: LazyLock<Vec<Tooth>> = LazyLock::new(|| {
    let file: File =
        toml::from_str(include_str!("../../assets/chordal.toml")).expect("a table; a test reads it");
    let value =
        |text: &str| Quantity::parse(&format!("{text} mm")).expect("a decimal; a test reads it").value;
    let tooth = |row: &Row| Tooth {
        teeth: row.teeth,
        thickness: value(&row.thickness),
        addendum: value(&row.addendum),
    };
    file.tooth.iter().map(tooth).collect()
});

/// The table, fewest teeth first.
pub fn teeth() -> &'static [Tooth] {
    &TEETH
}

impl Pitch {
    /// A length of a tooth of module 1 or diametral pitch 1, on a tooth of this size.
    pub fn of(self, length: Exact) -> Exact {
        match self {
            Self::Module(module) => length * module,
            Self::Diametral(pitch) => length.over(pitch),
        }
    }

    /// The usual sizes that are measured with tools in a unit, common practice: modules in millimetres, diametral pitches for inches.
    pub fn usual(unit: Unit) -> Vec<Self> {
        let whole = |n: &i128| Exact::whole(*n);
        match unit {
            Unit::Inch => [2, 3, 4, 5, 6, 8, 10, 12, 16, 20].iter().map(whole).map(Self::Diametral).collect(),
            Unit::Millimetre | Unit::Minute => {
                [1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25].iter().map(whole).map(Self::Module).collect()
            }
        }
    }
}

impl Instrument {
    /// The setting nearest to a value in its unit, half way up: a chordal value has more digits than a slide can be set to.
    pub fn nearest_setting(&self, value: Exact) -> Quanta {
        let steps = value.over(self.value(self.step)) + Exact::ratio(1, 2);
        let steps = steps.numerator().div_euclid(steps.denominator());
        self.step * i64::try_from(steps).expect("a setting of a tool of that size")
    }

    /// Where the height slide is set for a tooth, and what the thickness slide reads on a tooth without fault: both to the least
    /// count. `None` where either is out of range, or the tool has no slide of its own for the height.
    pub fn set_for(&self, tooth: &Tooth, pitch: Pitch) -> Option<(Quanta, Quanta)> {
        let slide = &self.own_slide()?.tool;
        let height = slide.nearest_setting(pitch.of(tooth.addendum));
        let thickness = self.nearest_setting(pitch.of(tooth.thickness));
        let within = |tool: &Self, at: Quanta| tool.low <= at && at <= tool.high;
        (within(slide, height) && within(self, thickness)).then_some((height, thickness))
    }
}

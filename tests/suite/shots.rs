//! The pictures that the suite looks at.

use crate::robot::kinds::{Course, KNOWN, Kind, Known};
use linefall::exact::{Exact, Quanta};
use linefall::instrument::{Catalogue, Instrument, Variant};
use linefall::reading;
use linefall::render::{self, Drawing, Glass, LineStyle, Marks, Refusal, Request};
use linefall::scene::{self, Scene, View};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// A size in cells.
pub type Size = (i64, i64);

/// The sizes at which all settings are looked at.
pub const SIZES: [Size; 3] = [(80, 24), (100, 30), (160, 45)];

/// An instrument in one of its views and variants.
#[derive(Clone)]
pub struct Look<'a> {
    pub known: &'static Known,
    pub instrument: &'a Instrument,
    pub view: View,
    pub variant: Variant,
    /// How far the thimble's edge is early.
    pub lead: i64,
}

/// How a look is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct How {
    pub size: Size,
    pub style: LineStyle,
    pub glass: Glass,
    /// The glass's strength, where someone chose it.
    pub strength: Option<i64>,
}

impl How {
    pub fn new(size: Size, style: LineStyle) -> Self {
        Self { size, style, glass: Glass::IfNeeded, strength: None }
    }

    pub fn with(self, glass: Glass) -> Self {
        Self { glass, ..self }
    }

    pub fn request(self) -> Request {
        let mut request = Request::new(self.size.0, self.size.1, self.style);
        request.marks = Marks::Shown;
        request.glass = self.glass;
        request.glass_dots = self.strength;
        request
    }
}

pub fn catalogue() -> Catalogue {
    Catalogue::new(Vec::new())
}

/// The shipped instrument of an id, after a look at whether it is the one the robot knows.
pub fn shipped<'a>(catalogue: &'a Catalogue, known: &Known) -> &'a Instrument {
    let (id, set) = known.set();
    let instrument = catalogue.get(id).expect("it is shipped");
    let instrument = if set.is_empty() { instrument } else { second_set(id, set) };
    let (numerator, denominator) = known.quantum;
    assert_eq!(instrument.lattice.quantum(), Exact::ratio(numerator, denominator), "{}", known.id);
    assert_eq!((instrument.low.0, instrument.high.0), known.range, "{}", known.id);
    assert_eq!((instrument.step.0, instrument.least_count.0), (1, 1), "{}", known.id);
    instrument
}

/// The tool whose second set of scales is read.
fn second_set(id: &'static str, set: &'static str) -> &'static Instrument {
    static TOOLS: LazyLock<BTreeMap<(&str, &str), Instrument>> = LazyLock::new(|| {
        let catalogue = catalogue();
        let second = |known: &Known| {
            let (id, set) = known.set();
            let instrument = catalogue.get(id).filter(|_| !set.is_empty())?;
            let tool = instrument.fitted(&instrument.variant(set).expect("a set of scales"));
            Some(((id, set), tool))
        };
        KNOWN.iter().filter_map(second).collect()
    });
    &TOOLS[&(id, set)]
}

/// The views that differ.
pub fn views(known: &Known) -> &'static [View] {
    match known.kind {
        Kind::Micrometer(_) => &[View::Held, View::Flat],
        Kind::Pair(..) if known.manner().course == Course::Upward => &[View::Held, View::Flat],
        // A collar has no face to be shown in the hand.
        Kind::Dial(_) if !known.id.starts_with("cross-slide") => &[View::Held, View::Flat],
        Kind::Rule(_) | Kind::Pair(..) | Kind::Dial(_) | Kind::Disc(_) => &[View::Flat],
    }
}

/// Every view and variant of an instrument.
pub fn looks<'a>(known: &'static Known, instrument: &'a Instrument) -> Vec<Look<'a>> {
    let variants = instrument.variants();
    let pairs = views(known).iter().flat_map(|view| variants.iter().map(|variant| (*view, variant.clone())));
    pairs.map(|(view, variant)| Look { known, instrument, view, variant, lead: 0 }).collect()
}

/// Every setting of one numbered interval at zero, at mid range and at the end, lowest first.
pub fn intervals(known: &Known) -> Vec<i64> {
    let (low, high) = known.range;
    let middle = i64::midpoint(low, high);
    let mut settings: Vec<i64> = [low, middle, high - known.interval]
        .into_iter()
        .flat_map(|from| from..=from + known.interval)
        .filter(|setting| (low..=high).contains(setting))
        .collect();
    settings.sort_unstable();
    settings.dedup();
    settings
}

impl Look<'_> {
    pub fn scene(&self, setting: i64) -> Scene {
        let tool = self.instrument.fitted(&self.variant);
        let pose = reading::pose(&tool, Quanta(setting), Quanta(self.lead));
        scene::build(&tool, &pose, &self.variant, self.view)
    }

    pub fn draw(&self, setting: i64, how: How) -> Result<Drawing, Refusal> {
        render::draw(&self.scene(setting), &how.request())
    }

    pub fn name(&self) -> String {
        format!("{} {} {}", self.known.id, self.view.word(), self.variant.word())
    }
}

/// All that is shipped must be described for the robot.
#[test]
fn every_shipped_instrument_is_known() {
    let mut shipped: Vec<String> = catalogue().ids().map(str::to_owned).collect();
    let mut known: Vec<String> = KNOWN.iter().map(|known| known.set().0.to_owned()).collect();
    shipped.sort();
    known.sort();
    known.dedup();
    assert_eq!(shipped, known);
    for id in shipped {
        let sets = KNOWN.iter().filter(|known| known.set().0 == id).count();
        assert_eq!(sets, catalogue().get(&id).expect("listed").sets().len(), "{id}");
    }
}

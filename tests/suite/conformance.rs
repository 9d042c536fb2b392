//! Readings that other people published, right and wrong, each with its source.

use crate::robot::{self, kinds::known};
use crate::shots::{How, Look, catalogue, looks, shipped};
use linefall::drill::{self, Question, Verdict};
use linefall::exact::{Exact, Quanta, Quantity, parse_answer};
use linefall::instrument::{Catalogue, Instrument, SetUp, Variant};
use linefall::reading::{Asks, Seen, misread};
use linefall::render::{Glass, LineStyle, text};
use serde::Deserialize;
use std::collections::BTreeMap;

const READINGS: [&str; 8] = [
    include_str!("../conformance/rules.toml"),
    include_str!("../conformance/micrometers.toml"),
    include_str!("../conformance/calipers.toml"),
    include_str!("../conformance/tenths.toml"),
    include_str!("../conformance/dials.toml"),
    include_str!("../conformance/slides.toml"),
    include_str!("../conformance/protractors.toml"),
    include_str!("../conformance/two_sets.toml"),
];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Readings {
    reading: Vec<Row>,
}

/// A published reading.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Row {
    id: String,
    instrument: String,
    /// What is fitted to it, as `--variant` takes it.
    fitted: Option<String>,
    components: String,
    read: BTreeMap<String, Component>,
    published: String,
    /// How a protractor stands to the part, and the part's angle.
    set_up: Option<String>,
    angle: Option<String>,
    /// Another unit than the instrument's; then `as_read_here` is what is typed.
    published_in: Option<String>,
    as_read_here: Option<String>,
    source: String,
    tier: String,
    verdict: String,
}

/// What a stage shows: a value with its unit, or a vernier's line.
#[derive(Deserialize)]
#[serde(untagged)]
enum Component {
    Value(String),
    Line(i64),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wrongs {
    wrong: Vec<WrongRow>,
}

/// A published answer that is wrong.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct WrongRow {
    id: String,
    instrument: String,
    stands_at: String,
    zero_error: Option<String>,
    printed: String,
    should_be: String,
    misread: Option<String>,
    why: String,
    #[serde(rename = "where")]
    found: String,
    tier: String,
}

fn rows() -> Vec<Row> {
    READINGS
        .into_iter()
        .flat_map(|text| toml::from_str::<Readings>(text).expect("a file of readings").reading)
        .collect()
}

fn wrongs() -> Vec<WrongRow> {
    toml::from_str::<Wrongs>(include_str!("../conformance/wrong.toml"))
        .expect("a file of wrong answers")
        .wrong
}

fn at(instrument: &Instrument, text: &str) -> Quanta {
    let quantity = Quantity::parse(text).expect("a quantity");
    assert_eq!(quantity.unit, instrument.unit, "{text}");
    instrument.lattice.at(quantity.value).expect("a setting")
}

impl Row {
    /// What a person types who reads this instrument.
    fn typed(&self) -> &str {
        self.as_read_here.as_deref().unwrap_or(&self.published)
    }

    /// The instrument with what is fitted to it, and which variant that is.
    fn tool(&self, catalogue: &Catalogue) -> (Instrument, Variant) {
        let instrument = shipped(catalogue, known(&self.instrument));
        let variant = instrument.variant(self.fitted.as_deref().unwrap_or_default()).expect("a variant");
        (instrument.fitted(&variant), variant)
    }

    fn setting(&self, instrument: &Instrument) -> Quanta {
        let typed = parse_answer(self.typed(), instrument.unit).expect("a reading");
        instrument.lattice.at(typed.value).expect("a setting")
    }
}

#[test]
fn every_row_says_where_it_comes_from() {
    let rows = rows();
    let mut ids: Vec<&str> = rows.iter().map(|row| row.id.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), rows.len(), "an id stands twice");
    for row in &rows {
        assert!(row.source.len() > 10 && !row.components.is_empty() && !row.verdict.is_empty(), "{}", row.id);
        assert!(["A", "B", "C", "D"].contains(&row.tier.as_str()), "{}", row.id);
        assert_eq!(row.published_in.is_some(), row.as_read_here.is_some(), "{}", row.id);
    }
    for row in wrongs() {
        assert!(row.found.len() > 10 && !row.why.is_empty() && row.tier.len() == 1, "{}", row.id);
    }
    println!("{} published readings", rows.len());
}

/// At least one reading of every shipped instrument, published or worked by hand; the changes of collars and indicators count.
#[test]
fn every_shipped_instrument_has_a_reading() {
    let changes = include_str!("../conformance/changes.toml");
    let texts: Vec<&str> = READINGS.into_iter().chain([changes]).collect();
    let catalogue = catalogue();
    let without: Vec<&str> = catalogue
        .ids()
        .filter(|id| !texts.iter().any(|text| text.contains(&format!("instrument = \"{id}\""))))
        .collect();
    assert_eq!(without, [""; 0]);
}

/// Where another unit was used, it is a factor of ten and nothing else.
#[test]
fn other_units_are_ten_to_one() {
    for row in rows().iter().filter(|row| row.published_in.is_some()) {
        let catalogue = catalogue();
        let unit = catalogue.get(&row.instrument).expect("an instrument").unit;
        let [published, here] =
            [&row.published, row.typed()].map(|text| parse_answer(text, unit).expect("a number").value);
        assert_eq!(published * Exact::whole(10), here, "{}", row.id);
    }
}

#[test]
fn what_each_stage_shows_is_as_published() {
    let catalogue = catalogue();
    for row in rows() {
        let (instrument, variant) = row.tool(&catalogue);
        let instrument = &instrument;
        let setting = row.setting(instrument);
        let question = Question::new(instrument, 1, setting, Quanta::ZERO, variant);
        let read = &question.reading;
        assert_eq!(read.total, setting, "{}", row.id);
        assert_eq!(read.steps.len(), row.read.len(), "{}: {}", row.id, row.components);
        for step in &read.steps {
            let name = &instrument.stages[step.stage].name;
            let component = row.read.get(name).unwrap_or_else(|| panic!("{}: no {name}", row.id));
            match (component, &step.seen) {
                (Component::Value(text), Seen::LastPassed(_) | Seen::Nearest(_) | Seen::Fixed) => {
                    assert_eq!(step.value, at(instrument, text), "{}: {name}", row.id);
                }
                (Component::Line(line), Seen::InLine { taken, .. }) => {
                    assert_eq!(taken, line, "{}: {name}", row.id);
                }
                (_, seen) => panic!("{}: {name} shows {seen:?}", row.id),
            }
        }
    }
}

#[test]
fn the_published_value_is_right() {
    let catalogue = catalogue();
    for row in rows() {
        let (instrument, variant) = row.tool(&catalogue);
        let instrument = &instrument;
        let setting = row.setting(instrument);
        let question = Question::new(instrument, 1, setting, Quanta::ZERO, variant);
        let typed = parse_answer(row.typed(), instrument.unit).expect("a reading");
        let mark = drill::mark(&question.case(instrument), &typed);
        // 2-20/32 is right, though not in lowest terms.
        let wanted = if row.published == "2-20/32" { Verdict::RightValue } else { Verdict::Right };
        assert_eq!(mark.verdict, wanted, "{}: {}", row.id, row.published);
    }
}

#[test]
fn the_angle_of_the_part_follows_from_the_set_up() {
    let catalogue = catalogue();
    let mut angles = 0;
    for row in rows() {
        let (Some(set_up), Some(angle)) = (&row.set_up, &row.angle) else { continue };
        let (instrument, variant) = row.tool(&catalogue);
        let setting = row.setting(&instrument);
        let word = SetUp::WORDS.into_iter().find(|(word, _)| word == set_up).expect("a set-up").1;
        let question = Question::new(&instrument, 1, setting, Quanta::ZERO, variant).asking(Asks::part(word));
        let typed = |text: &str| parse_answer(text, instrument.unit).expect("an angle");
        let mark = |text: &str| drill::mark(&question.case(&instrument), &typed(text));
        assert_eq!(mark(angle).verdict, Verdict::Right, "{}", row.id);
        let found: Vec<&str> = mark(&row.published).misreads.iter().map(|found| found.misread.id).collect();
        assert!(found.contains(&format!("{set_up}-not-taken").as_str()), "{}: {found:?}", row.id);
        angles += 1;
    }
    assert!(angles > 1, "{angles} angles");
}

/// On the wrong half W77 reads 12 degrees 10 minutes.
#[test]
fn the_wrong_half_of_a_published_reading_has_a_name() {
    let catalogue = catalogue();
    let row = rows().into_iter().find(|row| row.id == "W77").expect("it is there");
    let (instrument, variant) = row.tool(&catalogue);
    let question = Question::new(&instrument, 1, row.setting(&instrument), Quanta::ZERO, variant);
    let typed = parse_answer("12 10", instrument.unit).expect("an angle");
    let mark = drill::mark(&question.case(&instrument), &typed);
    assert_eq!(mark.misreads.first().map(|found| found.misread.id), Some("wrong-half"));
}

#[test]
fn the_published_value_is_read_from_the_picture() {
    let catalogue = catalogue();
    let mut pictures = 0;
    for row in rows() {
        let known = known(&row.instrument);
        let (instrument, variant) = row.tool(&catalogue);
        let instrument = &instrument;
        let setting = row.setting(instrument);
        let line = row.read.values().find_map(|component| match component {
            // On a double vernier lines to the left of its 0 are counted below it.
            Component::Line(line) if variant.value("direction") == Some("left") => Some(-line),
            Component::Line(line) => Some(*line),
            Component::Value(_) => None,
        });
        let looks = looks(known, instrument).into_iter().map(|look| {
            let halves = look.variant.halves();
            let variant = halves.map_or(variant.clone(), |side| variant.clone().with("halves", side.word()));
            Look { variant, ..look }
        });
        for look in looks {
            for size in [(80, 24), (160, 45)] {
                for style in LineStyle::ALL {
                    // The glass is put where the published line is.
                    for glass in [Glass::IfNeeded, Glass::At(line.unwrap_or(0))] {
                        let how = How::new(size, style).with(glass);
                        let Ok(drawing) = look.draw(setting.0, how) else {
                            assert!(crate::extent::may_be_refused(&look, how), "{} {how:?}", row.id);
                            continue;
                        };
                        let read = robot::read(&text::lines(&drawing.grid), known)
                            .unwrap_or_else(|fault| panic!("{} {how:?}: {fault}", row.id));
                        assert_eq!(read.value, setting.0, "{} {how:?}", row.id);
                        if let (Some(met), Some(line)) = (&read.whole, line) {
                            assert!(met.in_line.contains(&line), "{} {how:?}: {met:?}", row.id);
                        }
                        if let (Some(met), Some(line), Glass::At(_)) = (&read.glass, line, glass) {
                            assert!(met.in_line.contains(&line), "{} {how:?}: {met:?}", row.id);
                        }
                        pictures += 1;
                    }
                }
            }
        }
    }
    println!("{pictures} pictures of published readings");
}

#[test]
fn published_wrong_answers_are_never_right() {
    let catalogue = catalogue();
    for row in wrongs() {
        let instrument = shipped(&catalogue, known(&row.instrument));
        let zero = row.zero_error.as_deref().map_or(Quanta::ZERO, |text| at(instrument, text));
        let setting = at(instrument, &row.stands_at);
        let question = Question::new(instrument, 1, setting, zero, instrument.variants()[0].clone());
        let case = question.case(instrument);
        let value = |text: &str| parse_answer(text, instrument.unit).expect("an answer");
        let right = value(&row.should_be);
        assert_eq!(question.expected(instrument), right.value, "{}", row.id);
        assert_ne!(question.expected(instrument), value(&row.printed).value, "{}", row.id);
        assert_eq!(drill::mark(&case, &right).verdict, Verdict::Right, "{}", row.id);
        let mark = drill::mark(&case, &value(&row.printed));
        assert!(!mark.verdict.is_right(), "{}: {}", row.id, row.printed);
        if let Some(misread) = &row.misread {
            assert!(misread::named(misread).is_some(), "{}: {misread}", row.id);
            let found: Vec<&str> = mark.misreads.iter().map(|found| found.misread.id).collect();
            assert!(found.contains(&misread.as_str()), "{}: {found:?}", row.id);
        }
    }
}

/// The screw of a metric micrometer moves half a millimetre a turn, whatever is printed.
#[test]
fn a_metric_screw_has_a_pitch_of_half_a_millimetre() {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known("micrometer-metric"));
    let turns = instrument.stages.iter().filter_map(|stage| match &stage.form {
        linefall::instrument::Form::Drum(drum) => Some(instrument.value(drum.turn())),
        _ => None,
    });
    assert_eq!(turns.collect::<Vec<_>>(), [Exact::ratio(1, 2)]);
}

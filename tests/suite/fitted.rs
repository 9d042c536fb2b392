//! Rods, collars and frames: every one is stamped on the picture and read from it. And edges that show a line early or late.

use crate::readback::read_back;
use crate::robot::kinds::{KNOWN, Kind, Known, known};
use crate::shots::{How, Look, catalogue, looks, shipped};
use linefall::drill::{Seed, question_1};
use linefall::exact::Quanta;
use linefall::instrument::{Instrument, Variant};
use linefall::reading::{self, Asks, Case, Change, misread};
use linefall::render::LineStyle;
use std::collections::BTreeSet;

/// The instruments of the first release: their questions must stay what they were.
const FIRST: [&str; 4] =
    ["micrometer-inch", "micrometer-inch-tenths", "micrometer-metric", "micrometer-metric-microns"];

fn micrometers() -> impl Iterator<Item = &'static Known> {
    KNOWN.iter().filter(|known| matches!(known.kind, Kind::Micrometer(_)))
}

/// Settings at the ends, near them, and in between.
fn some(tool: &Instrument) -> Vec<i64> {
    let (low, high) = (tool.low.0, tool.high.0);
    let step = usize::try_from((high - low) / 11).expect("a range").max(1);
    (low..=high).step_by(step).chain([low - 3, low + 1, high - 1, high]).collect()
}

/// The looks of an instrument with every length that can be fitted to it.
fn fitted_looks(known: &'static Known, mut each: impl FnMut(Look<'_>)) {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known);
    for variant in instrument.fittings() {
        let tool = instrument.fitted(&variant);
        for look in looks(known, &tool).into_iter().filter(|look| look.variant.halves() == variant.halves()) {
            each(Look { variant: variant.clone(), ..look });
        }
    }
}

#[test]
fn every_length_is_read_from_the_picture() {
    let mut pictures = 0;
    for known in micrometers() {
        let mut words = BTreeSet::new();
        fitted_looks(known, |look| {
            words.insert(look.variant.word());
            for (size, style) in
                [((80, 24), LineStyle::Thin), ((100, 30), LineStyle::Bars), ((132, 43), LineStyle::Cell)]
            {
                for setting in some(look.instrument) {
                    let read = read_back(&look, How::new(size, style), setting);
                    assert!(read.is_ok(), "{} {} at {setting}: {read:?}", look.name(), look.variant.word());
                    pictures += 1;
                }
            }
        });
        println!("{}: {} ways to fit it", known.id, words.len());
        assert_eq!(words.len() > 2, known.id != "inside-jaw-micrometer-metric", "{}: {words:?}", known.id);
    }
    println!("{pictures} pictures of fitted tools");
}

#[test]
fn a_variant_is_parsed_back_from_its_word() {
    let catalogue = catalogue();
    // A variant is one of the tool as it is listed, its first set of scales in front.
    for known in KNOWN.iter().filter(|known| known.set().1.is_empty()) {
        let instrument = shipped(&catalogue, known);
        for variant in instrument.fittings() {
            assert_eq!(
                instrument.variant(&variant.word()),
                Some(variant.clone()),
                "{} {}",
                known.id,
                variant.word()
            );
            let tool = instrument.fitted(&variant);
            assert_eq!(tool.fitted(&Variant::default()), *instrument, "{}", known.id);
            if variant.value("reads").is_none() {
                assert_eq!(tool.high - tool.low, instrument.high - instrument.low);
            }
        }
        for word in ["rod", "rod=", "rod=9 in", "rod=1 in rod=2 in", "halves=left", "collar=1 mm", "frame=in"]
        {
            assert_eq!(instrument.variant(word), None, "{} {word}", known.id);
        }
    }
    let inside = shipped(&catalogue, known("inside-micrometer-inch"));
    let spelled = inside.variant("collar=0.500 rod=2.000 in").expect("spelled otherwise");
    assert_eq!(spelled.word(), "rod=2 in collar=0.5 in");
    assert_eq!(*inside.fitted(&spelled).engraved, ["rod 2-3 in", "collar 0.500 in", "0.001 in"]);
}

#[test]
fn a_fitted_tool_is_read_and_misread() {
    let mut given = vec![0_u64; misread::ALL.len()];
    let mut cases = 0_u64;
    for known in micrometers() {
        fitted_looks(known, |look| {
            let tool = look.instrument;
            for setting in some(tool).into_iter().chain((tool.low.0..tool.high.0).step_by(997)) {
                let pose = reading::pose(tool, Quanta(setting), Quanta::ZERO);
                let reading = reading::read(tool, &pose);
                assert_eq!(reading.total, Quanta(setting));
                let sum: Quanta = reading::shares(tool, &reading).iter().map(|share| share.value).sum();
                assert_eq!(sum, Quanta(setting));
                let case = Case {
                    instrument: tool,
                    pose: &pose,
                    reading: &reading,
                    zero_error: Quanta::ZERO,
                    asks: Asks::Reading,
                    change: Change::default(),
                };
                for (n, misread) in misread::ALL.iter().enumerate() {
                    for wrong in misread.wrong(&case) {
                        assert_ne!(wrong.answer, tool.value(Quanta(setting)), "{} {}", known.id, misread.id);
                        assert!(misread.happens_on(tool), "{} {}", known.id, misread.id);
                        given[n] += 1;
                    }
                }
                cases += 1;
            }
        });
    }
    for id in ["rod-forgotten", "collar-forgotten", "frame-start-forgotten", "shown-for-covered"] {
        let n = misread::ALL.iter().position(|misread| misread.id == id).expect("a misread");
        assert!(given[n] > 50, "{id} happens {} times", given[n]);
    }
    println!("{cases} cases");
}

/// The wrong readings of a depth micrometer at W32, as an instructor names them.
#[test]
fn the_usual_slips_on_a_depth_micrometer() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("depth-micrometer-inch"));
    let pose = reading::pose(tool, Quanta(435), Quanta::ZERO);
    let reading = reading::read(tool, &pose);
    let case = Case {
        instrument: tool,
        pose: &pose,
        reading: &reading,
        zero_error: Quanta::ZERO,
        asks: Asks::Reading,
        change: Change::default(),
    };
    let wrong = |id: &str| -> Vec<String> {
        let misread = misread::named(id).expect("a misread");
        misread.wrong(&case).into_iter().map(|wrong| tool.notation.spell(wrong.answer)).collect()
    };
    assert_eq!(wrong("shown-for-covered"), ["0.565", "0.560"]);
    assert_eq!(wrong("covered-line-still-showing"), ["0.460"]);
    assert_eq!(wrong("thimble-backwards"), ["0.440"]);
}

#[test]
fn lengths_are_posed_but_not_the_frames_of_the_first_micrometers() {
    let catalogue = catalogue();
    for known in micrometers() {
        let instrument = shipped(&catalogue, known);
        let mut words = BTreeSet::new();
        for number in 1..=300 {
            let question = question_1(instrument, Seed(11), number);
            words.insert(question.variant.word());
            let tool = question.tool(instrument);
            assert_eq!(question.reading.total, question.setting);
            assert!((tool.low..=tool.high).contains(&question.setting), "{} {number}", known.id);
        }
        let mut posed = if FIRST.contains(&known.id) { instrument.variants() } else { instrument.fittings() };
        posed.retain(|variant| instrument.usual_of(variant) == *variant);
        let wanted: BTreeSet<String> = posed.iter().map(Variant::word).collect();
        assert_eq!(words, wanted, "{}", known.id);
    }
}

/// The first five questions of a seed as version 1 of the generator has always drawn them.
#[test]
fn questions_of_version_one_stay_as_they_were() {
    let catalogue = catalogue();
    let drawn: Vec<String> = FIRST
        .into_iter()
        .map(|id| {
            let instrument = shipped(&catalogue, known(id));
            let five = (1..=5).map(|number| {
                let question = question_1(instrument, Seed(7), number);
                format!("{} {} {}", question.setting.0, question.zero_error.0, question.variant.word())
            });
            five.collect::<Vec<_>>().join("; ")
        })
        .collect();
    assert_eq!(drawn, GOLDEN);
}

const GOLDEN: [&str; 4] = [
    "848 0 ; 441 0 ; 59 0 ; 254 0 ; 878 -4 ",
    "1240 -3 ; 2788 0 ; 9051 1 ; 1618 0 ; 9550 0 ",
    "2343 1 halves=below; 499 0 halves=below; 1028 0 halves=above; 1203 4 halves=below; 1148 1 halves=below",
    "11881 0 ; 12044 0 ; 22866 0 ; 18251 0 ; 12034 0 ",
];

/// An edge that shows its line early or late is settled by the thimble, in every view and style.
#[test]
fn an_early_or_late_edge_is_read_all_the_same() {
    let catalogue = catalogue();
    let mut pictures = 0;
    for known in micrometers() {
        let Kind::Micrometer(barrel) = &known.kind else { continue };
        let instrument = shipped(&catalogue, known);
        let (turn, division) = (barrel.thimble.end, barrel.thimble.division);
        let (late, early) = if turn / division == 25 { (2, 4) } else { (5, 10) };
        // Two turns about a line in the middle of the sleeve.
        let middle = (known.range.0 + 9 * turn).div_euclid(turn) * turn;
        for mut look in looks(known, instrument) {
            for lead in [-late, -1, 1, early] {
                look.lead = lead * division;
                for (size, style) in
                    [((80, 24), LineStyle::Thin), ((100, 30), LineStyle::Bars), ((80, 24), LineStyle::Cell)]
                {
                    for setting in
                        (middle - turn..=middle + turn).step_by(usize::try_from(division).expect("positive"))
                    {
                        let read = read_back(&look, How::new(size, style), setting + division / 3);
                        assert!(
                            read.is_ok(),
                            "{} {lead} {} at {setting}: {read:?}",
                            look.name(),
                            style.word()
                        );
                        pictures += 1;
                    }
                }
            }
        }
    }
    println!("{pictures} pictures with an early or late edge");
}

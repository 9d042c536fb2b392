//! Double verniers, verniers that run back, discs figured both ways: those shipped and those of a person's own file.

use crate::robot::{
    self,
    kinds::{Disc, Halves, Kind, Known, known},
};
use crate::shots::{How, SIZES, catalogue, shipped};
use linefall::diag::SourceText;
use linefall::drill::{Seed, question};
use linefall::exact::Quanta;
use linefall::instrument::{Form, Instrument, Runs, Variant, Vernier, check};
use linefall::reading::{self, Asks, Case, coincident_lines, coincident_lines_opposite, misread};
use linefall::render::{self, Glass, LineStyle, text};
use linefall::scene::{self, View};
use std::collections::BTreeSet;

fn own(text: &str) -> Instrument {
    check::read(&SourceText::new("own.toml", text)).expect("a good definition")
}

fn vernier(instrument: &Instrument) -> (&Vernier, Quanta) {
    match (&instrument.stages[0].form, &instrument.stages[1].form) {
        (Form::Line(line), Form::Vernier(vernier)) => (vernier, line.division),
        forms => panic!("{forms:?}"),
    }
}

/// Each half of a double vernier has one line in line, at a whole division two; the halves add up to a division.
fn halves_make_up_a_division(instrument: &Instrument) {
    let (vernier, division) = vernier(instrument);
    for setting in instrument.settings() {
        let right = coincident_lines(vernier, setting, division);
        let left = coincident_lines_opposite(vernier, setting, division);
        let passed = setting.0 % division.0;
        if passed == 0 {
            assert_eq!((right, left), (vec![0, vernier.parts], vec![0, vernier.parts]), "{setting:?}");
        } else {
            assert_eq!((right, left), (vec![passed], vec![vernier.parts - passed]), "{setting:?}");
        }
    }
}

#[test]
fn the_halves_of_a_protractor_add_up_to_a_degree() {
    halves_make_up_a_division(shipped(&catalogue(), known("bevel-protractor")));
}

const HALF_DEGREES: &str = r#"
format = 1
id = "circle"
title = "Circle, half degrees"
family = "circle"
unit = "deg"
range = ["0 deg", "90 deg"]
least-count = "1'"
zero = "none"
engraved = ["1'"]
source = "invented"

[[stage]]
form = "line"
name = "circle"
division = "30'"
SCALE
tiers = ["10 deg", "5 deg", "1 deg"]
numerals = [{ every = "10 deg", worth = "1 deg" }]

[[stage]]
form = "vernier"
name = "vernier"
parts = 30
over = 29
DOUBLE
tiers = ["5'"]
numerals = [{ every = "10'", worth = "1'" }]
"#;

fn half_degrees(scale: &str, double: &str) -> Instrument {
    own(&HALF_DEGREES.replace("SCALE", scale).replace("DOUBLE", double))
}

const RETROGRADE: &str = r#"
format = 1
id = "outside"
title = "Outside caliper, vernier left of its zero"
family = "caliper"
unit = "mm"
range = ["0 mm", "150 mm"]
least-count = "0.05 mm"
engraved = ["0.05 mm"]
source = "20 parts over 21, left of zero: a Spanish text on scales of n+1 divisions"

[[stage]]
form = "line"
name = "main scale"
division = "1 mm"
tiers = ["10 mm", "5 mm"]
numerals = [{ every = "10 mm", worth = "1 mm" }]

[[stage]]
form = "vernier"
name = "vernier"
parts = 20
over = 21
tiers = ["0.1 mm"]
numerals = [{ every = "0.1 mm", worth = "0.1 mm" }]
"#;

fn tens(at: i64, lines_to_ten: i64) -> Option<i64> {
    (at % (10 * lines_to_ten) == 0).then_some(at.abs() / lines_to_ten)
}

/// Reads the pictures of an instrument's settings, some of them, in all sizes and styles, with the glass here and there.
fn read_back(instrument: &Instrument, disc: Disc) -> u32 {
    let (first, last) = disc.vernier.as_ref().map_or((0, 0), |v| (v.lines.start, v.lines.end - 1));
    let known = Known {
        id: "own",
        quantum: (1, 1),
        range: (instrument.low.0, instrument.high.0),
        interval: 1,
        can_be_off: false,
        kind: Kind::Disc(disc),
    };
    let mut pictures = 0;
    for variant in instrument.variants() {
        let tool = instrument.fitted(&variant);
        for setting in tool.settings().step_by(29).chain([tool.high]) {
            let pose = reading::pose(&tool, setting, Quanta::ZERO);
            assert_eq!(reading::read(&tool, &pose).total, setting);
            let scene = scene::build(&tool, &pose, &variant, View::Flat);
            assert_eq!(scene::audit(&scene), []);
            for (size, style) in SIZES.into_iter().flat_map(|size| LineStyle::ALL.map(|style| (size, style)))
            {
                for glass in [Glass::IfNeeded, Glass::At(0), Glass::At(first / 2), Glass::At(last)] {
                    let how = How::new(size, style).with(glass);
                    let Ok(drawing) = render::draw(&scene, &how.request()) else { continue };
                    let seen = robot::read(&text::lines(&drawing.grid), &known).map(|seen| seen.value);
                    assert_eq!(seen, Ok(setting.0), "{variant:?} {how:?}");
                    pictures += 1;
                }
            }
        }
    }
    pictures
}

#[test]
fn a_double_vernier_on_half_degrees_is_written_in_the_file_alone() {
    let both = half_degrees("figured = \"both-ways\"", "figured = \"both-ways\"");
    halves_make_up_a_division(&both);
    let disc = Disc {
        division: 30,
        lines: -260..261,
        figure: |at| tens(at, 2),
        tiers: &[20, 10, 2],
        places: -5400..5401,
        vernier: Some(Halves {
            part: 29,
            lines: -30..31,
            figure: |at| (at % 10 == 0).then_some(at.abs()),
            tiers: &[5],
            half: 1,
        }),
    };
    let pictures = read_back(&both, disc);
    assert!(pictures > 5000, "{pictures}");
}

#[test]
fn a_single_vernier_on_half_degrees_is_written_in_the_file_alone() {
    let single = half_degrees("", "");
    let disc = Disc {
        division: 30,
        lines: 0..241,
        figure: |at| tens(at, 2),
        tiers: &[20, 10, 2],
        places: 0..5401,
        vernier: Some(Halves {
            part: 29,
            lines: 0..31,
            figure: |at| (at % 10 == 0).then_some(at),
            tiers: &[5],
            half: 1,
        }),
    };
    assert_eq!(single.spell(Quanta(2111)), "35\u{b0}11'");
    let known = Known {
        id: "own",
        quantum: (1, 1),
        range: (0, 5400),
        interval: 1,
        can_be_off: false,
        kind: Kind::Disc(disc),
    };
    let mut pictures = 0;
    for setting in single.settings().step_by(29) {
        let pose = reading::pose(&single, setting, Quanta::ZERO);
        assert_eq!(reading::read(&single, &pose).total, setting);
        let scene = scene::build(&single, &pose, &Variant::default(), View::Flat);
        let drawing =
            render::draw(&scene, &How::new((160, 45), LineStyle::Thin).request()).expect("a picture");
        // With figures told at the left end alone the plain robot is the one to ask; here two figures are in view.
        let seen = robot::read(&text::lines(&drawing.grid), &known).map(|seen| seen.value);
        assert_eq!(seen, Ok(setting.0));
        pictures += 1;
    }
    assert!(pictures > 150, "{pictures}");
}

#[test]
fn a_vernier_that_runs_back_is_read_back() {
    let caliper = own(RETROGRADE);
    let (vernier, division) = vernier(&caliper);
    assert_eq!((vernier.runs, vernier.part, vernier.least_count), (Runs::Backward, Quanta(21), Quanta(1)));
    for setting in caliper.settings() {
        let passed = setting.0 % division.0;
        let wanted = if passed == 0 { vec![0, 20] } else { vec![passed] };
        assert_eq!(coincident_lines(vernier, setting, division), wanted, "{setting:?}");
    }
    let disc = Disc {
        division: 20,
        lines: -22..151,
        figure: |at| if at < 0 { None } else { tens(at, 1) },
        tiers: &[10, 5],
        places: -5..3001,
        vernier: Some(Halves {
            part: 21,
            lines: -20..1,
            figure: |at| (at % 2 == 0).then_some(-at / 2),
            tiers: &[2],
            half: -1,
        }),
    };
    let Form::Line(line) = &caliper.stages[0].form else { panic!("a main scale") };
    assert_eq!((line.begin, line.end), (Quanta(-22 * 20), Quanta(3000)));
    let known = Known {
        id: "own",
        quantum: (1, 20),
        range: (0, 3000),
        interval: 1,
        can_be_off: true,
        kind: Kind::Disc(disc),
    };
    let mut pictures = 0;
    for setting in caliper.settings().step_by(7).chain([Quanta(3000)]) {
        let pose = reading::pose(&caliper, setting, Quanta::ZERO);
        assert_eq!(reading::read(&caliper, &pose).total, setting);
        let scene = scene::build(&caliper, &pose, &Variant::default(), View::Flat);
        assert_eq!(scene::audit(&scene), []);
        for (size, style) in SIZES.into_iter().flat_map(|size| LineStyle::ALL.map(|style| (size, style))) {
            let how = How::new(size, style);
            let drawing = render::draw(&scene, &how.request()).expect("a picture");
            if drawing.glass.is_some() {
                continue;
            }
            let seen = robot::read(&text::lines(&drawing.grid), &known).map(|seen| seen.value);
            assert_eq!(seen, Ok(setting.0), "{how:?}");
            pictures += 1;
        }
    }
    assert!(pictures > 1500, "{pictures}");
}

/// Read from the wrong end, line 3 of 20 is taken for line 17.
#[test]
fn a_vernier_that_runs_back_is_misread_from_its_far_end() {
    let caliper = own(RETROGRADE);
    let pose = reading::pose(&caliper, Quanta(12 * 20 + 3), Quanta::ZERO);
    let reading = reading::read(&caliper, &pose);
    let case = Case {
        instrument: &caliper,
        pose: &pose,
        reading: &reading,
        zero_error: Quanta::ZERO,
        asks: Asks::Reading,
        change: reading::Change::default(),
    };
    let misread = misread::named("vernier-backwards").expect("a misread");
    let wrong: Vec<String> =
        misread.wrong(&case).into_iter().map(|wrong| caliper.notation.spell(wrong.answer)).collect();
    assert_eq!(wrong, ["12.85"]);
}

/// Both ways, and all set-ups, come up in practice.
#[test]
fn directions_and_set_ups_are_posed() {
    let catalogue = catalogue();
    for id in ["bevel-protractor", "protractor-head"] {
        let instrument = shipped(&catalogue, known(id));
        let mut seen = BTreeSet::new();
        let mut parts = 0;
        for number in 1..=300 {
            let question = question(instrument, Seed(11), number);
            seen.insert((question.variant.word(), question.asks.word()));
            parts += u32::from(question.asks.set_up().is_some());
        }
        assert_eq!(seen.len(), 2 * 4, "{id}: {seen:?}");
        assert!((90..150).contains(&parts), "{id}: {parts} of 300 ask for the part's angle");
    }
}

/// What a file cannot say of such scales, with the fix.
#[test]
fn what_makes_no_sense_is_refused() {
    let bevel = include_str!("../../assets/instruments/bevel-protractor.toml");
    let head = include_str!("../../assets/instruments/protractor-head.toml");
    let height = include_str!("../../assets/instruments/height-gauge-metric.toml");
    let tenths = include_str!("../../assets/instruments/micrometer-inch-tenths.toml");
    let cases: [(String, &str, &str); 9] = [
        (bevel.replace("over = 23\nfigured = \"both-ways\"", "over = 23"), "figured", "vernier is not"),
        (bevel.replace("over = 23", "over = 25"), "figured", "not direct"),
        (bevel.replace("zero = \"none\"\n", ""), "figured", "no zero error"),
        (
            bevel.replace("[\"0 deg\", \"90 deg\"]", "[\"0 deg\", \"120 deg\"]"),
            "back-from",
            "count back down",
        ),
        (
            head.replace("figured = \"both-ways\"\n", "figured = \"both-ways\"\nruns = \"right-to-left\"\n"),
            "figured",
            "one way",
        ),
        (height.replace("over = 49", "over = 51"), "figured", "upright"),
        (tenths.replace("over = 9", "over = 11"), "figured", "thimble"),
        (
            bevel.replace("[\"as-read\", \"complement\"", "[\"complement\", \"complement\""),
            "set-ups",
            "twice",
        ),
        (height.replace("engraved =", "set-ups = [\"supplement\"]\nengraved ="), "set-ups", "angles"),
    ];
    for (text, code, word) in cases {
        let faults = check::read(&SourceText::new("own.toml", text)).expect_err(word);
        let fault = faults.iter().find(|fault| fault.code == code && fault.message.contains(word));
        let fault = fault.unwrap_or_else(|| panic!("{word}: {faults:#?}"));
        assert!(fault.fix.is_some(), "{word}");
    }
}

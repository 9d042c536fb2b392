//! Faces that no shipped dial has, but a person's own file may.

use crate::robot::{
    self,
    kinds::{Divided, Figures, Gauge, Kind, Known, Turns},
};
use crate::shots::{How, SIZES};
use linefall::diag::SourceText;
use linefall::exact::Quanta;
use linefall::instrument::{Instrument, Variant, check};
use linefall::reading::{pose, read};
use linefall::render::{self, LineStyle, text};
use linefall::scene::{self, View};

const INDICATOR: &str = include_str!("../../assets/instruments/dial-indicator-metric-continuous.toml");
const BALANCED: &str = include_str!("../../assets/instruments/dial-indicator-inch-balanced.toml");

fn reversed(text: &str) -> Instrument {
    let text = text.replace("face =", "sense = \"counter-clockwise\"\nface =");
    check::read(&SourceText::new("own.toml", text)).expect("a good definition")
}

fn scale(division: i64, parts: i64, tiers: &'static [i64], figures: Figures) -> Divided {
    Divided { division, end: division * parts, tiers, figures }
}

fn read_all(instrument: &Instrument, gauge: Gauge) -> u32 {
    let known = Known {
        id: "own",
        quantum: (1, 1),
        range: (instrument.low.0, instrument.high.0),
        interval: gauge.every,
        can_be_off: false,
        kind: Kind::Dial(gauge),
    };
    let mut pictures = 0;
    for setting in instrument.settings() {
        let pose = pose(instrument, setting, Quanta::ZERO);
        assert_eq!(read(instrument, &pose).total, setting);
        for view in [View::Held, View::Flat] {
            let scene = scene::build(instrument, &pose, &Variant::default(), view);
            for (size, style) in SIZES.into_iter().flat_map(|size| LineStyle::ALL.map(|style| (size, style)))
            {
                let drawing = render::draw(&scene, &How::new(size, style).request()).expect("a picture");
                let seen =
                    robot::read(&text::lines(&drawing.grid), &known).map(|seen| (seen.value, seen.held));
                assert_eq!(seen, Ok((setting.0, view == View::Held)), "{size:?} {style:?}");
                pictures += 1;
            }
        }
    }
    pictures
}

/// Depth and bore gauges have faces that run against the clock.
#[test]
fn a_reversed_face_is_read_the_other_way() {
    let plain = |worth| Figures { worth, wrap: None, large: None };
    let wrapped = Figures { worth: 100, wrap: Some(1000), large: None };
    let counter = Some(Turns::Counter(scale(100, 10, &[], wrapped)));
    let dial = || scale(1, 100, &[10, 5], plain(1));
    let gauge = Gauge { turns: counter, dial: dial(), every: 10, balanced: false, sense: -1, counter: -1 };
    let all_round = read_all(&reversed(INDICATOR), gauge);
    let gauge = Gauge { turns: None, dial: dial(), every: 10, balanced: true, sense: -1, counter: -1 };
    let balanced = read_all(&reversed(BALANCED), gauge);
    assert!(all_round > 20_000 && balanced > 2_000, "{all_round} and {balanced} pictures");
}

/// A hand between two lines is taken at the nearest, also where that begins the next turn.
#[test]
fn a_hand_between_lines_is_read_at_the_nearest() {
    let finer = INDICATOR.replace("zero =", "settings = \"0.002 mm\"\nzero =").replace("9.99 mm", "9.9 mm");
    let instrument = check::read(&SourceText::new("own.toml", finer)).expect("a good definition");
    let at = |setting: i64| read(&instrument, &pose(&instrument, Quanta(setting), Quanta::ZERO)).total.0;
    // Five quanta a line.
    assert_eq!([1500, 1502, 1503, 1997, 1998, 2002].map(at), [1500, 1500, 1505, 1995, 2000, 2000]);
}

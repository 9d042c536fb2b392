//! The examples on the page about the file format, each checked, posed, drawn and read.

use crate::robot::kinds::{Barrel, Divided, Figures, Gauge, Kind, Known, Sliding, Turns};
use crate::robot::read;
use crate::shots::{How, Look, SIZES};
use linefall::diag::SourceText;
use linefall::exact::Quanta;
use linefall::instrument::check;
use linefall::reading;
use linefall::render::{LineStyle, svg, text};
use linefall::scene::View;
use linefall::wording::format::EXAMPLES;

const fn figures(worth: i64, wrap: Option<i64>, large: Option<i64>) -> Figures {
    Figures { worth, wrap, large }
}

const fn known(id: &'static str, range: (i64, i64), kind: Kind) -> Known {
    Known { id, quantum: (1, 1), range, interval: 10, can_be_off: false, kind }
}

const fn millimetres(mm: i64, end: i64, worth: i64) -> Divided {
    Divided {
        division: mm,
        end: end * mm,
        tiers: if mm == 20 { &[200, 100] } else { &[100, 50] },
        figures: figures(worth, None, None),
    }
}

const fn lines(end: i64, tiers: &'static [i64], figures: Figures) -> Divided {
    Divided { division: 1, end, tiers, figures }
}

/// What the page says of each example, in quanta; how many quanta a constant length adds that no scale shows; and how many
/// lie between settings at which a line is in line.
static TOLD: [(&str, Known, i64, usize); 7] = [
    (
        "line",
        known(
            "rule-metric",
            (0, 200),
            Kind::Rule(Divided { division: 2, end: 200, tiers: &[20, 10], figures: figures(2, None, None) }),
        ),
        0,
        2,
    ),
    (
        "sleeve and thimble",
        known(
            "micrometer-metric",
            (0, 2500),
            Kind::Micrometer(Barrel {
                scale: Divided { division: 50, end: 2500, tiers: &[500], figures: figures(100, None, None) },
                whole: Some(100),
                split: true,
                thimble: Divided { division: 1, end: 50, tiers: &[5], figures: figures(1, Some(50), None) },
                vernier: None,
                covers: false,
                stamped: None,
            }),
        ),
        0,
        1,
    ),
    (
        "vernier, direct",
        known(
            "caliper-metric-20",
            (0, 3000),
            Kind::Pair(
                millimetres(20, 169, 20),
                Sliding { part: 19, lines: lines(20, &[2], figures(2, None, None)) },
            ),
        ),
        0,
        1,
    ),
    (
        "vernier, long",
        known(
            "caliper-metric-10",
            (0, 2000),
            Kind::Pair(
                millimetres(10, 219, 100),
                Sliding { part: 19, lines: lines(10, &[5], figures(1, Some(10), None)) },
            ),
        ),
        0,
        1,
    ),
    (
        "dial with a bar",
        known(
            "dial-caliper-inch",
            (0, 6000),
            Kind::Dial(Gauge {
                turns: Some(Turns::Bar(Divided {
                    division: 100,
                    end: 6000,
                    tiers: &[1000],
                    figures: figures(100, Some(1000), Some(1000)),
                })),
                dial: lines(100, &[10, 5], figures(1, None, None)),
                every: 10,
                balanced: false,
                sense: 1,
            }),
        ),
        0,
        1,
    ),
    (
        "dial alone",
        known(
            "lever-indicator-metric",
            (-39, 39),
            Kind::Dial(Gauge {
                turns: None,
                dial: lines(80, &[10, 5], figures(1, None, None)),
                every: 10,
                balanced: true,
                sense: 1,
            }),
        ),
        0,
        1,
    ),
    (
        "fixed, chosen and constant",
        known(
            "micrometer-inch",
            (1500, 2000),
            Kind::Micrometer(Barrel {
                scale: Divided {
                    division: 25,
                    end: 500,
                    tiers: &[100],
                    figures: figures(100, Some(1000), None),
                },
                whole: None,
                split: false,
                thimble: Divided { division: 1, end: 25, tiers: &[5], figures: figures(1, Some(25), None) },
                vernier: None,
                covers: false,
                stamped: Some(1000),
            }),
        ),
        500,
        1,
    ),
];

fn example(shows: &str) -> &'static str {
    EXAMPLES.iter().find(|example| example.shows == shows).expect("an example").text
}

#[test]
fn every_example_is_read_from_its_pictures() {
    let mut pictures = 0;
    for (shows, known, added, step) in &TOLD {
        let tool = check::read(&SourceText::new(*shows, example(shows))).expect("a good definition");
        assert_eq!((tool.low.0, tool.high.0), known.range, "{shows}");
        for variant in tool.variants() {
            for (view, size) in
                [View::Held, View::Flat].into_iter().flat_map(|view| SIZES.map(|size| (view, size)))
            {
                for setting in (tool.low.0..=tool.high.0).step_by(7 * step) {
                    let look = Look { known, instrument: &tool, view, variant: variant.clone(), lead: 0 };
                    let drawing = look.draw(setting, How::new(size, LineStyle::Thin)).expect("it is drawn");
                    let seen = read(&text::lines(&drawing.grid), known).map(|read| read.value + added);
                    assert_eq!(seen, Ok(setting), "{shows} at {setting} {size:?}");
                    pictures += 1;
                }
            }
        }
    }
    println!("{pictures} pictures of the examples");
}

/// Each of them, those that no robot knows yet as well: what is set is what is read, and there is a picture of it.
#[test]
fn every_example_is_posed_and_drawn() {
    for example in EXAMPLES {
        let tool = check::read(&SourceText::new(example.shows, example.text)).expect("a good definition");
        for at in tool.settings() {
            let pose = reading::pose(&tool, at, Quanta::ZERO);
            let total = reading::read(&tool, &pose).total;
            let apart = (total.0 - at.0).abs();
            assert!(
                2 * apart <= tool.least_count.0 && (apart == 0 || tool.step < tool.least_count),
                "{at:?}"
            );
            let variant = tool.variants().into_iter().next().expect("one");
            let scene = linefall::scene::build(&tool, &pose, &variant, View::Held);
            assert!(roxmltree::Document::parse(&svg::draw(&scene, &[])).is_ok(), "{}", example.shows);
        }
    }
}

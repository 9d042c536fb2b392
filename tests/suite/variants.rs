//! What makers do differently, and tools held the other way round: each is drawn, read back, described and misread, one key at
//! a time.

use crate::readback::{Tally, read_back};
use crate::robot::kinds::{KNOWN, Kind, Known, known};
use crate::shots::{How, Look, SIZES, catalogue, intervals, shipped, views};
use linefall::drill::{Seed, question};
use linefall::exact::Quanta;
use linefall::instrument::{Instrument, Variant, check};
use linefall::reading::{self, Asks, Case, Change, misread};
use linefall::render::{Glass, LineStyle};
use linefall::scene;
use std::collections::BTreeMap;
use std::time::Instant;

/// The less common variants of an instrument, each with its tool and every view.
fn unusual(known: &'static Known, mut each: impl FnMut(Look<'_>)) {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known);
    for variant in instrument.usual().iter().flat_map(|usual| instrument.unusual(usual)) {
        let tool = instrument.fitted(&variant);
        for view in views(known) {
            each(Look { known, instrument: &tool, view: *view, variant: variant.clone(), lead: 0 });
        }
    }
}

/// Every setting of one numbered interval, and some all along the scale.
fn settings(known: &Known) -> Vec<i64> {
    let (low, high) = known.range;
    let step = usize::try_from((high - low) / 23).expect("a range").max(1);
    let mut all: Vec<i64> = (low..=(low + known.interval).min(high)).collect();
    all.extend((low..=high).step_by(step));
    all.extend([high - 1, high]);
    if known.can_be_off {
        all.extend(low - 5..low);
    }
    all
}

#[test]
fn each_is_read_from_the_picture() {
    let since = Instant::now();
    let mut tally = Tally::default();
    let mut refused: BTreeMap<String, u64> = BTreeMap::new();
    for known in &KNOWN {
        unusual(known, |look| {
            for (size, style) in SIZES.into_iter().flat_map(|size| LineStyle::ALL.map(|style| (size, style)))
            {
                let every = match style {
                    LineStyle::Thin | LineStyle::Bars => 1,
                    LineStyle::Cell => 3,
                    LineStyle::Ascii => 7,
                };
                let how = How::new(size, style);
                for (n, setting) in settings(known).into_iter().step_by(every).enumerate() {
                    if n == 0 && look.draw(setting, how).is_err() {
                        *refused.entry(format!("{} {}", look.known.id, look.variant.word())).or_default() +=
                            1;
                        break;
                    }
                    tally.look(&look, how, setting);
                }
            }
        });
    }
    println!("refused: {refused:#?}");
    tally.finish("less common variants", since);
    // Held otherwise a tool needs no more room; a long vernier needs more than 80 columns in whole cells.
    for (word, count) in refused {
        let usual = word.split(' ').next().expect("an id");
        let most = if word.contains("vernier=long") { 6 } else { refusals_of(usual) };
        assert!(count <= most, "{word}: {count} sizes refused, {most} may be");
    }
}

/// How many sizes and styles are refused on the usual tool, each view by itself.
fn refusals_of(id: &str) -> u64 {
    let catalogue = catalogue();
    let known = known(id);
    let instrument = shipped(&catalogue, known);
    let variant = instrument.plain();
    let looks = views(known).iter().map(|view| Look {
        known,
        instrument,
        view: *view,
        variant: variant.clone(),
        lead: 0,
    });
    let hows = || SIZES.into_iter().flat_map(|size| LineStyle::ALL.map(|style| How::new(size, style)));
    let count = looks.flat_map(|look| hows().map(move |how| look.draw(known.range.0, how).is_err()));
    u64::try_from(count.filter(|refused| *refused).count()).expect("few") * 2
}

#[test]
fn each_is_read_through_the_glass() {
    let since = Instant::now();
    let mut tally = Tally::default();
    for known in &KNOWN {
        let last = match &known.kind {
            Kind::Pair(_, vernier) => vernier.lines.end,
            Kind::Micrometer(barrel) => match &barrel.vernier {
                Some(vernier) => vernier.lines.end,
                None => continue,
            },
            Kind::Rule(_) | Kind::Dial(_) | Kind::Disc(_) => continue,
        };
        unusual(known, |look| {
            if look.view == scene::View::Held && matches!(known.kind, Kind::Micrometer(_)) {
                return;
            }
            for (size, style) in
                [((80, 24), LineStyle::Thin), ((100, 30), LineStyle::Bars), ((160, 45), LineStyle::Cell)]
            {
                for line in 0..=last {
                    let how = How::new(size, style).with(Glass::At(line));
                    for setting in intervals(known).into_iter().step_by(97) {
                        if look.draw(setting, how).is_ok() {
                            tally.look(&look, how, setting);
                        }
                    }
                }
            }
        });
    }
    tally.finish("the glass over less common variants", since);
}

#[test]
fn each_display_list_is_sound_and_reads_as_itself() {
    let mut wrongs = 0_u64;
    for known in &KNOWN {
        unusual(known, |look| {
            for setting in settings(known) {
                assert_eq!(scene::audit(&look.scene(setting)), [], "{} at {setting}", look.variant.word());
                let pose = reading::pose(look.instrument, Quanta(setting), Quanta::ZERO);
                let reading = reading::read(look.instrument, &pose);
                assert_eq!(reading.total, Quanta(setting), "{} {}", known.id, look.variant.word());
                let shares = reading::shares(look.instrument, &reading);
                assert_eq!(shares.iter().map(|share| share.value).sum::<Quanta>(), reading.total);
                let (zero_error, asks) = (Quanta::ZERO, Asks::Reading);
                let case = Case {
                    instrument: look.instrument,
                    pose: &pose,
                    reading: &reading,
                    zero_error,
                    asks,
                    change: Change::default(),
                };
                for misread in misread::ALL {
                    for wrong in misread.wrong(&case) {
                        assert_ne!(
                            wrong.answer,
                            case.expected(),
                            "{} at {setting}: {}",
                            known.id,
                            misread.id
                        );
                        wrongs += 1;
                    }
                }
            }
        });
    }
    println!("{wrongs} wrong answers on less common variants");
}

/// A figure counts centimetres or millimetres: 2 for 20 and 20 for 2 are off by the figure alone.
#[test]
fn a_figure_in_the_other_unit() {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known("caliper-metric-20"));
    let wrong = |word: &str| -> Vec<String> {
        let tool = instrument.fitted(&instrument.variant(word).expect("a variant"));
        // 27.35 mm: two centimetres, seven lines, 0.35 on the vernier.
        let pose = reading::pose(&tool, Quanta(547), Quanta::ZERO);
        let reading = reading::read(&tool, &pose);
        let (zero_error, asks) = (Quanta::ZERO, Asks::Reading);
        let case = Case {
            instrument: &tool,
            pose: &pose,
            reading: &reading,
            zero_error,
            asks,
            change: Change::default(),
        };
        let misread = misread::named("centimetre-slip").expect("a misread");
        misread.wrong(&case).into_iter().map(|wrong| tool.notation.spell(wrong.answer)).collect()
    };
    assert_eq!(wrong("figures=cm"), ["9.35"]);
    assert_eq!(wrong(""), ["207.35"]);
}

/// Practice is on the common form mostly, on every other one now and then, and never on two oddities at once.
#[test]
fn the_common_form_comes_up_most() {
    let catalogue = catalogue();
    let mut seen = 0;
    for instrument in catalogue.all() {
        let variants = instrument.variants();
        if variants.len() == instrument.usual().len() {
            continue;
        }
        let mut counts: BTreeMap<String, u32> = BTreeMap::new();
        for number in 1..=600 {
            let question = question(instrument, Seed(5), number);
            let tool = question.tool(instrument);
            assert!((tool.low..=tool.high).contains(&question.setting), "{} {number}", instrument.id);
            let lengths = instrument
                .choices
                .iter()
                .fold(question.variant, |variant, choice| variant.without(&choice.name));
            *counts.entry(lengths.word()).or_default() += 1;
        }
        let known: Vec<String> = variants.iter().map(Variant::word).collect();
        assert!(counts.keys().all(|word| known.contains(word)), "{}: {counts:?}", instrument.id);
        assert_eq!(counts.len(), known.len(), "{}: {counts:?}", instrument.id);
        let usual: u32 = instrument.usual().iter().filter_map(|usual| counts.get(&usual.word())).sum();
        assert!((450..570).contains(&usual), "{}: {counts:?}", instrument.id);
        seen += 1;
    }
    assert!(seen > 10, "{seen} instruments that makers make differently");
}

/// Somebody's own tool comes up as it is, but for rods that were not named.
#[test]
fn an_owned_tool_comes_up_as_it_is() {
    let catalogue = catalogue();
    let words = |id: &str, word: &str| -> Vec<String> {
        let owned: Instrument = shipped(&catalogue, known(id)).owned(word).expect("a variant");
        let mut words: Vec<String> = (1..=80).map(|n| question(&owned, Seed(2), n).variant.word()).collect();
        words.sort();
        words.dedup();
        words
    };
    assert_eq!(words("caliper-metric-20", "vernier=long figures=cm"), ["figures=cm vernier=long"]);
    assert_eq!(words("caliper-metric-20", ""), [""]);
    assert_eq!(words("micrometer-metric", "halves=above frame=50 mm"), ["halves=above frame=50 mm"]);
    assert_eq!(words("depth-micrometer-inch", "").len(), 6);
    assert_eq!(words("depth-micrometer-inch", "rod=0 in"), [""]);
}

/// A picture that a long vernier has no room in is drawn of the usual tool, standing at the same reading.
#[test]
fn where_there_is_no_room_the_usual_tool_is_taken() {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known("caliper-inch-25"));
    let found =
        (1..200).map(|n| question(instrument, Seed(1), n)).find(|q| q.variant.word() == "vernier=long");
    let long = found.expect("one of 200");
    let plain = long.clone().plainly(instrument);
    assert_eq!((plain.variant.word().as_str(), plain.setting, plain.asks), ("", long.setting, long.asks));
    let tool = instrument.fitted(&plain.variant);
    assert_eq!(plain.expected(&tool), long.expected(&instrument.fitted(&long.variant)));
}

#[test]
fn offers_that_make_no_sense_are_refused() {
    let text = |id: &str| {
        let file = format!("{}/assets/instruments/{id}.toml", env!("CARGO_MANIFEST_DIR"));
        std::fs::read_to_string(file).expect("a shipped definition")
    };
    let fault = |id: &str, from: &str, to: &str| -> (&'static str, String) {
        let text = text(id);
        assert!(text.contains(from), "{id} {from}");
        let source = linefall::diag::SourceText::new("x.toml", text.replacen(from, to, 1));
        let faults = check::read(&source).expect_err("a fault");
        assert_eq!(faults.len(), 1, "{faults:#?}");
        (faults[0].code, faults[0].fix.clone().expect("a fix"))
    };
    let offers = |id: &str, from: &str, to: &str, fix: &str| {
        assert_eq!(fault(id, from, to), ("offers", fix.to_owned()), "{id} {to}");
    };
    let held = "held = [\"usual\", \"turned\"]\nengraved";
    offers("height-gauge-inch", "engraved", held, "take out `held`");
    offers("dial-caliper-inch", "engraved", held, "take out `held`");
    offers(
        "caliper-inch-25",
        "\"usual\", \"turned\"",
        "\"turned\", \"turned\"",
        "held = [\"usual\", \"turned\"]",
    );
    offers("caliper-metric-20", "[\"mm\", \"cm\"]", "[\"cm\", \"mm\"]", "worth = \"10 mm\"");
    offers("caliper-metric-20", "[\"mm\", \"cm\"]", "[]", "figures = [\"mm\", \"cm\"]");
    offers("caliper-metric-20", "every = \"10 mm\"", "every = \"5 mm\"", "every = \"10 mm\"");
    offers(
        "caliper-inch-25",
        "tiers = [\"1 in\"",
        "figures = [\"mm\"]\ntiers = [\"1 in\"",
        "take out `figures`",
    );
    offers(
        "micrometer-metric",
        "tiers = [\"5 mm\"]",
        "figures = [\"mm\"]\ntiers = [\"5 mm\"]",
        "take out `figures`",
    );
    offers("caliper-inch-25", "[24, 49]", "[49, 74]", "over = [24, 49]");
    offers("caliper-inch-25", "[24, 49]", "[24, 49, 74]", "keep a short and a long one");
    offers("micrometer-inch-tenths", "over = 9", "over = [9, 19]", "over = 9");
    offers(
        "dial-caliper-inch",
        "turns = \"bar\"",
        "turns = \"bar\"\ncounter = [\"against\"]",
        "take out `counter`",
    );
    assert_eq!(fault("caliper-inch-25", "[24, 49]", "[24, 50]"), ("no-coincidence", "over = 49".to_owned()));
}

/// Some other sizes of tools held the other way round, and of long verniers.
#[test]
fn other_sizes() {
    let mut pictures = 0;
    let mut turn: i64 = 0;
    for known in &KNOWN {
        unusual(known, |look| {
            for size in
                (80..=200).step_by(11).flat_map(|cols| (24..=60).step_by(9).map(move |rows| (cols, rows)))
            {
                for style in LineStyle::ALL {
                    turn += 1;
                    let (low, high) = known.range;
                    let setting = low + (turn * 7919) % (high - low + 1);
                    let how = How::new(size, style);
                    if look.draw(setting, how).is_ok() {
                        let read = read_back(&look, how, setting);
                        assert!(
                            read.is_ok(),
                            "{} {} {how:?} at {setting}: {read:?}",
                            known.id,
                            look.variant.word()
                        );
                        pictures += 1;
                    }
                }
            }
        });
    }
    println!("{pictures} pictures at other sizes");
}

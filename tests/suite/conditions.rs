//! Tools under conditions: read, marked and drawn like any other.

use crate::readback::read_back;
use crate::robot::kinds::{Barrel, Divided, Figures, KNOWN, Kind, Known, known};
use crate::shots::{How, Look, catalogue, looks, shipped};
use linefall::drill::{
    self, Conditions, Lock, Question, Seed, Verdict, Wear, can_wear, question, question_1,
};
use linefall::exact::{Exact, Quanta, parse_answer};
use linefall::instrument::{Instrument, Parts, Variant};
use linefall::reading::misread;
use linefall::render::LineStyle;
use serde::Deserialize;

const STYLES: [LineStyle; 3] = [LineStyle::Thin, LineStyle::Bars, LineStyle::Cell];

/// The same scale in quanta so many times finer.
fn finer_scale(scale: &Divided, parts: i64) -> Divided {
    let tiers: Vec<i64> = scale.tiers.iter().map(|tier| tier * parts).collect();
    Divided {
        division: scale.division * parts,
        end: scale.end * parts,
        tiers: Box::leak(tiers.into_boxed_slice()),
        figures: Figures {
            worth: scale.figures.worth * parts,
            wrap: scale.figures.wrap.map(|wrap| wrap * parts),
            large: scale.figures.large.map(|large| large * parts),
        },
    }
}

/// What the robot knows of a plain tool, in quanta so many times finer; none for other tools.
fn finer(known: &Known, parts: i64) -> Option<&'static Known> {
    let kind = match &known.kind {
        Kind::Rule(rule) => Kind::Rule(finer_scale(rule, parts)),
        Kind::Micrometer(barrel) if barrel.vernier.is_none() => Kind::Micrometer(Barrel {
            scale: finer_scale(&barrel.scale, parts),
            whole: barrel.whole.map(|whole| whole * parts),
            split: barrel.split,
            thimble: finer_scale(&barrel.thimble, parts),
            vernier: None,
            covers: barrel.covers,
            stamped: barrel.stamped.map(|unit| unit * parts),
        }),
        Kind::Micrometer(_) | Kind::Pair(..) | Kind::Dial(_) | Kind::Disc(_) => return None,
    };
    Some(Box::leak(Box::new(Known {
        id: known.id,
        quantum: (known.quantum.0, known.quantum.1 * i128::from(parts)),
        range: (known.range.0 * parts, known.range.1 * parts),
        interval: known.interval * parts,
        can_be_off: known.can_be_off,
        kind,
    })))
}

/// The parts in which the generator poses a plain tool between its lines.
fn parts_of(known: &Known) -> i64 {
    match known.kind {
        Kind::Rule(_) if known.id == "rule-inch-64" => 2,
        Kind::Rule(_) => 4,
        _ => 10,
    }
}

/// Some settings of a range, both ends and every part of a division among them.
fn some(known: &Known, count: i64) -> Vec<i64> {
    let (low, high) = known.range;
    let mut all: Vec<i64> = (0..count).map(|n| low + (high - low) * n / count + n % 11).collect();
    all.push(high);
    all
}

#[test]
fn pictures_of_tools_between_their_lines_are_read_back() {
    let catalogue = catalogue();
    let mut pictures = 0;
    for plain in &KNOWN {
        let parts = parts_of(plain);
        let Some(known) = finer(plain, parts) else { continue };
        let tool = shipped(&catalogue, plain).refined(Parts(parts));
        for mut look in looks(known, &tool) {
            for lead in [0, 7 * parts / 2] {
                look.lead = if matches!(known.kind, Kind::Rule(_)) { 0 } else { lead };
                for size in [(80, 24), (100, 30)] {
                    for style in STYLES {
                        for setting in some(known, 40) {
                            let how = How::new(size, style);
                            let read = read_back(&look, how, setting);
                            assert!(read.is_ok(), "{} {how:?} at {setting}: {read:?}", look.name());
                            pictures += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(pictures > 5000, "{pictures}");
}

/// Every instrument, once: a second set of scales has an entry of its own, named after the word that reads it.
fn first_sets() -> impl Iterator<Item = &'static Known> {
    KNOWN.iter().filter(|known| !known.id.contains(' '))
}

/// The worn figures are not in the picture, and it is read all the same.
#[test]
fn pictures_of_worn_tools_are_read_back() {
    let catalogue = catalogue();
    let mut pictures = 0;
    let mut plainer = 0;
    for known in first_sets() {
        let fitted = shipped(&catalogue, known).fitted(&Variant::default());
        if !can_wear(&fitted) {
            continue;
        }
        for wear in 0..4 {
            let tool = Conditions { worn: Some(Wear(wear)), ..Conditions::default() }.tool(&fitted);
            for look in looks(known, &tool) {
                let intact = Look { instrument: &fitted, ..look.clone() };
                for size in [(80, 24), (100, 30)] {
                    for style in STYLES {
                        let how = How::new(size, style);
                        for setting in some(known, 12) {
                            let Ok(drawn) = intact.draw(setting, how) else { continue };
                            let read = read_back(&look, how, setting);
                            assert!(read.is_ok(), "{} {wear} {how:?} at {setting}: {read:?}", look.name());
                            let digits = |grid: &linefall::render::Grid| {
                                let text = linefall::render::text::lines(grid).concat();
                                text.chars().filter(char::is_ascii_digit).count()
                            };
                            let worn = look.draw(setting, how).expect("it was read");
                            plainer += u32::from(digits(&worn.grid) < digits(&drawn.grid));
                            pictures += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(pictures > 5000 && plainer > pictures / 3, "{plainer} of {pictures} lack a figure");
}

/// Conditions change what is seen, never what is right: every question of a run can be drawn, and its own answer is right.
#[test]
fn every_question_of_a_run_is_drawn_and_its_answer_is_right() {
    let catalogue = catalogue();
    let mut met = std::collections::BTreeMap::<String, u32>::new();
    for known in &KNOWN {
        let instrument = shipped(&catalogue, known);
        if instrument.other.is_some() {
            // Two sets of scales are posed by a draw of their own, without conditions.
            continue;
        }
        for number in 1..=150 {
            let question = question(instrument, Seed(5), number);
            let plain = question_1(instrument, Seed(5), number);
            let tool = question.tool(instrument);
            let at = format!("{} {number} {:?}", known.id, question.conditions);
            assert_eq!(tool.value(question.zero_error), instrument.value(plain.zero_error), "{at}");
            let word = question.conditions.word(&tool);
            let fitted = instrument.fitted(&question.variant);
            assert_eq!(Conditions::from_word(&word, &fitted), Some(question.conditions.clone()), "{at}");
            let stands = plain.setting - instrument.fitted(&plain.variant).low + fitted.low;
            // Version 1 knows no less common variants.
            let asks_alike = question.asks == plain.asks;
            if word.is_empty() && question.variant == plain.variant && asks_alike {
                assert_eq!(question, plain, "{at}");
            }
            if question.conditions.change != linefall::reading::Change::default() {
                // A change between two pictures has tests of its own.
                continue;
            }
            for part in word.split("; ").filter(|part| !part.is_empty()) {
                *met.entry(part.split('=').next().unwrap_or_default().to_owned()).or_default() += 1;
            }
            let expected = tool.notation.spell(question.expected(&tool));
            let typed = parse_answer(&expected, tool.unit).expect("a reading");
            let mark = drill::mark(&question.case(&tool), &typed);
            assert_eq!(mark.verdict, Verdict::Right, "{at}: {expected}");
            assert!(question.case(&tool).accepts(mark.expected), "{at}");
            let sights = question.earlier(&tool).into_iter().chain([question.measuring(&tool)]);
            for sight in sights {
                for style in STYLES {
                    let scene = linefall::scene::build(
                        &sight.tool,
                        &sight.pose,
                        &sight.variant,
                        linefall::scene::View::Held,
                    );
                    assert_eq!(linefall::scene::audit(&scene), [], "{at}");
                    // A height gauge, a long vernier and cells need more room than the usual, intact or not.
                    let how = How::new((160, 45), style).request();
                    let intact = linefall::scene::build(
                        &fitted,
                        &linefall::reading::pose(&fitted, stands, Quanta::ZERO),
                        &question.variant,
                        linefall::scene::View::Held,
                    );
                    if linefall::render::draw(&intact, &how).is_ok() {
                        assert!(linefall::render::draw(&scene, &how).is_ok(), "{at} {style:?}");
                    }
                    let how = How::new((80, 24), style).request();
                    if linefall::render::draw(&intact, &how).is_ok() {
                        assert!(linefall::render::draw(&scene, &how).is_ok(), "{at} {style:?} at 80x24");
                    }
                }
            }
        }
    }
    let all: Vec<&str> = met.keys().map(String::as_str).collect();
    assert_eq!(all, ["between", "lead", "lock", "read", "worn"], "{met:?}");
    assert!(met.values().all(|count| *count >= 10), "{met:?}");
}

/// Three in four edges mislead: they show a line that is not reached, or hide one that is.
#[test]
fn most_edges_mislead() {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known("micrometer-metric"));
    let (mut edges, mut misleading) = (0, 0);
    for number in 1..=1000 {
        let question = question(instrument, Seed(9), number);
        let Quanta(lead) = question.conditions.lead;
        if lead != 0 {
            let on_thimble = question.setting.0.rem_euclid(50);
            assert!((-5..=10).contains(&lead), "{lead}");
            edges += 1;
            misleading += i32::from(if lead > 0 { on_thimble >= 50 - lead } else { on_thimble < -lead });
        }
    }
    assert!((150..250).contains(&edges), "{edges} of 1000");
    assert!(misleading * 3 > edges * 2, "{misleading} of {edges}");
}

fn marked(tool: &Instrument, setting: &str, answer: &str) -> drill::Mark {
    let at = tool.lattice.at(parse_answer(setting, tool.unit).expect("a setting").value);
    let question = Question::new(tool, 1, at.expect("on the lattice"), Quanta::ZERO, Variant::default());
    drill::mark(&question.case(tool), &parse_answer(answer, tool.unit).expect("an answer"))
}

/// A wrong answer is wrong by whatever name.
#[track_caller]
fn verdict_is(mark: &drill::Mark, wanted: Verdict, at: &str) {
    if wanted == Verdict::Other {
        assert!(!mark.verdict.is_right(), "{at}");
    } else {
        assert_eq!(mark.verdict, wanted, "{at}");
    }
}

/// Round to the nearest line for three decimals, or estimate for four: NAVEDTRA 14001. Half way either line is as near.
#[test]
fn between_lines_the_nearest_is_right_and_an_estimate_is_right_in_value() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("micrometer-inch")).refined(Parts(10));
    let all = [
        ("0.4913", "0.491", Verdict::Right),
        ("0.4913", "0.4913", Verdict::RightValue),
        ("0.4913", "0.4915", Verdict::RightValue),
        ("0.4913", "0.4916", Verdict::Other),
        ("0.4913", "0.492", Verdict::Other),
        ("0.4917", "0.492", Verdict::Right),
        ("0.4917", "0.491", Verdict::Other),
        ("0.4915", "0.491", Verdict::Right),
        ("0.4915", "0.492", Verdict::Right),
        ("0.4915", "0.490", Verdict::Other),
        ("0.491", "0.4911", Verdict::Other),
        ("0.0245", "0.024", Verdict::Right),
    ];
    for (setting, answer, wanted) in all {
        verdict_is(&marked(&tool, setting, answer), wanted, &format!("{answer} at {setting}"));
    }
    let band = marked(&tool, "0.4917", "0.492").accepted;
    assert_eq!(band, [Exact::ratio(4915, 10_000), Exact::ratio(492, 1000)]);
}

/// Off the lattice no vernier line is in line; the best pair is the reading.
#[test]
fn off_the_lattice_the_best_pair_is_read() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("caliper-metric-50")).refined(Parts(10));
    for (setting, answer, wanted) in [
        ("12.346", "12.34", Verdict::Right),
        ("12.346", "12.36", Verdict::Other),
        ("12.354", "12.36", Verdict::Right),
        ("12.35", "12.34", Verdict::Right),
        ("12.35", "12.36", Verdict::Right),
        ("12.998", "13.00", Verdict::Right),
    ] {
        verdict_is(&marked(&tool, setting, answer), wanted, &format!("{answer} at {setting}"));
    }
}

#[test]
fn a_thimble_under_a_vernier_is_read_last_passed() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("micrometer-inch-tenths")).refined(Parts(2));
    for (setting, answer, wanted) in [
        ("0.28625", "0.2862", Verdict::Right),
        ("0.28695", "0.2870", Verdict::Right),
        ("0.28695", "0.2879", Verdict::Other),
    ] {
        verdict_is(&marked(&tool, setting, answer), wanted, &format!("{answer} at {setting}"));
    }
}

/// What a learner who estimates writes, and what becomes of it.
#[test]
fn an_estimated_digit_has_its_band_and_its_nought() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("micrometer-metric")).estimated();
    let all = [
        ("1.639", "1.639", Verdict::Right),
        ("1.639", "1.637", Verdict::Right),
        ("1.639", "1.641", Verdict::Right),
        ("1.639", "1.642", Verdict::Other),
        ("1.635", "1.63", Verdict::Other),
        ("1.635", "1.64", Verdict::Other),
        ("1.639", "1.64", Verdict::RightValue),
        ("8.350", "8.350", Verdict::Right),
        ("8.350", "8.35", Verdict::RightValue),
        ("1.639", "1.6391", Verdict::RightValue),
        // The half line missed, and the digit judged a little otherwise.
        ("1.639", "1.137", Verdict::Other),
    ];
    for (setting, answer, wanted) in all {
        verdict_is(&marked(&tool, setting, answer), wanted, &format!("{answer} at {setting}"));
    }
    let found = |setting, answer| marked(&tool, setting, answer).misreads[0].misread.id;
    assert_eq!(found("1.635", "1.64"), "estimate-rounded");
    assert_eq!(found("1.639", "1.137"), "half-line-missed");
    let mut optional = tool.clone();
    optional.estimate.as_mut().expect("it has one").nought = linefall::instrument::Nought::Optional;
    assert_eq!(marked(&optional, "8.350", "8.35").verdict, Verdict::Right);
    assert!(!marked(&optional, "8.350", "8.3").verdict.is_right());
}

/// Every setting of the estimated micrometers is read as itself, its shares add up, and no misread gives a right answer.
#[test]
fn every_estimated_setting() {
    let catalogue = catalogue();
    for id in ["micrometer-inch", "micrometer-metric"] {
        let tool = shipped(&catalogue, known(id)).estimated();
        assert!(tool.is_estimated(), "{id}");
        for setting in tool.settings() {
            let question = Question::new(&tool, 1, setting, Quanta::ZERO, Variant::default());
            assert_eq!(question.reading.total, setting, "{id}");
            let sum: Quanta =
                linefall::reading::shares(&tool, &question.reading).iter().map(|share| share.value).sum();
            assert_eq!(sum, setting, "{id}");
            let case = question.case(&tool);
            for misread in misread::ALL {
                assert!(
                    misread.wrong(&case).iter().all(|wrong| !case.accepts(wrong.answer)),
                    "{id} {setting:?}"
                );
            }
        }
    }
}

/// A tool under a tag is the same tool: the tag is on the picture, in its description, and nothing else is changed.
#[test]
fn a_loose_lock_is_seen_on_the_tag() {
    let catalogue = catalogue();
    for known in first_sets() {
        let fitted = shipped(&catalogue, known).fitted(&Variant::default());
        let tool = Conditions { lock: Lock::Loose, ..Conditions::default() }.tool(&fitted);
        for look in looks(known, &tool) {
            for size in [(80, 24), (100, 30), (160, 45)] {
                for style in STYLES {
                    let how = How::new(size, style);
                    let intact = Look { instrument: &fitted, ..look.clone() };
                    if !fitted.has_lock() || intact.draw(known.range.1, how).is_err() {
                        continue;
                    }
                    let drawn = look.draw(known.range.1, how);
                    let drawn = drawn.unwrap_or_else(|refusal| panic!("{} {how:?}: {refusal}", look.name()));
                    let text = linefall::render::text::lines(&drawn.grid).join("\n");
                    assert!(text.contains("lock loose"), "{} {how:?}\n{text}", look.name());
                    read_back(&look, how, known.range.1).expect("it is read as before");
                }
            }
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Estimates {
    estimate: Vec<Row>,
}

/// A published reading with an estimated digit.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    id: String,
    instrument: String,
    components: String,
    sleeve: String,
    thimble: String,
    judged: String,
    published: String,
    /// Where the tool stands, if not where the source reads it.
    stands: Option<String>,
    accepted: [String; 2],
    source: String,
    tier: String,
    verdict: String,
}

#[test]
fn published_estimates() {
    let text = include_str!("../conformance/estimates.toml");
    let rows = toml::from_str::<Estimates>(text).expect("a file of estimates").estimate;
    let catalogue = catalogue();
    for row in &rows {
        assert!(row.source.len() > 10 && !row.components.is_empty() && !row.verdict.is_empty(), "{}", row.id);
        assert!(["B", "C", "D"].contains(&row.tier.as_str()), "{}", row.id);
        let plain = known(&row.instrument);
        let tool = shipped(&catalogue, plain).estimated();
        let at = |text: &str| {
            tool.lattice.at(parse_answer(text, tool.unit).expect("a value").value).expect("a setting")
        };
        let setting = at(row.stands.as_deref().unwrap_or(&row.published));
        let variant = tool.variants()[0].clone();
        let question = Question::new(&tool, 1, setting, Quanta::ZERO, variant);
        let judged: Vec<String> = linefall::reading::shares(&tool, &question.reading)
            .iter()
            .filter(|share| share.stage > 0)
            .map(|share| tool.spell(share.value))
            .collect();
        assert_eq!(judged, [row.thimble.as_str(), row.judged.as_str()], "{}", row.id);
        assert_eq!(tool.spell(question.reading.steps[0].value), row.sleeve, "{}", row.id);
        let mark =
            drill::mark(&question.case(&tool), &parse_answer(&row.published, tool.unit).expect("an answer"));
        assert_eq!(mark.verdict, Verdict::Right, "{}", row.id);
        let band = mark.accepted.map(|value| tool.notation.spell(value));
        assert_eq!(band, row.accepted, "{}", row.id);
        for look in looks(finer(plain, 10).expect("a plain tool"), &tool) {
            for style in STYLES {
                let read = read_back(&look, How::new((80, 24), style), setting.0);
                assert!(read.is_ok(), "{} {style:?}: {read:?}", row.id);
            }
        }
    }
    let ids: Vec<&str> = rows.iter().map(|row| row.id.as_str()).collect();
    assert_eq!(ids, ["W13", "W14", "W24", "W25", "W27", "W28", "W28 band"]);
}

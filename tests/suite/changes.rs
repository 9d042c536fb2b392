//! Changes between two pictures: against a handwheel turned line by line, against published factors, and as a robot sees them
//! that knows the drawn glyphs alone.

use crate::robot::{
    self,
    kinds::{Known, known},
};
use crate::shots::{How, SIZES, catalogue, shipped};
use linefall::drill::{self, Conditions, Question, Role, Seed, Sight, Verdict, question};
use linefall::exact::{Exact, Quanta, Quantity, parse_answer};
use linefall::instrument::{Instrument, Variant};
use linefall::reading::{self, Asks, Case, Change, Turned, misread};
use linefall::render::{self, LineStyle, text};
use linefall::scene::{self, View};
use serde::Deserialize;
use std::collections::BTreeMap;

/// The misreads that need a change.
pub const SLIPS: [&str; 9] = [
    "turn-not-counted",
    "turn-counted-twice",
    "backlash-forgotten",
    "backlash-twice",
    "start-forgotten",
    "change-reversed",
    "angle-forgotten",
    "diameter-for-radius",
    "radius-for-diameter",
];

const COLLARS: [(&str, bool); 4] = [
    ("cross-slide-dial-inch", true),
    ("cross-slide-dial-inch-radius", false),
    ("cross-slide-dial-metric", false),
    ("cross-slide-dial-metric-diameter", true),
];
const INDICATORS: [&str; 4] = [
    "dial-indicator-inch-balanced",
    "dial-indicator-metric-continuous",
    "lever-indicator-inch",
    "lever-indicator-metric",
];

/// The factor of each angle in hundredths, as published: instrument facts, section 6.
const FACTORS: [(u32, i64); 6] = [(10, 98), (20, 94), (30, 87), (40, 77), (50, 64), (60, 50)];

/// A screw with slack in its nut. All lengths in lines of the collar.
struct Screw {
    /// Where the collar stands, turns counted.
    collar: i64,
    /// Where the slide stands.
    slide: i64,
    /// How far the collar is from where it last pushed the slide on: 0 while it does, the slack while it pulls it back.
    loose: i64,
    slack: i64,
    turn: i64,
    /// How often the 0 came past the index line, either way.
    passed: [i64; 2],
}

impl Screw {
    /// Come up to a line, pushing.
    fn at(collar: i64, turn: i64, slack: i64) -> Self {
        Self { collar, slide: 0, loose: 0, slack, turn, passed: [0, 0] }
    }

    /// A line on.
    fn on(&mut self) {
        self.collar += 1;
        if self.collar.rem_euclid(self.turn) == 0 {
            self.passed[0] += 1;
        }
        if self.loose > 0 { self.loose -= 1 } else { self.slide += 1 }
    }

    /// A line back. The 0 comes past when the line above it is left behind.
    fn back(&mut self) {
        if self.collar.rem_euclid(self.turn) == 0 {
            self.passed[1] += 1;
        }
        self.collar -= 1;
        if self.loose < self.slack { self.loose += 1 } else { self.slide -= 1 }
    }

    fn shows(&self) -> i64 {
        self.collar.rem_euclid(self.turn)
    }
}

fn case<'a>(
    tool: &'a Instrument,
    pose: &'a reading::Pose,
    reading: &'a reading::Reading,
    asks: Asks,
    change: Change,
) -> Case<'a> {
    Case { instrument: tool, pose, reading, zero_error: Quanta::ZERO, asks, change }
}

/// Counts how often each misread happens; none of them is ever accepted.
fn slips(case: &Case<'_>, given: &mut BTreeMap<&'static str, u64>) {
    for misread in misread::ALL {
        for wrong in misread.wrong(case) {
            assert!(!case.accepts(wrong.answer), "{}: {:?}", misread.id, case.change);
            assert!(misread.happens_on(case.instrument) && !wrong.did.is_empty(), "{}", misread.id);
            *given.entry(misread.id).or_default() += 1;
        }
    }
}

#[test]
fn a_handwheel_turned_line_by_line_says_the_same() {
    let catalogue = catalogue();
    let mut given = BTreeMap::new();
    let mut cases = 0;
    for (id, of_diameter) in COLLARS {
        let tool = shipped(&catalogue, known(id));
        let turn = tool.high.0 + 1;
        for (start, slack) in (0..turn).flat_map(|start| [0, 1, 5, 8].map(|slack| (start, slack))) {
            for turned in Turned::ALL {
                let mut screw = Screw::at(start, turn, slack);
                for moved in 1..=3 * turn {
                    match turned {
                        Turned::On | Turned::OnAgain => screw.on(),
                        Turned::Back => screw.back(),
                    }
                    // Every seventh, and all about the 0.
                    if moved % 7 != 0 && !(2..turn - 1).contains(&screw.shows()) {
                        continue;
                    }
                    let (mut slide, shows) = (screw.slide, screw.shows());
                    if turned == Turned::OnAgain {
                        let mut once_more = Screw { ..screw };
                        (0..turn).for_each(|_| once_more.back());
                        (0..turn).for_each(|_| once_more.on());
                        assert_eq!(once_more.shows(), shows);
                        slide = once_more.slide;
                    }
                    // Standing on the 0 it has not come past it yet when it goes back.
                    let passed = screw.passed[usize::from(turned == Turned::Back)];
                    let change = Change {
                        start: Some(Quanta(start)),
                        passed,
                        turned,
                        slack: Quanta(slack),
                        angle: None,
                    };
                    if slide == 0 {
                        continue;
                    }
                    let pose = reading::pose(tool, Quanta(shows), Quanta::ZERO);
                    let read = reading::read(tool, &pose);
                    let lines = tool.value(Quanta(slide.abs()));
                    let half = Exact::ratio(1, 2);
                    for (asks, wanted) in [
                        (Asks::Travel, if of_diameter { lines * half } else { lines }),
                        (Asks::Diameter, if of_diameter { lines } else { lines * Exact::whole(2) }),
                    ] {
                        let case = case(tool, &pose, &read, asks, change);
                        assert_eq!(case.expected(), wanted, "{id} {change:?} at {shows}");
                        assert_eq!(case.accepted(), [wanted; 2]);
                        if moved % 5 == 0 {
                            slips(&case, &mut given);
                        }
                        cases += 1;
                    }
                }
            }
        }
    }
    for id in SLIPS {
        let happens = !["change-reversed", "angle-forgotten"].contains(&id);
        assert_eq!(given.contains_key(id), happens, "{id}");
    }
    println!("{cases} cuts; {given:?}");
}

#[test]
fn a_part_is_larger_or_smaller_than_its_master() {
    let catalogue = catalogue();
    let mut given = BTreeMap::new();
    let mut cases = 0;
    for id in INDICATORS {
        let tool = shipped(&catalogue, known(id));
        let lever = id.starts_with("lever");
        let settings: Vec<Quanta> = tool.settings().step_by(if tool.high.0 > 500 { 17 } else { 1 }).collect();
        let angles: Vec<_> =
            if lever { reading::Angle::all().map(Some).chain([None]).collect() } else { vec![None] };
        for (start, end, angle) in settings.iter().flat_map(|start| {
            let angles = &angles;
            settings.iter().flat_map(move |end| angles.iter().map(move |angle| (*start, *end, *angle)))
        }) {
            let pose = reading::pose(tool, end, Quanta::ZERO);
            let read = reading::read(tool, &pose);
            let change = Change { start: Some(start), angle, ..Change::default() };
            let case = case(tool, &pose, &read, Asks::Change, change);
            let hundredths = angle.map_or(100, |angle| {
                FACTORS.into_iter().find(|(degrees, _)| *degrees == angle.degrees()).map_or(0, |row| row.1)
            });
            let (top, bottom) = known(id).quantum;
            let moved = i128::from((end.0 - start.0) * hundredths);
            assert_eq!(case.expected(), Exact::ratio(moved * top, bottom * 100), "{id} {change:?}");
            slips(&case, &mut given);
            cases += 1;
        }
    }
    for id in ["start-forgotten", "change-reversed", "angle-forgotten"] {
        assert!(given.get(id).is_some_and(|count| *count > 500), "{id}: {given:?}");
    }
    println!("{cases} comparisons; {given:?}");
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    change: Vec<Row>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Row {
    id: String,
    instrument: String,
    under: String,
    stands_at: String,
    asks: String,
    published: String,
    source: String,
    tier: String,
    verdict: String,
}

#[test]
fn published_changes_are_right() {
    let catalogue = catalogue();
    let rows = toml::from_str::<Rows>(include_str!("../conformance/changes.toml")).expect("rows").change;
    assert!(rows.iter().any(|row| row.id == "W76"));
    for row in rows {
        assert!(row.source.len() > 10 && row.tier.len() == 1 && !row.verdict.is_empty(), "{}", row.id);
        let tool = shipped(&catalogue, known(&row.instrument));
        let stands = Quantity::parse(&row.stands_at).expect("a quantity");
        let setting = tool.lattice.at(stands.value).expect("a setting");
        let conditions = Conditions::from_word(&row.under, tool).expect("conditions");
        assert_eq!(conditions.word(tool), row.under, "{}", row.id);
        let plain = Question::new(tool, 1, setting, Quanta::ZERO, Variant::default());
        let asks = Asks::from_word(&row.asks).expect("what is asked");
        let question = Question { asks, ..plain.under(tool, conditions) };
        let typed = parse_answer(&row.published, tool.unit).expect("an answer");
        assert_eq!(question.expected(tool), typed.value, "{}", row.id);
        let mark = drill::mark(&question.case(tool), &typed);
        assert!(mark.verdict.is_right(), "{}: {:?}", row.id, mark.verdict);
    }
}

/// A product is accepted within half a least count, and what was forgotten is still told from it.
#[test]
fn a_product_is_accepted_as_near_as_it_can_be_read() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("lever-indicator-metric"));
    let conditions = Conditions::from_word("angle=30", tool).expect("conditions");
    let plain = Question::new(tool, 1, Quanta(27), Quanta::ZERO, Variant::default());
    let question = Question { asks: Asks::Movement, ..plain.under(tool, conditions) };
    let mark = |text: &str| {
        let mark = drill::mark(&question.case(tool), &parse_answer(text, tool.unit).expect("an answer"));
        (mark.verdict, mark.misreads.first().map(|found| found.misread.id))
    };
    for right in ["0.2349", "0.23", "0.235", "0,2399"] {
        assert_eq!(mark(right), (Verdict::Right, None), "{right}");
    }
    assert_eq!(mark("0.27"), (Verdict::Misread, Some("angle-forgotten")));
    assert_eq!(mark("-0.23"), (Verdict::Misread, Some("balanced-sign")));
    // Out of the band.
    assert_eq!(mark("0.19"), (Verdict::Other, None));
    assert!(!mark("0.24").0.is_right());
}

/// What a robot makes of one picture: the words on its band and tags, and the line at the hand or index line.
struct Looked {
    value: i64,
    words: String,
}

fn look(sight: &Sight, how: How, view: View, known: &Known) -> Option<Looked> {
    let scene = scene::build(&sight.tool, &sight.pose, &sight.variant, view).tagged(sight.tags.clone());
    let drawing = render::draw(&scene, &how.request()).ok()?;
    let lines = text::lines(&drawing.grid);
    let value = robot::read(&lines, known).unwrap_or_else(|why| panic!("{why}\n{}", lines.join("\n"))).value;
    // Words stand above the first line that is drawn.
    let words: Vec<&str> =
        lines.iter().map(String::as_str).take_while(|line| !line.starts_with(['.', '\u{2510}'])).collect();
    Some(Looked { value, words: words.join("\n") })
}

/// A number after a word, in quanta.
fn number_after(words: &str, word: &str, quantum: (i128, i128)) -> Option<i64> {
    let number = words.split_once(word)?.1.split_whitespace().next()?;
    let (whole, places) = number.split_once('.').unwrap_or((number, ""));
    let digits: i128 = format!("{whole}{places}").parse().ok()?;
    let bottom = 10_i128.pow(u32::try_from(places.len()).ok()?);
    i64::try_from(digits * quantum.1 / (bottom * quantum.0)).ok()
}

/// The answer in quanta, times 200, from the two pictures.
fn worked_out(known: &Known, asks: Asks, start: Option<&Looked>, now: &Looked) -> i64 {
    if let Some(degrees) = now.words.split_once("stylus at ").and_then(|(_, rest)| rest.split(' ').next()) {
        let factor = FACTORS.into_iter().find(|(angle, _)| angle.to_string() == degrees).expect("a factor").1;
        return (now.value - start.map_or(0, |start| start.value)) * factor * 2;
    }
    let start = start.expect("a start").value;
    if asks == Asks::Change {
        return (now.value - start) * 200;
    }
    let strokes =
        now.words.split_once("passed 0: ").map_or("", |(_, rest)| rest.split(' ').next().unwrap_or(""));
    let turns = i64::try_from(strokes.chars().filter(|c| *c == '|').count()).expect("few");
    assert_eq!(turns == 0, now.words.contains("0 not passed"), "{}", now.words);
    let turn = known.range.1 + 1;
    let back = now.words.contains("turned back");
    let collar = if back { start - now.value } else { now.value - start } + turns * turn;
    let slack = number_after(&now.words, "slack ", known.quantum).expect("a slack");
    let lines = if back { collar - slack } else { collar };
    match (asks, now.words.contains("off the diameter")) {
        (Asks::Diameter, true) | (Asks::Travel, false) => lines * 200,
        (Asks::Diameter, false) => lines * 400,
        (Asks::Travel, true) => lines * 100,
        _ => panic!("{asks:?}"),
    }
}

#[test]
fn both_pictures_of_a_change_are_read_from_their_glyphs() {
    let catalogue = catalogue();
    let mut met: BTreeMap<String, u32> = BTreeMap::new();
    let mut pictures = 0;
    for id in COLLARS.map(|(id, _)| id).into_iter().chain(INDICATORS) {
        let (known, tool) = (known(id), shipped(&catalogue, known(id)));
        for number in 1..=120 {
            let question = question(tool, Seed(5), number);
            *met.entry(format!("{id} {}", question.asks.word())).or_default() += 1;
            let (earlier, measuring) = (question.earlier(tool), question.measuring(tool));
            if question.asks == Asks::Reading {
                assert!(earlier.is_empty() && measuring.tags.is_empty(), "{id} {number}");
                continue;
            }
            let before = earlier.first();
            assert!(earlier.len() < 2 && before.is_none_or(|sight| sight.role == Role::Start));
            for view in [View::Held, View::Flat] {
                for (n, size) in SIZES.into_iter().enumerate() {
                    let style =
                        LineStyle::ALL[(n + usize::try_from(number).expect("small")) % LineStyle::ALL.len()];
                    let how = How::new(size, style);
                    let start = before.map(|sight| look(sight, how, view, known).expect("a picture"));
                    let now = look(&measuring, how, view, known).expect("a picture");
                    let (top, bottom) = known.quantum;
                    let answer = i128::from(worked_out(known, question.asks, start.as_ref(), &now));
                    let wanted = question.expected(tool);
                    assert_eq!(
                        Exact::ratio(answer * top, bottom * 200),
                        wanted,
                        "{id} {number} {size:?} {style:?}"
                    );
                    pictures += 1;
                }
            }
        }
    }
    for (id, asks) in
        COLLARS.into_iter().flat_map(|(id, _)| ["reading", "diameter", "travel"].map(|asks| (id, asks)))
    {
        assert!(met.get(&format!("{id} {asks}")).is_some_and(|count| *count > 8), "{id} {asks}: {met:?}");
    }
    for id in INDICATORS {
        let kinds: &[&str] =
            if id.starts_with("lever") { &["reading", "change", "movement"] } else { &["reading", "change"] };
        for asks in kinds {
            assert!(met.get(&format!("{id} {asks}")).is_some_and(|count| *count > 8), "{id} {asks}: {met:?}");
        }
    }
    println!("{pictures} pairs of pictures");
}

/// A picture too narrow for its tags is refused, and says the width.
#[test]
fn tags_are_never_cut_off() {
    let catalogue = catalogue();
    let tool = shipped(&catalogue, known("cross-slide-dial-metric"));
    let fullest = drill::fullest(tool, 1).expect("tags");
    let sight = fullest.measuring(tool);
    let scene = scene::build(tool, &sight.pose, &sight.variant, View::Flat).tagged(sight.tags.clone());
    let draw = |cols| render::draw(&scene, &How::new((cols, 24), LineStyle::Thin).request());
    let needs = draw(40).expect_err("too narrow").needs_cols;
    let drawing = draw(needs).expect("wide enough");
    let lines = text::lines(&drawing.grid);
    assert!(sight.tags.iter().all(|tag| lines.iter().any(|line| line.contains(tag.as_str()))), "{lines:?}");
    assert!(needs <= 80, "{needs}");
}

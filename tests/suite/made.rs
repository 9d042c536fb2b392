//! Definitions made up at random, as text, together with what a robot is told about them. Both are worked out here from the
//! same few numbers, by nothing of the program.

use crate::robot::kinds::{Barrel, Divided, Figures, Gauge, Kind, Known, Sliding, Turns};
use proptest::prelude::*;
use std::fmt::Write as _;

/// Throws of a die, each from 0 to the largest number; when they shrink, so does the definition.
#[derive(Clone, Debug)]
pub struct Dice {
    throws: Vec<u32>,
    next: usize,
}

impl Dice {
    /// A number from `low` to `high`.
    pub fn number(&mut self, low: i64, high: i64) -> i64 {
        let throw = self.throws.get(self.next).copied().unwrap_or(0);
        self.next += 1;
        low + i64::from(throw) % (high - low + 1)
    }

    pub fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[usize::try_from(self.number(0, i64::try_from(of.len()).expect("few") - 1)).expect("from nought")]
    }

    fn flip(&mut self) -> bool {
        self.number(0, 1) == 1
    }
}

/// Forty throws.
pub fn dice() -> impl Strategy<Value = Dice> {
    proptest::collection::vec(0_u32..5_000_000, 40).prop_map(|throws| Dice { throws, next: 0 })
}

/// A definition and what the robot knows of it.
pub struct Made {
    pub text: String,
    pub known: Known,
    /// The robot can read it: it knows what is stamped and how retrograde verniers run for shipped tools alone, and needs lines
    /// of two cells on thimbles, two figures on dials, and three lines of a scale beside a vernier.
    pub readable: bool,
    /// Also in styles of whole cells, which it tells from dots by the sleeve's pitch: 25 or 50 parts a turn.
    pub in_cells: bool,
}

/// A unit, and one quantum as a fraction of it.
#[derive(Clone, Copy)]
struct Measure {
    symbol: &'static str,
    top: i64,
    bottom: i64,
}

const MEASURES: [Measure; 14] = [
    Measure { symbol: "mm", top: 1, bottom: 100 },
    Measure { symbol: "mm", top: 1, bottom: 10 },
    Measure { symbol: "mm", top: 1, bottom: 50 },
    Measure { symbol: "mm", top: 1, bottom: 20 },
    Measure { symbol: "mm", top: 1, bottom: 1 },
    Measure { symbol: "mm", top: 1, bottom: 1000 },
    Measure { symbol: "in", top: 1, bottom: 1000 },
    Measure { symbol: "in", top: 1, bottom: 10_000 },
    Measure { symbol: "in", top: 1, bottom: 128 },
    Measure { symbol: "in", top: 1, bottom: 64 },
    Measure { symbol: "in", top: 3, bottom: 1000 },
    Measure { symbol: "'", top: 1, bottom: 1 },
    Measure { symbol: "'", top: 3, bottom: 2 },
    Measure { symbol: "'", top: 1, bottom: 2 },
];

impl Measure {
    /// So many quanta as a file may spell them: a whole number, a fraction or a mixed one.
    fn spell(self, quanta: i64) -> String {
        let (mut top, mut bottom) = (quanta.abs() * self.top, self.bottom);
        let (mut a, mut b) = (top.max(1), bottom);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        (top, bottom) = if top == 0 { (0, 1) } else { (top / a, bottom / a) };
        let sign = if quanta < 0 { "-" } else { "" };
        let gap = if self.symbol == "'" { "" } else { " " };
        match (bottom, self.symbol) {
            (1, "'") if top % 60 == 0 => format!("\"{sign}{} deg\"", top / 60),
            (1, symbol) => format!("\"{sign}{top}{gap}{symbol}\""),
            (_, symbol) if top > bottom && quanta % 2 == 0 => {
                format!("\"{sign}{} {}/{bottom}{gap}{symbol}\"", top / bottom, top % bottom)
            }
            (_, symbol) => format!("\"{sign}{top}/{bottom}{gap}{symbol}\""),
        }
    }
}

/// Writes keys.
struct Writer {
    measure: Measure,
    text: String,
}

impl Writer {
    fn word(&mut self, key: &str, value: &str) {
        let _ = writeln!(self.text, "{key} = \"{value}\"");
    }

    fn count(&mut self, key: &str, value: i64) {
        let _ = writeln!(self.text, "{key} = {value}");
    }

    fn length(&mut self, key: &str, quanta: i64) {
        let _ = writeln!(self.text, "{key} = {}", self.measure.spell(quanta));
    }

    fn stage(&mut self, form: &str, name: &str) {
        self.text.push_str("\n[[stage]]\n");
        self.word("form", form);
        self.word("name", name);
    }

    fn tiers(&mut self, tiers: &[i64], each: i64) {
        let tiers: Vec<String> = tiers.iter().map(|tier| self.measure.spell(tier * each)).collect();
        if !tiers.is_empty() {
            let _ = writeln!(self.text, "tiers = [{}]", tiers.join(", "));
        }
    }

    fn figures(&mut self, rules: &[Rule]) {
        let rule = |rule: &Rule| {
            let (every, worth) = (self.measure.spell(rule.every), self.measure.spell(rule.worth));
            let wrap = rule.wrap.map_or_else(String::new, |wrap| format!(", wrap = {wrap}"));
            let size = if rule.large { ", size = \"large\"" } else { "" };
            format!("{{ every = {every}, worth = {worth}{wrap}{size} }}")
        };
        let rules: Vec<String> = rules.iter().map(rule).collect();
        let _ = writeln!(self.text, "numerals = [{}]", rules.join(", "));
    }
}

/// A rule for figures, in quanta.
struct Rule {
    every: i64,
    worth: i64,
    wrap: Option<i64>,
    large: bool,
}

const fn small(every: i64, worth: i64) -> Rule {
    Rule { every, worth, wrap: None, large: false }
}

fn digits(number: i64) -> i64 {
    i64::try_from(number.to_string().len()).expect("few digits")
}

/// Line lengths, longest first, in divisions: each a multiple of the next.
fn tiers(dice: &mut Dice, most: i64) -> Vec<i64> {
    let mut tiers = Vec::new();
    let mut at = 1;
    for _ in 0..dice.number(1, 3) {
        at *= dice.one(&[5, 2, 10, 3, 4]);
        if at <= most {
            tiers.insert(0, at);
        }
    }
    tiers
}

/// The same of a scale that comes out even after so many divisions.
fn even_tiers(dice: &mut Dice, whole: i64) -> Vec<i64> {
    let parts: Vec<i64> = (2..whole).rev().filter(|n| whole % n == 0).collect();
    let mut tiers: Vec<i64> = parts.into_iter().filter(|_| dice.flip()).take(3).collect();
    tiers.sort_unstable_by(|a, b| b.cmp(a));
    tiers
}

fn leak(tiers: &[i64], each: i64) -> &'static [i64] {
    Vec::leak(tiers.iter().map(|tier| tier * each).collect())
}

fn top(dice: &mut Dice, id: &'static str, range: (i64, i64)) -> Writer {
    // No instrument is longer than 100,000 units, its longest lines included.
    let short = |measure: &Measure| range.1 * measure.top / measure.bottom < 30_000;
    let measure = dice.one(&MEASURES.into_iter().filter(short).collect::<Vec<_>>());
    let mut file = Writer { measure, text: String::new() };
    file.count("format", 1);
    file.word("id", id);
    file.word("title", "Made up");
    file.word("family", "made-up");
    file.word("unit", if measure.symbol == "'" { "deg" } else { measure.symbol });
    let _ = writeln!(file.text, "range = [{}, {}]", measure.spell(range.0), measure.spell(range.1));
    file.length("least-count", 1);
    if measure.symbol == "in" && (measure.bottom == 64 || measure.bottom == 128) && dice.flip() {
        file.word("notation", "fraction");
    }
    file.text.push_str("engraved = [\"made up\"]\n");
    file.word("source", "made up");
    file
}

/// The main scale of a rule or a vernier: its rules for figures, and what the robot knows.
fn main_scale(dice: &mut Dice, division: i64, count: i64, far: i64) -> (Vec<i64>, Vec<Rule>, Divided) {
    let long = tiers(dice, count);
    let end = count * division;
    let (rules, figures) = if dice.number(0, 3) == 0 {
        let (each, parts) = (dice.number(2, 5), dice.number(2, 10));
        let (every, worth) = (each * parts * division, each * division);
        let rules = vec![
            Rule { every, worth: every, wrap: None, large: true },
            Rule { every: worth, worth, wrap: Some(parts), large: false },
        ];
        (rules, Figures { worth, wrap: Some(every), large: Some(every) })
    } else {
        let every = dice.number(1, far).max(digits(count));
        let worth = dice.one(&[division, every * division]);
        (vec![small(every * division, worth)], Figures { worth, wrap: None, large: None })
    };
    let known = Divided { division, end, tiers: leak(&long, division), figures };
    (long, rules, known)
}

fn rule(dice: &mut Dice) -> Made {
    let count = dice.number(8, 300);
    let mut file = top(dice, "rule-metric", (0, count));
    file.word("zero", "none");
    let (long, rules, scale) = main_scale(dice, 1, count, 24);
    file.stage("line", "rule");
    file.length("division", 1);
    file.tiers(&long, 1);
    file.figures(&rules);
    let known = known("rule-metric", (0, count), false, Kind::Rule(scale));
    // In degrees it is a disc at an index line, which has a robot of its own.
    let readable = !file.text.contains("unit = \"deg\"");
    Made { text: file.text, known, readable, in_cells: true }
}

fn known(id: &'static str, range: (i64, i64), can_be_off: bool, kind: Kind) -> Known {
    Known { id, quantum: (1, 1), range, interval: 10, can_be_off, kind }
}

/// Figures of a vernier of so many parts that reads to one quantum.
fn vernier_figures(dice: &mut Dice, parts: i64) -> (Rule, Figures) {
    let every = dice.number(1, 10).max(digits(parts));
    let worth = dice.one(&[1, every]);
    let again = parts / worth;
    let wrap = (again >= 2 && parts % worth == 0 && dice.flip()).then_some(again);
    let figures = Figures { worth, wrap: wrap.map(|wrap| wrap * worth), large: None };
    (Rule { wrap, ..small(every, worth) }, figures)
}

fn pair(dice: &mut Dice) -> Made {
    let parts = dice.number(2, 100);
    // The robot knows by the id how the scales lie and what is added to them.
    let id = dice.one(&[
        "caliper-metric-50",
        "caliper-inch-25-inside",
        "height-gauge-metric",
        "depth-gauge-metric",
        "caliper-metric-50-inside",
    ]);
    let (id, nibs) = match id {
        "caliper-metric-50-inside" if 500 % parts == 0 => (id, 500),
        "caliper-metric-50-inside" => ("caliper-metric-50", 0),
        _ => (id, 0),
    };
    // Upright no vernier runs back.
    let spans = [parts - 1, 2 * parts - 1, parts + 1];
    let over = dice.one(if id == "height-gauge-metric" { &spans[..2] } else { &spans });
    let turns = dice.number(4, 40);
    let range = (nibs, nibs + turns * parts + dice.number(0, parts - 1));
    let mut file = top(dice, id, range);
    if id == "depth-gauge-metric" {
        file.text.push_str("moves = \"main-scale\"\n");
    }
    let reach = (range.1 - nibs + parts - 1) / parts;
    // Two parts over three are long: twice two, less one.
    let backward = over == parts + 1 && parts > 2;
    let needed = if backward { reach } else { reach + over };
    let (long, rules, scale) = main_scale(dice, parts, needed, 12);
    file.stage("line", "main scale");
    match id {
        "caliper-inch-25-inside" => file.word("runs", "right-to-left"),
        "height-gauge-metric" => file.word("runs", "upward"),
        _ => {}
    }
    file.length("division", parts);
    file.tiers(&long, parts);
    file.figures(&rules);
    file.stage("vernier", "vernier");
    file.count("parts", parts);
    file.count("over", over);
    let long = tiers(dice, parts);
    let (figures, told) = vernier_figures(dice, parts);
    file.tiers(&long, 1);
    file.figures(&[figures]);
    if nibs > 0 {
        file.stage("fixed", "nibs");
        file.length("length", nibs);
    }
    let lines = Divided { division: 1, end: parts, tiers: leak(&long, 1), figures: told };
    let kind = Kind::Pair(scale, Sliding { part: over, lines });
    Made {
        text: file.text,
        known: known(id, range, true, kind),
        readable: !backward && parts > 2,
        in_cells: true,
    }
}

fn micrometer(dice: &mut Dice) -> Made {
    let tenths = if dice.number(0, 3) == 0 { Some(dice.number(2, 12)) } else { None };
    let division = tenths.unwrap_or(1);
    let parts = dice.number(2, 100);
    let turn = parts * division;
    let count = dice.number(4, 40);
    let covers = tenths.is_none() && dice.flip();
    let halves = dice.flip();
    let split = halves && tenths.is_none() && dice.flip();
    let frame = dice.one(&[0, count * turn]);
    let end = count * turn;
    let mut file = top(dice, "micrometer-metric", (frame, frame + end));
    if covers {
        file.text.push_str("grows = \"covering\"\n");
    }
    if frame > 0 {
        file.stage("fixed", "frame");
        file.length("length", frame);
    }
    file.stage("line", "sleeve");
    file.length("division", turn);
    let whole = halves.then_some(2 * turn);
    let unit = if halves { 2 } else { 1 };
    // Half lines beside whole ones are told apart by their length, so the whole ones have a tier.
    let mut long: Vec<i64> = tiers(dice, count).iter().map(|tier| tier * unit).collect();
    if halves && !split && !long.contains(&2) {
        long.push(2);
    }
    file.tiers(&long, turn);
    let every = unit * dice.number(1, 8).max(digits(count));
    if covers {
        file.length("end", (count + every - 1) / every * every * turn);
    }
    let worth = dice.one(&[unit * turn, every * turn]);
    file.figures(&[small(every * turn, worth)]);
    let every_turns = every;
    let side = dice.one(&["below", "above"]);
    if let Some(whole) = whole {
        file.length("whole", whole);
    }
    if split {
        file.text.push_str(dice.one(&["halves = [\"below\", \"above\"]\n", "halves = [\"above\"]\n"]));
    } else {
        // A vernier of the robot's stands above the datum line.
        file.word("side", if tenths.is_some() { "below" } else { side });
    }
    file.stage("drum", "thimble");
    file.length("division", division);
    file.count("parts", parts);
    let around = even_tiers(dice, parts);
    file.tiers(&around, division);
    let every = dice.one(&(1..=10).filter(|n| parts % n == 0).collect::<Vec<_>>());
    file.figures(&[small(every * division, division)]);
    let vernier = tenths.map(|lines| {
        file.stage("vernier", "vernier");
        file.count("parts", lines);
        file.count("over", lines - 1);
        file.figures(&[Rule { wrap: Some(lines), ..small(1, 1) }]);
        let figures = Figures { worth: 1, wrap: Some(lines), large: None };
        Sliding { part: lines - 1, lines: Divided { division: 1, end: lines, tiers: &[], figures } }
    });
    let figures = |worth, wrap| Figures { worth, wrap, large: None };
    let reach = if covers { (count + every_turns - 1) / every_turns * every_turns * turn } else { end };
    let barrel = Barrel {
        scale: Divided {
            division: turn,
            end: reach,
            tiers: leak(&long, turn),
            figures: figures(worth, None),
        },
        whole,
        split,
        thimble: Divided {
            division,
            end: turn,
            tiers: leak(&around, division),
            figures: figures(division, Some(turn)),
        },
        vernier,
        covers,
        stamped: None,
    };
    // What is stamped is not asked for here: the robot adds no frame.
    let stands = split || side == "below" || tenths.is_some();
    let readable = frame == 0 && stands && around.len() < 3 && parts >= 10;
    let kind = Kind::Micrometer(barrel);
    let known = known("micrometer-metric", (frame, frame + end), true, kind);
    Made { text: file.text, known, readable, in_cells: parts % 25 == 0 }
}

fn dial(dice: &mut Dice) -> Made {
    let balanced = dice.number(0, 2) == 0;
    let parts = if balanced { 2 * dice.number(2, 50) } else { dice.number(2, 100) };
    let whole = if balanced { parts / 2 } else { parts };
    let counted = if balanced { 0 } else { dice.number(0, 2) };
    let count = if counted == 0 { 1 } else { dice.number(2, 30) };
    let (low, high) = match (balanced, counted) {
        (true, _) => (1 - whole, whole - 1),
        (false, 0) => (0, parts - 1),
        (false, _) => (0, count * parts - 1),
    };
    let collar = counted == 0 && dice.flip();
    let id = if collar { "cross-slide-dial-metric" } else { "dial-indicator-metric-continuous" };
    let mut file = top(dice, id, (low, high));
    file.text.push_str("zero = \"none\"\n");
    let long = tiers(dice, count);
    let every = dice.number(1, 6).max(digits(count));
    let scale = Divided {
        division: parts,
        end: count * parts,
        tiers: leak(&long, parts),
        figures: Figures { worth: parts, wrap: None, large: None },
    };
    if counted > 0 {
        file.stage("line", if counted == 1 { "bar" } else { "counter" });
        file.length("division", parts);
        file.tiers(&long, parts);
        file.figures(&[small(every * parts, parts)]);
    }
    file.stage("dial", "dial");
    file.length("division", 1);
    file.count("parts", parts);
    file.word("face", if balanced { "balanced" } else { "continuous" });
    let sense = dice.one(&[1, -1]);
    if sense < 0 {
        file.word("sense", "counter-clockwise");
    }
    if collar {
        file.word("body", "collar");
    }
    match counted {
        1 => file.word("turns", "bar"),
        2 => file.word("turns", "counter"),
        _ => {}
    }
    let around = even_tiers(dice, whole);
    file.tiers(&around, 1);
    let room: Vec<i64> = (1..=10).filter(|n| whole % n == 0 && *n > digits(whole)).collect();
    if room.is_empty() {
        return dial(dice);
    }
    let every = dice.one(&room);
    file.figures(&[small(every, 1)]);
    let turns = match counted {
        1 => Some(Turns::Bar(scale)),
        2 => Some(Turns::Counter(scale)),
        _ => None,
    };
    let figures = Figures { worth: 1, wrap: None, large: None };
    let gauge = Gauge {
        turns,
        dial: Divided { division: 1, end: parts, tiers: leak(&around, 1), figures },
        every,
        balanced,
        sense,
        counter: sense,
    };
    let known = known(id, (low, high), false, Kind::Dial(gauge));
    let readable = !around.is_empty() && parts >= 30 && parts / every >= 5;
    Made { text: file.text, known, readable, in_cells: true }
}

/// Throws a definition.
pub fn made(dice: &mut Dice) -> Made {
    match dice.number(0, 9) {
        0 | 1 => rule(dice),
        2..=4 => pair(dice),
        5..=7 => micrometer(dice),
        _ => dial(dice),
    }
}

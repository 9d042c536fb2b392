//! Papers and files of sets.

use super::wish::Wish;
use super::*;
use crate::diag::{Diagnostic, SourceText};
use crate::drill::ready::Ready;
use crate::drill::{Conditions, question, trap};
use crate::exact::Quanta;
use crate::instrument::{Catalogue, Zero};
use std::collections::{BTreeMap, BTreeSet};

fn catalogue() -> Catalogue {
    Catalogue::new(Vec::new())
}

fn source(text: &str) -> SourceText {
    SourceText::new("own.toml", text)
}

/// A set of the usual head and these questions.
fn set(head: &str, questions: &str) -> Result<DrillSet, Vec<Diagnostic>> {
    let text = format!("set = \"own\"\ntitle = \"Own\"\n{head}\n[[questions]]\n{questions}\n");
    read(&source(&text), &catalogue())
}

fn good(head: &str, questions: &str) -> DrillSet {
    set(head, questions).unwrap_or_else(|faults| panic!("{head} {questions}: {faults:#?}"))
}

#[test]
fn every_shipped_set_keeps_every_rule() {
    let catalogue = catalogue();
    let shelf = Shelf::new(Vec::new(), &catalogue);
    let (mut ids, mut titles) = (BTreeSet::new(), BTreeSet::new());
    for set in shelf.all() {
        let read = read(&source(&set.text), &catalogue);
        let read = read.unwrap_or_else(|faults| panic!("{}: {faults:#?}", set.id));
        assert_eq!(format!("{:?}", read.portions), format!("{:?}", set.portions), "{}", set.id);
        assert!(set.about.len() > 40, "{}: says whom it is for", set.id);
        assert!(ids.insert(set.id.clone()) && titles.insert(set.title.clone()), "{}", set.id);
        let paper = deal(set, &catalogue, Seed(5));
        assert_eq!(paper.len(), usize::try_from(set.count).expect("a few"), "{}", set.id);
        for item in &paper {
            assert!(item.task(&catalogue).is_some(), "{}: {item:?}", set.id);
        }
    }
    assert_eq!(shelf.ids().collect::<Vec<_>>(), shelf.all().map(|set| &set.id).collect::<Vec<_>>());
    assert!(ids.len() >= 12);
    let passes: Vec<Option<Pass>> = shelf.all().map(|set| set.pass).collect();
    assert!(passes.contains(&Some(Pass::Right(28))));
    assert!(passes.iter().any(|pass| matches!(pass, Some(Pass::Sequential { bad: 800, good: 950, .. }))));
}

/// Every question of a set is what its portion wants: looked at on the question itself, not by the way it was chosen.
#[test]
fn a_paper_holds_what_its_set_asks_for() {
    let catalogue = catalogue();
    let shelf = Shelf::new(Vec::new(), &catalogue);
    for set in shelf.all() {
        let mut blocked = set.clone();
        blocked.order = Order::Blocked;
        for seed in 0..3 {
            let paper = deal(&blocked, &catalogue, Seed(seed));
            let mut paper = paper.iter();
            for (portion, count) in set.portions.iter().zip(deal::shares(set)) {
                for n in 0..usize::try_from(count).expect("a few") {
                    let item = paper.next().expect("as many as the count");
                    assert_eq!(item.instrument, portion.instrument, "{}", set.id);
                    let task = item.task(&catalogue).expect("it can be posed");
                    let part = &task.parts[0];
                    if item.kind != Kind::Read {
                        continue;
                    }
                    let (question, tool) = (&part.question, &part.tool);
                    let size = tool.value(question.setting - question.zero_error);
                    if let Some([low, high]) = portion.within {
                        assert!(low <= size && size <= high, "{}: {size:?}", set.id);
                    }
                    if n < portion.readings.len() {
                        assert_eq!(tool.value(question.setting), portion.readings[n].reading);
                        continue;
                    }
                    match portion.zero {
                        ZeroOff::Always => assert_ne!(question.zero_error, Quanta::ZERO, "{}", set.id),
                        ZeroOff::Never => assert_eq!(question.zero_error, Quanta::ZERO, "{}", set.id),
                        ZeroOff::AsDrawn => {}
                    }
                    if let Some(misread) = portion.provoke.get(n % portion.provoke.len().max(1)) {
                        let wrong = misread.wrong(&question.case(tool));
                        assert!(!wrong.is_empty(), "{}: {} on {question:?}", set.id, misread.id);
                    }
                    let word = question.conditions.word(tool);
                    match portion.conditions {
                        Met::Never => assert_eq!(word, "", "{}", set.id),
                        Met::Always => assert_ne!(word, "", "{}", set.id),
                        Met::AsDrawn => {}
                    }
                }
            }
        }
    }
}

/// Thirty readings: at least three with the zero off, three near a line, on any paper; also where tools without them come first.
#[test]
fn a_spread_check_has_three_of_each() {
    let catalogue = catalogue();
    let shelf = Shelf::new(Vec::new(), &catalogue);
    let check = shelf.get("final-check").expect("shipped").clone();
    let lone = good(
        "count = 30\npass = 28",
        "instrument = \"rule-metric\"\nspread = true\nshare = 4\n[[questions]]\ninstrument = \"caliper-metric-50\"\nspread = true",
    );
    for set in [check, lone] {
        for seed in 0..40 {
            let (mut off, mut near) = (0, 0);
            for item in deal(&set, &catalogue, Seed(seed)) {
                let task = item.task(&catalogue).expect("it can be posed");
                let part = &task.parts[0];
                off += u32::from(part.question.zero_error != Quanta::ZERO);
                near += u32::from(trap::is_trap(&part.question, &part.tool));
            }
            assert!(off >= 3 && near >= 3, "{} {seed}: {off} off, {near} near", set.id);
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_paper_and_another_one_another() {
    let catalogue = catalogue();
    let shelf = Shelf::new(Vec::new(), &catalogue);
    let check = shelf.get("final-check").expect("shipped");
    assert_eq!(deal(check, &catalogue, Seed(1)), deal(check, &catalogue, Seed(1)));
    // What neighbours could copy: the same question at the same place.
    let reads = |item: &Item| {
        let task = item.task(&catalogue).expect("it can be posed");
        let question = &task.parts[0].question;
        (item.instrument.clone(), question.setting, question.zero_error)
    };
    for seed in 1..20 {
        let (one, two) = (deal(check, &catalogue, Seed(seed)), deal(check, &catalogue, Seed(seed + 1)));
        let same = one.iter().zip(&two).filter(|(one, two)| reads(one) == reads(two)).count();
        assert!(same <= 2, "{same} of 30 are the same beside {seed}");
    }
    let fixed = shelf.get("traps-day").expect("shipped");
    assert_eq!(deal(fixed, &catalogue, Seed(1)), deal(fixed, &catalogue, Seed(2)));
}

/// Version 1 of the paper, worked once and never changed: a record names its question by seed and number.
#[test]
fn paper_version_1() {
    let catalogue = catalogue();
    let set = good(
        "count = 9\npass = 8",
        "instrument = \"micrometer-metric\"\nspread = true\nshare = 2\n[[questions]]\n\
         instrument = \"rule-inch-64\"\nfrom = \"1 in\"\nto = \"2 in\"\nconditions = \"never\"",
    );
    let said: Vec<String> = deal(&set, &catalogue, Seed(2026))
        .iter()
        .map(|item| {
            let task = item.task(&catalogue).expect("it can be posed");
            let part = &task.parts[0];
            let Posed::Drawn { seed, number } = item.posed else { panic!("none is given") };
            let [setting, zero] =
                [part.question.setting, part.question.zero_error].map(|at| part.tool.spell(at));
            format!("{} {} {number} {:016x} {setting} {zero}", item.place, item.instrument, seed.0)
        })
        .collect();
    assert_eq!(said, GOLDEN);
}

const GOLDEN: [&str; 9] = [
    "1 micrometer-metric 513 fc3b30147b1d040a 15.47 0.00",
    "2 rule-inch-64 1 040d8db7453a5ee6 1 47/64 0",
    "3 rule-inch-64 1026 040d8db7453a5ee6 1 27/32 0",
    "4 rule-inch-64 521 040d8db7453a5ee6 1 31/64 0",
    "5 micrometer-metric 2 fc3b30147b1d040a 3.33 0.01",
    "6 micrometer-metric 2569 fc3b30147b1d040a 0.53 0.00",
    "7 micrometer-metric 1025 fc3b30147b1d040a 0.87 0.03",
    "8 micrometer-metric 1537 fc3b30147b1d040a 17.52 0.00",
    "9 micrometer-metric 2049 fc3b30147b1d040a 3.32 0.00",
];

/// The cheap look at a question never turns away one that would do.
#[test]
fn a_sketch_is_the_question_it_stands_for() {
    for instrument in catalogue().all() {
        let ready = Ready::new(instrument);
        for number in 1..=120 {
            let (kept, question) = (ready.question(Seed(3), number), question(instrument, Seed(3), number));
            assert_eq!(kept, question, "{} {number}", instrument.id);
            assert_eq!(*ready.tool_of(&question), question.tool(instrument), "{} {number}", instrument.id);
            let Some(sketch) = ready.sketch(Seed(3), number) else { continue };
            let off = [sketch.zero_error, question.zero_error].map(|at| at != Quanta::ZERO);
            assert_eq!(off[0], off[1], "{} {number}", instrument.id);
            assert_eq!(sketch.variant, question.variant, "{} {number}", instrument.id);
            let change = question.conditions.change;
            let odd = question.conditions != Conditions { change, ..Conditions::default() };
            assert!(sketch.may_be_odd || !odd, "{} {number}", instrument.id);
            assert!(instrument.zero == Zero::CanBeOff || !off[0]);
        }
    }
}

/// A variant that is asked for is met by tools with other lengths fitted.
#[test]
fn a_variant_goes_with_any_length() {
    let catalogue = catalogue();
    let set = good(
        "count = 40",
        "instrument = \"depth-micrometer-metric\"\nvariant = \"halves=above\"\nzero = \"never\"",
    );
    let variants: BTreeSet<String> = deal(&set, &catalogue, Seed(4))
        .iter()
        .map(|item| item.task(&catalogue).expect("posed").parts[0].question.variant.word())
        .collect();
    assert!(variants.iter().all(|word| word.starts_with("halves=above")), "{variants:?}");
    assert!(variants.len() > 2, "{variants:?}");
}

/// Settings that come again are of tasks that came before, in a mixed paper as well.
#[test]
fn what_comes_again_has_come_before() {
    use crate::drill::task::Asked;
    let catalogue = catalogue();
    let set = good(
        "count = 40",
        "instrument = \"micrometer-metric\"\nkinds = [\"same-again\"]\n[[questions]]\ninstrument = \"rule-metric\"",
    );
    let paper = deal(&set, &catalogue, Seed(8));
    let (mut seen, mut again) = (BTreeMap::new(), 0);
    for item in paper.iter().filter(|item| item.kind == Kind::SameAgain) {
        let task = item.task(&catalogue).expect("posed");
        if let Asked::Again { of, .. } = task.parts[0].asked {
            assert_eq!(seen.get(&of), Some(&task.parts[0].question.setting));
            again += 1;
        }
        seen.insert(task.number, task.parts[0].question.setting);
    }
    assert!(again >= 4, "{again}");
    assert!(paper.windows(2).any(|pair| pair[0].kind != pair[1].kind), "it is mixed");
}

#[test]
fn nothing_wished_for_is_met_by_anything() {
    assert_eq!(Wish::default().off, None);
    let set = good("count = 3", "instrument = \"rule-metric\"");
    let numbers: Vec<u32> = deal(&set, &catalogue(), Seed(1))
        .iter()
        .map(|item| match item.posed {
            Posed::Drawn { number, .. } => number,
            Posed::Given { .. } => 0,
        })
        .collect();
    let sorted: BTreeSet<u32> = numbers.into_iter().collect();
    assert_eq!(sorted, BTreeSet::from([1, 513, 1025]));
}

/// Every rule, by the smallest set that breaks it: head, questions, code, a word of the message, a word of the fix.
const FAULTS: [(&str, &str, &str, &str, &str); 35] = [
    (
        "count = 5",
        "instrument = \"rule-metrik\"",
        "instrument",
        "rule-metrik",
        "instrument = \"rule-metric\"",
    ),
    ("count = 5\nordre = \"mixed\"", "instrument = \"rule-metric\"", "unknown-key", "ordre", "order = "),
    ("", "instrument = \"rule-metric\"", "missing-key", "count", "count = 20"),
    ("count = 0", "instrument = \"rule-metric\"", "count", "1 and 1000", "count = 1"),
    ("count = 5\ntime = \"10\"", "instrument = \"rule-metric\"", "time", "10 s to 4 h", "time = \"10 min\""),
    ("count = 5\ntime = \"9 h\"", "instrument = \"rule-metric\"", "time", "10 s to 4 h", "time = \"10 min\""),
    (
        "count = 5\norder = \"mixd\"",
        "instrument = \"rule-metric\"",
        "unknown-word",
        "mixd",
        "order = \"mixed\"",
    ),
    ("count = 5\npass = 6", "instrument = \"rule-metric\"", "pass", "6 right of 5", "pass = 5"),
    (
        "count = 5\npass = \"4 of 6\"",
        "instrument = \"rule-metric\"",
        "pass",
        "`count`, 5",
        "pass = \"4 of 5\"",
    ),
    (
        "count = 5\npass = \"seqential\"",
        "instrument = \"rule-metric\"",
        "pass",
        "seqential",
        "\"sequential\"",
    ),
    (
        "count = 5\npass = \"sequential\"",
        "instrument = \"rule-metric\"",
        "count",
        "at least 10",
        "count = 60",
    ),
    (
        "count = 5\npass = 4\nfeedback = \"now\"",
        "instrument = \"rule-metric\"",
        "feedback",
        "at the end",
        "at-the-end",
    ),
    (
        "count = 60\npass = \"sequential\"\norder = \"blocked\"",
        "instrument = \"rule-metric\"",
        "order",
        "mixed",
        "order = \"mixed\"",
    ),
    (
        "count = 60\npass = \"sequential\"\n[sequential]\nbad = \"95 %\"",
        "instrument = \"rule-metric\"",
        "sequential",
        "worse",
        "bad = \"80 %\"",
    ),
    (
        "count = 60\npass = \"sequential\"\n[sequential]\nbad = \"80\"",
        "instrument = \"rule-metric\"",
        "share",
        "100 %",
        "bad = \"80 %\"",
    ),
    ("count = 60\n[sequential]", "instrument = \"rule-metric\"", "sequential", "says nothing", "sequential"),
    ("count = 5\nseed = -1", "instrument = \"rule-metric\"", "seed", "whole number", "seed = 7"),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nkinds = [\"what-now\"]",
        "kinds",
        "no sense on rule-metric",
        "\"read\"",
    ),
    ("count = 5", "instrument = \"rule-metric\"\nkinds = [\"raed\"]", "unknown-word", "raed", "\"read\""),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nkinds = [\"read\"]\nlevel = \"whole\"",
        "level",
        "both",
        "one of the two",
    ),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nlevel = \"hole\"",
        "unknown-word",
        "hole",
        "level = \"whole\"",
    ),
    ("count = 5", "instrument = \"rule-metric\"\nfrom = 10", "bare-number", "`from`", "from = \"10 mm\""),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nfrom = \"1 in\"",
        "wrong-unit",
        "the instrument is in mm",
        "from = \"1 mm\"",
    ),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nto = \"200 mm\"",
        "range",
        "0 mm to 150 mm",
        "to = \"150 mm\"",
    ),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nfrom = \"20 mm\"\nto = \"10 mm\"",
        "range",
        "above `to`",
        "smaller",
    ),
    ("count = 5", "instrument = \"rule-metric\"\nzero = \"always\"", "zero", "no zero", "zero = \"never\""),
    (
        "count = 5",
        "instrument = \"micrometer-metric\"\nvariant = \"halves=abov\"",
        "variant",
        "halves=abov",
        "variant = \"halves=above\"",
    ),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nprovoke = [\"nex-line\"]",
        "unknown-word",
        "nex-line",
        "\"next-line\"",
    ),
    (
        "count = 5",
        "instrument = \"rule-metric\"\nprovoke = [\"half-line-missed\"]",
        "provoke",
        "cannot happen",
        "list misreads",
    ),
    (
        "count = 5",
        "instrument = \"caliper-metric-50\"\nreadings = [\"12.33 mm\"]",
        "reading",
        "between 12.32 mm and 12.34 mm",
        "\"12.32 mm\" or \"12.34 mm\"",
    ),
    (
        "count = 5",
        "instrument = \"caliper-metric-50\"\nreadings = [\"200 mm\"]",
        "reading",
        "out of range",
        "\"150.00 mm\"",
    ),
    (
        "count = 1",
        "instrument = \"rule-metric\"\nreadings = [\"1 mm\", \"2 mm\"]",
        "readings",
        "never asked",
        "`count`",
    ),
    (
        "count = 8",
        "instrument = \"micrometer-metric\"\nkinds = [\"same-again\"]",
        "same-again",
        "needs 9",
        "`count`",
    ),
    (
        "count = 9",
        "instrument = \"micrometer-metric\"\nkinds = [\"same-again\"]\nzero = \"never\"",
        "same-again",
        "none of them can be chosen",
        "take it out",
    ),
    (
        "count = 5",
        "instrument = \"micrometer-metric\"\nfrom = \"10.01 mm\"\nto = \"10.02 mm\"",
        "nothing-fits",
        "of a size",
        "less at once",
    ),
];

#[test]
fn every_rule_names_its_fault_and_the_fix() {
    for (head, questions, code, says, fix) in FAULTS {
        let Err(faults) = set(head, questions) else { panic!("{head} {questions} is let through") };
        let found = faults.iter().find(|fault| fault.code == code);
        let found = found.unwrap_or_else(|| panic!("{head} {questions}: {faults:#?}"));
        assert!(found.message.contains(says), "{head} {questions}: {}", found.message);
        let wanted = found.fix.as_deref().unwrap_or_default();
        assert!(wanted.contains(fix), "{head} {questions}: {wanted}");
        assert_eq!(faults.len(), 1, "{head} {questions}: {faults:#?}");
    }
}

#[test]
fn all_faults_are_named_at_once_each_in_its_place() {
    let text = "set = \"First Rule\"\ntitle = \"\"\ncount = 5\npass = 6\n\n[[questions]]\ninstrument = \"rule-metric\"\nprovoke = [\"half-line-missed\"]\nfrom = \"200 mm\"\n";
    let faults = read(&source(text), &catalogue()).expect_err("it has faults");
    let at: Vec<(&str, &str)> =
        faults.iter().map(|fault| (fault.code, &text[fault.at.span.start..fault.at.span.end])).collect();
    assert_eq!(
        at,
        [
            ("id", "\"First Rule\""),
            ("empty-text", "\"\""),
            ("pass", "6"),
            ("provoke", "\"half-line-missed\""),
            ("range", "\"200 mm\""),
        ]
    );
}

#[test]
fn a_set_has_an_end() {
    let tables = vec!["instrument = \"rule-metric\"\n"; 51].join("[[questions]]\n");
    let faults = set("count = 60", &tables).expect_err("it is too long");
    assert_eq!(faults.iter().map(|fault| fault.code).collect::<Vec<_>>(), ["too-many"]);
}

#[test]
fn a_set_is_known_by_its_keys() {
    assert!(is_set(&source("set = \"x\"\n")));
    assert!(is_set(&source("title = \"x\"\n[[questions]]\n")));
    assert!(!is_set(&source("id = \"x\"\n[[stage]]\n")));
    assert!(!is_set(&source("micrometer-metric = \"8 s\"\n")));
}

#[test]
fn an_instructors_set_takes_the_place_of_a_shipped_one_and_two_of_one_id_are_refused() {
    let own = "set = \"first-rule\"\ntitle = \"Our first rule\"\ncount = 3\n[[questions]]\ninstrument = \"rule-metric\"\n";
    let (one, two) = (SourceText::new("a.toml", own), SourceText::new("b.toml", own));
    let shelf = Shelf::new(vec![one, two, source("set = 1")], &catalogue());
    assert_eq!(shelf.get("first-rule").map(|set| set.title.as_str()), Some("Our first rule"));
    assert_eq!(shelf.ids().next(), Some("first-rule"), "in the place of the shipped one");
    let codes: Vec<&str> = shelf.faults().iter().map(|(_, faults)| faults[0].code).collect();
    assert_eq!(codes, ["id-taken", "missing-key"]);
}

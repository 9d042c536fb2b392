//! Rules seen from outside: files and what is said about them.

mod hostile;
mod stages;

use super::read;
use crate::diag::{Diagnostic, SourceText};
use crate::exact::Quanta;
use crate::instrument::{Catalogue, Form, Grows, Instrument, Origin, Side, Sides, Variant};
use std::fmt::Write as _;

const TENTHS: &str = include_str!("../../../assets/instruments/micrometer-inch-tenths.toml");
const METRIC: &str = include_str!("../../../assets/instruments/micrometer-metric.toml");
const CALIPER: &str = include_str!("../../../assets/instruments/caliper-inch-25.toml");
const RULE: &str = include_str!("../../../assets/instruments/rule-inch-64.toml");

fn faults(text: &str) -> Vec<Diagnostic> {
    read(&SourceText::new("test.toml", text)).err().unwrap_or_default()
}

/// A shipped file with one text replaced.
fn changed(text: &str, from: &str, to: &str) -> String {
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

/// The only fault of a file: its code, the text it marks, its fix.
fn only(text: &str) -> (&'static str, String, String) {
    let found = faults(text);
    assert_eq!(found.len(), 1, "{found:#?}");
    let marked = text[found[0].at.span.start..found[0].at.span.end].to_owned();
    (found[0].code, marked, found[0].fix.clone().expect("every fault has a fix"))
}

fn instrument(text: &str) -> Instrument {
    read(&SourceText::new("test.toml", text)).expect("a good definition")
}

#[test]
fn every_shipped_definition_is_an_instrument_under_its_own_id() {
    let catalogue = Catalogue::new(Vec::new());
    let ids: Vec<&str> = catalogue.ids().collect();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/assets/instruments");
    let files = std::fs::read_dir(folder).expect("the shipped definitions").filter_map(Result::ok);
    let files = files.filter(|entry| entry.path().extension().is_some_and(|end| end == "toml"));
    assert_eq!(ids.len(), files.count());
    for id in ids {
        let title = catalogue.title(id).map(str::to_owned);
        let found = catalogue.get(id).expect("listed");
        assert_eq!(title.as_ref(), Some(&found.title), "{id}");
        assert_eq!(catalogue.title(id), title.as_deref());
        assert_eq!(found.id, id);
        assert_eq!(catalogue.origin(id), Some(&Origin::Shipped));
        assert!(found.settings().count() > 50, "{id}");
    }
    assert!(catalogue.faults().is_empty());
}

#[test]
fn quanta_are_those_of_the_published_geometries() {
    let caliper = instrument(CALIPER);
    assert_eq!(caliper.spell(Quanta(1)), "0.001");
    let (Form::Line(main), Form::Vernier(vernier)) = (&caliper.stages[0].form, &caliper.stages[1].form)
    else {
        panic!("a line and a vernier");
    };
    assert_eq!((main.division, main.end, vernier.part), (Quanta(25), Quanta(6600), Quanta(24)));
    let tenths = instrument(TENTHS);
    let Form::Vernier(vernier) = &tenths.stages[2].form else { panic!("a vernier") };
    assert_eq!((vernier.part, vernier.least_count), (Quanta(9), Quanta(1)));
    let metric = instrument(METRIC);
    let both = [Side::Below, Side::Above].map(|side| Variant::default().with("halves", side.word()));
    assert_eq!(metric.usual(), both);
    let microns = Catalogue::new(Vec::new());
    let microns = microns.get("micrometer-metric-microns").expect("shipped");
    let Form::Line(sleeve) = &microns.stages[0].form else { panic!("a sleeve") };
    assert_eq!(sleeve.sides, Sides::One { side: Side::Below, whole: Some(Quanta(1000)) });
    assert_eq!(instrument(RULE).spell_with_unit(Quanta(67)), "1 3/64 in");
}

#[test]
fn six_faults_are_named_at_once_each_with_its_place_and_a_fix() {
    let text = r#"format = 1
id = "shop-micrometer"
titel = "Outside micrometer"
family = "micrometer"
unit = "mm"
range = ["0 mm", "25 mm"]
least-count = 0.01
engraved = ["0-25 mm"]
source = "common practice"
[[stage]]
form = "line"
name = "sleeve"
division = "0.05 mm"
whole = "1 mm"
halves = ["below"]
tiers = ["1 mm", "5 mm"]
numerals = [{ every = "5 mm", worth = "1 mm" }]
[[stage]]
form = "drum"
name = "thimble"
division = "0.01 mm"
parts = 50
tiers = ["0.05 in"]
numerals = [{ every = "0.05 mm", worth = "0.02 mm" }]
"#;
    let source = SourceText::new("shop.toml", text);
    let found = read(&source).expect_err("six faults");
    let seen: Vec<_> = found
        .iter()
        .map(|fault| (source.line_and_column(fault.at.span.start), fault.code, fault.fix.as_deref()))
        .collect();
    let wanted = [
        ((3, 1), "unknown-key", Some("title = \"Outside micrometer\"")),
        ((7, 15), "bare-number", Some("least-count = \"0.01 mm\"")),
        ((13, 12), "turn", Some("division = \"0.5 mm\" in the stage of the sleeve")),
        ((16, 18), "tiers", Some("tiers = [\"5 mm\", \"1 mm\"]")),
        ((23, 10), "wrong-unit", Some("\"0.05 mm\"")),
        ((24, 42), "figure-worth", Some("worth = \"0.05 mm\"")),
    ];
    assert_eq!(seen, wanted);
}

#[test]
fn syntax_is_judged_with_the_rest_of_the_file() {
    let text = changed(CALIPER, "division = \"0.025 in\"", "division = 0.025 in");
    assert_eq!(only(&text), ("syntax", "0.025 in".into(), "division = \"0.025 in\"".into()));
    let text = changed(CALIPER, "parts = 25", "parts = 25\nparts = 24");
    assert_eq!(only(&text).0, "duplicate-key");
    let text = changed(CALIPER, "[[stage]]", "[[stage]");
    assert_eq!(only(&text).0, "syntax");
    let text = changed(CALIPER, "family = \"caliper\"", "family = \"caliper");
    assert_eq!(only(&text), ("syntax", String::new(), "close the quotes".into()));
    let text = changed(CALIPER, "\"0.001 in\"", "\"0.001 in\" trailing");
    assert_eq!(only(&text).0, "syntax");
}

#[test]
fn each_rule_finds_its_example() {
    let case = |base: &str, from: &str, to: &str, code: &str, fix: &str| {
        let found = only(&changed(base, from, to));
        assert_eq!((found.0, found.2.as_str()), (code, fix), "{to}");
    };
    case(CALIPER, "over = [24, 49]", "over = 25", "no-coincidence", "over = 24");
    case(CALIPER, "over = [24, 49]", "over = 1", "no-coincidence", "over = 24");
    case(
        CALIPER,
        "least-count = \"0.001 in\"",
        "least-count = \"0.0005 in\"",
        "least-count",
        "least-count = \"0.001 in\"",
    );
    case(
        CALIPER,
        "[\"0 in\", \"6 in\"]",
        "[\"6 in\", \"0.5 in\"]",
        "range",
        "range = [\"0.5 in\", \"6 in\"]",
    );
    case(
        CALIPER,
        "division = \"0.025 in\"",
        "division = \"0.025 in\"\nend = \"6 in\"",
        "scale-end",
        "end = \"7.225 in\"",
    );
    case(CALIPER, "\"6 in\"]", "\"6.0005 in\"]", "range", "the next that is: \"6.001 in\"");
    case(CALIPER, "every = \"0.005 in\"", "every = \"0.0025 in\"", "figure-off-line", "every = \"0.003 in\"");
    case(CALIPER, "id = \"caliper-inch-25\"", "id = \"My Caliper\"", "id", "id = \"my-caliper\"");
    case(CALIPER, "id = \"caliper-inch-25\"\n", "", "missing-key", "id = \"rule-inch-64\"");
    case(
        CALIPER,
        "form = \"vernier\"",
        "form = \"ring\"",
        "unknown-word",
        "write one of \"line\", \"drum\", \"dial\", \"vernier\", \"fixed\"",
    );
    case(CALIPER, "parts = 25", "parts = 0", "count", "parts = 2");
    case(CALIPER, "parts = 25", "parts = \"25\"", "wrong-type", "parts = 25");
    case(CALIPER, "\"0.025 in\"", "\"-0.025 in\"", "not-positive", "division = \"0.025 in\"");
    case(CALIPER, "\"0.025 in\"", "\"0.025\"", "no-unit", "division = \"0.025 in\"");
    case(CALIPER, "\"0.025 in\"", "\"0.025 inch\"", "unknown-unit", "division = \"0.025 in\"");
    case(CALIPER, "format = 1", "format = 2", "format", "format = 1");
    case(
        CALIPER,
        "unit = \"in\"\nrange",
        "unit = \"in\"\nnotation = \"fraction\"\nrange",
        "notation",
        "notation = \"decimal\"",
    );
    case(CALIPER, "\"main scale\"", "\"main scale\"\nside = \"above\"", "sides", "take out `side`");
    case(
        CALIPER,
        "\"main scale\"",
        "\"main scale\"\nread = \"nearest\"",
        "read-by",
        "read = \"last-passed\"",
    );
    case(METRIC, "every = \"0.05 mm\"", "every = \"0.25 mm\"", "figures-far", "every = \"0.1 mm\"");
    case(RULE, "every = \"8/64 in\"", "every = \"1/64 in\"", "figures-clash", "every = \"1/32 in\"");
    case(
        RULE,
        "\"rule\"\ndivision",
        "\"rule\"\nruns = \"upward\"\ndivision",
        "runs",
        "runs = \"left-to-right\"",
    );
    case(
        METRIC,
        "division = \"0.5 mm\"",
        "runs = \"right-to-left\"\ndivision = \"0.5 mm\"",
        "runs",
        "runs = \"left-to-right\"",
    );
    case(METRIC, "whole = \"1 mm\"\n", "", "sides", "whole = \"1 mm\"");
    case(METRIC, "whole = \"1 mm\"\nhalves = [\"below\", \"above\"]\n", "", "sides", "side = \"below\"");
    case(METRIC, "parts = 50", "parts = 40", "turn", "parts = 50");
    case(
        METRIC,
        "division = \"0.5 mm\"",
        "division = \"0.05 mm\"",
        "turn",
        "division = \"0.5 mm\" in the stage of the sleeve",
    );
    case(TENTHS, "side = \"above\"", "side = \"below\"", "sides", "side = \"above\"");
    case(
        TENTHS,
        "least-count = \"0.0001 in\"",
        "least-count = \"0.0001 in\"\nsettings = \"0.00015 in\"",
        "settings",
        "settings = \"0.0001 in\"",
    );
    case(
        TENTHS,
        "least-count = \"0.0001 in\"",
        "least-count = \"0.0001 in\"\nsettings = \"0.000001 in\"",
        "too-many-settings",
        "shorten the range or take larger steps",
    );
}

#[test]
fn a_persons_own_file_comes_on_top() {
    let own = changed(CALIPER, "to 0.001 in\"", "in the crib\"");
    let other = changed(RULE, "id = \"rule-inch-64\"", "id = \"shop-rule\"");
    let sources =
        [("mine.toml", own), ("rule.toml", other.clone()), ("again.toml", other), ("bad.toml", "x".into())];
    let catalogue = Catalogue::new(sources.map(|(name, text)| SourceText::new(name, text)).into());
    assert_eq!(
        catalogue.get("caliper-inch-25").map(|i| i.title.as_str()),
        Some("Vernier caliper, 6 in, 25 parts, in the crib")
    );
    let user = |name: &str, overrides_shipped| Origin::User { name: name.into(), overrides_shipped };
    assert_eq!(catalogue.origin("caliper-inch-25"), Some(&user("mine.toml", true)));
    assert_eq!(catalogue.origin("shop-rule"), Some(&user("rule.toml", false)));
    let shipped = Catalogue::new(Vec::new()).ids().count();
    assert_eq!(catalogue.ids().count(), shipped + 1);
    assert_eq!(catalogue.all().count(), shipped + 1);
    let faulty: Vec<_> =
        catalogue.faults().iter().map(|(source, found)| (source.name.as_str(), found[0].code)).collect();
    assert_eq!(faulty, [("again.toml", "id-taken"), ("bad.toml", "syntax")]);
}

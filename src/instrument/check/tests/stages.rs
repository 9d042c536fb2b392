//! Stages: what may stand where, and what is stamped on it.

use super::*;

#[test]
fn lengths_to_choose_from_are_stamped() {
    const DEPTH: &str = include_str!("../../../../assets/instruments/depth-micrometer-inch.toml");
    let depth = instrument(DEPTH);
    assert_eq!((depth.engraved[0].as_str(), depth.stages.len(), depth.choices.len()), ("rod 0-1 in", 2, 1));
    let case = |from: &str, to: &str, code: &str, fix: &str| {
        let found = only(&changed(DEPTH, from, to));
        assert_eq!((found.0, found.2.as_str()), (code, fix), "{to}");
    };
    let six = "\"0 in\", \"1 in\", \"2 in\", \"3 in\", \"4 in\", \"5 in\"";
    case("\"1 in\", \"2 in\"", "\"2 in\", \"1 in\"", "lengths", &format!("lengths = [{six}]"));
    case("\"5 in\"", "\"5.0005 in\"", "fixed-length", "the next that is: \"5.001 in\"");
    case(
        ", \"rod 5-6 in\"",
        "",
        "lengths",
        "stamped = [\"rod 0-1 in\", \"rod 1-2 in\"], a text for each length",
    );
    case("rod 2-3 in", "rod 1-2 in", "lengths", "stamp each length with a text of its own");
    case("\"rod 5-6 in\"", "\"\"", "lengths", "stamp each length with a text of its own");
    case(
        "rod 2-3 in",
        "a rod from two to three in",
        "lengths",
        "write what stands on the tool: \"rod 1-2 in\"",
    );
    case("name = \"rod\"", "name = \"the rod\"", "lengths", "name = \"rod\"");
    case("name = \"rod\"", "name = \"halves\"", "lengths", "name = \"rod\"");
    case("name = \"rod\"", "name = \"rod\"\nlength = \"1 in\"", "lengths", "take out `length`");
    case(
        "name = \"rod\"",
        "name = \"rod\"\npractised = \"some\"",
        "unknown-word",
        "write one of \"all\", \"first\"",
    );
    let one = "[[stage]]\nform = \"fixed\"\nname = \"anvil\"\nlengths = [\"0 in\"]\nstamped = [\"anvil\"]\n\n[[stage]]";
    case("[[stage]]", one, "lengths", "take out this stage, or write a second length");
    case("name = \"sleeve\"", "name = \"sleeve\"\nstamped = [\"x\"]", "unknown-key", STAMPED_ON_A_LINE);
}

const STAMPED_ON_A_LINE: &str = "take it out; the keys are form, name, division, runs, figured, end, tiers, side, whole, halves, figures, numerals, read, estimate, accept, estimated-nought";
const BETWEEN: &str = "put the fixed stage before the first scale or after the last";

#[test]
fn only_a_sleeve_without_a_vernier_is_covered() {
    let case = |base: &str| {
        let text = changed(base, "unit = ", "grows = \"covering\"\nunit = ");
        assert_eq!(only(&text), ("grows", "\"covering\"".into(), "grows = \"uncovering\"".into()));
    };
    case(CALIPER);
    case(RULE);
    case(TENTHS);
    let text = changed(METRIC, "unit = ", "grows = \"covering\"\nunit = ");
    let text = changed(&text, "\"25 mm\"]", "\"23 mm\"]");
    assert_eq!(only(&text), ("grows", "\"5 mm\"".into(), "end = \"25 mm\"".into()));
    assert_eq!(
        instrument(&changed(METRIC, "unit = ", "grows = \"covering\"\nunit = ")).grows,
        Grows::Covering
    );
}

#[test]
fn stages_stand_in_order() {
    let none = format!("{}stage = []\n", &RULE[..RULE.find("[[stage]]").expect("a stage")]);
    assert_eq!(only(&none), ("empty-list", "[]".into(), "[[stage]]".into()));
    let line = RULE.find("[[stage]]").expect("a stage");
    let two = format!("{RULE}{}", &RULE[line..]);
    assert_eq!(only(&two).0, "stage-order");
    let vernier = CALIPER.rfind("[[stage]]").expect("a vernier");
    let (before, after) = CALIPER.split_at(vernier);
    let nibs = "[[stage]]\nform = \"fixed\"\nname = \"nibs\"\nlength = \"0.25 in\"\n";
    let moved = changed(&format!("{before}{nibs}{after}"), "[\"0 in\"", "[\"0.25 in\"");
    assert_eq!(only(&moved), ("stage-order", "\"fixed\"".into(), BETWEEN.into()));
    let twice = format!("{CALIPER}{}", &CALIPER[vernier..]);
    assert_eq!(only(&twice).0, "stage-order");
}

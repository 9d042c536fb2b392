//! A dial's face fits its turn, and what it can show within a turn is all that it is asked.
//!
//! Round a dial the last division meets the first, so long lines and figures must go into the turn (on a balanced face into
//! half of it), or they would stand nearer together somewhere. A balanced face is read plus or minus from its 0: it counts
//! no turns, and half a turn either way reads the same. A dial that stands alone counts no turns either.
//!
//! Example: a balanced face of 100 parts with a range from -0.050 in, which nobody can tell from +0.050 in.

use super::measure::{before, divides, of_shape, spell, start, value};
use crate::diag::Diagnostic;
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Draft, Shape};
use crate::instrument::{Face, Turns};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, dial) in of_shape(def, Shape::Dial) {
        let alone = before(def, at).is_none();
        counting(def, dial, alone, faults);
        let (Some(division), Some(parts)) = (value(dial.division.as_ref()), value(dial.parts.as_ref()))
        else {
            continue;
        };
        let turn = division * Exact::whole(i128::from(parts));
        let whole = if balanced(dial) { turn.over(Exact::whole(2)) } else { turn };
        round(def, dial, whole, faults);
        if alone {
            within(def, dial, whole, faults);
        }
    }
}

fn balanced(dial: &Draft) -> bool {
    value(dial.face.as_ref()) == Some(Face::Balanced)
}

/// A dial after a scale says what that scale is; a dial alone has none.
fn counting(def: &Definition, dial: &Draft, alone: bool, faults: &mut Vec<Diagnostic>) {
    match (&dial.turns, alone) {
        (None, false) => {
            let message = format!("what counts the turns of the {}: a bar or a counter?", dial.called());
            let fault = Diagnostic::new("dial-turns", dial.header.clone(), message);
            faults.push(fault.fix("turns = \"bar\""));
        }
        (Some(turns), true) if turns.value != Turns::Uncounted => {
            let message = format!("no stage before the {} counts its turns", dial.called());
            let fault = Diagnostic::new("dial-turns", turns.span.clone(), message);
            faults.push(fault.fix("take out `turns`, or put the stage of the bar before the dial"));
        }
        _ => {}
    }
    if let Some(face) = dial.face.as_ref().filter(|face| face.value == Face::Balanced)
        && !alone
    {
        let message = format!("the {} is figured both ways, so it counts no turns", dial.called());
        let mut fault = Diagnostic::new("dial-face", face.span.clone(), message);
        if let Some(coarse) = def.stages.first() {
            fault = fault.related(coarse.header.clone(), "counts turns");
        }
        faults.push(fault.fix("face = \"continuous\""));
    }
    if balanced(dial)
        && let Some(parts) = dial.parts.as_ref().filter(|parts| parts.value % 2 != 0)
    {
        let message = format!("a balanced face has as many parts on both sides; {} cannot be", parts.value);
        let fault = Diagnostic::new("dial-face", parts.span.clone(), message);
        faults.push(fault.fix(format!("parts = {}", parts.value + 1)));
    }
}

fn round(def: &Definition, dial: &Draft, whole: Exact, faults: &mut Vec<Diagnostic>) {
    let figures = dial.numerals.iter().flatten().filter_map(|rule| rule.every.as_ref());
    for (what, every) in
        dial.tiers.iter().map(|tier| ("long line", tier)).chain(figures.map(|every| ("figure", every)))
    {
        if divides(every.value, whole) {
            continue;
        }
        let message = format!(
            "a {what} every {} does not come out even round the {}, which has {}",
            spell(def, every.value),
            dial.called(),
            spell(def, whole)
        );
        let fault = Diagnostic::new("dial-round", every.span.clone(), message);
        faults.push(fault.fix(format!("write a part of {}", spell(def, whole))));
    }
}

/// A dial alone is read within its turn.
fn within(def: &Definition, dial: &Draft, whole: Exact, faults: &mut Vec<Diagnostic>) {
    let start = start(def);
    let lowest = if balanced(dial) { Exact::ZERO - whole } else { start };
    for (end, beyond) in [
        (&def.low, def.low.as_ref().is_some_and(|low| balanced(dial) && low.value - start <= lowest)),
        (&def.high, def.high.as_ref().is_some_and(|high| high.value - start >= whole)),
    ] {
        let Some(end) = end.as_ref().filter(|_| beyond) else { continue };
        let message = format!(
            "the {} shows less than {} {}; {} would be read as something else",
            dial.called(),
            spell(def, whole),
            if balanced(dial) { "either way" } else { "in all" },
            spell(def, end.value)
        );
        let mut fault = Diagnostic::new("dial-range", end.span.clone(), message);
        if let Some(division) = &dial.division {
            fault = fault.related(division.span.clone(), "its division");
        }
        faults.push(fault.fix(format!("keep the range within {}", spell(def, whole))));
    }
}

#[cfg(test)]
mod tests {
    use crate::diag::SourceText;
    use crate::exact::Quanta;
    use crate::instrument::check::read;
    use crate::instrument::{Catalogue, Form, Sense};

    const CALIPER: &str = include_str!("../../../assets/instruments/dial-caliper-inch.toml");
    const BALANCED: &str = include_str!("../../../assets/instruments/dial-indicator-inch-balanced.toml");
    const COLLAR: &str = include_str!("../../../assets/instruments/cross-slide-dial-inch.toml");

    fn changed(text: &str, from: &str, to: &str) -> String {
        assert!(text.contains(from), "{from}");
        text.replacen(from, to, 1)
    }

    /// The only fault of a changed file: its code and what it marks.
    fn only(text: &str) -> (&'static str, String) {
        let found = read(&SourceText::new("test.toml", text)).expect_err("a fault");
        assert_eq!(found.len(), 1, "{found:#?}");
        assert!(found[0].fix.is_some());
        (found[0].code, text[found[0].at.span.start..found[0].at.span.end].to_owned())
    }

    #[test]
    fn each_rule_finds_its_example() {
        let cases = [
            (changed(CALIPER, "parts = 100", "parts = 50"), "turn", "\"0.001 in\""),
            (changed(CALIPER, "turns = \"bar\"\n", ""), "dial-turns", "[[stage]]"),
            (changed(COLLAR, "body", "turns = \"counter\"\nbody"), "dial-turns", "\"counter\""),
            (changed(CALIPER, "continuous", "balanced"), "dial-face", "\"balanced\""),
            (changed(CALIPER, "face = \"continuous\"\n", ""), "missing-key", "[[stage]]"),
            (changed(COLLAR, "\"0.005 in\"]", "\"0.003 in\"]"), "dial-round", "\"0.003 in\""),
            (changed(COLLAR, "0.099 in", "0.100 in"), "dial-range", "\"0.100 in\""),
            (changed(BALANCED, "-0.049 in", "-0.050 in"), "dial-range", "\"-0.050 in\""),
            (changed(COLLAR, "[\"0 in", "[\"-0.010 in"), "not-positive", "\"-0.010 in\""),
            (changed(BALANCED, "every = \"0.01 in", "every = \"0.001 in"), "figures-clash", "\"0.001 in\""),
        ];
        for (text, code, marked) in cases {
            assert_eq!(only(&text), (code, marked.to_owned()), "{code}");
        }
    }

    #[test]
    fn a_reversed_face_is_a_key() {
        let text = changed(CALIPER, "face =", "sense = \"counter-clockwise\"\nface =");
        let found = read(&SourceText::new("test.toml", text)).expect("a good definition");
        let Form::Dial(dial) = &found.stages[1].form else { panic!("a dial") };
        assert_eq!((dial.sense, dial.turn()), (Sense::CounterClockwise, Quanta(100)));
    }

    #[test]
    fn a_balanced_face_goes_below_nought() {
        let catalogue = Catalogue::new(Vec::new());
        let lever = catalogue.get("lever-indicator-metric").expect("shipped");
        assert_eq!((lever.low, lever.high), (Quanta(-39), Quanta(39)));
        assert_eq!(lever.settings().count(), 79);
    }
}

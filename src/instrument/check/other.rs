//! A second set of scales that hangs together with the first.
//!
//! Both sets are a main scale and a vernier, nothing else, and nothing is fitted. On one jaw both lie level, figures growing to
//! the right, and where one of them stands at an end of its range the other one still shows where it stands.
//!
//! Example: an inch scale of 6 in above millimetres with `end = "169 mm"`: at 6 in the vernier needs 171.4 mm.

use super::measure::{end, of_shape, round_up, spell, value, vernier};
use crate::diag::{Diagnostic, Span};
use crate::exact::{Exact, Unit};
use crate::instrument::schema::{Definition, Second, Shape, shown};
use crate::instrument::{Course, Joined, Runs};

/// Characters of the word for a set.
const WORD: usize = 12;

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let Some(second) = &def.other else { return };
    words(second, faults);
    for scales in [def, &second.scales] {
        forms(scales, faults);
    }
    let on_one_jaw = value(second.joined.as_ref()).is_some_and(|joined| joined != Joined::OwnSlide);
    if on_one_jaw {
        for (scales, beside) in [(def, &second.scales), (&second.scales, def)] {
            courses(scales, faults);
            reach(scales, beside, faults);
        }
    }
}

fn words(second: &Second, faults: &mut Vec<Diagnostic>) {
    let plain = |word: &str| {
        word.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
            && word.chars().count() <= WORD
    };
    let fix = "reads = [\"mm\", \"in\"]";
    for word in second.reads.iter().filter(|word| !plain(&word.value)) {
        let message = format!(
            "\"{}\" is no word for a set of scales: small letters, digits and hyphens, at most {WORD}",
            shown(&word.value)
        );
        faults.push(Diagnostic::new("reads", word.span.clone(), message).fix(fix));
    }
    let place = |n: usize| second.reads.get(n).map_or(&second.scales.top, |word| &word.span).clone();
    if let [first, other] = &second.reads[..] {
        if first.value == other.value {
            let message = "both sets of scales have the same word".to_owned();
            faults.push(Diagnostic::new("reads", other.span.clone(), message).fix(fix));
        }
    } else {
        let message = "`reads` is two words: one for the scales of the file, one for these".to_owned();
        faults.push(Diagnostic::new("reads", place(2), message).fix(fix));
    }
}

/// A main scale and its vernier, and nothing that is chosen.
fn forms(scales: &Definition, faults: &mut Vec<Diagnostic>) {
    let shapes: Vec<Option<Shape>> = scales.stages.iter().map(super::super::schema::Draft::shape).collect();
    if shapes.is_empty() || shapes.contains(&None) || shapes == [Some(Shape::Line), Some(Shape::Vernier)] {
        return;
    }
    let place: Span = scales.stages.last().map_or(scales.top.clone(), |stage| stage.header.clone());
    let message = "of two sets of scales each is a main scale and a vernier, and nothing else".to_owned();
    let fault = Diagnostic::new("other", place, message);
    faults.push(fault.fix("write the tool without `[other]`, or with two stages in each set"));
}

fn courses(scales: &Definition, faults: &mut Vec<Diagnostic>) {
    for (_, line) in of_shape(scales, Shape::Line) {
        if let Some(runs) = line.runs.as_ref().filter(|runs| runs.value != Course::Rightward) {
            let message = "two scales on one jaw both run from left to right".to_owned();
            faults.push(Diagnostic::new("runs", runs.span.clone(), message).fix("runs = \"left-to-right\""));
        }
    }
    for (at, stage) in of_shape(scales, Shape::Vernier) {
        if vernier(scales, at).is_some_and(|vernier| vernier.runs == Runs::Backward) {
            let message = "two verniers on one slide both run the way their scales grow".to_owned();
            let span = stage.over.as_ref().map_or(&stage.header, |over| &over.span).clone();
            let parts = value(stage.parts.as_ref()).unwrap_or(10);
            faults.push(Diagnostic::new("other", span, message).fix(format!("over = {}", parts - 1)));
        }
    }
}

/// A scale must reach as far as the jaw opens on the other one, and by its vernier's span more.
fn reach(scales: &Definition, beside: &Definition, faults: &mut Vec<Diagnostic>) {
    let unit = |of: &Definition| value(of.unit.as_ref());
    let (Some(here), Some(there)) = (unit(scales), unit(beside)) else { return };
    let Some(high) = &beside.high else { return };
    if (here == Unit::Minute) != (there == Unit::Minute) {
        let span = scales.unit.as_ref().map_or(&scales.top, |unit| &unit.span).clone();
        let message = "one jaw does not open by an angle and by a length".to_owned();
        faults.push(Diagnostic::new("other", span, message).fix("unit = \"mm\""));
        return;
    }
    let in_millimetres = crate::instrument::other::millimetres;
    let opened = (high.value * in_millimetres(there)).over(in_millimetres(here));
    for (at, line) in of_shape(scales, Shape::Line) {
        let span = (at + 1..scales.stages.len()).find_map(|next| {
            let parts = value(scales.stages[next].parts.as_ref())?;
            Some(vernier(scales, next)?.part * Exact::whole(i128::from(parts)))
        });
        let (Some(span), Some(division), Some(end)) = (span, &line.division, end(scales, at)) else {
            continue;
        };
        // The setting drawn is the nearest one, which may be a little further out.
        let needed = round_up(opened + span, division.value);
        if end < needed {
            let message = format!(
                "the {} ends at {}; where the other one reads {} it needs {}",
                line.called(),
                spell(scales, end),
                spell(beside, high.value),
                spell(scales, needed)
            );
            let place = line.end.as_ref().map_or(&line.header, |end| &end.span).clone();
            let fault =
                Diagnostic::new("scale-end", place, message).related(high.span.clone(), "so far it opens");
            faults.push(fault.fix(format!("end = \"{}\"", spell(scales, needed))));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::diag::SourceText;
    use crate::exact::{Exact, Quanta};
    use crate::instrument::check::read;
    use crate::instrument::{Catalogue, Set, Variant};

    const TWO: &str = include_str!("../../../assets/instruments/caliper-two-scale.toml");
    const GEAR: &str = include_str!("../../../assets/instruments/gear-tooth-inch.toml");

    /// The only fault of a file with one text replaced: its code and its fix.
    fn only(text: &str, from: &str, to: &str) -> (&'static str, String) {
        assert!(text.contains(from), "{from}");
        let source = SourceText::new("test.toml", text.replacen(from, to, 1));
        let found = read(&source).expect_err("a fault");
        assert_eq!(found.len(), 1, "{found:#?}");
        (found[0].code, found[0].fix.clone().expect("every fault has a fix"))
    }

    #[test]
    fn what_does_not_hang_together_is_refused() {
        let end = ("scale-end", "end = \"172 mm\"".to_owned());
        assert_eq!(only(TWO, "end = \"172 mm\"", "end = \"171 mm\""), end);
        let words = ("reads", "reads = [\"mm\", \"in\"]".to_owned());
        for reads in ["[\"mm\"]", "[\"mm\", \"mm\"]", "[\"mm\", \"in\", \"cm\"]", "[\"mm\", \"two words\"]"] {
            assert_eq!(only(TWO, "[\"mm\", \"in\"]", reads), words, "{reads}");
        }
        let joined = "joined = \"above\"";
        assert_eq!(only(TWO, joined, "joined = \"abov\""), ("unknown-word", joined.to_owned()));
        assert_eq!(only(TWO, joined, "").0, "missing-key");
        let runs = ("runs", "runs = \"left-to-right\"".to_owned());
        let line = "end = \"172 mm\"";
        assert_eq!(only(TWO, line, "end = \"172 mm\"\nruns = \"right-to-left\""), runs);
        let source = SourceText::new("test.toml", GEAR.replacen("\"own-slide\"", "\"above\"", 1));
        let codes: Vec<&str> =
            read(&source).expect_err("an upright scale").iter().map(|fault| fault.code).collect();
        assert_eq!(codes, ["scale-end", "runs"]);
        assert_eq!(only(TWO, "[other]", "[other]\ngrows = \"covering\"").0, "unknown-key");
        let rod = "[[stage]]\nform = \"fixed\"\nname = \"frame\"\nlength = \"25 mm\"\n\n[other]";
        let with_rod = TWO.replacen("[\"0 mm\", \"150 mm\"]", "[\"25 mm\", \"150 mm\"]", 1);
        assert_eq!(only(&with_rod, "[other]", rod).0, "other");
    }

    #[test]
    fn a_variant_turns_the_sets_round_and_back() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("caliper-two-scale").expect("shipped");
        let inches = tool.fitted(&tool.variant("reads=in").expect("a set"));
        assert_eq!(
            (inches.spell_with_unit(inches.high), inches.id.as_str()),
            ("6 in".to_owned(), "caliper-two-scale")
        );
        assert_eq!(inches.other.as_ref().map(|other| other.read), Some(Set::Second));
        assert_eq!(inches.fitted(&Variant::default()), *tool);
        assert_eq!(inches.fitted(&inches.plain()), inches);
        assert_eq!(tool.variant("reads=cm"), None);
        assert_eq!(tool.offered(), ["reads=mm|in"]);
        // 12.35 mm is 62.236 of 128ths, 1 in is 25.4 mm.
        assert_eq!(tool.setting_beside(&inches, Quanta(247)), Quanta(62));
        assert_eq!(tool.value(inches.setting_beside(tool, Quanta(128))), Exact::ratio(127, 5));
    }
}

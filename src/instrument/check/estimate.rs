//! A digit is estimated where nothing finer gives it, as finely as an eye can, and the file says what is accepted.
//!
//! `estimate` is what one step of the judged digit is worth: half a division to a tenth of one. `accept` is how far off an
//! answer may be either way, whole steps and at most half a division. With `read = "estimate"` the digit is always asked for,
//! else only where someone wants it.
//!
//! Example: `estimate = "0.0001 in"` on a thimble that a vernier divides.

use super::measure::{after, counts, divides, spell};
use crate::diag::{Diagnostic, Span};
use crate::exact::Exact;
use crate::instrument::schema::{Definition, Draft, Shape, Style, Written};
use crate::instrument::{MOST_PARTS, ReadBy};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, stage) in def.stages.iter().enumerate() {
        let always = stage.read.as_ref().filter(|read| read.value == ReadBy::Estimate);
        if let Some(read) = always {
            reading(def, at, stage, read, faults);
        }
        match &stage.estimate {
            Some(estimate) => digit(def, at, stage, estimate, faults),
            None => without(stage, faults),
        }
    }
}

/// `read = "estimate"` needs a scale of lines, and the fineness.
fn reading(def: &Definition, at: usize, stage: &Draft, read: &Written<ReadBy>, faults: &mut Vec<Diagnostic>) {
    if !matches!(stage.shape(), Some(Shape::Line | Shape::Drum)) {
        let message = format!(
            "the {} is read at its nearest line; digits are estimated on scales and thimbles",
            stage.called()
        );
        faults.push(Diagnostic::new("estimate", read.span.clone(), message).fix("read = \"nearest\""));
    } else if stage.estimate.is_none() {
        let message = "the file does not say how finely the digit is judged".to_owned();
        let tenth = counts(def, at).map(|division| division.over(Exact::whole(i128::from(MOST_PARTS.0))));
        let fix = tenth.map_or_else(String::new, |tenth| format!("estimate = \"{}\"", spell(def, tenth)));
        faults.push(Diagnostic::new("estimate", read.span.clone(), message).fix(fix));
    }
}

fn without(stage: &Draft, faults: &mut Vec<Diagnostic>) {
    let accept = stage.accept.as_ref().map(|accept| ("accept", accept.span.clone()));
    let nought = stage.nought.as_ref().map(|nought| ("estimated-nought", nought.span.clone()));
    for (key, span) in accept.into_iter().chain(nought) {
        let message = format!("`{key}` belongs to a digit that is estimated");
        faults.push(
            Diagnostic::new("estimate", span, message)
                .fix(format!("take out `{key}`, or write `estimate` too")),
        );
    }
}

fn digit(
    def: &Definition,
    at: usize,
    stage: &Draft,
    estimate: &Written<Exact>,
    faults: &mut Vec<Diagnostic>,
) {
    let mut say = |span: &Span, message: String, fix: String, related: Option<(&Span, &str)>| {
        let mut fault = Diagnostic::new("estimate", span.clone(), message);
        if let Some((span, word)) = related {
            fault = fault.related(span.clone(), word);
        }
        faults.push(fault.fix(fix));
    };
    if let Some(next) = after(def, at) {
        let next = &def.stages[next];
        let message = format!(
            "the {} is divided by the {}: nothing is left to estimate",
            stage.called(),
            next.called()
        );
        return say(
            &estimate.span,
            message,
            "take out `estimate`".to_owned(),
            Some((&next.header, "gives the rest")),
        );
    }
    let Some(division) = &stage.division else { return };
    let parts = division.value.over(estimate.value).to_whole();
    if !parts.is_some_and(|parts| (2..=i128::from(MOST_PARTS.0)).contains(&parts)) {
        let message = format!(
            "between lines {} apart an eye tells halves to tenths, not {}",
            spell(def, division.value),
            spell(def, estimate.value)
        );
        let tenth = division.value.over(Exact::whole(i128::from(MOST_PARTS.0)));
        return say(
            &estimate.span,
            message,
            format!("estimate = \"{}\"", spell(def, tenth)),
            Some((&division.span, "the division")),
        );
    }
    let places = estimate.value.decimal_places().is_some_and(|places| places <= 9);
    let halves = estimate.value.numerator() == 1 && estimate.value.denominator().count_ones() == 1;
    match def.style.as_ref().map(|style| style.value) {
        Some(Style::Fraction) if !halves => {
            let message = format!("{} is no power of a half, so no fraction", spell(def, estimate.value));
            let half = division.value.over(Exact::whole(2));
            say(&estimate.span, message, format!("estimate = \"{}\"", spell(def, half)), None);
        }
        None | Some(Style::Decimal) if !places => {
            let message = format!("{} cannot be written in decimals", spell(def, estimate.value));
            say(&estimate.span, message, "write a fineness with at most nine decimals".to_owned(), None);
        }
        _ => {}
    }
    let example = format!("accept = \"{}\"", spell(def, estimate.value));
    let half = division.value.over(Exact::whole(2));
    match &stage.accept {
        None => {
            let message = "the file does not say how far off an estimated digit may be".to_owned();
            say(&estimate.span, message, example, None);
        }
        Some(accept) if !divides(estimate.value, accept.value) => {
            let message =
                format!("{} is no whole number of {}", spell(def, accept.value), spell(def, estimate.value));
            say(&accept.span, message, example, Some((&estimate.span, "one step of the digit")));
        }
        Some(accept) if accept.value > half => {
            let message = format!("{} either way is more than half a division", spell(def, accept.value));
            say(&accept.span, message, example, Some((&division.span, "the division")));
        }
        Some(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use crate::diag::SourceText;
    use crate::exact::{Notation, Quanta};

    const METRIC: &str = include_str!("../../../assets/instruments/micrometer-metric.toml");
    const TENTHS: &str = include_str!("../../../assets/instruments/micrometer-inch-tenths.toml");
    const DIAL: &str = include_str!("../../../assets/instruments/lever-indicator-metric.toml");

    #[track_caller]
    fn case(text: &str, from: &str, to: &str, fix: &str) {
        assert!(text.contains(from), "{from}");
        let found = read(&SourceText::new("test.toml", text.replacen(from, to, 1))).expect_err(to);
        let all: Vec<_> = found.iter().map(|fault| (fault.code, fault.fix.as_deref())).collect();
        assert_eq!(all, [("estimate", Some(fix))], "{found:#?}");
    }

    #[test]
    fn a_digit_is_estimated_where_that_makes_sense() {
        let finest = "estimate = \"0.001 mm\"";
        case(METRIC, finest, "estimate = \"0.0001 mm\"", "estimate = \"0.001 mm\"");
        case(METRIC, finest, "estimate = \"0.01 mm\"", "estimate = \"0.001 mm\"");
        case(METRIC, "accept = \"0.002 mm\"\n", "", "accept = \"0.001 mm\"");
        case(METRIC, "accept = \"0.002 mm\"", "accept = \"0.0015 mm\"", "accept = \"0.001 mm\"");
        case(METRIC, "accept = \"0.002 mm\"", "accept = \"0.006 mm\"", "accept = \"0.001 mm\"");
        let drum = "name = \"thimble\"";
        let keys = "name = \"thimble\"\nestimate = \"0.0001 in\"\naccept = \"0.0001 in\"";
        case(TENTHS, drum, keys, "take out `estimate`");
        let only = "name = \"thimble\"\nestimated-nought = \"required\"";
        case(TENTHS, drum, only, "take out `estimated-nought`, or write `estimate` too");
        case(DIAL, "form = \"dial\"", "form = \"dial\"\nread = \"estimate\"", "read = \"nearest\"");
    }

    /// A school that always estimates writes one word into the definition.
    #[test]
    fn a_definition_may_always_want_the_digit() {
        let text = METRIC.replacen("name = \"thimble\"", "name = \"thimble\"\nread = \"estimate\"", 1);
        let tool = read(&SourceText::new("test.toml", text)).expect("a good definition");
        assert!(tool.is_estimated());
        assert_eq!((tool.step, tool.least_count), (Quanta(1), Quanta(10)));
        assert_eq!(tool.notation, Notation::Decimal { places: 3 });
        assert_eq!(tool.spell_with_unit(Quanta(8350)), "8.350 mm");
        assert_eq!(tool.settings().count(), 25_001);
    }
}

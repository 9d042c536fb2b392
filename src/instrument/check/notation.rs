//! Readings can be written the way the file says.
//!
//! Fractions are for inch scales whose least count is a power of a half; degrees and minutes are for angles and for nothing
//! else; decimals need a least count that decimals write exactly.
//!
//! Example: `notation = "fraction"` with `least-count = "0.001 in"`, which would print 57/200.

use super::measure::spell;
use crate::diag::Diagnostic;
use crate::exact::Unit;
use crate::instrument::schema::{Definition, Style};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    let (Some(unit), Some(least)) = (&def.unit, &def.least_count) else { return };
    let usual = if unit.value == Unit::Minute { Style::Angle } else { Style::Decimal };
    let style = def.style.as_ref().map_or(usual, |style| style.value);
    let place = def.style.as_ref().map_or(&least.span, |style| &style.span);
    let angle = (style == Style::Angle) == (unit.value == Unit::Minute);
    let denominator = least.value.denominator();
    let (message, fix) = match style {
        _ if !angle => {
            (format!("readings in {} are not written that way", unit.value), "take out `notation`".to_owned())
        }
        Style::Fraction if unit.value != Unit::Inch => {
            ("fractions are for inch scales".to_owned(), "notation = \"decimal\"".to_owned())
        }
        Style::Fraction if denominator & (denominator - 1) != 0 || least.value.numerator() != 1 => (
            format!(
                "a least count of {} is no power of a half, so no fraction scale",
                spell(def, least.value)
            ),
            "notation = \"decimal\"".to_owned(),
        ),
        Style::Decimal if least.value.decimal_places().is_none_or(|places| places > 9) => (
            format!("a least count of {} cannot be written in decimals", spell(def, least.value)),
            "write a least count with at most nine decimals".to_owned(),
        ),
        Style::Angle | Style::Fraction | Style::Decimal => return,
    };
    let mut fault = Diagnostic::new("notation", place.clone(), message).fix(fix);
    if def.style.is_some() {
        let span = if angle { least.span.clone() } else { unit.span.clone() };
        fault = fault.related(span, "");
    }
    faults.push(fault);
}

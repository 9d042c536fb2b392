//! Quantities: quoted, with the file's unit, exact and of a size an instrument can have.

use super::Written;
use super::reader::{Fields, Reader};
use super::text::{corrected, shown};
use crate::diag::{Diagnostic, Span};
use crate::exact::{Exact, Quantity, QuantityFault, Unit};
use toml::Spanned;
use toml::de::DeValue;

/// Which quantities a key takes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sign {
    /// Above nought.
    Positive,
    /// Nought or above.
    NotNegative,
    /// Below nought as well: a face that is read plus or minus.
    Any,
}

/// Units an instrument may span.
const LARGEST: i128 = 100_000;
/// Parts of a unit that a length may be given in.
const FINEST: i128 = 1_000_000;

impl Reader<'_> {
    /// A quantity.
    pub(crate) fn quantity(&mut self, fields: &Fields<'_>, key: &str, sign: Sign) -> Option<Written<Exact>> {
        fields.get(key).and_then(|value| self.quantity_of(key, value, sign))
    }

    /// As [`Self::quantity`], of a value.
    pub(crate) fn quantity_of(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        sign: Sign,
    ) -> Option<Written<Exact>> {
        let span = Span::from(value.span());
        let text = match value.get_ref() {
            DeValue::String(text) => text.as_ref(),
            DeValue::Integer(_) | DeValue::Float(_) => {
                self.bare_number(key, &span);
                return None;
            }
            _ => {
                let fix = corrected(key, self.example());
                self.wrong_type(key, value, "a quantity in quotes", fix);
                return None;
            }
        };
        match Quantity::parse(text) {
            Ok(quantity) => self.judged(key, text, quantity, sign, span),
            Err(fault) => {
                self.no_quantity(key, text, fault, span);
                None
            }
        }
    }

    /// Quantities of a list.
    pub(crate) fn quantities(&mut self, fields: &Fields<'_>, key: &str) -> Vec<Written<Exact>> {
        let line = format!("{key} = [\"{}\"]", self.example());
        let items = self.list(fields, key, &line).unwrap_or_default();
        items.iter().filter_map(|item| self.quantity_of(key, item, Sign::Positive)).collect()
    }

    /// A quantity in the file's unit, to be shown.
    fn example(&self) -> &'static str {
        match self.unit.as_ref().map(|unit| unit.value) {
            Some(Unit::Inch) | None => "0.025 in",
            Some(Unit::Millimetre) => "0.5 mm",
            Some(Unit::Minute) => "1 deg",
        }
    }

    fn symbol(&self) -> &'static str {
        self.unit.as_ref().map_or("in", |unit| unit.value.symbol())
    }

    fn bare_number(&mut self, key: &str, span: &Span) {
        let digits = self.text_at(span).replace('_', "");
        let fixed = format!("{digits} {}", self.symbol());
        let (fix, message) = if Quantity::parse(&fixed).is_ok() {
            (corrected(key, &fixed), format!("`{key}` is a bare number"))
        } else {
            (corrected(key, self.example()), format!("`{key}` is {}, which is no length", shown(&digits)))
        };
        let fault = Diagnostic::new("bare-number", span.clone(), message);
        self.push(fault.label("a quantity stands in quotes with its unit").fix(fix));
    }

    fn no_quantity(&mut self, key: &str, text: &str, fault: QuantityFault, span: Span) {
        let (text, symbol) = (text.trim(), self.symbol());
        let (code, fix) = match fault {
            QuantityFault::NoUnit => ("no-unit", corrected(key, &format!("{} {symbol}", shown(text)))),
            QuantityFault::UnknownUnit => {
                let digits = text.trim_end_matches(|c: char| !c.is_ascii_digit());
                let fixed = format!("{digits} {symbol}");
                let fixed = if Quantity::parse(&fixed).is_ok() { fixed } else { self.example().to_owned() };
                ("unknown-unit", corrected(key, &fixed))
            }
            QuantityFault::TooLong => {
                ("too-many-digits", "write at most nine digits before and after the point".to_owned())
            }
            QuantityFault::NotANumber | QuantityFault::OverNought => {
                ("not-a-quantity", corrected(key, self.example()))
            }
        };
        let message = format!("`{key}` cannot be \"{}\": {fault}", shown(text));
        self.push(Diagnostic::new(code, span, message).fix(fix));
    }

    fn judged(
        &mut self,
        key: &str,
        text: &str,
        quantity: Quantity,
        sign: Sign,
        span: Span,
    ) -> Option<Written<Exact>> {
        let value = quantity.value;
        if let Some(unit) = self.unit.clone().filter(|unit| unit.value != quantity.unit) {
            let number = text.trim().trim_end_matches(|c: char| !c.is_ascii_digit());
            let message =
                format!("`{key}` is in {}, {} is in {}", quantity.unit, self.sort.in_unit, unit.value);
            let fault = Diagnostic::new("wrong-unit", span, message);
            self.push(
                fault
                    .related(unit.span, "the unit of every quantity")
                    .fix(corrected(key, &format!("{} {}", shown(number), unit.value))),
            );
            return None;
        }
        let too_low = match sign {
            Sign::Positive => value <= Exact::ZERO,
            Sign::NotNegative => value < Exact::ZERO,
            Sign::Any => false,
        };
        if too_low {
            let wanted = if sign == Sign::Positive { "above nought" } else { "nought or above" };
            let message = format!("`{key}` is \"{}\"; it must be {wanted}", shown(text));
            let positive = text.trim().trim_start_matches(['-', '\u{2212}', ' ']);
            let fix = if value == Exact::ZERO { self.example().to_owned() } else { shown(positive) };
            self.push(Diagnostic::new("not-positive", span, message).fix(corrected(key, &fix)));
            return None;
        }
        if value > Exact::whole(LARGEST) || value.denominator() > FINEST {
            let message = format!(
                "`{key}` is \"{}\"; no instrument is that {}",
                shown(text),
                if value > Exact::whole(LARGEST) { "long" } else { "fine" }
            );
            self.push(Diagnostic::new("out-of-reach", span, message).fix(corrected(key, self.example())));
            return None;
        }
        Some(Written { value, span })
    }
}

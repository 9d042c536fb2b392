//! Reads keys from a table and collects what is wrong with them.

use super::Written;
use super::keys::{Key, Need};
use super::sort::Sort;
use super::syntax::Syntax;
use super::text::{LONGEST, LONGEST_PROSE, TextFault, corrected, fault_in, shown};
use crate::diag::{Diagnostic, SourceText, Span, nearest};
use crate::exact::Unit;
use std::collections::BTreeSet;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Faults of one file that are reported.
const MOST: usize = 200;

/// The largest count (parts of a scale, figures before they start again).
const LARGEST_COUNT: i64 = 1_000;

/// Reads keys; keeps every fault and goes on.
pub(crate) struct Reader<'s> {
    source: &'s SourceText,
    pub(super) sort: &'static Sort,
    faults: Vec<Diagnostic>,
    line_starts: Vec<usize>,
    broken: BTreeSet<usize>,
    /// False when a syntax error may have hidden keys.
    pub(crate) whole: bool,
    /// The unit that quantities share, once it is known, and where it is said.
    pub(crate) unit: Option<Written<Unit>>,
}

/// The keys of one table.
pub(crate) struct Fields<'t> {
    sort: &'static Sort,
    place: Span,
    entries: Vec<(&'t str, Span, &'t Spanned<DeValue<'t>>)>,
    /// Keys that a misspelled one most likely stands for.
    meant: Vec<&'static str>,
}

impl<'t> Fields<'t> {
    /// The value of a key that stands in the table of keys.
    pub(crate) fn get(&self, key: &str) -> Option<&'t Spanned<DeValue<'t>>> {
        debug_assert!((self.sort.is_key)(key), "`{key}` is read but not in the table of keys");
        self.entries.iter().find(|(name, ..)| *name == key).map(|(.., value)| *value)
    }
}

impl<'s> Reader<'s> {
    pub(super) fn new(source: &'s SourceText, sort: &'static Sort, syntax: Syntax) -> Self {
        let line_starts =
            std::iter::once(0).chain(source.text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self {
            source,
            sort,
            faults: syntax.faults,
            line_starts,
            broken: syntax.lines,
            whole: syntax.whole,
            unit: None,
        }
    }

    /// The faults in the order of the file, the first two hundred of them.
    pub(crate) fn into_faults(mut self) -> Vec<Diagnostic> {
        self.faults.sort_by_key(|fault| fault.at.span.start);
        self.faults.truncate(MOST);
        self.faults
    }

    /// Where the line of a byte begins.
    pub(crate) fn line_of(&self, at: usize) -> usize {
        let line = self.line_starts.partition_point(|start| *start <= at);
        self.line_starts.get(line.saturating_sub(1)).copied().unwrap_or(0)
    }

    /// Adds a fault, but not a second one about a line that is not TOML.
    pub(crate) fn push(&mut self, fault: Diagnostic) {
        if !self.broken.contains(&self.line_of(fault.at.span.start)) {
            self.faults.push(fault);
        }
    }

    /// The text of a place.
    pub(crate) fn text_at(&self, span: &Span) -> &'s str {
        self.source.text.get(span.start..span.end).unwrap_or_default()
    }

    /// The keys of a table; those it does not have are refused with the nearest name.
    pub(crate) fn fields<'t>(
        &mut self,
        table: &'t DeTable<'t>,
        place: Span,
        whose: &str,
        known: &[&'static str],
    ) -> Fields<'t> {
        let mut fields = Fields { sort: self.sort, place, entries: Vec::new(), meant: Vec::new() };
        for (key, value) in table {
            let (name, span) = (key.get_ref().as_ref(), Span::from(key.span()));
            if known.contains(&name) {
                fields.entries.push((name, span, value));
                continue;
            }
            let near = nearest(name, known.iter().copied());
            let taken = near.is_some_and(|near| table.iter().any(|(other, _)| other.get_ref() == near));
            let message = format!("{whose} has no key `{}`", shown(name));
            let fix = match near.filter(|_| !taken) {
                Some(near) => {
                    fields.meant.extend(known.iter().find(|key| **key == near));
                    format!("{near} = {}", shown(self.text_at(&value.span().into())))
                }
                None => format!("take it out; the keys are {}", known.join(", ")),
            };
            let label = near.filter(|_| !taken).map_or_else(String::new, |near| format!("perhaps `{near}`"));
            self.push(Diagnostic::new("unknown-key", span, message).label(label).fix(fix));
        }
        fields
    }

    /// Refuses a table that lacks one of the keys that are asked of it and may not be left out.
    pub(crate) fn needs<P: 'static>(
        &mut self,
        fields: &Fields<'_>,
        whose: &str,
        asked: impl Iterator<Item = &'static Key<P>>,
    ) {
        for key in asked {
            let needed = match key.need {
                Need::Always => true,
                Need::Unless(other) => fields.get(other).is_none(),
                Need::Default(_) => false,
            };
            if needed {
                self.need(fields, whose, key.name, key.line);
            }
        }
    }

    /// Refuses a table that lacks a key; `line` is what it could look like.
    pub(crate) fn need(&mut self, fields: &Fields<'_>, whose: &str, key: &str, line: &str) {
        let meant = fields.meant.contains(&key);
        if self.whole && !meant && fields.get(key).is_none() {
            let message = format!("{whose} has no `{key}`");
            let fix = self.in_unit(line);
            self.push(Diagnostic::new("missing-key", fields.place.clone(), message).fix(fix));
        }
    }

    /// An example line, which is written in inches, in the file's unit.
    pub(crate) fn in_unit(&self, line: &str) -> String {
        let symbol = self.unit.as_ref().map_or("in", |unit| unit.value.symbol());
        line.replace(" in\"", &format!(" {symbol}\""))
    }

    /// Refuses a value of the wrong kind.
    pub(crate) fn wrong_type(&mut self, key: &str, value: &Spanned<DeValue<'_>>, wanted: &str, fix: String) {
        let message = format!("`{key}` is {wanted}, not {}", kind(value.get_ref()));
        self.push(Diagnostic::new("wrong-type", value.span().into(), message).fix(fix));
    }

    /// A text of 1 to 120 visible characters.
    pub(crate) fn text(&mut self, fields: &Fields<'_>, key: &str) -> Option<Written<String>> {
        fields.get(key).and_then(|value| self.text_of(key, value))
    }

    /// A text of 1 to 400 visible characters.
    pub(crate) fn prose(&mut self, fields: &Fields<'_>, key: &str) -> Option<Written<String>> {
        fields.get(key).and_then(|value| self.text_up_to(LONGEST_PROSE, key, value))
    }

    /// As [`Self::text`], of a value.
    pub(crate) fn text_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<Written<String>> {
        self.text_up_to(LONGEST, key, value)
    }

    fn text_up_to(
        &mut self,
        longest: usize,
        key: &str,
        value: &Spanned<DeValue<'_>>,
    ) -> Option<Written<String>> {
        let span = Span::from(value.span());
        let Some(text) = value.get_ref().as_str() else {
            let fix = corrected(key, &shown(self.text_at(&span)));
            self.wrong_type(key, value, "a text", fix);
            return None;
        };
        let Some(fault) = fault_in(text, longest) else {
            return Some(Written { value: text.to_owned(), span });
        };
        let (code, message, fix) = match fault {
            TextFault::Empty => ("empty-text", format!("`{key}` is empty"), "write a few words".to_owned()),
            TextFault::TooLong => {
                let message = format!("`{key}` has more than {longest} characters");
                ("too-long", message, format!("shorten it to {longest} characters"))
            }
            TextFault::Hidden(c) => {
                let message = format!("`{key}` holds the hidden character U+{:04X}", u32::from(c));
                ("hidden-character", message, "delete the character".to_owned())
            }
            TextFault::Piled => {
                let message = format!("`{key}` piles marks on one letter");
                ("hidden-character", message, "delete the extra marks".to_owned())
            }
        };
        // What stands in the file as it is has been refused already, with its exact place.
        let seen = matches!(fault, TextFault::Hidden(c) if self.text_at(&span).contains(c));
        if !seen {
            self.push(Diagnostic::new(code, span, message).fix(fix));
        }
        None
    }

    /// A whole number from `least` to 1,000.
    pub(crate) fn count(&mut self, fields: &Fields<'_>, key: &str, least: i64) -> Option<Written<i64>> {
        fields.get(key).and_then(|value| self.count_of(key, value, least))
    }

    /// As [`Self::count`], of a value.
    pub(crate) fn count_of(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        least: i64,
    ) -> Option<Written<i64>> {
        let span = Span::from(value.span());
        let Some(integer) = value.get_ref().as_integer() else {
            let digits = self.text_at(&span).trim_matches(['"', '\'', ' ']).trim_end_matches(".0");
            let digits = if digits.parse::<u16>().is_ok() { digits } else { "10" };
            self.wrong_type(key, value, "a whole number without unit", format!("{key} = {digits}"));
            return None;
        };
        let count = i64::from_str_radix(integer.as_str(), integer.radix()).ok();
        let found = count.filter(|n| (least..=LARGEST_COUNT).contains(n));
        if found.is_none() {
            let message = format!("`{key}` lies between {least} and {LARGEST_COUNT}");
            let fix = format!("{key} = {}", count.map_or(10, |n| n.clamp(least, LARGEST_COUNT)));
            self.push(Diagnostic::new("count", span.clone(), message).fix(fix));
        }
        found.map(|value| Written { value, span })
    }

    /// One of a few words.
    pub(crate) fn choice<T: Copy>(
        &mut self,
        fields: &Fields<'_>,
        key: &str,
        words: &[(&'static str, T)],
    ) -> Option<Written<T>> {
        fields.get(key).and_then(|value| self.choice_of(key, value, words))
    }

    /// As [`Self::choice`], of a value.
    pub(crate) fn choice_of<T: Copy>(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        words: &[(&'static str, T)],
    ) -> Option<Written<T>> {
        let span = Span::from(value.span());
        let listed: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        let listed = listed.join(", ");
        let Some(text) = value.get_ref().as_str() else {
            self.wrong_type(key, value, "a word", format!("write one of {listed}"));
            return None;
        };
        if let Some((_, found)) = words.iter().find(|(word, _)| *word == text) {
            return Some(Written { value: *found, span });
        }
        let near = nearest(text, words.iter().map(|(word, _)| *word));
        let fix = match near {
            Some(near) => corrected(key, near),
            None => format!("write one of {listed}"),
        };
        let message = format!("`{key}` cannot be \"{}\"", shown(text));
        self.push(Diagnostic::new("unknown-word", span, message).fix(fix));
        None
    }

    /// A list of a few words; `None` where one of them is none of ours.
    pub(crate) fn words<T: Copy>(
        &mut self,
        fields: &Fields<'_>,
        key: &str,
        words: &[(&'static str, T)],
    ) -> Option<Written<Vec<T>>> {
        let span = Span::from(fields.get(key)?.span());
        let listed: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        let items = self.list(fields, key, &format!("{key} = [{}]", listed.join(", ")))?;
        let mut found = Vec::with_capacity(items.len());
        for item in items {
            found.extend(self.choice_of(key, item, words).map(|word| word.value));
        }
        (found.len() == items.len()).then_some(Written { value: found, span })
    }

    /// Yes or no.
    pub(crate) fn flag(&mut self, fields: &Fields<'_>, key: &str) -> Option<Written<bool>> {
        let value = fields.get(key)?;
        let found = value.get_ref().as_bool();
        if found.is_none() {
            self.wrong_type(key, value, "true or false, without quotes", format!("{key} = true"));
        }
        found.map(|found| Written { value: found, span: value.span().into() })
    }

    /// A list; `line` is what it could look like.
    pub(crate) fn list<'t>(
        &mut self,
        fields: &Fields<'t>,
        key: &str,
        line: &str,
    ) -> Option<&'t [Spanned<DeValue<'t>>]> {
        let value = fields.get(key)?;
        if let DeValue::Array(items) = value.get_ref() {
            return Some(items);
        }
        let fix = self.in_unit(line);
        self.wrong_type(key, value, "a list", fix);
        None
    }
}

/// What to call a value of the wrong kind.
fn kind(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

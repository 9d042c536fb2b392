//! A drill set as it was written: every key with its place, nothing judged beyond its own spelling.

use super::keys::{Place, SET, keys_of, names_of};
use super::{Allowed, Feedback, Met, Order, ZeroOff};
use crate::diag::{Diagnostic, SourceText, Span, nearest};
use crate::drill::{Kind, Level, Seed};
use crate::exact::{Exact, Unit};
use crate::instrument::schema::{Fields, Reader, Sign, Written, corrected, opened, shown};
use crate::reading::{Misread, misread};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A set as it was written; what is missing or faulty is `None`.
pub(super) struct Draft {
    pub(super) id: Option<Written<String>>,
    pub(super) title: Option<Written<String>>,
    pub(super) about: Option<Written<String>>,
    pub(super) count: Option<Written<u32>>,
    pub(super) order: Option<Written<Order>>,
    /// In seconds.
    pub(super) time: Option<Written<u32>>,
    pub(super) glass: Option<Written<Allowed>>,
    pub(super) feedback: Option<Written<Feedback>>,
    pub(super) pass: Option<Written<Passing>>,
    pub(super) sequential: Option<Sequence>,
    pub(super) seed: Option<Written<u64>>,
    pub(super) portions: Vec<Asks>,
}

/// A pass rule as it was written.
#[derive(Clone, Copy)]
pub(super) enum Passing {
    /// So many right, perhaps of so many.
    Right(u32, Option<u32>),
    /// Until it is clear.
    Sequential,
}

/// The figures of a sequential rule, in thousandths.
pub(super) struct Sequence {
    pub(super) header: Span,
    pub(super) bad: Option<Written<u32>>,
    pub(super) good: Option<Written<u32>>,
    pub(super) lets_through: Option<Written<u32>>,
    pub(super) turns_away: Option<Written<u32>>,
    pub(super) least: Option<Written<u32>>,
}

/// One of the things asked.
pub(super) struct Asks {
    pub(super) header: Span,
    pub(super) instrument: Option<Written<String>>,
    pub(super) share: Option<Written<u32>>,
    pub(super) kinds: Option<Written<Vec<Written<Kind>>>>,
    pub(super) level: Option<Written<Level>>,
    pub(super) from: Option<Written<Exact>>,
    pub(super) to: Option<Written<Exact>>,
    pub(super) zero: Option<Written<ZeroOff>>,
    pub(super) conditions: Option<Written<Met>>,
    pub(super) variant: Option<Written<String>>,
    pub(super) provoke: Option<Written<Vec<Written<&'static Misread>>>>,
    pub(super) spread: Option<Written<bool>>,
    pub(super) readings: Vec<Fixed>,
}

/// A reading that is given.
pub(super) struct Fixed {
    pub(super) reading: Option<Written<Exact>>,
    pub(super) zero_error: Option<Written<Exact>>,
}

/// What was found.
pub(super) struct Outcome {
    /// The set, as far as it could be read; none of a file that is far too large.
    pub(super) draft: Option<Draft>,
    pub(super) faults: Vec<Diagnostic>,
    /// False when a syntax error may have hidden keys.
    pub(super) whole: bool,
}

/// The unit of an instrument in a variant, where that is known.
pub(super) type Units<'a> = &'a dyn Fn(&str, Option<&str>) -> Option<Unit>;

/// True for a text that says it is a drill set.
pub fn is_set(source: &SourceText) -> bool {
    let Ok((table, _)) = opened(source, &SET) else { return false };
    let has = |key: &str| table.get_ref().iter().any(|(known, _)| known.get_ref() == key);
    has("set") || (has("questions") && !has("stage"))
}

/// Reads a set. Never stops at the first fault, but refuses a file that is far too large.
pub(super) fn read(source: &SourceText, units: Units<'_>) -> Outcome {
    let (table, mut reader) = match opened(source, &SET) {
        Ok(opened) => opened,
        Err(faults) => return Outcome { draft: None, faults, whole: false },
    };
    let draft = set(&mut reader, table.get_ref(), units);
    let whole = reader.whole;
    Outcome { draft: Some(draft), faults: reader.into_faults(), whole }
}

fn set(reader: &mut Reader<'_>, table: &DeTable<'_>, units: Units<'_>) -> Draft {
    let first = table.iter().map(|(key, _)| key.span()).min_by_key(|span| span.start);
    let top = Span::from(first.unwrap_or(0..0));
    let whose = Place::Set.called();
    let fields = reader.fields(table, top.clone(), whose, &names_of(Place::Set));
    reader.needs(&fields, whose, keys_of(Place::Set));
    Draft {
        id: reader.text(&fields, "set"),
        title: reader.text(&fields, "title"),
        about: reader.prose(&fields, "about"),
        count: count(reader, &fields, "count"),
        order: reader.choice(&fields, "order", &Order::WORDS),
        time: fields.get("time").and_then(|value| time(reader, value)),
        glass: reader.choice(&fields, "glass", &Allowed::WORDS),
        feedback: reader.choice(&fields, "feedback", &Feedback::WORDS),
        pass: fields.get("pass").and_then(|value| pass(reader, value)),
        sequential: fields.get("sequential").and_then(|value| sequence(reader, value)),
        seed: fields.get("seed").and_then(|value| seed(reader, value)),
        portions: portions(reader, &fields, units),
    }
}

fn count(reader: &mut Reader<'_>, fields: &Fields<'_>, key: &str) -> Option<Written<u32>> {
    let found = reader.count(fields, key, 1)?;
    u32::try_from(found.value).ok().map(|value| Written { value, span: found.span })
}

/// `10 min`, `90 s`, `1 h`: in seconds.
fn time(reader: &mut Reader<'_>, value: &Spanned<DeValue<'_>>) -> Option<Written<u32>> {
    const LONGEST: u32 = 4 * 3600;
    let written = reader.text_of("time", value)?;
    let text = written.value.trim();
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    let (number, unit) = text.split_at(digits);
    let each = [("s", 1), ("min", 60), ("h", 3600)].into_iter().find(|(word, _)| *word == unit.trim());
    let seconds = each.zip(number.parse::<u32>().ok()).and_then(|((_, each), n)| n.checked_mul(each));
    let found = seconds.filter(|seconds| (10..=LONGEST).contains(seconds));
    if found.is_none() {
        let message = format!("\"{}\" is no time from 10 s to 4 h", shown(text));
        reader.push(Diagnostic::new("time", written.span.clone(), message).fix("time = \"10 min\""));
    }
    found.map(|value| Written { value, span: written.span })
}

fn pass(reader: &mut Reader<'_>, value: &Spanned<DeValue<'_>>) -> Option<Written<Passing>> {
    let span = Span::from(value.span());
    if value.get_ref().as_integer().is_some() {
        let right = reader.count_of("pass", value, 1)?;
        let right = u32::try_from(right.value).ok()?;
        return Some(Written { value: Passing::Right(right, None), span });
    }
    let text = reader.text_of("pass", value)?.value;
    if text == "sequential" {
        return Some(Written { value: Passing::Sequential, span });
    }
    let number = |text: &str| text.trim().parse::<u32>().ok().filter(|n| (1..=1000).contains(n));
    let both = text.split_once("of").and_then(|(right, of)| number(right).zip(number(of)));
    let found =
        both.map(|(right, of)| (right, Some(of))).or_else(|| number(&text).map(|right| (right, None)));
    if let Some((right, of)) = found {
        return Some(Written { value: Passing::Right(right, of), span });
    }
    let near = nearest(&text, ["sequential"]);
    let fix = near.map_or("pass = \"28 of 30\"", |_| "pass = \"sequential\"");
    let message = format!("`pass` cannot be \"{}\"", shown(&text));
    let label = "so many right, or \"sequential\"";
    reader.push(Diagnostic::new("pass", span, message).label(label).fix(fix));
    None
}

fn sequence(reader: &mut Reader<'_>, value: &Spanned<DeValue<'_>>) -> Option<Sequence> {
    let DeValue::Table(table) = value.get_ref() else {
        reader.wrong_type("sequential", value, "a table", "[sequential]".to_owned());
        return None;
    };
    let header = Span::from(value.span());
    let place = Place::Sequential;
    let fields = reader.fields(table, header.clone(), place.called(), &names_of(place));
    Some(Sequence {
        header,
        bad: percent(reader, &fields, "bad"),
        good: percent(reader, &fields, "good"),
        lets_through: percent(reader, &fields, "lets-through"),
        turns_away: percent(reader, &fields, "turns-away"),
        least: count(reader, &fields, "least"),
    })
}

/// `80 %`, `97.5 %`: in thousandths.
fn percent(reader: &mut Reader<'_>, fields: &Fields<'_>, key: &str) -> Option<Written<u32>> {
    let written = reader.text(fields, key)?;
    let text = written.value.trim();
    let figures = |text: &str, most: usize| -> Option<u32> {
        let all = (1..=most).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        all.then(|| text.parse().ok()).flatten()
    };
    let number = text.strip_suffix('%').map(str::trim_end);
    let parts = number.map(|number| number.split_once('.').unwrap_or((number, "0")));
    let found = parts.and_then(|(whole, tenth)| Some(figures(whole, 2)? * 10 + figures(tenth, 1)?));
    let found = found.filter(|share| *share > 0);
    if found.is_none() {
        let message = format!("`{key}` cannot be \"{}\": a share above 0 % and below 100 %", shown(text));
        reader.push(Diagnostic::new("share", written.span.clone(), message).fix(corrected(key, "80 %")));
    }
    found.map(|value| Written { value, span: written.span })
}

fn seed(reader: &mut Reader<'_>, value: &Spanned<DeValue<'_>>) -> Option<Written<u64>> {
    let span = Span::from(value.span());
    let Some(integer) = value.get_ref().as_integer() else {
        reader.wrong_type("seed", value, "a whole number without quotes", "seed = 7".to_owned());
        return None;
    };
    let found = u64::from_str_radix(integer.as_str(), integer.radix()).ok();
    let found = found.filter(|found| !Seed(*found).is_of_card());
    if found.is_none() {
        let message = "`seed` is a whole number from 0 to 9223372036854775807".to_owned();
        reader.push(Diagnostic::new("seed", span.clone(), message).fix("seed = 7"));
    }
    found.map(|value| Written { value, span })
}

fn portions(reader: &mut Reader<'_>, fields: &Fields<'_>, units: Units<'_>) -> Vec<Asks> {
    let items = reader.list(fields, "questions", "[[questions]]").unwrap_or_default();
    if let Some(value) = fields.get("questions").filter(|_| items.is_empty())
        && value.get_ref().is_array()
    {
        let message = "nothing is asked: `questions` is an empty list";
        reader.push(Diagnostic::new("empty-list", value.span().into(), message).fix("[[questions]]"));
    }
    let mut portions = Vec::new();
    for item in items {
        match item.get_ref() {
            DeValue::Table(table) => portions.push(portion(reader, table, item.span().into(), units)),
            _ => reader.wrong_type("questions", item, "a table", "[[questions]]".to_owned()),
        }
    }
    portions
}

fn portion(reader: &mut Reader<'_>, table: &DeTable<'_>, header: Span, units: Units<'_>) -> Asks {
    let place = Place::Questions;
    let fields = reader.fields(table, header.clone(), place.called(), &names_of(place));
    reader.needs(&fields, place.called(), keys_of(place));
    let instrument = reader.text(&fields, "instrument");
    let variant = reader.text(&fields, "variant");
    reader.unit = instrument.as_ref().and_then(|instrument| {
        let value = units(&instrument.value, variant.as_ref().map(|variant| variant.value.as_str()))?;
        Some(Written { value, span: instrument.span.clone() })
    });
    Asks {
        header,
        instrument,
        share: count(reader, &fields, "share"),
        kinds: kinds(reader, &fields),
        level: reader.choice(&fields, "level", &Level::WORDS),
        from: reader.quantity(&fields, "from", Sign::Any),
        to: reader.quantity(&fields, "to", Sign::Any),
        zero: reader.choice(&fields, "zero", &ZeroOff::WORDS),
        conditions: reader.choice(&fields, "conditions", &Met::WORDS),
        variant,
        provoke: provoke(reader, &fields),
        spread: reader.flag(&fields, "spread"),
        readings: readings(reader, &fields),
    }
}

fn kinds(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Option<Written<Vec<Written<Kind>>>> {
    let value = fields.get("kinds")?;
    let items = reader.list(fields, "kinds", "kinds = [\"read\", \"set-it\"]")?;
    let found: Vec<_> =
        items.iter().filter_map(|item| reader.choice_of("kinds", item, &Kind::WORDS)).collect();
    let span = Span::from(value.span());
    if items.is_empty() {
        let message = "`kinds` is an empty list";
        reader.push(Diagnostic::new("empty-list", span.clone(), message).fix("kinds = [\"read\"]"));
    }
    (!found.is_empty() && found.len() == items.len()).then_some(Written { value: found, span })
}

fn provoke(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Option<Written<Vec<Written<&'static Misread>>>> {
    let value = fields.get("provoke")?;
    let items = reader.list(fields, "provoke", "provoke = [\"next-line\"]")?;
    let mut found = Vec::new();
    for item in items {
        let Some(id) = reader.text_of("provoke", item) else { continue };
        if let Some(misread) = misread::named(&id.value) {
            found.push(Written { value: misread, span: id.span });
            continue;
        }
        let near = nearest(&id.value, misread::ALL.iter().map(|misread| misread.id));
        let fix = near
            .map_or_else(|| "linefall list misreads shows all".to_owned(), |near| corrected("provoke", near));
        let message = format!("`provoke` cannot be \"{}\"", shown(&id.value));
        reader.push(Diagnostic::new("unknown-word", id.span, message).fix(fix));
    }
    Some(Written { value: found, span: value.span().into() })
}

fn readings(reader: &mut Reader<'_>, fields: &Fields<'_>) -> Vec<Fixed> {
    let mut readings = Vec::new();
    for item in reader.list(fields, "readings", "readings = [\"12 mm\"]").unwrap_or_default() {
        let DeValue::Table(table) = item.get_ref() else {
            let reading = reader.quantity_of("readings", item, Sign::Any);
            readings.push(Fixed { reading, zero_error: None });
            continue;
        };
        let place = Place::Reading;
        let fields = reader.fields(table, item.span().into(), place.called(), &names_of(place));
        reader.needs(&fields, place.called(), keys_of(place));
        readings.push(Fixed {
            reading: reader.quantity(&fields, "reading", Sign::Any),
            zero_error: reader.quantity(&fields, "zero-error", Sign::Any),
        });
    }
    readings
}

//! The rules for what is asked on one instrument.

use super::schema::{Asks, Fixed};
use super::{Met, ZeroOff};
use crate::diag::{Diagnostic, nearest};
use crate::drill::task::kinds;
use crate::drill::{Kind, Level};
use crate::exact::{Exact, Quanta};
use crate::instrument::schema::{Written, corrected, shown};
use crate::instrument::{Catalogue, Instrument, READS, Zero};

/// The questions that `same-again` needs: a setting comes again after eight more at the latest.
const SAME_AGAIN: u32 = 9;

/// What is the matter with what is asked; `gets` is how many of the questions it gets.
pub(super) fn check(asks: &Asks, gets: Option<u32>, catalogue: &Catalogue, faults: &mut Vec<Diagnostic>) {
    if gets == Some(0) {
        let message = "these questions get none of the count";
        let fault = Diagnostic::new("share", asks.header.clone(), message);
        faults.push(fault.fix("raise `count`, or the share of these questions"));
    }
    if let (Some(kinds), Some(level)) = (&asks.kinds, &asks.level) {
        let message = "`kinds` and `level` both say what is asked";
        let fault = Diagnostic::new("level", level.span.clone(), message);
        faults.push(fault.related(kinds.span.clone(), "said here as well").fix("keep one of the two"));
    }
    let Some(id) = &asks.instrument else { return };
    let Some(instrument) = catalogue.origin(&id.value).and_then(|_| catalogue.get(&id.value)) else {
        let near = nearest(&id.value, catalogue.ids());
        let fix = near.map_or_else(
            || "linefall list instruments shows all".to_owned(),
            |near| corrected("instrument", near),
        );
        let message = format!("there is no instrument \"{}\"", shown(&id.value));
        faults.push(Diagnostic::new("instrument", id.span.clone(), message).fix(fix));
        return;
    };
    asked(asks, instrument, faults);
    same_again(asks, gets, faults);
    if variant(asks, instrument, faults) {
        sizes(asks, instrument, faults);
        readings(asks, gets, instrument, faults);
    }
    zero(asks, instrument, faults);
    for misread in asks.provoke.iter().flat_map(|list| &list.value) {
        if !misread.value.happens_on(instrument) {
            let message = format!("\"{}\" cannot happen on {}", misread.value.id, instrument.id);
            let fault = Diagnostic::new("provoke", misread.span.clone(), message);
            faults.push(fault.fix("linefall list misreads says on which instruments each can happen"));
        }
    }
}

fn quoted(words: impl IntoIterator<Item = impl std::fmt::Display>) -> String {
    let words: Vec<String> = words.into_iter().map(|word| format!("\"{word}\"")).collect();
    words.join(", ")
}

fn asked(asks: &Asks, instrument: &Instrument, faults: &mut Vec<Diagnostic>) {
    let known = kinds(instrument);
    for kind in asks.kinds.iter().flat_map(|list| &list.value) {
        if !known.contains(&kind.value) {
            let message = format!("\"{}\" makes no sense on {}", kind.value, instrument.id);
            let fault = Diagnostic::new("kinds", kind.span.clone(), message);
            faults.push(fault.fix(format!("its kinds are {}", quoted(&known))));
        }
    }
    if let Some(level) = &asks.level
        && super::kinds_of(level.value, instrument).is_empty()
    {
        let has = Level::ALL.iter().filter(|level| !super::kinds_of(**level, instrument).is_empty());
        let message = format!("{} has nothing to ask on the level \"{}\"", instrument.id, level.value);
        let fault = Diagnostic::new("level", level.span.clone(), message);
        faults.push(fault.fix(format!("its levels are {}", quoted(has))));
    }
}

/// Settings come a second time after three or eight more of the same run, so the run is all there is of the portion.
fn same_again(asks: &Asks, gets: Option<u32>, faults: &mut Vec<Diagnostic>) {
    let Some(kinds) = &asks.kinds else { return };
    let Some(again) = kinds.value.iter().find(|kind| kind.value == Kind::SameAgain) else { return };
    if kinds.value.len() > 1 {
        let message = "same-again compares readings of one run, so it is asked alone";
        let fault = Diagnostic::new("same-again", again.span.clone(), message);
        faults.push(fault.fix("give it a [[questions]] of its own with kinds = [\"same-again\"]"));
    }
    if gets.is_some_and(|gets| gets < SAME_AGAIN) {
        let message = format!(
            "a setting comes again after up to eight others: same-again needs {SAME_AGAIN} questions"
        );
        let fault = Diagnostic::new("same-again", again.span.clone(), message);
        faults.push(fault.fix("raise `count`, or the share of these questions"));
    }
    let wishes = [
        asks.from.as_ref().map(|written| written.span.clone()),
        asks.to.as_ref().map(|written| written.span.clone()),
        asks.zero.as_ref().filter(|zero| zero.value != ZeroOff::AsDrawn).map(|written| written.span.clone()),
        asks.conditions.as_ref().filter(|met| met.value != Met::AsDrawn).map(|written| written.span.clone()),
        asks.variant.as_ref().map(|written| written.span.clone()),
        asks.provoke.as_ref().map(|written| written.span.clone()),
        asks.spread.as_ref().filter(|spread| spread.value).map(|written| written.span.clone()),
        asks.readings.first().and_then(|fixed| fixed.reading.as_ref()).map(|written| written.span.clone()),
    ];
    if let Some(span) = wishes.into_iter().flatten().min_by_key(|span| span.start) {
        let message = "the readings of same-again hang together, so none of them can be chosen";
        let fault = Diagnostic::new("same-again", span, message);
        faults.push(fault.related(again.span.clone(), "asked here").fix("take it out"));
    }
}

/// Whether the sizes can be judged: the variant says of which scales they are.
fn variant(asks: &Asks, instrument: &Instrument, faults: &mut Vec<Diagnostic>) -> bool {
    let Some(word) = &asks.variant else { return true };
    if instrument.variant(&word.value).is_some() {
        return true;
    }
    let message = format!("{} does not come with the variant \"{}\"", instrument.id, shown(&word.value));
    let offered = instrument.offered();
    let single: Vec<String> = offered
        .iter()
        .filter_map(|offer| offer.split_once('='))
        .flat_map(|(key, words)| words.split('|').map(move |word| format!("{key}={word}")))
        .collect();
    let fix = match nearest(&word.value, single.iter().map(String::as_str)) {
        Some(near) => corrected("variant", near),
        None if offered.is_empty() => "take it out: this instrument comes in one variant".to_owned(),
        None => format!("its variants are {}", offered.join(" ")),
    };
    faults.push(Diagnostic::new("variant", word.span.clone(), message).fix(fix));
    false
}

/// The tool whose scales the portion's sizes are of.
fn tool(asks: &Asks, instrument: &Instrument) -> Instrument {
    let variant = asks.variant.as_ref().and_then(|word| instrument.variant(&word.value));
    instrument.fitted(&variant.unwrap_or_default())
}

/// From where to where sizes can lie, whatever length is fitted.
fn reach(asks: &Asks, instrument: &Instrument) -> [Quanta; 2] {
    let tool = tool(asks, instrument);
    let practised = tool.choices.iter().filter(|choice| choice.practised && choice.owned.is_none());
    let longest = practised.map(|choice| {
        let lengths = choice.lengths.iter().map(|length| length.value);
        lengths.max().unwrap_or(Quanta::ZERO)
            - choice.lengths.first().map_or(Quanta::ZERO, |first| first.value)
    });
    [tool.low, tool.high + longest.sum()]
}

fn sizes(asks: &Asks, instrument: &Instrument, faults: &mut Vec<Diagnostic>) {
    let both = [("from", &asks.from), ("to", &asks.to)];
    let Some((_, first)) = both.iter().find_map(|(key, written)| Some((key, written.as_ref()?))) else {
        return;
    };
    if instrument.on_same_jaw().is_some()
        && !asks.variant.as_ref().is_some_and(|word| word.value.contains(READS))
    {
        let words = instrument.set_words();
        let message =
            format!("{} has two sets of scales: `variant` says of which the sizes are", instrument.id);
        let fault = Diagnostic::new("variant", first.span.clone(), message);
        let word = words.first().copied().unwrap_or_default();
        faults.push(fault.fix(format!("variant = \"{READS}={word}\"")));
        return;
    }
    let tool = tool(asks, instrument);
    let [low, high] = reach(asks, instrument);
    let mut outside = false;
    for (key, written) in both {
        let Some(written) = written else { continue };
        if written.value < tool.value(low) || written.value > tool.value(high) {
            outside = true;
            let [low, high] = [low, high].map(|at| tool.spell_with_unit(at));
            let message = format!("`{key}` is outside the range of {}, {low} to {high}", instrument.id);
            let fix = corrected(key, if key == "from" { &low } else { &high });
            faults.push(Diagnostic::new("range", written.span.clone(), message).fix(fix));
        }
    }
    if let (Some(from), Some(to)) = (&asks.from, &asks.to)
        && from.value > to.value
        && !outside
    {
        let message = "`from` is above `to`";
        let fault = Diagnostic::new("range", from.span.clone(), message);
        faults.push(
            fault.related(to.span.clone(), "less than that").fix("write the smaller size after `from`"),
        );
    }
}

fn zero(asks: &Asks, instrument: &Instrument, faults: &mut Vec<Diagnostic>) {
    let always = asks.zero.as_ref().filter(|zero| zero.value == ZeroOff::Always);
    if let Some(zero) = always.filter(|_| instrument.zero == Zero::None) {
        let message = format!("{} has no zero that could be off", instrument.id);
        faults.push(Diagnostic::new("zero", zero.span.clone(), message).fix("zero = \"never\""));
    }
    let Some(spread) = asks.spread.as_ref().filter(|spread| spread.value) else { return };
    if let Some(kinds) = asks.kinds.as_ref().filter(|list| list.value.iter().all(|k| k.value != Kind::Read)) {
        let message = "`spread` is for plain readings, and none are asked";
        let fault = Diagnostic::new("spread", spread.span.clone(), message);
        faults.push(fault.related(kinds.span.clone(), "what is asked").fix("take it out"));
    }
    if let Some(zero) = asks.zero.as_ref().filter(|zero| zero.value != ZeroOff::AsDrawn) {
        let message = "`spread` says how often the zero is off, `zero` says it too";
        let fault = Diagnostic::new("spread", spread.span.clone(), message);
        faults.push(fault.related(zero.span.clone(), "said here as well").fix("keep one of the two"));
    }
}

fn readings(asks: &Asks, gets: Option<u32>, instrument: &Instrument, faults: &mut Vec<Diagnostic>) {
    let tool = tool(asks, instrument);
    for Fixed { reading, zero_error } in &asks.readings {
        if let Some(reading) = reading {
            faults.extend(on_lines("reading", reading, &tool, tool.low, tool.high));
        }
        if let Some(error) = zero_error {
            if tool.zero == Zero::None {
                let message = format!("{} has no zero that could be off", instrument.id);
                faults.push(Diagnostic::new("zero", error.span.clone(), message).fix("take it out"));
            } else {
                faults.extend(on_lines("zero-error", error, &tool, -tool.most_off(), tool.most_off()));
            }
        }
    }
    let most = gets.and_then(|gets| usize::try_from(gets).ok());
    let extra = most.and_then(|most| asks.readings.get(most)).and_then(|fixed| fixed.reading.as_ref());
    if let (Some(extra), Some(most)) = (extra, most) {
        let message = format!("these questions get {most} of the count, so this reading is never asked");
        let fault = Diagnostic::new("readings", extra.span.clone(), message);
        faults.push(fault.fix("raise `count`, or the share of these questions"));
    }
}

/// What is the matter with a given position: not on the lines, or out of range.
fn on_lines(
    key: &str,
    written: &Written<Exact>,
    tool: &Instrument,
    low: Quanta,
    high: Quanta,
) -> Option<Diagnostic> {
    let fault = |message: String| Diagnostic::new("reading", written.span.clone(), message);
    if written.value < tool.value(low) || written.value > tool.value(high) {
        let [least, most] = [low, high].map(|at| tool.spell_with_unit(at));
        let message =
            format!("a {} of {} is out of range, {least} to {most}", key.replace('-', " "), tool.id);
        let nearer = if written.value < tool.value(low) { least } else { most };
        return Some(fault(message).fix(format!("\"{nearer}\"")));
    }
    let quanta = written.value.over(tool.lattice.quantum());
    let steps = written.value.over(tool.value(tool.step));
    if tool.lattice.at(written.value).is_some() && steps.to_whole().is_some() {
        return None;
    }
    let below = quanta.numerator().div_euclid(quanta.denominator());
    let below = i64::try_from(below).ok().map(Quanta)?;
    let below = below - below.left_of(tool.step);
    let [below, above] = [below, below + tool.step].map(|at| tool.spell_with_unit(at));
    let message = format!("{} does not stand there: between {below} and {above} it has no line", tool.id);
    Some(fault(message).fix(format!("\"{below}\" or \"{above}\"")))
}

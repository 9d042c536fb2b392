//! The rules that a drill set must keep.
//!
//! A rule says nothing about what it cannot see: where a key is missing or faulty the schema has said so.

use super::portion_check;
use super::schema::{Draft, Outcome, Passing, Sequence, read as read_draft};
use super::{Allowed, DrillSet, Feedback, Given, Met, Order, Pass, Portion, What, ZeroOff, fits};
use crate::diag::{Diagnostic, SourceText};
use crate::drill::{Kind, Seed};
use crate::exact::{Exact, Unit};
use crate::instrument::schema::{Written, shown};
use crate::instrument::{Catalogue, Revision, check};

/// The usual figures of a sequential rule, in thousandths, and its least number of questions.
const BAD: u32 = 800;
const GOOD: u32 = 950;
const RISK: u32 = 50;
const LEAST: u32 = 10;
/// Tables of questions that a set may have: each is tried out when the file is read.
const MOST: usize = 50;

/// Reads a set. Either it is one, or every fault of it is named, in the order of the file.
pub fn read(source: &SourceText, catalogue: &Catalogue) -> Result<DrillSet, Vec<Diagnostic>> {
    let unit = |id: &str, variant: Option<&str>| -> Option<Unit> {
        let instrument = catalogue.origin(id).and_then(|_| catalogue.get(id))?;
        let variant = variant.and_then(|word| instrument.variant(word)).unwrap_or_default();
        Some(instrument.fitted(&variant).unit)
    };
    let Outcome { draft, mut faults, whole } = read_draft(source, &unit);
    let Some(draft) = draft else {
        return Err(faults);
    };
    if whole {
        set(&draft, catalogue, &mut faults);
        if let Some(extra) = draft.portions.get(MOST) {
            let message = format!("a set has at most {MOST} tables [[questions]]");
            let fault = Diagnostic::new("too-many", extra.header.clone(), message);
            faults.push(fault.fix("make two sets of it"));
        }
        for (n, asks) in draft.portions.iter().enumerate().take(MOST) {
            portion_check::check(asks, gets(&draft, n), catalogue, &mut faults);
        }
    }
    if faults.is_empty() {
        let built = build(&draft, source).expect("a set without faults has every key");
        faults = fits::check(&draft, &built, catalogue);
        if faults.is_empty() {
            return Ok(built);
        }
    }
    faults.sort_by_key(|fault| fault.at.span.start);
    Err(faults)
}

/// A set that is known to keep the rules: a shipped one. Reads no instrument.
pub(super) fn trusted(source: &SourceText) -> DrillSet {
    let draft = read_draft(source, &|_, _| None).draft;
    let built = draft.and_then(|draft| build(&draft, source));
    built.expect("a shipped set keeps every rule; a test reads each")
}

/// How many questions a portion gets, as far as that can be known.
fn gets(draft: &Draft, n: usize) -> Option<u32> {
    let count = draft.count.as_ref()?.value;
    let share = |asks: &super::schema::Asks| asks.share.as_ref().map_or(1, |share| share.value);
    let all: u64 = draft.portions.iter().map(|asks| u64::from(share(asks))).sum();
    let exact = |n: usize| u64::from(count) * u64::from(share(&draft.portions[n]));
    let whole = |n: usize| exact(n) / all.max(1);
    let missing = u64::from(count) - (0..draft.portions.len()).map(whole).sum::<u64>();
    let rest = |n: usize| exact(n) % all.max(1);
    let before =
        (0..draft.portions.len()).filter(|m| rest(*m) > rest(n) || (rest(*m) == rest(n) && *m < n)).count();
    let one_more = u64::try_from(before).is_ok_and(|before| before < missing);
    u32::try_from(whole(n) + u64::from(one_more)).ok()
}

/// What is the matter with the set as a whole.
fn set(draft: &Draft, catalogue: &Catalogue, faults: &mut Vec<Diagnostic>) {
    if let Some(id) = &draft.id {
        faults.extend(check::id("set", id));
        if catalogue.names().any(|name| name == id.value) {
            let message = format!("\"{}\" is the name of an instrument, so no set", shown(&id.value));
            let fault = Diagnostic::new("id", id.span.clone(), message);
            faults.push(fault.fix(format!("set = \"{}-exercise\"", shown(&id.value))));
        }
    }
    let count = draft.count.as_ref();
    match &draft.pass {
        Some(Written { value: Passing::Right(right, of), span }) => {
            if let Some(count) = count.filter(|count| of.is_some_and(|of| of != count.value)) {
                let message = format!("`pass` is out of another number than `count`, {}", count.value);
                let fault = Diagnostic::new("pass", span.clone(), message);
                faults.push(fault.related(count.span.clone(), "the questions of a paper").fix(format!(
                    "pass = \"{} of {}\"",
                    right.min(&count.value),
                    count.value
                )));
            } else if let Some(count) = count.filter(|count| count.value < *right) {
                let message = format!("nobody can get {right} right of {}", count.value);
                let fault = Diagnostic::new("pass", span.clone(), message);
                faults.push(
                    fault
                        .related(count.span.clone(), "the questions of a paper")
                        .fix(format!("pass = {}", count.value)),
                );
            }
        }
        Some(Written { value: Passing::Sequential, span }) => sequential(draft, span, faults),
        None => {}
    }
    if let Some(sequence) = &draft.sequential
        && !matches!(&draft.pass, Some(Written { value: Passing::Sequential, .. }))
    {
        let message = "[sequential] says nothing without pass = \"sequential\"";
        let fault = Diagnostic::new("sequential", sequence.header.clone(), message);
        faults.push(fault.fix("pass = \"sequential\""));
    }
    if let (Some(pass), Some(feedback)) = (&draft.pass, &draft.feedback)
        && feedback.value == Feedback::Now
    {
        let message = "a set that is passed or failed says what was right at the end";
        let fault = Diagnostic::new("feedback", feedback.span.clone(), message);
        let fault = fault.related(pass.span.clone(), "its pass rule");
        faults.push(fault.fix("feedback = \"at-the-end\""));
    }
}

/// What is the matter with the figures of a sequential rule.
fn sequential(draft: &Draft, pass: &crate::diag::Span, faults: &mut Vec<Diagnostic>) {
    if let Some(order) = draft.order.as_ref().filter(|order| order.value == Order::Blocked) {
        let message = "a sequential check may end after any question, so its questions are mixed";
        let fault = Diagnostic::new("order", order.span.clone(), message);
        let fault = fault.related(pass.clone(), "its pass rule");
        faults.push(fault.fix("order = \"mixed\""));
    }
    let Some(Sequence { bad, good, least, .. }) = &draft.sequential else {
        let count = draft.count.as_ref().filter(|count| count.value < LEAST);
        faults.extend(count.map(|count| {
            let message = format!("a sequential check has at least {LEAST} questions");
            Diagnostic::new("count", count.span.clone(), message).fix("count = 60")
        }));
        return;
    };
    let value = |written: &Option<Written<u32>>, usual| written.as_ref().map_or(usual, |w| w.value);
    if value(bad, BAD) >= value(good, GOOD)
        && let Some(wrong) = bad.as_ref().or(good.as_ref())
    {
        let message = "the bad one must be worse than the good one";
        let fault = Diagnostic::new("sequential", wrong.span.clone(), message);
        faults.push(fault.fix(if bad.is_some() { "bad = \"80 %\"" } else { "good = \"95 %\"" }));
    }
    let least = least.as_ref();
    if let Some(count) = draft.count.as_ref().filter(|count| count.value < least.map_or(LEAST, |w| w.value)) {
        let span = least.map_or(count.span.clone(), |least| least.span.clone());
        let message = format!("the least number of questions is above the count, {}", count.value);
        faults.push(Diagnostic::new("count", span, message).fix("least = 10"));
    }
}

/// The set; none where a key is missing.
fn build(draft: &Draft, source: &SourceText) -> Option<DrillSet> {
    let count = draft.count.as_ref()?.value;
    let pass = draft.pass.as_ref().map(|pass| match pass.value {
        Passing::Right(right, _) => Pass::Right(right),
        Passing::Sequential => sequential_rule(draft.sequential.as_ref()),
    });
    let portions: Option<Vec<Portion>> = draft.portions.iter().map(portion).collect();
    let feedback = if pass.is_some() { Feedback::AtTheEnd } else { Feedback::Now };
    Some(DrillSet {
        id: draft.id.as_ref()?.value.clone(),
        title: draft.title.as_ref()?.value.clone(),
        about: draft.about.as_ref().map(|about| about.value.clone()).unwrap_or_default(),
        revision: Revision::of(&source.text).0,
        text: source.text.clone(),
        portions: portions?,
        count,
        order: draft.order.as_ref().map_or(Order::Mixed, |order| order.value),
        time: draft.time.as_ref().map(|time| time.value),
        glass: draft.glass.as_ref().map_or(Allowed::Yes, |glass| glass.value),
        feedback: draft.feedback.as_ref().map_or(feedback, |feedback| feedback.value),
        pass,
        seed: draft.seed.as_ref().map(|seed| Seed(seed.value)),
    })
}

fn sequential_rule(sequence: Option<&Sequence>) -> Pass {
    let figure = |of: fn(&Sequence) -> &Option<Written<u32>>, usual| {
        sequence.and_then(|sequence| of(sequence).as_ref()).map_or(usual, |written| written.value)
    };
    Pass::Sequential {
        bad: figure(|s| &s.bad, BAD),
        good: figure(|s| &s.good, GOOD),
        lets_through: figure(|s| &s.lets_through, RISK),
        turns_away: figure(|s| &s.turns_away, RISK),
        least: figure(|s| &s.least, LEAST),
    }
}

/// Quantities are kept as they were written: an end that is left open is as far as any instrument reaches.
fn portion(asks: &super::schema::Asks) -> Option<Portion> {
    const FAR: i128 = 1_000_000;
    let value = |written: &Option<Written<Exact>>| written.as_ref().map(|written| written.value);
    let (from, to) = (value(&asks.from), value(&asks.to));
    let within = (from.is_some() || to.is_some())
        .then(|| [from.unwrap_or(Exact::whole(-FAR)), to.unwrap_or(Exact::whole(FAR))]);
    let what = match (&asks.kinds, &asks.level) {
        (_, Some(level)) => What::Level(level.value),
        (Some(kinds), None) => What::Kinds(kinds.value.iter().map(|kind| kind.value).collect()),
        (None, None) => What::Kinds(vec![Kind::Read]),
    };
    let provoke = asks.provoke.iter().flat_map(|list| &list.value).map(|misread| misread.value);
    let readings: Option<Vec<Given>> = asks
        .readings
        .iter()
        .map(|fixed| {
            let zero_error = value(&fixed.zero_error).unwrap_or(Exact::ZERO);
            Some(Given { reading: value(&fixed.reading)?, zero_error })
        })
        .collect();
    Some(Portion {
        instrument: asks.instrument.as_ref()?.value.clone(),
        share: asks.share.as_ref().map_or(1, |share| share.value),
        what,
        within,
        zero: asks.zero.as_ref().map_or(ZeroOff::AsDrawn, |zero| zero.value),
        conditions: asks.conditions.as_ref().map_or(Met::AsDrawn, |met| met.value),
        variant: asks.variant.as_ref().map(|variant| variant.value.clone()),
        provoke: provoke.collect(),
        spread: asks.spread.as_ref().is_some_and(|spread| spread.value),
        readings: readings?,
    })
}

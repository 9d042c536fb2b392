//! From a definition without faults to the instrument.

use super::measure::{after, begin, end, quantum, spell, value, vernier};
use super::offers;
use crate::exact::{Exact, Lattice, Notation, Quanta};
use crate::instrument::schema::{Definition, Draft, Figures, Second, Shape, Style, Written};
use crate::instrument::{
    Body, Choice, Contact, Course, Dial, Drum, Estimate, Figured, Form, Grows, Held, Instrument, Length,
    Line, Moves, Nought, Numerals, Other, Parts, ReadBy, Revision, Sense, Set, Sides, SmallHand, Stage,
    State, Turns, Variant, Vernier, Zero,
};

/// Builds the instrument. `None` only where a rule should have found a fault.
pub(super) fn instrument(def: &Definition, text: &str) -> Option<Instrument> {
    let lattice = Lattice::new(quantum(def)?);
    let unit = value(def.unit.as_ref())?;
    let least_count = value(def.least_count.as_ref())?;
    let notation = match value(def.style.as_ref()) {
        Some(Style::Fraction) => Notation::Fraction,
        Some(Style::Angle) => Notation::Angle,
        Some(Style::Decimal) | None => Notation::decimal_for(unit, least_count)?,
    };
    let step = value(def.settings.as_ref()).unwrap_or(least_count);
    let plain = (0..def.stages.len()).filter(|at| def.stages[*at].lengths.is_empty());
    let stages = plain.map(|at| stage(def, at, lattice)).collect::<Option<Vec<_>>>()?;
    let choices = choices(def, lattice)?;
    let stamps = choices.iter().filter_map(|choice| choice.lengths.first()).map(|length| &length.stamped);
    let stamps = stamps.filter(|text| !text.is_empty()).cloned();
    let engraved = stamps.chain(def.engraved.iter().map(|text| text.value.clone())).collect();
    let fitted = vec![0; choices.len()];
    let instrument = Instrument {
        id: text_of(def.id.as_ref())?,
        title: text_of(def.title.as_ref())?,
        family: text_of(def.family.as_ref())?,
        unit,
        lattice,
        notation,
        least_count: lattice.at(least_count)?,
        estimate: estimate(def),
        step: lattice.at(step)?,
        low: lattice.at(value(def.low.as_ref())?)?,
        high: lattice.at(value(def.high.as_ref())?)?,
        offers: offers::build(def, lattice)?.into(),
        stages: stages.into(),
        choices: choices.into(),
        fitted,
        grows: def.grows.as_ref().map_or(Grows::Uncovering, |written| written.value),
        moves: def.moves.unwrap_or(Moves::Finer),
        held: Held::Usual,
        zero: def.zero.unwrap_or(Zero::CanBeOff),
        set_ups: def.set_ups.iter().map(|one| one.value).collect(),
        engraved,
        label: None,
        target: None,
        state: State::default(),
        source: text_of(def.source.as_ref())?,
        revision: Revision::of(text),
        other: None,
    };
    let other = match &def.other {
        Some(second) => Some(Box::new(other(def, second, text)?)),
        None => None,
    };
    let instrument = Instrument { other, ..instrument };
    let mut instrument = instrument.fitted(&Variant::default());
    if instrument.is_estimated() {
        instrument = instrument.estimated();
        if let Some(settings) = value(def.settings.as_ref()) {
            instrument.step = instrument.lattice.at(settings)?;
        }
    }
    Some(instrument)
}

/// How the digit beyond the finest lines is estimated.
fn estimate(def: &Definition) -> Option<Estimate> {
    let stage = def.stages.iter().find(|stage| stage.estimate.is_some())?;
    let step = value(stage.estimate.as_ref())?;
    let whole = |of: Exact| of.over(step).to_whole().and_then(|count| i64::try_from(count).ok());
    Some(Estimate {
        parts: Parts(whole(value(stage.division.as_ref())?)?),
        accept: whole(value(stage.accept.as_ref())?)?,
        nought: value(stage.nought.as_ref()).unwrap_or(Nought::Optional),
    })
}

/// The second set of scales, with what belongs to the whole tool.
fn other(def: &Definition, second: &Second, text: &str) -> Option<Other> {
    let scales = Definition {
        id: def.id.clone(),
        title: def.title.clone(),
        family: def.family.clone(),
        grows: def.grows.clone(),
        moves: def.moves,
        source: second.scales.source.clone().or_else(|| def.source.clone()),
        ..second.scales.clone()
    };
    let words: [String; 2] =
        second.reads.iter().map(|word| word.value.clone()).collect::<Vec<_>>().try_into().ok()?;
    Some(Other {
        joined: value(second.joined.as_ref())?,
        read: Set::First,
        words,
        tool: instrument(&scales, text)?,
    })
}

fn choices(def: &Definition, lattice: Lattice) -> Option<Vec<Choice>> {
    let mut choices = Vec::new();
    for (at, draft) in def.stages.iter().enumerate().filter(|(_, draft)| !draft.lengths.is_empty()) {
        let length = |(length, stamped): (&Written<Exact>, &Written<String>)| {
            Some(Length {
                value: lattice.at(length.value)?,
                written: spell(def, length.value),
                stamped: stamped.value.clone(),
            })
        };
        choices.push(Choice {
            name: text_of(draft.name.as_ref())?,
            position: def.stages[..at].iter().filter(|before| before.lengths.is_empty()).count(),
            lengths: draft.lengths.iter().zip(&draft.stamped).map(length).collect::<Option<_>>()?,
            practised: !draft.first_only,
            owned: None,
        });
    }
    Some(choices)
}

fn text_of(written: Option<&Written<String>>) -> Option<String> {
    written.map(|written| written.value.clone())
}

fn stage(def: &Definition, at: usize, lattice: Lattice) -> Option<Stage> {
    let draft = &def.stages[at];
    let quanta = |written: &Option<Written<Exact>>| lattice.at(value(written.as_ref())?);
    let rest = if after(def, at).is_some() { ReadBy::LastPassed } else { ReadBy::Nearest };
    let read = value(draft.read.as_ref()).unwrap_or(rest);
    let form = match draft.shape()? {
        Shape::Line => Form::Line(Line {
            division: quanta(&draft.division)?,
            begin: lattice.at(begin(def, at)?)?,
            end: lattice.at(end(def, at)?)?,
            figured: value(draft.figured.as_ref()).unwrap_or(Figured::OneWay),
            tiers: tiers(draft, lattice)?,
            numerals: numerals(draft, lattice)?,
            read,
            runs: value(draft.runs.as_ref()).unwrap_or(Course::Rightward),
            sides: sides(draft, lattice)?,
        }),
        Shape::Drum => Form::Drum(Drum {
            division: quanta(&draft.division)?,
            parts: value(draft.parts.as_ref())?,
            tiers: tiers(draft, lattice)?,
            numerals: numerals(draft, lattice)?,
            read,
        }),
        Shape::Dial => Form::Dial(Dial {
            division: quanta(&draft.division)?,
            parts: value(draft.parts.as_ref())?,
            tiers: tiers(draft, lattice)?,
            numerals: numerals(draft, lattice)?,
            read,
            face: value(draft.face.as_ref())?,
            sense: value(draft.sense.as_ref()).unwrap_or(Sense::Clockwise),
            body: value(draft.body.as_ref()).unwrap_or(Body::Face),
            turns: value(draft.turns.as_ref()).unwrap_or(Turns::Uncounted),
            small_hand: SmallHand::With,
            takes: value(draft.takes.as_ref()),
            contact: value(draft.contact.as_ref()).unwrap_or(Contact::Plunger),
        }),
        Shape::Vernier => {
            let geometry = vernier(def, at)?;
            Form::Vernier(Vernier {
                parts: value(draft.parts.as_ref())?,
                over: value(draft.over.as_ref())?,
                part: lattice.at(geometry.part)?,
                least_count: lattice.at(geometry.least_count)?,
                runs: geometry.runs,
                figured: value(draft.figured.as_ref()).unwrap_or(Figured::OneWay),
                tiers: tiers(draft, lattice)?,
                numerals: numerals(draft, lattice)?,
            })
        }
        Shape::Fixed => Form::Fixed(quanta(&draft.length)?),
    };
    Some(Stage { name: text_of(draft.name.as_ref())?, form })
}

fn tiers(draft: &Draft, lattice: Lattice) -> Option<Vec<Quanta>> {
    draft.tiers.iter().map(|tier| lattice.at(tier.value)).collect()
}

fn numerals(draft: &Draft, lattice: Lattice) -> Option<Vec<Numerals>> {
    let rule = |figures: &Figures| {
        let worth = value(figures.worth.as_ref())?;
        let by = worth.over(lattice.quantum()).denominator();
        Some(Numerals {
            every: lattice.at(value(figures.every.as_ref())?)?,
            worth: lattice.at(worth * Exact::whole(by))?,
            by: i64::try_from(by).ok()?,
            wrap: value(figures.wrap.as_ref()),
            back: value(figures.back.as_ref()),
            size: figures.size,
        })
    };
    draft.numerals.as_ref()?.iter().map(rule).collect()
}

fn sides(draft: &Draft, lattice: Lattice) -> Option<Sides> {
    let whole = match &draft.whole {
        Some(whole) => Some(lattice.at(whole.value)?),
        None => None,
    };
    Some(match (&draft.halves, &draft.side) {
        (Some(halves), _) => Sides::Split { whole: whole?, halves: halves.value.clone() },
        (None, Some(side)) => Sides::One { side: side.value, whole },
        (None, None) => Sides::None,
    })
}

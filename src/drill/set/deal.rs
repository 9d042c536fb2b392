//! The paper of one sitting.
//!
//! Version 1. The portions get their shares of the count, largest remainders first; a mixed paper is shuffled with the sampler
//! `linefall paper 1` of the seed. Question `n` of a portion is the first from number 512(n-1)+1 on that the portion wants, or
//! that first one where none of the 512 is. Never edited, only followed by another version.

use super::item::{Item, Posed};
use super::{DrillSet, Met, Order, Portion, What, ZeroOff};
use crate::drill::draw::Draw;
use crate::drill::{Conditions, Kind, Level, Question, Seed, trap};
use crate::exact::Quanta;
use crate::instrument::{Catalogue, Instrument, Zero};

/// Numbers among which a question is chosen.
const POOL: u32 = 512;
/// Of so many questions of a portion that is spread, one has its zero off and one is near a line.
const TEN: u32 = 10;

/// The paper of a set: its questions in order. Instruments that are not there are left out.
pub fn deal(set: &DrillSet, catalogue: &Catalogue, seed: Seed) -> Vec<Item> {
    let seed = set.seed(seed);
    let counts = shares(set);
    let mut paper = Vec::new();
    for (place, (portion, count)) in set.portions.iter().zip(counts).enumerate() {
        if let Some(instrument) = catalogue.get(&portion.instrument) {
            let seed = apart(seed, place);
            paper.extend((1..=count).filter_map(|n| item(portion, instrument, seed, n)));
        }
    }
    if set.order == Order::Mixed {
        Draw::apart("linefall paper 1", seed, 0).shuffle(&mut paper);
    }
    for (place, item) in (1..).zip(&mut paper) {
        item.place = place;
    }
    paper
}

/// How many questions each portion gets.
fn shares(set: &DrillSet) -> Vec<u32> {
    let all: u64 = set.portions.iter().map(|portion| u64::from(portion.share)).sum();
    let exact = |portion: &Portion| u64::from(set.count) * u64::from(portion.share);
    let mut counts: Vec<u64> = set.portions.iter().map(|portion| exact(portion) / all.max(1)).collect();
    let mut by_rest: Vec<usize> = (0..counts.len()).collect();
    by_rest.sort_by_key(|n| std::cmp::Reverse(exact(&set.portions[*n]) % all.max(1)));
    let missing = u64::from(set.count).saturating_sub(counts.iter().sum());
    for n in by_rest.into_iter().cycle().take(usize::try_from(missing).unwrap_or(0)) {
        counts[n] += 1;
    }
    counts.into_iter().map(|count| u32::try_from(count).expect("at most the whole count")).collect()
}

/// The seed of a portion: two portions on one instrument are not to pose the same.
fn apart(seed: Seed, place: usize) -> Seed {
    let mut draw = Draw::apart("linefall portion 1", seed, u32::try_from(place).expect("a few portions"));
    Seed(u64::from(draw.below(u32::MAX)) << 32 | u64::from(draw.below(u32::MAX)))
}

/// Question `n` (from 1) of a portion; its place on the paper is not known yet.
fn item(portion: &Portion, instrument: &Instrument, seed: Seed, n: u32) -> Option<Item> {
    let id = &portion.instrument;
    let given = usize::try_from(n - 1).ok().and_then(|n| portion.readings.get(n));
    if let Some(given) = given {
        let variant = portion.variant.as_deref().unwrap_or_default();
        let variant = instrument.variant(variant)?;
        let tool = instrument.fitted(&variant);
        let setting = tool.lattice.at(given.reading)?;
        let zero_error = tool.lattice.at(given.zero_error)?;
        let posed = Posed::Given { setting, zero_error, variant };
        return Some(Item { place: 0, instrument: id.clone(), kind: Kind::Read, posed });
    }
    let kinds = match &portion.what {
        What::Kinds(kinds) => kinds.clone(),
        What::Level(level) => level.kinds(instrument),
    };
    let kind = *kinds.get(usize::try_from(n - 1).ok()? % kinds.len().max(1))?;
    let first = (n - 1).saturating_mul(POOL).saturating_add(1);
    let wanted = |number: &u32| {
        let posed = Posed::Drawn { seed, number: *number };
        let item = Item { place: 0, instrument: id.clone(), kind, posed };
        if portion.is_indifferent() {
            return Some(item);
        }
        let task = item.task_on(instrument)?;
        let part = task.parts.iter().find(|part| !part.pictures.is_empty()).or(task.parts.first())?;
        portion.wants(&part.question, instrument, &part.tool, n).then_some(item)
    };
    let numbers = first..first.saturating_add(POOL);
    let found = numbers.clone().find_map(|number| wanted(&number));
    found.or_else(|| {
        let posed = Posed::Drawn { seed, number: first };
        Some(Item { place: 0, instrument: id.clone(), kind, posed })
    })
}

impl Portion {
    /// True where any question will do.
    fn is_indifferent(&self) -> bool {
        self.within.is_none()
            && self.zero == ZeroOff::AsDrawn
            && self.conditions == Met::AsDrawn
            && self.variant.is_none()
            && self.provoke.is_empty()
            && !self.spread
            && self.what != What::Level(Level::Traps)
    }

    /// Whether a question will do as the portion's question `n`. `tool` is the one of the question.
    pub fn wants(&self, question: &Question, instrument: &Instrument, tool: &Instrument, n: u32) -> bool {
        let size = tool.value(question.setting - question.zero_error);
        let within = self.within.is_none_or(|[low, high]| low <= size && size <= high);
        let off = question.zero_error != Quanta::ZERO;
        let can_be_off = tool.zero == Zero::CanBeOff;
        let zero = match self.zero {
            ZeroOff::Always => off || !can_be_off,
            ZeroOff::Never => !off,
            ZeroOff::AsDrawn if self.spread && can_be_off && n % TEN == 1 => off,
            ZeroOff::AsDrawn => true,
        };
        let odd = question.conditions != Conditions { set: question.conditions.set, ..Conditions::default() };
        let conditions = match self.conditions {
            Met::AsDrawn => true,
            Met::Always => odd,
            Met::Never => !odd,
        };
        let variant = self.variant.as_deref().and_then(|word| instrument.variant(word));
        let variant = variant.is_none_or(|variant| variant == question.variant);
        let case = question.case(tool);
        let provokes =
            || self.provoke.is_empty() || self.provoke.iter().any(|misread| !misread.wrong(&case).is_empty());
        let trap = match self.what {
            What::Level(Level::Traps) => trap::is_trap(question, tool) == (n % 4 == 2),
            _ if self.spread && n % TEN == 6 => trap::is_trap(question, tool),
            _ => true,
        };
        within && zero && conditions && variant && trap && provokes()
    }
}

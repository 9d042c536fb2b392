//! The paper of one sitting.
//!
//! Version 1. The portions get their shares of the count, largest remainders first. Question `n` of a portion is the first from
//! number 512(n-1)+1 on of the run of the portion's seed that is what the portion wants, or that first one where none of the 512
//! is; `same-again`, whose settings come a second time, is number `n` itself. Of the plain readings that are spread, over all
//! portions, the first and every tenth after it is wanted with its zero off, the sixth and every tenth after it near a line; where a
//! tool cannot have that, the next one that can. A mixed paper is shuffled with the sampler `linefall paper 1` of the seed; what
//! comes a second time keeps its order. Never edited, only followed by another version.

use super::item::{Item, Posed};
use super::wish::{Chooser, Wish};
use super::{DrillSet, Order, Portion};
use crate::drill::draw::Draw;
use crate::drill::{Kind, Seed};
use crate::instrument::{Catalogue, Instrument};

/// Numbers among which a question is chosen.
pub(super) const POOL: u32 = 512;
/// Of so many readings that are spread, one has its zero off and one is near a line.
const TEN: u32 = 10;

/// The paper of a set: its questions in order. Instruments that are not there are left out.
pub fn deal(set: &DrillSet, catalogue: &Catalogue, seed: Seed) -> Vec<Item> {
    Dealer::new(set, catalogue).deal(seed)
}

/// Somebody who deals papers of one set. Who deals many keeps it: what all papers have in common is made once.
pub struct Dealer<'a> {
    set: &'a DrillSet,
    /// Each portion that has its instrument, and how many questions it gets.
    portions: Vec<(usize, &'a Portion, Chooser<'a>, u32)>,
}

impl<'a> Dealer<'a> {
    /// A dealer of the papers of a set.
    pub fn new(set: &'a DrillSet, catalogue: &'a Catalogue) -> Self {
        let portions = set.portions.iter().zip(shares(set)).enumerate();
        let portions = portions.filter_map(|(place, (portion, count))| {
            let instrument = catalogue.get(&portion.instrument)?;
            Some((place, portion, Chooser::new(portion, instrument), count))
        });
        Self { set, portions: portions.collect() }
    }

    /// The paper of a seed; of the set's own where it has one.
    pub fn deal(&self, seed: Seed) -> Vec<Item> {
        let seed = self.set.seed(seed);
        let (mut paper, mut spread) = (Vec::new(), Spread::default());
        for (place, portion, chooser, count) in &self.portions {
            let seed = apart(seed, *place);
            paper.extend((1..=*count).filter_map(|n| match portion.readings.get(place_of(n)) {
                Some(_) => given(portion, chooser.instrument(), n),
                None => drawn(chooser, &mut spread, seed, n),
            }));
        }
        if self.set.order == Order::Mixed {
            Draw::apart("linefall paper 1", seed, 0).shuffle(&mut paper);
            put_in_turn(&mut paper);
        }
        for (place, item) in (1..).zip(&mut paper) {
            item.place = place;
        }
        paper
    }
}

fn place_of(n: u32) -> usize {
    usize::try_from(n - 1).unwrap_or(usize::MAX)
}

/// How many questions each portion gets.
pub(super) fn shares(set: &DrillSet) -> Vec<u32> {
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

/// The seed of a portion: two portions on one instrument are not to pose the same. That of a job card's paper is one of job cards.
fn apart(seed: Seed, place: usize) -> Seed {
    let mut draw = Draw::apart("linefall portion 1", seed, u32::try_from(place).expect("a few portions"));
    let own = Seed(u64::from(draw.below(u32::MAX)) << 32 | u64::from(draw.below(u32::MAX)));
    if seed.is_of_card() { own.of_card() } else { own }
}

/// The given reading of question `n` (from 1); none where it does not go with the instrument any more.
fn given(portion: &Portion, instrument: &Instrument, n: u32) -> Option<Item> {
    let given = portion.readings.get(place_of(n))?;
    let variant = instrument.variant(portion.variant.as_deref().unwrap_or_default())?;
    let tool = instrument.fitted(&variant);
    let setting = tool.lattice.at(given.reading)?;
    let zero_error = tool.lattice.at(given.zero_error)?;
    let posed = Posed::Given { setting, zero_error, variant };
    Some(Item { place: 0, instrument: portion.instrument.clone(), kind: Kind::Read, posed })
}

/// Question `n` (from 1) of a portion; its place on the paper is not known yet.
fn drawn(chooser: &Chooser<'_>, spread: &mut Spread, seed: Seed, n: u32) -> Option<Item> {
    let (kind, turn) = chooser.kind(n)?;
    let mut wish = chooser.wish(n, turn);
    if chooser.is_spread(kind) {
        spread.wish(chooser, &mut wish);
    }
    let first = (n - 1).saturating_mul(POOL).saturating_add(1);
    let number = match kind {
        Kind::SameAgain => n,
        _ => (first..first.saturating_add(POOL))
            .find(|number| chooser.is_met(&wish, kind, seed, *number))
            .unwrap_or(first),
    };
    let posed = Posed::Drawn { seed, number };
    Some(Item { place: 0, instrument: chooser.instrument().id.clone(), kind, posed })
}

/// How the readings that are spread fare.
#[derive(Default)]
struct Spread {
    readings: u32,
    off: u32,
    near: u32,
}

impl Spread {
    /// Adds to what is wanted of the next reading.
    fn wish(&mut self, chooser: &Chooser<'_>, wish: &mut Wish) {
        self.readings += 1;
        if self.off * TEN < self.readings && chooser.can_be_off() {
            wish.off = Some(true);
            self.off += 1;
        } else if self.near * TEN + TEN / 2 < self.readings && wish.near.is_none() && chooser.can_be_near() {
            wish.near = Some(true);
            self.near += 1;
        }
    }
}

/// Puts what comes a second time back into its order, in the places that it got.
fn put_in_turn(paper: &mut [Item]) {
    let run = |item: &Item| match item.posed {
        Posed::Drawn { seed, number } if item.kind == Kind::SameAgain => Some((seed, number)),
        Posed::Drawn { .. } | Posed::Given { .. } => None,
    };
    let mut seeds: Vec<Seed> = paper.iter().filter_map(run).map(|(seed, _)| seed).collect();
    seeds.sort_unstable_by_key(|seed| seed.0);
    seeds.dedup();
    for seed in seeds {
        let places: Vec<usize> =
            (0..paper.len()).filter(|n| run(&paper[*n]).is_some_and(|(of, _)| of == seed)).collect();
        let mut items: Vec<Item> = places.iter().map(|n| paper[*n].clone()).collect();
        items.sort_by_key(|item| run(item).map(|(_, number)| number));
        for (place, item) in places.into_iter().zip(items) {
            paper[place] = item;
        }
    }
}

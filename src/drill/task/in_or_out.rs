//! In or out: a part against its drawing. Good, rework, tag it and ask, or a finer tool?
//!
//! Drawn: the decision, each equally often; whether the tool is fine enough, so that a coarse tool gives no answer away; then, until
//! one fits, a size, a drawing of it and the part's own sizes, so that the decision follows.

use super::callouts::{Fineness, drawing, feature};
use super::drawing::{Callout, Decision, Drawing, Taken};
use super::{Asked, Choice, Offered, Part, Says, Wanted, in_good_order};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::mark::Found;
use crate::drill::{Kind, Sight};
use crate::exact::{Exact, Quanta};
use crate::instrument::Instrument;
use crate::reading::{Case, Wrong, misread, read};

/// How often a drawing is made up before there is none.
const TRIES: u32 = 400;
/// How many divisions beyond a limit a part may be.
const BEYOND: i64 = 9;

pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let question = in_good_order(instrument, seed, number, draw);
    let mut part = Part::reading(instrument, question);
    let feature = feature(&part.tool, draw)?;
    let decision = draw.one_of(&Decision::ALL);
    // Of a fine tool's parts a third are good, of a coarse one's half want a finer tool: neither tells more than the other.
    let coarse = match decision {
        Decision::Good => false,
        Decision::Finer => draw.below(2) == 0,
        Decision::Rework | Decision::Tag => draw.below(4) == 0,
    };
    let fineness = if coarse { Fineness::TooCoarse } else { Fineness::Enough };
    let settings = u32::try_from((part.tool.high - part.tool.low).passed(part.tool.step) + 1).ok()?;
    for _ in 0..TRIES {
        let at = part.tool.low + part.tool.step * i64::from(draw.below(settings));
        let drawing = drawing(&part.tool, feature, part.tool.value(at), fineness, draw);
        let Some(mut drawing) = drawing else { continue };
        if part.question.zero_error != Quanta::ZERO {
            // The closed tool is shown as well: one picture of the work is enough.
            drawing.taken = Taken::Once;
        }
        let Some(sizes) = sizes(&part, &drawing, decision, draw) else { continue };
        let tool = &part.tool;
        let shown = |size: Quanta| {
            part.question.clone().standing(tool, size + part.question.zero_error).measuring(tool)
        };
        part.pictures = sizes.iter().map(|size| shown(*size)).collect();
        part.question = part.question.clone().standing(tool, sizes[0] + part.question.zero_error);
        part.kind = Kind::InOrOut;
        part.asked = Asked::InOrOut(Box::new(drawing));
        let offer = |decision: Decision| Offered { says: Says::Word(decision.word()), slip: None };
        let right = Decision::ALL.iter().position(|one| *one == decision)?;
        part.wanted = Wanted::Choice(Choice { options: Decision::ALL.map(offer).to_vec(), right });
        return Some(vec![part]);
    }
    None
}

/// Sizes of a part about which this is decided: one, or two of which either decides.
fn sizes(part: &Part, drawing: &Drawing, decision: Decision, draw: &mut Draw) -> Option<Vec<Quanta>> {
    let tool = &part.tool;
    let least_count = tool.value(tool.least_count);
    let judge = |sizes: &[Quanta]| {
        let sizes: Vec<Exact> = sizes.iter().map(|size| tool.value(*size)).collect();
        drawing.judge(least_count, &sizes).0
    };
    let near: Vec<Quanta> = near(part, drawing)
        .into_iter()
        .filter(|size| drawing.is_plain(least_count, tool.value(*size)))
        .collect();
    let deciding: Vec<Quanta> = near.iter().copied().filter(|size| judge(&[*size]) == decision).collect();
    if deciding.is_empty() {
        return None;
    }
    let first = draw.one_of(&deciding);
    if drawing.taken == Taken::Once {
        return Some(vec![first]);
    }
    let harmless = |size: &Quanta| {
        let alone = judge(&[*size]);
        *size != first
            && alone != Decision::Rework
            && alone != Decision::Tag
            && judge(&[first, *size]) == decision
    };
    let others: Vec<Quanta> = near.iter().copied().filter(harmless).collect();
    if others.is_empty() {
        return None;
    }
    let second = draw.one_of(&others);
    Some(if draw.below(2) == 0 { vec![first, second] } else { vec![second, first] })
}

/// The sizes that the tool can be read at, from some divisions below the limits to some above.
fn near(part: &Part, drawing: &Drawing) -> Vec<Quanta> {
    let (tool, zero) = (&part.tool, part.question.zero_error);
    let steps = |value: Exact| {
        let quanta = value.over(tool.lattice.quantum());
        let whole = i64::try_from(quanta.numerator().div_euclid(quanta.denominator())).ok()?;
        Some((Quanta(whole) - tool.low).passed(tool.step))
    };
    let margin = (tool.least_count * BEYOND).passed(tool.step);
    let (Some(from), Some(to)) = (steps(drawing.tolerance.low), steps(drawing.tolerance.high)) else {
        return Vec::new();
    };
    let stands = |size: &Quanta| (tool.low..=tool.high).contains(&(*size + zero));
    (from - margin..=to + margin)
        .map(|step| tool.low + tool.step * step)
        .filter(|size| stands(size) && *size > Quanta::ZERO)
        .collect()
}

impl Part {
    /// The sizes that the pictures show.
    pub fn sizes(&self) -> Vec<Exact> {
        let size =
            |sight: &Sight| sight.tool.value(read(&sight.tool, &sight.pose).total - self.question.zero_error);
        self.pictures.iter().map(size).collect()
    }

    /// The misreads of one picture that lead to a decision.
    pub(super) fn slips_to_decision(&self, drawing: &Drawing, chosen: Decision) -> Vec<Found> {
        let least_count = self.tool.value(self.tool.least_count);
        let sizes = self.sizes();
        let readings: Vec<_> = self.pictures.iter().map(|sight| read(&sight.tool, &sight.pose)).collect();
        let leads = |nth: usize, wrong: &Wrong| {
            let mut taken = sizes.clone();
            taken[nth] = wrong.answer;
            drawing.judge(least_count, &taken).0 == chosen
        };
        misread::ALL
            .into_iter()
            .filter_map(|misread| {
                self.pictures.iter().zip(&readings).enumerate().find_map(|(nth, (sight, reading))| {
                    let case = Case { pose: &sight.pose, reading, ..self.question.case(&self.tool) };
                    let wrong = misread.wrong(&case).into_iter().find(|wrong| leads(nth, wrong))?;
                    Some(Found { misread, wrong })
                })
            })
            .collect()
    }

    /// A drawing as it stands in a record, and where the part was measured beside the first picture.
    pub(super) fn drawing_word(&self, drawing: &Drawing) -> String {
        let size = drawing.tolerance.spell(self.tool.notation);
        let says = match &drawing.callout {
            Callout::Written => String::new(),
            Callout::TitleBlock(_) => " by title block".to_owned(),
            Callout::Fit(class) => format!(" {class}"),
        };
        let also = match (drawing.taken, self.sizes().get(1)) {
            (Taken::BothEnds, Some(size)) => format!("; other end {}", self.spell_size(*size)),
            (Taken::TwoDirections, Some(size)) => format!("; across {}", self.spell_size(*size)),
            _ => String::new(),
        };
        format!("{} {size}{says}{also}", drawing.feature.word())
    }

    fn spell_size(&self, size: Exact) -> String {
        self.tool.notation.spell_with_unit(size, self.tool.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::record::Verdict;
    use crate::drill::task::drawing::Feature;
    use crate::drill::task::{Given, Task, task};
    use crate::exact::Unit;
    use crate::instrument::Catalogue;
    use std::collections::{BTreeMap, BTreeSet};

    const COUNT: u32 = 120;

    fn tasks(tool: &Instrument) -> impl Iterator<Item = Task> + use<'_> {
        (1..=COUNT).filter_map(|number| task(Kind::InOrOut, tool, Seed(3), number))
    }

    fn drawing_of(part: &Part) -> &Drawing {
        match &part.asked {
            Asked::InOrOut(drawing) => drawing,
            other => panic!("{other:?}"),
        }
    }

    fn right(part: &Part) -> Decision {
        let Wanted::Choice(choice) = &part.wanted else { panic!("a choice") };
        Decision::ALL[choice.right]
    }

    /// The rules of the page once more, in another way: limits counted in divisions from the size.
    fn decided(part: &Part) -> Decision {
        let drawing = drawing_of(part);
        let count = |length: Exact| length.over(part.tool.value(part.tool.least_count));
        let one = Exact::ONE;
        let (low, high) = (drawing.tolerance.low, drawing.tolerance.high);
        let larger = part.sizes().iter().any(|size| count(*size - high) > one);
        let smaller = part.sizes().iter().any(|size| count(low - *size) > one);
        let inside = [Feature::Bore, Feature::Pocket, Feature::Notch].contains(&drawing.feature);
        let (rework, tag) = if inside { (smaller, larger) } else { (larger, smaller) };
        if tag {
            Decision::Tag
        } else if rework {
            Decision::Rework
        } else if count(high - low) >= Exact::whole(4)
            && part.sizes().iter().all(|size| low <= *size && *size <= high)
        {
            Decision::Good
        } else {
            Decision::Finer
        }
    }

    #[test]
    fn what_is_seen_decides_and_the_rest_is_wrong() {
        let mut kinds = BTreeSet::new();
        for tool in Catalogue::new(Vec::new()).all() {
            let mut count = 0;
            for task in tasks(tool) {
                count += 1;
                let part = &task.parts[0];
                kinds.insert(drawing_of(part).feature.word());
                assert_eq!(
                    decided(part),
                    right(part),
                    "{} {}: {}",
                    tool.id,
                    task.number,
                    part.asked.given(part)
                );
                assert_eq!(
                    part.question.setting,
                    part.tool.lattice.at(part.sizes()[0]).expect("on a line") + part.question.zero_error
                );
                for place in 0..Decision::ALL.len() {
                    let marked = part.mark(&Given::Chosen(place));
                    assert_eq!(marked.verdict == Verdict::Right, Decision::ALL[place] == right(part));
                    for found in marked.slips {
                        let mut taken = part.sizes();
                        let changed = (0..taken.len()).any(|n| {
                            let before = std::mem::replace(&mut taken[n], found.wrong.answer);
                            let least_count = part.tool.value(part.tool.least_count);
                            let leads = drawing_of(part).judge(least_count, &taken).0 == Decision::ALL[place];
                            taken[n] = before;
                            leads
                        });
                        assert!(changed, "{} {}", tool.id, found.misread.id);
                    }
                }
            }
            let judges =
                !["handwheel", "dial-indicator", "lesson", "gear-tooth"].contains(&tool.family.as_str());
            assert_eq!(count, if judges { COUNT } else { 0 }, "{}", tool.id);
        }
        assert_eq!(kinds.len(), 7, "every feature is met: {kinds:?}");
    }

    #[test]
    fn guessing_does_not_pay() {
        let mut by_fineness: BTreeMap<bool, BTreeMap<&str, u32>> = BTreeMap::new();
        let mut all: BTreeMap<&str, u32> = BTreeMap::new();
        for tool in Catalogue::new(Vec::new()).all() {
            let mut here: BTreeMap<&str, u32> = BTreeMap::new();
            for task in tasks(tool) {
                let part = &task.parts[0];
                let word = right(part).word();
                *here.entry(word).or_default() += 1;
                let divisions =
                    drawing_of(part).tolerance.width().over(part.tool.value(part.tool.least_count));
                *by_fineness.entry(divisions < Exact::whole(4)).or_default().entry(word).or_default() += 1;
            }
            assert!(
                here.is_empty() || here.len() == 4 && here.values().all(|times| *times >= 10),
                "{}: {here:?}",
                tool.id
            );
            for (word, times) in here {
                *all.entry(word).or_default() += times;
            }
        }
        // One in four of some thousands, less than a tenth of that off.
        let count: u32 = all.values().sum();
        assert!(all.values().all(|times| (times * 4).abs_diff(count) * 10 < count), "{all:?}");
        // Too coarse a tool alone does not say finer: half of its parts are plainly out.
        let coarse = &by_fineness[&true];
        let all: u32 = coarse.values().sum();
        assert!(coarse["finer-tool"] * 3 < all * 2, "{coarse:?}");
    }

    /// Half a millimetre too little read of a good shaft is a shaft that looks too small.
    #[test]
    fn a_wrong_decision_is_traced_to_the_misread_behind_it() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let mut traced = 0;
        for task in tasks(tool).filter(|task| right(&task.parts[0]) == Decision::Good) {
            let part = &task.parts[0];
            let marked = part.mark(&Given::Chosen(2));
            let half = marked.slips.iter().find(|found| found.misread.id == "half-line-missed");
            if let Some(found) = half {
                traced += 1;
                assert_eq!(marked.verdict, Verdict::Misread);
                let gone = part.sizes().iter().any(|size| found.wrong.answer + Exact::ratio(1, 2) == *size);
                assert!(gone, "{found:?}");
            }
        }
        assert!(traced >= 5, "{traced}");
    }

    #[test]
    fn every_notation_is_met_and_reads_back() {
        let mut seen = BTreeSet::new();
        for tool in Catalogue::new(Vec::new()).all() {
            for task in tasks(tool) {
                let part = &task.parts[0];
                let drawing = drawing_of(part);
                seen.insert(match (&drawing.callout, drawing.taken) {
                    (Callout::Written, _) => format!("{:?}", drawing.tolerance.written),
                    (Callout::TitleBlock(_), _) => {
                        format!("title block, {:?}", part.tool.notation == crate::exact::Notation::Fraction)
                    }
                    (Callout::Fit(class), _) => (*class).to_owned(),
                });
                seen.insert(format!("{:?}", drawing.taken));
                let text = drawing.tolerance.spell(part.tool.notation);
                let again = crate::exact::Tolerance::parse(&text).expect("what is written can be read");
                assert_eq!(
                    (again.low, again.high),
                    (drawing.tolerance.low, drawing.tolerance.high),
                    "{text}"
                );
                assert_eq!(
                    part.tool.unit == Unit::Minute,
                    drawing.feature == Feature::Wedge || drawing.feature == Feature::Notch
                );
            }
        }
        // Three notations, two sorts of title block, three fits, three ways of taking it.
        assert_eq!(seen.len(), 11, "{seen:?}");
    }
}

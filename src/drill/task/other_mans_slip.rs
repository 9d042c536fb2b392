//! The other man's figure: do you agree, and if not, what did he do?
//!
//! Always two parts, so that their number gives nothing away: where the first figure is right, what was done is asked of
//! somebody else's. Drawn in this order: whether the first figure is right, below 2, 0 meaning that it is; the slip behind the
//! wrong figure, of those that make a difference here; the other slips offered, and the order.

use super::{Asked, Choice, Offered, Part, Says, Wanted};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::{Kind, question};
use crate::exact::Exact;
use crate::instrument::Instrument;
use crate::reading::{Case, Misread, misread};

/// The word for who agrees.
pub const AGREE: &str = "agree";
/// The word for who does not.
pub const DISAGREE: &str = "do not agree";

/// Writer wrong figure it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Writer {
    /// His whose figure was asked about before.
    TheSame,
    /// Somebody else's: the one asked about before is right.
    Another,
}

/// Slips offered beside the right one.
const BESIDE: usize = 3;
/// Without so many of them it is no choice.
const LEAST_BESIDE: usize = 2;

/// What one slip leads to.
struct Slip {
    misread: &'static Misread,
    figure: Exact,
}

/// A figure to agree with or not, and a slip to be found.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let mut agree = Part::reading(instrument, question(instrument, seed, number));
    let mut done = agree.clone();
    let case = agree.question.case(&agree.tool);
    let right = draw.below(2) == 0;
    let slips = written(&case);
    if slips.is_empty() {
        return None;
    }
    let slip = &slips[draw.place(slips.len())];
    let beside = beside(&case, slip, draw)?;
    let expected = case.expected();

    let (wrote, whose) = if right { (expected, Writer::Another) } else { (slip.figure, Writer::TheSame) };
    let word = |word, slip| Offered { says: Says::Word(word), slip };
    let options = vec![word(AGREE, (!right).then_some(slip.misread.id)), word(DISAGREE, None)];
    agree.kind = Kind::OtherMansSlip;
    agree.asked = Asked::Agree { wrote };
    agree.wanted = Wanted::Choice(Choice { options, right: usize::from(!right) });

    let wrong = beside.into_iter().map(|other| word(other.id, None)).collect();
    done.kind = Kind::OtherMansSlip;
    done.asked = Asked::Done { wrote: slip.figure, whose };
    done.wanted = Wanted::Choice(Choice::shuffled(word(slip.misread.id, None), wrong, draw));
    Some(vec![agree, done])
}

/// The wrong figures somebody might write here, each with the most particular slip behind it.
fn written(case: &Case<'_>) -> Vec<Slip> {
    let below_nought = case.expected().is_negative() || case.instrument.low.0 < 0;
    let mut all: Vec<Slip> = Vec::new();
    for misread in misread::ALL {
        for wrong in misread.wrong(case) {
            let known = all.iter().any(|slip| slip.figure == wrong.answer);
            if !known && (below_nought || !wrong.answer.is_negative()) {
                all.push(Slip { misread, figure: wrong.answer });
            }
        }
    }
    all
}

/// Other slips that can happen on the tool and do not lead to that figure; first those that lead to another one.
fn beside(case: &Case<'_>, slip: &Slip, draw: &mut Draw) -> Option<Vec<&'static Misread>> {
    let other = |misread: &&'static Misread| {
        let leads_there = misread.wrong(case).iter().any(|wrong| case.near(slip.figure, wrong.answer));
        misread.name != slip.misread.name && !leads_there && misread.happens_on(case.instrument)
    };
    let mut all: Vec<&'static Misread> = misread::ALL.into_iter().filter(other).collect();
    draw.shuffle(&mut all);
    all.sort_by_cached_key(|misread| misread.wrong(case).is_empty());
    let mut names: Vec<&str> = Vec::new();
    all.retain(|misread| {
        let new = !names.contains(&misread.name);
        names.push(misread.name);
        new
    });
    all.truncate(BESIDE);
    (all.len() >= LEAST_BESIDE).then_some(all)
}

#[cfg(test)]
mod tests {
    use super::super::testing::every;
    use super::*;
    use crate::exact::Quanta;
    use crate::instrument::Catalogue;

    #[test]
    fn exactly_one_of_the_slips_gives_the_figure() {
        let (mut agreed, mut all) = (0, 0);
        let mut places = [0_u32; BESIDE + 1];
        for (tool, task) in every(Kind::OtherMansSlip, 60) {
            let [agree, done] = task.parts.as_slice() else { panic!("always two parts") };
            let case = agree.question.case(&agree.tool);
            let (Asked::Agree { wrote: first }, Asked::Done { wrote, whose }) = (&agree.asked, &done.asked)
            else {
                panic!("agree, then what was done");
            };
            assert!(!case.accepts(*wrote), "{}", tool.id);
            let Wanted::Choice(choice) = &agree.wanted else { panic!("a choice") };
            let right = choice.options[choice.right].says == Says::Word(AGREE);
            assert_eq!(case.accepts(*first), right, "{}", tool.id);
            assert_eq!(*whose == Writer::Another, right, "{}", tool.id);
            assert!(right || first == wrote, "{}", tool.id);
            let Wanted::Choice(choice) = &done.wanted else { panic!("a choice") };
            places[choice.right] += u32::from(choice.options.len() == places.len());
            for (n, option) in choice.options.iter().enumerate() {
                let Says::Word(id) = option.says else { panic!("a name") };
                let misread = misread::named(id).expect("one of all");
                let gives = misread.wrong(&case).iter().any(|wrong| wrong.answer == *wrote);
                assert_eq!(gives, n == choice.right, "{} {id}", tool.id);
                assert!(misread.happens_on(&agree.tool), "{} {id}", tool.id);
            }
            all += 1;
            agreed += u32::from(right);
        }
        // Half of them; a share of 2,000 is within 0.04 of it in all but one of 3,000 runs.
        let share = f64::from(agreed) / f64::from(all);
        assert!((0.46..0.54).contains(&share), "{agreed} of {all}");
        let four: u32 = places.iter().sum();
        assert!(four > 2000, "{four}");
        for place in places {
            let share = f64::from(place) / f64::from(four);
            assert!((0.21..0.29).contains(&share), "{places:?}");
        }
    }

    /// E08 of the published wrong answers: sleeve figure 2, three lines, thimble 17, printed as 2.092.
    #[test]
    fn a_published_slip_is_among_those_that_may_be_written() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-inch").expect("shipped");
        let tool = tool.fitted(&tool.plain());
        let question = crate::drill::Question::new(&tool, 1, Quanta(292), Quanta::ZERO, tool.plain());
        let written = written(&question.case(&tool));
        let slip = written.iter().find(|slip| slip.figure == Exact::ratio(2092, 1000)).expect("E08");
        assert_eq!(slip.misread.id, "figure-as-inches");
    }
}

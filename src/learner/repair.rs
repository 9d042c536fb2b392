//! What is done about a misread that keeps happening: it is named once, the readings that follow repair it, and on the next day
//! and a week later it is asked about again.
//!
//! All of it is a fold over answers: what was found can be made out again from what is kept of them.

use super::calendar::Day;
use super::diagnosis::{Belief, CONFIRMED, Heard, Hypothesis, MOST, Predicted, Prior, SURE, Suspects};
use super::summary::{Answer, Kept};
use crate::drill::{Draw, Question, Seed, question, trap};
use crate::instrument::Instrument;
use crate::reading::misread;
use std::collections::{BTreeSet, VecDeque};

/// A repair takes so many readings at the most; then it is left for another day.
pub const LONGEST: u32 = 18;
/// Days after which a named misread is asked about again.
pub const PROBED_AFTER: [i32; 2] = [1, 7];
/// One in so many readings of a repair is one where the misread does no harm, so that its opposite is not learnt instead.
const HARMLESS: u32 = 3;

/// A misread that was named.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// Its id.
    pub id: &'static str,
    /// The day.
    pub on: Option<Day>,
    /// How often it had happened.
    pub times: u32,
    /// Its repair came to its end, and it was gone.
    pub is_clear: bool,
    /// The last day on which it would have been seen.
    seen: Option<Day>,
}

impl Found {
    /// When it is to be asked about again; none when it was, both times.
    pub fn due(&self) -> Option<Day> {
        let on = self.on?;
        let seen = self.seen.unwrap_or(on);
        PROBED_AFTER.into_iter().map(|days| on.after(days)).find(|due| seen < *due)
    }
}

/// What is said after an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Word {
    /// A misread is named.
    Named(Found),
    /// It is gone.
    Clear(Found),
    /// It is not gone, and left for another day.
    NotYet(Found),
}

/// Answers on an instrument, attended to one by one. What is believed is carried on from answer to answer, with a little room for
/// something new to come up; in a repair, with what its explanations do.
#[derive(Clone)]
pub struct Attended {
    suspects: Suspects,
    belief: Belief,
    /// For each of the latest answers the suspects that predicted it, where it was wrong.
    lately: VecDeque<Vec<usize>>,
    repair: Option<Repair>,
    found: Vec<Found>,
}

/// A repair under way: that of the misread found last.
#[derive(Clone, Copy)]
struct Repair {
    suspect: usize,
    asked: u32,
}

impl Attended {
    /// Nothing answered yet.
    pub fn new(suspects: Suspects) -> Self {
        let belief = Belief::before(&suspects, &Prior::shipped());
        Self { suspects, belief, lately: VecDeque::new(), repair: None, found: Vec::new() }
    }

    /// What the answers kept of an instrument come to. One that cannot be read on it as it is now is left out.
    pub fn over(suspects: Suspects, instrument: &Instrument, kept: &Kept) -> Self {
        let mut attended = Self::new(suspects);
        for answer in &kept.latest {
            if let Some((question, tool)) = answer.put.question(0, instrument)
                && let Some(off) = answer.off()
            {
                let wrong = Heard::Wrong(question.expected(&tool) + off);
                attended.hear(&question, &tool, if answer.right { Heard::Right } else { wrong }, answer.day);
            }
        }
        attended
    }

    /// What was named so far, the latest last.
    pub fn found(&self) -> &[Found] {
        &self.found
    }

    /// The misread that is being repaired.
    pub fn repairing(&self) -> Option<&'static str> {
        self.repair.and_then(|_| self.found.last()).map(|found| found.id)
    }

    /// The number of the question that goes on with the repair, from this one on; none where nothing is being repaired.
    pub fn next(&self, instrument: &Instrument, seed: Seed, from: u32) -> Option<u32> {
        let asked = self.repair?.asked;
        Some(repair_question(instrument, seed, from, self.repairing()?, asked))
    }

    /// Takes an answer in.
    pub fn hear(
        &mut self,
        question: &Question,
        tool: &Instrument,
        heard: Heard,
        on: Option<Day>,
    ) -> Option<Word> {
        let predicted = self.suspects.predict(question, tool);
        let all = self.suspects.all();
        for found in &mut self.found {
            let bites = |place: usize| !predicted.answers[place].is_empty();
            if all.iter().position(|suspect| suspect.is(found.id)).is_some_and(bites) {
                found.seen = on.max(found.seen);
            }
        }
        match heard {
            Heard::Right => self.belief.hear(&predicted, predicted.right),
            Heard::Wrong(answer) => self.belief.hear(&predicted, answer),
            Heard::Skipped => {}
        }
        match self.repair {
            Some(repair) => self.go_on(repair),
            None => self.look(&predicted, heard, on),
        }
    }

    fn go_on(&mut self, Repair { suspect, asked }: Repair) -> Option<Word> {
        let is_clear = self.belief.of(Hypothesis::Correct) >= SURE;
        self.belief.forget(suspect);
        let asked = asked + 1;
        self.repair = (!is_clear && asked < LONGEST).then_some(Repair { suspect, asked });
        if self.repair.is_some() {
            return None;
        }
        self.lately.clear();
        let found = self.found.last_mut()?;
        found.is_clear = is_clear;
        Some(if is_clear { Word::Clear(found.clone()) } else { Word::NotYet(found.clone()) })
    }

    /// Looks whether a wrong answer makes sure which misread it is.
    fn look(&mut self, predicted: &Predicted, heard: Heard, on: Option<Day>) -> Option<Word> {
        let by = |answer| move |n: &usize| predicted.answers[*n].contains(&answer);
        let predicted_by: Vec<usize> = match heard {
            Heard::Wrong(answer) => (0..self.suspects.count()).filter(by(answer)).collect(),
            Heard::Right | Heard::Skipped => Vec::new(),
        };
        let of_it = |suspect: usize, all: &VecDeque<Vec<usize>>| {
            u32::try_from(all.iter().filter(|by| by.contains(&suspect)).count()).unwrap_or(u32::MAX)
        };
        self.lately.push_back(predicted_by);
        if self.lately.len() > usize::try_from(MOST).unwrap_or(usize::MAX) {
            self.lately.pop_front();
        }
        // It is named when it has just happened, not at somebody's slip.
        let just_now = self.lately.back().into_iter().flatten().copied();
        let sure = just_now.filter(|n| self.belief.of(Hypothesis::Suspect(*n)) >= SURE);
        let named = sure.map(|n| (n, of_it(n, &self.lately))).find(|(_, times)| *times >= CONFIRMED);
        let Some((suspect, times)) = named else {
            self.belief.relapse();
            return None;
        };
        self.belief.forget(suspect);
        self.repair = Some(Repair { suspect, asked: 0 });
        let id = self.suspects.all()[suspect].misread.id;
        let found = Found { id, on, times, is_clear: false, seen: on };
        self.found.push(found.clone());
        Some(Word::Named(found))
    }
}

/// The number of a question for the repair of a misread, from `first` on, when so many have been asked: of three two where it
/// gives a wrong answer and one where it does no harm, in an order that cannot be foretold.
pub fn repair_question(instrument: &Instrument, seed: Seed, first: u32, id: &str, asked: u32) -> u32 {
    let harmless = Draw::keyed("linefall repair 1", instrument, seed, asked / HARMLESS).below(HARMLESS);
    let wanted = asked % HARMLESS != harmless;
    let is_it = |number: &u32| {
        let question = question(instrument, seed, *number);
        let tool = question.tool(instrument);
        misread::named(id).is_some_and(|misread| !misread.wrong(&question.case(&tool)).is_empty()) == wanted
    };
    (first..first.saturating_add(trap::POOL)).find(is_it).unwrap_or(first)
}

/// The misreads that were named in what is kept of an instrument's answers. Where none recurs nothing is worked out.
pub fn found(instrument: &Instrument, kept: &Kept) -> Vec<Found> {
    let ids = recurring(kept);
    if ids.is_empty() {
        return Vec::new();
    }
    Attended::over(Suspects::among(instrument, &ids), instrument, kept).found
}

/// The misreads that explain a wrong answer of the latest ones, where they are few enough to be asked about.
pub fn suspected(kept: &Kept) -> Vec<String> {
    let lately = kept.latest.iter().rev().take(usize::try_from(MOST).unwrap_or(usize::MAX));
    let ids: BTreeSet<&str> = lately.flat_map(Answer::slips).collect();
    ids.into_iter().map(str::to_owned).collect()
}

/// What would explain the latest answers best, where that is a misread and not that they were read correctly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leading {
    /// Its id.
    pub id: &'static str,
    /// How likely it is.
    pub probability: f64,
}

/// The misread that leads among the explanations of the latest answers; none where nothing was missed of late, or it is likelier
/// that they are read correctly.
pub fn leading(instrument: &Instrument, kept: &Kept) -> Option<Leading> {
    let ids = suspected(kept);
    if ids.is_empty() {
        return None;
    }
    let ids: BTreeSet<&str> = ids.iter().map(String::as_str).collect();
    let attended = Attended::over(Suspects::among(instrument, &ids), instrument, kept);
    let (hypothesis, probability) = attended.belief.ranked().into_iter().next()?;
    let Hypothesis::Suspect(n) = hypothesis else { return None };
    Some(Leading { id: attended.suspects.all()[n].misread.id, probability })
}

/// The misreads of answers that are explained by one that explains another answer as well, both in the span of an inquiry.
fn recurring(kept: &Kept) -> BTreeSet<&str> {
    let span = usize::try_from(MOST).unwrap_or(usize::MAX);
    let wrong: Vec<(usize, &Answer)> =
        kept.latest.iter().enumerate().filter(|(_, answer)| answer.slip.is_some()).collect();
    let mut ids = BTreeSet::new();
    for (n, (place, answer)) in wrong.iter().enumerate() {
        let near = wrong[n + 1..].iter().take_while(|(later, _)| later - place < span);
        for (_, later) in near {
            if answer.slips().any(|slip| later.slips().any(|other| other == slip)) {
                ids.extend(answer.slips().chain(later.slips()));
            }
        }
    }
    ids
}

#[cfg(test)]
mod tests {
    use super::super::summary::Summary;
    use super::super::testing::{at, reading, slip};
    use super::*;
    use crate::drill::record::{Attempt, Verdict};
    use crate::instrument::Catalogue;

    const ID: &str = "micrometer-metric";
    const HELD: &str = "half-line-missed";

    fn day(text: &str) -> Option<Day> {
        Day::of(text)
    }

    /// What someone answers who holds the misread, or someone who does not.
    fn answers(tool: &Instrument, number: u32, holds: bool) -> (Question, Instrument, Heard) {
        let question = question(tool, Seed(5), number);
        let fitted = question.tool(tool);
        let wrong = misread::named(HELD).expect("a misread").wrong(&question.case(&fitted));
        let wrong = wrong.first().filter(|_| holds).map(|wrong| wrong.answer);
        (question, fitted, wrong.map_or(Heard::Right, Heard::Wrong))
    }

    fn bites(tool: &Instrument, number: u32) -> bool {
        matches!(answers(tool, number, true).2, Heard::Wrong(_))
    }

    /// Held from the start until it is named; then the repair. What was said, and how many readings the repair took.
    fn repaired(tool: &Instrument, holds_on: bool) -> (Vec<Word>, u32) {
        let mut attended = Attended::new(Suspects::of(tool));
        let (mut said, mut number, mut in_repair) = (Vec::new(), 0, 0);
        while said.len() < 2 {
            let repair = attended.next(tool, Seed(5), number + 1);
            number = repair.unwrap_or(number + 1);
            in_repair += u32::from(repair.is_some());
            let (question, fitted, heard) = answers(tool, number, said.is_empty() || holds_on);
            said.extend(attended.hear(&question, &fitted, heard, day("2026-03-09")));
            assert!(number < 2_000, "it comes to an end");
        }
        (said, in_repair)
    }

    #[test]
    fn named_at_the_second_time_and_clear_when_read_rightly() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let (said, readings) = repaired(tool, false);
        let [Word::Named(named), Word::Clear(clear)] = &said[..] else { panic!("{said:?}") };
        assert_eq!((named.id, named.times, named.is_clear), (HELD, 2, false));
        assert_eq!((clear.id, clear.is_clear), (HELD, true));
        // One right answer acquits nobody.
        assert!((2..=8).contains(&readings), "{readings}");
    }

    #[test]
    fn what_is_not_gone_is_left_for_another_day() {
        let catalogue = Catalogue::new(Vec::new());
        let (said, readings) = repaired(catalogue.get(ID).expect("shipped"), true);
        assert!(matches!(&said[1], Word::NotYet(found) if found.id == HELD && !found.is_clear), "{said:?}");
        assert_eq!(readings, LONGEST);
    }

    #[test]
    fn two_of_three_readings_of_a_repair_are_where_it_goes_wrong() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let mut places = BTreeSet::new();
        for three in 0..20 {
            let of = |asked| repair_question(tool, Seed(5), asked * 50 + 1, HELD, asked);
            let harmless: Vec<u32> = (0..3).filter(|n| !bites(tool, of(three * 3 + n))).collect();
            assert_eq!(harmless.len(), 1, "{three}");
            places.extend(harmless);
        }
        assert_eq!(places.len(), 3, "in an order that cannot be foretold");
    }

    /// The step between two questions, worked by hand: of P(reads correctly) = 0.4 a hundredth, 0.004, goes to the misreads, the
    /// same share to each; with a repair a tenth of the one that is repaired comes back.
    #[test]
    fn the_two_state_step() {
        let catalogue = Catalogue::new(Vec::new());
        let suspects = Suspects::of(catalogue.get(ID).expect("shipped"));
        let before = Belief::before(&suspects, &Prior::shipped());
        let each = 0.004 / f64::from(u32::try_from(suspects.count()).expect("few"));
        let (correct, held) = (before.of(Hypothesis::Correct), before.of(Hypothesis::Suspect(0)));
        assert!((correct - 0.4).abs() < 1e-12);
        let mut belief = before.clone();
        belief.relapse();
        assert!((belief.of(Hypothesis::Correct) - 0.396).abs() < 1e-12);
        assert!((belief.of(Hypothesis::Suspect(0)) - (held + each)).abs() < 1e-12);
        let mut belief = before;
        belief.forget(0);
        assert!((belief.of(Hypothesis::Correct) - (0.396 + 0.1 * held)).abs() < 1e-12);
        assert!((belief.of(Hypothesis::Suspect(0)) - (0.9 * held + each)).abs() < 1e-12);
    }

    /// Whoever has read rightly for long and then misses half lines is told so all the same.
    #[test]
    fn something_new_may_come_up() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let mut attended = Attended::new(Suspects::of(tool));
        let (mut missed, mut said) = (0, None);
        for number in 1..200 {
            let (question, fitted, heard) = answers(tool, number, number > 60);
            missed += u32::from(heard != Heard::Right);
            said = attended.hear(&question, &fitted, heard, None);
            assert!(said.is_none() || number > 60, "{said:?}");
            if said.is_some() {
                break;
            }
        }
        assert!(matches!(said, Some(Word::Named(_))) && (2..=3).contains(&missed), "{missed} {said:?}");
    }

    /// Settings with a half line on a day, each read rightly or with the half line missed.
    fn half_lines(date: &str, missed: &[bool]) -> Vec<Attempt> {
        (0..)
            .zip(missed)
            .map(|(n, missed)| {
                let right = at(&format!("{date}T07:30:00Z"), reading(ID, 70 + 100 * n, Verdict::Right));
                if *missed { Attempt { answer: format!("{n}.20"), ..slip(HELD, right) } } else { right }
            })
            .collect()
    }

    #[test]
    fn the_record_tells_what_was_named_and_when_it_is_asked_about_again() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let mut all = half_lines("2026-03-09", &[true, true]);
        let of = |all: &[Attempt]| found(tool, Summary::of(all).on(ID).expect("read"));
        let due = |all: &[Attempt]| of(all).last().and_then(Found::due);
        let named = of(&all);
        assert_eq!((named.len(), named[0].id, named[0].on), (1, HELD, day("2026-03-09")));
        // More of it on the same day puts nothing off.
        all.extend(half_lines("2026-03-09", &[false; 6]));
        assert!(of(&all)[0].is_clear);
        assert_eq!(due(&all), day("2026-03-10"));
        // A reading where it makes no difference tells nothing.
        all.push(at("2026-03-11T07:30:00Z", reading(ID, 20, Verdict::Right)));
        assert_eq!(due(&all), day("2026-03-10"));
        all.extend(half_lines("2026-03-11", &[false]));
        assert_eq!(due(&all), day("2026-03-16"));
        all.extend(half_lines("2026-03-20", &[false]));
        assert_eq!(due(&all), None);
    }

    #[test]
    fn what_leads_is_what_was_missed_of_late() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let leads = |all: &[Attempt]| leading(tool, Summary::of(all).on(ID).expect("read")).map(|of| of.id);
        let mut all = half_lines("2026-03-09", &[false, false, true, true]);
        assert_eq!(leads(&all), Some(HELD));
        all.extend(half_lines("2026-03-10", &[false; 12]));
        assert_eq!(leads(&all), None);
    }

    #[test]
    fn the_few_suspects_of_a_record_come_to_the_same_as_all() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(ID).expect("shipped");
        let mut all = half_lines("2026-03-09", &[false, true, false, true, true, false, true]);
        all.extend(half_lines("2026-03-10", &[false; 8]));
        let summary = Summary::of(&all);
        let kept = summary.on(ID).expect("read");
        let whole = Attended::over(Suspects::of(tool), tool, kept);
        assert!(!whole.found().is_empty());
        assert_eq!(found(tool, kept), whole.found());
    }
}

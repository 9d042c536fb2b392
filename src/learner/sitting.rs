//! A round as it goes: which question comes next, and which come again.

use super::again::{Again, Outcome};
use super::calendar::Day;
use super::facet::{Facet, facet_of};
use super::repair::repair_question;
use super::schedule::{Aim, Item, Round};
use crate::drill::{Kind, Question, Seed, question};
use crate::exact::Exact;
use crate::instrument::{Catalogue, Instrument};
use crate::reading::{Asks, Misread, misread};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeSet, VecDeque};

/// Readings put into a round for a repair.
const REPAIR: usize = 9;

/// Questions among which one is chosen.
const POOL: u32 = 48;
/// One in so many readings for a misread is one where it does no harm, so that its opposite is not learnt instead.
const HARMLESS: u32 = 3;

/// A round under way. It can be put away as text and taken up again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sitting {
    day: Day,
    seed: u64,
    left: VecDeque<Item>,
    again: Again<Posed>,
    asked: u32,
    right: u32,
    up: Option<Posed>,
    /// What was repaired in this round, instrument and misread: each once, or a round would have no end for who keeps at it.
    #[serde(default)]
    mended: Vec<(String, String)>,
}

/// A question of a round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Posed {
    /// The instrument's id.
    pub instrument: String,
    /// The seed of its run.
    pub seed: u64,
    /// Its number there.
    pub number: u32,
    /// What kind of question it is.
    #[serde(default)]
    pub kind: Kind,
    /// It came because it was missed in this round.
    came_back: bool,
    /// It was put in for a repair.
    #[serde(default)]
    repair: bool,
}

impl Posed {
    /// True for one that was missed or slow in this round before.
    pub fn came_back(&self) -> bool {
        self.came_back
    }
}

impl Sitting {
    /// A round begun; the seed is that of its questions.
    pub fn new(round: &Round, day: Day, seed: Seed) -> Self {
        let left = round.items.iter().cloned().collect();
        Self {
            day,
            seed: seed.0,
            left,
            again: Again::default(),
            asked: 0,
            right: 0,
            up: None,
            mended: Vec::new(),
        }
    }

    /// The day it was begun.
    pub fn day(&self) -> Day {
        self.day
    }

    /// How many have been read, and how many of them rightly.
    pub fn score(&self) -> (u32, u32) {
        (self.asked, self.right)
    }

    /// How many it will be in all, as far as is known.
    pub fn length(&self) -> u32 {
        let waiting = self.left.len() + self.again.len() + usize::from(self.up.is_some());
        self.asked + u32::try_from(waiting).unwrap_or(u32::MAX)
    }

    /// The question that is up.
    pub fn up(&self) -> Option<&Posed> {
        self.up.as_ref()
    }

    /// Puts the next question up; none when the round is over.
    pub fn next(&mut self, catalogue: &Catalogue) -> Option<&Posed> {
        let now = if self.left.is_empty() { u32::MAX } else { self.asked };
        self.up = self.again.due(now);
        while self.up.is_none() {
            let item = self.left.pop_front()?;
            // An instrument that has been put away since is passed over.
            self.up = catalogue.get(&item.instrument).map(|instrument| self.pose(instrument, &item));
        }
        self.up.as_ref()
    }

    fn pose(&self, instrument: &Instrument, item: &Item) -> Posed {
        let first = self.asked * POOL + 1;
        let (kind, seed, number) = match item.aim {
            Aim::Again { seed, number } => (Kind::Read, seed, number),
            Aim::Task { kind } => (kind, self.seed, first),
            _ => (Kind::Read, self.seed, choose(instrument, Seed(self.seed), first, &item.aim, self.asked)),
        };
        let repair = matches!(item.aim, Aim::Repair { .. });
        Posed { instrument: item.instrument.clone(), seed, number, kind, came_back: false, repair }
    }

    /// Leaves the question that is up for good: it can not be shown.
    pub fn pass_over(&mut self) {
        self.up = None;
    }

    /// Takes in what became of the question that is up.
    pub fn heard(&mut self, outcome: Outcome) {
        let Some(posed) = self.up.take() else { return };
        self.asked += 1;
        self.right += u32::from(outcome != Outcome::Missed);
        // What came back once and was missed again has had its turns, a repair is repetition enough; of another kind the answer
        // would be remembered.
        if posed.came_back || posed.repair || outcome == Outcome::Right || posed.kind != Kind::Read {
            return;
        }
        self.again.put_by(&Posed { came_back: true, ..posed }, self.asked, outcome);
    }

    /// Puts readings in for the repair of a misread, every other one; once in a round, the next time on another day.
    pub fn repair(&mut self, instrument: &str, slip: &str) {
        let of_it = (instrument.to_owned(), slip.to_owned());
        if self.mended.contains(&of_it) {
            return;
        }
        self.mended.push(of_it);
        let item = Item { instrument: instrument.to_owned(), aim: Aim::Repair { slip: slip.to_owned() } };
        for n in 0..REPAIR {
            let place = (2 * n).min(self.left.len());
            self.left.insert(place, item.clone());
        }
    }

    /// Takes the readings out that were put in for a repair.
    pub fn repaired(&mut self, instrument: &str, slip: &str) {
        let of_it = |item: &Item| {
            item.instrument == instrument && matches!(&item.aim, Aim::Repair { slip: known } if known == slip)
        };
        self.left.retain(|item| !of_it(item));
    }
}

/// The number of the question that serves an aim, among so many from the first on; `turn` counts the readings of a round.
pub fn choose(instrument: &Instrument, seed: Seed, first: u32, aim: &Aim, turn: u32) -> u32 {
    let pool = || (first..first + POOL).map(|number| (number, question(instrument, seed, number)));
    let found = match aim {
        Aim::Step { facet: Facet::Zero, .. } => pool().find(|(_, question)| question.asks == Asks::Corrected),
        Aim::Step { facet: Facet::Reading, .. } | Aim::Whole | Aim::Again { .. } | Aim::Task { .. } => None,
        Aim::Step { facet, slip } => {
            let bites = |question: &Question| bites(instrument, question, *facet, slip.as_deref());
            let wanted = slip.is_none() || turn % HARMLESS != HARMLESS - 1;
            pool().find(|(_, question)| bites(question) == wanted)
        }
        Aim::Repair { slip } => return repair_question(instrument, seed, first, slip, turn),
        Aim::Telling { among } => pool().max_by_key(|(number, question)| {
            let of = |wanted: &dyn Fn(&Misread) -> bool| wrong_answers(instrument, question, wanted).len();
            let suspected = of(&|misread| among.iter().any(|id| id == misread.id));
            (suspected, of(&|_| true), std::cmp::Reverse(*number))
        }),
    };
    found.map_or(first, |(number, _)| number)
}

/// True where a misread of this step, or this very one, would give a wrong answer.
fn bites(instrument: &Instrument, question: &Question, facet: Facet, slip: Option<&str>) -> bool {
    let tool = question.tool(instrument);
    let case = question.case(&tool);
    misread::ALL
        .into_iter()
        .filter(|misread| {
            slip.map_or_else(|| facet_of(misread.id, &tool) == facet, |slip| misread.id == slip)
        })
        .any(|misread| !misread.wrong(&case).is_empty())
}

/// All answers that these misreads would give.
fn wrong_answers(
    instrument: &Instrument,
    question: &Question,
    wanted: &dyn Fn(&Misread) -> bool,
) -> BTreeSet<Exact> {
    let tool = question.tool(instrument);
    let case = question.case(&tool);
    let misreads = misread::ALL.into_iter().filter(|misread| wanted(misread));
    misreads.flat_map(|misread| misread.wrong(&case)).map(|wrong| wrong.answer).collect()
}

#[cfg(test)]
mod tests {
    use super::super::schedule::Why;
    use super::*;

    fn sitting(items: usize, aim: &Aim) -> Sitting {
        let item = Item { instrument: "micrometer-metric".to_owned(), aim: aim.clone() };
        let round = Round { items: vec![item; items], why: Why::Pause(40) };
        Sitting::new(&round, Day(20_000), Seed(5))
    }

    /// The settings of a round in which the first is missed, or slow.
    fn numbers(first: Outcome) -> Vec<u32> {
        let catalogue = Catalogue::new(Vec::new());
        let mut sitting = sitting(20, &Aim::Whole);
        let mut all = Vec::new();
        while let Some(posed) = sitting.next(&catalogue) {
            all.push(posed.number);
            sitting.heard(if all.len() == 1 { first } else { Outcome::Right });
            assert!(all.len() <= 30, "it ends");
        }
        assert_eq!(sitting.length(), u32::try_from(all.len()).expect("few"));
        all
    }

    #[test]
    fn a_missed_setting_comes_back_after_three_and_after_eight_more() {
        let all = numbers(Outcome::Missed);
        let places: Vec<usize> = (0..all.len()).filter(|n| all[*n] == all[0]).collect();
        assert_eq!((all.len(), places), (22, vec![0, 4, 13]));
    }

    #[test]
    fn a_slow_one_comes_back_after_eight() {
        let all = numbers(Outcome::Slow);
        let places: Vec<usize> = (0..all.len()).filter(|n| all[*n] == all[0]).collect();
        assert_eq!((all.len(), places), (21, vec![0, 9]));
        assert_eq!(numbers(Outcome::Right).len(), 20);
    }

    /// Every reading is missed, and the misread is named again at every third: the round has an end all the same. Twelve
    /// readings that come back twice each, and nine of the repair.
    #[test]
    fn a_round_ends_for_who_misses_everything() {
        let catalogue = Catalogue::new(Vec::new());
        let mut sitting = sitting(12, &Aim::Whole);
        let mut asked = 0;
        while sitting.next(&catalogue).is_some() {
            asked += 1;
            assert!(asked <= 12 * 3 + 9, "it ends");
            sitting.heard(Outcome::Missed);
            if asked % 3 == 0 {
                sitting.repair("micrometer-metric", "half-line-missed");
            }
        }
        assert_eq!(asked, 12 * 3 + 9);
    }

    #[test]
    fn put_away_and_taken_up_again_it_goes_on_the_same() {
        let catalogue = Catalogue::new(Vec::new());
        let mut sitting = sitting(12, &Aim::Telling { among: Vec::new() });
        for n in 0.. {
            let text = serde_json::to_string(&sitting).expect("JSON");
            let mut again: Sitting = serde_json::from_str(&text).expect("what was put away");
            assert_eq!(again.next(&catalogue), sitting.next(&catalogue));
            if sitting.up().is_none() {
                break;
            }
            sitting.heard(if n % 5 == 1 { Outcome::Missed } else { Outcome::Right });
        }
        assert!(sitting.score().0 > 12);
    }

    #[test]
    fn settings_are_chosen_where_the_step_matters() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let slip = Some("half-line-missed".to_owned());
        let aim = Aim::Step { facet: Facet::Halves, slip };
        let half_shows = |number: u32| {
            let question = question(tool, Seed(5), number);
            let hundredths = question.tool(tool).value(question.setting) * Exact::whole(100);
            hundredths.numerator().div_euclid(hundredths.denominator()).rem_euclid(100) >= 50
        };
        for turn in 0..30 {
            let number = choose(tool, Seed(5), turn * POOL + 1, &aim, turn);
            // In two of three a half line shows, in the third none does.
            assert_eq!(half_shows(number), turn % 3 != 2, "{turn}");
        }
        let zero = Aim::Step { facet: Facet::Zero, slip: None };
        for turn in 0..10 {
            let number = choose(tool, Seed(5), turn * POOL + 1, &zero, turn);
            assert_eq!(question(tool, Seed(5), number).asks, Asks::Corrected);
        }
    }
}

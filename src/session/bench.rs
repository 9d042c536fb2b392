//! The bench: task after task of some kinds on one instrument, part by part.

mod one;
mod record;

use super::moves::{Hand, parse_move};
use super::order::Traps;
use super::practice::{Effect, Shown};
use crate::drill::task::{Asked, Given, Marked, Part, TASK_GENERATOR, Task, Wanted, task_in_turn};
use crate::drill::{GENERATOR, Kind, Level, Seed, Sight, trap};
use crate::exact::{Nonsense, Quanta, Typed};
use crate::instrument::Instrument;
use crate::reading::pose;
use std::collections::BTreeMap;
use std::time::Duration;

/// A run of tasks on one instrument, its kinds in turn.
#[derive(Clone)]
pub struct Bench {
    learner: String,
    seed: Seed,
    kinds: Vec<Kind>,
    traps: Traps,
    /// Which task of the run is up, from 1.
    turn: u32,
    task: Task,
    part: usize,
    /// Which generator its number belongs to.
    generator: u32,
    /// Where the tool stands that is being set.
    at: Quanta,
    /// What its lock has yet to pull it.
    pull: Quanta,
    stand: Stand,
    glass_used: bool,
    asked: u32,
    right: u32,
    /// What was read in tasks whose settings may come again.
    read: BTreeMap<u32, Typed>,
}

/// Where a part stands.
#[derive(Clone)]
pub enum Stand {
    /// It is asked.
    Asking {
        /// What was wrong with the last text typed, if it was no figure or move at all.
        again: Option<Nonsense>,
    },
    /// The tool that is being set is locked, and is looked at again before it is left.
    Locked {
        /// What was wrong with the last text typed, if it was nothing that can be done to it.
        again: Option<Nonsense>,
    },
    /// Answered and marked; waiting until it is on disk.
    Told(Told),
}

/// An answered part.
#[derive(Clone)]
pub struct Told {
    /// What was answered.
    pub given: Given,
    /// The mark.
    pub marked: Marked,
}

/// When and how it was answered, for the record.
#[derive(Clone, Debug)]
pub struct Noted {
    /// Since the part was shown.
    pub took: Duration,
    /// The time now, UTC as RFC 3339.
    pub at: String,
    /// How it was shown.
    pub shown: Shown,
}

/// What the learner does.
#[derive(Clone, Debug)]
pub enum Act {
    /// Uses the glass.
    Glass,
    /// Enters a text: a figure, or a move such as `+0.1`, `lock`, `loosen`, `done` where a tool is set.
    Type(String, Noted),
    /// Takes one of the answers offered.
    Choose(usize, Noted),
    /// Moves the tool that is being set.
    Move(Quanta),
    /// Locks it.
    Lock,
    /// Loosens the lock, to set it again.
    Loosen,
    /// Leaves it as it stands.
    Leave(Noted),
    /// Passes the part over.
    Skip(Noted),
    /// Goes on to the next part or task.
    Next,
}

impl Bench {
    /// A run, its first task posed; none where no kind makes sense on the instrument.
    pub fn new(
        instrument: &Instrument,
        learner: impl Into<String>,
        kinds: Vec<Kind>,
        seed: Seed,
    ) -> Option<Self> {
        Self::resume(instrument, learner, kinds, seed, 1)
    }

    /// A run on a level: its kinds, and where traps belong to it, those mixed in.
    pub fn on_level(
        instrument: &Instrument,
        learner: impl Into<String>,
        level: Level,
        seed: Seed,
        turn: u32,
    ) -> Option<Self> {
        let mut bench = Self::resume(instrument, learner, level.kinds(instrument), seed, turn)?;
        if level == Level::Traps {
            bench.traps = Traps::Mixed;
            bench.pose(instrument, turn);
        }
        Some(bench)
    }

    /// The run of `seed` taken up at a turn.
    pub fn resume(
        instrument: &Instrument,
        learner: impl Into<String>,
        kinds: Vec<Kind>,
        seed: Seed,
        turn: u32,
    ) -> Option<Self> {
        let task = posed(instrument, &kinds, Traps::AsDrawn, seed, turn)?;
        let mut bench = Self {
            learner: learner.into(),
            seed,
            kinds,
            traps: Traps::AsDrawn,
            turn,
            generator: generator_of(&task),
            task,
            part: 0,
            at: Quanta::ZERO,
            pull: Quanta::ZERO,
            stand: Stand::Asking { again: None },
            glass_used: false,
            asked: 0,
            right: 0,
            read: BTreeMap::new(),
        };
        bench.show();
        Some(bench)
    }

    /// What the run started from.
    pub fn seed(&self) -> Seed {
        self.seed
    }

    /// Its kinds.
    pub fn kinds(&self) -> &[Kind] {
        &self.kinds
    }

    /// Which task of the run is up, from 1.
    pub fn turn(&self) -> u32 {
        self.turn
    }

    /// The task that is up.
    pub fn task(&self) -> &Task {
        &self.task
    }

    /// Its part that is up.
    pub fn part(&self) -> &Part {
        &self.task.parts[self.part]
    }

    /// Which part that is, from 1, and of how many.
    pub fn which(&self) -> (usize, usize) {
        (self.part + 1, self.task.parts.len())
    }

    /// What is seen with the part now: a tool that is being set stands where it was moved.
    pub fn sights(&self) -> Vec<Sight> {
        let part = self.part();
        let mut sights = part.pictures.clone();
        if matches!(part.wanted, Wanted::Setting(_)) {
            for sight in &mut sights {
                let beside = sight.pose.beside.take();
                sight.pose = pose(&sight.tool, self.at, part.question.conditions.lead);
                sight.pose.beside = sight.pose.beside.take().or(beside);
            }
        }
        sights
    }

    /// Where the part stands.
    pub fn stand(&self) -> &Stand {
        &self.stand
    }

    /// Where the tool stands that is being set.
    pub fn at(&self) -> Quanta {
        self.at
    }

    /// Parts answered in this run, and of them right.
    pub fn score(&self) -> (u32, u32) {
        (self.asked, self.right)
    }

    /// Carries an act out. The instrument is the one the run was made for.
    pub fn act(&mut self, instrument: &Instrument, act: Act) -> Vec<Effect> {
        match (act, &self.stand) {
            (Act::Glass, Stand::Asking { .. }) => self.glass_used = true,
            (Act::Type(text, noted), Stand::Asking { .. } | Stand::Locked { .. }) => {
                return self.typed(instrument, &text, noted);
            }
            (Act::Choose(place, noted), Stand::Asking { .. }) => {
                let offered =
                    matches!(&self.part().wanted, Wanted::Choice(choice) if place < choice.options.len());
                if offered {
                    return self.told(instrument, Given::Chosen(place), noted);
                }
            }
            (Act::Move(by), Stand::Asking { .. }) => return self.hand(instrument, Hand::Moves(by), None),
            (Act::Lock, Stand::Asking { .. }) => return self.hand(instrument, Hand::Locks, None),
            (Act::Loosen, Stand::Locked { .. }) => return self.hand(instrument, Hand::Loosens, None),
            (Act::Leave(noted), Stand::Locked { .. }) => {
                return self.hand(instrument, Hand::Leaves, Some(noted));
            }
            (Act::Skip(noted), Stand::Asking { .. } | Stand::Locked { .. }) => {
                return self.told(instrument, Given::Skipped, noted);
            }
            (Act::Next, Stand::Told(_)) => self.next(instrument),
            _ => {}
        }
        Vec::new()
    }

    /// Passes the task over without a trace, because its pictures cannot be drawn.
    pub fn pass_over(&mut self, instrument: &Instrument) {
        self.pose(instrument, self.turn + 1);
    }

    fn typed(&mut self, instrument: &Instrument, text: &str, noted: Noted) -> Vec<Effect> {
        match &self.part().wanted {
            Wanted::Reading | Wanted::Figure(_) => {}
            Wanted::Setting(_) => {
                return match parse_move(text, &self.part().tool) {
                    Ok(hand) => self.hand(instrument, hand, Some(noted)),
                    Err(again) => self.again(again),
                };
            }
            Wanted::Choice(_) => return Vec::new(),
        }
        match self.part().typed(text) {
            Err(again) => self.again(again),
            Ok(typed) => self.told(instrument, Given::Typed(typed), noted),
        }
    }

    /// Asks again.
    fn again(&mut self, why: Nonsense) -> Vec<Effect> {
        let again = Some(why);
        self.stand = match self.stand {
            Stand::Locked { .. } => Stand::Locked { again },
            Stand::Asking { .. } | Stand::Told(_) => Stand::Asking { again },
        };
        Vec::new()
    }

    /// What a hand does to the tool that is being set.
    fn hand(&mut self, instrument: &Instrument, hand: Hand, noted: Option<Noted>) -> Vec<Effect> {
        if !matches!(self.part().wanted, Wanted::Setting(_)) {
            return Vec::new();
        }
        let locked = matches!(self.stand, Stand::Locked { .. });
        match (hand, noted) {
            (Hand::Moves(by), _) if !locked => {
                self.at = self.part().tool.travel().within(self.at + by);
                self.stand = Stand::Asking { again: None };
            }
            (Hand::Locks, _) if !locked => {
                self.at = self.part().tool.travel().within(self.at + self.pull);
                // Who has seen it move locks it with a lighter hand the next time.
                self.pull = Quanta::ZERO;
                self.stand = Stand::Locked { again: None };
            }
            (Hand::Loosens, _) if locked => self.stand = Stand::Asking { again: None },
            (Hand::Leaves, Some(noted)) if locked => {
                let left = Given::Left(self.at);
                return self.told(instrument, left, noted);
            }
            _ => return self.again(if locked { Nonsense::Locked } else { Nonsense::NoMove }),
        }
        Vec::new()
    }

    fn told(&mut self, instrument: &Instrument, given: Given, noted: Noted) -> Vec<Effect> {
        let marked = self.part().mark(&given);
        if marked.verdict.is_answer() {
            self.asked += 1;
        }
        if marked.verdict.is_right() {
            self.right += 1;
        }
        if let (Kind::SameAgain, Given::Typed(typed)) = (self.task.kind, &given) {
            self.read.insert(self.task.number, typed.clone());
        }
        let attempt = self.record(instrument, &given, &marked, noted);
        self.stand = Stand::Told(Told { given, marked });
        vec![Effect::Save(Box::new(attempt))]
    }

    fn next(&mut self, instrument: &Instrument) {
        if self.part + 1 < self.task.parts.len() {
            let glass = match &self.stand {
                Stand::Told(told) => self.part().glass_after(&told.given),
                Stand::Asking { .. } | Stand::Locked { .. } => None,
            };
            self.part += 1;
            let part = &mut self.task.parts[self.part];
            part.glass = glass.or(part.glass);
            self.show();
        } else {
            self.pose(instrument, self.turn + 1);
        }
    }

    fn pose(&mut self, instrument: &Instrument, turn: u32) {
        if let Some(task) = posed(instrument, &self.kinds, self.traps, self.seed, turn) {
            (self.generator, self.task, self.part, self.turn) = (generator_of(&task), task, 0, turn);
        }
        self.show();
    }

    fn show(&mut self) {
        if let Asked::Again { of, answered } = &mut self.task.parts[self.part].asked {
            *answered = self.read.get(of).cloned();
        }
        (self.at, self.pull) = match &self.part().wanted {
            Wanted::Setting(setting) => (setting.from, setting.creeps),
            _ => (self.part().question.setting, Quanta::ZERO),
        };
        self.stand = Stand::Asking { again: None };
        self.glass_used = false;
    }
}

/// The generator that a task of a run comes from.
fn generator_of(task: &Task) -> u32 {
    if task.kind == Kind::Read { GENERATOR } else { TASK_GENERATOR }
}

/// What comes at a turn: of the kinds one after the other, the first from there that makes sense here.
fn posed(instrument: &Instrument, kinds: &[Kind], traps: Traps, seed: Seed, turn: u32) -> Option<Task> {
    let first = usize::try_from(turn.saturating_sub(1)).ok()?;
    let count = u32::try_from(kinds.len()).ok()?;
    (0..kinds.len()).find_map(|n| {
        let kind = kinds[(first + n) % kinds.len()];
        let trapped = traps == Traps::Mixed && kind == Kind::Read;
        let number = if trapped { trap::number_at(instrument, seed, turn) } else { turn };
        task_in_turn(kind, instrument, seed, number, count)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::record::{Attempt, View};
    use crate::drill::{Question, Verdict, question};
    use crate::instrument::Catalogue;
    use crate::learner::summary::Summary;

    fn noted() -> Noted {
        let shown = Shown { view: View::Held, glass: false, lines: "thin", cols: 80, rows: 24 };
        Noted { took: Duration::from_secs(4), at: "2026-03-09T07:30:00Z".to_owned(), shown }
    }

    /// A bench with a tool to be set: the first one whose lock pulls, or holds.
    fn bench(pulls: bool) -> (Instrument, Bench) {
        let tool = Catalogue::new(Vec::new()).get("micrometer-metric").expect("shipped").clone();
        for number in 1.. {
            let bench =
                Bench::resume(&tool, "me", vec![Kind::SetIt], Seed(2), number).expect("it can be set");
            let Wanted::Setting(setting) = &bench.part().wanted else { panic!("a setting") };
            if (setting.creeps != Quanta::ZERO) == pulls {
                return (tool, bench);
            }
        }
        unreachable!("one in four locks pulls")
    }

    fn off(bench: &Bench) -> Quanta {
        let Wanted::Setting(setting) = &bench.part().wanted else { panic!("a setting") };
        setting.to - bench.at()
    }

    fn left(effects: &[Effect]) -> &Attempt {
        match effects {
            [Effect::Save(attempt)] => attempt,
            other => panic!("{} effects", other.len()),
        }
    }

    #[test]
    fn a_lock_that_pulls_is_seen_and_set_again() {
        let (tool, mut bench) = bench(true);
        let by = off(&bench);
        bench.act(&tool, Act::Move(by));
        assert_eq!(off(&bench), Quanta::ZERO);
        bench.act(&tool, Act::Lock);
        let pulled = off(&bench);
        assert_eq!(pulled.0.abs(), tool.least_count.0, "it moves one line");
        assert_eq!(bench.sights()[0].pose, pose(&tool, bench.at(), Quanta::ZERO));
        let mut careless = bench.clone();
        let effects = careless.act(&tool, Act::Leave(noted()));
        assert!(!left(&effects).verdict.is_right(), "left unseen, it is wrong");
        bench.act(&tool, Act::Loosen);
        bench.act(&tool, Act::Move(pulled));
        bench.act(&tool, Act::Lock);
        assert_eq!(off(&bench), Quanta::ZERO, "the second time it holds");
        let effects = bench.act(&tool, Act::Leave(noted()));
        let attempt = left(&effects);
        assert_eq!((attempt.verdict, attempt.kind), (Verdict::Right, Kind::SetIt));
        assert_eq!(format!("{} mm", attempt.answer), attempt.expected);
        assert!(attempt.given.starts_with("size "), "{}", attempt.given);
    }

    #[test]
    fn moves_can_be_typed() {
        let (tool, mut bench) = bench(false);
        let kind = |bench: &mut Bench, text: &str| bench.act(&tool, Act::Type(text.to_owned(), noted()));
        let again = |bench: &Bench| match bench.stand() {
            Stand::Asking { again } | Stand::Locked { again } => *again,
            Stand::Told(_) => None,
        };
        let start = bench.at();
        assert!(kind(&mut bench, "12.34").is_empty());
        assert_eq!((bench.at(), again(&bench)), (start, Some(Nonsense::NoMove)));
        kind(&mut bench, "+0.001");
        assert_eq!(again(&bench), Some(Nonsense::TooFine));
        kind(&mut bench, "done");
        assert_eq!(again(&bench), Some(Nonsense::NoMove), "it is locked first");
        let by = tool.value(off(&bench));
        let sign = if by.is_negative() { "" } else { "+" };
        kind(&mut bench, &format!("{sign}{}", tool.notation.spell(by)));
        assert_eq!((off(&bench), again(&bench)), (Quanta::ZERO, None));
        kind(&mut bench, "lock");
        kind(&mut bench, "+0.01");
        assert_eq!((off(&bench), again(&bench)), (Quanta::ZERO, Some(Nonsense::Locked)));
        let effects = kind(&mut bench, "done");
        assert_eq!(left(&effects).verdict, Verdict::Right);
        assert_eq!(bench.score(), (1, 1));
    }

    #[test]
    fn it_stops_at_its_ends() {
        let (tool, mut bench) = bench(false);
        bench.act(&tool, Act::Move(tool.high + tool.high));
        assert_eq!(bench.at(), tool.high);
        bench.act(&tool, Act::Move(-(tool.high + tool.high)));
        assert_eq!(bench.at(), tool.low);
    }

    /// A run of one kind, every part answered by `answer`.
    fn run(
        id: &str,
        kind: Kind,
        parts: u32,
        answer: impl Fn(&Part) -> Act,
        mut look: impl FnMut(&Bench),
    ) -> Vec<Attempt> {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(id).expect("shipped");
        let mut bench = Bench::new(tool, "ada", vec![kind], Seed(11)).expect("it makes sense there");
        let mut kept = Vec::new();
        for _ in 0..parts {
            look(&bench);
            let act = answer(bench.part());
            for effect in bench.act(tool, act) {
                let Effect::Save(attempt) = effect;
                kept.push(*attempt);
            }
            look(&bench);
            bench.act(tool, Act::Next);
        }
        kept
    }

    #[test]
    fn what_comes_again_is_a_pair_in_the_record() {
        let mut compared = 0;
        let right =
            |part: &Part| Act::Type(part.tool.notation.spell(part.question.expected(&part.tool)), noted());
        let kept = run("caliper-metric-50", Kind::SameAgain, 40, right, |bench| {
            if let (Asked::Again { answered, .. }, Stand::Told(told)) = (&bench.part().asked, bench.stand()) {
                let before = answered.as_ref().expect("it was answered in this run");
                let Given::Typed(now) = &told.given else { panic!("typed") };
                assert_eq!(before.value, now.value);
                compared += 1;
            }
        });
        let again = kept.iter().filter(|attempt| attempt.given.starts_with("again number ")).count();
        assert_eq!(again, compared);
        let summary = Summary::of(&kept);
        let pairs = &summary.on("caliper-metric-50").expect("forty readings").pairs;
        assert!(pairs.len() >= 8 && pairs.iter().all(|off| *off == Some((0, 1))), "{pairs:?}");
        assert_eq!(summary.answers, 40);
    }

    #[test]
    fn the_glass_opens_where_the_match_was_looked_for() {
        let mut opened = Vec::new();
        let halfway = |part: &Part| {
            let text = if matches!(part.asked, Asked::About { .. }) { "0.5" } else { "0" };
            Act::Type(text.to_owned(), noted())
        };
        let kept = run("caliper-metric-50", Kind::EstimateFirst, 8, halfway, |bench| {
            if matches!(bench.stand(), Stand::Asking { .. }) {
                opened.push(bench.part().glass);
            }
        });
        assert_eq!(opened, [None, Some(25)].repeat(4));
        let kinds: Vec<Kind> = kept.iter().map(|attempt| attempt.kind).collect();
        assert_eq!(kinds, [Kind::EstimateFirst, Kind::Read].repeat(4));
    }

    /// A run on the traps: what is recorded of each reading poses it again, by the ordinary generator.
    #[test]
    fn what_a_run_with_traps_records_can_be_posed_again() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let mut bench = Bench::on_level(tool, "me", Level::Traps, Seed(8), 1).expect("a run");
        let mut traps = 0;
        for turn in 1..=80 {
            assert_eq!(bench.turn(), turn);
            let up: Question = bench.part().question.clone();
            traps += u32::from(trap::is_trap(&up, &bench.part().tool));
            let effects = bench.act(tool, Act::Skip(noted()));
            let attempt = left(&effects);
            assert_eq!(attempt.generator, GENERATOR);
            assert_eq!(question(tool, Seed(attempt.seed), attempt.number), up);
            bench.act(tool, Act::Next);
        }
        // 20 of 80 within four standard deviations.
        assert!((5..=35).contains(&traps), "{traps}");
    }
}

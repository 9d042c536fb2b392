//! A round for a room: question after question on one large picture, its clock, the answer step by step. Nobody types an answer and
//! nothing is kept.

use crate::drill::set::{Allowed, Item};
use crate::drill::task::{Part, Task, Wanted};
use crate::drill::{Kind, Sight};
use crate::instrument::Catalogue;
use crate::reading::{Share, shares};
use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

/// Teams that can be given points.
pub const TEAMS: usize = 4;

/// What a round for a room begins with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Projected {
    /// What it is called.
    pub title: String,
    /// Its questions, in order.
    pub paper: Vec<Item>,
    /// How many questions it is said to have; none where it ends by the clock alone.
    pub count: Option<usize>,
    /// Whether a vernier may be shown through the glass.
    pub glass: Allowed,
    /// Its clocks.
    pub pace: Pace,
}

/// The clocks of a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    /// Time for a question; none: as long as it takes.
    pub question: Option<Duration>,
    /// Time for the whole round; none: to the last question.
    pub round: Option<Duration>,
}

/// Where a round is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Before the first question.
    Ready,
    /// What comes before the work is looked at.
    Before(usize),
    /// A question is up, its time running or over.
    Asking,
    /// Its answer is told, as far as this step, from 0.
    Told(usize),
    /// Over.
    Over,
}

/// A clock that can be stopped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Clock {
    spent: Duration,
    since: Option<Duration>,
}

/// Where a part of a task was left.
#[derive(Clone, Copy, Debug)]
struct Left {
    spent: Duration,
    stage: Stage,
}

/// A round for a room.
pub struct Projector {
    paper: Vec<Item>,
    count: Option<usize>,
    pace: Pace,
    glass: Allowed,
    place: usize,
    task: Task,
    part: usize,
    stage: Stage,
    /// Where it was when it was ended.
    ended: Stage,
    question: Clock,
    round: Clock,
    paused: bool,
    left: BTreeMap<(usize, usize), Left>,
    /// Questions that could not be drawn.
    out: BTreeSet<usize>,
    set_by_hand: usize,
    points: Vec<usize>,
}

impl Projector {
    /// A round that has not begun; none where there is nothing to ask. A tool that is set by hand cannot be set by a room.
    pub fn new(projected: &Projected, catalogue: &Catalogue) -> Option<Self> {
        let asked = |item: &&Item| item.kind != Kind::SetIt;
        let paper: Vec<Item> = projected.paper.iter().filter(asked).cloned().collect();
        let set_by_hand = projected.paper.len() - paper.len();
        let (place, task) =
            paper.iter().enumerate().find_map(|(place, item)| Some((place, item.task(catalogue)?)))?;
        Some(Self {
            count: projected.count.map(|count| count.saturating_sub(set_by_hand)),
            paper,
            pace: projected.pace,
            glass: projected.glass,
            place,
            task,
            part: 0,
            stage: Stage::Ready,
            ended: Stage::Ready,
            question: Clock::default(),
            round: Clock::default(),
            paused: false,
            left: BTreeMap::new(),
            out: BTreeSet::new(),
            set_by_hand,
            points: Vec::new(),
        })
    }

    /// Where it is.
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// What is asked.
    pub fn part(&self) -> &Part {
        &self.task.parts[self.part]
    }

    /// Which question it is, from 1, and of how many.
    pub fn which(&self) -> (usize, Option<usize>) {
        (self.place + 1, self.count)
    }

    /// Which part of it is up, from 1, and of how many.
    pub fn which_part(&self) -> (usize, usize) {
        (self.part + 1, self.task.parts.len())
    }

    /// The clocks.
    pub fn pace(&self) -> Pace {
        self.pace
    }

    /// Whether a vernier may be shown through the glass.
    pub fn glass(&self) -> Allowed {
        self.glass
    }

    /// How many questions are left out because a tool is set by hand in them.
    pub fn set_by_hand(&self) -> usize {
        self.set_by_hand
    }

    /// How many were passed over because they could not be drawn.
    pub fn passed_over(&self) -> usize {
        self.out.len()
    }

    /// How many were asked and told.
    pub fn asked(&self) -> usize {
        let told = |left: &Left| matches!(left.stage, Stage::Told(_));
        let mut all: BTreeSet<usize> =
            self.left.iter().filter(|(_, left)| told(left)).map(|((place, _), _)| *place).collect();
        if matches!((self.stage, self.ended), (Stage::Told(_), _) | (Stage::Over, Stage::Told(_))) {
            all.insert(self.place);
        }
        all.len()
    }

    /// The clocks are stopped.
    pub fn is_paused(&self) -> bool {
        self.paused
    }

    /// Points of each team up to the last that has had one; empty while nobody has.
    pub fn points(&self) -> Vec<usize> {
        let teams = self.points.iter().max().map_or(0, |last| last + 1);
        (0..teams).map(|team| self.points.iter().filter(|got| **got == team).count()).collect()
    }

    /// What comes before the work; a later part of a task has seen it.
    pub fn earlier(&self) -> Vec<Sight> {
        if self.part == 0 { self.part().earlier() } else { Vec::new() }
    }

    /// The shares of the reading that are told one after the other; none where the answer is told at once.
    pub fn shares(&self) -> Vec<Share> {
        let part = self.part();
        match part.wanted {
            Wanted::Reading => shares(&part.tool, &part.question.reading),
            Wanted::Figure(_) | Wanted::Choice(_) | Wanted::Setting(_) => Vec::new(),
        }
    }

    /// How long the question has been up.
    pub fn spent(&self, now: Duration) -> Duration {
        self.question.spent(now)
    }

    /// What is left for the question; none where it has all the time there is.
    pub fn time_left(&self, now: Duration) -> Option<Duration> {
        self.pace.question.map(|whole| whole.saturating_sub(self.question.spent(now)))
    }

    /// What is left of the round; none where it ends with its last question.
    pub fn round_left(&self, now: Duration) -> Option<Duration> {
        self.pace.round.map(|whole| whole.saturating_sub(self.round.spent(now)))
    }

    /// How long until something on the screen changes by itself: a second less, or a minute. None while no countdown runs.
    pub fn changes_in(&self, now: Duration) -> Option<Duration> {
        const MINUTE: u32 = 60;
        let runs = |clock: &Clock| clock.since.is_some();
        let within = |left: Duration, step: u32| {
            let rest = Duration::from_secs(left.as_secs() % u64::from(step))
                + Duration::from_nanos(u64::from(left.subsec_nanos()));
            let rest = if rest.is_zero() { Duration::from_secs(u64::from(step)) } else { rest };
            (!left.is_zero()).then_some(rest)
        };
        let second = self.time_left(now).filter(|_| runs(&self.question)).and_then(|left| within(left, 1));
        let minute = self.round_left(now).filter(|_| runs(&self.round)).and_then(|left| within(left, MINUTE));
        second.into_iter().chain(minute).min()
    }

    /// Goes on: to the question, to the next step of its answer, to the next question.
    pub fn forward(&mut self, catalogue: &Catalogue, now: Duration) {
        self.resume(now);
        match self.stage {
            Stage::Ready => {
                self.round.start(now);
                self.arrive(now);
            }
            Stage::Before(seen) if seen + 1 < self.earlier().len() => self.stage = Stage::Before(seen + 1),
            Stage::Before(_) => {
                self.stage = Stage::Asking;
                self.question.start(now);
            }
            Stage::Asking => {
                self.question.stop(now);
                self.stage = Stage::Told(0);
            }
            Stage::Told(told) if told < self.shares().len() => self.stage = Stage::Told(told + 1),
            Stage::Told(_) => self.next(catalogue, now),
            Stage::Over => {}
        }
    }

    /// Straight to the next question, whatever is still to be told.
    pub fn next(&mut self, catalogue: &Catalogue, now: Duration) {
        if matches!(self.stage, Stage::Ready | Stage::Over) {
            return;
        }
        self.resume(now);
        self.leave(now);
        if self.part + 1 < self.task.parts.len() {
            self.part += 1;
            return self.arrive(now);
        }
        let over = self.round_left(now).is_some_and(|left| left.is_zero());
        let next = (self.place + 1..self.paper.len())
            .filter(|place| !self.out.contains(place))
            .find_map(|place| Some((place, self.paper[place].task(catalogue)?)));
        match next {
            Some((place, task)) if !over => {
                (self.place, self.task, self.part) = (place, task, 0);
                self.arrive(now);
            }
            _ => self.end(now),
        }
    }

    /// Goes back: a step of the answer, what came before the work, the question before. What was told stays told.
    pub fn back(&mut self, catalogue: &Catalogue, now: Duration) {
        match self.stage {
            Stage::Ready => {}
            Stage::Over => {
                self.stage = self.ended;
                self.round.start(now);
                if self.stage == Stage::Asking {
                    self.question.start(now);
                }
            }
            Stage::Before(seen) if seen > 0 => self.stage = Stage::Before(seen - 1),
            Stage::Asking if !self.earlier().is_empty() => {
                self.question.stop(now);
                self.stage = Stage::Before(self.earlier().len() - 1);
            }
            Stage::Told(told) if told > 0 => self.stage = Stage::Told(told - 1),
            Stage::Before(_) | Stage::Asking | Stage::Told(_) => self.previous(catalogue, now),
        }
    }

    fn previous(&mut self, catalogue: &Catalogue, now: Duration) {
        let (place, part) = (self.place, self.part);
        let before = (0..place)
            .rev()
            .filter(|place| !self.out.contains(place))
            .find_map(|place| Some((place, self.paper[place].task(catalogue)?)));
        if part == 0 && before.is_none() {
            return;
        }
        self.resume(now);
        self.leave(now);
        match before {
            _ if part > 0 => self.part -= 1,
            Some((place, task)) => {
                self.part = task.parts.len() - 1;
                (self.place, self.task) = (place, task);
            }
            None => {}
        }
        self.arrive(now);
    }

    /// Passes the question over that is up, because it cannot be drawn; false where none is left.
    pub fn pass_over(&mut self, catalogue: &Catalogue, now: Duration) -> bool {
        self.out.insert(self.place);
        self.part = self.task.parts.len() - 1;
        self.next(catalogue, now);
        self.stage != Stage::Over
    }

    /// Stops the clocks, or starts them again.
    pub fn pause(&mut self, now: Duration) {
        if self.paused {
            self.resume(now);
        } else if !matches!(self.stage, Stage::Ready | Stage::Over) {
            self.question.stop(now);
            self.round.stop(now);
            self.paused = true;
        }
    }

    /// Ends the round; going back takes it up again.
    pub fn end(&mut self, now: Duration) {
        self.question.stop(now);
        self.round.stop(now);
        self.paused = false;
        if self.stage != Stage::Over {
            self.ended = self.stage;
        }
        self.stage = Stage::Over;
    }

    /// A point for a team, from 0.
    pub fn point(&mut self, team: usize) {
        if team < TEAMS {
            self.points.push(team);
        }
    }

    /// Takes the last point back.
    pub fn take_back(&mut self) {
        self.points.pop();
    }

    fn resume(&mut self, now: Duration) {
        if std::mem::take(&mut self.paused) {
            self.round.start(now);
            if self.stage == Stage::Asking {
                self.question.start(now);
            }
        }
    }

    /// Puts away where the part stands.
    fn leave(&mut self, now: Duration) {
        self.question.stop(now);
        let left = Left { spent: self.question.spent, stage: self.stage };
        self.left.insert((self.place, self.part), left);
    }

    /// Takes the part up where it was left, or anew.
    fn arrive(&mut self, now: Duration) {
        let anew = if self.earlier().is_empty() { Stage::Asking } else { Stage::Before(0) };
        let left = self.left.get(&(self.place, self.part)).copied();
        let Left { spent, stage } = left.unwrap_or(Left { spent: Duration::ZERO, stage: anew });
        self.question = Clock { spent, since: None };
        self.stage = stage;
        if stage == Stage::Asking {
            self.question.start(now);
        }
    }
}

impl Clock {
    fn start(&mut self, now: Duration) {
        self.since = self.since.or(Some(now));
    }

    fn stop(&mut self, now: Duration) {
        self.spent = self.spent(now);
        self.since = None;
    }

    fn spent(&self, now: Duration) -> Duration {
        self.spent + self.since.map_or(Duration::ZERO, |since| now.saturating_sub(since))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::Seed;
    use crate::drill::set::Posed;

    fn secs(n: u64) -> Duration {
        Duration::from_secs(n)
    }

    fn items(kinds: &[Kind], instrument: &str) -> Vec<Item> {
        let item = |(place, kind): (u32, &Kind)| Item {
            place,
            instrument: instrument.to_owned(),
            kind: *kind,
            posed: Posed::Drawn { seed: Seed(4), number: place },
        };
        (1..).zip(kinds).map(item).collect()
    }

    fn round(
        kinds: &[Kind],
        instrument: &str,
        question: Option<u64>,
        whole: Option<u64>,
    ) -> (Projector, Catalogue) {
        let catalogue = Catalogue::new(Vec::new());
        let pace = Pace { question: question.map(secs), round: whole.map(secs) };
        let paper = items(kinds, instrument);
        let projected = Projected {
            title: "Round".to_owned(),
            count: Some(paper.len()),
            paper,
            glass: Allowed::Yes,
            pace,
        };
        let run = Projector::new(&projected, &catalogue).expect("there is something to ask");
        (run, catalogue)
    }

    /// On to the question itself, past what comes before the work.
    fn to_question(run: &mut Projector, catalogue: &Catalogue, now: Duration) {
        while matches!(run.stage(), Stage::Ready | Stage::Before(_)) {
            run.forward(catalogue, now);
        }
    }

    #[test]
    fn asked_time_up_told_step_by_step_then_the_next() {
        let (mut run, catalogue) =
            round(&[Kind::OneStep, Kind::Read, Kind::Read], "micrometer-metric", Some(20), None);
        assert_eq!((run.stage(), run.changes_in(secs(3))), (Stage::Ready, None));
        to_question(&mut run, &catalogue, secs(3));
        assert_eq!((run.stage(), run.time_left(secs(10))), (Stage::Asking, Some(secs(13))));
        assert_eq!(run.changes_in(Duration::from_millis(10_400)), Some(Duration::from_millis(600)));
        // The time being up reveals nothing, and the clock rests.
        assert_eq!((run.stage(), run.time_left(secs(90))), (Stage::Asking, Some(secs(0))));
        assert_eq!(run.changes_in(secs(90)), None);
        run.forward(&catalogue, secs(90));
        assert_eq!((run.stage(), run.shares().len()), (Stage::Told(0), 0), "one step alone is told at once");
        run.forward(&catalogue, secs(95));
        to_question(&mut run, &catalogue, secs(95));
        assert_eq!((run.which(), run.time_left(secs(95))), ((2, Some(3)), Some(secs(20))));
        let shares = run.shares().len();
        assert!(shares > 1);
        for told in 0..=shares {
            run.forward(&catalogue, secs(100));
            assert_eq!(run.stage(), Stage::Told(told), "each share, then the sum");
        }
        run.forward(&catalogue, secs(101));
        assert_eq!(run.which().0, 3);
    }

    #[test]
    fn back_shows_what_was_told_and_the_clock_goes_on_where_it_was() {
        let (mut run, catalogue) = round(&[Kind::OneStep; 2], "micrometer-metric", Some(20), None);
        to_question(&mut run, &catalogue, secs(0));
        run.forward(&catalogue, secs(5));
        run.forward(&catalogue, secs(6));
        assert_eq!((run.which().0, run.stage()), (2, Stage::Asking));
        run.back(&catalogue, secs(13));
        assert_eq!((run.which().0, run.stage()), (1, Stage::Told(0)));
        run.back(&catalogue, secs(40));
        assert_eq!((run.which().0, run.stage()), (1, Stage::Told(0)), "nothing is before the first");
        run.forward(&catalogue, secs(50));
        assert_eq!((run.which().0, run.stage(), run.time_left(secs(50))), (2, Stage::Asking, Some(secs(13))));
    }

    #[test]
    fn pause_stops_both_clocks_and_going_on_starts_them() {
        let (mut run, catalogue) = round(&[Kind::OneStep; 2], "micrometer-metric", Some(20), Some(600));
        run.pause(secs(0));
        assert!(!run.is_paused(), "nothing runs yet");
        to_question(&mut run, &catalogue, secs(0));
        run.pause(secs(8));
        assert_eq!((run.time_left(secs(99)), run.round_left(secs(99))), (Some(secs(12)), Some(secs(592))));
        assert_eq!(run.changes_in(secs(99)), None);
        run.pause(secs(100));
        assert_eq!((run.time_left(secs(101)), run.round_left(secs(101))), (Some(secs(11)), Some(secs(591))));
        run.pause(secs(102));
        run.forward(&catalogue, secs(200));
        assert!(!run.is_paused() && run.stage() == Stage::Told(0));
        assert_eq!(run.round_left(secs(201)), Some(secs(589)));
    }

    #[test]
    fn when_the_round_is_up_the_question_that_is_up_is_the_last() {
        let (mut run, catalogue) = round(&[Kind::OneStep; 9], "micrometer-metric", Some(20), Some(60));
        to_question(&mut run, &catalogue, secs(0));
        run.forward(&catalogue, secs(61));
        assert_eq!(run.stage(), Stage::Told(0));
        assert_eq!(run.changes_in(secs(61)), None);
        run.forward(&catalogue, secs(62));
        assert_eq!(run.stage(), Stage::Over);
        run.back(&catalogue, secs(63));
        assert_eq!((run.which().0, run.stage()), (1, Stage::Told(0)));
    }

    #[test]
    fn the_minutes_left_change_once_a_minute_without_a_question_clock() {
        let (mut run, catalogue) = round(&[Kind::OneStep; 2], "micrometer-metric", None, Some(600));
        to_question(&mut run, &catalogue, secs(0));
        assert_eq!(run.changes_in(secs(15)), Some(secs(45)));
        let (mut run, catalogue) = round(&[Kind::OneStep; 2], "micrometer-metric", None, None);
        to_question(&mut run, &catalogue, secs(0));
        assert_eq!(run.changes_in(secs(15)), None, "no clock, no ticking");
    }

    #[test]
    fn the_last_question_ends_it_and_ending_it_by_hand_can_be_taken_back() {
        let (mut run, catalogue) = round(&[Kind::OneStep], "micrometer-metric", Some(20), None);
        to_question(&mut run, &catalogue, secs(0));
        run.end(secs(5));
        assert_eq!((run.stage(), run.changes_in(secs(9))), (Stage::Over, None));
        run.back(&catalogue, secs(60));
        assert_eq!((run.stage(), run.time_left(secs(60))), (Stage::Asking, Some(secs(15))));
        run.forward(&catalogue, secs(61));
        run.forward(&catalogue, secs(62));
        assert_eq!(run.stage(), Stage::Over);
    }

    #[test]
    fn what_a_room_cannot_do_is_left_out_and_what_cannot_be_drawn_is_passed_over() {
        let (mut run, catalogue) =
            round(&[Kind::SetIt, Kind::OneStep, Kind::OneStep, Kind::Read], "micrometer-metric", None, None);
        assert_eq!((run.set_by_hand(), run.which()), (1, (1, Some(3))));
        to_question(&mut run, &catalogue, secs(0));
        assert!(run.pass_over(&catalogue, secs(0)));
        assert_eq!(run.which().0, 2);
        run.back(&catalogue, secs(1));
        assert_eq!(run.which().0, 2, "it is passed over on the way back as well");
        assert!(run.pass_over(&catalogue, secs(2)));
        assert!(!run.pass_over(&catalogue, secs(3)), "none is left");
        assert_eq!((run.stage(), run.passed_over()), (Stage::Over, 3));
        let only = items(&[Kind::SetIt], "micrometer-metric");
        let pace = Pace { question: None, round: None };
        let projected =
            Projected { title: String::new(), paper: only, count: None, glass: Allowed::Yes, pace };
        assert!(Projector::new(&projected, &catalogue).is_none());
    }

    #[test]
    fn points_are_shown_once_there_are_some() {
        let (mut run, _) = round(&[Kind::OneStep], "micrometer-metric", None, None);
        assert!(run.points().is_empty());
        run.point(1);
        run.point(1);
        run.point(2);
        run.point(TEAMS);
        assert_eq!(run.points(), [0, 2, 1]);
        run.take_back();
        assert_eq!(run.points(), [0, 2]);
    }

    #[test]
    fn every_part_of_a_task_is_asked_and_told() {
        let (mut run, catalogue) = round(&[Kind::Pair, Kind::OneStep], "micrometer-metric", Some(20), None);
        to_question(&mut run, &catalogue, secs(0));
        assert_eq!(run.which_part(), (1, 2));
        run.next(&catalogue, secs(1));
        assert_eq!((run.which_part(), run.stage()), ((2, 2), Stage::Asking));
        run.back(&catalogue, secs(2));
        assert_eq!(run.which_part(), (1, 2));
        run.next(&catalogue, secs(3));
        run.next(&catalogue, secs(4));
        assert_eq!(run.which().0, 2);
    }
}

//! The days of one apprentice as they went: who chose the questions, what was answered, what the program said.

use super::super::again::Outcome;
use super::super::calendar::Day;
use super::super::diagnosis::Heard;
use super::super::facet::{Facet, Grade, facets, grade};
use super::super::gates::{Gates, Standing, allowed_ms, gates};
use super::super::repair::{Attended, Word};
use super::super::schedule::{Aim, LONG, Round, Today, today};
use super::super::sitting::{Sitting, choose};
use super::super::summary::Summary;
use super::apprentice::{Apprentice, Class};
use super::luck::Luck;
use super::nature::Nature;
use crate::drill::record::{Attempt, View};
use crate::drill::{GENERATOR, Kind, Said, Seed, mark, question};
use crate::instrument::Instrument;

/// Who chooses the questions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Policy<'a> {
    /// The plan of the day, as shipped: up to two rounds a day.
    Shipped,
    /// Plain questions, so many on each day, on an instrument by chance.
    Random(&'a [u32]),
    /// So many on each day, one instrument a day, one step after another.
    Blocked(&'a [u32]),
}

/// Rounds of a day.
const ROUNDS: u32 = 2;
/// Readings of one step in a row, where practice is blocked.
const BLOCK: u32 = 8;
/// Working days of a week of seven.
const WORKING: u32 = 5;
/// Numbers of questions among which a blocked one is chosen.
const AMONG: u32 = 48;

/// The days of one apprentice.
#[derive(Clone, Debug, Default)]
pub struct Course {
    /// What was answered, in order.
    pub attempts: Vec<Attempt>,
    /// Each day, also those without work.
    pub days: Vec<Played>,
    /// What became of the misreads held.
    pub events: Vec<Event>,
    /// What the questions were chosen for, in a course as shipped.
    pub aims: Aims,
}

/// What the questions were chosen for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Aims {
    /// A step that is due.
    pub steps: u32,
    /// To tell what goes wrong.
    pub telling: u32,
    /// The repair of a misread.
    pub repair: u32,
    /// A whole reading.
    pub whole: u32,
    /// A question of another kind: who is made up only reads, and passes it over.
    pub tasks: u32,
    /// A setting read on another day or long before.
    pub again: u32,
    /// Missed or slow in the same round.
    pub came_back: u32,
}

/// One day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Played {
    /// Answers.
    pub answered: u32,
    /// Right ones.
    pub right: u32,
    /// Gross slips.
    pub gross: u32,
    /// A day to be at work, and somebody was.
    pub there: bool,
    /// How each instrument stood in the evening.
    pub stood: Vec<Stood>,
}

/// How an instrument stood in the evening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stood {
    /// Answers on it until then.
    pub readings: u32,
    /// Every gate is met.
    pub uniform: bool,
    /// A misread is held.
    pub holding: bool,
    /// The gates that are not met: right, gross, repeats, quick, steady, clear.
    pub short: [bool; 6],
}

/// Something that became of a misread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Event {
    /// The day, from 0.
    pub day: u32,
    /// Answers on the instrument until then.
    pub readings: u32,
    /// The instrument's place in the class.
    pub instrument: usize,
    /// Which of the misreads that were held there at first.
    pub which: usize,
    /// What.
    pub what: What,
}

/// What became of a misread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// An answer was wrong by it.
    Showed,
    /// The program named it.
    Named,
    /// The program named one that is not held there.
    NamedWrongly,
    /// It was given up.
    GivenUp,
    /// It came back overnight.
    CameBack,
}

/// Plays so many days from the first on.
pub fn play(
    class: &Class<'_>,
    nature: &Nature,
    policy: Policy<'_>,
    first: Day,
    days: u32,
    seed: Seed,
) -> Course {
    let mut table = Table {
        class,
        apprentice: Apprentice::new(class, nature, seed),
        summary: Summary::default(),
        course: Course::default(),
        seed,
        posed: 0,
        attended: class.benches.iter().map(|bench| Attended::new(bench.suspects.clone())).collect(),
    };
    let mut presence = Luck::new("linefall apprentice 1", seed, 2);
    for n in 0..days {
        if n > 0 {
            table.night(n);
        }
        // Whoever chooses, the same days are missed.
        let absent = presence.happens(nature.absent);
        let there = n % 7 < WORKING && !absent;
        table.course.days.push(Played { answered: 0, right: 0, gross: 0, there, stood: Vec::new() });
        if there {
            let day = first.after(i32::try_from(n).unwrap_or(i32::MAX));
            match policy {
                Policy::Shipped => table.shipped(day, n),
                Policy::Random(dose) => table.random(day, dose_of(dose, n)),
                Policy::Blocked(dose) => table.blocked(day, n, dose_of(dose, n)),
            }
        }
        table.evening();
    }
    table.course
}

fn dose_of(dose: &[u32], day: u32) -> u32 {
    usize::try_from(day).ok().and_then(|day| dose.get(day)).copied().unwrap_or(0)
}

/// An apprentice at work.
struct Table<'a, 'b> {
    class: &'a Class<'b>,
    apprentice: Apprentice,
    summary: Summary,
    course: Course,
    seed: Seed,
    /// Questions posed apart from rounds.
    posed: u32,
    /// What the program makes of the answers on each instrument.
    attended: Vec<Attended>,
}

impl Table<'_, '_> {
    fn shipped(&mut self, day: Day, n: u32) {
        let instruments = self.class.instruments();
        for turn in 0..ROUNDS {
            match today(&self.summary, &instruments, day) {
                // Nobody has read anything yet: each instrument is taken up in turn.
                Today::Fresh => self.plainly(day, LONG, |posed, of| posed % of),
                Today::Round(round) => self.sit(&round, day, n * ROUNDS + turn),
                Today::Rest(_) => break,
            }
        }
    }

    fn sit(&mut self, round: &Round, day: Day, turn: u32) {
        let aims = &mut self.course.aims;
        for item in &round.items {
            *match item.aim {
                Aim::Step { .. } => &mut aims.steps,
                Aim::Telling { .. } => &mut aims.telling,
                // Put in as the round goes, below.
                Aim::Repair { .. } => continue,
                Aim::Whole => &mut aims.whole,
                Aim::Task { .. } => &mut aims.tasks,
                Aim::Again { .. } => &mut aims.again,
            } += 1;
        }
        let seed = Seed(self.seed.0.wrapping_mul(1_000).wrapping_add(u64::from(turn) + 1));
        let mut sitting = Sitting::new(round, day, seed);
        let mut back = 0;
        while let Some(posed) = sitting.next(self.class.catalogue).cloned() {
            let place = self.class.place(&posed.instrument).filter(|_| posed.kind == Kind::Read);
            let Some(place) = place else {
                sitting.pass_over();
                continue;
            };
            back += u32::from(posed.came_back());
            let (outcome, word) = self.read(place, Seed(posed.seed), posed.number, day);
            sitting.heard(outcome);
            match word {
                Some(Word::Named(found)) => sitting.repair(&posed.instrument, found.id),
                Some(Word::Clear(found) | Word::NotYet(found)) => {
                    sitting.repaired(&posed.instrument, found.id);
                }
                None => {}
            }
        }
        let readings = round.items.iter().filter(|item| !matches!(item.aim, Aim::Task { .. })).count();
        let planned = u32::try_from(readings).unwrap_or(u32::MAX);
        self.course.aims.came_back += back;
        self.course.aims.repair += sitting.score().0.saturating_sub(planned.saturating_add(back));
    }

    fn plainly(&mut self, day: Day, count: u32, place: impl Fn(u32, u32) -> u32) {
        let of = u32::try_from(self.class.benches.len()).unwrap_or(u32::MAX);
        for _ in 0..count {
            self.posed += 1;
            let place = usize::try_from(place(self.posed, of)).unwrap_or(0);
            self.read(place, self.seed, self.posed, day);
        }
    }

    fn random(&mut self, day: Day, count: u32) {
        let mut luck = Luck::new("linefall apprentice 1 questions", self.seed, self.posed);
        let places: Vec<usize> = (0..count).map(|_| luck.place(self.class.benches.len())).collect();
        for place in places {
            self.posed += 1;
            self.read(place, self.seed, self.posed, day);
        }
    }

    fn blocked(&mut self, day: Day, n: u32, count: u32) {
        let place = usize::try_from(n - n / 7 * 2).unwrap_or(0) % self.class.benches.len();
        let instrument: &Instrument = self.class.benches[place].instrument;
        let steps: Vec<Facet> =
            facets(instrument).into_iter().filter(|facet| *facet != Facet::Reading).collect();
        for turn in 0..count {
            let step = usize::try_from(turn / BLOCK).unwrap_or(0) % steps.len().max(1);
            let aim = steps.get(step).map_or(Aim::Whole, |facet| Aim::Step { facet: *facet, slip: None });
            let number = choose(instrument, self.seed, self.posed * AMONG + 1, &aim, turn);
            self.posed += 1;
            self.read(place, self.seed, number, day);
        }
    }

    /// One question, from its picture to its mark.
    fn read(&mut self, place: usize, seed: Seed, number: u32, day: Day) -> (Outcome, Option<Word>) {
        let bench = &self.class.benches[place];
        let question = question(bench.instrument, seed, number);
        let tool = question.tool(bench.instrument);
        let spoken = self.apprentice.read(place, bench, &question, &tool);
        let mark = mark(&question.case(&tool), &spoken.typed);
        let right = mark.verdict.is_right();
        let said = Said {
            learner: "apprentice".to_owned(),
            at: day.at(7 * 3600 + 1800 + self.course.days.last().map_or(0, |day| day.answered) * 30),
            generator: GENERATOR,
            seed: seed.0,
            view: View::Held,
            glass: false,
            lines: "thin".to_owned(),
            cols: 100,
            rows: 30,
            answer: spoken.typed.text.clone(),
            took_ms: spoken.took_ms,
        };
        let attempt = said.record(&question, &tool, &mark);
        self.summary.add(&attempt);
        let outcome = if !right {
            Outcome::Missed
        } else if attempt.took_ms > allowed_ms(bench.target, false) {
            Outcome::Slow
        } else {
            Outcome::Right
        };
        self.course.attempts.push(attempt);
        let latest = self.summary.on(&bench.instrument.id).and_then(|kept| kept.latest.back());
        let gross = latest.and_then(|answer| grade(answer, bench.instrument)) == Some(Grade::Gross);
        if let Some(today) = self.course.days.last_mut() {
            today.answered += 1;
            today.right += u32::from(right);
            today.gross += u32::from(gross);
        }
        if !right {
            for which in &spoken.of {
                self.happened(place, *which, What::Showed);
            }
        }
        let heard = if right { Heard::Right } else { Heard::Wrong(spoken.typed.value) };
        let word = self.attended[place].hear(&question, &tool, heard, Some(day));
        if let Some(Word::Named(found)) = &word {
            self.named(place, found.id);
        }
        let gone = self.apprentice.marked(place, &question, &tool, (&spoken.of, right), day);
        if let Some(which) = gone {
            self.happened(place, which, What::GivenUp);
        }
        (outcome, word)
    }

    /// The program named a misread.
    fn named(&mut self, place: usize, id: &str) {
        let which = self.apprentice.known(place).position(|misread| misread.id == id);
        match which.filter(|which| self.apprentice.holds(place, *which)) {
            Some(which) => {
                self.happened(place, which, What::Named);
                if let Some(which) = self.apprentice.repaired(place, which) {
                    self.happened(place, which, What::GivenUp);
                }
            }
            None => self.happened(place, 0, What::NamedWrongly),
        }
    }

    fn happened(&mut self, instrument: usize, which: usize, what: What) {
        let day = u32::try_from(self.course.days.len().saturating_sub(1)).unwrap_or(u32::MAX);
        let readings = self.readings(instrument);
        self.course.events.push(Event { day, readings, instrument, which, what });
    }

    fn readings(&self, place: usize) -> u32 {
        let instrument = &self.class.benches[place].instrument.id;
        self.summary.on(instrument).map_or(0, |kept| kept.score.answered)
    }

    fn gates(&self, place: usize) -> Option<Gates> {
        let bench = &self.class.benches[place];
        Some(gates(bench.instrument, self.summary.on(&bench.instrument.id)?, bench.target))
    }

    fn night(&mut self, day: u32) {
        for (instrument, which) in self.apprentice.night() {
            let readings = self.readings(instrument);
            self.course.events.push(Event { day, readings, instrument, which, what: What::CameBack });
        }
    }

    fn evening(&mut self) {
        let stood = (0..self.class.benches.len())
            .map(|place| {
                let found = self.gates(place);
                Stood {
                    readings: self.readings(place),
                    uniform: found.as_ref().is_some_and(|found| found.standing == Standing::Met),
                    holding: self.apprentice.holding(place) > 0,
                    short: found.map_or([true; 6], |found| {
                        [
                            found.right.standing,
                            found.gross.standing,
                            found.repeats.standing,
                            found.quick.standing,
                            found.steady.standing,
                            found.clear.standing,
                        ]
                        .map(|standing| standing != Standing::Met)
                    }),
                }
            })
            .collect();
        if let Some(today) = self.course.days.last_mut() {
            today.stood = stood;
        }
    }
}

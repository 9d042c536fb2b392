//! A class that is made up, for trying out what is made of a real one: codes, first names, and answers to the real questions by
//! readers of whom some hold a misread. How well they read is assumed and says nothing about people.

use super::practical::{self, Act, Alone, Measured, Sheet, Tick};
use super::record::{Issued, Person};
use super::sitting::{End, Entry, Purpose, Sitting};
use crate::drill::record::{Attempt, View};
use crate::drill::{Draw, GENERATOR, Question, Said, Seed, mark, question};
use crate::exact::{Quanta, parse_answer};
use crate::instrument::{Catalogue, Instrument};
use crate::learner::calendar::Day;
use crate::learner::gates::Target;
use crate::learner::plan::Plan;
use crate::reading::Misread;
use crate::reading::misread;

/// A class made up.
pub struct Invented {
    /// Its roster.
    pub roster: Vec<Person>,
    /// What was issued to it.
    pub issued: Vec<Issued>,
    /// What came back, in order for each learner.
    pub sittings: Vec<Sitting>,
    /// What was shown with steel.
    pub sheets: Vec<Sheet>,
}

/// First names, so that a roster looks like one; they belong to nobody.
const NAMES: [&str; 30] = [
    "Ada", "Bram", "Cora", "Dirk", "Edda", "Finn", "Gus", "Hana", "Ivo", "Jette", "Kai", "Lene", "Milo",
    "Nuri", "Orla", "Piet", "Quin", "Runa", "Sven", "Tilda", "Udo", "Vera", "Wim", "Xenia", "Yann", "Zita",
    "Alva", "Bo", "Cleo", "Dag",
];
/// What is read each week, so many questions.
const WEEKLY: [(&str, &str, &str, u32); 2] = [
    ("micrometer-round", "Micrometer, twenty readings", "micrometer-metric", 20),
    ("caliper-round", "Caliper, twenty readings", "caliper-metric-50", 20),
];
/// The check at the end.
const CHECK: (&str, &str, &str) = ("micrometer-check", "Micrometer skills check", "micrometer-metric");
/// Weeks of practice before the check.
const WEEKS: i32 = 4;
/// Misreads that are taken to be common; which of them can happen on an instrument is looked up.
const HELD: [&str; 8] = [
    "half-line-missed",
    "half-line-added",
    "line-missed",
    "thimble-backwards",
    "vernier-label",
    "zero-ignored",
    "zero-wrong-sign",
    "neighbour-line",
];

/// A reader made up.
struct Reader {
    code: String,
    /// Of a thousand readings so many go wrong by a slip.
    slips: u32,
    /// In hundredths of the usual time.
    pace: u32,
    held: Option<&'static Misread>,
}

/// A class of so many, whose check was so many days before `today`.
pub fn invented(catalogue: &Catalogue, people: u32, seed: Seed, today: Day) -> Invented {
    let mut draw = Draw::apart("linefall invented class 1", seed, 0);
    let check_day = today.after(-3).monday().after(-3);
    let mut class =
        Invented { roster: Vec::new(), issued: issued(check_day), sittings: Vec::new(), sheets: Vec::new() };
    for n in 1..=people {
        let held = (draw.below(5) < 3).then(|| misread::named(HELD[draw.place(HELD.len())])).flatten();
        let code = format!("k{n}");
        let reader = Reader { code, slips: 5 + draw.below(60), pace: 60 + draw.below(90), held };
        let name = usize::try_from(n - 1).ok().map(|n| NAMES[n % NAMES.len()].to_owned());
        let group = if n % 2 == 1 { "early shift" } else { "late shift" };
        class.roster.push(Person { code: reader.code.clone(), name, group: Some(group.to_owned()) });
        reader.sits(catalogue, &mut class, n, &mut draw);
        if n % 4 != 1 {
            class.sheets.push(reader.measures(n, check_day, &mut draw));
        }
    }
    class
}

fn issued(check_day: Day) -> Vec<Issued> {
    let mut all = Vec::new();
    let card = |n: usize, (set, title): (&str, &str), purpose, at: Day, due: Day| Issued {
        card: format!("{n:016x}"),
        set: set.to_owned(),
        title: title.to_owned(),
        purpose,
        at: at.at(25_200),
        due: Some(due.at(86_399)),
        until: None,
        to: Vec::new(),
    };
    for week in 0..WEEKS {
        let monday = check_day.monday().after(7 * (week - WEEKS));
        for (set, title, _, _) in WEEKLY {
            all.push(card(all.len() + 1, (set, title), Purpose::Exercise, monday, monday.after(4)));
        }
    }
    all.push(card(all.len() + 1, (CHECK.0, CHECK.1), Purpose::Check, check_day, check_day));
    all
}

impl Reader {
    fn sits(&self, catalogue: &Catalogue, class: &mut Invented, n: u32, draw: &mut Draw) {
        for (place, issued) in class.issued.iter().enumerate() {
            let is_check = issued.purpose == Purpose::Check;
            // One in eight misses an exercise; two of thirty are not there for the check.
            if (!is_check && draw.below(8) == 0) || (is_check && n % 13 == 7) {
                continue;
            }
            let Some(day) = Day::of(&issued.at) else { continue };
            let late = !is_check && draw.below(12) == 0;
            let day = day.after(if late {
                5
            } else if is_check {
                0
            } else {
                i32::try_from(draw.below(4)).unwrap_or(0)
            });
            let week = u32::try_from(place / WEEKLY.len()).unwrap_or(u32::MAX);
            let weekly = WEEKLY.iter().find(|(set, ..)| *set == issued.set);
            let (id, count) = weekly.map_or((CHECK.2, 30), |(_, _, id, count)| (*id, *count));
            let Some(tool) = catalogue.get(id) else { continue };
            // An exercise is drawn for each, the check is the same for all.
            let seed = if is_check {
                Seed(2)
            } else {
                Seed(u64::from(n) * 1_000 + u64::try_from(place).unwrap_or(0))
            };
            let mut sitting = self.sitting(issued, day, format!("{:016x}", u64::from(n) << 32 | seed.0));
            sitting.entries =
                (1..=count).map(|at| self.answers(tool, seed, at, &sitting.begun, week, draw)).collect();
            ends(&mut sitting, n, draw);
            let again = is_check
                && crate::class::verdict::judge(Some(&Plan::USUAL), sitting.end, &sitting.entries, catalogue)
                    .outcome
                    != crate::class::verdict::Outcome::Passed
                && n.is_multiple_of(3);
            class.sittings.push(sitting);
            if again {
                let mut second =
                    self.sitting(issued, day.after(1), format!("{:016x}", u64::from(n) << 32 | 0xa));
                let seed = Seed(3 + u64::from(n));
                second.entries = (1..=count)
                    .map(|at| self.answers(tool, seed, at, &second.begun, week + 2, draw))
                    .collect();
                class.sittings.push(second);
            }
        }
    }

    /// Three check parts beside the instructor.
    fn measures(&self, n: u32, day: Day, draw: &mut Draw) -> Sheet {
        let sizes = [("block", 500_u32), ("pin", 1_237), ("shaft", 2_204)];
        let parts = sizes.map(|(part, size)| {
            let off = if draw.below(1_000) < 4 * self.slips { 50 } else { draw.below(2) };
            let spelt = |n: u32| format!("{}.{:02} mm", n / 100, n % 100);
            let (part, allowed) = (part.to_owned(), "0.01 mm".to_owned());
            Measured { part, size: spelt(size), allowed, read: spelt(size + off) }
        });
        let ticks = Act::ALL.map(|act| (act, if draw.below(12) == 0 { Tick::Not } else { Tick::Done }));
        let mut sheet = Sheet {
            form: practical::FORM,
            id: format!("{n:016x}"),
            learner: self.code.clone(),
            instrument: CHECK.2.to_owned(),
            tool: "no. 3".to_owned(),
            at: day.at(30_000),
            initials: "BW".to_owned(),
            ticks: ticks.to_vec(),
            parts: parts.to_vec(),
            not_shown: "depth, bores".to_owned(),
            alone: Alone::NotYet,
        };
        let shown = sheet.shown();
        if shown.within == shown.parts && shown.not == 0 {
            sheet.alone = Alone::Yes;
        }
        sheet
    }

    fn sitting(&self, issued: &Issued, day: Day, id: String) -> Sitting {
        Sitting {
            id,
            learner: self.code.clone(),
            set: issued.set.clone(),
            revision: "invented".to_owned(),
            purpose: issued.purpose,
            card: Some(issued.card.clone()),
            nth: 1,
            begun: day.at(27_000),
            ended: Some(day.at(28_200)),
            interruptions: 0,
            end: End::Done,
            entries: Vec::new(),
            lacks: Vec::new(),
        }
    }

    fn answers(
        &self,
        tool: &Instrument,
        seed: Seed,
        at: u32,
        begun: &str,
        week: u32,
        draw: &mut Draw,
    ) -> Entry {
        let question = question(tool, seed, at);
        let fitted = question.tool(tool);
        let attempt = self.attempt(&question, &fitted, seed, begun, week, draw);
        Entry { place: at, part: 1, attempt }
    }

    fn attempt(
        &self,
        question: &Question,
        tool: &Instrument,
        seed: Seed,
        begun: &str,
        week: u32,
        draw: &mut Draw,
    ) -> Attempt {
        let case = question.case(tool);
        let mut meant = case.expected();
        // What is held shows in nine of ten readings, and in fewer the more was practised.
        let fades = 900_u32.saturating_sub(60 * week);
        if let Some(held) = self.held.filter(|_| draw.below(1_000) < fades) {
            let wrong = held.wrong(&case);
            if !wrong.is_empty() {
                meant = wrong[draw.place(wrong.len())].answer;
            }
        }
        if draw.below(1_000) < self.slips {
            let line = tool.value(tool.least_count) - tool.value(Quanta::ZERO);
            meant = if draw.below(2) == 0 { meant + line } else { meant - line };
        }
        let answer = tool.notation.spell(meant);
        let said_value =
            parse_answer(&answer, tool.unit).expect("a reading as the tool writes it can be typed");
        let usual = Target::of(tool).0 * 1_000.0;
        let usual = (0_u32..).step_by(500).find(|ms| f64::from(*ms) >= usual).unwrap_or(10_000);
        let took_ms = u64::from(usual) * u64::from(self.pace) * u64::from(70 + draw.below(60)) / 10_000;
        let said = Said {
            learner: self.code.clone(),
            at: begun.to_owned(),
            generator: GENERATOR,
            seed: seed.0,
            view: View::Held,
            glass: false,
            lines: "thin".to_owned(),
            cols: 80,
            rows: 24,
            answer,
            took_ms,
        };
        said.record(question, tool, &mark(&case, &said_value))
    }
}

/// A few are interrupted, one runs out of time.
fn ends(sitting: &mut Sitting, n: u32, draw: &mut Draw) {
    if draw.below(15) == 0 {
        sitting.interruptions = 1;
    }
    if sitting.purpose == Purpose::Check && n % 17 == 11 {
        sitting.entries.truncate(24);
        sitting.end = End::TimeUp;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_seed_gives_the_same_class_and_its_answers_are_as_marked() {
        let catalogue = Catalogue::new(Vec::new());
        let today = Day::of("2026-05-20").expect("a day");
        let class = invented(&catalogue, 3, Seed(1), today);
        let again = invented(&catalogue, 3, Seed(1), today);
        assert_eq!(class.sittings, again.sittings);
        assert_eq!((class.roster.len(), class.issued.len()), (3, 9));
        let right = class.sittings.iter().flat_map(|sitting| &sitting.entries).filter(|entry| {
            let attempt = &entry.attempt;
            let expected = attempt.expected_quantity().expect("a size");
            let typed = parse_answer(&attempt.answer, expected.unit).expect("a reading");
            (typed.value == expected.value) != attempt.verdict.is_right()
        });
        assert_eq!(right.count(), 0);
    }
}

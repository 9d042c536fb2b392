//! One apprentice: what is held, how an answer comes about, what it leaves behind.

use super::super::calendar::Day;
use super::super::diagnosis::Suspects;
use super::super::gates::Target;
use super::luck::Luck;
use super::nature::Nature;
use crate::drill::{Question, Seed};
use crate::exact::{Exact, Typed, parse_answer};
use crate::instrument::{Catalogue, Instrument};
use crate::reading::misread::{self, Misread};

/// The instruments that a class learns on.
pub struct Class<'a> {
    /// Where they come from.
    pub catalogue: &'a Catalogue,
    pub(super) benches: Vec<Bench<'a>>,
}

pub(super) struct Bench<'a> {
    pub(super) instrument: &'a Instrument,
    pub(super) target: Target,
    /// What the program looks for on it.
    pub(super) suspects: Suspects,
    /// What may be held: the misreads that happen on it, those that answer alike once.
    pub(super) misreads: Vec<&'static Misread>,
}

impl<'a> Class<'a> {
    /// A class on these instruments; `None` where one is not in the catalogue.
    pub fn new(catalogue: &'a Catalogue, ids: &[&str]) -> Option<Self> {
        let bench = |id: &&str| {
            let instrument = catalogue.get(id)?;
            let suspects = Suspects::of(instrument);
            let misreads = suspects.all().iter().map(|suspect| suspect.misread).collect();
            Some(Bench { instrument, target: Target::of(instrument), suspects, misreads })
        };
        Some(Self { catalogue, benches: ids.iter().map(bench).collect::<Option<_>>()? })
    }

    /// The instruments in their order.
    pub fn instruments(&self) -> Vec<&'a Instrument> {
        self.benches.iter().map(|bench| bench.instrument).collect()
    }

    pub(super) fn place(&self, instrument: &str) -> Option<usize> {
        self.benches.iter().position(|bench| bench.instrument.id == instrument)
    }
}

/// An apprentice.
pub struct Apprentice {
    nature: Nature,
    luck: Luck,
    /// Slower or faster than others, as a factor.
    pace: f64,
    hands: Vec<Hand>,
}

/// An apprentice at one instrument.
struct Hand {
    readings: u32,
    held: Vec<Habit>,
}

struct Habit {
    misread: &'static Misread,
    applied: f64,
    is_held: bool,
    /// Days on which it was read rightly where it had gone wrong, since it was given up.
    firm: u32,
    firm_on: Option<Day>,
}

/// An answer as it came about.
pub(super) struct Spoken {
    pub(super) typed: Typed,
    pub(super) took_ms: u64,
    /// The misreads that were applied and made a difference.
    pub(super) of: Vec<usize>,
}

impl Apprentice {
    /// An apprentice of this nature. The seed says which misreads are held.
    pub fn new(class: &Class<'_>, nature: &Nature, seed: Seed) -> Self {
        let mut birth = Luck::new("linefall apprentice 1", seed, 0);
        let hand = |bench: &Bench<'_>, birth: &mut Luck| {
            let mut left = bench.misreads.clone();
            let held = (0..nature.holds.min(left.len())).map(|_| Habit {
                misread: left.swap_remove(birth.place(left.len())),
                applied: nature.applied[birth.place(2)],
                is_held: true,
                firm: 0,
                firm_on: None,
            });
            Hand { readings: 0, held: held.collect() }
        };
        let hands = class.benches.iter().map(|bench| hand(bench, &mut birth)).collect();
        let pace = (0.2 * birth.normal()).exp();
        Self { nature: nature.clone(), luck: Luck::new("linefall apprentice 1", seed, 1), pace, hands }
    }

    /// How many misreads are held at an instrument now.
    pub(super) fn holding(&self, place: usize) -> usize {
        self.hands[place].held.iter().filter(|held| held.is_held).count()
    }

    /// The misreads that an apprentice began with at an instrument.
    pub(super) fn known(&self, place: usize) -> impl Iterator<Item = &'static Misread> + '_ {
        self.hands[place].held.iter().map(|held| held.misread)
    }

    pub(super) fn holds(&self, place: usize, which: usize) -> bool {
        self.hands[place].held[which].is_held
    }

    /// Reads a question; the tool is the one of the question.
    pub(super) fn read(
        &mut self,
        place: usize,
        bench: &Bench<'_>,
        question: &Question,
        tool: &Instrument,
    ) -> Spoken {
        let case = question.case(tool);
        let right = case.expected();
        let mut meant = Vec::new();
        let mut of = Vec::new();
        for (which, held) in self.hands[place].held.iter().enumerate().filter(|(_, held)| held.is_held) {
            let wrong = held.misread.wrong(&case);
            if !wrong.is_empty() && self.luck.happens(held.applied) {
                of.push(which);
                meant.push((held.misread, wrong[self.luck.place(wrong.len())].clone()));
            }
        }
        let answer = match meant.as_slice() {
            [] => right,
            [(_, one)] => one.answer,
            [(a, one), (b, other), ..] => {
                misread::together(&case, (a, one), (b, other)).unwrap_or(one.answer)
            }
        };
        let readings = self.hands[place].readings;
        let answer = if self.luck.happens(self.nature.slips(readings)) {
            self.slip(bench, question, tool, answer)
        } else {
            answer
        };
        self.hands[place].readings += 1;
        let deviate = self.nature.spread * self.luck.normal();
        let seconds = bench.target.0 * self.nature.slow(readings) * self.pace * deviate.exp();
        let time = std::time::Duration::from_secs_f64(seconds.clamp(0.5, 600.0));
        let text = tool.notation.spell(answer);
        let typed = parse_answer(&text, tool.unit).expect("a reading as the tool writes it can be typed");
        Spoken { typed, took_ms: u64::try_from(time.as_millis()).unwrap_or(u64::MAX), of }
    }

    /// A slip of eye or finger: a neighbouring line, a digit, what another misread would have given; as often each (as the
    /// outside learners of the tests have it; assumed).
    fn slip(&mut self, bench: &Bench<'_>, question: &Question, tool: &Instrument, meant: Exact) -> Exact {
        let line = tool.value(tool.least_count) - tool.value(crate::exact::Quanta::ZERO);
        let beside = if self.luck.happens(0.5) { meant + line } else { meant - line };
        match self.luck.place(3) {
            0 => beside,
            1 => self.digit(tool, meant).unwrap_or(beside),
            _ => {
                let other = bench.misreads[self.luck.place(bench.misreads.len())];
                let wrong = other.wrong(&question.case(tool));
                if wrong.is_empty() { beside } else { wrong[self.luck.place(wrong.len())].answer }
            }
        }
    }

    /// One digit typed wrong; none where that is no reading.
    fn digit(&mut self, tool: &Instrument, meant: Exact) -> Option<Exact> {
        let mut text: Vec<char> = tool.notation.spell(meant).chars().collect();
        let digits: Vec<usize> = (0..text.len()).filter(|at| text[*at].is_ascii_digit()).collect();
        let at = *digits.get(self.luck.place(digits.len()))?;
        let other = u32::try_from(self.luck.place(9)).ok()? + 1;
        text[at] = char::from_digit((text[at].to_digit(10)? + other) % 10, 10)?;
        let text: String = text.into_iter().collect();
        parse_answer(&text, tool.unit).ok().map(|typed| typed.value)
    }

    /// What an answer and its mark leave behind: a misread that went wrong may be given up, one that was given up grows firmer
    /// by a right answer where it would have been wrong. Says which was given up.
    pub(super) fn marked(
        &mut self,
        place: usize,
        question: &Question,
        tool: &Instrument,
        answer: (&[usize], bool),
        day: Day,
    ) -> Option<usize> {
        let (of, is_right) = answer;
        if is_right {
            let case = question.case(tool);
            for held in self.hands[place].held.iter_mut().filter(|held| !held.is_held) {
                if held.firm_on != Some(day) && !held.misread.wrong(&case).is_empty() {
                    held.firm += 1;
                    held.firm_on = Some(day);
                }
            }
            return None;
        }
        let which = *of.first()?;
        self.gives_up(place, which, self.nature.corrected)
    }

    /// The step of a misread was shown by itself.
    pub(super) fn repaired(&mut self, place: usize, which: usize) -> Option<usize> {
        self.gives_up(place, which, self.nature.repaired)
    }

    fn gives_up(&mut self, place: usize, which: usize, how_likely: f64) -> Option<usize> {
        let gone = self.luck.happens(how_likely);
        let held = &mut self.hands[place].held[which];
        let gone = gone && held.is_held;
        if gone {
            (held.is_held, held.firm, held.firm_on) = (false, 0, None);
        }
        gone.then_some(which)
    }

    /// A night: which misreads came back, of which instrument.
    pub(super) fn night(&mut self) -> Vec<(usize, usize)> {
        let mut back = Vec::new();
        for (place, hand) in self.hands.iter_mut().enumerate() {
            for (which, held) in hand.held.iter_mut().enumerate().filter(|(_, held)| !held.is_held) {
                let firm = i32::try_from(held.firm).unwrap_or(i32::MAX);
                if self.luck.happens(self.nature.comes_back * self.nature.firmer.powi(firm)) {
                    held.is_held = true;
                    back.push((place, which));
                }
            }
        }
        back
    }
}

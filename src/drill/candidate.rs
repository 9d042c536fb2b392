//! Candidates for telling questions: half of them anywhere, half beside a line of a coarser scale, where most goes wrong.
//!
//! Version 101 (the hundreds say that a question was chosen; the numbers of [`super::question()`] count below). Drawn in this
//! order: whether it stands beside a line, one in two; then, beside a line, the coarser scale, its line, and how far from it,
//! up to a tenth of a division either way, else the setting from the lowest; then zero error, variant and lengths as in
//! version 1, and, from a key of its own, what [`super::change`] draws. A tool with two sets of scales draws as `two_sets` says. What is drawn is the setting, not the size, so that it stays beside its line whatever the zero error.

use super::change::changed;
use super::draw::Draw;
use super::generate::Seed;
use super::question::Question;
use super::two_sets;
use crate::exact::Quanta;
use crate::instrument::{Form, Instrument, Variant, Zero};

/// The version of the generator that a [`Candidate`] comes from.
pub const TELLING_GENERATOR: u32 = 101;

/// A question that may be put, not yet made out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    number: u32,
    /// From the lowest setting.
    above_low: Quanta,
    zero_error: Quanta,
    seed: Seed,
    /// The question itself, on a tool with two sets of scales.
    made_out: Option<Question>,
    /// Which maker's variant it is, and what is fitted to it.
    pub variant: Variant,
}

impl Candidate {
    /// Candidate `number` (from 1) of a seed. The instrument has the first length of every choice fitted.
    pub fn drawn(instrument: &Instrument, seed: Seed, number: u32) -> Self {
        let mut draw = Draw::keyed("linefall candidate 1", instrument, seed, number);
        if instrument.other.is_some() {
            let question = two_sets::question(instrument, &mut draw, number);
            let variant = question.variant.clone();
            let (above_low, zero_error) = (Quanta::ZERO, question.zero_error);
            return Self { number, above_low, zero_error, seed, made_out: Some(question), variant };
        }
        let coarse = coarser_divisions(instrument);
        let at = if draw.below(2) == 0 && !coarse.is_empty() {
            beside_a_line(instrument, &coarse, &mut draw)
        } else {
            instrument.low + instrument.step * pick(&mut draw, steps(instrument) + 1)
        };
        let zero_error = match instrument.zero {
            Zero::None => Quanta::ZERO,
            Zero::CanBeOff => draw.zero_error(instrument.least_count),
        };
        let variants = instrument.usual();
        let mut variant = variants[index(&mut draw, variants.len())].clone();
        for choice in instrument.choices.iter().filter(|choice| choice.practised) {
            variant = choice.fit(variant, index(&mut draw, choice.lengths.len()));
        }
        // Neither the setting nor the size leaves the range.
        let (low, high) = (instrument.low, instrument.high);
        let at = at.max(low + zero_error).max(low).min(high + zero_error).min(high);
        Self { number, above_low: at - low, zero_error, seed, made_out: None, variant }
    }

    /// Its number.
    pub fn number(&self) -> u32 {
        self.number
    }

    /// The question. The tool is the instrument with this candidate's variant fitted.
    pub fn question(&self, tool: &Instrument) -> Question {
        if let Some(question) = &self.made_out {
            return question.clone();
        }
        let setting = tool.low + self.above_low;
        let question = Question::new(tool, self.number, setting, self.zero_error, self.variant.clone());
        changed(question, tool, &mut Draw::keyed("linefall candidate 1 change", tool, self.seed, self.number))
    }
}

/// The divisions of all scales that a finer one follows.
fn coarser_divisions(instrument: &Instrument) -> Vec<Quanta> {
    let mut divisions: Vec<Quanta> = instrument
        .stages
        .iter()
        .filter_map(|stage| match &stage.form {
            Form::Line(line) => Some(line.division),
            Form::Drum(drum) => Some(drum.division),
            Form::Dial(dial) => Some(dial.division),
            Form::Vernier(_) | Form::Fixed(_) => None,
        })
        .collect();
    // The finest scale, or the one that a vernier divides, stays where one is needed at all.
    divisions.retain(|division| *division >= instrument.step * 5);
    divisions
}

fn beside_a_line(instrument: &Instrument, coarse: &[Quanta], draw: &mut Draw) -> Quanta {
    let division = coarse[index(draw, coarse.len())];
    let start = instrument.start();
    let first = (instrument.low - start).passed(division);
    let last = (instrument.high - start).passed(division);
    let line = first + pick(draw, last - first + 1);
    let widest = (division.passed(instrument.step) / 10).max(1);
    let off = pick(draw, 2 * widest + 1) - widest;
    start + division * line + instrument.step * off
}

fn steps(instrument: &Instrument) -> i64 {
    (instrument.high - instrument.low).passed(instrument.step)
}

fn pick(draw: &mut Draw, n: i64) -> i64 {
    i64::from(draw.below(u32::try_from(n).expect("the definition was checked: a bounded number of settings")))
}

fn index(draw: &mut Draw, n: usize) -> usize {
    usize::try_from(pick(draw, i64::try_from(n).expect("few"))).expect("below a few")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn candidates_of_every_instrument_stay_in_range_and_on_its_steps() {
        let catalogue = Catalogue::new(Vec::new());
        for instrument in catalogue.all() {
            let base = instrument.fitted(&Variant::default());
            for number in 1..=400 {
                let candidate = Candidate::drawn(&base, Seed(4), number);
                assert_eq!(candidate, Candidate::drawn(&base, Seed(4), number));
                let tool = instrument.fitted(&candidate.variant);
                let question = candidate.question(&tool);
                assert!(tool.low <= question.setting && question.setting <= tool.high, "{}", tool.id);
                let size = question.setting - question.zero_error;
                assert!(tool.low <= size && size <= tool.high, "{}", tool.id);
                assert!((question.setting - tool.low).is_multiple_of(tool.step), "{}", tool.id);
                assert_eq!(question.number, number);
            }
        }
    }

    /// Early and late differ from plain miscounting only beside a line, so a good share must stand there.
    #[test]
    fn half_stand_beside_a_line() {
        let catalogue = Catalogue::new(Vec::new());
        let instrument = catalogue.get("micrometer-metric").expect("shipped").fitted(&Variant::default());
        let beside = (1..=1000)
            .filter(|number| {
                let setting = Candidate::drawn(&instrument, Seed(1), *number).above_low;
                let thimble = setting.left_of(Quanta(50)).0;
                thimble <= 5 || thimble >= 45
            })
            .count();
        // Eleven in fifty anywhere, all of those beside a line of the sleeve.
        assert!((540..=680).contains(&beside), "{beside} of 1000");
    }
}

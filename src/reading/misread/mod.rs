//! Named wrong readings. Each replaces one step of the correct procedure, so each answers every setting exactly.
//!
//! One misread a file: its id, its name in shop words, what is done as a formula on the stages, the cure, and a function from
//! a [`Case`] to the wrong answers it gives there (none where it makes no difference).

mod angle_forgotten;
mod backlash_forgotten;
mod backlash_twice;
mod balanced_sign;
mod centimetre_slip;
mod change_reversed;
mod coincidence_number;
mod complement_not_taken;
mod complement_taken;
mod covered_line_showing;
mod decimal_slip;
mod dial_backwards;
mod diameter_radius;
mod estimate_rounded;
mod figures_only;
mod fixed_forgotten;
mod fixed_scale_number;
mod fixed_twice;
mod half_line_added;
mod half_line_missed;
mod impossible_value;
mod line_added;
mod line_early;
mod line_late;
mod line_missed;
mod nearest_not_passed;
mod neighbour_line;
mod next_line;
mod nib_forgotten;
mod on;
mod other_unit;
mod quarter_lines;
mod revolution_added;
mod revolution_missed;
mod set_up;
mod shown_for_covered;
mod sleeve_figure;
mod start_forgotten;
mod supplement_not_taken;
mod supplement_taken;
mod thimble_backwards;
mod thimble_digits_swapped;
mod thimble_ignored;
mod thimble_nearest_five;
mod thimble_worth;
mod together;
mod turn_counted_twice;
mod turn_not_counted;
mod vernier_backwards;
mod vernier_end;
mod vernier_ignored;
mod vernier_label;
mod vernier_wrong_decimal;
mod wrong_half;
mod wrong_scale_of_two;
mod zero_ignored;
mod zero_wrong_sign;

pub use on::On;
use on::{are_nibs, counts_tenths};
pub use together::{Part, together};

use super::asks::Asks;
use super::change::Change;
use super::pose::Pose;
use super::read::{Reading, Step};
use crate::exact::{Exact, Quanta};
use crate::instrument::{Dial, Drum, Form, Grows, Instrument, Line, SetUp, Vernier};

/// A question as a misread sees it.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The instrument.
    pub instrument: &'a Instrument,
    /// Where everything stands.
    pub pose: &'a Pose,
    /// The correct reading of that.
    pub reading: &'a Reading,
    /// The reading when closed; nought on a tool that is set right.
    pub zero_error: Quanta,
    /// What is asked.
    pub asks: Asks,
    /// What the answer rests on beside this picture.
    pub change: Change,
}

/// A named wrong way of reading.
pub struct Misread {
    /// Its id in streams and records.
    pub id: &'static str,
    /// Its name in shop words.
    pub name: &'static str,
    /// What is done, as a formula on the stages.
    pub formula: &'static str,
    /// What to do about it.
    pub cure: &'static str,
    /// The stage forms it can happen on, for listings.
    pub on: &'static [On],
    /// The wrong answers it gives in a case.
    pub answers: fn(&Case<'_>) -> Vec<Wrong>,
}

/// Misreads are known by their ids.
impl PartialEq for Misread {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Misread {}

impl std::fmt::Debug for Misread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.id)
    }
}

/// A wrong answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// The answer, in base units.
    pub answer: Exact,
    /// The stage that was read wrong; none for a slip over the whole figure.
    pub stage: Option<usize>,
    /// One sentence: what was done.
    pub did: String,
}

/// All misreads, the more particular before the more general.
pub static ALL: [&Misread; 65] = [
    &wrong_scale_of_two::WRONG_SCALE_OF_TWO,
    &estimate_rounded::ESTIMATE_ROUNDED,
    &fixed_forgotten::ROD_FORGOTTEN,
    &fixed_forgotten::COLLAR_FORGOTTEN,
    &fixed_forgotten::FRAME_START_FORGOTTEN,
    &turn_not_counted::TURN_NOT_COUNTED,
    &turn_counted_twice::TURN_COUNTED_TWICE,
    &backlash_forgotten::BACKLASH_FORGOTTEN,
    &backlash_twice::BACKLASH_TWICE,
    &start_forgotten::START_FORGOTTEN,
    &change_reversed::CHANGE_REVERSED,
    &angle_forgotten::ANGLE_FORGOTTEN,
    &diameter_radius::DIAMETER_FOR_RADIUS,
    &diameter_radius::RADIUS_FOR_DIAMETER,
    &shown_for_covered::SHOWN_FOR_COVERED,
    &covered_line_showing::COVERED_LINE_STILL_SHOWING,
    &half_line_missed::HALF_LINE_MISSED,
    &half_line_added::HALF_LINE_ADDED,
    &revolution_missed::REVOLUTION_MISSED,
    &revolution_added::REVOLUTION_ADDED,
    &balanced_sign::BALANCED_SIGN,
    &dial_backwards::DIAL_BACKWARDS,
    &supplement_not_taken::SUPPLEMENT_NOT_TAKEN,
    &complement_not_taken::COMPLEMENT_NOT_TAKEN,
    &supplement_taken::SUPPLEMENT_TAKEN,
    &complement_taken::COMPLEMENT_TAKEN,
    &quarter_lines::QUARTER_AS_TWENTY,
    &quarter_lines::QUARTER_AS_TEN,
    &sleeve_figure::FIGURE_AS_INCHES,
    &sleeve_figure::FIGURE_AS_HUNDREDTHS,
    &line_early::LINE_EARLY,
    &line_late::LINE_LATE,
    &nearest_not_passed::NEAREST_NOT_PASSED,
    &figures_only::FIGURES_ONLY,
    &line_missed::LINE_MISSED,
    &line_added::LINE_ADDED,
    &nib_forgotten::NIB_FORGOTTEN,
    &fixed_twice::FIXED_TWICE,
    &vernier_ignored::VERNIER_IGNORED,
    &wrong_half::WRONG_HALF,
    &thimble_ignored::THIMBLE_IGNORED,
    &vernier_backwards::VERNIER_BACKWARDS,
    &thimble_backwards::THIMBLE_BACKWARDS,
    &next_line::THIMBLE_NEXT_LINE,
    &next_line::VERNIER_NEXT_LINE,
    &neighbour_line::NEXT_LINE,
    &neighbour_line::LINE_BEFORE,
    &vernier_label::LABEL_AS_LINE,
    &vernier_label::LINE_AS_LABEL,
    &thimble_worth::THIMBLE_AS_TENTHS,
    &thimble_worth::THIMBLE_AS_THOUSANDTHS,
    &thimble_digits_swapped::THIMBLE_DIGITS_SWAPPED,
    &thimble_nearest_five::THIMBLE_NEAREST_FIVE,
    &coincidence_number::COINCIDENCE_NUMBER,
    &vernier_wrong_decimal::VERNIER_WRONG_DECIMAL,
    &vernier_wrong_decimal::VERNIER_A_TENTH,
    &centimetre_slip::CENTIMETRE_SLIP,
    &coincidence_number::COINCIDENCE_ALONE,
    &fixed_scale_number::FIXED_SCALE_NUMBER,
    &vernier_end::VERNIER_END,
    &zero_ignored::ZERO_IGNORED,
    &zero_wrong_sign::ZERO_WRONG_SIGN,
    &decimal_slip::DECIMAL_SLIP,
    &other_unit::OTHER_UNIT,
    &impossible_value::IMPOSSIBLE_VALUE,
];

/// The misread of an id.
pub fn named(id: &str) -> Option<&'static Misread> {
    ALL.into_iter().find(|misread| misread.id == id)
}

impl Misread {
    /// The wrong answers in a case, none of them a right one.
    pub fn wrong(&self, case: &Case<'_>) -> Vec<Wrong> {
        (self.answers)(case).into_iter().filter(|wrong| !case.accepts(wrong.answer)).collect()
    }

    /// True of one that gives exactly its answers, however finely a digit is judged beside.
    pub fn is_exact(&self) -> bool {
        self.on.contains(&On::Estimate)
    }
}

impl<'a> Case<'a> {
    /// The right answer.
    pub fn expected(&self) -> Exact {
        self.answered(self.reading.total)
    }

    /// What would be answered by someone who reads `total` and goes on rightly.
    fn answered(&self, total: Quanta) -> Exact {
        match self.asks {
            Asks::Reading | Asks::ZeroError => self.instrument.value(total),
            Asks::Corrected => self.instrument.value(total - self.zero_error),
            Asks::PartAsRead => SetUp::AsRead.angle(self.instrument.value(total)),
            Asks::PartComplement => SetUp::Complement.angle(self.instrument.value(total)),
            Asks::PartSupplement => SetUp::Supplement.angle(self.instrument.value(total)),
            Asks::Change | Asks::Diameter | Asks::Travel | Asks::Movement => {
                self.change.answer(self.instrument, self.asks, total)
            }
        }
    }

    /// What would be answered by someone who takes this for what the answer rests on.
    fn resting_on(&self, change: Change) -> Exact {
        Self { change, ..*self }.expected()
    }

    /// The wrong answer of someone who takes `value` for the stage's share.
    fn taking(&self, step: &Step, value: Quanta, did: String) -> Wrong {
        let total = self.reading.total - step.value + value;
        Wrong { answer: self.answered(total), stage: Some(step.stage), did }
    }

    /// The same where the share need not be a whole number of quanta.
    fn taking_value(&self, step: &Step, share: Exact, did: String) -> Wrong {
        let rest = self.answered(self.reading.total - step.value);
        Wrong { answer: rest + share, stage: Some(step.stage), did }
    }

    fn stage_name(&self, step: &Step) -> &'a str {
        &self.instrument.stages[step.stage].name
    }

    fn lines(&self) -> impl Iterator<Item = (&'a Line, &'a Step)> {
        self.steps(|form| match form {
            Form::Line(line) => Some(line),
            _ => None,
        })
    }

    fn drums(&self) -> impl Iterator<Item = (&'a Drum, &'a Step)> {
        self.steps(|form| match form {
            Form::Drum(drum) => Some(drum),
            _ => None,
        })
    }

    fn dials(&self) -> impl Iterator<Item = (&'a Dial, &'a Step)> {
        self.steps(|form| match form {
            Form::Dial(dial) => Some(dial),
            _ => None,
        })
    }

    fn verniers(&self) -> impl Iterator<Item = (&'a Vernier, &'a Step)> {
        self.steps(|form| match form {
            Form::Vernier(vernier) => Some(vernier),
            _ => None,
        })
    }

    fn fixed(&self) -> impl Iterator<Item = (Quanta, &'a Step)> {
        self.steps(|form| match form {
            Form::Fixed(length) => Some(length),
            _ => None,
        })
        .map(|(length, step)| (*length, step))
    }

    fn is_fixed(&self, step: &Step) -> bool {
        matches!(self.instrument.stages[step.stage].form, Form::Fixed(_))
    }

    fn steps<T: 'a>(&self, pick: fn(&'a Form) -> Option<&'a T>) -> impl Iterator<Item = (&'a T, &'a Step)> {
        let stages = &self.instrument.stages;
        self.reading
            .steps
            .iter()
            .filter_map(move |step| pick(&stages[step.stage].form).map(|form| (form, step)))
    }

    /// Lines count when they are covered.
    fn is_covering(&self) -> bool {
        self.instrument.grows == Grows::Covering
    }

    /// True when a thimble or a vernier follows this step. What goes wrong with the turns of a dial has names of its own.
    fn finer_follows(&self, step: &Step) -> bool {
        let finer = self.reading.steps.iter().find(|s| s.stage > step.stage && !self.is_fixed(s));
        finer.is_some_and(|finer| !self.is_dial(finer))
    }

    fn is_dial(&self, step: &Step) -> bool {
        matches!(self.instrument.stages[step.stage].form, Form::Dial(_))
    }

    /// The scales whose lines count the turns of a dial.
    fn turns(&self) -> impl Iterator<Item = (&'a Line, &'a Step)> {
        let stages = &self.instrument.stages;
        let followed =
            |step: &Step| stages.get(step.stage + 1).is_some_and(|next| matches!(next.form, Form::Dial(_)));
        self.lines().filter(move |(_, step)| followed(step))
    }

    /// What the finer stages together show above this step's line.
    fn left_above(&self, step: &Step) -> Quanta {
        self.reading.steps.iter().filter(|s| s.stage > step.stage && !self.is_fixed(s)).map(|s| s.value).sum()
    }

    fn worth(&self, at: Quanta) -> String {
        self.instrument.spell_with_unit(at)
    }
}

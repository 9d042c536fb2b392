//! Named wrong readings. Each replaces one step of the correct procedure, so each answers every setting exactly.
//!
//! One misread a file: its id, its name in shop words, what is done as a formula on the stages, the cure, and a function from
//! a [`Case`] to the wrong answers it gives there (none where it makes no difference).

mod balanced_sign;
mod coincidence_number;
mod complement_not_taken;
mod complement_taken;
mod covered_line_showing;
mod decimal_slip;
mod dial_backwards;
mod fixed_forgotten;
mod fixed_twice;
mod half_line_added;
mod half_line_missed;
mod line_added;
mod line_early;
mod line_missed;
mod neighbour_line;
mod nib_forgotten;
mod revolution_added;
mod revolution_missed;
mod shown_for_covered;
mod supplement_not_taken;
mod supplement_taken;
mod thimble_backwards;
mod vernier_backwards;
mod vernier_ignored;
mod wrong_half;
mod zero_ignored;
mod zero_wrong_sign;

use super::pose::Pose;
use super::read::{Reading, Step};
use crate::exact::{Exact, Quanta};
use crate::instrument::{Dial, Drum, Face, Figured, Form, Grows, Instrument, Line, SetUp, Stage, Vernier};
use serde::{Deserialize, Serialize};

/// What a question asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Asks {
    /// What the scales show.
    Reading,
    /// The reading less the zero error: the size.
    Corrected,
    /// The reading when closed.
    ZeroError,
    /// The angle of the part, which lies as the tool reads.
    PartAsRead,
    /// The angle of the part, which with the reading makes a right angle.
    PartComplement,
    /// The angle of the part, which with the reading makes a straight line.
    PartSupplement,
}

impl Asks {
    /// The word used in streams and records.
    pub fn word(self) -> &'static str {
        match self {
            Self::Reading => "reading",
            Self::Corrected => "corrected",
            Self::ZeroError => "zero-error",
            Self::PartAsRead => "part-as-read",
            Self::PartComplement => "part-complement",
            Self::PartSupplement => "part-supplement",
        }
    }

    /// The word for someone who has not answered yet: which angle of the part it is must be seen in the sketch.
    pub fn shown_word(self) -> &'static str {
        if self.set_up().is_some() { "part-angle" } else { self.word() }
    }

    /// The question for a part's angle in a set-up.
    pub fn part(set_up: SetUp) -> Self {
        match set_up {
            SetUp::AsRead => Self::PartAsRead,
            SetUp::Complement => Self::PartComplement,
            SetUp::Supplement => Self::PartSupplement,
        }
    }

    /// The set-up in which the part's angle is asked for; none where another thing is.
    pub fn set_up(self) -> Option<SetUp> {
        match self {
            Self::Reading | Self::Corrected | Self::ZeroError => None,
            Self::PartAsRead => Some(SetUp::AsRead),
            Self::PartComplement => Some(SetUp::Complement),
            Self::PartSupplement => Some(SetUp::Supplement),
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        let plain = [Self::Reading, Self::Corrected, Self::ZeroError];
        let parts = [Self::PartAsRead, Self::PartComplement, Self::PartSupplement];
        plain.into_iter().chain(parts).find(|asks| asks.word() == word)
    }
}

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

/// The stage forms a misread can happen on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// A rule, main scale or sleeve.
    Line,
    /// A sleeve with half lines.
    HalfLines,
    /// A thimble.
    Drum,
    /// A dial.
    Dial,
    /// A dial figured both ways.
    BalancedDial,
    /// A dial whose turns are counted.
    Turns,
    /// A vernier.
    Vernier,
    /// A vernier with a half either way from its 0.
    DoubleVernier,
    /// A protractor that the part's angle is asked of.
    SetUps,
    /// A constant length.
    Fixed,
    /// Nibs that are added to an outside scale.
    Nibs,
    /// Any instrument.
    Any,
    /// An instrument that can have a zero error.
    ZeroError,
    /// A sleeve that is covered as the reading grows.
    Covering,
    /// A fixed length of this name.
    Named(&'static str),
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
pub static ALL: [&Misread; 29] = [
    &fixed_forgotten::ROD_FORGOTTEN,
    &fixed_forgotten::COLLAR_FORGOTTEN,
    &fixed_forgotten::FRAME_START_FORGOTTEN,
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
    &line_early::LINE_EARLY,
    &line_missed::LINE_MISSED,
    &line_added::LINE_ADDED,
    &nib_forgotten::NIB_FORGOTTEN,
    &fixed_twice::FIXED_TWICE,
    &vernier_ignored::VERNIER_IGNORED,
    &wrong_half::WRONG_HALF,
    &vernier_backwards::VERNIER_BACKWARDS,
    &thimble_backwards::THIMBLE_BACKWARDS,
    &neighbour_line::NEIGHBOUR_LINE,
    &coincidence_number::COINCIDENCE_NUMBER,
    &zero_ignored::ZERO_IGNORED,
    &zero_wrong_sign::ZERO_WRONG_SIGN,
    &decimal_slip::DECIMAL_SLIP,
];

/// The misread of an id.
pub fn named(id: &str) -> Option<&'static Misread> {
    ALL.into_iter().find(|misread| misread.id == id)
}

impl Misread {
    /// The wrong answers in a case, none of them the right one.
    pub fn wrong(&self, case: &Case<'_>) -> Vec<Wrong> {
        let right = case.expected();
        (self.answers)(case).into_iter().filter(|wrong| wrong.answer != right).collect()
    }

    /// True when an instrument has a stage this can happen on.
    pub fn happens_on(&self, instrument: &Instrument) -> bool {
        use crate::instrument::Zero;
        self.on.iter().any(|on| match on {
            On::Any => true,
            On::ZeroError => instrument.zero == Zero::CanBeOff,
            On::Covering => instrument.grows == Grows::Covering,
            On::Named(name) => {
                let fixed = |stage: &Stage| stage.name == *name && matches!(stage.form, Form::Fixed(_));
                instrument.choices.iter().any(|choice| choice.name == *name)
                    || instrument.stages.iter().any(fixed)
            }
            On::Line => instrument.stages.iter().any(|s| matches!(s.form, Form::Line(_))),
            On::HalfLines => instrument
                .stages
                .iter()
                .any(|s| matches!(&s.form, Form::Line(line) if line.whole().is_some())),
            On::Drum => instrument.stages.iter().any(|s| matches!(s.form, Form::Drum(_))),
            On::Dial => instrument.stages.iter().any(|s| matches!(s.form, Form::Dial(_))),
            On::BalancedDial => instrument
                .stages
                .iter()
                .any(|s| matches!(&s.form, Form::Dial(dial) if dial.face == Face::Balanced)),
            On::Turns => instrument.stages.windows(2).any(|pair| matches!(pair[1].form, Form::Dial(_))),
            On::Fixed => {
                !instrument.choices.is_empty()
                    || instrument.stages.iter().any(|s| matches!(s.form, Form::Fixed(_)))
            }
            On::Nibs => {
                instrument.stages.iter().any(|s| matches!(s.form, Form::Fixed(_)) && are_nibs(&s.name))
            }
            On::SetUps => !instrument.set_ups.is_empty(),
            On::DoubleVernier => instrument
                .stages
                .iter()
                .any(|s| matches!(&s.form, Form::Vernier(vernier) if vernier.figured == Figured::BothWays)),
            On::Vernier => instrument.stages.iter().any(|s| matches!(s.form, Form::Vernier(_))),
        })
    }
}

/// True for the name of a constant length that is the width of inside nibs.
fn are_nibs(name: &str) -> bool {
    name == "nibs"
}

impl<'a> Case<'a> {
    /// The right answer.
    pub fn expected(&self) -> Exact {
        self.answered(self.reading.total)
    }

    /// What would be answered by someone who reads `total` and goes on rightly.
    fn answered(&self, total: Quanta) -> Exact {
        let value = |at: Quanta| self.instrument.value(at);
        match self.asks {
            Asks::Reading | Asks::ZeroError => value(total),
            Asks::Corrected => value(total - self.zero_error),
            Asks::PartAsRead => SetUp::AsRead.angle(value(total)),
            Asks::PartComplement => SetUp::Complement.angle(value(total)),
            Asks::PartSupplement => SetUp::Supplement.angle(value(total)),
        }
    }

    /// The answer of someone who takes a protractor to stand in `taken`, where it stands in one of some others. Where only the
    /// reading is asked for it stands as read.
    fn angle_for(&self, taken: SetUp, did: &str, stands: &[SetUp]) -> Vec<Wrong> {
        let set_up = match self.asks {
            Asks::Reading if !self.instrument.set_ups.is_empty() => Some(SetUp::AsRead),
            asks => asks.set_up(),
        };
        if !set_up.is_some_and(|set_up| stands.contains(&set_up)) {
            return Vec::new();
        }
        let answer = taken.angle(self.instrument.value(self.reading.total));
        vec![Wrong { answer, stage: None, did: did.to_owned() }]
    }

    /// The wrong answer of someone who takes `value` for the stage's share.
    fn taking(&self, step: &Step, value: Quanta, did: String) -> Wrong {
        let total = self.reading.total - step.value + value;
        Wrong { answer: self.answered(total), stage: Some(step.stage), did }
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

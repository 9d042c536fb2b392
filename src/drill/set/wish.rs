//! What is wanted of one question of a portion, and whether a question meets it.

use super::{Met, Portion, What, ZeroOff};
use crate::drill::ready::{Ready, Sketch};
use crate::drill::task::{Part, Wanted, task};
use crate::drill::{Conditions, Kind, Level, Lock, Question, Seed, Settings, trap};
use crate::exact::{Exact, Quanta};
use crate::instrument::{Form, Instrument, Variant, Zero};
use crate::reading::Misread;

/// What is wanted of a question. `None` where anything will do.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Wish {
    /// Its size lies between these.
    pub(super) within: Option<[Exact; 2]>,
    /// Whether its zero is off.
    pub(super) off: Option<bool>,
    /// Whether something is out of order.
    pub(super) odd: Option<bool>,
    /// What is chosen of the maker's variant: keys and words, no word standing for the first alternative.
    pub(super) variant: Vec<(String, Option<String>)>,
    /// What goes wrong on it.
    pub(super) provoke: Option<&'static Misread>,
    /// Whether it is near a line.
    pub(super) near: Option<bool>,
}

/// A portion and its instrument, ready to choose questions.
pub(super) struct Chooser<'a> {
    ready: Ready<'a>,
    portion: &'a Portion,
    /// What every question of the portion is wanted to be.
    pub(super) always: Wish,
    /// The kinds that take turns.
    pub(super) kinds: Vec<Kind>,
}

/// One of so many questions of the level of traps is near a line.
const TRAPS: u32 = 4;

impl<'a> Chooser<'a> {
    pub(super) fn new(portion: &'a Portion, instrument: &'a Instrument) -> Self {
        let off = match portion.zero {
            ZeroOff::AsDrawn => None,
            ZeroOff::Always => Some(true),
            ZeroOff::Never => Some(false),
        };
        let odd = match portion.conditions {
            Met::AsDrawn => None,
            Met::Always => Some(true),
            Met::Never => Some(false),
        };
        let variant = portion.variant.as_deref().map_or_else(Vec::new, |word| chosen(instrument, word));
        let always = Wish { within: portion.within, off, odd, variant, ..Wish::default() };
        Self { ready: Ready::new(instrument), portion, always, kinds: portion.kinds(instrument) }
    }

    /// The instrument.
    pub(super) fn instrument(&self) -> &'a Instrument {
        self.ready.instrument()
    }

    /// The kind of question `n` (from 1), and which of its kind it is, from 0.
    pub(super) fn kind(&self, n: u32) -> Option<(Kind, u32)> {
        let turns = u32::try_from(self.kinds.len()).ok().filter(|turns| *turns > 0)?;
        let kind = self.kinds[usize::try_from((n - 1) % turns).ok()?];
        Some((kind, (n - 1) / turns))
    }

    /// What is wanted of question `n` (from 1), the `turn`th of its kind, from 0.
    pub(super) fn wish(&self, n: u32, turn: u32) -> Wish {
        let mut wish = self.always.clone();
        let misreads = u32::try_from(self.portion.provoke.len()).unwrap_or(u32::MAX);
        if let Some(place) = turn.checked_rem(misreads) {
            wish.provoke =
                usize::try_from(place).ok().and_then(|place| self.portion.provoke.get(place)).copied();
        }
        if self.portion.what == What::Level(Level::Traps) {
            wish.near = Some(n % TRAPS == 2);
        }
        wish
    }

    /// Whether plain readings of the portion are to be spread over what can go wrong.
    pub(super) fn is_spread(&self, kind: Kind) -> bool {
        self.portion.spread && kind == Kind::Read
    }

    /// Whether a reading can be had with the zero off where nothing else is wanted.
    pub(super) fn can_be_off(&self) -> bool {
        self.instrument().zero == Zero::CanBeOff && self.always.off.is_none()
    }

    /// Whether a reading can be near a line that a finer scale divides.
    pub(super) fn can_be_near(&self) -> bool {
        let forms: Vec<&Form> = self.instrument().stages.iter().map(|stage| &stage.form).collect();
        forms.windows(2).any(|pair| {
            let divides = matches!(pair[1], Form::Drum(_) | Form::Dial(_) | Form::Vernier(_));
            divides && matches!(pair[0], Form::Line(_) | Form::Drum(_))
        })
    }

    /// Whether question `number` of the run of a seed is what is wanted.
    pub(super) fn is_met(&self, wish: &Wish, kind: Kind, seed: Seed, number: u32) -> bool {
        if *wish == Wish::default() {
            return true;
        }
        if kind != Kind::Read {
            let task = task(kind, self.instrument(), seed, number);
            return task.is_some_and(|task| task.parts.iter().any(|part| wish.is_met_by_part(part)));
        }
        let may_be = |sketch: &Sketch| {
            wish.wants_off(sketch.zero_error)
                && wish.wants_variant(&sketch.variant)
                && (wish.odd != Some(true) || sketch.may_be_odd)
        };
        let looked_at = wish.off.is_some() || wish.odd == Some(true) || !wish.variant.is_empty();
        if looked_at && self.ready.sketch(seed, number).is_some_and(|sketch| !may_be(&sketch)) {
            return false;
        }
        let question = self.ready.question(seed, number);
        wish.is_met_plainly(&question)
            && (!wish.needs_the_tool() || wish.is_met_on(&question, &self.ready.tool_of(&question)))
    }
}

/// The keys that a word names and what they choose: a tool drawn with other lengths fitted is still that variant.
fn chosen(instrument: &Instrument, word: &str) -> Vec<(String, Option<String>)> {
    let Some(variant) = instrument.variant(word) else { return Vec::new() };
    let keys = word.split_whitespace().filter_map(|part| part.split_once('=')).map(|(key, _)| key);
    keys.map(|key| (key.to_owned(), variant.value(key).map(str::to_owned))).collect()
}

impl Wish {
    fn wants_off(&self, zero_error: Quanta) -> bool {
        self.off.is_none_or(|off| off == (zero_error != Quanta::ZERO))
    }

    fn wants_variant(&self, variant: &Variant) -> bool {
        self.variant.iter().all(|(key, word)| variant.value(key) == word.as_deref())
    }

    /// Whether a question meets all that can be seen without its tool.
    fn is_met_plainly(&self, question: &Question) -> bool {
        self.wants_off(question.zero_error)
            && self.wants_variant(&question.variant)
            && self.odd.is_none_or(|odd| odd == is_odd(&question.conditions))
    }

    fn needs_the_tool(&self) -> bool {
        self.within.is_some() || self.provoke.is_some() || self.near.is_some()
    }

    /// Whether it meets the rest; `tool` is the one of the question.
    fn is_met_on(&self, question: &Question, tool: &Instrument) -> bool {
        let size = tool.value(question.setting - question.zero_error);
        self.within.is_none_or(|[low, high]| low <= size && size <= high)
            && self.near.is_none_or(|near| near == trap::is_trap(question, tool))
            && self.provoke.is_none_or(|misread| !misread.wrong(&question.case(tool)).is_empty())
    }

    fn is_met_by_part(&self, part: &Part) -> bool {
        if part.pictures.is_empty() {
            return false;
        }
        let standing;
        let question = match &part.wanted {
            // What is wanted of a tool that is set is where it is set to.
            Wanted::Setting(setting) => {
                standing = part.question.clone().standing(&part.tool, setting.to);
                &standing
            }
            Wanted::Reading | Wanted::Figure(_) | Wanted::Choice(_) => &part.question,
        };
        self.is_met_plainly(question) && self.is_met_on(question, &part.tool)
    }
}

/// Whether something is out of order. How a handwheel was turned, or where another slide was set, is not.
fn is_odd(conditions: &Conditions) -> bool {
    conditions.settings != Settings::AsDefined
        || conditions.lead != Quanta::ZERO
        || conditions.worn.is_some()
        || conditions.lock != Lock::Tight
}

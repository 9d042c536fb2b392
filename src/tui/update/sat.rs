//! What is put down of exercises and checks.

use super::{Effect, Env};
use crate::class::sitting::Sitting;
use crate::drill::record::Attempt;
use crate::drill::set::Feedback;
use crate::session::{Exercise, Keep};
use crate::tui::model::Model;

/// What is put down of a sitting.
#[derive(Debug)]
pub struct Sat {
    /// The setting under which it is put away.
    pub key: String,
    /// As text, to be taken up again.
    pub text: String,
    /// The sitting as it is now.
    pub sitting: Sitting,
    /// Nothing is told before the end.
    pub silent: bool,
    /// Which try of its card it is.
    pub nth: u32,
    /// Now, UTC as RFC 3339.
    pub at: String,
    /// It is left now.
    pub leaves: bool,
}

/// What there is of a job card on this machine.
pub struct Desked {
    /// The sitting that was broken off, its seed, and which try it is.
    pub going: Option<(Sitting, u64, u32)>,
    /// As it was put away.
    pub put_away: Option<String>,
    /// How often it was begun.
    pub tries: u32,
}

/// Puts the exercise under way away, as it stands.
pub(super) fn put_away(model: &Model, leaves: Leaves, env: &Env) -> Vec<Effect> {
    let sat =
        |exercise| Effect::Sit(Box::new(Sat { leaves: leaves == Leaves::Now, ..Sat::of(exercise, env) }));
    model.under_way().map(sat).into_iter().collect()
}

/// Whether an exercise is left.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Leaves {
    /// It goes on.
    No,
    /// It is left now.
    Now,
}

impl Sat {
    fn of(exercise: &Exercise, env: &Env) -> Self {
        let sitting = exercise.sitting().clone();
        Self {
            key: exercise.key(),
            text: exercise.put_away(env.now),
            sitting,
            silent: exercise.feedback() == Feedback::AtTheEnd,
            nth: exercise.nth(),
            at: env.at.clone(),
            leaves: false,
        }
    }
}

/// What is to be kept, for the runtime. What could not be written down before is tried again with it.
pub(super) fn kept(model: &Model, exercise: &Exercise, keep: Vec<Keep>, env: &Env) -> Vec<Effect> {
    let mut effects = vec![Effect::Sit(Box::new(Sat::of(exercise, env)))];
    let save = |attempt: Attempt| Effect::Save(Box::new(attempt));
    let saved = keep.into_iter().flat_map(|keep| match keep {
        Keep::Save(all) => all,
        Keep::Append(_) | Keep::End(_) => Vec::new(),
    });
    let saved: Vec<Attempt> = saved.collect();
    if !saved.is_empty() {
        effects.extend(model.unsaved.iter().cloned().map(save));
    }
    effects.extend(saved.into_iter().map(save));
    effects
}

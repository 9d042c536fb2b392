//! A bench with one task only: a question of a paper.

use super::{Bench, Stand, Told, generator_of};
use crate::drill::set::{FIXED_GENERATOR, Item, Posed};
use crate::drill::task::{Given, Task};
use crate::exact::{Quanta, Typed};
use crate::session::order::Traps;
use std::collections::BTreeMap;

impl Bench {
    /// One task of a paper from its part `part` on, counted from 1; there is none after it.
    pub fn of_paper(learner: impl Into<String>, item: &Item, task: Task, part: usize) -> Self {
        let generator = match item.posed {
            Posed::Drawn { .. } => generator_of(&task),
            Posed::Given { .. } => FIXED_GENERATOR,
        };
        let part = part.clamp(1, task.parts.len()) - 1;
        let mut bench = Self {
            learner: learner.into(),
            seed: item.seed(),
            // No kind takes the next turn.
            kinds: Vec::new(),
            traps: Traps::AsDrawn,
            turn: item.place,
            task,
            part,
            generator,
            at: Quanta::ZERO,
            pull: Quanta::ZERO,
            stand: Stand::Asking { again: None },
            glass_used: false,
            asked: 0,
            right: 0,
            read: BTreeMap::new(),
        };
        bench.show();
        bench
    }

    /// The same with what was read earlier on the paper, by the task's number: some settings come again.
    #[must_use]
    pub fn after(mut self, read: BTreeMap<u32, Typed>) -> Self {
        self.read = read;
        self.show();
        self
    }

    /// The same with its part answered, to be looked at.
    #[must_use]
    pub fn told_again(mut self, given: Given) -> Self {
        let marked = self.part().mark(&given);
        if let Given::Left(at) = given {
            self.at = at;
        }
        self.stand = Stand::Told(Told { given, marked });
        self
    }

    /// True once the last part of the task is answered.
    pub fn is_done(&self) -> bool {
        let (part, parts) = self.which();
        matches!(self.stand, Stand::Told(_)) && part == parts
    }
}

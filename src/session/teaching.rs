//! Going through a lesson: point after point, and questions that must be answered before it goes on.

use crate::exact::{Nonsense, parse_answer};
use crate::instrument::Instrument;
use crate::lesson::{Lesson, Point};
use crate::reading::Share;

/// A lesson being gone through. Nothing of it is recorded.
#[derive(Clone)]
pub struct Teaching {
    lesson: Lesson,
    tool: Instrument,
    step: usize,
    point: usize,
    asked: Asked,
}

/// Where the question of a step stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asked {
    /// Nothing is asked, or not yet.
    Nothing,
    /// It is open.
    Open {
        /// What was wrong with the last text typed, if it was no value at all.
        again: Option<Nonsense>,
        /// The last answer, if it was wrong.
        wrong: Option<String>,
    },
    /// It was answered rightly.
    Right(String),
    /// The answer was shown.
    Shown,
}

/// What the learner does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TeachingStep {
    /// Goes on.
    Next,
    /// Goes back.
    Back,
    /// Answers.
    Answer(String),
    /// Has the answer shown.
    Show,
}

/// Whether there is more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum More {
    /// There is.
    Yes,
    /// That was the last step.
    Ended,
}

const CHECKED: &str = "a shipped lesson keeps every rule; a test goes through each";

impl Teaching {
    /// A lesson from its beginning.
    pub fn new(lesson: Lesson) -> Self {
        let tool = lesson.tool().expect(CHECKED);
        let mut new = Self { lesson, tool, step: 0, point: 0, asked: Asked::Nothing };
        new.arrive();
        new
    }

    /// The lesson.
    pub fn lesson(&self) -> &Lesson {
        &self.lesson
    }

    /// Which step it is, from 1, and of how many.
    pub fn which(&self) -> (usize, usize) {
        (self.step + 1, self.lesson.steps.len())
    }

    /// Which point of the step, from 1, and of how many.
    pub fn which_point(&self) -> (usize, usize) {
        (self.point + 1, self.lesson.steps[self.step].at.len())
    }

    /// Where the tool stands.
    pub fn point(&self) -> Point {
        self.lesson.point(&self.tool, self.step, self.point).expect(CHECKED)
    }

    /// What is said.
    pub fn said(&self) -> String {
        self.lesson.steps[self.step].said(&self.point()).expect(CHECKED)
    }

    /// What is lit. What answers a question is lit when it has been answered.
    pub fn lit(&self) -> Vec<Share> {
        match self.asked {
            Asked::Open { .. } => Vec::new(),
            Asked::Nothing | Asked::Right(_) | Asked::Shown => {
                self.lesson.steps[self.step].lit(&self.point()).expect(CHECKED)
            }
        }
    }

    /// Where the question stands.
    pub fn asked(&self) -> &Asked {
        &self.asked
    }

    /// The question of the step, what answers it and what is said then.
    pub fn question(&self) -> Option<[String; 3]> {
        let point = self.point();
        let ask = self.lesson.steps[self.step].ask.as_ref()?;
        let all = [ask.asked(&point), ask.written(&point), ask.told(&point)];
        Some(all.map(|text| text.expect(CHECKED)))
    }

    /// Carries a step out.
    pub fn step(&mut self, step: TeachingStep) -> More {
        match (step, &self.asked) {
            (TeachingStep::Next, Asked::Open { .. }) => {}
            (TeachingStep::Next, _) => {
                if self.point + 1 < self.lesson.steps[self.step].at.len() {
                    self.point += 1;
                } else if self.step + 1 < self.lesson.steps.len() {
                    (self.step, self.point) = (self.step + 1, 0);
                } else {
                    return More::Ended;
                }
                self.arrive();
            }
            (TeachingStep::Back, _) => {
                if self.point > 0 {
                    self.point -= 1;
                } else if self.step > 0 {
                    self.step -= 1;
                    self.point = self.lesson.steps[self.step].at.len() - 1;
                }
                self.arrive();
            }
            (TeachingStep::Answer(text), Asked::Open { .. }) => self.answer(&text),
            (TeachingStep::Show, Asked::Open { .. }) => self.asked = Asked::Shown,
            (TeachingStep::Answer(_) | TeachingStep::Show, _) => {}
        }
        More::Yes
    }

    fn arrive(&mut self) {
        let step = &self.lesson.steps[self.step];
        let at_end = self.point + 1 == step.at.len();
        self.asked = if step.ask.is_some() && at_end {
            Asked::Open { again: None, wrong: None }
        } else {
            Asked::Nothing
        };
    }

    fn answer(&mut self, text: &str) {
        let Some(ask) = &self.lesson.steps[self.step].ask else { return };
        let point = self.point();
        self.asked = match parse_answer(text, point.stand.tool.unit) {
            Err(again) => Asked::Open { again: Some(again), wrong: None },
            Ok(typed) if ask.wanted(&point).expect(CHECKED).is(&typed) => Asked::Right(typed.text),
            Ok(typed) => Asked::Open { again: None, wrong: Some(typed.text) },
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson;

    /// Every shipped lesson, answered as it says.
    #[test]
    fn every_lesson_can_be_gone_through_and_back() {
        for lesson in lesson::all() {
            let steps = lesson.steps.len();
            let mut teaching = Teaching::new(lesson);
            let mut points = 1;
            loop {
                if let Asked::Open { .. } = teaching.asked() {
                    teaching.step(TeachingStep::Next);
                    assert!(matches!(teaching.asked(), Asked::Open { .. }), "it waits for the answer");
                    assert!(teaching.lit().is_empty(), "what answers the question is lit");
                    let [_, right, _] = teaching.question().expect("a question is open");
                    teaching.step(TeachingStep::Answer(right.clone()));
                    let asked = teaching.asked();
                    assert!(matches!(asked, Asked::Right(_)), "{} {right} {asked:?}", teaching.lesson().id);
                }
                if teaching.step(TeachingStep::Next) == More::Ended {
                    break;
                }
                points += 1;
            }
            assert_eq!(teaching.which(), (steps, steps));
            for _ in 0..points {
                teaching.step(TeachingStep::Back);
            }
            assert_eq!((teaching.which().0, teaching.which_point().0), (1, 1));
        }
    }

    #[test]
    fn a_wrong_answer_is_asked_again_and_may_be_shown() {
        let lesson = lesson::all().find(|lesson| lesson.steps.iter().any(|step| step.ask.is_some()));
        let mut teaching = Teaching::new(lesson.expect("a lesson that asks"));
        while *teaching.asked() == Asked::Nothing {
            teaching.step(TeachingStep::Next);
        }
        teaching.step(TeachingStep::Answer("1..2".to_owned()));
        assert!(matches!(teaching.asked(), Asked::Open { again: Some(_), .. }));
        teaching.step(TeachingStep::Answer("77777".to_owned()));
        let wrong = Some("77777".to_owned());
        assert_eq!(*teaching.asked(), Asked::Open { again: None, wrong });
        teaching.step(TeachingStep::Show);
        assert_eq!(*teaching.asked(), Asked::Shown);
    }
}

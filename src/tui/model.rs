//! The state of the trainer. Only `update` changes it.

pub use super::benching::{BenchScreen, GlassState};
use super::classing::{ClassScreen, Room};
use super::command::Place;
pub use super::exercising::{Issued, Needs, PartOf, ResultScreen, Sets, Stands, StartScreen};
use super::lit::lit;
pub use super::projecting::ProjectScreen;
use super::theme::Theme;
pub use super::walking::{Follow, LessonScreen, WalkScreen};
use crate::drill::Sight;
use crate::drill::record::{self, Attempt};
use crate::drill::set::Allowed;
use crate::instrument::{Body, Catalogue, Course, Form, Instrument};
use crate::learner::calendar::Day;
use crate::learner::gates::Gates;
use crate::learner::progress::Progress;
use crate::learner::repair::Word;
use crate::learner::schedule::Today;
use crate::learner::sitting::Sitting;
use crate::render::{self, Drawing, Glass, Lit, Marks, Refusal, Request};
use crate::scene::{self, Scene, View};
use crate::session::{Attendance, Mode, Phase, Practice, Programme, Shown};
use crate::wording;
use std::collections::BTreeMap;
use std::time::Duration;

/// The smallest terminal that practice works in.
pub const LEAST: (u16, u16) = (80, 24);

/// Rows of text that are wanted after a right answer, and after a wrong one.
const SAID_RIGHT: u16 = 7;
const SAID_WRONG: u16 = 13;

/// The trainer.
pub struct Model {
    /// Cells across and down.
    pub size: (u16, u16),
    /// The instruments.
    pub catalogue: Catalogue,
    /// Who practises.
    pub learner: String,
    /// Colours.
    pub theme: Theme,
    /// How lines are drawn.
    pub lines: render::LineStyle,
    /// The terminal's cells are less than eight pixels wide.
    pub small_cells: bool,
    /// The view chosen for micrometers.
    pub view: View,
    /// Screens, the one on top last. Never empty.
    pub screens: Vec<Screen>,
    /// A text being typed over the screen.
    pub overlay: Option<Overlay>,
    /// What is known of earlier readings; none until it has been read.
    pub progress: Option<Progress>,
    /// How the readings on each instrument stand, by id.
    pub gates: BTreeMap<String, Gates>,
    /// What there is to do today; none until that is known.
    pub today: Option<TodayScreen>,
    /// Exercises and checks.
    pub sets: Sets,
    /// Since the program started, as of the last message.
    pub now: Duration,
    /// What keeps happening on each instrument.
    pub attendance: Attendance,
    /// Whether anything of this session is kept.
    pub record: Record,
    /// Why nothing can be kept, if so.
    pub store_problem: Option<String>,
    /// Attempts that could not be written down.
    pub unsaved: Vec<Attempt>,
    /// The class record, where an instructor looks at it.
    pub class: Option<Box<Room>>,
    /// A word on the last command.
    pub notice: Option<String>,
}

/// Whether what is read is written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Record {
    /// Every attempt is.
    Kept,
    /// Nothing is.
    Private,
}

/// What there is to do today, above the list of instruments.
pub struct TodayScreen {
    /// Which day it is.
    pub day: Day,
    /// What the earlier readings call for.
    pub plan: Today,
    /// The round that was left, if one was.
    pub going: Option<Sitting>,
    /// It is the chosen line, and not one of the list.
    pub chosen: bool,
}

/// A screen.
pub enum Screen {
    /// The list of instruments.
    Home {
        /// The chosen line.
        chosen: usize,
    },
    /// Practice.
    Practice(Box<PracticeScreen>),
    /// What has been learnt.
    Progress {
        /// The chosen line.
        chosen: usize,
    },
    /// The kinds of question there are on an instrument.
    Kinds {
        /// What the instrument is called in the list.
        instrument: String,
        /// What can be asked about it.
        offers: Vec<Programme>,
        /// The chosen line.
        chosen: usize,
    },
    /// Questions of such kinds.
    Bench(Box<BenchScreen>),
    /// The list of sets.
    Sets {
        /// The chosen line.
        chosen: usize,
    },
    /// The page before a set is begun.
    Start(Box<StartScreen>),
    /// The page after its end.
    Result(Box<ResultScreen>),
    /// The calibration strip.
    Lines,
    /// A tool that is moved by hand.
    Walk(Box<WalkScreen>),
    /// A lesson.
    Lesson(Box<LessonScreen>),
    /// The class record.
    Class(Box<ClassScreen>),
    /// A round for a room.
    Project(Box<ProjectScreen>),
    /// A care card.
    Care {
        /// The instrument's id.
        instrument: String,
        /// The first line in view.
        from: usize,
    },
}

/// Practice on screen.
pub struct PracticeScreen {
    /// The instrument's id.
    pub instrument: String,
    /// The run.
    pub run: Practice,
    /// The round it belongs to, if it is one of today's.
    pub sitting: Option<Sitting>,
    /// The answer field.
    pub field: String,
    /// The glass, if it is open.
    pub glass: Option<GlassState>,
    /// Something was typed that is no reading, and nothing since.
    pub hinted: bool,
    /// How far the explanation has come: 0 the verdict, then a share each.
    pub told: usize,
    /// Which of the pictures before the work is shown again.
    pub again: Option<usize>,
    /// When the question's picture was shown.
    pub since: Duration,
    /// The last attempt has not been written down yet.
    pub saving: bool,
    /// What is said about something that keeps happening.
    pub word: Option<Word>,
}

impl PracticeScreen {
    /// The picture before the work that is shown now, if one is.
    pub fn earlier(&self) -> Option<Sight> {
        let number = match self.run.phase() {
            Phase::Before(number) => Some(*number),
            Phase::Asking { .. } | Phase::Answered(_) => self.again,
        };
        number.and_then(|n| self.run.question().earlier(self.run.tool()).into_iter().nth(n))
    }
}

/// A text typed over a screen.
pub struct Overlay {
    /// Help or palette.
    pub kind: OverlayKind,
    /// The text.
    pub text: String,
    /// The chosen line.
    pub chosen: usize,
}

/// What an overlay is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OverlayKind {
    /// Looking up keys.
    Help,
    /// Running a command.
    Palette,
}

impl Model {
    /// The screen on top.
    pub fn screen(&self) -> &Screen {
        self.screens.last().expect("there is always a screen")
    }

    /// The screen on top, to change.
    pub fn screen_mut(&mut self) -> &mut Screen {
        self.screens.last_mut().expect("there is always a screen")
    }

    /// Where commands are looked up.
    pub fn place(&self) -> Place {
        match self.screen() {
            Screen::Home { .. } => Place::Home,
            Screen::Progress { .. } => Place::Progress,
            Screen::Sets { .. } => Place::Sets,
            Screen::Start(start) => start.place(),
            Screen::Result(_) => Place::Result,
            Screen::Lines => Place::Lines,
            Screen::Care { .. } => Place::Care,
            Screen::Kinds { .. } => Place::Kinds,
            Screen::Class(class) => class.place(),
            Screen::Bench(bench) => bench.place(),
            Screen::Walk(walk) => match walk.run.mode() {
                Mode::Showing => Place::Walk,
                Mode::Guessing { .. } => Place::Guess,
            },
            Screen::Lesson(_) => Place::Lesson,
            Screen::Project(_) => Place::Project,
            Screen::Practice(practice) => match practice.run.phase() {
                Phase::Before(_) => Place::Before,
                Phase::Asking { .. } => Place::Asking,
                Phase::Answered(_) => Place::Answered,
            },
        }
    }

    /// What is listed: the labels of the crib's tools, then the ids of all instruments.
    pub fn ids(&self) -> Vec<&str> {
        self.catalogue.names().collect()
    }

    /// A score with the label of the shop's own tool before it, where that is what is read.
    pub fn labelled(&self, name: &str, score: String) -> String {
        let of_crib = self.catalogue.tools().iter().any(|tool| tool.label == name);
        if of_crib { format!("{name}   {score}") } else { score }
    }

    /// Rows of text under the picture.
    pub fn text_rows(&self) -> u16 {
        match self.size.1 {
            34.. => 8,
            28.. => 5,
            _ => 3,
        }
    }

    /// Cells for the picture.
    pub fn picture_size(&self) -> (u16, u16) {
        (self.size.0, self.size.1.saturating_sub(1 + self.text_rows()))
    }

    /// Rows of the sketch above the picture, where one goes with the question.
    pub fn sketch_rows(&self, practice: &PracticeScreen) -> u16 {
        let sketched = wording::sketch(practice.run.question().asks).is_some();
        if sketched { wording::SKETCH_ROWS.min(self.picture_size().1) } else { 0 }
    }

    /// Cells for what is drawn of the instrument.
    fn drawn_size(&self, practice: &PracticeScreen) -> (u16, u16) {
        let (cols, rows) = self.picture_size();
        (cols, rows - self.sketch_rows(practice))
    }

    /// The picture of the question, or one before it; once it is answered in fewer rows, where it is drawn the same way in them.
    pub fn picture(&self, practice: &PracticeScreen) -> Result<Drawing, Refusal> {
        let (cols, rows) = self.drawn_size(practice);
        let whole = self.picture_in(practice, cols, rows)?;
        let wanted = match practice.run.phase() {
            Phase::Answered(answered) if answered.mark.verdict.is_right() => SAID_RIGHT,
            Phase::Answered(_) => SAID_WRONG,
            Phase::Before(_) | Phase::Asking { .. } => 0,
        };
        let fewer = rows.saturating_sub(wanted.saturating_sub(self.text_rows()));
        let same = |smaller: &Drawing| {
            smaller.view == whole.view && smaller.glass.is_some() == whole.glass.is_some()
        };
        let smaller = (fewer..rows).find_map(|rows| self.picture_in(practice, cols, rows).ok().filter(same));
        Ok(smaller.unwrap_or(whole))
    }

    fn picture_in(&self, practice: &PracticeScreen, cols: u16, rows: u16) -> Result<Drawing, Refusal> {
        let instrument = self.instrument(practice);
        let question = practice.run.question();
        let earlier = practice.earlier();
        let sight = earlier.clone().unwrap_or_else(|| question.measuring(instrument));
        let scene = scene::build(&sight.tool, &sight.pose, &sight.variant, self.view).tagged(sight.tags);
        let shares = match practice.run.phase() {
            Phase::Answered(answered) if earlier.is_none() => &answered.shares[..],
            _ => &[],
        };
        let told = lit(&shares[..practice.told.min(shares.len())], &scene);
        self.draw(&scene, (cols, rows), practice.glass, told)
    }

    /// A scene in so many cells, as lines and theme are now.
    pub(super) fn draw(
        &self,
        scene: &Scene,
        size: (u16, u16),
        glass: Option<GlassState>,
        lit: Vec<Lit>,
    ) -> Result<Drawing, Refusal> {
        let mut request = self.request(size, lit);
        if let Some(glass) = glass {
            request.glass = Glass::At(glass.line);
            request.glass_dots = glass.dots;
        }
        render::draw(scene, &request)
    }

    /// How a picture of so many cells is made.
    pub(super) fn request(&self, (cols, rows): (u16, u16), lit: Vec<Lit>) -> Request {
        let mut request = Request::new(i64::from(cols), i64::from(rows), self.lines);
        request.small_cells = self.small_cells;
        request.marks = if self.theme == Theme::Mono { Marks::Shown } else { Marks::Hidden };
        request.lit = lit;
        request
    }

    /// How the question is shown, for the record.
    pub fn shown(&self, practice: &PracticeScreen) -> Shown {
        let drawing = self.picture(practice).ok();
        let view = match drawing.as_ref().map_or(self.view, |drawing| drawing.view) {
            View::Held => record::View::Held,
            View::Flat => record::View::Flat,
        };
        let (cols, rows) = self.drawn_size(practice);
        Shown {
            view,
            lines: self.lines.word(),
            cols: u32::from(cols),
            rows: u32::from(rows),
            glass: drawing.is_some_and(|drawing| drawing.glass.is_some()),
        }
    }

    /// True where a glass can be opened: over a vernier that meets its scale at a level edge.
    pub fn has_glass(&self, drawing: &Drawing) -> bool {
        if matches!(self.screen(), Screen::Bench(bench) if bench.glass_rule == Allowed::No) {
            return false;
        }
        let meets = drawing.view == View::Flat || !self.has_thimble();
        meets && self.on_screen(|form| matches!(form, Form::Vernier(_)))
    }

    /// True where the view in the hand and the one laid flat differ.
    pub fn has_two_views(&self) -> bool {
        let has_face = |form: &Form| matches!(form, Form::Dial(dial) if dial.body == Body::Face);
        self.has_thimble()
            || self.on_screen(|form| runs(form) == Some(Course::Upward))
            || self.on_screen(has_face)
    }

    /// True where the scales shown in this view stand upright.
    pub fn stands_upright(&self, view: record::View) -> bool {
        view == record::View::Held && self.on_screen(|form| runs(form) == Some(Course::Upward))
    }

    /// True where a thimble is on screen.
    pub fn has_thimble(&self) -> bool {
        self.on_screen(|form| matches!(form, Form::Drum(_)))
    }

    fn on_screen(&self, wanted: fn(&Form) -> bool) -> bool {
        self.tool_shown().is_some_and(|tool| tool.stages.iter().any(|stage| wanted(&stage.form)))
    }

    /// The instrument of a practice screen, with what is fitted to it.
    pub fn instrument<'a>(&self, practice: &'a PracticeScreen) -> &'a Instrument {
        practice.run.tool()
    }
}

/// The way a straight scale's figures grow.
fn runs(form: &Form) -> Option<Course> {
    match form {
        Form::Line(line) => Some(line.runs),
        Form::Drum(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    }
}

//! The part of the model that belongs to a walk and to a lesson.

use super::lit::lit;
use super::model::{GlassState, Model, Screen};
use crate::instrument::Instrument;
use crate::reading::{Share, Stand};
use crate::render::{Drawing, Extent, Refusal};
use crate::scene;
use crate::session::{Mode, Teaching, Walk};

/// A walk on screen.
pub struct WalkScreen {
    /// What it is called in the list.
    pub instrument: String,
    /// The walk.
    pub run: Walk,
    /// The guess being typed.
    pub field: String,
    /// The glass, if it is open.
    pub glass: Option<GlassState>,
    /// Whether the glass goes with the line that is in line.
    pub follow: Follow,
}

/// Whether the glass goes with the line that is in line, while the reading is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Follow {
    /// It does, until it is slid by hand.
    InLine,
    /// It stays where it was slid.
    Slid,
}

/// A lesson on screen.
pub struct LessonScreen {
    /// The lesson.
    pub run: Teaching,
    /// The answer being typed.
    pub field: String,
    /// The glass, if it is open.
    pub glass: Option<GlassState>,
}

/// Rows above the parts of the sum and below them.
const HEAD_AND_FOOT: u16 = 2;
/// What a step of a lesson says takes so many rows at the most, its head, its question and an answer's line included.
const LESSON_ROWS: u16 = 6;
/// Rows of text that are left to a picture that needs the room.
const FEWEST: u16 = 3;

impl WalkScreen {
    /// A walk that begins.
    pub fn new(instrument: String, run: Walk) -> Self {
        Self { instrument, run, field: String::new(), glass: None, follow: Follow::InLine }
    }

    /// The shares that are open, which are lit.
    pub fn lit(&self) -> Vec<Share> {
        let stand = self.run.stand();
        let open: Vec<usize> =
            stand.reading.steps.iter().take(self.run.open()).map(|step| step.stage).collect();
        stand.shares.iter().filter(|share| open.contains(&share.stage)).cloned().collect()
    }

    /// The vernier line that the glass lies on where nobody slid it; none while that would give the reading away.
    pub fn in_line(&self) -> Option<i64> {
        let lit = self.lit();
        let line = lit.iter().rev().find(|share| share.kind.counts_lines())?.at?;
        Some(self.run.stand().tool.glass_line(line.0))
    }
}

impl Model {
    /// The picture of the screen on top, where it has one.
    pub fn drawing(&self) -> Option<Result<Drawing, Refusal>> {
        match self.screen() {
            Screen::Practice(practice) => Some(self.picture(practice)),
            Screen::Bench(bench) => self.bench_drawing(bench),
            Screen::Walk(walk) => Some(self.walk_picture(walk).0),
            Screen::Lesson(lesson) => Some(self.lesson_picture(lesson).0),
            _ => None,
        }
    }

    /// The tool on screen, where there is one.
    pub fn tool_shown(&self) -> Option<Instrument> {
        match self.screen() {
            Screen::Practice(practice) => {
                let earlier = practice.earlier();
                Some(earlier.map_or_else(|| self.instrument(practice).clone(), |sight| sight.tool))
            }
            Screen::Bench(bench) => bench.in_front().map(|sight| sight.tool),
            Screen::Walk(walk) => Some(walk.run.stand().tool.clone()),
            Screen::Lesson(lesson) => Some(lesson.run.point().stand.tool),
            _ => None,
        }
    }

    /// The picture of a walk, and the rows of text under it.
    pub fn walk_picture(&self, walk: &WalkScreen) -> (Result<Drawing, Refusal>, u16) {
        let stand = walk.run.stand();
        let rows = most_rows(&stand.tool) + HEAD_AND_FOOT;
        let mut glass = walk.glass;
        let following = walk.follow == Follow::InLine && *walk.run.mode() == Mode::Showing;
        if let (true, Some(line)) = (following, walk.in_line()) {
            // Where no glass is open the planner may open one; then it, too, lies where the lines meet.
            let at = |drawing: &Drawing| drawing.extent == Extent::Slide;
            let plain = self.stand_picture(stand, None, &[], rows).0;
            if glass.is_some() || plain.as_ref().is_ok_and(at) {
                glass = Some(GlassState { line, dots: glass.and_then(|glass| glass.dots) });
            }
        }
        self.stand_picture(stand, glass, &walk.lit(), rows)
    }

    /// The picture of a lesson, and the rows of text under it.
    pub fn lesson_picture(&self, lesson: &LessonScreen) -> (Result<Drawing, Refusal>, u16) {
        let stand = lesson.run.point().stand;
        let lit = lesson.run.lit();
        let mut glass = lesson.glass;
        let line = lit.iter().rev().find(|share| share.kind.counts_lines()).and_then(|share| share.at);
        if let (None, Some(line)) = (glass, line)
            && self.stand_picture(&stand, None, &[], LESSON_ROWS).0.is_ok_and(|d| d.extent == Extent::Slide)
        {
            glass = Some(GlassState { line: stand.tool.glass_line(line.0), dots: None });
        }
        self.stand_picture(&stand, glass, &lit, LESSON_ROWS)
    }

    /// A tool where it stands, with so many rows of text under it; fewer where its picture needs the room.
    fn stand_picture(
        &self,
        stand: &Stand,
        glass: Option<GlassState>,
        shares: &[Share],
        wanted: u16,
    ) -> (Result<Drawing, Refusal>, u16) {
        let scene = scene::build(&stand.tool, &stand.pose, &stand.variant, self.view);
        let lit = lit(shares, &scene);
        let most = self.size.1.saturating_sub(1);
        let draw =
            |text: u16| self.draw(&scene, (self.size.0, most.saturating_sub(text)), glass, lit.clone());
        let fewest = draw(FEWEST);
        let as_good = |drawing: &Drawing| {
            fewest.as_ref().is_ok_and(|best| (best.extent, best.view) == (drawing.extent, drawing.view))
        };
        for text in (FEWEST + 1..=wanted).rev() {
            let drawing = draw(text);
            if drawing.as_ref().is_ok_and(as_good) {
                return (drawing, text);
            }
        }
        (fewest, FEWEST)
    }
}

/// The most parts that the sum of a tool can have.
fn most_rows(tool: &Instrument) -> u16 {
    use crate::instrument::Form;
    let of = |form: &Form| match form {
        Form::Line(line) => line.numerals.len() + 1 + usize::from(line.whole().is_some()),
        Form::Drum(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => 1,
    };
    u16::try_from(tool.stages.iter().map(|stage| of(&stage.form)).sum::<usize>()).unwrap_or(u16::MAX)
}

//! The part of the model that belongs to the bench: the pictures of a task, and the words under them.

mod words;

pub use words::{Row, Tone};

use super::command::Place;
use super::exercising::PartOf;
use super::lit::lit;
use super::model::Model;
use crate::drill::Sight;
use crate::drill::record;
use crate::drill::set::Allowed;
use crate::drill::task::{Asked, Wanted};
use crate::learner::sitting::Sitting;
use crate::reading::{Share, read, shares};
use crate::render::{self, Drawing, Extent, Glass, Refusal, Request};
use crate::scene::{self, View};
use crate::session::{Bench, Programme, Shown, Stand};
use crate::wording::{self, bench as say};
use ratatui::layout::Rect;
use std::time::Duration;

/// The bench on screen.
pub struct BenchScreen {
    /// What the instrument is called in the list.
    pub instrument: String,
    /// What is asked.
    pub programme: Programme,
    /// The run.
    pub run: Bench,
    /// What it belongs to.
    pub part_of: PartOf,
    /// When Esc was pressed once where nothing may be told.
    pub leaving: Option<Duration>,
    /// Whether the glass may be opened.
    pub glass_rule: Allowed,
    /// The round it belongs to, if it is one of today's.
    pub sitting: Option<Sitting>,
    /// The answer field.
    pub field: String,
    /// The chosen answer of those offered.
    pub chosen: usize,
    /// The glass over each of two pictures, where it is open.
    pub glass: [Option<GlassState>; 2],
    /// Which of two pictures the keys mean.
    pub front: usize,
    /// Where pictures and answers have no room together: the answers are in view.
    pub turned: bool,
    /// What comes before the work and is looked at first.
    pub before: Option<usize>,
    /// What came before the work and is looked at again.
    pub again: Option<usize>,
    /// Something was typed that is no figure, and nothing since.
    pub hinted: bool,
    /// The first line of the explanation that is in view.
    pub from: usize,
    /// When the part was shown.
    pub since: Duration,
    /// The last attempt has not been written down yet.
    pub saving: bool,
}

/// The open glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GlassState {
    /// The vernier line in the middle.
    pub line: i64,
    /// Dots per quantum; none lets the planner choose.
    pub dots: Option<i64>,
}

/// One of the pictures, where it stands on the screen.
pub struct Plate {
    /// Which of the pictures it is.
    pub place: usize,
    /// Its cells; of two, the row above is for its name.
    pub area: Rect,
    /// What is drawn.
    pub drawing: Result<Drawing, Refusal>,
}

/// All that stands on a screen of the bench.
pub struct Page {
    /// The pictures in view.
    pub plates: Vec<Plate>,
    /// Where the words stand.
    pub text: Rect,
    /// The words.
    pub rows: Vec<Row>,
    /// Pictures and answers take turns on a key.
    pub turns: bool,
}

impl BenchScreen {
    /// A run whose task was just posed.
    pub fn new(instrument: String, programme: Programme, run: Bench, now: Duration) -> Self {
        let mut screen = Self {
            instrument,
            programme,
            run,
            part_of: PartOf::Run,
            leaving: None,
            glass_rule: Allowed::Yes,
            sitting: None,
            field: String::new(),
            chosen: 0,
            glass: [None; 2],
            front: 0,
            turned: false,
            before: None,
            again: None,
            hinted: false,
            from: 0,
            since: now,
            saving: false,
        };
        screen.begin_part(now);
        screen
    }

    /// A part was just posed.
    pub fn begin_part(&mut self, now: Duration) {
        self.field.clear();
        (self.chosen, self.front, self.from, self.turned) = (0, 0, 0, false);
        (self.glass, self.again, self.since) = ([None; 2], None, now);
        self.glass[0] = self.run.part().glass.map(|line| GlassState { line, dots: None });
        // What the first part of a task is read against is seen first; a later part has seen it.
        let first = self.run.which().0 == 1;
        self.before = (first && !self.earlier().is_empty()).then_some(0);
    }

    /// What comes before the work.
    pub fn earlier(&self) -> Vec<Sight> {
        self.run.part().earlier()
    }

    /// What is in view.
    pub fn sights(&self) -> Vec<Sight> {
        match self.before.or(self.again) {
            Some(earlier) => self.earlier().into_iter().skip(earlier).take(1).collect(),
            None => self.run.sights(),
        }
    }

    /// The place of the picture that the keys mean.
    pub fn front(&self) -> usize {
        if self.before.or(self.again).is_some() { 0 } else { self.front }
    }

    /// The picture that the keys mean.
    pub fn in_front(&self) -> Option<Sight> {
        self.sights().into_iter().nth(self.front())
    }

    /// Where commands are looked up.
    pub fn place(&self) -> Place {
        match (self.run.stand(), &self.run.part().wanted) {
            (Stand::Told(_), _) => Place::Answered,
            (Stand::Locked { .. }, _) => Place::Locked,
            (Stand::Asking { .. }, _) if self.before.is_some() => Place::Before,
            (Stand::Asking { .. }, Wanted::Reading | Wanted::Figure(_)) => Place::Asking,
            (Stand::Asking { .. }, Wanted::Choice(_)) => Place::Choosing,
            (Stand::Asking { .. }, Wanted::Setting(_)) => Place::Setting,
        }
    }
}

impl Model {
    /// Which question it is, and how many answers were right.
    pub fn bench_score(&self, bench: &BenchScreen) -> String {
        let run = &bench.run;
        match &bench.part_of {
            PartOf::Run => {}
            PartOf::Paper(exercise) => return self.paper_score(exercise, bench),
            PartOf::Past { nth } => return say::past(run.turn(), run.which(), *nth),
        }
        let which = match &bench.sitting {
            Some(sitting) => {
                let (part, parts) = run.which();
                let told = matches!(run.stand(), Stand::Told(_)) && part == parts;
                let asked = sitting.score().0 + u32::from(!told);
                wording::today::which_other((asked, sitting.length()), sitting.score())
            }
            None => say::which(run.turn(), run.which(), run.score()),
        };
        self.labelled(&bench.instrument, which)
    }

    /// The picture that the keys mean.
    pub fn bench_drawing(&self, bench: &BenchScreen) -> Option<Result<Drawing, Refusal>> {
        let plates = self.bench_page(bench).plates;
        let front = plates.iter().position(|plate| plate.place == bench.front()).unwrap_or(0);
        plates.into_iter().nth(front).map(|plate| plate.drawing)
    }

    /// How many rows of an explanation are still out of view below.
    pub fn bench_hidden(&self, bench: &BenchScreen) -> usize {
        let page = self.bench_page(bench);
        let told = matches!(bench.run.stand(), Stand::Told(_));
        if told { page.rows.len().saturating_sub(usize::from(page.text.height) + bench.from) } else { 0 }
    }

    /// True where every picture of the part can be drawn.
    pub fn bench_fits(&self, bench: &BenchScreen) -> bool {
        self.bench_needs(bench).is_none()
    }

    /// The window that every picture of the part can be drawn in; none where this one is large enough.
    pub fn bench_needs(&self, bench: &BenchScreen) -> Option<(i64, i64)> {
        let refused = |page: Page| {
            let deep = i64::from(self.size.1);
            let of = |plate: &Plate| {
                let refusal = plate.drawing.as_ref().err()?;
                Some((refusal.needs_cols, refusal.needs_rows + deep - i64::from(plate.area.height)))
            };
            page.plates.iter().filter_map(of).reduce(|one, other| (one.0.max(other.0), one.1.max(other.1)))
        };
        let mut other = BenchScreen::new(
            bench.instrument.clone(),
            bench.programme.clone(),
            bench.run.clone(),
            bench.since,
        );
        other.glass_rule = bench.glass_rule;
        let mut needs = None;
        for place in 0..other.earlier().len() {
            other.before = Some(place);
            needs = needs.or_else(|| refused(self.bench_page(&other)));
        }
        other.before = None;
        for front in 0..other.sights().len().max(1) {
            other.front = front;
            needs = needs.or_else(|| refused(self.bench_page(&other)));
        }
        needs
    }

    /// How the part is shown, for the record.
    pub fn bench_shown(&self, bench: &BenchScreen) -> Shown {
        let page = self.bench_page(bench);
        let drawn = |plate: &Plate| plate.drawing.as_ref().ok().map(|drawing| drawing.view);
        let view = match page.plates.iter().find_map(drawn).unwrap_or(self.view) {
            View::Held => record::View::Held,
            View::Flat => record::View::Flat,
        };
        let area = page.plates.first().map_or_else(Rect::default, |plate| plate.area);
        let glass = |plate: &Plate| plate.drawing.as_ref().is_ok_and(|drawing| drawing.glass.is_some());
        Shown {
            view,
            lines: self.lines.word(),
            cols: u32::from(area.width),
            rows: u32::from(area.height),
            glass: page.plates.iter().any(glass),
        }
    }

    /// Everything in its place. The words get the rows they want, as far as the pictures are as good as with the fewest.
    pub fn bench_page(&self, bench: &BenchScreen) -> Page {
        let together = self.page_with(bench, self.bench_rows(bench, self.size.0.saturating_sub(2)));
        let refused = together.plates.iter().any(|plate| plate.drawing.is_err());
        match self.bench_rows_without_answers(bench, self.size.0.saturating_sub(2)) {
            Some(_) if refused && bench.turned => {
                let text =
                    Rect { x: 1, y: 0, width: together.text.width, height: self.size.1.saturating_sub(1) };
                Page { plates: Vec::new(), text, turns: true, ..together }
            }
            Some(rows) if refused => Page { turns: true, ..self.page_with(bench, rows) },
            _ => together,
        }
    }

    fn page_with(&self, bench: &BenchScreen, rows: Vec<Row>) -> Page {
        let (cols, deep) = (self.size.0, self.size.1.saturating_sub(1));
        let text =
            |height: u16| Rect { x: 1, y: deep - height.min(deep), width: cols.saturating_sub(2), height };
        let sights = bench.sights();
        let all = u16::try_from(rows.len()).unwrap_or(u16::MAX).min(deep);
        if sights.is_empty() {
            return Page { plates: Vec::new(), text: text(deep), rows, turns: false };
        }
        let told = matches!(bench.run.stand(), Stand::Told(_));
        let fewest = if told { all.min(3) } else { all.max(3).min(deep) };
        let wanted = if told { all.max(fewest) } else { all.max(self.text_rows()).min(deep) };
        let least = self.plates(bench, &sights, fewest);
        for height in (fewest + 1..=wanted).rev() {
            let plates = self.plates(bench, &sights, height);
            if as_good(&plates, &least) {
                return Page { plates, text: text(height), rows, turns: false };
            }
        }
        Page { plates: least, text: text(fewest), rows, turns: false }
    }

    /// The pictures with so many rows of words under them: two side by side, or one above the other, or one at a time.
    fn plates(&self, bench: &BenchScreen, sights: &[Sight], text: u16) -> Vec<Plate> {
        let (cols, rows) = (self.size.0, self.size.1.saturating_sub(1 + text));
        let whole = Rect { x: 0, y: 0, width: cols, height: rows };
        let [first, second] = sights else {
            return vec![self.plate(bench, &sights[0], 0, whole)];
        };
        let half = Rect { y: 1, height: rows.saturating_sub(1), width: cols.saturating_sub(2) / 2, ..whole };
        let beside = [half, Rect { x: cols - half.width, ..half }];
        let deep = rows / 2;
        let upper = Rect { y: 1, height: deep.saturating_sub(1), ..whole };
        let above = [upper, Rect { y: deep + 1, ..upper }];
        let both = |areas: [Rect; 2]| {
            vec![self.plate(bench, first, 0, areas[0]), self.plate(bench, second, 1, areas[1])]
        };
        let is_whole = |plate: &Plate| plate.drawing.as_ref().is_ok_and(|d| d.extent == Extent::Whole);
        let (beside, above) = (both(beside), both(above));
        let mut drawn = Vec::new();
        for layout in [beside, above] {
            if layout.iter().all(is_whole) {
                return layout;
            }
            if layout.iter().all(|plate| plate.drawing.is_ok()) {
                drawn.push(layout);
            }
        }
        if !drawn.is_empty() {
            return drawn.swap_remove(0);
        }
        let front = bench.front();
        let one = Rect { y: 1, height: rows.saturating_sub(1), ..whole };
        vec![self.plate(bench, &sights[front], front, one)]
    }

    fn plate(&self, bench: &BenchScreen, sight: &Sight, place: usize, area: Rect) -> Plate {
        let scene =
            scene::build(&sight.tool, &sight.pose, &sight.variant, self.view).tagged(sight.tags.clone());
        let lit = lit(&told_shares(bench, sight), &scene);
        let size = (area.width, area.height);
        let drawing = if bench.glass_rule == Allowed::No {
            render::draw(&scene, &Request { glass: Glass::Forbidden, ..self.request(size, lit) })
        } else {
            self.draw(&scene, size, bench.glass[place], lit)
        };
        Plate { place, area, drawing }
    }
}

/// What is lit on a picture once the answer is there: the steps of its reading, or the one that was asked for.
fn told_shares(bench: &BenchScreen, sight: &Sight) -> Vec<Share> {
    if !matches!(bench.run.stand(), Stand::Told(_)) || bench.again.is_some() || bench.is_silent() {
        return Vec::new();
    }
    let mut all = shares(&sight.tool, &read(&sight.tool, &sight.pose));
    if let Asked::Step { stage } = bench.run.part().asked {
        all.retain(|share| share.stage == stage);
    }
    all
}

/// True where the pictures say as much as the others do.
fn as_good(plates: &[Plate], least: &[Plate]) -> bool {
    let said = |plate: &Plate| plate.drawing.as_ref().ok().map(|drawing| (drawing.extent, drawing.view));
    // Where the pictures lie is part of it: they do not jump about for the sake of words.
    let beside = |plates: &[Plate]| plates.iter().map(|plate| plate.area.x).collect::<Vec<_>>();
    plates.len() == least.len()
        && beside(plates) == beside(least)
        && plates.iter().zip(least).all(|(one, other)| said(one).is_some() && said(one) == said(other))
}

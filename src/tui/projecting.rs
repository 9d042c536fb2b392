//! The part of the model that belongs to a round for a room: what stands where on the screen.

mod words;

pub use words::{Line, Said, Tone};

use super::benching::Plate;
use super::lit::lit;
use super::model::{GlassState, Model, Screen};
use super::theme::Theme;
use super::widget::{Scale, big_width};
use crate::drill::Sight;
use crate::drill::set::Allowed;
use crate::drill::task::Asked;
use crate::reading::{Share, read, shares};
use crate::render::{self, Drawing, Extent, Glass, LineStyle, Marks, Refusal, Request};
use crate::scene::{self, View};
use crate::session::{Projector, Stage};
use ratatui::layout::Rect;
use std::ops::RangeInclusive;
use std::time::Duration;

/// The smallest window that a round for a room works in: a terminal enlarged until no more than this is left of it.
pub const LEAST: (u16, u16) = (60, 20);
/// From so many rows on there is room for the larger figures.
const ROOMY: u16 = 24;
/// Time over which the glass is slid once along the vernier where a question has no time of its own.
const USUAL: Duration = Duration::from_secs(20);
/// The fewest rows of words.
const FEWEST: u16 = 3;
/// Seconds that the glass rests at the ends.
const REST: u64 = 3;

/// A round for a room on screen.
pub struct ProjectScreen {
    /// What it is called.
    pub title: String,
    /// The round.
    pub run: Projector,
    /// The time, since the program started.
    pub now: Duration,
    /// The glass, where somebody slid it.
    pub glass: Option<GlassState>,
    /// Which of several pages is in view, where the pictures and the answers have no room together.
    pub page: usize,
    /// The first line of the answer that is in view.
    pub from: usize,
    /// A question that was passed over just now, and the size that it needs.
    pub left_out: Option<(usize, (i64, i64))>,
}

/// What a page shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shows {
    /// Which pictures: all, one, or none.
    pub pictures: Pictures,
    /// The answers offered are on it.
    pub answers: bool,
}

/// Which pictures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pictures {
    /// All there are.
    All,
    /// This one.
    One(usize),
    /// None.
    None,
}

/// A page with everything in its place.
pub struct Page {
    /// The pictures.
    pub plates: Vec<Plate>,
    /// Where the words stand.
    pub text: Rect,
    /// The words.
    pub said: Said,
    /// How large the figures beside them are.
    pub scale: Scale,
    /// How many pages there are.
    pub pages: usize,
}

/// How the words under the pictures are laid out, the roomiest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layout {
    /// Large figures, a row for every word, the bar in a row of its own.
    Roomy,
    /// The same with smaller figures.
    Usual,
    /// Without an empty row under the picture.
    Near,
    /// What stands round the question in one row.
    Close,
    /// The bar beside the figures as well.
    Closest,
}

const LAYOUTS: [Layout; 5] = [Layout::Roomy, Layout::Usual, Layout::Near, Layout::Close, Layout::Closest];

impl Layout {
    /// Empty rows under the picture.
    fn gap(self) -> u16 {
        u16::from(matches!(self, Self::Roomy | Self::Usual))
    }

    fn scale(self) -> Scale {
        if self == Self::Roomy { Scale::Large } else { Scale::Small }
    }
}

impl ProjectScreen {
    /// A round that has not begun.
    pub fn new(title: String, run: Projector, now: Duration) -> Self {
        Self { title, run, now, glass: None, page: 0, from: 0, left_out: None }
    }

    /// Another question, or another step of it, is up.
    pub fn turned(&mut self) {
        (self.glass, self.page, self.from) = (None, 0, 0);
    }

    /// What is in view.
    pub fn sights(&self) -> Vec<Sight> {
        match self.run.stage() {
            Stage::Ready | Stage::Over => Vec::new(),
            Stage::Before(seen) => self.run.earlier().into_iter().skip(seen).take(1).collect(),
            Stage::Asking | Stage::Told(_) => self.run.part().pictures.clone(),
        }
    }

    /// The shares lit on a picture: those told so far. Before the answer none is.
    fn told(&self, sight: &Sight) -> Vec<Share> {
        let Stage::Told(told) = self.run.stage() else { return Vec::new() };
        let of_reading = self.run.shares();
        if !of_reading.is_empty() {
            return of_reading.into_iter().take(told + 1).collect();
        }
        let mut all = shares(&sight.tool, &read(&sight.tool, &sight.pose));
        if let Asked::Step { stage } = self.run.part().asked {
            all.retain(|share| share.stage == stage);
        }
        all
    }

    /// The vernier line that the glass lies on: where somebody slid it; before the answer where its way along the vernier has taken
    /// it by now, which is the same whatever the tool reads; then where the lines are in line, once that is told.
    fn glass_line(&self, sight: &Sight) -> Option<i64> {
        if let Some(glass) = self.glass {
            return Some(glass.line);
        }
        let told = self.told(sight);
        let in_line = told.iter().rev().find(|share| share.kind.counts_lines()).and_then(|share| share.at);
        if let Some(at) = in_line {
            return Some(sight.tool.glass_line(at.0));
        }
        let whole = self.run.pace().question;
        let spent = self.run.spent(self.now);
        let spent = whole.map_or(Duration::ZERO, |whole| spent.min(whole));
        sight.tool.vernier_lines().map(|lines| on_its_way(&lines, spent, whole.unwrap_or(USUAL)))
    }
}

/// Where the glass is on its way along the vernier: from its 0 to its last line, on a double one then the other half.
fn on_its_way(lines: &RangeInclusive<i64>, spent: Duration, whole: Duration) -> i64 {
    let count = u64::try_from(lines.end() - lines.start()).unwrap_or(0);
    let moving = whole.as_secs().saturating_sub(REST).max(1);
    let stride = i64::try_from(count.div_ceil(moving).max(1)).unwrap_or(1);
    let up = (1..).map(|n| n * stride).take_while(|line| line < lines.end());
    let down = (1..).map(|n| -n * stride).take_while(|line| line > lines.start());
    let mut stops: Vec<i64> = std::iter::once(0).chain(up).chain([*lines.end()]).collect();
    if *lines.start() < 0 {
        stops.extend(down.chain([*lines.start()]));
    }
    let at = usize::try_from(spent.as_secs()).unwrap_or(usize::MAX) % stops.len();
    stops[at]
}

impl Model {
    /// How long until something on the screen changes by itself; none while no countdown runs.
    pub fn changes_in(&self, now: Duration) -> Option<Duration> {
        match self.screen() {
            Screen::Project(screen) => screen.run.changes_in(now),
            _ => self.paper_changes_in(now),
        }
    }

    /// Everything on the page in view; a refusal where a picture of the question has no room in this window.
    pub fn project_page(&self, screen: &ProjectScreen) -> Result<Page, Refusal> {
        let sights = screen.sights();
        let choices = words::offers_answers(screen.run.part());
        let all = |pictures, answers| Shows { pictures, answers };
        let mut ways: Vec<Vec<Shows>> = vec![vec![all(Pictures::All, true)]];
        if sights.len() == 2 {
            ways.push(vec![all(Pictures::One(0), true), all(Pictures::One(1), true)]);
        }
        if choices && !sights.is_empty() {
            ways.push(vec![all(Pictures::All, false), all(Pictures::None, true)]);
            let apart = (0..sights.len()).map(|place| all(Pictures::One(place), false));
            ways.push(apart.chain([all(Pictures::None, true)]).collect());
        }
        let mut refusal = None;
        for way in ways {
            let pages: Result<Vec<Page>, Refusal> =
                way.iter().map(|shows| self.page_of(screen, &sights, *shows, way.len())).collect();
            match pages {
                Ok(mut pages) => {
                    let at = screen.page.min(pages.len() - 1);
                    return Ok(pages.swap_remove(at));
                }
                Err(refused) => refusal = refusal.or(Some(refused)),
            }
        }
        Err(refusal.expect("one way was tried at least"))
    }

    /// Whether every picture of the question can be drawn: those before the work, and those it is asked about.
    pub fn project_fits(&self, screen: &ProjectScreen) -> Result<(), Refusal> {
        for sight in screen.run.earlier() {
            let rows = self.size.1.saturating_sub(FEWEST);
            self.project_drawing(screen, &sight, (self.size.0, rows))?;
        }
        self.project_page(screen).map(drop)
    }

    /// One page: of the layouts the roomiest in which its pictures are as good as in the closest.
    fn page_of(
        &self,
        screen: &ProjectScreen,
        sights: &[Sight],
        shows: Shows,
        pages: usize,
    ) -> Result<Page, Refusal> {
        let seen: Vec<(usize, &Sight)> = match shows.pictures {
            Pictures::All => sights.iter().enumerate().collect(),
            Pictures::One(place) => sights.iter().enumerate().skip(place).take(1).collect(),
            Pictures::None => Vec::new(),
        };
        let mut best: Option<Page> = None;
        let mut refusal = None;
        for layout in LAYOUTS.into_iter().rev() {
            if layout == Layout::Roomy && self.size.1 < ROOMY && !seen.is_empty() {
                continue;
            }
            let height = self.height(screen, layout, shows, pages);
            let text = Rect {
                x: 1,
                y: self.size.1.saturating_sub(height) + layout.gap().min(height),
                width: self.size.0.saturating_sub(2),
                height: height.min(self.size.1).saturating_sub(layout.gap()),
            };
            let plates = self.project_plates(screen, &seen, height);
            if let Some(Err(refused)) = plates.iter().map(|plate| &plate.drawing).find(|drawn| drawn.is_err())
            {
                // What the words take is part of what the window needs.
                let needs_rows = refused.needs_rows + i64::from(self.size.1) - refused.rows;
                refusal = refusal.or(Some(Refusal { needs_rows, ..refused.clone() }));
                continue;
            }
            let same = |one: &Plate, other: &Plate| match (&one.drawing, &other.drawing) {
                (Ok(one), Ok(other)) => (one.extent, one.view) == (other.extent, other.view),
                _ => false,
            };
            let as_good = best.as_ref().is_none_or(|best| {
                best.plates
                    .iter()
                    .zip(&plates)
                    .all(|(one, other)| same(one, other) && one.area.x == other.area.x)
            });
            if as_good {
                let said = words::words(screen, layout, shows, pages, text);
                best = Some(Page { plates, text, said, scale: layout.scale(), pages });
            }
        }
        best.ok_or_else(|| refusal.expect("a picture was refused"))
    }

    /// Rows for the words. What is told takes the rows of the question, so that the picture stays where it is.
    fn height(&self, screen: &ProjectScreen, layout: Layout, shows: Shows, pages: usize) -> u16 {
        let room = Rect { x: 1, y: 0, width: self.size.0.saturating_sub(2), height: u16::MAX };
        let said = words::asked_words(screen, layout, shows, pages, room);
        let rows = u16::try_from(said.lines.len()).unwrap_or(u16::MAX);
        let figures = if said.figures.is_some() { layout.scale().rows() } else { 0 };
        let bar = u16::from(said.bar.is_some());
        let beside = layout == Layout::Closest && bar > 0;
        if shows.pictures == Pictures::None || screen.sights().is_empty() {
            return self.size.1;
        }
        let rows = if beside { (rows + bar).max(figures).max(3) } else { rows.max(figures).max(3) + bar };
        rows + layout.gap()
    }

    fn project_plates(&self, screen: &ProjectScreen, shown: &[(usize, &Sight)], text: u16) -> Vec<Plate> {
        let (cols, rows) = (self.size.0, self.size.1.saturating_sub(text));
        let whole = Rect { x: 0, y: 0, width: cols, height: rows };
        let named = screen.sights().len() == 2;
        let areas: Vec<Vec<Rect>> = match shown.len() {
            0 => return Vec::new(),
            1 if named => vec![vec![Rect { y: 1, height: rows.saturating_sub(1), ..whole }]],
            1 => vec![vec![whole]],
            _ => {
                let half =
                    Rect { y: 1, height: rows.saturating_sub(1), width: cols.saturating_sub(2) / 2, ..whole };
                let upper = Rect { y: 1, height: (rows / 2).saturating_sub(1), ..whole };
                let lower = Rect { y: rows / 2 + 1, ..upper };
                vec![vec![half, Rect { x: cols - half.width, ..half }], vec![upper, lower]]
            }
        };
        let mut last = Vec::new();
        for layout in areas {
            let plate = |(area, (place, sight)): (Rect, &(usize, &Sight))| Plate {
                place: *place,
                area,
                drawing: self.project_drawing(screen, sight, (area.width, area.height)),
            };
            last = layout.into_iter().zip(shown).map(plate).collect();
            if last.iter().all(|plate| plate.drawing.is_ok()) {
                break;
            }
        }
        last
    }

    /// A picture in the chosen lines and view; where that has no room, in the other view, then with a position a cell.
    fn project_drawing(
        &self,
        screen: &ProjectScreen,
        sight: &Sight,
        (cols, rows): (u16, u16),
    ) -> Result<Drawing, Refusal> {
        let other = if self.view == View::Held { View::Flat } else { View::Held };
        let fine = matches!(self.lines, LineStyle::Thin | LineStyle::Bars);
        let styles = std::iter::once(self.lines).chain(fine.then_some(LineStyle::Cell));
        let told = screen.told(sight);
        let mut refusal = None;
        for (style, view) in styles.flat_map(|style| [(style, self.view), (style, other)]) {
            let built = |view| {
                scene::build(&sight.tool, &sight.pose, &sight.variant, view).tagged(sight.tags.clone())
            };
            let mut scene = built(view);
            let mut request = Request::new(i64::from(cols), i64::from(rows), style);
            request.small_cells = self.small_cells;
            request.marks = if self.theme == Theme::Mono { Marks::Shown } else { Marks::Hidden };
            request.lit = lit(&told, &scene);
            if screen.run.glass() == Allowed::No {
                request.glass = Glass::Forbidden;
            }
            let mut drawn = render::draw(&scene, &request);
            if drawn.as_ref().is_ok_and(|drawing| drawing.view != view) {
                // Laid flat in place of the view in the hand: nobody in the room chose that view, so it needs no word.
                scene = built(View::Flat);
                request.lit = lit(&told, &scene);
                drawn = render::draw(&scene, &request);
            }
            match drawn {
                Ok(drawing) if drawing.extent == Extent::Slide => {
                    if let Some(line) = screen.glass_line(sight) {
                        request.glass = Glass::At(line);
                        request.glass_dots = screen.glass.and_then(|glass| glass.dots);
                    }
                    return render::draw(&scene, &request);
                }
                Ok(drawing) => return Ok(drawing),
                Err(refused) => refusal = refusal.or(Some(refused)),
            }
        }
        Err(refusal.expect("one way was tried at least"))
    }
}

/// The cells beside the figures.
fn beside(width: u16, figures: Option<&str>, scale: Scale) -> u16 {
    let taken = figures.map_or(0, |figures| big_width(figures, scale) + 2);
    width.saturating_sub(taken)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_glass_comes_past_every_line_in_time_and_its_way_knows_no_reading() {
        for (lines, whole) in [(0..=25, 20), (0..=50, 20), (0..=50, 60), (-12..=12, 20), (0..=10, 5)] {
            let time = Duration::from_secs(whole);
            let way: Vec<i64> =
                (0..whole).map(|n| on_its_way(&lines, Duration::from_secs(n), time)).collect();
            assert_eq!(way[0], 0, "it begins at the vernier's 0");
            assert!(way.contains(lines.end()) && way.contains(lines.start()), "{lines:?}: {way:?}");
            assert!(way.iter().all(|line| lines.contains(line)));
            let far = way.windows(2).filter(|two| two[1] != 0 && (two[1] - two[0]).abs() > 5).count();
            assert!(far <= 1, "it moves on and does not jump: {way:?}");
        }
    }
}

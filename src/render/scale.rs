//! How large a pair of scales is drawn: whole dots per quantum where it is read, fractions only in an overview.

use super::glyphs::{DOTS, LineStyle};
use crate::exact::Quanta;
use crate::scene::{Item, Track};

/// Dots per quantum of an overview, as a fraction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Scale {
    dots: i64,
    quanta: i64,
    grain: i64,
}

impl Scale {
    /// The dots of a length: exact for whole dots per quantum, else rounded half up.
    pub(super) fn dots(self, length: Quanta) -> i64 {
        let per = self.quanta * self.grain;
        (2 * length.0 * self.dots + per).div_euclid(2 * per) * self.grain
    }
}

/// The largest scale used: one cell per quantum. Beyond it nothing is read more easily.
const LARGEST: i64 = DOTS;

/// A pair of tracks read against each other, as the planner sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    /// The wider pitch of the two, in quanta: the scale under the vernier.
    under: i64,
    /// The pitch of the vernier.
    part: i64,
    /// How far the vernier reaches back from its zero, the way the scale grows.
    before: i64,
    /// How far it reaches on from it.
    after: i64,
    /// The greatest distance between figures of the scale under the vernier.
    figures: i64,
    /// The least dots per quantum for cells this small.
    least: i64,
    /// The least dots per quantum at which small figures do not run together.
    figures_apart: i64,
}

impl Pair {
    /// A vernier over a scale.
    pub(super) fn new(under: &Track, vernier: &Track, small_cells: bool) -> Self {
        let pitch = |track: &Track| track.pitch.map_or(1, |pitch| pitch.0);
        let figures = under.widest_gap().map_or(1, |gap| gap.0);
        Self {
            under: pitch(under),
            part: pitch(vernier),
            before: 0,
            after: vernier.items.last().map_or(0, |item| item.at().0),
            figures,
            least: if small_cells { 4 } else { 1 },
            figures_apart: figures_apart(under).max(figures_apart(vernier)),
        }
    }

    /// The same for a vernier that reaches to either side of its zero, or back from it.
    pub(super) fn reaching_back(self, under: &Track, vernier: &Track) -> Self {
        let along = |item: &Item| item.at().0 * vernier.sense * under.sense;
        let ends = [vernier.items.first(), vernier.items.last()].map(|item| item.map_or(0, along));
        let [first, last] = [ends[0].min(ends[1]), ends[0].max(ends[1])];
        Self { before: (-first).max(0), after: last.max(0), ..self }
    }

    /// The dots from the vernier's zero to its last line.
    pub(super) fn reach(self, dots: i64) -> i64 {
        self.after * dots
    }

    fn least_pitch(self) -> i64 {
        self.under.min(self.part)
    }

    /// The room before the vernier's zero so that all of it and the graduation last passed is in view.
    pub(super) fn run_up(self, dots: i64) -> i64 {
        (self.before + self.under - 1) * dots
    }

    /// The dots from the start of the run-up to the vernier's last line.
    pub(super) fn span(self, dots: i64) -> i64 {
        self.run_up(dots) + self.after * dots
    }

    /// Dots that the whole vernier needs.
    fn whole_dots(self, dots: i64, style: LineStyle) -> i64 {
        self.span(dots) + style.line_width()
    }

    /// Cells that the whole vernier needs at its least faithful scale.
    pub(super) fn whole_cells(self, style: LineStyle) -> i64 {
        let dots = self.least_dots(style);
        (self.whole_dots(dots, style).max(self.figured_dots(dots)) + DOTS - 1) / DOTS
    }

    /// Dots at which a figure of the scale is sure to be in view.
    pub(super) fn figured_dots(self, dots: i64) -> i64 {
        self.figures * dots + 3 * DOTS
    }

    /// The fewest dots per quantum at which no two lines share a cell.
    pub(super) fn least_dots(self, style: LineStyle) -> i64 {
        let apart = (style.least_pitch() + self.least_pitch() - 1) / self.least_pitch();
        let grain = style.grain();
        let dots = apart.max(self.least).max(self.figures_apart);
        (dots + grain - 1) / grain * grain
    }

    pub(super) fn is_clear(self, dots: i64, style: LineStyle) -> bool {
        dots >= self.least_dots(style) && dots % style.grain() == 0
    }

    /// The largest whole number of dots per quantum at which the whole vernier fits, a figure of the scale always in view.
    pub(super) fn whole(self, cells: i64, style: LineStyle, wanted: Option<i64>) -> Option<i64> {
        let fits = |dots: i64| {
            self.is_clear(dots, style)
                && self.whole_dots(dots, style) <= cells * DOTS
                && self.figured_dots(dots) <= cells * DOTS
        };
        match wanted {
            Some(dots) => fits(dots).then_some(dots),
            None => (1..=LARGEST.max(self.least_dots(style))).rev().find(|dots| fits(*dots)),
        }
    }

    /// Quanta that a glass must show: at least three lines of each scale.
    fn glass_quanta(self) -> i64 {
        (2 * self.part + self.under).max(3 * self.under)
    }

    /// Cells that a glass needs at the least.
    pub(super) fn glass_cells(self, style: LineStyle) -> i64 {
        let dots = self.least_dots(style).max(2);
        (self.glass_quanta() * dots + style.line_width() + DOTS - 1) / DOTS
    }

    /// The dots per quantum in a glass over a picture of `base`: four where they fit and are more, else eight or two.
    pub(super) fn glass(self, cells: i64, style: LineStyle, wanted: Option<i64>, base: i64) -> Option<i64> {
        let fits = |dots: &i64| {
            self.is_clear(*dots, style) && self.glass_quanta() * dots + style.line_width() <= cells * DOTS
        };
        if let Some(dots) = wanted {
            Some(dots).filter(fits)
        } else {
            let larger = [4, 8, 2].into_iter().filter(|dots| *dots > base).find(fits);
            // Only where figures would run together at eight is more than that used.
            let apart = Some(self.least_dots(style)).filter(|dots| *dots > LARGEST);
            larger.or_else(|| [8, 4, 2].into_iter().chain(apart).find(fits))
        }
    }

    /// What stands in the middle of a glass, counted from the vernier's zero the way the scale grows: the line asked for, or at the vernier's ends as
    /// much further in as three lines of each scale need, on a scale that begins as much later as a zero error can
    /// put it: a quarter of a division, or five least counts.
    pub(super) fn glass_middle(self, line: Quanta, cells: i64, style: LineStyle, dots: i64) -> Quanta {
        let half = (cells / 2 * DOTS - style.line_width()) / dots;
        let pitch = self.under.max(self.part);
        let left = self.part.rem_euclid(self.under);
        let later = (pitch / 4).max(5 * left.min(self.under - left));
        // The line asked for stays in view.
        let inside = (2 * pitch + later - half).min(half);
        Quanta(line.0.max(inside - self.before).min(self.after - inside))
    }

    /// The largest scale at which everything is in view and no two lines share a cell.
    pub(super) fn overview(self, cells: i64, style: LineStyle) -> Option<Scale> {
        let least_pitch = style.for_overview().least_pitch();
        self.fitting(cells, style)
            .filter(|scale| self.least_pitch() * scale.dots >= least_pitch * scale.quanta)
    }

    /// The largest scale of an overview at which everything is in view, whether or not each line has a cell of its own.
    pub(super) fn fitting(self, cells: i64, style: LineStyle) -> Option<Scale> {
        let style = style.for_overview();
        let larger = (1..LARGEST).rev().map(|dots| (dots, 1));
        let smaller = (2..=self.least_pitch()).map(|quanta| (1, quanta));
        larger.chain(smaller).map(|(dots, quanta)| Scale { dots, quanta, grain: style.grain() }).find(
            |scale| {
                let all = scale.dots(Quanta(self.span(1))) + style.line_width() + style.grain();
                all <= cells * DOTS
            },
        )
    }
}

/// The least dots per quantum at which a free cell is left between the small figures of a scale.
pub(super) fn figures_apart(track: &Track) -> i64 {
    use crate::instrument::NumeralSize::Small;
    let width = track.items.iter().filter_map(|item| match item {
        Item::Graduation { figure: Some(figure), .. } if figure.size == Small => {
            i64::try_from(figure.number.to_string().len()).ok()
        }
        _ => None,
    });
    let needs = (width.max().unwrap_or(0) + 1) * DOTS;
    track.figure_spacing(Small).map_or(1, |spacing| (needs + spacing.0 - 1) / spacing.0)
}

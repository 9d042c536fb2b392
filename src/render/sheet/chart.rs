//! A wall chart: one instrument as large as the paper lets it be, its lines numbered in the order they are read.

use super::Head;
use super::blocks::{Slip, leading, text};
use super::magnified::{LEAST_MISS, Scaled};
use crate::exact::Exact;
use crate::render::Lit;
use crate::render::paper::{Leaf, MM, Mark, Paper, Weight, clean, cut, width, wrap};
use crate::render::vector::{self, Picture, UNIT};
use crate::scene::Scene;

/// A chart. It lies on its side.
#[derive(Clone, Debug)]
pub struct Chart {
    /// The paper.
    pub paper: Paper,
    /// What stands at the top and at the foot; nothing is written on it.
    pub head: Head,
    /// What can be seen of the instrument.
    pub scene: Scene,
    /// How long its quantum is in millimetres.
    pub quantum: Option<Exact>,
    /// What is read, in order.
    pub steps: Vec<Pointed>,
    /// The sum.
    pub sum: Vec<String>,
    /// What stands below: a heading and its sentences.
    pub notes: Vec<(String, Vec<String>)>,
}

/// A step of a reading and the lines it is read from.
#[derive(Clone, Debug)]
pub struct Pointed {
    /// Its lines; the first one is numbered.
    pub lit: Vec<Lit>,
    /// What is looked at.
    pub words: String,
    /// What it is worth.
    pub worth: String,
}

const MARGIN: i64 = 12 * MM;
const TITLE: i64 = 9 * MM;
const SIZE: i64 = 4_600;
const SMALL: i64 = 3_200;
/// Sizes of steps and of notes that are tried until all has room.
const SIZES: [(i64, i64); 4] = [(6_800, 4_600), (6_000, 4_000), (5_200, 3_600), (SIZE, SMALL)];
/// What stays free at the foot.
const FOOT: i64 = 14 * MM;
/// The side of a numbered box.
const BOX: i64 = 6 * MM;
/// Micrometres of a unit at the most.
const LARGEST: i64 = 170;
/// How tall the pictures may be.
const TALLEST: i64 = 105 * MM;

/// The page.
pub fn chart(chart: &Chart) -> Leaf {
    let (height, width) = chart.paper.size();
    let room = width - 2 * MARGIN;
    let mut slip = Slip::default();
    slip.rows(0, TITLE, Weight::Bold, vec![cut(&clean(&chart.head.title), TITLE, Weight::Bold, room)]);
    for line in &chart.head.under {
        slip.words(0, SMALL, Weight::Regular, line, room);
    }
    slip.gap(BOX + 4 * MM);

    let lit: Vec<Lit> = chart.steps.iter().flat_map(|step| step.lit.iter().cloned()).collect();
    let picture = vector::draw_wide(&chart.scene, &lit);
    let by_height = TALLEST * UNIT / picture.height.max(1);
    let scaled = Scaled::at_most(picture, room - 2 * (BOX + 4 * MM), LARGEST.min(by_height));
    let left = (room - scaled.width()) / 2;
    let numbered = |step: &Pointed| {
        step.lit.first().map(|lit| vector::draw_wide(&chart.scene, std::slice::from_ref(lit)))
    };
    let places: Vec<Option<Picture>> = chart.steps.iter().map(numbered).collect();
    badges(&mut slip, left, &scaled, &places);
    let mut magnified = scaled.magnified(chart.scene.kind, chart.quantum);
    let too_fine = scaled.miss() > 0 && scaled.miss() < LEAST_MISS;
    slip.picture(left, scaled);
    slip.gap(BOX + 4 * MM);
    if too_fine && let Some(glass) = glass(chart, &lit, room) {
        magnified.miss = Some(glass.miss());
        slip.gap(MM);
        slip.picture(0, glass);
        slip.gap(3 * MM);
    }
    slip.words(0, SMALL * 4 / 5, Weight::Regular, &(chart.head.note)(&magnified), room);
    slip.gap(2 * MM);
    let tall = height - 2 * MARGIN - FOOT - slip.height;
    let written = SIZES.map(|sizes| below(chart, room, sizes));
    let last = written.len() - 1;
    let fits = |(n, (below, whole)): &(usize, (Slip, bool))| *whole && below.height <= tall || *n == last;
    let fitting = written.into_iter().enumerate().find(fits);
    for mark in fitting.map(|(_, (below, _))| below.marks).unwrap_or_default() {
        slip.marks.push(mark.moved(0, slip.height));
    }

    let mut marks: Vec<Mark> = slip.marks.into_iter().map(|mark| mark.moved(MARGIN, MARGIN)).collect();
    if let Some(bar) = &chart.head.bar {
        let foot = height - 8 * MM;
        marks.push(Mark::Line { from: (MARGIN, foot), to: (MARGIN + super::pages::BAR, foot), width: 300 });
        for end in [MARGIN, MARGIN + super::pages::BAR] {
            marks.push(Mark::Line { from: (end, foot - 1500), to: (end, foot + 1500), width: 200 });
        }
        let words = cut(&clean(bar), SMALL * 4 / 5, Weight::Regular, super::pages::BAR);
        marks.push(text(MARGIN + 2 * MM, foot - MM, SMALL * 4 / 5, Weight::Regular, words));
    }
    Leaf { width, height, marks }
}

/// The length of the vernier on which the line that is read lies.
fn glass(chart: &Chart, lit: &[Lit], room: i64) -> Option<Scaled> {
    (2..=8).find_map(|lengths| {
        let all = vector::glass(&chart.scene, lengths, lit)?;
        let mut shown = all.into_iter().map(|picture| Scaled::at_most(picture, room, LARGEST));
        let of_vernier = lit.iter().filter(|lit| lit.track == 1).count();
        let found = shown.find(|one| {
            of_vernier > 0 && one.picture.lines.iter().any(|line| line.lit && line.to.1 > line.from.1)
        })?;
        (found.miss() >= LEAST_MISS).then_some(found)
    })
}

/// Boxes with numbers outside the picture, each in line with the line that it numbers.
fn badges(slip: &mut Slip, left: i64, scaled: &Scaled, places: &[Option<Picture>]) {
    let (top, bottom) = (slip.height, slip.height + scaled.height());
    // A grip that was cut off leaves the picture narrower than it was drawn.
    let end = scaled.picture.plates.iter().map(|(area, _)| area.right).max().unwrap_or(scaled.picture.width);
    let begin = scaled.picture.plates.iter().map(|(area, _)| area.left).min().unwrap_or(0);
    let (gap, right) = (2 * MM, left + end * scaled.scale / UNIT);
    let left_side = left + begin * scaled.scale / UNIT;
    let on_page = |(x, y): (i64, i64)| (left + x * scaled.scale / UNIT, top + y * scaled.scale / UNIT);
    let mut taken: Vec<(i64, i64)> = Vec::new();
    for (number, picture) in (1..).zip(places) {
        let line = picture.as_ref().and_then(|picture| picture.lines.iter().find(|line| line.lit));
        let Some(line) = line else { continue };
        let (from, to) = (on_page(line.from), on_page(line.to));
        let level = line.from.1 == line.to.1;
        let middle = left_side.midpoint(right);
        // The middle of the box, and where the line that leads to it touches the picture.
        let (mut centre, touch) = match (level, to.1 < from.1) {
            (true, _) if from.0.midpoint(to.0) < middle => {
                ((left_side - gap - BOX / 2, from.1), (left_side, from.1))
            }
            (true, _) => ((right + gap + BOX / 2, from.1), (right, from.1)),
            (false, true) => ((from.0, top - gap - BOX / 2), (from.0, top)),
            (false, false) => ((from.0, bottom + gap + BOX / 2), (from.0, bottom)),
        };
        let apart = |one: (i64, i64), other: &(i64, i64)| {
            (one.0 - other.0).abs() < BOX + MM && (one.1 - other.1).abs() < BOX + MM
        };
        while taken.iter().any(|other| apart(centre, other)) {
            if level {
                centre.1 += MM;
            } else {
                centre.0 += MM;
            }
        }
        taken.push(centre);
        let near = if level {
            (if touch.0 == left_side { centre.0 + BOX / 2 } else { centre.0 - BOX / 2 }, centre.1)
        } else {
            (centre.0, if touch.1 == top { centre.1 + BOX / 2 } else { centre.1 - BOX / 2 })
        };
        slip.marks.push(Mark::Line { from: near, to: touch, width: 250 });
        boxed(&mut slip.marks, (centre.0 - BOX / 2, centre.1 - BOX / 2), (BOX, SIZE), number);
    }
}

fn boxed(marks: &mut Vec<Mark>, corner: (i64, i64), (square, size): (i64, i64), number: usize) {
    let words = number.to_string();
    let wide = width(&words, size, Weight::Bold);
    marks.push(Mark::Frame { corner, size: (square, square), width: 350 });
    let (left, baseline) = (corner.0 + (square - wide) / 2, corner.1 + square / 2 + size * 3 / 8);
    marks.push(text(left, baseline, size, Weight::Bold, words));
}

/// The steps on the left, what else is to be known on the right.
fn below(chart: &Chart, room: i64, (size, small): (i64, i64)) -> (Slip, bool) {
    let mut whole = true;
    let half = room * 11 / 20;
    let mut slip = Slip::default();
    let square = size * 13 / 10;
    for (number, step) in (1..).zip(&chart.steps) {
        let corner = (0, slip.height);
        boxed(&mut slip.marks, corner, (square, size), number);
        let worth = clean(&step.worth);
        let value = width(&worth, size, Weight::Bold);
        let words = clean(&step.words);
        let shown = cut(&words, size, Weight::Regular, half - value - 3 * square);
        whole &= shown == words;
        let baseline = slip.height + square / 2 + size * 3 / 8;
        slip.marks.push(text(square + 3 * MM, baseline, size, Weight::Regular, shown));
        slip.marks.push(text(half - 8 * MM - value, baseline, size, Weight::Bold, worth));
        slip.gap(square + 1500);
    }
    slip.gap(MM);
    for line in &chart.sum {
        slip.rows(0, size, Weight::Bold, wrap(&clean(line), size, Weight::Bold, half - 8 * MM, 3));
    }
    let left = slip.height;
    slip.height = 0;
    for (heading, sentences) in &chart.notes {
        slip.words(half, small, Weight::Bold, heading, room - half);
        for sentence in sentences {
            let from = slip.height;
            slip.words(half + 4 * MM, small, Weight::Regular, sentence, room - half - 4 * MM);
            let baseline = from + leading(small) - small * 2 / 5;
            slip.marks.push(text(half, baseline, small, Weight::Regular, "\u{2013}".to_owned()));
        }
        slip.gap(MM);
    }
    slip.height = slip.height.max(left);
    (slip, whole)
}

//! What can be seen, line by line, as one would look. A reading can be made from it; the reading itself is not in it.

mod dial;
mod vernier;

use crate::exact::Quanta;
use crate::instrument::{NumeralSize, Side};
use crate::scene::{Axis, Item, Kind, Scene, Track, TrackForm, View, stands};

/// One thing that can be seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seen {
    /// What lies there.
    Tool {
        /// How its scales go together.
        kind: Kind,
        /// How it is looked at.
        view: View,
        /// Where the figures of its first scale grow to.
        grows: Way,
    },
    /// One of two pairs of scales on one beam.
    OnBeam {
        /// The edge of the beam along which it lies.
        edge: Side,
        /// Which of the two it is, seen from the one that is read.
        whose: Whose,
        /// What can be seen of it.
        seen: Vec<Seen>,
    },
    /// What is engraved on it.
    Engraved(Vec<String>),
    /// What is written on its tags.
    Tags(Vec<String>),
    /// A scale's 0 is not reached.
    NotReached {
        /// The stage of the scale.
        stage: usize,
        /// What it is read against.
        against: Against,
    },
    /// The last figure reached.
    Figure {
        /// The stage of the scale.
        stage: usize,
        /// What it is read against.
        against: Against,
        /// Large or small, on a scale that has both.
        size: Option<NumeralSize>,
        /// The figure; none where no small one is reached after the large one.
        number: Option<i64>,
        /// How often this figure has been reached, on a scale that uses it again.
        times: usize,
    },
    /// The figures of a dial before and after what it is read against.
    Between {
        /// The stage of the dial.
        stage: usize,
        /// What it is read against.
        against: Against,
        /// The figures run with the hands of a clock.
        clockwise: bool,
        /// The figure last reached.
        last: i64,
        /// The one after it.
        next: i64,
    },
    /// The lines reached after the last figure.
    Lines {
        /// The stage of the scale.
        stage: usize,
        /// What it is read against.
        against: Against,
        /// The side of the datum line, on a sleeve with lines on both.
        side: Option<Side>,
        /// How many.
        count: usize,
        /// How many of them are longer than the shortest of the scale.
        longer: usize,
    },
    /// Where the index stands between the line last reached and the next.
    Stands {
        /// The stage of the scale.
        stage: usize,
        /// The index.
        against: Against,
        /// Where.
        standing: Standing,
    },
    /// A vernier line and the nearest line of the other scale.
    VernierLine {
        /// The stage of the vernier.
        stage: usize,
        /// The stage of the other scale.
        other: usize,
        /// The half of a double vernier that it is on; none at its 0.
        half: Option<Way>,
        /// The line's number, from the vernier's 0.
        line: usize,
        /// Its figure.
        figure: Option<i64>,
        /// Where the nearest line of the other scale is.
        meets: Meets,
    },
}

/// One of the two pairs of scales on one beam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// The pair that is read.
    Read,
    /// The other one.
    Other,
}

/// What a scale is read against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// The end of the work.
    WorkEnd,
    /// The vernier's 0.
    VernierZero,
    /// The edge of the thimble.
    ThimbleEdge,
    /// The edge of a thimble that covers: the lines that count still show, from the edge to the left.
    CoveringEdge,
    /// The edge of a caliper's jaw.
    JawEdge,
    /// The small hand of a counter.
    SmallHand,
    /// The hand of a dial.
    Hand,
    /// The index line of a collar.
    IndexLine,
    /// The datum line; the lines reached are on this side of it.
    DatumLine(Way),
}

/// A direction in the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Left.
    Left,
    /// Right.
    Right,
    /// Up.
    Above,
    /// Down.
    Below,
}

/// Where an index stands, as the eye estimates it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// In line with the line last reached.
    InLine,
    /// Just past it.
    JustPast,
    /// About a quarter of the way to the next.
    Quarter,
    /// About a third.
    Third,
    /// A little less than half way.
    UnderHalf,
    /// Half way.
    Half,
    /// A little more than half way.
    OverHalf,
    /// About two thirds.
    TwoThirds,
    /// About three quarters of the way.
    ThreeQuarters,
    /// Nearly at the next.
    NearlyNext,
}

/// How a vernier line meets the other scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meets {
    /// A line of the other scale is in line with it.
    InLine,
    /// It is half way between two lines of the other scale.
    HalfWay,
    /// The nearest line is beside it.
    Beside {
        /// On which side.
        way: Way,
        /// How far.
        by: Miss,
    },
}

/// How far two lines miss one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Miss {
    /// No more than the neighbours of two lines in line do.
    Hair,
    /// More.
    Plain,
}

/// What can be seen of a scene, coarse to fine.
pub fn describe(scene: &Scene) -> Vec<Seen> {
    scene.beside.as_ref().map_or_else(|| pair(scene), |beside| vernier::on_beam(scene, beside))
}

fn pair(scene: &Scene) -> Vec<Seen> {
    let covering = scene.kind == Kind::Sleeve && scene.tracks[0].sense < 0;
    let (lower, upper) = ways(scene.tracks[0].axis);
    let grows = if scene.tracks[0].sense < 0 { lower } else { upper };
    let mut seen = vec![Seen::Tool { kind: scene.kind, view: scene.view, grows }];
    if !scene.engraved.is_empty() {
        seen.push(Seen::Engraved(scene.engraved.clone()));
    }
    if !scene.tags.is_empty() {
        seen.push(Seen::Tags(scene.tags.clone()));
    }
    let line = &scene.tracks[0];
    let against = match scene.kind {
        Kind::Rule if scene.tracks[0].axis == Axis::Round => Against::IndexLine,
        Kind::Rule => Against::WorkEnd,
        Kind::Pair => Against::VernierZero,
        Kind::Sleeve => Against::ThimbleEdge,
        Kind::Dial if scene.tracks.len() > 3 => Against::SmallHand,
        Kind::Dial => Against::JawEdge,
    };
    let index = (stands(scene) - line.origin) * line.sense;
    if covering {
        still_showing(&mut seen, line, index);
    } else if scene.kind != Kind::Dial || !scene.edges.is_empty() {
        straight(&mut seen, line, against, index);
    }
    match scene.kind {
        Kind::Rule => {}
        Kind::Dial => dial::dial(&mut seen, &scene.tracks[scene.edges.len()]),
        Kind::Pair => vernier::lines(&mut seen, &scene.tracks[1], line),
        Kind::Sleeve => {
            let thimble = &scene.tracks[1];
            turned(&mut seen, thimble);
            if let Some(track) = scene.tracks.get(2).filter(|track| track.form == TrackForm::Vernier) {
                vernier::lines(&mut seen, track, thimble);
            }
        }
    }
    seen
}

/// The lower and the upper side along an axis.
fn ways(axis: Axis) -> (Way, Way) {
    match axis {
        Axis::Across | Axis::Round => (Way::Left, Way::Right),
        Axis::Up => (Way::Below, Way::Above),
    }
}

/// A graduation, as it is looked at.
struct Line {
    at: Quanta,
    tier: usize,
    side: Option<Side>,
    figure: Option<(i64, NumeralSize)>,
}

fn graduations(track: &Track, from: Quanta) -> impl Iterator<Item = Line> {
    track.items.iter().filter_map(move |item| match item {
        Item::Graduation { at, tier, side, figure } => Some(Line {
            at: *at + from,
            tier: *tier,
            side: *side,
            figure: figure.map(|figure| (figure.number, figure.size)),
        }),
        Item::Index { .. } => None,
    })
}

/// A straight scale up to its index.
fn straight(seen: &mut Vec<Seen>, track: &Track, against: Against, index: Quanta) {
    let Some(stage) = track.stage else { return };
    let reached: Vec<Line> = graduations(track, Quanta::ZERO).filter(|line| line.at <= index).collect();
    // What lies on the far side of nought is not passed.
    let reached: Vec<Line> = reached.into_iter().filter(|line| line.at >= Quanta::ZERO).collect();
    if reached.is_empty() {
        seen.push(Seen::NotReached { stage, against });
        return;
    }
    counted(seen, track, against, &reached);
    standing(seen, track, against, reached[reached.len() - 1].at, index);
}

/// A sleeve that is covered as the reading grows: what still shows, from the edge on.
fn still_showing(seen: &mut Vec<Seen>, track: &Track, index: Quanta) {
    let (Some(stage), Some(pitch)) = (track.stage, track.pitch) else { return };
    let against = Against::CoveringEdge;
    let mut showing: Vec<Line> = graduations(track, Quanta::ZERO).filter(|line| line.at > index).collect();
    let Some(first) = showing.first().map(|line| line.at) else {
        seen.push(Seen::NotReached { stage, against });
        return;
    };
    let figured = showing.iter().position(|line| line.figure.is_some());
    let figure = figured.and_then(|n| showing[n].figure.map(|(number, _)| (showing[n].at, number)));
    let times = figure.map_or(0, |(at, number)| {
        let same = |line: &Line| line.at <= at && line.figure.is_some_and(|(other, _)| other == number);
        graduations(track, Quanta::ZERO).filter(same).count()
    });
    let number = figure.map(|(_, number)| number);
    seen.push(Seen::Figure { stage, against, size: None, number, times });
    showing.truncate(figured.unwrap_or(showing.len()));
    lines_after(seen, track, against, &showing);
    standing(seen, track, against, first - pitch, index);
}

/// A thimble up to the datum line.
fn turned(seen: &mut Vec<Seen>, track: &Track) {
    let (Some(stage), Some(period)) = (track.stage, track.period) else { return };
    let (lower, upper) = ways(track.axis);
    let against = Against::DatumLine(if track.sense < 0 { upper } else { lower });
    let index = (-track.origin * track.sense).left_of(period);
    let reached: Vec<Line> = graduations(track, -period)
        .chain(graduations(track, Quanta::ZERO))
        .filter(|line| line.at <= index)
        .collect();
    let number = reached.iter().rev().find_map(|line| line.figure).map(|(number, _)| number);
    seen.push(Seen::Figure { stage, against, size: None, number, times: 1 });
    lines_after(seen, track, against, &reached);
    if let Some(last) = reached.last() {
        standing(seen, track, against, last.at, index);
    }
}

/// The figures and lines reached on a straight scale.
fn counted(seen: &mut Vec<Seen>, track: &Track, against: Against, reached: &[Line]) {
    let Some(stage) = track.stage else { return };
    let last_of = |wanted: NumeralSize| {
        reached.iter().enumerate().rev().find_map(|(n, line)| match line.figure {
            Some((number, size)) if size == wanted => Some((n, number)),
            _ => None,
        })
    };
    let both = [NumeralSize::Large, NumeralSize::Small].iter().all(|wanted| {
        graduations(track, Quanta::ZERO).any(|l| l.figure.is_some_and(|(_, size)| size == *wanted))
    });
    let (large, small) = (last_of(NumeralSize::Large), last_of(NumeralSize::Small));
    if both {
        if let Some((_, number)) = large {
            let size = Some(NumeralSize::Large);
            seen.push(Seen::Figure { stage, against, size, number: Some(number), times: 1 });
        }
        let number = small.filter(|(n, _)| large.is_none_or(|(at, _)| at < *n)).map(|(_, number)| number);
        seen.push(Seen::Figure { stage, against, size: Some(NumeralSize::Small), number, times: 1 });
    } else {
        let number = large.or(small).map(|(_, number)| number);
        let times = reached.iter().filter(|line| line.figure.map(|(figure, _)| figure) == number).count();
        seen.push(Seen::Figure { stage, against, size: None, number, times });
    }
    lines_after(seen, track, against, reached);
}

fn lines_after(seen: &mut Vec<Seen>, track: &Track, against: Against, reached: &[Line]) {
    let Some(stage) = track.stage else { return };
    let after = reached.iter().rposition(|line| line.figure.is_some()).map_or(0, |n| n + 1);
    let both = [Side::Above, Side::Below]
        .iter()
        .all(|side| graduations(track, Quanta::ZERO).any(|l| l.side == Some(*side)));
    let sides = if both { vec![Some(Side::Above), Some(Side::Below)] } else { vec![None] };
    for side in sides {
        let lines = reached[after..].iter().filter(|line| side.is_none() || line.side == side);
        let (mut count, mut longer) = (0, 0);
        for line in lines {
            count += 1;
            longer += usize::from(line.tier + 1 < track.lengths);
        }
        seen.push(Seen::Lines { stage, against, side, count, longer });
    }
}

/// Where the index stands past the line at `last`.
fn standing(seen: &mut Vec<Seen>, track: &Track, against: Against, last: Quanta, index: Quanta) {
    let (Some(stage), Some(pitch)) = (track.stage, track.pitch) else { return };
    // In 24ths of a division: each tenth of it has words of its own.
    let beyond = (index - last).0 * 24;
    let standing = match beyond {
        0 => Standing::InLine,
        n if n < 3 * pitch.0 => Standing::JustPast,
        n if n < 7 * pitch.0 => Standing::Quarter,
        n if n < 9 * pitch.0 => Standing::Third,
        n if n < 12 * pitch.0 => Standing::UnderHalf,
        n if n == 12 * pitch.0 => Standing::Half,
        n if n <= 15 * pitch.0 => Standing::OverHalf,
        n if n <= 17 * pitch.0 => Standing::TwoThirds,
        n if n < 21 * pitch.0 => Standing::ThreeQuarters,
        _ => Standing::NearlyNext,
    };
    seen.push(Seen::Stands { stage, against, standing });
}

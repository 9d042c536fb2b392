//! The parts of a display list.

use crate::exact::{Quanta, Unit};
use crate::instrument::{NumeralSize, Side};

/// Everything that can be seen on an instrument at one setting.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scene {
    /// How the tracks go together.
    pub kind: Kind,
    /// Which way it is looked at.
    pub view: View,
    /// The unit of its scales.
    pub unit: Unit,
    /// The scales and indexes, coarse to fine.
    pub tracks: Vec<Track>,
    /// Where a moving member ends over a scale.
    pub edges: Vec<Edge>,
    /// What is hidden under a moving member.
    pub covers: Vec<Cover>,
    /// The texts engraved on the tool.
    pub engraved: Vec<String>,
    /// How many of them, from the first on, say which length is fitted: the reading cannot do without.
    pub stamped: usize,
    /// What is written on tags that hang on the tool: the reading cannot do without.
    pub tags: Vec<String>,
    /// The other scales of the same jaw, in quanta of their own.
    pub beside: Option<Box<Beside>>,
}

/// The other pair of scales of a tool that has two on one jaw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beside {
    /// The side of the first pair on which it lies.
    pub lies: Side,
    /// The pair.
    pub scene: Scene,
    /// How long its quantum is in quanta of the first pair, as a fraction.
    pub ratio: (i64, i64),
}

/// How the tracks of a scene go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One scale against the end of the work: track 0 the rule, 1 the work's end.
    Rule,
    /// Two scales meeting at a level edge: track 0 the main scale, 1 the vernier.
    Pair,
    /// A sleeve, a thimble and what the thimble is read against: track 0 the sleeve, 1 the thimble, 2 the datum line or the
    /// vernier whose 0 is the datum line.
    Sleeve,
    /// A round scale and its hand, or a collar and its index line. Where turns are counted: track 0 the bar or the counter,
    /// 1 the dial, 2 the hand, and 3 the counter's small hand. Else: track 0 the dial, 1 the hand.
    Dial,
}

/// The two ways of looking at an instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum View {
    /// As the tool looks when it is read.
    Held,
    /// Its scales unwrapped into straight lines.
    Flat,
}

impl View {
    /// The word used in options and records.
    pub fn word(self) -> &'static str {
        match self {
            Self::Held => "held",
            Self::Flat => "flat",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Held, Self::Flat].into_iter().find(|view| view.word() == word)
    }
}

/// The two plates of different grey.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Plate {
    /// The member that stands still.
    Fixed,
    /// The member that moves.
    Moving,
}

/// The direction in which a track runs on the tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// From left to right.
    Across,
    /// From bottom to top.
    Up,
    /// Round a circle.
    Round,
}

/// What a track is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrackForm {
    /// A straight scale.
    Line,
    /// A scale round a drum.
    Drum,
    /// A scale round a face.
    Dial,
    /// A vernier.
    Vernier,
    /// A single line to read against: a datum line, the end of the work.
    Index,
}

/// One scale or index.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Track {
    /// Its name in the instrument: `sleeve`, `thimble`, `vernier`, `datum`, `work`.
    pub id: String,
    /// The stage it draws; none for an index.
    pub stage: Option<usize>,
    /// Which plate it is on.
    pub plate: Plate,
    /// What it is.
    pub form: TrackForm,
    /// Which way it runs.
    pub axis: Axis,
    /// 1 when it grows along its axis, -1 when it grows against it.
    pub sense: i64,
    /// Where its zero stands, in instrument quanta.
    pub origin: Quanta,
    /// After how much it repeats, for a drum or a dial.
    pub period: Option<Quanta>,
    /// The distance between neighbouring graduations; none for an index.
    pub pitch: Option<Quanta>,
    /// How many lengths its graduations have.
    pub lengths: usize,
    /// What it carries, in range order.
    pub items: Vec<Item>,
}

/// One thing on a track, at a distance from the track's own zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Item {
    /// A graduation.
    Graduation {
        /// Where.
        at: Quanta,
        /// Its length class, 0 the longest.
        tier: usize,
        /// The side of the datum line, on a sleeve.
        side: Option<Side>,
        /// Its figure, if it has one.
        figure: Option<Figure>,
    },
    /// The line of an index.
    Index {
        /// Where.
        at: Quanta,
    },
}

/// A figure at a graduation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Figure {
    /// The number engraved.
    pub number: i64,
    /// Large or small.
    pub size: NumeralSize,
}

impl Scene {
    /// The same with tags on it.
    #[must_use]
    pub fn tagged(self, tags: Vec<String>) -> Self {
        Self { tags, ..self }
    }

    /// Whether a moving member hides the line at a position of a track.
    pub fn hides(&self, track: usize, at: Quanta) -> bool {
        self.covers.iter().any(|cover| cover.track == track && cover.from < at && at <= cover.to)
    }
}

impl Item {
    /// Where it is, from the track's zero.
    pub fn at(&self) -> Quanta {
        match self {
            Self::Graduation { at, .. } | Self::Index { at } => *at,
        }
    }
}

impl Track {
    /// The place of a position of this track, in instrument quanta along its axis.
    pub fn place(&self, at: Quanta) -> Quanta {
        self.origin + at * self.sense
    }

    /// The position of a line given by its distance from the track's zero, or by its number.
    pub fn line(&self, at: Quanta, by_number: bool) -> Option<Quanta> {
        if !by_number {
            return Some(at);
        }
        let zero = i64::try_from(self.items.iter().position(|item| item.at() == Quanta::ZERO)?).ok()?;
        usize::try_from(zero + at.0).ok().and_then(|number| self.items.get(number)).map(Item::at)
    }

    /// Figured both ways from its nought.
    pub fn is_both_ways(&self) -> bool {
        let figured =
            |item: &Item| matches!(item, Item::Graduation { at, figure: Some(_), .. } if *at < Quanta::ZERO);
        self.items.iter().any(figured)
    }

    /// The greatest distance between neighbouring figures: more than the usual one where some are worn.
    pub fn widest_gap(&self) -> Option<Quanta> {
        let figured = |item: &Item| match item {
            Item::Graduation { at, figure: Some(_), .. } => Some(*at),
            _ => None,
        };
        let at: Vec<Quanta> = self.items.iter().filter_map(figured).collect();
        let (first, last) = (at.first().copied()?, at.last().copied()?);
        let over_the_end = self.period.map(|period| first + period - last);
        at.windows(2).map(|pair| pair[1] - pair[0]).chain(over_the_end).max()
    }

    /// The distances between figures of a size, if it has such figures.
    pub fn figure_spacing(&self, size: NumeralSize) -> Option<Quanta> {
        let mut at = self.items.iter().filter_map(|item| match item {
            Item::Graduation { at, figure: Some(figure), .. } if figure.size == size => Some(*at),
            _ => None,
        });
        let (first, second) = (at.next()?, at.next()?);
        Some(second - first)
    }
}

/// Where a moving member ends over a scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// The track it ends over.
    pub track: usize,
    /// Where, from the track's zero.
    pub at: Quanta,
    /// How far it runs ahead of the fine scale.
    pub lead: Quanta,
}

/// What is hidden under a moving member.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cover {
    /// The track it hides part of.
    pub track: usize,
    /// First hidden position after this one, from the track's zero.
    pub from: Quanta,
    /// Last hidden position.
    pub to: Quanta,
}

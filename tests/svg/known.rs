//! What a robot knows of a tool before it looks: its kind, what a division and a figure are worth.

use linefall::instrument::{
    Course, Dial, Face, Figured, Form, Grows, Instrument, Line, Moves, NumeralSize, Numerals, Sense, Side,
    Sides, Turns, Variant, Vernier,
};
use linefall::scene::View;

/// A kind of tool, its sizes in quanta.
pub struct Known {
    pub kind: Kind,
    pub view: View,
    pub division: i64,
    /// What one on a large figure is worth, on a scale that has them.
    pub large: Option<i64>,
    /// What one on a small figure is worth.
    pub small: i64,
    /// After how many the small figures start again.
    pub wrap: Option<i64>,
    /// The side of the half lines, on a sleeve with lines on two sides.
    pub halves: Option<Side>,
    /// The last line of the scale.
    pub end: i64,
    /// The thimble covers the sleeve as the reading grows.
    pub covers: bool,
    pub thimble: Option<Thimble>,
    pub vernier: Option<Fine>,
    pub rim: Option<Rim>,
    /// The bar moves and the vernier stands still.
    pub bar_moves: bool,
    /// The way the figures of a pair of scales grow in the hand.
    pub course: Course,
    /// Figured both ways from its nought: after how many figures count back down.
    pub back: Option<i64>,
    /// What is added to what the scales show.
    pub added: i64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Rule,
    Pair,
    Sleeve,
    Dial,
    /// A disc figured both ways.
    Disc,
}

pub struct Thimble {
    pub division: i64,
    pub parts: i64,
    pub figure: i64,
}

/// A dial or a collar.
pub struct Rim {
    pub division: i64,
    pub parts: i64,
    /// What one on a figure is worth, and the distance of the figures.
    pub figure: i64,
    pub every: i64,
    pub balanced: bool,
    pub sense: i64,
    /// The division of what counts its turns.
    pub coarse: Option<i64>,
}

impl Rim {
    pub fn turn(&self) -> i64 {
        self.division * self.parts
    }

    fn of(instrument: &Instrument) -> Option<Self> {
        let mut coarse = None;
        for stage in &instrument.stages {
            match &stage.form {
                Form::Line(line) => coarse = Some(line.division.0),
                Form::Dial(Dial { division, parts, numerals, face, sense, turns, .. }) => {
                    assert_eq!(coarse.is_some(), *turns != Turns::Uncounted, "{}", instrument.id);
                    return Some(Self {
                        division: division.0,
                        parts: *parts,
                        figure: numerals[0].worth.0,
                        every: numerals[0].every.0,
                        balanced: *face == Face::Balanced,
                        sense: if *sense == Sense::Clockwise { 1 } else { -1 },
                        coarse,
                    });
                }
                _ => {}
            }
        }
        None
    }
}

pub struct Fine {
    pub parts: usize,
    pub least_count: i64,
}

impl Known {
    pub fn of(instrument: &Instrument, variant: &Variant, view: View) -> Self {
        let rim = Rim::of(instrument);
        let Some(line) = line(instrument) else {
            return Self {
                kind: Kind::Dial,
                view,
                division: 0,
                large: None,
                small: 0,
                wrap: None,
                halves: None,
                end: 0,
                covers: false,
                thimble: None,
                vernier: None,
                rim,
                bar_moves: false,
                course: Course::Rightward,
                back: None,
                added: 0,
            };
        };
        let rule = |size| line.numerals.iter().find(|rule| rule.size == size);
        let small: &Numerals = rule(NumeralSize::Small).expect("a scale has small figures");
        let mut known = Self {
            kind: if rim.is_some() { Kind::Dial } else { Kind::Rule },
            view,
            division: line.division.0,
            large: rule(NumeralSize::Large).map(|rule| rule.worth.0),
            small: small.worth.0,
            wrap: small.wrap,
            halves: matches!(line.sides, Sides::Split { .. }).then_some(variant.halves()).flatten(),
            end: line.end.0,
            covers: instrument.grows == Grows::Covering,
            thimble: None,
            vernier: None,
            rim,
            bar_moves: instrument.moves == Moves::MainScale,
            course: line.runs,
            back: small.back,
            added: 0,
        };
        for stage in &instrument.stages {
            match &stage.form {
                Form::Drum(drum) => {
                    known.kind = Kind::Sleeve;
                    let figure = drum.numerals[0].worth.0;
                    known.thimble = Some(Thimble { division: drum.division.0, parts: drum.parts, figure });
                }
                Form::Vernier(Vernier { parts, least_count, .. }) => {
                    if known.kind == Kind::Rule {
                        known.kind = Kind::Pair;
                    }
                    let parts = usize::try_from(*parts).expect("a vernier has parts");
                    known.vernier = Some(Fine { parts, least_count: least_count.0 });
                }
                Form::Fixed(length) => known.added += length.0,
                Form::Line(_) | Form::Dial(_) => {}
            }
        }
        if line.figured == Figured::BothWays {
            known.kind = Kind::Disc;
        }
        known
    }
}

/// The straight scale of an instrument; none on a dial alone.
fn line(instrument: &Instrument) -> Option<&Line> {
    instrument.stages.iter().find_map(|stage| match &stage.form {
        Form::Line(line) => Some(line),
        _ => None,
    })
}

/// The distance between neighbouring figures of the first scale; a dial alone is looked at all round.
pub fn numbered_interval(instrument: &Instrument) -> i64 {
    let Some(line) = line(instrument) else { return turn(instrument) };
    line.numerals.iter().map(|rule| rule.every.0).min().expect("a scale has figures")
}

/// One turn of the thimble or the hand.
pub fn turn(instrument: &Instrument) -> i64 {
    instrument
        .stages
        .iter()
        .find_map(|stage| match &stage.form {
            Form::Drum(drum) => Some(drum.division.0 * drum.parts),
            Form::Dial(dial) => Some(dial.division.0 * dial.parts),
            _ => None,
        })
        .expect("something turns")
}

//! What a robot knows of a tool before it looks: its kind, what a division and a figure are worth.

use linefall::instrument::{
    Course, Form, Grows, Instrument, Line, Moves, NumeralSize, Numerals, Side, Sides, Variant, Vernier,
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
    /// The bar moves and the vernier stands still.
    pub bar_moves: bool,
    /// The way the figures of a pair of scales grow in the hand.
    pub course: Course,
    /// What is added to what the scales show.
    pub added: i64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Rule,
    Pair,
    Sleeve,
}

pub struct Thimble {
    pub division: i64,
    pub parts: i64,
    pub figure: i64,
}

pub struct Fine {
    pub parts: usize,
    pub least_count: i64,
}

impl Known {
    pub fn of(instrument: &Instrument, variant: &Variant, view: View) -> Self {
        let line = line(instrument);
        let rule = |size| line.numerals.iter().find(|rule| rule.size == size);
        let small: &Numerals = rule(NumeralSize::Small).expect("a scale has small figures");
        let mut known = Self {
            kind: Kind::Rule,
            view,
            division: line.division.0,
            large: rule(NumeralSize::Large).map(|rule| rule.worth.0),
            small: small.worth.0,
            wrap: small.wrap,
            halves: matches!(line.sides, Sides::Split { .. }).then_some(variant.halves).flatten(),
            end: line.end.0,
            covers: instrument.grows == Grows::Covering,
            thimble: None,
            vernier: None,
            bar_moves: instrument.moves == Moves::MainScale,
            course: line.runs,
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
                Form::Line(_) => {}
            }
        }
        known
    }
}

fn line(instrument: &Instrument) -> &Line {
    let straight = instrument.stages.iter().find_map(|stage| match &stage.form {
        Form::Line(line) => Some(line),
        _ => None,
    });
    straight.expect("there is a straight scale")
}

/// The distance between neighbouring figures of the first scale.
pub fn numbered_interval(instrument: &Instrument) -> i64 {
    line(instrument).numerals.iter().map(|rule| rule.every.0).min().expect("a scale has figures")
}

/// One turn of the thimble.
pub fn turn(instrument: &Instrument) -> i64 {
    instrument
        .stages
        .iter()
        .find_map(|stage| match &stage.form {
            Form::Drum(drum) => Some(drum.division.0 * drum.parts),
            _ => None,
        })
        .expect("a micrometer has a thimble")
}

//! What is one line worth? The first thing to be found out about a strange tool.
//!
//! Drawn in this order: what is asked, of all that the tool has; where it stands, in the middle third of its range, so that
//! there are figures enough on either side of it to count between.

use super::worth_slips::slips;
use super::{Asked, Figure, Part, Wanted, plain_reading};
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::drill::{Kind, Question};
use crate::exact::{Exact, Notation, Quanta, Quantity};
use crate::instrument::{Form, Instrument, Numerals};

/// What is asked of a scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worth {
    /// What it is worth from one line to the next; of a vernier, what one line more in line reads.
    Line {
        /// The stage.
        stage: usize,
    },
    /// What one whole turn is worth.
    Turn {
        /// The stage.
        stage: usize,
    },
    /// What it is worth from one figure to the next.
    Figures {
        /// The stage.
        stage: usize,
    },
}

/// Whether what is asked is engraved on the tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engraving {
    /// It is not.
    Never,
    /// It was: on this tool the text is gone.
    Gone,
    /// It is printed on the face, which is where to look first.
    Printed,
}

/// One scale, one question.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Option<Vec<Part>> {
    let variant = plain_reading(instrument, seed, number).variant;
    let tool = instrument.fitted(&variant);
    let all = Worth::all(&tool);
    let worth = *all.get(draw.place(all.len()))?;
    let third = (tool.high - tool.low).passed(tool.step) / 3;
    let steps = third + i64::from(draw.below(u32::try_from(third).ok()? + 1));
    let setting = tool.low + tool.step * steps;
    let question = Question::new(&tool, number, setting, Quanta::ZERO, variant);
    let mut part = Part::reading(instrument, question);
    let expected = tool.value(worth.of(&tool));
    let says = |text: &String| states(text, &tool, expected);
    let engraving = match (&tool.stages[worth.stage()].form, tool.engraved.iter().any(says)) {
        (_, false) => Engraving::Never,
        (Form::Dial(_), true) => Engraving::Printed,
        (_, true) => Engraving::Gone,
    };
    if engraving == Engraving::Gone {
        for sight in &mut part.pictures {
            sight.tool.engraved.retain(|text| !says(text));
        }
    }
    let notation = Notation::decimal_for(tool.unit, expected).unwrap_or(tool.notation);
    part.kind = Kind::LineWorth;
    part.asked = Asked::Worth { worth, engraving };
    part.wanted = Wanted::Figure(Figure {
        unit: tool.unit,
        notation: if tool.notation == Notation::Fraction { Notation::Fraction } else { notation },
        expected,
        accepted: [expected; 2],
        slips: slips(&tool, worth, expected),
    });
    Some(vec![part])
}

/// Whether an engraved text states a value: `0.02 mm`, `5'`, `64ths`.
fn states(text: &str, tool: &Instrument, value: Exact) -> bool {
    let parts = text.strip_suffix("ths").and_then(|count| count.parse::<i128>().ok());
    let quantity = Quantity::parse(text).ok().filter(|quantity| quantity.unit == tool.unit);
    parts.is_some_and(|parts| Exact::whole(parts) * value == Exact::ONE)
        || quantity.is_some_and(|quantity| quantity.value == value)
}

impl Worth {
    /// All that can be asked of a tool.
    pub fn all(tool: &Instrument) -> Vec<Self> {
        let mut all = Vec::new();
        for (stage, form) in tool.stages.iter().map(|stage| &stage.form).enumerate() {
            let Some(line) = line_of(form) else { continue };
            all.push(Self::Line { stage });
            if turn_of(form).is_some() {
                all.push(Self::Turn { stage });
            }
            if figures_of(form).is_some_and(|figures| figures > line) {
                all.push(Self::Figures { stage });
            }
        }
        all
    }

    /// The stage that is asked about.
    pub fn stage(self) -> usize {
        match self {
            Self::Line { stage } | Self::Turn { stage } | Self::Figures { stage } => stage,
        }
    }

    /// The word in records.
    pub fn word(self) -> &'static str {
        match self {
            Self::Line { .. } => "line",
            Self::Turn { .. } => "turn",
            Self::Figures { .. } => "figures",
        }
    }

    /// The answer.
    pub fn of(self, tool: &Instrument) -> Quanta {
        let form = &tool.stages[self.stage()].form;
        let asked = match self {
            Self::Line { .. } => line_of(form),
            Self::Turn { .. } => turn_of(form),
            Self::Figures { .. } => figures_of(form),
        };
        asked.expect("only what a scale has is asked of it")
    }
}

/// What one line of a scale is worth.
pub(super) fn line_of(form: &Form) -> Option<Quanta> {
    match form {
        Form::Line(line) => Some(line.division),
        Form::Drum(drum) => Some(drum.division),
        Form::Dial(dial) => Some(dial.division),
        Form::Vernier(vernier) => Some(vernier.least_count),
        Form::Fixed(_) => None,
    }
}

/// What one turn of a scale is worth.
pub(super) fn turn_of(form: &Form) -> Option<Quanta> {
    match form {
        Form::Drum(drum) => Some(drum.turn()),
        Form::Dial(dial) => Some(dial.turn()),
        Form::Line(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    }
}

/// The rule of a scale's closest figures.
pub(super) fn closest(form: &Form) -> Option<&Numerals> {
    let rules = match form {
        Form::Line(line) => &line.numerals,
        Form::Drum(drum) => &drum.numerals,
        Form::Dial(dial) => &dial.numerals,
        Form::Vernier(vernier) => &vernier.numerals,
        Form::Fixed(_) => return None,
    };
    rules.iter().min_by_key(|rule| rule.every)
}

/// What it is worth from one figure of a scale to the next.
pub(super) fn figures_of(form: &Form) -> Option<Quanta> {
    closest(form).map(|rule| rule.every)
}

#[cfg(test)]
mod tests {
    use super::super::testing::every;
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn worth_of_lines_as_the_handbooks_have_it() {
        let catalogue = Catalogue::new(Vec::new());
        let worth = |id: &str, name: &str, of: fn(usize) -> Worth| {
            let tool = catalogue.get(id).expect("shipped");
            let stage = tool.stages.iter().position(|stage| stage.name == name).expect("it has that scale");
            let tool = tool.fitted(&tool.plain());
            tool.spell_with_unit(of(stage).of(&tool))
        };
        let (line, turn) = (|stage| Worth::Line { stage }, |stage| Worth::Turn { stage });
        // TM 9-243 p. 7-6: pitch half a millimetre, fifty lines. p. 7-4 (quoted with W06): forty threads to the inch, 25 lines.
        assert_eq!(worth("micrometer-metric", "thimble", turn), "0.50 mm");
        assert_eq!(worth("micrometer-metric", "thimble", line), "0.01 mm");
        assert_eq!(worth("micrometer-metric", "sleeve", line), "0.50 mm");
        assert_eq!(worth("micrometer-inch", "sleeve", line), "0.025 in");
        assert_eq!(worth("micrometer-inch", "thimble", line), "0.001 in");
        // W34: 0.025 in shared out by 25; W64: 1 mm by 50; W38: a sixteenth by 8; W77: a degree by 12; W74: 0.1 in by 100.
        assert_eq!(worth("caliper-inch-25", "vernier", line), "0.001 in");
        assert_eq!(worth("caliper-metric-50", "vernier", line), "0.02 mm");
        assert_eq!(worth("caliper-inch-128", "vernier", line), "1/128 in");
        assert_eq!(worth("bevel-protractor", "vernier", line), "0\u{b0}05'");
        assert_eq!(worth("dial-caliper-inch", "dial", turn), "0.100 in");
    }

    /// 49 mm over 50 parts: the lines stand 0.98 mm apart, and read 0.02 mm each.
    #[test]
    fn slips_have_their_names() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("caliper-metric-50").expect("shipped");
        let right = Exact::ratio(2, 100);
        let found = slips(tool, Worth::Line { stage: 1 }, right);
        let named = |answer: Exact| {
            let of = found.iter().filter(|found| found.wrong.answer == answer);
            of.map(|found| found.misread.id).collect::<Vec<_>>()
        };
        assert_eq!(named(Exact::ratio(98, 100)), ["spacing-for-worth"]);
        assert_eq!(named(Exact::ONE), ["main-for-vernier"]);
        assert_eq!(named(Exact::ratio(1, 10)), ["figures-for-line"]);
        assert_eq!(named(Exact::ratio(2, 10)), ["place-slip"]);
    }

    #[test]
    fn the_answer_is_engraved_on_faces_only() {
        let mut gone = 0;
        for (tool, task) in every(Kind::LineWorth, 40) {
            let part = &task.parts[0];
            let (Asked::Worth { worth, engraving }, Wanted::Figure(figure)) = (&part.asked, &part.wanted)
            else {
                panic!("a figure");
            };
            let seen = &part.pictures[0].tool;
            let engraved = seen.engraved.iter().any(|text| states(text, seen, figure.expected));
            assert_eq!(engraved, *engraving == Engraving::Printed, "{}", tool.id);
            let face = matches!(seen.stages[worth.stage()].form, Form::Dial(_));
            assert!(face || !engraved, "{}", tool.id);
            gone += u32::from(*engraving == Engraving::Gone);
        }
        assert!(gone > 100, "{gone}");
    }
}

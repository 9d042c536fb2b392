//! What is asked and told about shop speech.

use crate::drill::task::{Manner, Part};
use crate::exact::{Exact, Unit};
use crate::wording::speech::said;

/// What is said is to be written.
pub(super) fn heard(part: &Part, manner: Manner, value: Exact) -> Vec<String> {
    let unit = match part.tool.unit {
        Unit::Inch if manner == Manner::Fraction => "in inches, as a fraction",
        Unit::Inch => "in inches",
        Unit::Millimetre => "in millimetres",
        Unit::Minute => "in degrees and minutes",
    };
    vec![format!("Somebody says: \"{}\".", said(manner, value)), format!("Write it in figures, {unit}.")]
}

/// A figure, or what the tool reads, is to be said.
pub(super) fn said_how(part: &Part, manner: Manner, value: Exact) -> String {
    if part.pictures.is_empty() {
        let sign = if manner == Manner::Allowance && value > Exact::ZERO { "+" } else { "" };
        format!("Which of these says {sign}{}?", manner.figures(value, part.tool.unit))
    } else {
        "Which of these says what the tool reads?".to_owned()
    }
}

/// How it is meant.
pub(super) fn meant(part: &Part, manner: Manner, value: Exact) -> Vec<String> {
    let figures = manner.figures(value, part.tool.unit);
    let meaning = match manner {
        Manner::RunTogether | Manner::Thou | Manner::Thousandths => {
            "The thousandths are said as one number; a tenth is a tenth of a thou, the fourth figure after the point."
        }
        Manner::Allowance => "A thou is 0.001 in, half a thou 0.0005, a tenth 0.0001.",
        Manner::Hundredths => {
            "In millimetres a hundredth is 0.01 mm and a tenth 0.1 mm; an inch shop's tenth is another thing."
        }
        Manner::Microns => "A micron is 0.001 mm.",
        Manner::SleeveThimble => "The sleeve is said first, with its half; the thimble's figure is added.",
        Manner::Point => "Said figure by figure, as it is written.",
        Manner::Fraction => "Whole inches first, then the fraction in lowest terms.",
        Manner::Degrees => "Degrees first, then minutes; half a degree is 30 minutes.",
    };
    let mut lines = vec![format!("\"{}\" = {figures}", said(manner, value)), meaning.to_owned()];
    if let Manner::RunTogether | Manner::Thou | Manner::Thousandths = manner {
        let [british, american] = [Manner::Thou, Manner::Thousandths].map(|manner| said(manner, value));
        lines.push(format!("British shops: {british}"));
        lines.push(format!("American shops: {american}"));
    }
    lines
}

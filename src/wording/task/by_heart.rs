//! What is asked and told about sums by heart.

use crate::drill::task::{INCH, Sum, Turned};
use crate::exact::{Exact, Notation};

/// The question.
pub(super) fn asked(sum: &Sum) -> String {
    let from = given(sum);
    let places = places(sum.places);
    match sum.turned {
        Turned::FractionToDecimal => format!("{from} as a decimal, to {places}?"),
        Turned::DecimalToFraction => format!("Which fraction is {from} nearest to, in 64ths at the finest?"),
        Turned::FractionToMillimetres | Turned::ThouToMillimetres => {
            format!("How many millimetres are {from}, to {places}?")
        }
        Turned::MillimetresToInches => format!("How many inches are {from}, to {places}?"),
        Turned::DiameterToRadius => format!("The diameter is {from}. What is the radius?"),
        Turned::RadiusToDiameter => format!("The radius is {from}. What is the diameter?"),
        Turned::MinutesToDegrees => format!("{from} in degrees, to {places}?"),
        Turned::DegreesToMinutes => format!("{from} in degrees and minutes?"),
    }
}

fn given(sum: &Sum) -> String {
    sum.notation.spell_with_unit(sum.from, sum.unit)
}

fn places(places: u32) -> &'static str {
    match places {
        1 => "one decimal",
        2 => "two decimals",
        3 => "three decimals",
        _ => "four decimals",
    }
}

/// How it is worked out, line by line.
pub(super) fn worked(sum: &Sum) -> Vec<String> {
    let answer = sum.answer();
    let inch = figures(Exact::ratio(INCH.0, INCH.1));
    let bare = figures;
    let mut lines = Vec::new();
    match sum.turned {
        Turned::FractionToDecimal => {
            let (over, under) = (sum.from.numerator(), sum.from.denominator());
            lines.push(format!("{over} \u{f7} {under} = {}", bare(answer)));
            lines.extend(from_eighths(sum.from));
        }
        Turned::DecimalToFraction => {
            let (sixty_fourths, near) = (sum.from * Exact::whole(64), answer * Exact::whole(64));
            let nearest =
                if sixty_fourths == near { String::new() } else { format!(", nearest to {}", bare(near)) };
            lines.push(format!("{} \u{d7} 64 = {}{nearest}", bare(sum.from), bare(sixty_fourths)));
            lines.push(format!("{} = {}", Notation::Fraction.spell(answer), bare(answer)));
            lines.extend(from_eighths(answer));
        }
        Turned::FractionToMillimetres | Turned::ThouToMillimetres => {
            lines.push(format!("1 in = {inch} mm exactly"));
            lines.push(format!("{} \u{d7} {inch} = {}", bare(sum.from), bare(answer)));
        }
        Turned::MillimetresToInches => {
            lines.push(format!("1 in = {inch} mm exactly"));
            lines.push(format!("{} \u{f7} {inch} = {}", bare(sum.from), bare(answer)));
        }
        Turned::DiameterToRadius => lines.push(format!("{} \u{f7} 2 = {}", bare(sum.from), bare(answer))),
        Turned::RadiusToDiameter => lines.push(format!("{} \u{d7} 2 = {}", bare(sum.from), bare(answer))),
        Turned::MinutesToDegrees => {
            let minutes = beyond_degrees(sum.from);
            lines.push(format!(
                "{} \u{f7} 60 = {} of a degree",
                bare(minutes),
                bare(minutes.over(Exact::whole(60)))
            ));
        }
        Turned::DegreesToMinutes => {
            let minutes = beyond_degrees(sum.from);
            lines.push(format!(
                "{} of a degree \u{d7} 60 = {} minutes",
                bare(minutes.over(Exact::whole(60))),
                bare(minutes)
            ));
        }
    }
    if sum.is_rounded() {
        let wanted = sum.notation_wanted().spell_with_unit(sum.wanted(), sum.unit_wanted());
        lines.push(format!("to {}: {wanted}", places(sum.places)));
    }
    lines
}

/// The way to a fraction from the nearest eighth below, which is known by heart.
fn from_eighths(fraction: Exact) -> Option<String> {
    let eighths = fraction * Exact::whole(8);
    let whole = eighths.numerator().div_euclid(eighths.denominator());
    let eighth = Exact::ratio(whole, 8);
    let rest = fraction - eighth;
    if whole == 0 || rest == Exact::ZERO {
        return None;
    }
    let spell = |value| Notation::Fraction.spell(value);
    Some(format!("or {} + {} = {} + {}", spell(eighth), spell(rest), figures(eighth), figures(rest)))
}

fn beyond_degrees(minutes: Exact) -> Exact {
    Exact::whole(minutes.numerator().rem_euclid(60))
}

/// As many digits as it has, six where it never ends.
fn figures(value: Exact) -> String {
    let cut = if value.decimal_places().is_some_and(|places| places <= 8) { value } else { value.rounded(6) };
    Notation::Decimal { places: 0 }.spell(cut)
}

//! Sizes as drawings give them, made up round the settings of a tool.

use super::drawing::{Callout, Drawing, Feature, Taken};
use crate::drill::draw::Draw;
use crate::exact::{Exact, Notation, TitleBlock, Tolerance, TypedForm, Unit};
use crate::instrument::Instrument;

/// Whether a tool is fine enough for a tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fineness {
    /// Four of its divisions go into it, and not so many that nobody need read it.
    Enough,
    /// Fewer do.
    TooCoarse,
}

impl Fineness {
    fn of(divisions: Exact) -> Option<Self> {
        if divisions < Exact::whole(4) {
            Some(Self::TooCoarse)
        } else {
            (divisions <= Exact::whole(40)).then_some(Self::Enough)
        }
    }
}

/// A fit class: limits in thousandths of a millimetre, by the diameter.
struct Fit {
    class: &'static str,
    feature: Feature,
    /// Up to and with this diameter in mm, upper and lower deviation; the first row begins above 3 mm.
    rows: [(i128, i128, i128); 5],
}

/// ISO 286-2, from memory: the steps over 3, 6, 10, 18 and 30 mm.
static FITS: [Fit; 3] = [
    Fit {
        class: "H7",
        feature: Feature::Bore,
        rows: [(6, 12, 0), (10, 15, 0), (18, 18, 0), (30, 21, 0), (50, 25, 0)],
    },
    Fit {
        class: "h6",
        feature: Feature::Shaft,
        rows: [(6, 0, -8), (10, 0, -9), (18, 0, -11), (30, 0, -13), (50, 0, -16)],
    },
    Fit {
        class: "g6",
        feature: Feature::Shaft,
        rows: [(6, -4, -12), (10, -5, -14), (18, -6, -17), (30, -7, -20), (50, -9, -25)],
    },
];

/// What the title block of a drawing says: some tight, some loose. The figures are invented, the form is common practice.
fn title_blocks(unit: Unit) -> Vec<TitleBlock> {
    let block = |decimals: &[(u32, i128, i128)], fraction: i128, angle: i128| TitleBlock {
        decimals: decimals
            .iter()
            .map(|(places, top, bottom)| (*places, Exact::ratio(*top, *bottom)))
            .collect(),
        fractions: (unit == Unit::Inch).then(|| Exact::ratio(1, fraction)),
        angles: Some(Exact::whole(angle)),
    };
    if unit == Unit::Millimetre {
        return vec![
            block(&[(0, 2, 1), (1, 3, 10), (2, 1, 10)], 1, 120),
            block(&[(0, 1, 2), (1, 2, 10), (2, 5, 100)], 1, 60),
            block(&[(0, 1, 2), (1, 1, 10), (2, 2, 100), (3, 5, 1000)], 1, 30),
        ];
    }
    vec![
        block(&[(2, 30, 1000), (3, 10, 1000)], 16, 120),
        block(&[(2, 10, 1000), (3, 5, 1000), (4, 10, 10_000)], 32, 60),
        block(&[(2, 5, 1000), (3, 2, 1000), (4, 5, 10_000)], 64, 30),
    ]
}

/// A feature that the tool is there to measure; none where it is not there to judge a part.
pub(super) fn feature(tool: &Instrument, draw: &mut Draw) -> Option<Feature> {
    let inside = tool.id.ends_with("-inside");
    Some(match tool.family.as_str() {
        "inside" => Feature::Bore,
        "caliper" if inside => Feature::Bore,
        "micrometer" | "caliper" | "dial-caliper" => draw.one_of(&[Feature::Shaft, Feature::Length]),
        "depth" | "depth-gauge" => Feature::Pocket,
        "height-gauge" => Feature::Height,
        "rule" => Feature::Length,
        "protractor" => draw.one_of(&[Feature::Wedge, Feature::Notch]),
        _ => return None,
    })
}

/// A drawing of a size near `about`, for a tool that is fine enough for it or not; none where this draw gives none.
pub(super) fn drawing(
    tool: &Instrument,
    feature: Feature,
    about: Exact,
    fineness: Fineness,
    draw: &mut Draw,
) -> Option<Drawing> {
    let taken = match draw.below(6) {
        0 if feature.is_round() => Taken::TwoDirections,
        0 | 1 => Taken::BothEnds,
        _ => Taken::Once,
    };
    let made = |tolerance, callout| Drawing { feature, tolerance, callout, taken };
    let ways = if tool.unit == Unit::Millimetre && feature.is_round() { 5 } else { 4 };
    let drawing = match draw.below(ways) {
        3 => {
            let block = draw.one_of(&title_blocks(tool.unit));
            made(general(tool, about, fineness, &block, draw)?, Callout::TitleBlock(block))
        }
        4 => {
            let fit = &FITS[usize::try_from(draw.below(3)).ok()?];
            let size = about.rounded(0);
            let row = fit.rows.iter().find(|(up_to, ..)| size <= Exact::whole(*up_to))?;
            if fit.feature != feature || size <= Exact::whole(3) {
                return None;
            }
            let [above, below] = [row.1, row.2].map(|micron| Exact::ratio(micron, 1000));
            made(Tolerance::unequal(size, above, below, tool.unit), Callout::Fit(fit.class))
        }
        way => made(written(tool, about, fineness, way, draw)?, Callout::Written),
    };
    let divisions = drawing.tolerance.width().over(tool.value(tool.least_count));
    (Fineness::of(divisions) == Some(fineness)).then_some(drawing)
}

/// A tolerance beside its size: limits, plus and minus, or unequal.
fn written(
    tool: &Instrument,
    about: Exact,
    fineness: Fineness,
    way: u32,
    draw: &mut Draw,
) -> Option<Tolerance> {
    let least_count = tool.value(tool.least_count);
    let divisions: i128 = match fineness {
        Fineness::Enough => draw.one_of(&[4, 6, 8, 10, 12, 16, 20]),
        Fineness::TooCoarse => draw.one_of(&[1, 2, 3]),
    };
    let steps = |count: i128| least_count * Exact::whole(count);
    Some(match way {
        0 => Tolerance::limits(about, about + steps(divisions), tool.unit),
        1 => {
            let by = least_count * Exact::ratio(divisions, 2);
            // Nobody writes half a minute, or half of the finest fraction on the tool.
            let odd = divisions % 2 != 0 && !matches!(tool.notation, Notation::Decimal { .. });
            if odd {
                return None;
            }
            Tolerance::plus_minus(about, by, tool.unit)
        }
        _ => {
            let above = i128::from(draw.below(u32::try_from(divisions).ok()? + 1));
            if above * 2 == divisions {
                return None;
            }
            Tolerance::unequal(about, steps(above), steps(above - divisions), tool.unit)
        }
    })
}

/// What the title block allows a size that is written without a tolerance.
fn general(
    tool: &Instrument,
    about: Exact,
    fineness: Fineness,
    block: &TitleBlock,
    draw: &mut Draw,
) -> Option<Tolerance> {
    let least_count = tool.value(tool.least_count);
    let (nominal, form) = match tool.notation {
        // Of a whole inch nobody could say which row it goes by.
        Notation::Fraction if about.to_whole().is_some() => return None,
        Notation::Fraction => (about, TypedForm::Fraction { lowest: true }),
        Notation::Angle => (about, TypedForm::Angle),
        Notation::Decimal { .. } => {
            let fits = |by: Exact| Fineness::of((by + by).over(least_count)) == Some(fineness);
            let rows: Vec<u32> =
                block.decimals.iter().filter(|(_, by)| fits(*by)).map(|(places, _)| *places).collect();
            if rows.is_empty() {
                return None;
            }
            let places = draw.one_of(&rows);
            (about.rounded(places), TypedForm::Decimal { places })
        }
    };
    Some(Tolerance::plus_minus(nominal, block.allows(form)?, tool.unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fundamental deviations and grades of ISO 286: IT6 and IT7 of the five steps, and g lying 4, 5, 6, 7 and 9 thousandths
    /// below the size, from memory.
    #[test]
    fn fits_are_grades_below_or_above_the_size() {
        let (it6, it7, g) = ([8, 9, 11, 13, 16], [12, 15, 18, 21, 25], [4, 5, 6, 7, 9]);
        for (n, up_to) in [6, 10, 18, 30, 50].into_iter().enumerate() {
            let row = |class: &str| FITS.iter().find(|fit| fit.class == class).expect("listed").rows[n];
            assert_eq!(row("H7"), (up_to, it7[n], 0));
            assert_eq!(row("h6"), (up_to, 0, -it6[n]));
            assert_eq!(row("g6"), (up_to, -g[n], -g[n] - it6[n]));
        }
    }
}

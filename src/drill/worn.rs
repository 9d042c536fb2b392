//! Which figures of a tool are worn away.
//!
//! Only figures that hands rub: those of rules and main scales, of their verniers, and of thimbles. A sleeve and its vernier
//! lie under the thimble, and often one figure of a sleeve is all that shows; a dial is behind its glass. Of a scale the first
//! two figures, the last one and the large ones stay, and never do two neighbours go: from any line there is a figure that
//! can be read within two figures' distance on either side, so a reading is always possible by counting.

use super::draw::Draw;
use crate::exact::Quanta;
use crate::instrument::{
    Figured, Form, Instrument, Line, NumeralSize, Numerals, Vernier, WornFigure, figure_at,
};

/// Which figures are worn follows from this number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Wear(pub u32);

/// Whether any figure of a tool can wear.
pub fn can_wear(tool: &Instrument) -> bool {
    (0..tool.stages.len()).any(|stage| !candidates(tool, stage).is_empty())
}

/// The figures that are worn on a tool: some, where any can be.
pub fn worn(tool: &Instrument, wear: Wear) -> Vec<WornFigure> {
    let mut draw = Draw::new("linefall worn 1", &[&wear.0.to_le_bytes(), tool.id.as_bytes()]);
    let mut all: Vec<WornFigure> = Vec::new();
    let mut first = None;
    for stage in 0..tool.stages.len() {
        let mut before = None;
        for candidate in candidates(tool, stage) {
            let figure = WornFigure { stage, line: candidate.line };
            first = first.or(Some(figure));
            let beside_a_worn_one = before == Some(candidate.number - 1);
            if !beside_a_worn_one && draw.below(3) == 0 {
                all.push(figure);
                before = Some(candidate.number);
            }
        }
    }
    if all.is_empty() {
        all.extend(first);
    }
    all
}

/// A figure that may go.
struct Candidate {
    /// Its line.
    line: usize,
    /// Which figure of the scale it is, from the first.
    number: usize,
}

fn candidates(tool: &Instrument, stage: usize) -> Vec<Candidate> {
    let figures = figures(tool, stage);
    let last = figures.len().saturating_sub(1);
    let mut small = 0;
    let mut all = Vec::new();
    for (number, (line, size)) in figures.into_iter().enumerate() {
        if size == NumeralSize::Large {
            continue;
        }
        small += 1;
        if small > 2 && number < last {
            all.push(Candidate { line, number });
        }
    }
    all
}

/// The figured lines of a scale whose figures can wear.
fn figures(tool: &Instrument, stage: usize) -> Vec<(usize, NumeralSize)> {
    let form = |at: usize| tool.stages.get(at).map(|stage| &stage.form);
    let lines = |from: Quanta, count: i64, apart: Quanta, rules: &[Numerals]| -> Vec<(usize, NumeralSize)> {
        let line = |n: i64| Some((usize::try_from(n).ok()?, figure_at(rules, from + apart * n)?.1));
        (0..count).filter_map(line).collect()
    };
    match (form(stage), form(stage + 1)) {
        // On a sleeve figures are few; figured both ways, a figure alone does not say which way.
        (Some(Form::Line(_)), Some(Form::Drum(_) | Form::Dial(_)))
        | (
            Some(
                Form::Line(Line { figured: Figured::BothWays, .. })
                | Form::Vernier(Vernier { figured: Figured::BothWays, .. }),
            ),
            _,
        ) => Vec::new(),
        (Some(Form::Line(line)), _) => {
            let told = line.numerals.iter().all(|rule| rule.wrap.is_none())
                || line.numerals.iter().any(|rule| rule.size == NumeralSize::Large);
            let count = (line.end - line.begin).passed(line.division) + 1;
            // Figures that begin again are told apart by the large ones between them.
            if told { lines(line.begin, count, line.division, &line.numerals) } else { Vec::new() }
        }
        (Some(Form::Drum(drum)), _) => lines(Quanta::ZERO, drum.parts, drum.division, &drum.numerals),
        (Some(Form::Vernier(vernier)), _) => match stage.checked_sub(1).and_then(form) {
            Some(Form::Line(_)) => {
                lines(Quanta::ZERO, vernier.parts + 1, vernier.least_count, &vernier.numerals)
            }
            _ => Vec::new(),
        },
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;
    use std::collections::BTreeSet;

    #[test]
    fn figures_go_by_the_rule_on_every_instrument() {
        let catalogue = Catalogue::new(Vec::new());
        let mut worn_somewhere = BTreeSet::new();
        for tool in catalogue.ids().filter_map(|id| catalogue.get(id)) {
            for seed in 0..200 {
                let all = worn(tool, Wear(seed));
                assert_eq!(all, worn(tool, Wear(seed)));
                assert_eq!(all.is_empty(), !can_wear(tool), "{}", tool.id);
                for (at, stage) in tool.stages.iter().enumerate() {
                    let kept = figures(tool, at);
                    let gone = |n: usize| all.contains(&WornFigure { stage: at, line: kept[n].0 });
                    let count = all.iter().filter(|figure| figure.stage == at).count();
                    assert_eq!(count, (0..kept.len()).filter(|n| gone(*n)).count(), "{}: no figure", tool.id);
                    if count == 0 {
                        continue;
                    }
                    worn_somewhere.insert((tool.id.clone(), stage.name.clone()));
                    assert!(!gone(0) && !gone(kept.len() - 1), "{} {}", tool.id, stage.name);
                    assert!((1..kept.len()).all(|n| !(gone(n) && gone(n - 1))), "{} {}", tool.id, stage.name);
                    let large = |n: usize| kept[n].1 == NumeralSize::Large;
                    assert!((0..kept.len()).all(|n| !(gone(n) && large(n))), "{} {}", tool.id, stage.name);
                }
            }
        }
        let has = |id: &str, name: &str| worn_somewhere.contains(&(id.to_owned(), name.to_owned()));
        assert!(has("rule-metric", "rule") && has("micrometer-inch", "thimble"), "{worn_somewhere:?}");
        assert!(has("caliper-metric-50", "vernier") && has("caliper-inch-25", "main scale"));
        assert!(!has("micrometer-inch", "sleeve") && !has("dial-caliper-inch", "bar"));
    }
}

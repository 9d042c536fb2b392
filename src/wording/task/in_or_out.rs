//! In or out, in words.

use crate::drill::task::{Because, Callout, Decision, Drawing, Feature, Given, Marked, Part, Taken};
use crate::exact::{Exact, Notation, TitleBlock, Unit};
use crate::wording::CAUTIONS;

/// The drawing, how the part was measured, and the question.
pub(super) fn asked(part: &Part, drawing: &Drawing) -> Vec<String> {
    let (name, notation) = (name(drawing.feature), part.tool.notation);
    let mut lines = match &drawing.callout {
        Callout::Written => vec![format!("The drawing: {name} {}.", drawing.tolerance.spell(notation))],
        Callout::TitleBlock(block) => {
            vec![format!("The drawing: {name} {}.", bare(part, drawing, block)), title_block(block, part)]
        }
        Callout::Fit(class) => {
            let size = spell(part, drawing.tolerance.nominal, Notation::Decimal { places: 0 });
            let card = drawing.tolerance.spell(Notation::Decimal { places: 3 });
            vec![format!("The drawing: {name} {size} {class}."), format!("The limits card: {card}.")]
        }
    };
    let question = match drawing.taken {
        Taken::Once => "In or out?",
        Taken::BothEnds if drawing.feature.is_round() => "Measured at one end, then at the other. In or out?",
        Taken::BothEnds => "Measured at one place, then at another. In or out?",
        Taken::TwoDirections => "Measured in two directions, square to each other. In or out?",
    };
    lines.push(question.to_owned());
    lines
}

fn name(feature: Feature) -> &'static str {
    match feature {
        Feature::Shaft => "shaft, diameter",
        Feature::Length => "length over two faces,",
        Feature::Height => "height of a face,",
        Feature::Wedge => "wedge, angle",
        Feature::Bore => "bore, diameter",
        Feature::Pocket => "pocket, depth",
        Feature::Notch => "notch, angle",
    }
}

fn spell(part: &Part, value: Exact, notation: Notation) -> String {
    notation.spell_with_unit(value, part.tool.unit)
}

/// A size without a tolerance, with the decimals that its row of the title block has.
fn bare(part: &Part, drawing: &Drawing, block: &TitleBlock) -> String {
    let tolerance = &drawing.tolerance;
    let row = block.decimals.iter().find(|(_, by)| *by == tolerance.high - tolerance.nominal);
    match (part.tool.notation, row) {
        (Notation::Decimal { .. }, Some((places, _))) => {
            spell(part, tolerance.nominal, Notation::Decimal { places: *places })
        }
        (notation, _) => spell(part, tolerance.nominal, notation),
    }
}

/// What the title block says, all of it: which row holds is for the reader to see.
fn title_block(block: &TitleBlock, part: &Part) -> String {
    let whole = if part.tool.unit == Unit::Inch { "" } else { "x" };
    let mut rows: Vec<String> = block
        .decimals
        .iter()
        .map(|(places, by)| {
            let digits = "x".repeat(usize::try_from(*places).expect("a few digits"));
            let point = if *places == 0 { "" } else { "." };
            format!("{whole}{point}{digits} \u{b1}{}", Notation::Decimal { places: 0 }.spell(*by))
        })
        .collect();
    rows.extend(block.fractions.map(|by| format!("fractions \u{b1}{}", Notation::Fraction.spell(by))));
    rows.extend(block.angles.map(|by| format!("angles \u{b1}{}", Notation::Angle.spell(by))));
    format!("The title block: {}.", rows.join(", "))
}

/// A decision in words.
pub(super) fn offer(decision: Decision) -> &'static str {
    match decision {
        Decision::Good => "good",
        Decision::Rework => "can be reworked",
        Decision::Tag => "tag it and ask",
        Decision::Finer => "fetch a finer tool",
    }
}

/// What was decided and on which reading, what the part measures, and the rule.
pub(super) fn why(part: &Part, drawing: &Drawing, given: &Given, marked: &Marked) -> Vec<String> {
    let notation = part.tool.notation;
    let mut lines = Vec::new();
    if let (Some(found), Given::Chosen(place)) = (marked.slips.first(), given)
        && let Some(chosen) = Decision::ALL.get(*place)
    {
        let read = spell(part, found.wrong.answer, notation);
        lines.push(format!("Read as {read} ({}) it would be: {}.", found.misread.name, offer(*chosen)));
    }
    let sizes = part.sizes();
    let spelled: Vec<String> = sizes.iter().map(|size| spell(part, *size, notation)).collect();
    lines.push(format!("It measures {}.", spelled.join(" and ")));
    if let [one, other] = sizes[..]
        && one != other
    {
        let apart = spell(part, (one - other).abs(), notation);
        lines.push(match drawing.taken {
            Taken::TwoDirections => format!("Out of round by {apart}: the largest and the smallest decide."),
            _ if drawing.feature.is_round() => {
                format!("Tapered by {apart}: the largest and the smallest decide.")
            }
            _ => format!("Not parallel by {apart}: the largest and the smallest decide."),
        });
    }
    let tolerance = &drawing.tolerance;
    let limit = |value: Exact| spell(part, value, notation);
    lines.push(format!(
        "In is from {} to {}; on the limit is in.",
        limit(tolerance.low),
        limit(tolerance.high)
    ));
    let least_count = part.tool.value(part.tool.least_count);
    lines.extend(rule(part, drawing, drawing.judge(least_count, &sizes)));
    lines.push(CAUTIONS[3].to_owned());
    lines
}

/// The rule that decides.
fn rule(part: &Part, drawing: &Drawing, judged: (Decision, Because)) -> Vec<String> {
    let by = |length: Exact| spell(part, length, part.tool.notation);
    let outcome = match (judged.0, drawing.feature.is_outside()) {
        (Decision::Rework, true) => "Metal is left: it can be cut again.",
        (Decision::Rework, false) => "Metal is left inside: it can be opened up.",
        (Decision::Tag, _) => {
            "What is gone cannot be put back. Tag it and ask: an apprentice does not scrap."
        }
        (Decision::Finer, _) => "Measure it again with a finer tool before anybody condemns or passes it.",
        (Decision::Good, _) => "",
    };
    let mut lines = vec![match judged.1 {
        Because::In => "Every reading is in.".to_owned(),
        Because::TooLarge(length) => format!("It is {} over the upper limit.", by(length)),
        Because::TooSmall(length) => format!("It is {} under the lower limit.", by(length)),
        Because::OneOut => "It is out by one division of the tool at most.".to_owned(),
        Because::TooCoarse => format!(
            "The tolerance is {} in all and the tool reads to {}: ten divisions should go into it, four at the least.",
            by(drawing.tolerance.width()),
            by(part.tool.value(part.tool.least_count))
        ),
    }];
    if !outcome.is_empty() {
        lines.push(outcome.to_owned());
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::task::{Asked, Task, Wanted, task};
    use crate::drill::{Kind, Seed};
    use crate::exact::parse_answer;
    use crate::instrument::Catalogue;

    fn tasks(id: &str) -> Vec<Task> {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(id).expect("shipped");
        (1..=80).filter_map(|number| task(Kind::InOrOut, tool, Seed(8), number)).collect()
    }

    /// A size is written with the decimals of the row that holds: read back, the title block allows what was meant.
    #[test]
    fn the_size_says_which_row_of_the_title_block_holds() {
        let mut seen = 0;
        for id in ["caliper-metric-50", "micrometer-inch", "rule-inch-64", "bevel-protractor"] {
            for task in tasks(id) {
                let part = &task.parts[0];
                let Asked::InOrOut(drawing) = &part.asked else { panic!("{id}") };
                let Callout::TitleBlock(block) = &drawing.callout else { continue };
                seen += 1;
                let typed = parse_answer(&bare(part, drawing, block), part.tool.unit).expect("a size");
                let by = drawing.tolerance.high - typed.value;
                assert_eq!(typed.value, drawing.tolerance.nominal, "{id}");
                assert_eq!(block.allows(typed.form), Some(by), "{id}: {}", typed.text);
            }
        }
        assert!(seen >= 20, "{seen}");
    }

    #[test]
    fn the_reading_is_told_only_afterwards() {
        for task in tasks("micrometer-metric") {
            let part = &task.parts[0];
            let Asked::InOrOut(drawing) = &part.asked else { panic!("in or out") };
            let Wanted::Choice(choice) = &part.wanted else { panic!("a choice") };
            let given = Given::Chosen((choice.right + 1) % 4);
            let marked = part.mark(&given);
            let why = why(part, drawing, &given, &marked).join("\n");
            let size = spell(part, part.sizes()[0], part.tool.notation);
            assert!(why.contains(&size) && why.contains("inspectors decide"), "{why}");
            if let Some(found) = marked.slips.first() {
                assert!(why.starts_with("Read as ") && why.contains(found.misread.name), "{why}");
            }
        }
    }
}

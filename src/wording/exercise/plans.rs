//! What the rules of a skills check let through, for the instructor who chooses one.

use super::{few, percent};
use crate::learner::chance::Slips;
use crate::learner::plan::Plan;
use std::fmt::Write as _;

/// The accuracies that are looked at.
pub const ACCURACIES: [f64; 8] = [0.70, 0.80, 0.85, 0.90, 0.95, 0.97, 0.98, 0.99];
/// How often gross slips are made that are looked at.
pub const GROSS: [f64; 5] = [0.0, 0.01, 0.02, 0.05, 0.10];
/// How often fine ones are.
pub const FINE: [f64; 3] = [0.01, 0.03, 0.10];

/// Plans to choose from.
pub const OFFERED: [Plan; 5] = [
    Plan::Fixed { of: 10, pass: 9 },
    Plan::Fixed { of: 20, pass: 19 },
    Plan::USUAL,
    Plan::Fixed { of: 50, pass: 47 },
    Plan::USUAL_SEQUENTIAL,
];

/// Cells of the first column.
const FIRST: usize = 16;
/// Cells of each further one.
const COLUMN: usize = 12;

/// What a plan is called at the head of its column, in two rows.
pub fn short(plan: &Plan) -> [String; 2] {
    match plan {
        Plan::Fixed { of, pass } => [format!("{pass} of {of}"), "right".to_owned()],
        Plan::Sequential(test) => ["as it goes,".to_owned(), format!("{} to {}", test.least, test.most)],
    }
}

/// What the plans let through, line by line.
pub fn table(plans: &[Plan]) -> Vec<String> {
    let mut lines = vec!["Of 100 people who all read so well, so many pass:".to_owned(), String::new()];
    lines.extend(head("right in 100", plans));
    for accuracy in ACCURACIES {
        let cells = plans.iter().map(|plan| people(plan.characteristic(accuracy).passes));
        lines.push(row(&percent(accuracy), cells));
    }
    lines.extend([String::new(), "Questions it takes on average:".to_owned(), String::new()]);
    lines.extend(head("right in 100", plans));
    for accuracy in ACCURACIES {
        let cells = plans.iter().map(|plan| format!("{:.0}", plan.characteristic(accuracy).mean));
        lines.push(row(&percent(accuracy), cells));
    }
    lines.extend([
        String::new(),
        "A gross slip is a turn, a half line, a whole inch: scrap. A fine one is a line".to_owned(),
        "or a few. The same gross slip twice is \"not yet\", whatever the score.".to_owned(),
        "Of 100 people whose gross slips all are the same one, so many pass:".to_owned(),
        String::new(),
    ]);
    lines.extend(head("gross / fine", plans));
    for fine in FINE {
        for gross in GROSS {
            let cells = plans.iter().map(|plan| people(plan.passes_with(Slips { gross, fine })));
            lines.push(row(&format!("{:>3} / {} in 100", percent(gross), percent(fine)), cells));
        }
    }
    lines.push(String::new());
    lines.extend(plans.iter().flat_map(in_words));
    lines
}

/// One plan in a sentence of two lines.
fn in_words(plan: &Plan) -> [String; 2] {
    let (poor, good) = (plan.characteristic(0.80), plan.characteristic(0.98));
    let rule = match plan {
        Plan::Fixed { of, pass } => format!("{pass} of {of} right"),
        Plan::Sequential(test) => format!("As it goes, {} to {}", test.least, test.most),
    };
    let turned_away = 1.0 - good.passes;
    [
        format!("{rule}: passes {} of 100 people who read 80 in 100 rightly,", few(poor.passes)),
        format!("    and turns away {} of 100 who read 98 in 100 rightly.", few(turned_away)),
    ]
}

/// How a set asks for such a rule.
pub const HOW: [&str; 6] = [
    "A set asks for one in its pass rule: pass = \"28 of 30\", or pass = \"sequential\".",
    "",
    "Short checks cannot tell good from poor. One that goes on until the answers",
    "speak for one side is short for good and poor readers, long for those between.",
    "A second try with fresh questions nearly doubles what is let through.",
    "The chances are exact if each reading stands by itself; people are less even.",
];

fn head(label: &str, plans: &[Plan]) -> [String; 2] {
    let names: Vec<[String; 2]> = plans.iter().map(short).collect();
    [
        row("", names.iter().map(|[first, _]| first.clone())),
        row(label, names.iter().map(|[_, second]| second.clone())),
    ]
}

fn row(first: &str, cells: impl Iterator<Item = String>) -> String {
    let mut line = format!("{first:<FIRST$}");
    for cell in cells {
        let _ = write!(line, "{cell:>COLUMN$}");
    }
    line.trim_end().to_owned()
}

/// People of a hundred, with a digit after the point where they are few.
fn people(share: f64) -> String {
    match share * 100.0 {
        people if (10.0..99.5).contains(&people) => format!("{people:.0}"),
        people => format!("{people:.1}"),
    }
}

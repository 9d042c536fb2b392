//! What was done beside what is right: the same steps twice, one of them replaced.

use super::asks::Asks;
use super::explain::{Share, ShareKind, line_shares, shares};
use super::misread::{Case, Misread, On, Wrong};
use crate::exact::{Exact, Quanta};
use crate::instrument::{Form, NumeralSize, SetUp};

/// Both ways of reading, step by step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beside {
    /// The steps in order.
    pub rows: Vec<Row>,
    /// The right answer.
    pub right: Exact,
    /// The one given.
    pub done: Exact,
}

/// A step both ways.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Which step.
    pub what: What,
    /// What it is worth; none where it does not belong there.
    pub right: Option<Exact>,
    /// What was taken for it; none where it was left out.
    pub done: Option<Exact>,
}

/// A step of a reading as it is set beside another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// A share of the explanation.
    Share(Share),
    /// All that a stage shows.
    Stage(usize),
    /// The zero error is taken off.
    Zero,
    /// The part's angle is made of what is read.
    SetUp(SetUp),
    /// The whole figure is written down.
    Figure,
}

impl Row {
    /// True of the step that was replaced.
    pub fn is_replaced(&self) -> bool {
        self.right != self.done
    }
}

/// Both ways of reading, where the wrong one is a step replaced; none where the answer is not a sum of steps.
pub fn beside(case: &Case<'_>, misread: &Misread, wrong: &Wrong) -> Option<Beside> {
    let total = case.instrument.value(case.reading.total);
    let (right, done) = (case.expected(), wrong.answer);
    let after = After::of(case)?;
    let mut rows = same(case);
    // What was read, if all that comes after it was done rightly.
    let read = wrong.stage.map_or(total, |_| after.undone(done));
    if let Some(stage) = wrong.stage {
        replace(&mut rows, case, stage, read - total)?;
    }
    let zero_is_it = misread.on.contains(&On::ZeroError);
    match after {
        After::Zero(zero) => {
            let taken = if zero_is_it { done - total } else { -zero };
            let done = Some(taken).filter(|taken| *taken != Exact::ZERO);
            rows.push(Row { what: What::Zero, right: Some(-zero), done });
        }
        After::SetUp(set_up) => {
            let taken = if wrong.stage.is_none() { done } else { set_up.angle(read) };
            rows.push(Row { what: What::SetUp(set_up), right: Some(right), done: Some(taken) });
        }
        After::Nothing => {}
    }
    if !rows.iter().any(Row::is_replaced) {
        rows.push(Row { what: What::Figure, right: Some(right), done: Some(done) });
    }
    Some(Beside { rows, right, done })
}

/// What is done with the sum of the scales.
#[derive(Clone, Copy)]
enum After {
    Nothing,
    Zero(Exact),
    SetUp(SetUp),
}

impl After {
    fn of(case: &Case<'_>) -> Option<Self> {
        match (case.asks, case.asks.set_up()) {
            (_, Some(set_up)) => Some(Self::SetUp(set_up)),
            (Asks::Reading | Asks::ZeroError, _) => Some(Self::Nothing),
            (Asks::Corrected, _) => Some(Self::Zero(case.instrument.value(case.zero_error))),
            _ => None,
        }
    }

    /// The reading that an answer comes of.
    fn undone(self, answer: Exact) -> Exact {
        match self {
            Self::Nothing => answer,
            Self::Zero(zero) => answer + zero,
            // What is left of a right angle or a straight line is left of it both ways.
            Self::SetUp(set_up) => set_up.angle(answer),
        }
    }
}

fn same(case: &Case<'_>) -> Vec<Row> {
    let row = |share: Share| {
        let value = Some(case.instrument.value(share.value));
        Row { what: What::Share(share), right: value, done: value }
    };
    shares(case.instrument, case.reading).into_iter().map(row).collect()
}

/// Puts what was taken for a stage beside its shares: on the one share that differs, else on the stage as a whole.
fn replace(rows: &mut Vec<Row>, case: &Case<'_>, stage: usize, off: Exact) -> Option<()> {
    let tool = case.instrument;
    let of_stage = |row: &Row| matches!(&row.what, What::Share(share) if share.stage == stage);
    let first = rows.iter().position(of_stage)?;
    let count = rows.iter().filter(|row| of_stage(row)).count();
    let right: Exact = rows
        .iter()
        .filter(|row| of_stage(row))
        .filter_map(|row| row.right)
        .fold(Exact::ZERO, |sum, v| sum + v);
    let taken = right + off;
    if count == 1 && !matches!(tool.stages[stage].form, Form::Line(_)) {
        rows[first].done = Some(taken);
        return Some(());
    }
    let whole = Row { what: What::Stage(stage), right: Some(right), done: Some(taken) };
    let as_taken = taken_lines(case, stage, taken).unwrap_or_default();
    let mut both: Vec<Row> = rows[first..first + count].to_vec();
    for row in &mut both {
        let What::Share(share) = &row.what else { continue };
        let same = as_taken.iter().find(|taken| same_kind(taken, share));
        row.done = same.map(|taken| tool.value(taken.value));
    }
    let added = as_taken.iter().filter(|taken| {
        !rows[first..first + count]
            .iter()
            .any(|row| matches!(&row.what, What::Share(share) if same_kind(share, taken)))
    });
    both.extend(added.map(|share| Row {
        what: What::Share(share.clone()),
        right: None,
        done: Some(tool.value(share.value)),
    }));
    let one = both.iter().filter(|row| row.is_replaced()).count() == 1;
    rows.splice(first..first + count, if one { both } else { vec![whole] });
    Some(())
}

/// The shares of a straight scale read as this value, if one of its lines is worth that.
fn taken_lines(case: &Case<'_>, stage: usize, taken: Exact) -> Option<Vec<Share>> {
    let Form::Line(line) = &case.instrument.stages[stage].form else { return None };
    let at = case.instrument.lattice.at(taken)?;
    let on_a_line = at >= Quanta::ZERO && at.left_of(line.division) == Quanta::ZERO;
    on_a_line.then(|| {
        let mut all = Vec::new();
        line_shares(&mut all, stage, line, at);
        all
    })
}

/// True of shares that are read from the same kind of line.
fn same_kind(one: &Share, other: &Share) -> bool {
    let size = |share: &Share| match share.kind {
        ShareKind::Figure { size, .. } => Some(size == NumeralSize::Large),
        _ => None,
    };
    std::mem::discriminant(&one.kind) == std::mem::discriminant(&other.kind) && size(one) == size(other)
}

#[cfg(test)]
mod tests {
    use super::super::{Change, misread, pose, read};
    use super::*;
    use crate::exact::parse_answer;
    use crate::instrument::{Catalogue, Instrument};

    /// The replaced row of a misread at a reading: what it is worth, what was taken; then the answer of the second column.
    fn replaced(id: &str, reads: &str, zero: &str, by: &str) -> (Option<String>, Option<String>, String) {
        let catalogue = Catalogue::new(Vec::new());
        let tool: &Instrument = catalogue.get(id).expect("shipped");
        let at = |text: &str| tool.lattice.at(parse_answer(text, tool.unit).expect("a number").value);
        let pose = pose(tool, at(reads).expect("on its lattice"), Quanta::ZERO);
        let reading = read(tool, &pose);
        let zero_error = at(zero).expect("on its lattice");
        let asks = if zero_error == Quanta::ZERO { Asks::Reading } else { Asks::Corrected };
        let case = Case {
            instrument: tool,
            pose: &pose,
            reading: &reading,
            zero_error,
            asks,
            change: Change::default(),
        };
        let misread = misread::named(by).expect("a misread");
        let wrong = misread.wrong(&case).into_iter().next().expect("it bites here");
        let both = beside(&case, misread, &wrong).expect("a sum of steps");
        let sum = |of: fn(&Row) -> Option<Exact>| {
            both.rows.iter().filter_map(of).fold(Exact::ZERO, |sum, v| sum + v)
        };
        if both.rows.iter().all(|row| row.what != What::Figure) {
            assert_eq!((sum(|row| row.right), sum(|row| row.done)), (both.right, both.done), "{both:?}");
        }
        let all: Vec<&Row> = both.rows.iter().filter(|row| row.is_replaced()).collect();
        assert_eq!(all.len(), 1, "one step is replaced: {both:?}");
        let spell = |value: Exact| tool.notation.spell(value);
        (all[0].right.map(spell), all[0].done.map(spell), spell(both.done))
    }

    /// Worked by hand: 7.70 is figure 5, two whole lines, the half line, thimble 20.
    #[test]
    fn one_step_is_replaced_and_both_columns_add_up() {
        let found = |right: &str, done: Option<&str>, answer: &str| {
            (Some(right.to_owned()), done.map(str::to_owned), answer.to_owned())
        };
        let at = |reads, by| replaced("micrometer-metric", reads, "0", by);
        assert_eq!(at("7.70", "half-line-missed"), found("0.50", None, "7.20"));
        assert_eq!(at("7.70", "thimble-backwards"), found("0.20", Some("0.30"), "7.80"));
        assert_eq!(at("7.70", "decimal-slip"), found("7.70", Some("77.00"), "77.00"));
        // A half line that is counted and does not show has no place in the right column.
        assert_eq!(at("7.20", "half-line-added"), (None, Some("0.50".to_owned()), "7.70".to_owned()));
        // 9.48 taken for 9.98: the half line is counted before it is reached; 9.98 for 10.48 changes two marks of one scale.
        assert_eq!(at("9.98", "line-early"), found("9.50", Some("10.00"), "10.48"));
        let zero = |by| replaced("micrometer-metric", "7.70", "0.02", by);
        assert_eq!(zero("zero-ignored"), found("-0.02", None, "7.70"));
        assert_eq!(zero("zero-wrong-sign"), found("-0.02", Some("0.02"), "7.72"));
        assert_eq!(zero("half-line-missed"), found("0.50", None, "7.18"));
        // Main scale 1.475 and line 11: the vernier left out leaves 1.475 (the reading is that of TM 9-243, p. 6-4).
        let vernier = replaced("caliper-inch-25", "1.486", "0", "vernier-ignored");
        assert_eq!(vernier, found("0.011", Some("0.000"), "1.475"));
    }
}

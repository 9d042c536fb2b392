//! Two misreads at once. Each replaces a step of its own, so what each adds is added.

use super::{Asks, Case, Misread, On, Wrong};
use crate::exact::Exact;

/// The part of a reading that a misread does wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A scale, or what is added to them.
    Stage(usize),
    /// Allowing for zero, after all scales.
    Zero,
}

impl Misread {
    /// The part that a wrong answer of it does wrong; none of one over the whole figure, or where more than the scales is asked.
    pub fn part(&self, case: &Case<'_>, wrong: &Wrong) -> Option<Part> {
        let scales_alone = matches!(case.asks, Asks::Reading | Asks::Corrected | Asks::ZeroError);
        let zero = (self.on == [On::ZeroError]).then_some(Part::Zero);
        wrong.stage.map(Part::Stage).or(zero).filter(|_| scales_alone)
    }
}

/// What someone answers who does both; none where they are of the same part.
pub fn together(
    case: &Case<'_>,
    (a, one): (&Misread, &Wrong),
    (b, other): (&Misread, &Wrong),
) -> Option<Exact> {
    let apart = a.part(case, one)? != b.part(case, other)?;
    apart.then(|| one.answer + other.answer - case.expected())
}

#[cfg(test)]
mod tests {
    use super::super::named;
    use super::*;
    use crate::drill::Question;
    use crate::exact::parse_answer;
    use crate::instrument::{Catalogue, Variant};

    /// Worked by hand: 7.83 is 7 and a half line and 33. Without the half line 7.33; 33 counted back from 50 is 17: 7.67; both:
    /// 7.17. Where the tool reads 0.02 when closed, 7.81 is right, and who forgets that as well says 7.33.
    #[test]
    fn two_steps_by_hand() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped").fitted(&Variant::default());
        let value = |text: &str| parse_answer(text, tool.unit).expect("a number").value;
        let at = |text: &str| tool.lattice.at(value(text)).expect("on its lines");
        let both = |zero: &str, a: &str, b: &str| {
            let question = Question::new(&tool, 1, at("7.83"), at(zero), Variant::default());
            let case = question.case(&tool);
            let [a, b] = [a, b].map(|id| named(id).expect("it is listed"));
            together(&case, (a, &a.wrong(&case)[0]), (b, &b.wrong(&case)[0]))
        };
        assert_eq!(both("0", "half-line-missed", "thimble-backwards"), Some(value("7.17")));
        assert_eq!(both("0.02", "zero-ignored", "half-line-missed"), Some(value("7.33")));
        assert_eq!(both("0", "half-line-missed", "line-missed"), None);
        assert_eq!(both("0", "half-line-missed", "decimal-slip"), None);
    }
}

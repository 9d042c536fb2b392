//! Estimate first: about where is it? Then the reading, under the glass that is opened there.
//!
//! On a tool with a vernier: how far its 0 stands past a line of the scale, which says where on the vernier to look. On any
//! other: about what size it is, which keeps whole turns and lines right. Nothing is drawn but where the tool stands.

use super::{Asked, Figure, Given, Part, Wanted, plain_reading};
use crate::drill::Kind;
use crate::drill::generate::Seed;
use crate::drill::mark::Found;
use crate::exact::Exact;
use crate::instrument::{Form, Instrument};
use crate::reading::misread;

/// What is estimated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// How far the 0 of the vernier stands past the line before it.
    Past {
        /// The stage of the vernier.
        vernier: usize,
    },
    /// The whole size.
    Size,
}

/// A guess is near enough within a fifth of the vernier either way.
const OF_VERNIER: i128 = 5;

/// The estimate, then the reading.
pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32) -> Option<Vec<Part>> {
    let reading = Part::reading(instrument, plain_reading(instrument, seed, number));
    Some(vec![guess(&reading)?, reading])
}

/// The estimate that goes before a reading.
fn guess(reading: &Part) -> Option<Part> {
    let mut guess = reading.clone();
    let tool = &reading.tool;
    let finest = tool.finest()?;
    let (about, expected, slack, low) = match &tool.stages[finest].form {
        Form::Vernier(vernier) => {
            let step = reading.question.reading.steps.iter().find(|step| step.stage == finest)?;
            let whole = tool.value(vernier.least_count * vernier.parts);
            let slack = whole.over(Exact::whole(OF_VERNIER));
            (About::Past { vernier: finest }, tool.value(step.value), slack, Some(Exact::ZERO))
        }
        _ => (About::Size, reading.question.expected(tool), coarse_step(tool)?, None),
    };
    let lowest = low.unwrap_or(expected - slack);
    guess.kind = Kind::EstimateFirst;
    guess.asked = Asked::About { about };
    guess.wanted = Wanted::Figure(Figure {
        unit: tool.unit,
        notation: tool.notation,
        expected,
        accepted: [lowest.max(expected - slack), expected + slack],
        slips: slips(&guess, about, expected, slack),
    });
    Some(guess)
}

/// How far off a guess of the size may be: half a line of the scale that counts the turns, else a quarter of the way from one
/// figure to the next.
fn coarse_step(tool: &Instrument) -> Option<Exact> {
    let scales: Vec<&Form> =
        tool.stages.iter().map(|stage| &stage.form).filter(|form| !matches!(form, Form::Fixed(_))).collect();
    let (at, parts) = match scales.as_slice() {
        [coarse, _, ..] => (super::line_worth::line_of(coarse)?, 2),
        [alone] => (super::line_worth::figures_of(alone)?, 4),
        [] => return None,
    };
    Some(tool.value(at).over(Exact::whole(parts)))
}

/// The misreads of one scale that lead so far off that no guess near theirs is near the right one.
fn slips(part: &Part, about: About, expected: Exact, slack: Exact) -> Vec<Found> {
    let mut all = match about {
        About::Past { vernier } => part.slips_of_stage(vernier, expected),
        About::Size => {
            let case = part.question.case(&part.tool);
            let found = |misread: &'static crate::reading::Misread| {
                let of_a_scale = misread.wrong(&case).into_iter().filter(|wrong| wrong.stage.is_some());
                of_a_scale.map(move |wrong| Found { misread, wrong })
            };
            misread::ALL.into_iter().flat_map(found).collect()
        }
    };
    all.retain(|found| (found.wrong.answer - expected).abs() >= slack + slack);
    all
}

impl Part {
    /// Over which line of the vernier the glass is to be opened in the next part, after this was answered: where the match was
    /// looked for.
    pub fn glass_after(&self, given: &Given) -> Option<i64> {
        let (Asked::About { about: About::Past { vernier } }, Given::Typed(typed)) = (&self.asked, given)
        else {
            return None;
        };
        let Form::Vernier(vernier) = &self.tool.stages[*vernier].form else { return None };
        let lines = typed.value.over(self.tool.value(vernier.least_count)) + Exact::ratio(1, 2);
        let nearest = i64::try_from(lines.numerator().div_euclid(lines.denominator())).ok()?;
        Some(self.tool.glass_line(nearest.clamp(0, vernier.parts)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::every;
    use super::*;
    use crate::drill::{Question, Verdict};
    use crate::exact::{Quanta, parse_answer};
    use crate::instrument::Catalogue;

    fn guessed(id: &str, at: Exact, text: &str) -> (Verdict, Vec<&'static str>, Option<i64>) {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get(id).expect("shipped");
        let fitted = tool.fitted(&tool.plain());
        let at = fitted.lattice.at(at).expect("a setting");
        let question = Question::new(&fitted, 1, at, Quanta::ZERO, tool.plain());
        let part = guess(&Part::reading(tool, question)).expect("it has scales");
        let given = Given::Typed(parse_answer(text, tool.unit).expect("a figure"));
        let marked = part.mark(&given);
        let slips = marked.slips.iter().map(|found| found.misread.id).collect();
        (marked.verdict, slips, part.glass_after(&given))
    }

    /// W64 of the worked readings: 27.36, main scale 27, vernier line 18: 0.36 past the line.
    #[test]
    fn where_to_look_on_a_vernier() {
        let at = Exact::ratio(2736, 100);
        let right = |text, line| {
            assert_eq!(
                guessed("caliper-metric-50", at, text),
                (Verdict::Right, vec![], Some(line)),
                "{text}"
            );
        };
        right("0.4", 20);
        right("1/3", 17);
        right("0.36", 18);
        right(".55", 28);
        assert_eq!(guessed("caliper-metric-50", at, "0.6"), (Verdict::Other, vec![], Some(30)));
        // 6 lines from the 0 are 44 from the other end.
        let backwards = guessed("caliper-metric-50", Exact::ratio(2712, 100), "0.9");
        assert_eq!(backwards, (Verdict::Misread, vec!["vernier-backwards"], Some(45)));
        // More than the whole vernier: the glass stays on it.
        assert_eq!(guessed("caliper-metric-50", at, "27").2, Some(50));
    }

    /// Sleeve 8 and the half line, thimble 34 (8.84): within a quarter of a millimetre, half a turn.
    #[test]
    fn about_what_size_on_a_micrometer() {
        let at = Exact::ratio(884, 100);
        for near in ["8.8", "9", "8 3/4", "8.6"] {
            assert_eq!(guessed("micrometer-metric", at, near), (Verdict::Right, vec![], None), "{near}");
        }
        let (verdict, slips, _) = guessed("micrometer-metric", at, "8.3");
        assert_eq!((verdict, slips[0]), (Verdict::Misread, "half-line-missed"));
        assert_eq!(guessed("micrometer-metric", at, "14").0, Verdict::Other);
    }

    #[test]
    fn a_reading_follows() {
        for (tool, task) in every(Kind::EstimateFirst, 20) {
            let [guess, reading] = task.parts.as_slice() else { panic!("two parts") };
            assert_eq!((guess.kind, reading.kind), (Kind::EstimateFirst, Kind::Read), "{}", tool.id);
            assert_eq!(guess.pictures, reading.pictures, "{}", tool.id);
        }
    }
}

//! What was answered, found again in its record.

use super::{Given, Part, Wanted};
use crate::drill::record::Attempt;
use crate::exact::parse_answer;

impl Part {
    /// What was given for this part, as its record has it; none where the record's answer is none to this part.
    pub fn given_in(&self, attempt: &Attempt) -> Option<Given> {
        if !attempt.verdict.is_answer() {
            return Some(Given::Skipped);
        }
        let answer = attempt.answer.as_str();
        match &self.wanted {
            Wanted::Reading | Wanted::Figure(_) => self.typed(answer).ok().map(Given::Typed),
            Wanted::Choice(choice) => {
                let says = |place: &usize| self.given_word(&Given::Chosen(*place)) == answer;
                (0..choice.options.len()).find(says).map(Given::Chosen)
            }
            Wanted::Setting(_) => {
                let left = parse_answer(answer, self.tool.unit).ok()?;
                self.tool.lattice.at(left.value).map(Given::Left)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::drill::Kind;
    use crate::drill::record::{self, Attempt};
    use crate::drill::task::testing::{every, right};
    use crate::drill::task::{Given, Wanted};

    fn recorded(answer: String, verdict: record::Verdict) -> Attempt {
        Attempt {
            learner: "k7".to_owned(),
            at: String::new(),
            instrument: String::new(),
            revision: String::new(),
            generator: 0,
            seed: 0,
            number: 1,
            variant: String::new(),
            conditions: String::new(),
            kind: Kind::Read,
            given: String::new(),
            asks: record::Asks::Reading,
            setting: String::new(),
            zero_error: String::new(),
            view: record::View::Held,
            glass: false,
            lines: String::new(),
            cols: 80,
            rows: 24,
            answer,
            expected: String::new(),
            verdict,
            misreads: Vec::new(),
            took_ms: 0,
        }
    }

    #[test]
    fn what_was_given_is_found_in_the_record_of_every_kind() {
        for kind in Kind::ALL {
            let mut met = 0;
            for (tool, task) in every(*kind, 3) {
                for part in &task.parts {
                    let mut all = vec![Given::Skipped];
                    match &part.wanted {
                        Wanted::Choice(choice) => all.extend((0..choice.options.len()).map(Given::Chosen)),
                        Wanted::Setting(setting) => {
                            all.extend([setting.from, setting.to, part.tool.low].map(Given::Left));
                        }
                        Wanted::Reading | Wanted::Figure(_) => all.extend(right(part)),
                    }
                    for given in all {
                        let verdict = part.mark(&given).verdict;
                        let found = part.given_in(&recorded(part.given_word(&given), verdict));
                        assert_eq!(found, Some(given), "{kind} {} {}", tool.id, task.number);
                        met += 1;
                    }
                }
            }
            assert!(met > 0, "{kind}");
        }
    }
}

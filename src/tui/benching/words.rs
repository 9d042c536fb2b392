//! The words under the pictures of the bench.

use super::BenchScreen;
use crate::drill::Role;
use crate::drill::record::Verdict;
use crate::drill::task::{Given, Wanted};
use crate::session::{Stand, Told};
use crate::tui::model::Model;
use crate::tui::widget::wrap;
use crate::wording;
use crate::wording::{bench as say, exercise, task};

/// A row under the picture.
pub enum Row {
    /// A text.
    Text(String, Tone),
    /// The answer field.
    Field,
    /// Answers offered.
    Answers {
        /// The place of the first of them.
        first: usize,
        /// Cells for each.
        cells: u16,
        /// What they say.
        answers: Vec<String>,
    },
}

/// How a text is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// As it is.
    Plain,
    /// So that it may be overlooked.
    Quiet,
    /// The verdict on a right answer.
    Right,
    /// On a wrong one.
    Wrong,
}

impl Model {
    /// The words under the pictures.
    pub(super) fn bench_rows(&self, bench: &BenchScreen, width: u16) -> Vec<Row> {
        let mut words = Words { rows: Vec::new(), width, beside: self.bench_score(bench).chars().count() };
        let part = bench.run.part();
        let notice = || self.notice.clone().unwrap_or_default();
        if let (Some(place), Stand::Asking { .. }) = (bench.before, bench.run.stand()) {
            let role = bench.earlier().get(place).map_or(Role::Measuring, |sight| sight.role);
            words.say(wording::beside(&part.tool, role), Tone::Plain);
            words.say(self.notice.as_deref().unwrap_or("Enter to go on."), Tone::Quiet);
            return words.rows;
        }
        if let (Stand::Told(_), true) = (bench.run.stand(), bench.is_silent()) {
            words.say(exercise::TAKEN, Tone::Quiet);
            return words.rows;
        }
        if let Stand::Told(told) = bench.run.stand() {
            words.told(self, bench, told);
            return words.rows;
        }
        if let Some(sight) = bench.again.and_then(|place| bench.earlier().into_iter().nth(place)) {
            words.say(wording::once_more(sight.role), Tone::Plain);
        } else {
            let sketched = matches!(part.wanted, Wanted::Reading);
            for row in wording::sketch(part.question.asks).filter(|_| sketched).into_iter().flatten() {
                words.say(row, Tone::Plain);
            }
            for line in task::asked(part) {
                words.say(&line, Tone::Plain);
            }
        }
        match (&part.wanted, bench.run.stand()) {
            (Wanted::Choice(_), _) => {
                words.answers(&task::offered(part));
                let usual = if bench.turned { say::PICTURE_ON_A_KEY } else { say::CHOOSE };
                let word = self.notice.clone().unwrap_or_else(|| usual.to_owned());
                words.say(&word, Tone::Quiet);
            }
            (Wanted::Setting(_), Stand::Locked { .. }) => {
                words.say(say::LOCKED, Tone::Plain);
                words.say(&notice(), Tone::Quiet);
            }
            (Wanted::Setting(_), _) => {
                words.say(&say::strokes(&part.tool, &part.tool.travel()), Tone::Quiet);
                words.say(&notice(), Tone::Quiet);
            }
            (_, stand) => {
                words.rows.push(Row::Field);
                let again = match stand {
                    Stand::Asking { again } if bench.hinted => again.as_ref().map(ToString::to_string),
                    _ => None,
                };
                words.say(&again.unwrap_or_else(notice), Tone::Quiet);
            }
        }
        words.rows
    }

    /// The question alone, where answers are offered: for a picture that has no room beside them.
    pub(super) fn bench_rows_without_answers(&self, bench: &BenchScreen, width: u16) -> Option<Vec<Row>> {
        let part = bench.run.part();
        let asked =
            matches!(bench.run.stand(), Stand::Asking { .. }) && bench.before.or(bench.again).is_none();
        if !asked || !matches!(part.wanted, Wanted::Choice(_)) {
            return None;
        }
        let mut words = Words { rows: Vec::new(), width, beside: self.bench_score(bench).chars().count() };
        for line in task::asked(part) {
            words.say(&line, Tone::Plain);
        }
        words.say(self.notice.as_deref().unwrap_or(say::ANSWERS_ON_A_KEY), Tone::Quiet);
        Some(words.rows)
    }
}

/// Lines being written, no wider than there is room.
struct Words {
    rows: Vec<Row>,
    width: u16,
    /// What stands at the right end of the first row.
    beside: usize,
}

impl Words {
    fn line(&mut self, text: String, tone: Tone) {
        self.rows.push(Row::Text(text, tone));
    }

    /// A sentence; columns are kept where they fit.
    fn say(&mut self, sentence: &str, tone: Tone) {
        let beside = if self.rows.is_empty() { self.beside + 2 } else { 0 };
        let room = usize::from(self.width).saturating_sub(beside);
        if sentence.chars().count() <= room {
            return self.line(sentence.to_owned(), tone);
        }
        for text in wrap(sentence, u16::try_from(room).unwrap_or(self.width)) {
            self.line(text, tone);
        }
    }

    /// Answers with their numbers, in as many columns as there is room for.
    fn answers(&mut self, offered: &[String]) {
        const GAP: usize = 6;
        let widest = offered.iter().map(|answer| answer.chars().count()).max().unwrap_or(0) + GAP;
        let columns = (usize::from(self.width) / widest.max(1)).clamp(1, 4);
        // One sentence a row; figures stand beside each other.
        let columns = if widest > 24 { 1 } else { columns };
        for from in (0..offered.len()).step_by(columns) {
            let answers = offered[from..].iter().take(columns).cloned().collect();
            let cells = u16::try_from(widest).unwrap_or(self.width);
            self.rows.push(Row::Answers { first: from, cells, answers });
        }
    }

    fn told(&mut self, model: &Model, bench: &BenchScreen, told: &Told) {
        let part = bench.run.part();
        let Told { given, marked } = told;
        let (sign, tone) = match marked.verdict {
            Verdict::Right | Verdict::RightValue => ("\u{2713} ", Tone::Right),
            Verdict::Misread | Verdict::Other => ("x ", Tone::Wrong),
            Verdict::Skipped => ("- ", Tone::Plain),
        };
        let typed = match given {
            Given::Skipped => String::new(),
            // What was chosen is named by the verdict.
            Given::Chosen(_) if marked.verdict.is_right() => String::new(),
            Given::Chosen(place) => {
                task::offered(part).get(*place).map_or_else(String::new, |says| format!("\"{says}\": "))
            }
            Given::Typed(_) | Given::Left(_) => format!("{}: ", part.given_word(given)),
        };
        self.say(&format!("{sign}{typed}{}", task::told(part, marked)), tone);
        if let Some(problem) = &model.store_problem {
            self.say(&wording::saved(Some(problem)), Tone::Plain);
        }
        for line in task::why(part, given, marked) {
            self.say(&line, Tone::Plain);
        }
        if let Some(note) = marked.note {
            self.say(wording::note(note), Tone::Plain);
        }
    }
}

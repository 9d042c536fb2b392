//! After the answer: the verdict, what was done, and the steps; where a step was replaced, both ways side by side.

use super::score_of;
use crate::drill::Verdict;
use crate::reading::{Beside, Share, What, beside};
use crate::session::Answered;
use crate::tui::model::{Model, PracticeScreen};
use crate::tui::widget::{wrap, write};
use crate::wording;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// What is said about an answer.
pub(super) struct Told {
    verdict: (String, Style),
    lines: Vec<Line>,
    /// The line that must be in view.
    focus: usize,
}

struct Line {
    text: String,
    style: Style,
}

impl Told {
    /// How many rows it takes.
    pub(super) fn rows(&self) -> u16 {
        u16::try_from(self.lines.len() + 1).unwrap_or(u16::MAX)
    }

    /// Writes it; what finds no room is scrolled, so that the step that is up is in view.
    pub(super) fn write(&self, area: Rect, buffer: &mut Buffer) {
        let (verdict, style) = &self.verdict;
        write(buffer, area, 0, &format!("{verdict}  "), *style);
        let room = usize::from(area.height).saturating_sub(1);
        let most = self.lines.len().saturating_sub(room);
        let from = (self.focus + 1).saturating_sub(room).min(most);
        for (row, line) in (1..area.height).zip(&self.lines[from..]) {
            write(buffer, area, row, &line.text, line.style);
        }
    }
}

/// All that is said about an answer in so many columns. Where there are too few rows for it, and no key brings the rest into
/// view, the steps are said in one go.
pub(super) fn told(
    model: &Model,
    practice: &PracticeScreen,
    answered: &Answered,
    width: u16,
    rows: u16,
) -> Told {
    let told = in_steps(model, practice, answered, Page::of(width, Steps::Each));
    let at_once = practice.told == usize::MAX && told.rows() > rows;
    if at_once { in_steps(model, practice, answered, Page::of(width, Steps::Together)) } else { told }
}

fn in_steps(model: &Model, practice: &PracticeScreen, answered: &Answered, mut page: Page) -> Told {
    let instrument = model.instrument(practice);
    let mark = &answered.mark;
    let question = practice.run.question();
    let (sign, style) = match mark.verdict {
        Verdict::Right | Verdict::RightValue => ("\u{2713} ", model.theme.right()),
        Verdict::Misread | Verdict::Other => ("x ", model.theme.wrong()),
        Verdict::Skipped => ("- ", Style::new()),
    };
    let typed = if answered.answer.is_empty() { String::new() } else { format!("{}: ", answered.answer) };
    let verdict = wording::verdict(instrument, question.asks, mark);
    let mut verdict = format!("{sign}{typed}{verdict}");
    // What does not fit beside the score goes on a row of its own.
    let beside = usize::from(page.width).saturating_sub(score_of(model, practice).chars().count() + 2);
    if verdict.chars().count() > beside
        && let Some((first, more)) = verdict.split_once("; ").or_else(|| verdict.split_once(". "))
    {
        page.say(more);
        verdict = format!("{first}.");
    }
    // What could not be kept comes before what was read wrong.
    if let Some(problem) = &model.store_problem
        && matches!(practice.told, 0 | usize::MAX)
    {
        page.say(&wording::saved(Some(problem)));
    }
    if let Some(word) = &practice.word {
        page.say(&wording::repair(word));
    }
    page.explain(model, practice, answered);
    Told { verdict: (verdict, style), lines: page.lines, focus: page.focus }
}

/// How the steps are said.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Steps {
    /// A line each.
    Each,
    /// One after the other.
    Together,
}

struct Page {
    lines: Vec<Line>,
    focus: usize,
    width: u16,
    steps: Steps,
}

impl Page {
    fn of(width: u16, steps: Steps) -> Self {
        Self { lines: Vec::new(), focus: 0, width, steps }
    }

    fn say(&mut self, sentence: &str) {
        let lines = wrap(sentence, self.width);
        self.lines.extend(lines.into_iter().map(|text| Line { text, style: Style::new() }));
    }

    fn line(&mut self, text: String, style: Style) {
        self.lines.push(Line { text, style });
    }

    fn explain(&mut self, model: &Model, practice: &PracticeScreen, answered: &Answered) {
        let instrument = model.instrument(practice);
        let question = practice.run.question();
        let case = question.case(instrument);
        let mark = &answered.mark;
        let found = mark.misreads.first();
        if let Some(found) = found {
            self.say(&found.wrong.did);
        }
        let both = found.and_then(|found| beside(&case, found.misread, &found.wrong));
        let shares = &answered.shares;
        // The step whose line is lit at last.
        let up = practice.told.checked_sub(1).and_then(|last| shares.get(last));
        match &both {
            Some(both) => self.two_columns(model, practice, both, up),
            None => self.steps(model, practice, shares, up),
        }
        if both.is_none() {
            let sum = wording::sum(instrument, &question.reading, shares, question.zero_error, question.asks);
            self.say(&sum);
        }
        if let Some(found) = found {
            self.say(found.misread.cure);
        }
        for line in wording::worked(&case) {
            self.say(&line);
        }
        if let Some(note) = mark.note {
            self.say(wording::note(note));
        }
        if let Some(advice) = wording::advice(&question.conditions) {
            self.say(advice);
        }
        // After the last step comes all that stands below the steps.
        if practice.told == shares.len() && practice.told > 0 {
            self.focus = self.lines.len() - 1;
        }
    }

    fn two_columns(&mut self, model: &Model, practice: &PracticeScreen, both: &Beside, up: Option<&Share>) {
        let instrument = model.instrument(practice);
        self.line(wording::beside::heading(), Style::new().add_modifier(Modifier::DIM));
        for row in &both.rows {
            let is_up = up.is_some_and(|up| match &row.what {
                What::Share(share) => share == up,
                What::Stage(stage) => *stage == up.stage,
                What::Zero | What::SetUp(_) | What::Figure => false,
            });
            let style = if row.is_replaced() { model.theme.wrong() } else { Style::new() };
            self.line(wording::beside::row(instrument, row, is_up), style);
            if is_up {
                self.focus = self.lines.len() - 1;
            }
        }
        let bold = Style::new().add_modifier(Modifier::BOLD);
        self.line(wording::beside::sums(instrument, both), bold);
    }

    fn steps(&mut self, model: &Model, practice: &PracticeScreen, shares: &[Share], up: Option<&Share>) {
        let instrument = model.instrument(practice);
        if self.steps == Steps::Together {
            let one =
                |share| format!("{} {}", wording::share(instrument, share), instrument.spell(share.value));
            self.say(&shares.iter().map(one).collect::<Vec<_>>().join("; "));
            return;
        }
        for share in shares {
            let is_up = up == Some(share);
            let sign = if is_up { ">" } else { "" };
            let value = instrument.spell(share.value);
            self.line(
                format!("{sign:<2}{:<44} {value:>10}", wording::share(instrument, share)),
                Style::new(),
            );
            if is_up {
                self.focus = self.lines.len() - 1;
            }
        }
    }
}

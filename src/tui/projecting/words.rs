//! The words of a round for a room.

use super::{Layout, Pictures, ProjectScreen, Shows};
use crate::drill::task::{Given, Part, Wanted};
use crate::drill::{Role, Sight};
use crate::exact::Quanta;
use crate::session::Stage;
use crate::tui::widget::wrap;
use crate::wording::project as say;
use crate::wording::{self, task};
use ratatui::layout::Rect;

/// A line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it says.
    pub text: String,
    /// How.
    pub tone: Tone,
}

/// How a line is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// The question, a step.
    Strong,
    /// As it is.
    Plain,
    /// What may be overlooked.
    Quiet,
    /// The answer.
    Answer,
}

/// All that is said on a page.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Said {
    /// The lines.
    pub lines: Vec<Line>,
    /// What stands large beside them.
    pub figures: Option<String>,
    /// What is left of the question's time, and the whole, in seconds.
    pub bar: Option<(u64, u64)>,
    /// Lines that have no room.
    pub hidden: usize,
    /// The bar stands beside the figures.
    pub bar_beside: bool,
}

/// True where there are answers to choose from.
pub(super) fn offers_answers(part: &Part) -> bool {
    matches!(part.wanted, Wanted::Choice(_))
}

impl Said {
    fn say(&mut self, text: &str, tone: Tone, width: u16) {
        // Columns are kept where they fit.
        let fits = text.chars().count() <= usize::from(width);
        let lines = if fits { vec![text.to_owned()] } else { wrap(text, width) };
        self.lines.extend(lines.into_iter().filter(|text| !text.is_empty()).map(|text| Line { text, tone }));
    }
}

/// The words of a page, as many as there is room for.
pub(super) fn words(screen: &ProjectScreen, layout: Layout, shows: Shows, pages: usize, text: Rect) -> Said {
    let mut said = match screen.run.stage() {
        Stage::Told(told) => told_words(screen, layout, told, text),
        _ => asked_words(screen, layout, shows, pages, text),
    };
    let bar = u16::from(said.bar.is_some());
    let room = usize::from(text.height.saturating_sub(bar));
    let hidden = said.lines.len().saturating_sub(room + screen.from);
    // How many there are is said in the last row.
    let room = if hidden > 0 { room.saturating_sub(1).max(2) } else { room };
    let hidden = if hidden > 0 { said.lines.len().saturating_sub(room + screen.from) } else { 0 };
    if screen.from > 0 || hidden > 0 {
        // The first line stays.
        let from = screen.from.min(said.lines.len().saturating_sub(room));
        said.lines.drain(1..=from.min(said.lines.len() - 1));
        said.lines.truncate(room);
        said.hidden = hidden;
    }
    said
}

/// Before the answer.
pub(super) fn asked_words(
    screen: &ProjectScreen,
    layout: Layout,
    shows: Shows,
    pages: usize,
    text: Rect,
) -> Said {
    let run = &screen.run;
    let left = run.time_left(screen.now);
    let whole = run.pace().question;
    let (Some(left), Some(whole)) = (left.map(ceiling), whole.map(|whole| whole.as_secs())) else {
        let mut said = Said::default();
        question(screen, layout, shows, pages, &mut said, text.width);
        return said;
    };
    // As much room is left as the longest time needs, so that nothing moves as it runs.
    let longest = "0".repeat(whole.to_string().len());
    let width = super::beside(text.width, Some(&longest), layout.scale());
    let mut said = Said::default();
    if matches!(run.stage(), Stage::Before(_)) {
        question(screen, layout, shows, pages, &mut said, text.width);
        return said;
    }
    said.figures = Some(left.to_string());
    said.bar = Some((left, whole));
    said.bar_beside = layout == Layout::Closest;
    question(screen, layout, shows, pages, &mut said, width);
    said
}

fn question(screen: &ProjectScreen, layout: Layout, shows: Shows, pages: usize, said: &mut Said, width: u16) {
    let run = &screen.run;
    let part = run.part();
    let status = status(screen);
    if let Stage::Before(seen) = run.stage() {
        let sight: Option<Sight> = run.earlier().into_iter().nth(seen);
        let role = sight.map_or(Role::Measuring, |sight| sight.role);
        said.say(wording::beside(&part.tool, role), Tone::Strong, width);
        said.say(&status, Tone::Plain, width);
        if layout != Layout::Closest {
            said.say(say::FIRST, Tone::Quiet, width);
        }
        return;
    }
    let sketched = matches!(part.wanted, Wanted::Reading);
    for row in wording::sketch(part.question.asks).filter(|_| sketched).into_iter().flatten() {
        said.say(row, Tone::Plain, width);
    }
    for line in task::asked(part) {
        said.say(&line, Tone::Strong, width);
    }
    if shows.answers {
        offered(part, said, width);
    }
    let up = run.time_left(screen.now).is_some_and(|left| left.is_zero());
    let more = pages > 1 && shows.pictures != Pictures::None;
    let word = match (run.is_paused(), up) {
        (true, _) => say::STOPPED,
        _ if more && !up => say::MORE_PAGES,
        (false, true) => say::UP,
        (false, false) => say::WRITE,
    };
    let left_out = screen.left_out.map(|(number, size)| say::left_out(number, size));
    match layout {
        Layout::Roomy | Layout::Usual | Layout::Near => {
            said.say(word, Tone::Plain, width);
            said.say(left_out.as_deref().unwrap_or_default(), Tone::Quiet, width);
            let teams = say::teams(&run.points());
            said.say(&status, Tone::Plain, width);
            said.say(&teams, Tone::Plain, width);
        }
        Layout::Close | Layout::Closest => {
            let both = format!("{status}   {word}");
            let room = both.chars().count() <= usize::from(width);
            // What has to be done comes before what is left.
            let changed = word != say::WRITE;
            let line = if room {
                both
            } else if changed {
                word.to_owned()
            } else {
                status
            };
            said.say(&line, Tone::Plain, width);
        }
    }
}

fn status(screen: &ProjectScreen) -> String {
    let run = &screen.run;
    say::status(&say::which(run.which(), run.which_part()), run.round_left(screen.now))
}

/// The answer: a share of the reading after the other, then the sum; anything else at once.
fn told_words(screen: &ProjectScreen, layout: Layout, told: usize, text: Rect) -> Said {
    let run = &screen.run;
    let part = run.part();
    let (tool, question) = (&part.tool, &part.question);
    let shares = run.shares();
    let mut said = Said::default();
    let width = |figures: &str| super::beside(text.width, Some(figures), layout.scale());
    let teams = say::teams(&run.points());
    let below = if teams.is_empty() { status(screen) } else { teams };
    if let Some(share) = shares.get(told) {
        let value = tool.spell(share.value);
        let width = width(&value);
        said.say(&wording::share(tool, share), Tone::Strong, width);
        if told > 0 {
            let sum = shares.iter().take(told + 1).fold(Quanta::ZERO, |sum, share| sum + share.value);
            said.say(&say::so_far(&tool.spell(sum)), Tone::Plain, width);
        }
        said.figures = Some(value);
        said.say(&below, Tone::Plain, width);
        return said;
    }
    let figures = match &part.wanted {
        Wanted::Reading => tool.notation.spell(question.expected(tool)),
        Wanted::Figure(figure) => figure.notation.spell(figure.expected),
        Wanted::Choice(choice) => say::letter(choice.right).to_string(),
        Wanted::Setting(setting) => tool.spell(setting.to),
    };
    let width = width(&figures);
    said.figures = Some(figures);
    if matches!(part.wanted, Wanted::Reading) {
        let sum = wording::sum(tool, &question.reading, &shares, question.zero_error, question.asks);
        said.say(&sum, Tone::Strong, width);
        for line in wording::worked(&question.case(tool)) {
            said.say(&line, Tone::Plain, width);
        }
    } else {
        let given = Given::Skipped;
        said.say(&task::right(part), Tone::Answer, width);
        for line in task::why(part, &given, &part.mark(&given)) {
            said.say(&line.split_whitespace().collect::<Vec<_>>().join(" "), Tone::Plain, width);
        }
    }
    said.say(&below, Tone::Plain, width);
    said
}

/// The answers offered, several in a row where they are short.
fn offered(part: &Part, said: &mut Said, width: u16) {
    const GAP: usize = 4;
    let all: Vec<String> =
        task::offered(part).iter().enumerate().map(|(place, says)| say::offered(place, says)).collect();
    let widest = all.iter().map(|answer| answer.chars().count()).max().unwrap_or(0) + GAP;
    let columns = ((usize::from(width) + GAP) / widest.max(1)).max(1);
    for row in all.chunks(columns) {
        let cells: Vec<String> = row.iter().map(|answer| format!("{answer:<widest$}")).collect();
        said.say(cells.concat().trim_end(), Tone::Plain, width);
    }
}

/// Whole seconds, a part of one counting as one.
fn ceiling(left: std::time::Duration) -> u64 {
    left.as_secs() + u64::from(left.subsec_nanos() > 0)
}

//! Questions of other kinds between the readings of a long round.

use super::{Aim, Item, Tool, item};
use crate::drill::{Kind, Level};
use crate::learner::calendar::Day;
use crate::learner::level::proposed;

/// Readings between two of them.
const BETWEEN: usize = 6;

/// The same with questions of other kinds between, on the instruments of the round in turn.
pub(super) fn with_others(readings: Vec<Item>, tools: &[Tool<'_>], day: Day) -> Vec<Item> {
    let mut on: Vec<&Tool<'_>> = Vec::new();
    for reading in &readings {
        let tool = tools.iter().find(|tool| tool.instrument.id == reading.instrument);
        if let Some(tool) =
            tool.filter(|tool| on.iter().all(|known| known.instrument.id != tool.instrument.id))
        {
            on.push(tool);
        }
    }
    let turns = readings.len() / BETWEEN;
    let mut tasks = on.iter().cycle().take(turns).enumerate().map(|(n, tool)| {
        let turn = i32::try_from(n / on.len()).unwrap_or(0);
        Some(item(tool, Aim::Task { kind: another_kind(tool, day.0 + turn)? }))
    });
    let mut all = Vec::new();
    for (n, reading) in (1..).zip(readings) {
        all.push(reading);
        if n % BETWEEN == 0 {
            all.extend(tasks.next().flatten());
        }
    }
    all
}

/// A kind of question of the level that is proposed on an instrument, the one least answered first; those in turn by the day.
fn another_kind(tool: &Tool<'_>, turn: i32) -> Option<Kind> {
    let level = match proposed(Some(tool.kept), tool.instrument) {
        // On its own the traps' level is readings, which there are already.
        Level::Traps => Level::Pairs,
        level => level,
    };
    // What comes again comes within a run of its own.
    let fits = |kind: &Kind| !matches!(kind, Kind::Read | Kind::SameAgain);
    let mut kinds: Vec<Kind> = level.kinds(tool.instrument).into_iter().filter(fits).collect();
    if kinds.is_empty() {
        return None;
    }
    let by = usize::try_from(turn).unwrap_or(0) % kinds.len();
    kinds.rotate_left(by);
    let answered = |kind: &Kind| {
        let of_it = tool.kept.lately.iter().filter(|(known, _)| *known == kind);
        of_it.map(|(_, answers)| answers.len()).sum::<usize>()
    };
    kinds.into_iter().min_by_key(answered)
}

//! Setting a tool to a size, in words.

use crate::drill::task::{Given, Part, Setting, Wanted};
use crate::exact::Quanta;
use crate::reading::{pose, read, shares};
use crate::wording::explain;

/// The size, and in what order it is set.
pub(super) fn asked(part: &Part) -> Vec<String> {
    let Wanted::Setting(setting) = &part.wanted else { return Vec::new() };
    let size = size(part, setting);
    let first = if part.question.zero_error == Quanta::ZERO {
        format!("Set it to {size}.")
    } else {
        format!("Set it so that the true size is {size}, zero allowed for.")
    };
    vec![first, "Coarse, then fine; lock it; look again; leave it.".to_owned()]
}

fn size(part: &Part, setting: &Setting) -> String {
    part.tool.notation.spell_with_unit(part.size(setting), part.tool.unit)
}

/// Where it was left, what the lock did, and how the size is read.
pub(super) fn why(part: &Part, given: &Given) -> Vec<String> {
    let (Wanted::Setting(setting), tool) = (&part.wanted, &part.tool) else { return Vec::new() };
    let mut lines = Vec::new();
    if let Given::Left(at) = given
        && *at != setting.to
    {
        lines.push(format!("Left, it reads {}.", tool.spell_with_unit(*at)));
        if setting.creeps != Quanta::ZERO && *at - setting.to == setting.creeps {
            lines.push(
                "Locking moved it one line. Look again after locking; loosen it and set it once more."
                    .to_owned(),
            );
        }
    }
    let reading = read(tool, &pose(tool, setting.to, part.question.conditions.lead));
    let steps = shares(tool, &reading);
    let line = |share| format!("{:<44} {:>10}", explain::share(tool, share), tool.spell(share.value));
    lines.extend(steps.iter().map(line));
    let question = &part.question;
    lines.push(explain::sum(tool, &reading, &steps, question.zero_error, question.asks));
    lines
}

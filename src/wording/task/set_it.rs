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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::task::task;
    use crate::drill::{Kind, Seed};
    use crate::instrument::Catalogue;

    #[test]
    fn the_size_is_told_and_a_lock_that_pulled_is_blamed() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("caliper-metric-50").expect("shipped");
        let (mut pulled, mut zeros) = (0, 0);
        for task in (1..=60).filter_map(|number| task(Kind::SetIt, tool, Seed(4), number)) {
            let part = &task.parts[0];
            let Wanted::Setting(setting) = &part.wanted else { panic!("a setting") };
            let lines = asked(part);
            assert!(lines[0].contains(&size(part, setting)), "{}", lines[0]);
            let zero = part.question.zero_error != Quanta::ZERO;
            assert_eq!(lines[0].contains("zero allowed for"), zero);
            zeros += u32::from(zero);
            let blamed = |at: Quanta| {
                why(part, &Given::Left(at)).iter().any(|line| line.starts_with("Locking moved it"))
            };
            assert!(!blamed(setting.to));
            if setting.creeps != Quanta::ZERO {
                pulled += 1;
                assert!(blamed(setting.to + setting.creeps) && !blamed(setting.to - setting.creeps));
            }
        }
        assert!(pulled >= 5 && zeros >= 8, "{pulled} {zeros}");
    }
}

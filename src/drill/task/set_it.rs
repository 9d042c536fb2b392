//! The tool is set to a size: moved coarse and fine, locked, looked at again, left.
//!
//! Drawn after the size and what is fitted: how far off it stands at first, in fine strokes, from more than a coarse stroke to three, or
//! to the farthest; which way, below 2; then a number below 8, 0 and 1 meaning that its lock moves it one least count up or down.

use super::{Asked, Part, Setting, Wanted, in_good_order};
use crate::drill::Kind;
use crate::drill::draw::Draw;
use crate::drill::generate::Seed;
use crate::exact::Quanta;
use crate::instrument::{Instrument, Travel};

/// One tool in so many has a lock that moves it one way; as many the other way.
const CREEPS: u32 = 8;

/// Families with a lock that can pull: common practice. A rule, a collar and an indicator have none.
const LOCKED: [&str; 9] = [
    "micrometer",
    "caliper",
    "dial-caliper",
    "depth",
    "depth-gauge",
    "inside",
    "height-gauge",
    "gear-tooth",
    "protractor",
];

pub(super) fn parts(instrument: &Instrument, seed: Seed, number: u32, draw: &mut Draw) -> Vec<Part> {
    let question = in_good_order(instrument, seed, number, draw);
    let mut part = Part::reading(instrument, question);
    let (to, travel) = (part.question.setting, part.tool.travel());
    let from = elsewhere(&travel, to, draw);
    let creeps = match draw.below(CREEPS) {
        _ if !LOCKED.contains(&part.tool.family.as_str()) => Quanta::ZERO,
        0 => part.tool.least_count,
        1 => -part.tool.least_count,
        _ => Quanta::ZERO,
    };
    part.question = part.question.standing(&part.tool, from);
    part.pictures = vec![part.question.measuring(&part.tool)];
    part.kind = Kind::SetIt;
    part.asked = Asked::Size;
    part.wanted = Wanted::Setting(Setting { from, to, creeps });
    vec![part]
}

/// Where it stands at first: too far off to be set by fine strokes alone, near enough not to weary anybody.
fn elsewhere(travel: &Travel, to: Quanta, draw: &mut Draw) -> Quanta {
    let far = travel.far.max(travel.coarse * 3);
    let (least, most) = (travel.coarse.passed(travel.fine) + 1, far.passed(travel.fine));
    let spread = u32::try_from((most - least).max(1))
        .expect("the definition was checked: a bounded number of settings");
    let off = travel.fine * (least + i64::from(draw.below(spread)));
    let inside = |at: &Quanta| (travel.low..=travel.high).contains(at);
    let (first, second) = if draw.below(2) == 0 { (to - off, to + off) } else { (to + off, to - off) };
    // On a short scale there may be no room on either side: it starts from the end that is farther away.
    let end = if to - travel.low > travel.high - to { travel.low } else { travel.high };
    [first, second].into_iter().find(inside).unwrap_or(end)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drill::record::Verdict;
    use crate::drill::task::{Given, Task, task};
    use crate::instrument::Catalogue;

    fn tasks(tool: &Instrument) -> impl Iterator<Item = Task> + use<'_> {
        (1..=60).filter_map(|number| task(Kind::SetIt, tool, Seed(11), number))
    }

    fn setting(part: &Part) -> &Setting {
        match &part.wanted {
            Wanted::Setting(setting) => setting,
            other => panic!("not a setting: {other:?}"),
        }
    }

    #[test]
    fn every_tool_can_be_set_and_starts_elsewhere() {
        for tool in Catalogue::new(Vec::new()).all() {
            let mut count = 0;
            for task in tasks(tool) {
                count += 1;
                let part = &task.parts[0];
                let set = setting(part);
                assert_ne!(set.from, set.to, "{}", tool.id);
                for at in [set.from, set.to] {
                    assert!(part.tool.low <= at && at <= part.tool.high, "{}", tool.id);
                    assert!((at - part.tool.low).is_multiple_of(part.tool.step), "{}", tool.id);
                }
                assert_eq!(part.question.setting, set.from);
                assert_eq!(part.mark(&Given::Left(set.to)).verdict, Verdict::Right);
                assert!(!part.mark(&Given::Left(set.from)).verdict.is_right(), "{}", tool.id);
                assert!(!part.mark(&Given::Left(set.to + part.tool.least_count)).verdict.is_right());
            }
            assert_eq!(count, 60, "{}", tool.id);
        }
    }

    /// 12.34 mm on a tool that reads 0.02 mm too much stands at 12.36: the size is the reading less the zero error (common
    /// practice). Left at 12.34 the zero error was forgotten.
    #[test]
    fn a_zero_error_is_set_for() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let mut seen = 0;
        for task in tasks(tool) {
            let part = &task.parts[0];
            let (set, zero) = (setting(part), part.question.zero_error);
            if zero == Quanta::ZERO {
                continue;
            }
            seen += 1;
            assert_eq!(part.size(set), part.tool.value(set.to) - part.tool.value(zero));
            assert_eq!(part.earlier().len(), 1, "the closed tool is seen first");
            let forgot = part.mark(&Given::Left(set.to - zero));
            let names: Vec<_> = forgot.slips.iter().map(|found| found.misread.id).collect();
            assert!(names.contains(&"zero-ignored"), "{names:?}");
        }
        assert!(seen >= 6, "{seen}");
    }

    /// The half line: who sets 7.38 as 7.88 takes what shows half a millimetre too far for the size.
    #[test]
    fn where_it_was_left_names_what_was_done() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let half = tool.lattice.at(crate::exact::Exact::ratio(1, 2)).expect("on the lattice");
        let mut named = 0;
        for task in tasks(tool) {
            let part = &task.parts[0];
            let set = setting(part);
            let marked = part.mark(&Given::Left(set.to + half));
            named += usize::from(marked.slips.iter().any(|found| found.misread.id == "half-line-missed"));
        }
        assert!(named >= 20, "{named}");
    }

    #[test]
    fn some_locks_pull_and_rules_have_none() {
        let catalogue = Catalogue::new(Vec::new());
        let pulls = |id: &str| {
            let tool = catalogue.get(id).expect("shipped");
            tasks(tool).filter(|task| setting(&task.parts[0]).creeps != Quanta::ZERO).count()
        };
        assert!((6..=26).contains(&pulls("caliper-inch-25")), "{}", pulls("caliper-inch-25"));
        assert_eq!(pulls("rule-metric"), 0);
    }
}

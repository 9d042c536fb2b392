//! What is asked and told in questions of every kind.

mod by_heart;
mod cannot_come;
mod estimate_first;
mod in_or_out;
mod line_worth;
mod other_mans_slip;
mod pair;
mod same_again;
mod set_it;
mod shop_speech;
mod what_now;

use super::speech::said;
use super::{explain, prompt, worked};
use crate::drill::record::Verdict;
use crate::drill::task::{Action, Asked, Decision, Given, Marked, PLACES, Part, Says, Wanted};
use crate::drill::{Kind, Level};

/// What a kind is called in lists.
pub fn name(kind: Kind) -> &'static str {
    match kind {
        Kind::Read => "read it",
        Kind::OneStep => "one step only",
        Kind::LineWorth => "what is one line worth?",
        Kind::SameAgain => "same again",
        Kind::EstimateFirst => "estimate first",
        Kind::Pair => "one of two",
        Kind::OtherMansSlip => "the other man's slip",
        Kind::CannotCome => "which entry cannot be?",
        Kind::SetIt => "set it",
        Kind::WhatNow => "what now?",
        Kind::InOrOut => "in or out?",
        Kind::ByHeart => "by heart",
        Kind::ShopSpeech => "shop speech",
    }
}

/// One sentence on a kind, for lists.
pub fn about(kind: Kind) -> &'static str {
    match kind {
        Kind::Read => "The whole reading.",
        Kind::SetIt => "Set the tool to a size: coarse, fine, lock, look again.",
        Kind::WhatNow => "The zero is off, or is it? Wipe, reset, allow for it or tag the tool; then read.",
        Kind::InOrOut => "The part against its drawing: good, rework, tag it and ask, or a finer tool.",
        Kind::OneStep => "What one scale alone says, the others left out.",
        Kind::LineWorth => "A strange tool: what it reads to, found out from its lines and figures.",
        Kind::SameAgain => "Readings; some settings come a second time, drawn another way. Do the two agree?",
        Kind::EstimateFirst => "About where is it? Then the reading, the glass opened there.",
        Kind::Pair => {
            "Two pictures that are easily taken for one another: which is it, and what is the other?"
        }
        Kind::OtherMansSlip => "A colleague's figure: do you agree, and if not, what did he do?",
        Kind::CannotCome => "An inspection sheet: the entry that cannot come from this tool.",
        Kind::ByHeart => {
            "Fractions, decimals and millimetres without a picture; on protractors degrees and minutes."
        }
        Kind::ShopSpeech => "What is said in the shop written in figures, and figures said.",
    }
}

/// What a level is called.
pub fn level(level: Level) -> &'static str {
    match level {
        Level::OneStep => "one step at a time",
        Level::Whole => "whole readings",
        Level::Pairs => "pairs",
        Level::Traps => "close readings among plain ones",
        Level::Decisions => "decisions",
    }
}

/// The question of a part; more than one line where something is given beside the picture.
pub fn asked(part: &Part) -> Vec<String> {
    match &part.asked {
        Asked::Reading | Asked::Again { .. } => vec![prompt(&part.tool, part.question.asks)],
        Asked::Step { stage } => {
            vec![format!("What does the {} alone say?", part.tool.stages[*stage].name)]
        }
        Asked::Worth { worth, engraving } => line_worth::asked(part, *worth, *engraving),
        Asked::About { about } => estimate_first::asked(part, *about),
        Asked::WhichIs { named, readings } => pair::which(part, readings[*named]),
        Asked::TheOther { place, .. } => pair::other(part, *place),
        Asked::Agree { wrote } => other_mans_slip::agree(part, *wrote),
        Asked::Done { wrote, whose } => other_mans_slip::done(part, *wrote, *whose),
        Asked::CannotCome { .. } => cannot_come::asked(),
        Asked::Size => set_it::asked(part),
        Asked::WhatNow(story) => what_now::asked(part, *story),
        Asked::InOrOut(drawing) => in_or_out::asked(part, drawing),
        Asked::ByHeart(sum) => vec![by_heart::asked(sum)],
        Asked::Heard { manner, value } => shop_speech::heard(part, *manner, *value),
        Asked::SaidHow { manner, value } => vec![shop_speech::said_how(part, *manner, *value)],
    }
}

/// The answers offered, in order.
pub fn offered(part: &Part) -> Vec<String> {
    let Wanted::Choice(choice) = &part.wanted else { return Vec::new() };
    let says = |says: &Says| match says {
        Says::Value(value) => match part.asked {
            Asked::SaidHow { manner, .. } => said(manner, *value),
            _ => part.tool.notation.spell(*value),
        },
        Says::Word(word) => match &part.asked {
            Asked::Agree { .. } | Asked::Done { .. } => other_mans_slip::says(word),
            Asked::WhichIs { .. } => pair::says(usize::from(*word == PLACES[1])).to_owned(),
            Asked::WhatNow(_) => Action::from_word(word)
                .map_or_else(|| (*word).to_owned(), |action| what_now::offer(action, &part.tool)),
            Asked::InOrOut(_) => Decision::from_word(word)
                .map_or_else(|| (*word).to_owned(), |decision| in_or_out::offer(decision).to_owned()),
            _ => (*word).to_owned(),
        },
    };
    choice.options.iter().map(|option| says(&option.says)).collect()
}

/// One sentence on an answer; the right one is in it.
pub fn told(part: &Part, marked: &Marked) -> String {
    match part.asked {
        Asked::Agree { wrote } => return other_mans_slip::told_agree(part, wrote, marked),
        Asked::About { .. } => return estimate_first::told(marked),
        _ => {}
    }
    let right = right(part);
    let it_is = match (&part.wanted, part.kind) {
        (Wanted::Setting(_), _) => format!("It was to read {right}."),
        (_, Kind::WhatNow | Kind::InOrOut) => format!("The answer: {right}."),
        _ if matches!(part.asked, Asked::Done { .. }) => format!("What he did: {right}."),
        _ => format!("It is {right}."),
    };
    match (marked.verdict, marked.slips.first()) {
        (Verdict::Right, _) => format!("Right: {right}."),
        (Verdict::RightValue, _) => format!("Right value; write it {right}."),
        // Several slips lead to one decision: none is pinned on anybody.
        (Verdict::Misread, Some(found)) if part.kind != Kind::InOrOut => {
            format!("Not that: {}. {it_is}", found.misread.name)
        }
        (Verdict::Misread | Verdict::Other, _) => format!("Not that. {it_is}"),
        (Verdict::Skipped, _) => format!("Passed over. {it_is}"),
    }
}

/// The right answer in words.
pub fn right(part: &Part) -> String {
    match &part.wanted {
        Wanted::Choice(choice) => offered(part).swap_remove(choice.right),
        Wanted::Reading | Wanted::Figure(_) | Wanted::Setting(_) => part.expected_word(),
    }
}

/// Why, line by line: what was done wrong first, then how it is.
pub fn why(part: &Part, given: &Given, marked: &Marked) -> Vec<String> {
    if let Asked::InOrOut(drawing) = &part.asked {
        return in_or_out::why(part, drawing, given, marked);
    }
    let mut lines: Vec<String> =
        marked.slips.first().map(|found| did(part, &found.wrong.did)).into_iter().collect();
    match &part.asked {
        Asked::Reading | Asked::Agree { .. } | Asked::WhichIs { .. } => lines.extend(whole(part)),
        Asked::Step { stage } => {
            let shares = crate::reading::shares(&part.tool, &part.question.reading);
            lines.extend(shares.iter().filter(|share| share.stage == *stage).map(|share| line(part, share)));
        }
        Asked::Again { of, answered } => {
            lines.extend(whole(part));
            lines.extend(same_again::compared(part, *of, answered.as_ref(), given));
        }
        Asked::TheOther { trap, .. } => {
            lines.extend(whole(part));
            lines.push(pair::separates(part, *trap));
        }
        Asked::About { about } => return estimate_first::why(part, *about, given),
        Asked::Worth { worth, engraving } => lines.extend(line_worth::why(part, *worth, *engraving)),
        Asked::Done { wrote, .. } => lines.extend(other_mans_slip::why_done(part, *wrote)),
        Asked::CannotCome { why } => lines.extend(cannot_come::why(part, *why)),
        Asked::Size => lines.extend(set_it::why(part, given)),
        Asked::WhatNow(story) => {
            if let Wanted::Choice(choice) = &part.wanted {
                lines.extend(what_now::why(part, *story, Action::ALL[choice.right]));
            }
        }
        // Said above: what was read may be any of several things.
        Asked::InOrOut(_) => {}
        Asked::ByHeart(sum) => lines.extend(by_heart::worked(sum)),
        Asked::Heard { manner, value } => lines.extend(shop_speech::meant(part, *manner, *value)),
        Asked::SaidHow { manner, value } => {
            if !part.pictures.is_empty() {
                let shares = crate::reading::shares(&part.tool, &part.question.reading);
                lines.extend(shares.iter().map(|share| line(part, share)));
            }
            lines.extend(shop_speech::meant(part, *manner, *value));
        }
    }
    lines
}

/// What was done, by whom it was done.
fn did(part: &Part, did: &str) -> String {
    match &part.asked {
        // Who agrees with a wrong figure has not written it.
        Asked::Agree { .. } => other_mans_slip::by_him(did),
        Asked::WhichIs { named, .. } => pair::taken(1 - *named, did),
        _ => did.to_owned(),
    }
}

/// One scale's share of a reading.
fn line(part: &Part, share: &crate::reading::Share) -> String {
    format!("{:<44} {:>10}", explain::share(&part.tool, share), part.tool.spell(share.value))
}

/// The whole reading, share by share, and the sum.
fn whole(part: &Part) -> Vec<String> {
    let (tool, question) = (&part.tool, &part.question);
    let shares = crate::reading::shares(tool, &question.reading);
    let mut lines: Vec<String> = shares.iter().map(|share| line(part, share)).collect();
    lines.push(explain::sum(tool, &question.reading, &shares, question.zero_error, question.asks));
    lines.extend(worked(&question.case(tool)));
    lines
}

//! The two digits of the thimble line change places.

use super::{Case, Misread, On, Wrong};

/// The thimble line's two digits are written the other way round.
pub static THIMBLE_DIGITS_SWAPPED: Misread = Misread {
    id: "thimble-digits-swapped",
    name: "thimble digits swapped",
    formula: "thimble line 10a + b written as 10b + a",
    cure: "Say the number aloud, write it, and look once more at the tool before going on.",
    on: &[On::Drum],
    answers,
};

fn answers(case: &Case<'_>) -> Vec<Wrong> {
    case.drums()
        .filter_map(|(drum, step)| {
            let line = step.value.passed(drum.division);
            let taken = line % 10 * 10 + line / 10;
            (line < 100 && taken != line).then(|| {
                let did = format!("The {} shows {line:02}; you wrote {taken:02}.", case.stage_name(step));
                case.taking(step, drum.division * taken, did)
            })
        })
        .collect()
}

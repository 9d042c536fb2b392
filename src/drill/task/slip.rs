//! Slips of the head: wrong answers with a name that happen on no picture.

use crate::drill::mark::Found;
use crate::exact::Exact;
use crate::reading::{Case, Misread, Wrong};

/// A slip, and one sentence on what was done.
struct OfHead {
    misread: Misread,
    did: &'static str,
}

const fn slip(
    id: &'static str,
    name: &'static str,
    formula: &'static str,
    cure: &'static str,
    did: &'static str,
) -> OfHead {
    OfHead { misread: Misread { id, name, formula, cure, on: &[], answers: nowhere }, did }
}

/// Nothing that stands on a scale leads to one.
fn nowhere(_: &Case<'_>) -> Vec<Wrong> {
    Vec::new()
}

/// The more particular before the more general.
static ALL: [OfHead; 25] = [
    slip(
        "other-denominator",
        "another denominator",
        "twice or half the fraction",
        "Look at the lower figure first: 8ths, 16ths, 32nds or 64ths.",
        "You took the fraction over half or twice the lower figure.",
    ),
    slip(
        "sixty-fourth-off",
        "a 64th off",
        "one 64th more or less",
        "A 64th is near enough 16 thou: count from the nearest 8th, which is known by heart.",
        "You were one 64th off.",
    ),
    slip(
        "fraction-figures",
        "figures of the fraction as decimals",
        "0.364 for 3/64",
        "The upper figure is divided by the lower one; their figures do not stand in the decimal.",
        "You wrote the figures of the fraction after the point.",
    ),
    slip(
        "twenty-five",
        "25 for 25.4",
        "25 mm to the inch",
        "An inch is 25.4 mm exactly; 25 is 0.4 mm short on every inch.",
        "You took an inch for 25 mm; it is 25.4 mm.",
    ),
    slip(
        "times-for-over",
        "multiplied for divided",
        "times 25.4 for over 25.4, or over for times",
        "There are more millimetres than inches: into millimetres times 25.4, into inches over 25.4.",
        "You went the wrong way with 25.4.",
    ),
    slip(
        "doubled-for-halved",
        "doubled for halved",
        "times 2 for over 2, or over for times",
        "The radius is the smaller of the two.",
        "You went the wrong way between radius and diameter.",
    ),
    slip(
        "neither-halved-nor-doubled",
        "left as it was",
        "radius for diameter, or diameter for radius",
        "Say which one you have and which one you want before you write.",
        "You left the figure as it was.",
    ),
    slip(
        "minutes-as-hundredths",
        "minutes as hundredths of a degree",
        "35.10 degrees for 35 degrees 10 minutes",
        "A degree has 60 minutes: 6 minutes are a tenth of a degree.",
        "You took minutes for hundredths of a degree, or the reverse; a degree has 60 minutes.",
    ),
    slip(
        "half-degree",
        "half a degree in figures",
        "5 or 50 minutes for half a degree",
        "Half a degree is 30 minutes.",
        "You took half a degree for 5 or 50 minutes; it is 30.",
    ),
    slip(
        "tenth-as-thou",
        "tenths for thousandths",
        "thousandths + tenths as thousandths",
        "In inches a tenth is a tenth of a thou: the fourth figure after the point.",
        "You took tenths of a thou for whole ones.",
    ),
    slip(
        "half-as-five",
        "half a thou as five",
        "thousandths + 5 for a half",
        "Half a thou is 5 in the fourth figure after the point: 0.0005.",
        "You took the half for five thou; half a thou is 0.0005.",
    ),
    slip(
        "half-forgotten",
        "the half forgotten",
        "0.50 too little",
        "What is said before the thimble's figure counts whole: eight and a half are 8.50.",
        "You left the half out: 0.50 too little.",
    ),
    slip(
        "figures-joined",
        "figures strung together",
        "8.534 for 8.50 + 0.34",
        "The thimble's figure is added: 8.50 and 0.34 are 8.84.",
        "You strung the figures together instead of adding them.",
    ),
    slip(
        "other-sign",
        "plus for minus",
        "the sign turned round",
        "Write the sign first.",
        "You turned the sign round.",
    ),
    slip(
        "figures-for-line",
        "step between figures taken for one line",
        "line = from figure to figure",
        "Count the lines from one figure to the next, then share the step out among them.",
        "You took the step from figure to figure for one line.",
    ),
    slip(
        "line-for-figures",
        "one line taken for the step between figures",
        "from figure to figure = line",
        "Look at two neighbouring figures, not at two neighbouring lines.",
        "You took one line; asked was the step from figure to figure.",
    ),
    slip(
        "main-for-vernier",
        "line of the scale taken for a line of the vernier",
        "vernier line = one division of the scale",
        "A vernier shares out one division of its scale: divide that by the number of the vernier's parts.",
        "You took a line of the scale; a line of the vernier is worth a share of it.",
    ),
    slip(
        "spacing-for-worth",
        "how far vernier lines stand apart taken for what one reads",
        "vernier line = its distance from the next",
        "What counts is by how much a vernier part misses whole divisions of the scale, not how long it is.",
        "You took how far the vernier's lines stand apart; what one reads is what that misses of whole divisions.",
    ),
    slip(
        "turn-for-line",
        "a whole turn taken for one line",
        "line = turn",
        "Share the turn out among all lines round.",
        "You took a whole turn for one line.",
    ),
    slip(
        "line-for-turn",
        "one line taken for a whole turn",
        "turn = line",
        "A turn is all lines round together.",
        "You took one line for a whole turn.",
    ),
    slip(
        "whole-for-half",
        "whole line taken for the half line",
        "half line = whole line",
        "The lines on the other side of the datum line halve the figured ones.",
        "You took a whole line for the half line.",
    ),
    slip(
        "whole-for-turn",
        "whole line taken for one turn",
        "turn = whole line",
        "Turn it once and look which line comes up: it is the half line, and the whole one only with the second turn.",
        "You took a whole line for one turn; one turn brings up the half line.",
    ),
    slip(
        "highest-figure-for-turn",
        "highest figure taken for a whole turn",
        "turn = highest figure",
        "A face figured both ways shows half a turn on each side.",
        "You took the highest figure; that is half a turn, the figures go both ways.",
    ),
    slip(
        "figures-as-units",
        "figures taken for whole units",
        "from figure to figure = so many whole units",
        "See how long the scale is, and how many figures it takes for that.",
        "You took the figures for whole units.",
    ),
    slip(
        "place-slip",
        "one place off",
        "ten times too much or too little",
        "Say the places aloud: tenths, hundredths, thousandths, ten-thousandths.",
        "Your point stands one place off: ten times too much or too little.",
    ),
];

fn of(id: &str) -> &'static OfHead {
    ALL.iter().find(|slip| slip.misread.id == id).expect("a kind names slips of this list only")
}

/// The slip of an id, leading to an answer.
pub(super) fn found(id: &str, answer: Exact) -> Found {
    let slip = of(id);
    Found { misread: &slip.misread, wrong: Wrong { answer, stage: None, did: slip.did.to_owned() } }
}

/// The id as the list has it, where it is one of these.
pub(super) fn known(id: &str) -> bool {
    ALL.iter().any(|slip| slip.misread.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::misread;

    #[test]
    fn no_id_or_name_stands_for_two() {
        for (n, slip) in ALL.iter().enumerate() {
            assert!(misread::named(slip.misread.id).is_none(), "{}", slip.misread.id);
            let same = |other: &&OfHead| {
                other.misread.id == slip.misread.id || other.misread.name == slip.misread.name
            };
            assert_eq!(ALL.iter().position(|other| same(&other)), Some(n), "{}", slip.misread.id);
        }
    }
}

//! Same again: whether two readings of one setting agree.

use crate::drill::task::{Given, Part};
use crate::exact::Typed;

/// How the two readings compare; nothing where one of them is not known.
pub(super) fn compared(part: &Part, of: u32, answered: Option<&Typed>, given: &Given) -> Option<String> {
    let (Some(before), Given::Typed(now)) = (answered, given) else { return None };
    let spell = |value| part.tool.notation.spell_with_unit(value, part.tool.unit);
    let apart = (now.value - before.value).abs();
    let setting = format!("The same setting as number {of}");
    Some(if now.value == before.value {
        format!("{setting}: {} both times. They agree.", spell(now.value))
    } else {
        format!(
            "{setting}, where you wrote {}; now {}. They are {} apart.",
            spell(before.value),
            spell(now.value),
            spell(apart)
        )
    })
}

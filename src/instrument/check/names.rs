//! Id, family and engraved texts.
//!
//! Ids are typed in commands and stored with every attempt, so they are small letters, digits and hyphens, 64 at most.
//! What is engraved stands on a small plate: one to six texts of at most 24 characters.
//!
//! Example: `id = "My Rule"`.

use crate::diag::Diagnostic;
use crate::instrument::schema::{Definition, Written, shown};

/// Characters of an id.
const ID: usize = 64;
/// Characters of an engraved text.
const ENGRAVED: usize = 24;
/// Engraved texts.
const TEXTS: usize = 6;

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (key, name) in [("id", &def.id), ("family", &def.family)] {
        if let Some(name) = name {
            faults.extend(id(key, name));
        }
    }
    for text in &def.engraved {
        if text.value.chars().count() > ENGRAVED {
            let message = format!("an engraved text has more than {ENGRAVED} characters");
            let fault = Diagnostic::new("engraved", text.span.clone(), message);
            faults.push(fault.fix("write what stands on the tool: \"0-1 in\", \"0.001 in\""));
        }
    }
    if let Some(extra) = def.engraved.get(TEXTS) {
        let message = format!("more than {TEXTS} engraved texts");
        faults.push(
            Diagnostic::new("engraved", extra.span.clone(), message)
                .fix("keep the range and the least count"),
        );
    }
}

/// What is wrong with a name that is typed in commands.
pub(crate) fn id(key: &str, name: &Written<String>) -> Option<Diagnostic> {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if name.value.chars().all(plain) && name.value.len() <= ID {
        return None;
    }
    let message = format!(
        "`{key}` cannot be \"{}\": small letters a-z, digits and hyphens, at most {ID}",
        shown(&name.value)
    );
    let fixed: String =
        name.value.to_lowercase().chars().map(|c| if plain(c) { c } else { '-' }).take(ID).collect();
    Some(Diagnostic::new("id", name.span.clone(), message).fix(format!("{key} = \"{fixed}\"")))
}

//! What is said about the shop's own tools.

use super::counted;

/// There is none.
pub fn empty(file: &str) -> String {
    format!(
        "no tool is listed in {file}; practice is on all instruments (linefall crib add INSTRUMENT lists one)"
    )
}

/// The last line on the file.
pub fn checked(file: &str, tools: usize, faults: usize) -> String {
    let tools = counted(tools, "tool", "tools");
    match faults {
        0 => format!("{file}: no faults ({tools})"),
        faults => format!("{file}: {}, {tools} without one", counted(faults, "fault", "faults")),
    }
}

/// Nothing is added to a faulty file.
pub fn mend_first(file: &str, faults: usize) -> String {
    format!(
        "{file} has {}: mend it first; linefall crib check shows where",
        counted(faults, "fault", "faults")
    )
}

/// A tool that cannot be listed.
pub fn refused(why: &str, fix: Option<&str>) -> String {
    fix.map_or_else(|| why.to_owned(), |fix| format!("{why}; {fix}"))
}

/// A tool was put in.
pub fn added(label: &str, instrument: &str, file: &str) -> String {
    format!("{label} ({instrument}) is listed in {file}")
}

/// A tool was taken out.
pub fn removed(label: &str, file: &str) -> String {
    format!("{label} is no longer listed in {file}")
}

/// What stood there is kept.
pub fn copied(copy: &str) -> String {
    format!("the file as it was before: {copy}")
}

/// A label that no tool has.
pub fn no_tool(label: &str, near: Option<&str>) -> String {
    let near = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
    format!("no tool is called \"{label}\"{near}")
}

/// A tool that is not written line by line.
pub fn by_hand(label: &str, file: &str) -> String {
    format!("\"{label}\" does not stand in lines of its own in {file}: take it out by hand")
}

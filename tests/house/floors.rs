//! Reads every source file and compares the modules and crates it names with the floor map.

use std::fs;
use std::path::{Path, PathBuf};

/// Module and floor, as in `DEVELOPERS.md`.
const FLOORS: &[(&str, u8)] = &[
    ("exact", 0),
    ("diag", 0),
    ("terms", 1),
    ("instrument", 1),
    ("reading", 2),
    ("drill", 3),
    ("lesson", 3),
    ("scene", 3),
    ("learner", 4),
    ("render", 4),
    ("class", 5),
    ("session", 6),
    ("store", 6),
    ("wording", 6),
    ("tui", 7),
    ("cli", 7),
];

/// The picture never sees the practice, and the reverse.
const PICTURE: &[&str] = &["scene", "render"];
const PRACTICE: &[&str] = &["drill", "learner", "lesson", "session"];

/// A word that may stand only in files whose path starts with one of these.
const DOORS: &[(&str, &[&str])] = &[
    ("ratatui::", &["tui/"]),
    ("crossterm::", &["tui/"]),
    ("rusqlite::", &["store/"]),
    ("clap::", &["cli/"]),
    ("clap_complete::", &["cli/"]),
    ("clap_mangen::", &["cli/"]),
    ("annotate_snippets::", &["cli/"]),
    ("csv::", &["cli/"]),
    ("ed25519_dalek::", &["class/"]),
    ("krilla::", &["render/pdf"]),
    ("rand::", &["drill/draw.rs", "tui/runtime.rs", "cli/"]),
    ("jiff::", &["tui/runtime.rs", "cli/"]),
    ("std::fs", &["store/", "cli/"]),
    ("std::env", &["store/", "cli/", "main.rs"]),
    ("SystemTime", &["cli/"]),
    // The probe's wait for the terminal's answer has an end.
    ("Instant::now", &["tui/runtime.rs", "tui/probe.rs", "cli/"]),
    ("println!", &["cli/out.rs"]),
    ("process::exit", &["main.rs"]),
    ("set_symbol", &["tui/widget/picture.rs"]),
    ("set_char", &["tui/widget/picture.rs"]),
    (".unwrap()", &[]),
];

/// Floors where nothing is a float.
const WHOLE_NUMBERS: &[&str] =
    &["exact", "diag", "terms", "instrument", "reading", "drill", "lesson", "scene", "render"];

struct Source {
    path: String,
    /// Without comments and unit tests.
    code: String,
    lines: usize,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    collect(&root, &mut found);
    found.sort();
    found
        .iter()
        .map(|path| {
            let text = fs::read_to_string(path).expect("a source file can be read");
            let own = text.split("#[cfg(test)]\nmod ").next().unwrap_or(&text);
            let code = own
                .lines()
                .filter(|line| !line.trim_start().starts_with("//"))
                .collect::<Vec<_>>()
                .join("\n");
            let path = path.strip_prefix(&root).expect("under src").to_string_lossy().replace('\\', "/");
            Source { path, code, lines: own.lines().count() }
        })
        .filter(|source| !source.path.ends_with("tests.rs"))
        .collect()
}

fn collect(dir: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).expect("src can be listed") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            collect(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

fn module_of(path: &str) -> Option<&str> {
    path.split_once('/').map(|(module, _)| module)
}

fn floor_of(module: &str) -> Option<u8> {
    FLOORS.iter().find(|(name, _)| *name == module).map(|(_, floor)| *floor)
}

/// Every module of the crate that a file names.
fn named_modules(code: &str) -> Vec<&'static str> {
    FLOORS
        .iter()
        .map(|(module, _)| *module)
        .filter(|module| {
            let path = format!("crate::{module}");
            code.match_indices(&path).any(|(at, _)| {
                !code[at + path.len()..].starts_with(|c: char| c.is_alphanumeric() || c == '_')
            })
        })
        .collect()
}

#[test]
fn every_module_has_a_floor() {
    for source in sources() {
        if let Some(module) = module_of(&source.path) {
            assert!(floor_of(module).is_some(), "{}: module {module} is on no floor", source.path);
        }
    }
}

#[test]
fn stairs_lead_down_only() {
    let mut wrong = Vec::new();
    for source in sources() {
        assert!(
            !source.code.contains("use crate::{"),
            "{}: one module a `use`, so that this test sees it",
            source.path
        );
        let Some(own) = module_of(&source.path) else { continue };
        let floor = floor_of(own).expect("checked above");
        for other in named_modules(&source.code).into_iter().filter(|other| *other != own) {
            if floor_of(other).is_some_and(|other| other >= floor) {
                wrong.push(format!("{} ({own}, floor {floor}) uses {other}", source.path));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn picture_and_practice_never_meet() {
    for source in sources() {
        let Some(own) = module_of(&source.path) else { continue };
        let forbidden = match own {
            _ if PICTURE.contains(&own) => PRACTICE,
            _ if PRACTICE.contains(&own) => PICTURE,
            _ => continue,
        };
        for other in named_modules(&source.code) {
            assert!(!forbidden.contains(&other), "{} uses {other}", source.path);
        }
    }
}

#[test]
fn screens_and_backends_never_see_each_other() {
    for source in sources() {
        if let Some(screen) = source.path.strip_prefix("tui/screen/").filter(|file| *file != "mod.rs") {
            for other in ["home", "lesson", "lines", "practice", "progress", "walk"] {
                let seen = source.code.contains(&format!("super::{other}"))
                    || source.code.contains(&format!("screen::{other}"));
                assert!(!seen, "screen {screen} sees {other}");
            }
        }
    }
}

#[test]
fn one_door_for_each_crate() {
    let mut wrong = Vec::new();
    for source in sources() {
        for (word, doors) in DOORS {
            if source.code.contains(word) && !doors.iter().any(|door| source.path.starts_with(door)) {
                wrong.push(format!("{} has `{word}`", source.path));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_floats_where_a_coincidence_is_decided() {
    for source in sources() {
        // What writes PDF needs floats; nothing is decided there.
        let whole = source.path != "render/pdf.rs"
            && module_of(&source.path).is_some_and(|module| WHOLE_NUMBERS.contains(&module));
        for float in ["f32", "f64"] {
            assert!(!(whole && source.code.contains(float)), "{} uses {float}", source.path);
        }
    }
}

#[test]
fn no_file_over_four_hundred_lines() {
    for source in sources() {
        assert!(source.lines <= 400, "{} has {} lines", source.path, source.lines);
    }
}

#[test]
fn a_planted_import_is_caught() {
    assert_eq!(named_modules("use crate::drill::Mark;\nlet x = crate::tui::run;"), ["drill", "tui"]);
    assert!(named_modules("use crate::drillbit::Mark;").is_empty());
}

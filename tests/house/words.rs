//! Refused spellings, and words of the code that must not reach a screen.

use std::fs;
use std::path::Path;

fn texts(dir: &Path, endings: &[&str], found: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(dir).expect("the folder can be listed") {
        let path = entry.expect("an entry").path();
        let name = path.to_string_lossy().into_owned();
        if path.is_dir() {
            texts(&path, endings, found);
        } else if endings.iter().any(|ending| name.ends_with(ending)) {
            found.push((name, fs::read_to_string(&path).expect("a text file")));
        }
    }
}

#[test]
fn refused_spellings_stand_nowhere() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    for dir in ["src", "assets"] {
        texts(&root.join(dir), &[".rs", ".toml", ".md"], &mut all);
    }
    for name in ["README.md", "DEVELOPERS.md"] {
        all.push((name.to_owned(), fs::read_to_string(root.join(name)).expect("a text file")));
    }
    for (name, text) in all.iter().filter(|(name, _)| !name.ends_with("terms/mod.rs")) {
        let text = text.to_lowercase();
        for (refused, word) in linefall::terms::REFUSED {
            assert!(!text.contains(refused), "{name}: say {word}, not {refused}");
        }
    }
}

#[test]
fn words_of_the_code_stay_off_the_screen() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut all = Vec::new();
    for dir in ["wording", "tui/screen", "reading/misread"] {
        texts(&root.join(dir), &[".rs"], &mut all);
    }
    // The page on the file format has to say the file's own words.
    all.retain(|(name, _)| !name.ends_with("wording/format.rs"));
    for (name, text) in &all {
        for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
            for quoted in line.split('"').skip(1).step_by(2) {
                let words = quoted.to_lowercase();
                for hidden in ["drum", "quantum", "quanta", "facet", "lattice", "misread"] {
                    assert!(
                        !words.split(|c: char| !c.is_alphabetic()).any(|word| word == hidden),
                        "{name}: {quoted}"
                    );
                }
            }
        }
    }
}

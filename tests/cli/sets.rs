//! Drill sets: listed, looked over, shown on paper.

use super::{Tested, run, text, well};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;

fn json(args: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    Ok(serde_json::from_str(&well(args)?)?)
}

const OWN: &str = "set = \"monday\"\ntitle = \"Monday\"\ncount = 4\nglass = \"forbidden\"\n\n\
    [[questions]]\ninstrument = \"micrometer-metric\"\nreadings = [\"8.84 mm\"]\n";

#[test]
fn the_course_is_listed_in_its_order() -> Tested {
    let listed = well(&["list", "sets"])?;
    let at = |id: &str| listed.find(&format!("{id}: ")).ok_or(format!("{id} is not listed"));
    let mut before = 0;
    for id in ["first-rule", "metric-verniers", "metric-micrometer", "traps-day", "final-check"] {
        let here = at(id)?;
        assert!(here >= before, "{id} stands before what comes before it");
        before = here;
    }
    assert!(
        listed.contains("final-check: Skills check (30 questions, 28 right to pass, 30 min)"),
        "{listed}"
    );
    let sets = json(&["list", "sets", "--json"])?;
    let sets = sets.as_array().ok_or("a list")?;
    assert!(sets.len() >= 12);
    let check = sets.iter().find(|set| set["id"] == "final-check").ok_or("shipped")?;
    assert_eq!(
        (&check["count"], &check["pass"]["right"], &check["seconds"]),
        (&30.into(), &28.into(), &1800.into())
    );
    let until = sets.iter().find(|set| set["pass"]["rule"] == "sequential").ok_or("shipped")?;
    assert_eq!((&until["pass"]["bad"], &until["pass"]["most"]), (&0.8.into(), &60.into()));
    Ok(())
}

#[test]
fn keys_and_page_are_listed() -> Tested {
    let keys = json(&["list", "set-keys", "--json"])?;
    let named: BTreeSet<&str> =
        keys.as_array().ok_or("a list")?.iter().filter_map(|key| key["key"].as_str()).collect();
    for key in ["set", "count", "pass", "provoke", "spread", "readings"] {
        assert!(named.contains(key), "{key}");
    }
    assert!(well(&["list", "set-keys"])?.starts_with("the set:\n"));
    let page = well(&["list", "set-format"])?;
    assert_eq!(page, fs::read_to_string("drills/FORMAT.md")?);
    Ok(())
}

#[test]
fn the_shipped_files_are_good() -> Tested {
    let mut files = Vec::new();
    for entry in fs::read_dir("drills")? {
        let path = entry?.path();
        if path.extension().is_some_and(|end| end == "toml") {
            files.push(text(&path)?.to_owned());
        }
    }
    let mut args = vec!["check"];
    args.extend(files.iter().map(String::as_str));
    let said = well(&args)?;
    assert_eq!(said.matches("has no faults").count(), files.len(), "{said}");
    assert!(files.len() >= 12 && !said.contains("takes the place"), "{said}");
    Ok(())
}

#[test]
fn every_fault_of_a_set_is_shown_with_its_fix() -> Tested {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("ours.toml");
    fs::write(
        &file,
        "set = \"ours\"\ntitle = \"Ours\"\ncount = 5\npas = 4\n[[questions]]\ninstrument = \"micrometer-metrik\"\n\
         kinds = [\"raed\"]\n",
    )?;
    let checked = run(&["check", text(&file)?])?;
    assert_eq!(checked.code, Some(1));
    for wanted in [
        "error[unknown-key]",
        "pass = 4",
        "error[instrument]",
        "instrument = \"micrometer-metric\"",
        "error[unknown-word]",
        "\"read\"",
        "3 faults",
    ] {
        assert!(checked.out.contains(wanted), "{wanted}: {}", checked.out);
    }
    fs::write(&file, OWN)?;
    let said = well(&["check", text(&file)?])?;
    assert!(
        said.contains("monday has no faults (4 questions)") && said.contains("note: the glass"),
        "{said}"
    );
    Ok(())
}

#[test]
fn an_own_set_takes_its_place_and_says_so() -> Tested {
    let folder = tempfile::tempdir()?;
    let at = ["--data-dir", text(folder.path())?];
    let exercises = folder.path().join("exercises");
    fs::create_dir(&exercises)?;
    fs::write(exercises.join("monday.toml"), OWN)?;
    fs::write(exercises.join("rule.toml"), OWN.replace("monday", "first-rule"))?;
    fs::write(exercises.join("bad.toml"), "set = 3")?;
    let listed = run(&[&["list", "sets"], &at[..]].concat())?;
    assert_eq!(listed.code, Some(0));
    assert!(listed.out.starts_with("first-rule: Monday (4 questions)"), "{}", listed.out);
    assert!(listed.out.contains("\nmonday: Monday"), "{}", listed.out);
    for wanted in ["rule.toml takes the place of the shipped set first-rule", "bad.toml is left out"] {
        assert!(listed.err.contains(wanted), "{wanted}: {}", listed.err);
    }
    let doctor = run(&[&["doctor"], &at[..]].concat())?;
    assert_eq!(doctor.code, Some(1), "a faulty file is a finding");
    assert!(doctor.out.contains("2 of your own, 1 left out"), "{}", doctor.out);
    let paper = run(&[&["preview", "monday", "--answers", "--seed", "1"], &at[..]].concat())?;
    assert!(paper.out.contains("= 8.84 mm"), "the given reading comes: {}", paper.out);
    Ok(())
}

/// Without the answers nothing in it says one: looked for as the answers spell them, of sets whose questions name no sizes.
#[test]
fn a_preview_is_without_answers_unless_they_are_asked_for() -> Tested {
    for set in ["final-check", "metric-micrometer", "allow-for-zero"] {
        let bare = json(&["preview", set, "--seed", "5", "--json"])?;
        let told = json(&["preview", set, "--seed", "5", "--json", "--answers"])?;
        let (bare, told) =
            (bare["items"].as_array().ok_or("items")?, told["items"].as_array().ok_or("items")?);
        assert_eq!(bare.len(), told.len());
        let lines = well(&["preview", set, "--seed", "5"])?;
        for (bare, told) in bare.iter().zip(told) {
            assert_eq!(bare["parts"][0]["asked"], told["parts"][0]["asked"]);
            assert!(bare["parts"][0].get("answer").is_none() && bare["parts"][0].get("stands").is_none());
            let answer = told["parts"][0]["answer"].as_str().ok_or("an answer")?;
            assert!(told["parts"][0]["steps"].as_array().is_some_and(|steps| !steps.is_empty()), "{told}");
            if told["kind"] == "read" {
                assert!(!lines.contains(answer), "{set}: {answer}");
            }
        }
    }
    let same = |seed: &str| well(&["preview", "final-check", "--seed", seed, "--answers"]);
    assert_eq!(same("5")?, same("5")?);
    assert_ne!(same("5")?, same("6")?);
    let unknown = run(&["preview", "final-chek"])?;
    assert_eq!(unknown.code, Some(2));
    assert!(unknown.err.contains("did you mean final-check?"), "{}", unknown.err);
    Ok(())
}

//! Drill sets: listed, looked over, shown on paper.

use super::ask_json::Stream;
use super::{Tested, feed, run, text, well};
use serde_json::{Value, json as object};
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

/// Goes through a set, each question answered as it is revealed; the marks, and the summary.
fn gone_through(set: &str, seed: &str) -> Result<(Vec<Value>, Value), Box<dyn std::error::Error>> {
    let mut stream = Stream::open(&[set, "--seed", seed, "--reveal"])?;
    let head = stream.next("linefall")?;
    assert_eq!(head["set"]["id"], set);
    let silent = head["set"]["feedback"] == "at-the-end";
    let mut marks = Vec::new();
    loop {
        let message = stream.any()?;
        if let Some(summary) = message.get("summary") {
            assert_eq!(stream.end()?, Some(0));
            return Ok((marks, summary.clone()));
        }
        if let Some(mark) = message.get("mark") {
            marks.push(mark.clone());
            continue;
        }
        if let Some(taken) = message.get("taken") {
            assert!(
                silent && taken.as_object().is_some_and(|taken| taken.len() == 1),
                "nothing is told: {taken}"
            );
            continue;
        }
        let question = message.get("question").ok_or(format!("{message}"))?;
        let id = &question["id"];
        stream.say(&match (&question["asks"], question.pointer("/reveal/choice")) {
            // Where it stands is for the eye; it is passed over.
            (asks, _) if asks == "setting" => object!({ "id": id, "skip": true }),
            (_, Some(number)) => object!({ "id": id, "choose": number }),
            _ => object!({ "id": id, "answer": question["reveal"]["expected"] }),
        })?;
    }
}

#[test]
fn a_set_is_asked_as_it_is_written() -> Tested {
    for set in ["first-rule", "rule-fractions", "allow-for-zero", "set-to-size", "same-again", "in-or-out"] {
        let (marks, summary) = gone_through(set, "4")?;
        assert!(
            marks.iter().all(|mark| mark["right"] == true || mark["verdict"] == "skipped"),
            "{set}: {marks:?}"
        );
        assert_eq!(
            (&summary["complete"], &summary["outcome"]["stands"]),
            (&true.into(), &"done".into()),
            "{set}"
        );
    }
    let (marks, summary) = gone_through("final-check", "4")?;
    assert_eq!((marks.len(), &summary["outcome"]["stands"]), (30, &"passed".into()));
    // Fourteen right in a row are the first that settle it: ln 19 is 2.944, each right answer adds ln(0.95/0.80) = 0.172, so
    // eighteen are wanted.
    let (marks, summary) = gone_through("running-check", "4")?;
    assert_eq!((marks.len(), &summary["outcome"]["stands"]), (18, &"passed".into()));
    Ok(())
}

#[test]
fn a_check_says_nothing_until_the_end() -> Tested {
    let wrong = "1\n".repeat(30);
    let said = feed(&["ask", "final-check", "--seed", "4", "--plain", "--size", "160x30"], wrong.as_bytes())?;
    assert_eq!(said.code, Some(0), "{}", said.err);
    let (before, after) = said.out.split_at(said.out.rfind("Taken down.").ok_or("nothing is taken down")?);
    assert!(!before.contains("Not that") && !before.contains("It is "), "{before}");
    assert!(after.contains("Question 1, answered 1:") && after.contains("not yet"), "{after}");
    let same = feed(&["ask", "final-check", "--seed", "4", "--plain", "--size", "160x30"], wrong.as_bytes())?;
    let no_clock = |text: &str| -> Vec<String> {
        text.lines().filter(|line| !line.starts_with("Question ")).map(str::to_owned).collect()
    };
    assert_eq!(no_clock(&said.out), no_clock(&same.out));
    Ok(())
}

#[test]
fn a_set_that_forbids_the_glass_needs_the_whole_in_the_window() -> Tested {
    let folder = tempfile::tempdir()?;
    let exercises = folder.path().join("exercises");
    fs::create_dir(&exercises)?;
    fs::write(exercises.join("whole.toml"), OWN)?;
    let caliper = OWN.replace("micrometer-metric", "caliper-metric-50").replace("8.84", "8.86");
    fs::write(exercises.join("caliper.toml"), caliper.replace("monday", "tuesday"))?;
    let at = ["--seed", "1", "--size", "80x20", "--data-dir", text(folder.path())?];
    let caliper = run(&[&["ask", "tuesday"], &at[..]].concat())?;
    assert_eq!(caliper.code, Some(1));
    assert!(caliper.err.contains("question 1: ") && caliper.out.is_empty(), "{}{}", caliper.err, caliper.out);
    let whole = run(&[&["ask", "monday"], &at[..]].concat())?;
    assert_eq!((whole.code, whole.err.as_str()), (Some(0), ""));
    Ok(())
}

#[test]
fn a_set_says_itself_what_it_asks() -> Tested {
    for more in [&["--count", "3"][..], &["--kind", "read"], &["--level", "2"], &["--choose", "telling"]] {
        let ran = run(&[&["ask", "first-rule"], more].concat())?;
        assert_eq!(ran.code, Some(2), "{more:?}: {}", ran.out);
        assert!(ran.err.contains("a set says itself"), "{}", ran.err);
    }
    let near = run(&["ask", "first-rul"])?;
    assert_eq!((near.code, near.err.contains("did you mean first-rule?")), (Some(2), true), "{}", near.err);
    Ok(())
}

#[test]
fn answers_of_a_set_are_kept_for_a_learner() -> Tested {
    let folder = tempfile::tempdir()?;
    let at = ["--data-dir", text(folder.path())?];
    let args = [&["ask", "first-rule", "--seed", "4", "--learner", "k7"], &at[..]].concat();
    assert_eq!(feed(&args, b"10\n24\nquit\n")?.code, Some(0));
    let progress = json(&[&["progress", "--learner", "k7", "--json"], &at[..]].concat())?;
    let of = &progress["instruments"][0];
    assert_eq!(of["instrument"], "rule-metric", "{progress}");
    Ok(())
}

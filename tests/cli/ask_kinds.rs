//! Questions of other kinds, line by line.

use super::{Tested, feed, run, text, well};
use serde_json::Value;
use std::fmt::Write as _;

/// All lines of a run as JSON.
fn stream(args: &[&str], input: &str) -> Result<Vec<Value>, Box<dyn std::error::Error>> {
    let ran = feed(args, input.as_bytes())?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{}", ran.out);
    ran.out.lines().map(|line| Ok(serde_json::from_str(line)?)).collect()
}

fn word<'a>(of: &'a Value, path: &str) -> &'a str {
    of.pointer(path).and_then(Value::as_str).unwrap_or_else(|| panic!("no {path} in {of}"))
}

/// Asks again and again with all answers found so far, until the run has come to its end.
fn answered(
    args: &[&str],
    answer: impl Fn(&Value) -> Vec<String>,
) -> Result<Vec<Value>, Box<dyn std::error::Error>> {
    let mut input = String::new();
    loop {
        let lines = stream(args, &input)?;
        let last = lines.iter().rev().find(|line| line.get("question").is_some()).ok_or("no question")?;
        if lines.last().and_then(|line| line.pointer("/summary/complete")) == Some(&Value::Bool(true)) {
            return Ok(lines);
        }
        let id = word(last, "/question/id");
        for message in answer(&last["question"]) {
            writeln!(input, "{{\"id\":\"{id}\",{message}}}")?;
        }
    }
}

/// What the stream reveals is right; without it neither the answer nor where a tool stands is in a question.
#[test]
fn every_kind_is_answered_as_revealed() -> Tested {
    let kinds: Vec<Value> = serde_json::from_str(&well(&["list", "kinds", "--json"])?)?;
    for kind in &kinds {
        let word_of_kind = word(kind, "/kind");
        let tool = "micrometer-metric";
        if !kind["instruments"].as_array().ok_or("a list")?.iter().any(|id| id == tool) {
            continue;
        }
        let args = ["ask", tool, "--kind", word_of_kind, "--json", "--seed", "5", "--count", "2", "--reveal"];
        let lines = answered(&args, |question| {
            if question["asks"] == "setting" {
                // Where it stands is not told; it is passed over.
                return vec!["\"lock\":true".to_owned(), "\"skip\":true".to_owned()];
            }
            match question.pointer("/reveal/choice") {
                Some(number) => vec![format!("\"choose\":{number}")],
                None => vec![format!("\"answer\":\"{}\"", word(question, "/reveal/expected"))],
            }
        })?;
        let marks: Vec<&Value> = lines.iter().filter_map(|line| line.get("mark")).collect();
        assert!(marks.len() >= 2, "{word_of_kind}");
        for mark in &marks {
            let right = ["right", "skipped"].contains(&word(mark, "/verdict"));
            assert!(right, "{word_of_kind}: {mark}");
        }
        let plain = stream(&args[..args.len() - 1], "")?;
        assert!(plain[1].pointer("/question/reveal").is_none());
        assert_eq!(plain[1]["question"]["pictures"], lines[1]["question"]["pictures"], "{word_of_kind}");
    }
    Ok(())
}

#[test]
fn a_tool_is_moved_locked_and_left() -> Tested {
    let args = ["ask", "micrometer-metric", "--kind", "set-it", "--json", "--seed", "5", "--count", "1"];
    let first = stream(&args, "")?;
    let question = &first[1]["question"];
    assert_eq!((word(question, "/asks"), word(question, "/set/fine")), ("setting", "0.01"));
    assert!(question["set"].get("from").is_none(), "where it stands is for the eye");
    let id = word(question, "/id");
    let lines = stream(
        &args,
        &format!(
            "{{\"id\":\"{id}\",\"done\":true}}\n{{\"id\":\"{id}\",\"move\":\"+0.10\"}}\n\
             {{\"id\":\"{id}\",\"move\":\"0.10\"}}\n{{\"id\":\"{id}\",\"choose\":1}}\n\
             {{\"id\":\"{id}\",\"lock\":true}}\n{{\"id\":\"{id}\",\"done\":true}}\n"
        ),
    )?;
    let of: Vec<&str> =
        lines[2..].iter().filter_map(|line| line.as_object()?.keys().next().map(String::as_str)).collect();
    assert_eq!(of, ["again", "picture", "again", "error", "picture", "mark", "summary"]);
    assert_ne!(lines[3]["picture"]["text"], question["pictures"][0]["text"], "it has moved");
    assert_eq!(word(&lines[7], "/mark/kind"), "set-it");
    Ok(())
}

#[test]
fn numbers_and_moves_are_typed() -> Tested {
    let args = ["ask", "micrometer-metric", "--kind", "set-it", "--seed", "5", "--count", "1"];
    let ran = feed(&args, b"?\n+0.10\n12.34\nlock\nloosen\nlock\ndone\n")?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));
    let at = |text: &str| ran.out.find(text).ok_or_else(|| format!("no {text:?} in\n{}", ran.out));
    let order = [
        at("Question 1 of 1: micrometer, set it")?,
        at("Set it ")?,
        at("lock, then done.")?,
        at("look   say in words")?,
        at("Once more: ")?,
        at("Locked. Look at it once more")?,
        at("of 1 right.")?,
    ];
    assert!(order.is_sorted(), "{order:?}\n{}", ran.out);
    let args = ["ask", "micrometer-metric", "--kind", "what-now", "--seed", "5", "--count", "1"];
    let ran = feed(&args, b"0\n77\nskip\nskip\n")?;
    assert_eq!(ran.out.matches("Type the number of an answer, 1 to ").count(), 2, "{}", ran.out);
    assert!(ran.out.contains("  1  "), "{}", ran.out);
    Ok(())
}

#[test]
fn kinds_that_make_no_sense_are_refused() -> Tested {
    let ran = run(&["ask", "rule-metric", "--kind", "one-step"])?;
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("there is no question \"one-step\" on rule-metric"), "{}", ran.err);
    assert_eq!(run(&["ask", "rule-metric", "--kind", "guess-it"])?.code, Some(2));
    assert_eq!(run(&["ask", "--kind", "one-step", "--choose", "telling"])?.code, Some(2));
    Ok(())
}

#[test]
fn they_are_tallied_apart_from_readings() -> Tested {
    let dir = tempfile::tempdir()?;
    let data = ["--data-dir", text(dir.path())?];
    let args =
        ["ask", "micrometer-metric", "--kind", "one-step", "--seed", "3", "--count", "2", "--learner", "ada"];
    let ran = feed(&[&args[..], &data[..]].concat(), b"77\n78\n")?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{}", ran.out);
    let progress = |more: &[&str]| well(&[&["progress", "--learner", "ada"], more, &data[..]].concat());
    let out: Value = serde_json::from_str(&progress(&["--json"])?)?;
    assert_eq!(out["instruments"][0]["score"]["answered"], 0);
    assert_eq!(out["instruments"][0]["kinds"]["one-step"]["answered"], 2);
    assert!(progress(&["--csv"])?.contains("one-step:0/2"));
    assert!(progress(&[])?.contains("one step only 0 of 2"));
    Ok(())
}

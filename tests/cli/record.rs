//! What is kept: `ask --learner` and `progress`.

use super::{Tested, feed, run, text, well};
use serde_json::{Value, json};
use std::fs;

#[test]
fn nothing_is_kept_without_a_name() -> Tested {
    let dir = tempfile::tempdir()?;
    let data = dir.path().join("data");
    let ran = feed(&["--data-dir", text(&data)?, "ask", "rule-metric", "--count", "1"], b"3\n")?;
    assert_eq!(ran.code, Some(0));
    assert!(!data.exists());
    let out = well(&["--data-dir", text(&data)?, "progress"])?;
    assert!(out.starts_with("Nothing is recorded for me yet."), "{out}");
    let found: Value = serde_json::from_str(&well(&["--data-dir", text(&data)?, "progress", "--json"])?)?;
    assert_eq!(found, json!({"learner": "me", "instruments": [], "days": [], "undated": 0}));
    assert_eq!(well(&["--data-dir", text(&data)?, "progress", "--csv"])?.lines().count(), 1);
    assert!(!data.exists());
    Ok(())
}

#[test]
fn answers_are_kept_and_counted() -> Tested {
    let dir = tempfile::tempdir()?;
    let base = ["--data-dir", text(dir.path())?, "--learner", "=Bench 3, \"left\""];
    let ask = [&base[..], &["ask", "micrometer-metric", "--seed", "8", "--count", "4"]].concat();
    let shown = feed(&["ask", "micrometer-metric", "--seed", "8", "--count", "4"], &b"skip\n".repeat(4))?;
    let right: Vec<&str> = shown
        .out
        .lines()
        .filter_map(|line| line.split_once("Passed over. ")?.1.strip_suffix(" mm."))
        .filter_map(|rest| rest.strip_prefix("It reads ").or_else(|| rest.strip_prefix("The size is ")))
        .collect();
    let script = format!("{}\n99.99\nskip\n{}\n", right[0], right[3]);
    let ran = feed(&ask, script.as_bytes())?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));

    let found: Value = serde_json::from_str(&well(&[&base[..], &["progress", "--json"]].concat())?)?;
    assert_eq!(found["learner"], "=Bench 3, \"left\"");
    let one = &found["instruments"][0];
    assert_eq!(one["instrument"], "micrometer-metric");
    assert_eq!(one["score"], json!({"answered": 3, "right": 2}));
    assert_eq!(one["skipped"], 1);
    // Two of three are too few to go on.
    assert_eq!(one["level"], "one-step");
    assert_eq!(found["undated"], 0);
    assert!(one["last_at"].as_str().is_some_and(|at| at.len() == 20 && at.ends_with('Z')), "{one}");

    let csv = well(&[&base[..], &["progress", "--csv"]].concat())?;
    let rows: Vec<&str> = csv.split_terminator("\r\n").collect();
    assert_eq!(rows.len(), 2);
    assert!(rows[0].starts_with("learner,instrument,answered,right,"), "{csv}");
    assert!(rows[1].starts_with("\"'=Bench 3, \"\"left\"\"\",micrometer-metric,3,2,0.6667,"), "{csv}");

    let out = well(&[&base[..], &["progress"]].concat())?;
    assert!(
        out.contains("micrometer-metric: 2 of 3 right, 67 % (95 % interval 21 to 94 %), 1 passed over"),
        "{out}"
    );
    assert!(out.contains("last practised 20"), "{out}");
    assert!(out.contains("    now: one step at a time\n"), "{out}");
    // Someone else has nothing yet.
    let other = well(&["--data-dir", text(dir.path())?, "progress"])?;
    assert!(other.starts_with("Nothing is recorded for me yet."), "{other}");
    // The doctor sees a record that can be written.
    let found: Value = serde_json::from_str(&well(&["--data-dir", text(dir.path())?, "doctor", "--json"])?)?;
    assert_eq!((&found["record"]["exists"], &found["record"]["writable"]), (&json!(true), &json!(true)));
    Ok(())
}

#[test]
fn the_stream_is_the_same_kept_or_not() -> Tested {
    let dir = tempfile::tempdir()?;
    let args = ["ask", "caliper-inch-25", "--json", "--seed", "6", "--count", "2"];
    let kept = [&["--data-dir", text(dir.path())?, "--learner", "me"], &args[..]].concat();
    assert_eq!(run(&args)?.out, run(&kept)?.out);
    Ok(())
}

#[test]
fn a_record_that_cannot_be_opened_is_said_before_the_first_question() -> Tested {
    let dir = tempfile::tempdir()?;
    fs::write(
        dir.path().join("linefall.sqlite"),
        "this is no database, and it is long enough to see that".repeat(40),
    )?;
    let base = ["--data-dir", text(dir.path())?];
    for args in [&["--learner", "me", "ask", "rule-metric"][..], &["progress"]] {
        let ran = run(&[&base[..], args].concat())?;
        assert_eq!((ran.code, ran.out.as_str()), (Some(3), ""), "{args:?}");
        assert!(ran.err.contains("linefall.sqlite"), "{}", ran.err);
    }
    let ran = run(&[&base[..], &["doctor"]].concat())?;
    assert_eq!(ran.code, Some(1));
    Ok(())
}

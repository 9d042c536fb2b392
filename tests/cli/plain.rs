//! Help, listings, doctor, completions, the manual page, and how a command ends.

use super::{Tested, command, run, text, well};
use serde_json::Value;
use std::fs;
use std::io::Read;

#[test]
fn help_is_a_result_and_a_slip_is_not() -> Tested {
    for args in [&["--help"][..], &["draw", "--help"], &["help", "ask"], &["--version"]] {
        let out = well(args)?;
        assert!(!out.is_empty() && !out.contains('\u{1b}'), "{args:?}");
    }
    for args in [&["--thme", "dark"][..], &["paint"], &["ask", "--count", "0"], &["draw"], &["check"]] {
        let ran = run(args)?;
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{args:?}");
        assert!(!ran.err.is_empty());
    }
    let hostile = run(&["\u{1b}]0;x\u{7}"])?;
    assert_eq!(hostile.code, Some(2));
    assert!(!hostile.err.contains(['\u{1b}', '\u{7}']), "{:?}", hostile.err);
    Ok(())
}

#[test]
fn no_full_screen_without_a_terminal() -> Tested {
    for args in [&[][..], &["practice"], &["practice", "micrometer-inch"]] {
        let ran = run(args)?;
        assert_eq!(ran.code, Some(2), "{args:?}");
        assert!(ran.err.contains("linefall ask"), "{}", ran.err);
    }
    let ran = run(&["practice", "micrometer-inhc"])?;
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("did you mean micrometer-inch?"), "{}", ran.err);
    Ok(())
}

/// The keys of the file format, and the page about it: the page that is committed.
#[test]
fn the_file_format_is_explained() -> Tested {
    let page = well(&["list", "format"])?;
    assert_eq!(page, include_str!("../../assets/instruments/FORMAT.md"));
    let all: Vec<Value> = serde_json::from_str(&well(&["list", "keys", "--json"])?)?;
    let text = well(&["list", "keys"])?;
    for key in &all {
        let (name, says) = (key["key"].as_str().ok_or("a name")?, key["says"].as_str().ok_or("a sentence")?);
        assert!(text.contains(says) && page.contains(says), "{name}");
        assert!(key["required"] == true || key["default"].is_string() || name == "length", "{key}");
    }
    let face = all.iter().find(|key| key["key"] == "face").ok_or("no face")?;
    assert_eq!(
        (&face["of"], &face["words"]),
        (&serde_json::json!(["dial"]), &serde_json::json!(["continuous", "balanced"]))
    );
    let whole: Value = serde_json::from_str(&well(&["list", "format", "--json"])?)?;
    assert_eq!(whole["keys"].as_array().map(Vec::len), Some(all.len()));
    assert!(whole["examples"].as_array().is_some_and(|examples| examples.len() >= 9));
    Ok(())
}

#[test]
fn listings() -> Tested {
    let table = well(&["list", "instruments"])?;
    let line = table.lines().find(|line| line.starts_with("caliper-inch-25 ")).unwrap_or_default();
    assert_eq!(
        line.split_whitespace().take(6).collect::<Vec<_>>(),
        ["caliper-inch-25", "in", "0.000", "to", "6.000", "0.001"]
    );
    let all: Vec<Value> = serde_json::from_str(&well(&["list", "instruments", "--json"])?)?;
    assert_eq!(all.len(), table.lines().count());
    assert_eq!(all[0]["id"], "rule-inch-64");
    assert_eq!(all[0]["least_count"], "1/64");
    assert_eq!(all[0]["range"], serde_json::json!(["0", "6"]));

    let all: Vec<Value> = serde_json::from_str(&well(&["list", "misreads", "--json"])?)?;
    let half = all.iter().find(|one| one["id"] == "half-line-missed").ok_or("not listed")?;
    for key in ["name", "stage", "formula", "cure"] {
        assert!(half[key].as_str().is_some_and(|text| !text.is_empty()), "{key}");
    }
    assert_eq!(
        half["instruments"],
        serde_json::json!([
            "micrometer-metric",
            "micrometer-metric-microns",
            "depth-micrometer-metric",
            "inside-micrometer-metric",
            "inside-jaw-micrometer-metric"
        ])
    );
    let rod = all.iter().find(|one| one["id"] == "rod-forgotten").ok_or("not listed")?;
    assert_eq!(rod["stage"], "rod");
    assert_eq!(rod["instruments"].as_array().map(Vec::len), Some(4));
    let cards = well(&["list", "misreads"])?;
    for one in &all {
        assert!(cards.contains(one["cure"].as_str().unwrap_or("?")), "{one}");
    }
    Ok(())
}

#[test]
fn own_instruments_are_listed_and_faulty_ones_named() -> Tested {
    let dir = tempfile::tempdir()?;
    let folder = dir.path().join("instruments");
    fs::create_dir(&folder)?;
    let own = include_str!("../../assets/instruments/rule-metric.toml").replace("rule-metric", "bench-rule");
    fs::write(folder.join("bench-rule.toml"), own)?;
    fs::write(folder.join("broken.toml"), "id = 3\n")?;
    let ran = run(&["--data-dir", text(dir.path())?, "list", "instruments"])?;
    assert_eq!(ran.code, Some(0));
    assert!(ran.out.lines().any(|line| line.starts_with("bench-rule ")), "{}", ran.out);
    assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
    let broken = folder.join("broken.toml");
    assert!(ran.err.contains(&format!("run linefall check {}", broken.display())), "{}", ran.err);

    let ran = run(&["--data-dir", text(dir.path())?, "doctor"])?;
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("1 of your own, 1 left out"), "{}", ran.out);
    Ok(())
}

#[test]
fn the_doctor_changes_nothing() -> Tested {
    let dir = tempfile::tempdir()?;
    let data = dir.path().join("data");
    let out = well(&["--data-dir", text(&data)?, "doctor"])?;
    assert!(out.contains(env!("CARGO_PKG_VERSION")) && out.contains("linefall.sqlite"), "{out}");
    assert!(out.contains("ascii (the output is no terminal)"), "{out}");
    let found: Value = serde_json::from_str(&well(&["--data-dir", text(&data)?, "doctor", "--json"])?)?;
    assert_eq!(found["record"]["exists"], false);
    assert_eq!(found["record"]["writable"], true);
    assert_eq!(found["lines"]["why"], "no-terminal");
    assert_eq!(found["terminal"]["is_terminal"], false);
    assert!(!data.exists());

    let mut bars =
        command(&["--data-dir", text(&data)?, "--lines", "bars", "--theme", "dark", "doctor", "--json"]);
    let out = bars.env("NO_COLOR", "1").env("TERM_PROGRAM", "\u{1b}[2J").output()?;
    let found: Value = serde_json::from_slice(&out.stdout)?;
    assert_eq!(found["lines"], serde_json::json!({"style": "bars", "why": "asked"}));
    assert_eq!((&found["theme"], &found["no_color"]), (&Value::from("dark"), &Value::from(true)));
    assert!(!out.stdout.contains(&0x1b));

    fs::write(dir.path().join("file"), "")?;
    let ran = run(&["--data-dir", text(&dir.path().join("file"))?, "doctor"])?;
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("nothing can be saved"), "{}", ran.out);
    Ok(())
}

#[test]
fn completions_and_the_manual_page() -> Tested {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = well(&["completions", shell])?;
        assert!(script.contains("linefall") && script.contains("zero-error"), "{shell}");
    }
    let page = well(&["man"])?;
    assert!(page.contains(".TH linefall 1"));
    for command in ["PRACTICE", "LIST", "DRAW", "ASK", "CHECK", "PROGRESS", "DOCTOR", "COMPLETIONS", "MAN"] {
        assert!(page.contains(&format!(".SH \"LINEFALL {command}\"")), "{command}");
    }
    Ok(())
}

#[test]
fn a_reader_that_has_seen_enough_is_no_failure() -> Tested {
    let seed = ["ask", "--json", "--seed", "1", "--count", "10000"];
    for args in [&["completions", "zsh"][..], &["list", "misreads"], &seed] {
        let mut child = command(args).spawn()?;
        let mut first = [0];
        let mut stdout = child.stdout.take().ok_or("no output")?;
        stdout.read_exact(&mut first)?;
        drop(stdout);
        drop(child.stdin.take());
        let ended = child.wait_with_output()?;
        assert_eq!((ended.status.code(), ended.stderr.len()), (Some(0), 0), "{args:?}");
    }
    Ok(())
}

#[test]
fn care_cards() -> Tested {
    let out = well(&["care", "micrometer-inch"])?;
    for heading in ["Before use", "Taking the measurement", "Keeping it", "What wears", "Never", "Always"] {
        assert!(out.contains(&format!("\n{heading}\n")), "{heading} in {out}");
    }
    assert!(out.contains("authorised inspectors decide"), "{out}");
    let card: Value = serde_json::from_str(&well(&["care", "rule-metric", "--json"])?)?;
    assert_eq!(card["instrument"], "rule-metric");
    assert!(card["before"].as_array().is_some_and(|lines| !lines.is_empty()));
    Ok(())
}

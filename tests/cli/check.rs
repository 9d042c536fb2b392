//! `linefall check`.

use super::{Tested, run, text, well};
use std::fs;

const MICROMETER: &str = include_str!("../../assets/instruments/micrometer-inch.toml");

#[test]
fn good_files_get_a_line_each() -> Tested {
    let dir = tempfile::tempdir()?;
    let (a, b) = (dir.path().join("a.toml"), dir.path().join("b.toml"));
    fs::write(&a, MICROMETER)?;
    fs::write(&b, MICROMETER.replace('\n', "\r\n"))?;
    let out = well(&["check", text(&a)?, text(&b)?])?;
    assert_eq!(out.lines().count(), 2);
    assert!(out.lines().all(|line| line.ends_with("no faults (micrometer-inch)")), "{out}");
    Ok(())
}

#[test]
fn six_faults_are_six_reports() -> Tested {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join("bench.toml");
    let changes = [
        ("unit = \"in\"", "unit = \"furlong\""),
        ("format = 1", "format = 1\ncolour = \"blue\""),
        ("division = \"0.025 in\"", "division = 0.025"),
        ("parts = 25", "prts = 25"),
        ("engraved = [", "engraved = [3, "),
        ("name = \"sleeve\"", "name = 7"),
    ];
    let mut source = MICROMETER.to_owned();
    for (good, bad) in changes {
        assert!(source.contains(good), "{good}");
        source = source.replacen(good, bad, 1);
    }
    fs::write(&file, &source)?;
    let ran = run(&["check", text(&file)?])?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(1), ""));
    for (_, bad) in changes {
        let bad = bad.rsplit('\n').next().unwrap_or(bad);
        let start = source.find(bad).ok_or("not in the file")?;
        let line = source[..start].matches('\n').count() + 1;
        let place = format!("{}:{line}:", file.display());
        assert!(ran.out.contains(&place), "{place} is not in\n{}", ran.out);
    }
    assert!(ran.out.matches("error[").count() >= 6, "{}", ran.out);
    assert!(ran.out.matches("help: ").count() >= 6, "{}", ran.out);
    let count = ran.out.matches("error[").count();
    assert!(ran.out.ends_with(&format!(": {count} faults\n")), "{}", ran.out);
    assert!(!ran.out.contains('\u{1b}'), "no colours into a pipe");
    assert_eq!(ran.out, run(&["check", text(&file)?])?.out);
    Ok(())
}

#[test]
fn a_report_has_code_place_mark_and_fix() -> Tested {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join("bench.toml");
    fs::write(&file, MICROMETER.replacen("division = \"0.025 in\"", "division = 0.025", 1))?;
    let ran = run(&["check", text(&file)?])?;
    let line =
        MICROMETER.lines().position(|line| line.starts_with("division = \"0.025 in\"")).ok_or("no")? + 1;
    assert!(ran.out.contains("error[bare-number]: "), "{}", ran.out);
    assert!(ran.out.contains(&format!("--> {}:{line}:12", file.display())), "{}", ran.out);
    assert!(ran.out.contains("| division = 0.025\n"), "{}", ran.out);
    assert!(ran.out.contains("^^^^^"), "{}", ran.out);
    assert!(ran.out.contains("= help: division = \"0.025 in\""), "{}", ran.out);
    Ok(())
}

const CALIPER: &str = include_str!("../../assets/instruments/caliper-inch-25.toml");

/// File, what stands in it, what is written instead, the fault's code, what is marked, the fix.
type Slip<'a> = (&'a str, &'a str, &'a str, &'a str, &'a [&'a str], &'a str);

/// The commonest slips: culprit and cause are marked in one snippet, in the order of the file, with the fix below.
#[test]
fn a_common_slip_is_shown_with_its_cause_in_one_snippet() -> Tested {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join("slip.toml");
    let slips: [Slip<'_>; 6] = [
        // A vernier whose span gives no least count.
        (
            CALIPER,
            "over = [24, 49]",
            "over = 25",
            "no-coincidence",
            &["parts = 25", "over = 25"],
            "over = 24",
        ),
        // A least count that its parts cannot give.
        (
            CALIPER,
            "least-count = \"0.001 in\"",
            "least-count = \"0.0005 in\"",
            "least-count",
            &["least-count = \"0.0005 in\"", "division = \"0.025 in\"", "parts = 25"],
            "least-count = \"0.001 in\"",
        ),
        // A range off the steps that are read.
        (
            CALIPER,
            "\"6 in\"]",
            "\"6.0005 in\"]",
            "range",
            &["range = [\"0 in\", \"6.0005 in\"]", "least-count = \"0.001 in\""],
            "the next that is: \"6.001 in\"",
        ),
        // A thimble whose turn is not the lead.
        (
            MICROMETER,
            "parts = 25",
            "parts = 50",
            "turn",
            &["division = \"0.025 in\"", "division = \"0.001 in\"", "parts = 50"],
            "parts = 25",
        ),
        // Figures that run into each other, on a scale and on a vernier.
        (
            MICROMETER,
            "every = \"0.1 in\", worth = \"0.1 in\", wrap = 10",
            "every = \"0.025 in\", worth = \"0.001 in\"",
            "figures-clash",
            &["division = \"0.025 in\"", "numerals = [{ every = \"0.025 in\""],
            "every = \"0.1 in\"",
        ),
        (
            CALIPER,
            "every = \"0.005 in\"",
            "every = \"0.001 in\"",
            "figures-clash",
            &["parts = 25", "numerals = [{ every = \"0.001 in\""],
            "every = \"0.002 in\"",
        ),
    ];
    for (base, from, to, code, marked, fix) in slips {
        assert!(base.contains(from), "{from}");
        fs::write(&file, base.replacen(from, to, 1))?;
        let ran = run(&["check", text(&file)?])?;
        assert_eq!(ran.code, Some(1), "{code}");
        let report = ran.out.split("\n\n").next().unwrap_or_default();
        assert!(report.starts_with(&format!("error[{code}]: ")), "{}", ran.out);
        assert_eq!(report.matches("--> ").count() + report.matches("::: ").count(), 1, "{report}");
        let mut rest = report;
        for line in marked {
            let at = rest
                .find(&format!("| {line}"))
                .ok_or_else(|| format!("{line} is not in order in\n{report}"))?;
            rest = &rest[at..];
            let under = rest.lines().nth(1).unwrap_or_default();
            assert!(under.contains("^^") || under.contains("--"), "{line} is not marked in\n{report}");
        }
        assert!(report.contains(&format!("help: {fix}")), "{report}");
        assert!(report.lines().count() < 24, "{report}");
    }
    Ok(())
}

/// A person's own file with the id of a shipped instrument takes its place, and every command says so.
#[test]
fn an_own_file_in_the_place_of_a_shipped_one_is_announced() -> Tested {
    let data = tempfile::tempdir()?;
    let folder = data.path().join("instruments");
    fs::create_dir(&folder)?;
    let file = folder.join("ours.toml");
    let own = CALIPER.replacen("25 parts, to 0.001 in", "25 parts, from the crib", 1);
    fs::write(&file, own)?;
    let at = |args: &[&str]| run(&[args, &["--data-dir", text(data.path())?]].concat());
    let ran = at(&["list", "instruments"])?;
    assert_eq!(ran.code, Some(0));
    let listed: Vec<&str> = ran.out.lines().filter(|line| line.starts_with("caliper-inch-25 ")).collect();
    assert!(matches!(listed[..], [line] if line.ends_with("from the crib")), "{}", ran.out);
    assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
    assert!(ran.err.contains("ours.toml") && ran.err.contains("caliper-inch-25"), "{}", ran.err);
    let ran = run(&["check", text(&file)?])?;
    assert_eq!(ran.code, Some(0));
    assert!(ran.out.contains("takes the place of the shipped caliper-inch-25"), "{}", ran.out);
    Ok(())
}

#[test]
fn nothing_in_a_file_reaches_the_terminal_as_a_command() -> Tested {
    let dir = tempfile::tempdir()?;
    let hostile = "\u{1b}]52;c;eA==\u{7}\u{1b}[2J\u{202e}\u{9b}31m\u{200b}\u{e0041}\u{85}";
    let sources = [
        format!("{MICROMETER}# {hostile}\n"),
        MICROMETER.replace("title = \"", &format!("title = \"{hostile}")),
        format!("\"{hostile}\" = 1\n{MICROMETER}"),
        hostile.to_owned(),
        MICROMETER.replace("division = ", "divison\r = "),
        format!("id = \"\u{301}\u{301}\u{301}{hostile}\n"),
        "x".repeat(100_000),
        "[[stage]]\n".repeat(2_000),
        String::new(),
    ];
    for (n, source) in sources.iter().enumerate() {
        let file = dir.path().join(format!("{n}.toml"));
        fs::write(&file, source)?;
        let ran = run(&["check", text(&file)?])?;
        assert_eq!(ran.code, Some(1), "{n}: {} {}", ran.out, ran.err);
        let obeyed = |c: char| (c.is_control() && c != '\n') || "\u{202e}\u{200b}\u{e0041}".contains(c);
        assert!(!ran.out.contains(obeyed) && !ran.err.contains(obeyed), "{n}: {:?}", ran.out);
        assert!(ran.out.len() < 3_000_000, "{n}: {} bytes", ran.out.len());
    }
    Ok(())
}

#[cfg(unix)]
#[test]
fn a_hostile_name_is_no_command_either() -> Tested {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join("\u{1b}[2J\n.toml");
    fs::write(&file, "id = 3\n")?;
    let ran = run(&["check", text(&file)?])?;
    assert_eq!(ran.code, Some(1));
    assert!(!ran.out.contains('\u{1b}') && ran.out.contains("\u{fffd}[2J\u{fffd}.toml"), "{}", ran.out);
    Ok(())
}

#[test]
fn unreadable_files_do_not_stop_the_others() -> Tested {
    let dir = tempfile::tempdir()?;
    let (missing, bytes, good) =
        (dir.path().join("missing.toml"), dir.path().join("bytes.toml"), dir.path().join("good.toml"));
    fs::write(&bytes, b"\xff\xfe")?;
    fs::write(&good, MICROMETER)?;
    let ran = run(&["check", text(&missing)?, text(&bytes)?, text(dir.path())?, text(&good)?])?;
    assert_eq!(ran.code, Some(3));
    assert_eq!(ran.err.lines().count(), 3, "{}", ran.err);
    assert!(ran.err.contains("not text in UTF-8"), "{}", ran.err);
    assert!(ran.out.contains("good.toml: no faults"), "{}", ran.out);
    Ok(())
}

//! The times that an instructor wants readings in.

use super::{Tested, feed, run, text, well};
use std::fs;

#[test]
fn an_instructors_time_is_the_one_that_progress_judges_by() -> Tested {
    let folder = tempfile::tempdir()?;
    let at = ["--data-dir", text(folder.path())?];
    let file = folder.path().join("targets.toml");
    fs::write(&file, "micrometer-metric = \"7.5 s\"\n")?;
    assert!(well(&["check", text(&file)?])?.ends_with("targets.toml: no faults (1 time)\n"));
    for id in ["micrometer-metric", "rule-metric"] {
        let asked = feed(&[&["ask", id, "--count", "1", "--learner", "me"], &at[..]].concat(), b"1\n")?;
        assert_eq!(asked.code, Some(0), "{}", asked.err);
    }
    let progress = well(&[&["progress", "--json"], &at[..]].concat())?;
    let progress: serde_json::Value = serde_json::from_str(&progress)?;
    let target = |n: usize| progress["instruments"][n]["gates"]["quick"]["target"].as_f64();
    assert_eq!((target(0), target(1)), (Some(7.5), Some(10.0)), "{progress}");
    Ok(())
}

#[test]
fn faulty_times_are_named_and_the_others_hold() -> Tested {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("targets.toml");
    fs::write(&file, "micrometer-metrik = \"8 s\"\nrule-metric = \"soon\"\n")?;
    let checked = run(&["check", text(&file)?])?;
    assert_eq!(checked.code, Some(1));
    for wanted in
        ["error[instrument]", "micrometer-metric = \"10 s\"", "error[time]", "targets.toml:2:15", "2 faults"]
    {
        assert!(checked.out.contains(wanted), "{wanted}: {}", checked.out);
    }
    let listed = run(&["list", "instruments", "--data-dir", text(folder.path())?])?;
    assert_eq!(listed.code, Some(0));
    assert!(listed.err.contains("faulty times are left out (2 faults)"), "{}", listed.err);
    Ok(())
}

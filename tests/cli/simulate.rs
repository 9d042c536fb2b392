//! Apprentices that are made up: the report, and a record of one of them.

use super::{Tested, run, text, well};

const FEW: [&str; 7] = ["simulate", "--learners", "2", "--days", "3", "--instruments", "micrometer-metric"];

#[test]
fn the_report_says_the_same_for_the_same_seed() -> Tested {
    let report = |more: &[&str]| well(&[&FEW[..], more].concat());
    let json: serde_json::Value = serde_json::from_str(&report(&["--json"])?)?;
    assert_eq!(json["policies"].as_array().map(Vec::len), Some(3), "{json}");
    assert_eq!(json["policies"][0]["findings"]["learners"], 2);
    let same = report(&["--seed", "4"])?;
    assert_eq!(same, report(&["--seed", "4"])?);
    assert_ne!(same, report(&["--seed", "5"])?);
    // It is for contributors: no list has it.
    assert!(!well(&["--help"])?.contains("simulate") && !well(&["man"])?.contains("simulate"));
    assert_eq!(run(&["simulate", "--instruments", "no-such-tool"])?.code, Some(2));
    Ok(())
}

#[test]
fn days_are_written_as_a_record_that_progress_reads() -> Tested {
    let folder = tempfile::tempdir()?;
    let dir = text(folder.path())?;
    let said = well(&[&FEW[..], &["--into", dir]].concat())?;
    let answers: u64 = said.split(' ').next().ok_or("a count")?.parse()?;
    assert!(answers > 20, "{said}");
    let progress: serde_json::Value =
        serde_json::from_str(&well(&["progress", "--json", "--data-dir", dir])?)?;
    assert_eq!(progress["instruments"][0]["score"]["answered"], answers, "{progress}");
    Ok(())
}

//! `linefall walk` and `linefall list lessons`.

use super::{Tested, run, well};
use serde_json::Value;

#[test]
fn lessons_are_listed_and_each_is_printed() -> Tested {
    let all: Value = serde_json::from_str(&well(&["list", "lessons", "--json"])?)?;
    let plain = well(&["list", "lessons"])?;
    let all = all.as_array().ok_or("a list")?;
    assert!(all.len() > 20);
    for lesson in all {
        let (id, on) = (lesson["id"].as_str().ok_or("id")?, lesson["instruments"][0].as_str().ok_or("tool")?);
        assert!(plain.contains(&format!("{id}: ")), "{id}");
        let told = well(&["walk", on, "--text"])?;
        assert!(told.is_ascii() || on == "bevel-protractor" || on == "protractor-head", "{id}");
        let steps = lesson["steps"].as_u64().ok_or("steps")?;
        assert!(told.contains(&format!("Step {steps} of {steps}")), "{id}");
        assert!(told.contains("Question: "), "{id}");
        let heard = well(&["walk", on, "--describe"])?;
        assert!(heard.lines().count() > told.lines().filter(|line| line.starts_with("Step")).count(), "{id}");
    }
    Ok(())
}

/// Worked by hand: 27.36 mm is figure 20 and seven lines, and vernier line 18 of 0.02 mm; W32 of the published readings is
/// 0.400 + 0.025 + 0.010 = 0.435 in.
#[test]
fn what_a_lesson_says_is_what_the_tool_reads() -> Tested {
    let caliper = well(&["walk", "caliper-metric-50", "--text"])?;
    for sentence in [
        "Figure 20 and 7 lines: 27.00 mm.",
        "Its line 18, each 0.02 mm: 0.36 mm. Together 20.00 + 7.00 + 0.36 = 27.36 mm.",
        "18.20 mm less -0.04 mm: 18.24 mm.",
    ] {
        assert!(caliper.contains(sentence), "{sentence}");
    }
    let depth = well(&["walk", "depth-micrometer-metric", "--text"])?;
    assert!(depth.contains("0.400 + 0.025 + 0.010 = 0.435 in"), "{depth}");
    // What shows, read as on an outside micrometer: figure 5, two lines and the thimble would be 0.565 less the way about.
    assert!(depth.contains("Who takes what shows gets 0.5"), "{depth}");
    Ok(())
}

#[test]
fn a_walk_needs_a_terminal_and_an_instrument() -> Tested {
    let ran = run(&["walk", "micrometer-metric"])?;
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("terminal"), "{}", ran.err);
    let ran = run(&["walk", "micrometer-metrik", "--text"])?;
    assert_eq!(ran.code, Some(2));
    assert!(ran.err.contains("micrometer-metric"), "{}", ran.err);
    Ok(())
}

//! Files that mean harm, and files spoiled by chance.

use super::*;

#[test]
fn hostile_files_are_refused_with_a_sentence() {
    let mut keys = String::new();
    for n in 0..100_000 {
        writeln!(keys, "{n}=1").expect("a string takes all");
    }
    let title = |text: &str| {
        changed(
            CALIPER,
            "title = \"Vernier caliper, 6 in, 25 parts, to 0.001 in\"",
            &format!("title = \"{text}\""),
        )
    };
    let nines = "9".repeat(30);
    let cases = [
        ("x".repeat((1 << 20) + 1), "too-large"),
        (keys, "too-many-keys"),
        (title("a\\u001b[31m"), "hidden-character"),
        (title("a\\u202eb"), "hidden-character"),
        (title("a\u{202e}b"), "hidden-character"),
        (title("a\\u200bb"), "hidden-character"),
        (title(&"long".repeat(40)), "too-long"),
        (title(""), "empty-text"),
        (changed(CALIPER, "# An", "# \u{2066}An"), "hidden-character"),
        (changed(CALIPER, "\"0.025 in\"", "nan"), "bare-number"),
        (changed(CALIPER, "\"0.025 in\"", "-inf"), "bare-number"),
        (changed(CALIPER, "\"0.025 in\"", "\"NaN in\""), "not-a-quantity"),
        (changed(CALIPER, "\"0.025 in\"", &nines), "bare-number"),
        (changed(CALIPER, "\"0.025 in\"", &format!("\"{nines} in\"")), "too-many-digits"),
        (changed(CALIPER, "\"0.025 in\"", "\"1/999999937 in\""), "out-of-reach"),
        (changed(CALIPER, "parts = 25", &format!("parts = {nines}")), "count"),
        (
            changed(CALIPER, "parts = 25", &format!("parts = {}1{}", "[".repeat(200), "]".repeat(200))),
            "syntax",
        ),
    ];
    for (text, code) in cases {
        let found = faults(&text);
        assert_eq!(found.iter().map(|fault| fault.code).collect::<Vec<_>>(), [code]);
        assert!(found[0].fix.is_some());
        let plain = |text: &str| !text.chars().any(|c| c.is_control() || c == '\u{202e}') && text.len() < 300;
        assert!(plain(&found[0].message) && found[0].fix.as_deref().is_some_and(plain), "{:?}", found[0]);
    }
    let garbage = "= [ \u{1b} \"\n".repeat(4_000);
    assert!((1..=200).contains(&faults(&garbage).len()));
}

#[test]
fn no_change_of_a_file_makes_the_reader_fall_over() {
    let pieces: [&str; 12] = ["0", "9", "/", "-", "\"", "=", "[", "]", "\n", " in", "{ every", "999999999"];
    let mut state: u64 = 7;
    let mut next = |below: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).expect("31 bits") % below
    };
    for round in 0..4_000 {
        let mut text = [TENTHS, METRIC, CALIPER, RULE][round % 4].to_owned();
        for _ in 0..=next(3) {
            let at = next(text.len());
            let end = (at + next(4)).min(text.len());
            if text.is_char_boundary(at) && text.is_char_boundary(end) {
                text.replace_range(at..end, pieces[next(pieces.len())]);
            }
        }
        for fault in faults(&text) {
            assert!(fault.fix.is_some(), "{fault:?}");
            assert!(text.get(fault.at.span.start..fault.at.span.end).is_some(), "{fault:?}");
        }
    }
}

//! Tools under conditions: drawn and asked.

use super::ask_json::Stream;
use super::{Tested, run, well};
use serde_json::{Value, json};

#[test]
fn a_digit_between_lines_is_described_and_explained() -> Tested {
    let base = ["draw", "micrometer-metric", "1.633", "--estimate"];
    let seen = well(&[&base[..], &["--format", "describe"]].concat())?;
    assert!(seen.contains("Thimble: the datum line is about a third of the way to the next line."), "{seen}");
    assert!(!seen.contains("1.63"), "{seen}");
    let told = well(&[&base[..], &["--format", "explain"]].concat())?;
    assert!(told.contains("thimble: about 3 tenths beyond it"), "{told}");
    assert!(told.ends_with("1.000 + 0.500 + 0.130 + 0.003 = 1.633 mm\n"), "{told}");
    let nearest = well(&["draw", "micrometer-metric", "1.633", "--between", "--format", "explain"])?;
    assert!(nearest.ends_with("1.00 + 0.50 + 0.13 = 1.63 mm\n"), "{nearest}");
    Ok(())
}

#[test]
fn conditions_are_seen_in_the_picture() -> Tested {
    let base = ["draw", "caliper-metric-50", "112.36", "--size", "80x24", "--lines", "thin"];
    let plain = well(&base)?;
    let worn = well(&[&base[..], &["--worn", "3"]].concat())?;
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).count();
    assert!(digits(&worn) < digits(&plain), "{worn}");
    assert_eq!(worn, well(&[&base[..], &["--worn", "3"]].concat())?, "twice the same");
    let loose = well(&[&base[..], &["--lock", "loose"]].concat())?;
    assert!(loose.contains("lock loose") && !plain.contains("lock"), "{loose}");
    Ok(())
}

#[test]
fn what_a_tool_cannot_be_under_is_said() -> Tested {
    let cases = [
        (&["micrometer-inch", "0.49155", "--between"][..], &["0.4915 and 0.4916 in"][..]),
        (&["micrometer-inch", "0.49155", "--estimate"], &["0.4915 and 0.4916 in"]),
        (&["micrometer-inch", "0.4915"], &["0.491 and 0.492 in"]),
        (&["caliper-metric-50", "12.34", "--estimate"], &["does not say how a digit is estimated"]),
        (&["rule-metric", "12", "--lock", "loose"], &["has no lock"]),
        (&["dial-caliper-inch", "1", "--worn", "1"], &["no figure of this instrument wears away"]),
        (&["micrometer-inch", "0.1", "--estimate", "--between"], &["cannot be used with"]),
    ];
    for (args, said) in cases {
        let ran = run(&[&["draw"], args].concat())?;
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{args:?}: {}", ran.err);
        for word in said {
            assert!(ran.err.contains(word), "{args:?}: {}", ran.err);
        }
    }
    Ok(())
}

/// In a run of questions estimated digits are asked for by name, and a loose lock is told to be tightened whatever is answered.
#[test]
fn conditions_are_asked_about() -> Tested {
    let mut stream = Stream::open(&[
        "micrometer-metric",
        "--reveal",
        "--seed",
        "4",
        "--count",
        "150",
        "--size",
        "100x30",
    ])?;
    stream.next("linefall")?;
    let (mut estimated, mut bands, mut told) = (0, 0, 0);
    for number in 1..=150 {
        let question = stream.next("question")?;
        let conditions = question["reveal"]["conditions"].as_str().unwrap_or_default();
        let by_name =
            question["prompt"].as_str().is_some_and(|prompt| prompt.contains("last digit estimated"));
        assert_eq!(by_name, conditions.contains("read=estimate"), "{number}: {question}");
        let loose = conditions.contains("lock=loose");
        let answer = if loose && number % 2 == 0 {
            Value::from("9.87")
        } else {
            question["reveal"]["expected"].clone()
        };
        stream.say(&json!({"id": question["id"], "answer": answer}))?;
        let mark = stream.next("mark")?;
        assert_eq!(mark["right"], answer == question["reveal"]["expected"], "{number}: {mark}");
        let advice = mark["advice"].as_str().unwrap_or_default();
        assert_eq!(advice.contains("tighten it and check the reading again"), loose, "{number}: {mark}");
        estimated += u32::from(by_name);
        bands += u32::from(mark["accepted"][0] != mark["accepted"][1]);
        told += u32::from(loose);
    }
    assert!(estimated > 2 && bands > estimated && told > 2, "{estimated} {bands} {told}");
    Ok(())
}

//! The class record and the practical half.

use super::{Tested, feed, run, text, well};
use serde_json::Value;
use std::fs;

/// A class made up: the listing stays within eighty columns and says that nobody is real, JSON and CSV hold the same learners.
#[test]
fn a_class_made_up_is_listed() -> Tested {
    let listed = well(&["class", "--invented", "4", "--plain"])?;
    assert!(
        listed.starts_with("Made up for trying out: nobody in it is real.\nClass record: 4 learners"),
        "{listed}"
    );
    let long: Vec<_> = listed.lines().filter(|line| line.chars().count() > 80).collect();
    assert!(long.is_empty(), "{long:?}");
    for part in ["What the class gets wrong", "Given out", "Micrometer skills check (check"] {
        assert!(listed.contains(part), "{part}");
    }
    let json: Value = serde_json::from_str(&well(&["class", "--invented", "4", "--json"])?)?;
    assert_eq!((&json["invented"], json["learners"].as_array().map(Vec::len)), (&Value::Bool(true), Some(4)));
    assert_eq!(json["given"][8]["purpose"], "check");
    let csv = well(&["class", "--invented", "4", "--csv"])?;
    assert!(csv.starts_with("code,name,group,instrument,") && csv.ends_with("\r\n"), "{csv}");
    let early: Value =
        serde_json::from_str(&well(&["class", "--invented", "4", "--group", "early shift", "--json"])?)?;
    assert_eq!(early["learners"].as_array().map(Vec::len), Some(2));
    let none = run(&["class", "--invented", "4", "--group", "nights"])?;
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("the roster has early shift, late shift"), "{}", none.err);
    Ok(())
}

#[test]
fn one_learner_what_came_back_and_which_questions_bite() -> Tested {
    let one = well(&["class", "--invented", "4", "--learner-code", "k2"])?;
    assert!(one.contains("k2 Bram, late shift") && one.contains("of the latest 40 right"), "{one}");
    assert_eq!(run(&["class", "--invented", "4", "--learner-code", "k9"])?.code, Some(2));
    let csv = well(&["class", "--invented", "4", "--returned", "--csv"])?;
    assert!(csv.starts_with("card,set,purpose,wanted_by,code,back,try,"), "{csv}");
    // Nine cards for four learners: a row each at the least.
    assert!(csv.lines().count() > 36, "{csv}");
    let questions = ["class", "--invented", "4", "--questions", "micrometer-check"];
    let json: Value = serde_json::from_str(&well(&[&questions[..], &["--json"]].concat())?)?;
    assert_eq!(
        (&json["paper"], &json["too_few"], &json["people"]),
        (&"same".into(), &true.into(), &4.into())
    );
    assert_eq!(json["lines"].as_array().map(Vec::len), Some(30));
    let listed = well(&questions)?;
    assert!(listed.contains("too few to say") && !listed.contains("reliability"), "{listed}");
    let nothing = run(&["class", "--invented", "4", "--questions", "no-such"])?;
    assert!(nothing.code == Some(2) && nothing.err.contains("there is caliper-round"), "{}", nothing.err);
    Ok(())
}

/// Names that a terminal or a spreadsheet would obey reach neither.
#[test]
fn hostile_names_reach_neither_terminal_nor_spreadsheet() -> Tested {
    let folder = tempfile::tempdir()?;
    let at = ["--data-dir", text(folder.path())?];
    let long = "x".repeat(10_000);
    let roster = format!(
        "k1 = \"=1+1\"\nk2 = {{ name = \"@SUM(A1)\", group = \"-2+3\" }}\nk3 = \"{long}\"\nk4 = \"\\u001b[2J\\u202eda\"\n"
    );
    fs::write(folder.path().join("roster.toml"), roster)?;
    for args in
        [&["class"][..], &["class", "--csv"], &["class", "--json"], &["class", "--learner-code", "k1"]]
    {
        let ran = run(&[args, &at].concat())?;
        assert_eq!(ran.code, Some(0), "{}", ran.err);
        let all = format!("{}{}", ran.out, ran.err);
        assert!(!all.contains(['\u{1b}', '\u{202e}']) && all.len() < 8_000, "{args:?} {}", all.len());
    }
    let csv = run(&[&["class", "--csv"][..], &at].concat())?.out;
    assert!(csv.contains("k1,'=1+1,,") && csv.contains("k2,'@SUM(A1),'-2+3,"), "{csv}");
    Ok(())
}

/// A sheet is filled, listed, signed off and taken back; the file keeps both lines.
#[test]
fn a_tick_sheet_is_filled_and_signed_off() -> Tested {
    let folder = tempfile::tempdir()?;
    let at = ["--data-dir", text(folder.path())?];
    let practical =
        |args: &[&str], input: &str| feed(&[&["practical"], args, &at[..]].concat(), input.as_bytes());
    let file = folder.path().join("practical.jsonl");
    let filling =
        ["k7", "micrometer-metric", "--initials", "BW", "--part", "block 5.00 mm", "--part", "pin 12.37"];
    // One held wrong, one not looked at; a reading that is none is asked again; one division off is in, two are not.
    let answers = "y\ny\nn\ny\n\ny\nmaybe\ny\ny\nfive\n5.01\n12.35\ndepth, bores\ny\ny\n";
    let filled = practical(&filling, answers)?;
    assert_eq!((filled.code, filled.err.as_str()), (Some(0), ""));
    assert!(filled.out.contains("\"five\" is no size on this tool"), "{}", filled.out);
    assert!(filled.out.contains("in: 0.01 mm over (0.01 mm allowed)"), "{}", filled.out);
    assert!(filled.out.contains("OUT: 0.02 mm under (0.01 mm allowed)"), "{}", filled.out);
    let json: Value = serde_json::from_str(&practical(&["--json"], "")?.out)?;
    assert_eq!((&json[0]["alone"], &json[0]["parts"][1]["read"]), (&"yes".into(), &"12.35 mm".into()));
    let slip = practical(&["k7", "micrometer-metric", "--slip"], "")?.out.replace('\n', " ");
    for part in [
        "BW signs for k7",
        "measured 1 of 2 check parts within 0.01 mm",
        "not as it should be: holding it square",
        "not shown: locking, depth, bores",
    ] {
        assert!(slip.contains(part), "{part}: {slip}");
    }
    // Broken off, nothing is written down.
    let before = fs::read_to_string(&file)?;
    assert!(practical(&filling, "y\ny\n")?.out.ends_with("Nothing was written down.\n"));
    assert_eq!(fs::read_to_string(&file)?, before);
    let id = json[0]["id"].as_str().ok_or("a number")?;
    assert_eq!(practical(&["--take-back", id, "--initials", "BW"], "")?.code, Some(0));
    assert_eq!(practical(&["--json"], "")?.out, "[]\n");
    assert!(fs::read_to_string(&file)?.starts_with(&before));
    assert_eq!(practical(&["K 7", "micrometer-metric"], "")?.code, Some(2));
    let blank = practical(&["micrometer-metric", "--blank"], "")?.out;
    assert!(blank.contains("[ ] Zero checked before measuring") && blank.contains("(0.01 mm)"), "{blank}");
    Ok(())
}

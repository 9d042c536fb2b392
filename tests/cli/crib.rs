//! The shop's own tools.

use super::{Tested, command, feed, run, text, well};
use std::fs;

/// The tools are listed, practised, taken out again; nothing a person wrote is lost.
#[test]
fn a_crib_is_filled_practised_and_emptied() -> Tested {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("crib.toml");
    let at = ["--data-dir", text(folder.path())?];
    let crib = |args: &[&str]| run(&[&["crib"], args, &at[..]].concat());
    let empty = crib(&[])?;
    assert_eq!((empty.code, empty.err.as_str()), (Some(0), ""));
    assert!(empty.out.contains("no tool is listed"), "{}", empty.out);
    assert!(!file.exists(), "looking writes nothing");

    let added =
        crib(&["add", "caliper-metric-20", "--label", "no. 14", "--variant", "vernier=long figures=cm"])?;
    assert_eq!((added.code, added.err.as_str()), (Some(0), ""));
    let own = "# the tool room's\n".to_owned() + &fs::read_to_string(&file)?;
    fs::write(&file, &own)?;
    assert_eq!(crib(&["add", "rule-metric"])?.code, Some(0));
    assert_eq!(
        fs::read_to_string(folder.path().join("crib.toml.before"))?,
        own,
        "what a person wrote is kept"
    );
    assert!(fs::read_to_string(&file)?.starts_with(&own));
    let listed = crib(&[])?.out;
    assert_eq!(listed, "no. 14  caliper-metric-20  figures=cm vernier=long\nno. 1   rule-metric\n");
    let json: serde_json::Value = serde_json::from_str(&crib(&["--json"])?.out)?;
    assert_eq!(json[0]["variant"], "figures=cm vernier=long");
    assert_eq!(json[1]["title"], "Steel rule, 150 mm");
    assert!(crib(&["check"])?.out.ends_with("crib.toml: no faults (2 tools)\n"));

    // Without an instrument, questions are on the tools of the crib, each as it is.
    let asked = feed(&[&["ask", "--count", "4", "--seed", "3", "--json"], &at[..]].concat(), b"")?;
    let ids: Vec<_> =
        asked.out.lines().filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok()).collect();
    assert_eq!(asked.code, Some(0), "{}", asked.err);
    assert!(ids[1].to_string().contains("caliper-metric-20"), "{}", asked.out);
    assert!(!asked.out.contains("micrometer"), "{}", asked.out);

    // By its label a tool is practised and kept in the record.
    let args = ["ask", "no. 14", "--count", "1", "--seed", "3", "--learner", "me"];
    assert_eq!(feed(&[&args[..], &at[..]].concat(), b"1\n")?.code, Some(0));
    let store = rusqlite_variant(&folder.path().join("linefall.sqlite"))?;
    assert_eq!(store, "figures=cm vernier=long tool=no. 14");

    let removed = crib(&["remove", "no. 14"])?;
    assert_eq!((removed.code, removed.err.as_str()), (Some(0), ""));
    assert!(fs::read_to_string(&file)?.starts_with("# the tool room's\n"));
    assert_eq!(crib(&[])?.out, "no. 1  rule-metric\n");
    let gone = crib(&["remove", "no. 2"])?;
    assert_eq!(gone.code, Some(2));
    assert!(gone.err.contains("did you mean no. 1?"), "{}", gone.err);
    Ok(())
}

/// The variant of the only attempt in a record.
fn rusqlite_variant(file: &std::path::Path) -> Result<String, Box<dyn std::error::Error>> {
    let dir = file.parent().ok_or("a folder")?;
    let store = linefall::store::Store::open_for(dir, linefall::store::Access::ReadOnly)?.store;
    let attempts = store.attempts("me", None)?.into_attempts();
    Ok(attempts.first().ok_or("no attempt")?.variant.clone())
}

#[test]
fn what_cannot_be_listed_is_refused_and_changes_nothing() -> Tested {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("crib.toml");
    let at = ["--data-dir", text(folder.path())?];
    let crib = |args: &[&str]| run(&[&["crib"], args, &at[..]].concat());
    for (args, said) in [
        (&["add", "caliper-metric-2"][..], "caliper-metric-20"),
        (&["add", "rule-metric", "--variant", "figures=dm"], "figures=mm|cm"),
        (&["add", "rule-metric", "--label", "a\u{1b}[2J"], "hidden character U+001B"),
        (&["add", "rule-metric", "--label", "a\u{202e}b"], "hidden character U+202E"),
        (&["add", "rule-metric", "--label", "twenty-five characters on"], "at most 24 characters"),
        (&["add", "rule-metric", "--label", "a=b"], "no equals sign"),
        (&["add", "rule-metric", "--label", "rule-inch-64"], "the name of an instrument"),
        (&["add", "rule-metric", "--label", ""], "`label`"),
    ] {
        let ran = crib(args)?;
        assert_eq!(ran.code, Some(2), "{args:?} {}", ran.out);
        assert!(ran.err.contains(said), "{args:?}: {}", ran.err);
        assert!(!ran.err.contains(['\u{1b}', '\u{202e}']), "{args:?}");
        assert!(!file.exists(), "{args:?}");
    }
    Ok(())
}

#[test]
fn a_faulty_file_is_shown_and_its_good_tools_are_used() -> Tested {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("crib.toml");
    fs::write(
        &file,
        "[[tool]]\nlabel = \"good\"\ninstrument = \"rule-metric\"\n\n[[tool]]\nlabel = \"Good\"\ninstrument = \"rule-metrik\"\n",
    )?;
    let at = ["--data-dir", text(folder.path())?];
    let check = run(&[&["crib", "check"], &at[..]].concat())?;
    assert_eq!(check.code, Some(1));
    for part in ["error[label]", "error[instrument]", "crib.toml:6:9", "2 faults, 1 tool without one"] {
        assert!(check.out.contains(part), "{part}\n{}", check.out);
    }
    let listed = run(&[&["crib"], &at[..]].concat())?;
    assert_eq!((listed.code, listed.out.as_str()), (Some(0), "good  rule-metric\n"));
    assert!(listed.err.contains("linefall crib check"), "{}", listed.err);
    let more = run(&[&["crib", "add", "rule-inch-64"], &at[..]].concat())?;
    assert_eq!(more.code, Some(1));
    assert!(more.err.contains("mend it first"), "{}", more.err);
    assert_eq!(fs::read_to_string(&file)?.matches("[[tool]]").count(), 2);
    // A file that is no file, or far too large, stops nothing.
    fs::write(&file, vec![b'x'; (1 << 20) + 1])?;
    assert!(run(&[&["list", "instruments"], &at[..]].concat())?.out.contains("rule-metric"));
    Ok(())
}

/// With no crib everything is as it is without one.
#[test]
fn without_a_crib_nothing_changes() -> Tested {
    let folder = tempfile::tempdir()?;
    let args = ["ask", "--count", "3", "--seed", "3", "--json", "--data-dir", text(folder.path())?];
    let bare = feed(&args, b"")?.out;
    fs::write(folder.path().join("crib.toml"), "# none yet\n")?;
    assert_eq!(feed(&args, b"")?.out, bare);
    assert!(well(&["crib"])?.contains("no tool is listed"));
    assert_eq!(command(&["crib", "remove", "x"]).output()?.status.code(), Some(2));
    Ok(())
}

//! `linefall sheet`, and `draw --format pdf`.

use super::{Tested, run, text, well};
use std::collections::BTreeSet;
use std::error::Error;
use std::fs;
use std::path::Path;

/// A file that says it is a PDF, whose table of contents stands where its end says and points at objects, and how many pages it has.
fn pdf_pages(path: &Path) -> Result<usize, Box<dyn Error>> {
    let bytes = fs::read(path)?;
    assert!(bytes.starts_with(b"%PDF-1."), "its head");
    assert!(bytes.ends_with(b"%%EOF"), "its end");
    let of = |what: &[u8], from: usize| {
        bytes[from..].windows(what.len()).position(|window| window == what).map(|at| from + at)
    };
    let number = |at: usize| -> Result<usize, Box<dyn Error>> {
        let digits: Vec<u8> = bytes[at..].iter().copied().take_while(u8::is_ascii_digit).collect();
        Ok(std::str::from_utf8(&digits)?.parse()?)
    };
    let end = of(b"startxref\n", 0).ok_or("no end")?;
    let table = number(end + 10)?;
    assert_eq!(&bytes[table..table + 5], b"xref\n");
    // ISO 32000-1, 7.5.4: entries of 20 bytes; those in use begin with the place of their object.
    let count = number(table + 7)?;
    let first = of(b"\n", table + 5).ok_or("no entries")? + 1;
    for n in 1..count {
        let entry = first + 20 * n;
        let place = number(entry)?;
        let object = format!("{n} 0 obj");
        assert!(bytes[entry..entry + 20].ends_with(b"n\r\n"), "entry {n}");
        assert_eq!(&bytes[place..place + object.len()], object.as_bytes(), "object {n}");
    }
    let pages = bytes.windows(10).filter(|window| *window == b"/Type/Page").count();
    let tree = bytes.windows(11).filter(|window| *window == b"/Type/Pages").count();
    assert_eq!(tree, 1);
    Ok(pages - tree)
}

/// What can be read in a file without unpacking anything.
fn raw(path: &Path) -> Result<String, Box<dyn Error>> {
    Ok(String::from_utf8_lossy(&fs::read(path)?).into_owned())
}

/// The right answers on a key, as its SVG has them in bold: `1:  23.51 mm`.
fn answers(key: &str) -> Vec<String> {
    let bold = key.lines().filter(|line| line.contains("font-weight=\"bold\""));
    let words = bold.filter_map(|line| line.split_once('>')?.1.strip_suffix("</text>"));
    let numbered = words.filter_map(|words| words.split_once(": "));
    numbered
        .filter(|(number, _)| number.parse::<u32>().is_ok())
        .map(|(_, answer)| answer.trim().to_owned())
        .collect()
}

fn pages(folder: &Path, name: &str) -> Result<Vec<String>, Box<dyn Error>> {
    let mut all = Vec::new();
    for number in 1.. {
        let path = folder.join(format!("{name}-{number}.svg"));
        if !path.exists() {
            break;
        }
        all.push(fs::read_to_string(path)?);
    }
    Ok(all)
}

#[test]
fn a_worksheet_and_its_key_are_two_files_and_the_same_seed_gives_the_same() -> Tested {
    let dir = tempfile::tempdir()?;
    let (sheet, key) = (dir.path().join("sheet.pdf"), dir.path().join("key.pdf"));
    let args = [
        "sheet",
        "micrometer-metric",
        "--seed",
        "5",
        "-o",
        text(&sheet)?,
        "--key",
        text(&key)?,
        "--variants",
        "2",
    ];
    let said = well(&args)?;
    let (count, keys) = (pdf_pages(&sheet)?, pdf_pages(&key)?);
    assert!(
        said.contains(&format!("sheet.pdf: {count} pages"))
            && said.contains(&format!("key.pdf: {keys} pages"))
    );
    assert!(count > 4 && keys < count, "{count} {keys}");
    let (first, first_key) = (fs::read(&sheet)?, fs::read(&key)?);
    well(&args)?;
    assert!(fs::read(&sheet)? == first && fs::read(&key)? == first_key, "byte for byte");
    well(&["sheet", "micrometer-metric", "--seed", "6", "-o", text(&sheet)?])?;
    assert!(fs::read(&sheet)? != first, "another seed");
    // What needs no unpacking, the document's description above all, says which tool and nothing else.
    let raw = raw(&sheet)?;
    assert!(raw.contains("/Title(Outside micrometer, 0-25 mm: readings)"));
    assert!(!raw.contains("CreationDate") && !raw.contains("/Author") && !raw.contains("ModDate"));
    Ok(())
}

#[test]
fn nothing_on_a_sheet_gives_an_answer_away() -> Tested {
    let dir = tempfile::tempdir()?;
    for tool in ["micrometer-inch", "caliper-metric-20", "rule-inch-64", "dial-caliper-metric"] {
        let (sheet, key) = (dir.path().join(format!("{tool}.svg")), dir.path().join("key.svg"));
        let args = ["sheet", tool, "--seed", "9", "--count", "6", "-o", text(&sheet)?, "--key", text(&key)?];
        well(&args)?;
        let keys = match pages(dir.path(), "key")? {
            none if none.is_empty() => vec![fs::read_to_string(&key)?],
            some => some,
        };
        let right: Vec<String> = keys.iter().flat_map(|key| answers(key)).collect();
        assert_eq!(right.len(), 6, "{tool}: {right:?}");
        let sheets = pages(dir.path(), tool)?;
        assert!(sheets.len() >= 2, "{tool}");
        for page in &sheets {
            for answer in &right {
                assert!(!page.contains(answer), "{tool}: {answer}");
            }
            assert!(!page.contains("--seed") && !page.contains("Key"), "{tool}");
            for word in ["id=", "class=", "<title", "<desc", "<!--", "<metadata", "data-"] {
                assert!(!page.contains(word), "{word} in {tool}");
            }
        }
        fs::remove_file(&key).or_else(|_| fs::remove_file(dir.path().join("key-1.svg")))?;
        let _ = fs::remove_file(dir.path().join("key-2.svg"));
    }
    Ok(())
}

#[test]
fn neighbours_have_other_questions() -> Tested {
    let dir = tempfile::tempdir()?;
    let (sheet, key) = (dir.path().join("s.svg"), dir.path().join("k.svg"));
    well(&[
        "sheet",
        "rule-metric",
        "--seed",
        "3",
        "--variants",
        "3",
        "--count",
        "4",
        "-o",
        text(&sheet)?,
        "--key",
        text(&key)?,
    ])?;
    let sheets = pages(dir.path(), "s")?;
    for letter in ['A', 'B', 'C'] {
        assert!(sheets.iter().any(|page| page.contains(&format!(" {letter}</text>"))), "{letter}");
    }
    let right: Vec<String> = pages(dir.path(), "k")?.iter().flat_map(|page| answers(page)).collect();
    assert_eq!(right.len(), 12);
    let papers: BTreeSet<&[String]> = right.chunks(4).collect();
    assert_eq!(papers.len(), 3, "{right:?}");
    Ok(())
}

#[test]
fn paper_has_its_size_and_the_bar_measures_what_it_says() -> Tested {
    let dir = tempfile::tempdir()?;
    let path = dir.path().join("s.svg");
    // ISO 216 A4, and ANSI/ASME Y14.1 size A.
    for (paper, size) in
        [("a4", "width=\"210mm\" height=\"297mm\""), ("letter", "width=\"215.9mm\" height=\"279.4mm\"")]
    {
        well(&["sheet", "rule-metric", "--count", "2", "--seed", "1", "--paper", paper, "-o", text(&path)?])?;
        let page = fs::read_to_string(&path)?;
        assert!(page.contains(size), "{paper}");
        // A unit is a millimetre: the bar between its two ends is a hundred of them.
        let bar = page.lines().find(|line| line.contains("<line") && line.contains("stroke-width=\"0.3\""));
        let bar = bar.ok_or("no bar")?;
        let at = |name: &str| -> Result<f64, Box<dyn Error>> {
            let rest = bar.split_once(&format!("{name}=\"")).ok_or("no end")?.1;
            Ok(rest.split_once('"').ok_or("no end")?.0.parse()?)
        };
        assert!((at("x2")? - at("x1")? - 100.0).abs() < 1e-9 && (at("y2")? - at("y1")?).abs() < 1e-9);
        assert!(page.contains("This bar must measure 100 mm."));
    }
    Ok(())
}

#[test]
fn charts_cards_and_the_tick_sheet() -> Tested {
    let dir = tempfile::tempdir()?;
    let path = dir.path().join("c.svg");
    well(&["sheet", "--chart", "64ths", "-o", text(&path)?])?;
    let chart = fs::read_to_string(&path)?;
    for words in ["63/64", "0.984375", "25.003125", "0.015625", "0.396875", "12.700000"] {
        assert!(chart.contains(&format!(">{words}</text>")), "{words}");
    }
    well(&["sheet", "--chart", "tick-sheet", "-o", text(&path)?])?;
    let ticks = fs::read_to_string(&path)?;
    for words in [
        "cleaned",
        "zero checked",
        "square",
        "feel",
        "locked",
        "read",
        "wrote",
        "put away",
        "Initials",
        "Date",
    ] {
        assert!(ticks.contains(&format!(">{words}")), "{words}");
    }
    well(&["sheet", "--chart", "micrometer-inch-tenths", "--reading", "0.2862", "-o", text(&path)?])?;
    let wall = fs::read_to_string(&path)?;
    for words in ["0.2000", "0.0750", "0.0110", "0.0002", "0.2000 + 0.0750 + 0.0110 + 0.0002 = 0.2862 in"] {
        assert!(wall.contains(&format!(">{words}</text>")), "{words}");
    }
    let cards = dir.path().join("cards.pdf");
    well(&[
        "sheet",
        "--card",
        "micrometer-metric",
        "caliper-metric-50",
        "rule-inch-64",
        "-o",
        text(&cards)?,
    ])?;
    assert_eq!(pdf_pages(&cards)?, 2);
    Ok(())
}

#[test]
fn what_cannot_be_printed_is_said() -> Tested {
    let dir = tempfile::tempdir()?;
    let path = dir.path().join("s.pdf");
    for (args, words) in [
        (vec!["sheet", "micrometer-metrik", "-o", text(&path)?], "did you mean micrometer-metric?"),
        (vec!["sheet", "rule-metric", "-o", "sheet.png"], ".pdf or .svg"),
        (vec!["sheet", "-o", text(&path)?], "--chart"),
        (vec!["sheet", "rule-metric", "--chart", "64ths", "-o", text(&path)?], "cannot be used with"),
        (
            vec!["sheet", "--chart", "micrometer-inch", "--reading", "7", "-o", text(&path)?],
            "beyond this instrument",
        ),
    ] {
        let ran = run(&args)?;
        assert_eq!(ran.code, Some(2), "{args:?}: {}", ran.err);
        assert!(ran.err.contains(words), "{args:?}: {}", ran.err);
        assert!(!path.exists());
    }
    let nowhere = dir.path().join("not-there/s.pdf");
    assert_eq!(run(&["sheet", "rule-metric", "-o", text(&nowhere)?])?.code, Some(3));
    Ok(())
}

#[test]
fn a_picture_as_pdf_is_the_same_twice_and_does_not_say_what_it_reads() -> Tested {
    let dir = tempfile::tempdir()?;
    let path = dir.path().join("p.pdf");
    for tool in ["micrometer-inch-tenths", "caliper-inch-25", "dial-caliper-inch"] {
        let args = ["draw", tool, "0.286", "--format", "pdf", "-o", text(&path)?];
        well(&args)?;
        assert_eq!(pdf_pages(&path)?, 1);
        let first = fs::read(&path)?;
        well(&args)?;
        assert_eq!(fs::read(&path)?, first);
        assert!(!raw(&path)?.contains("0.286"));
    }
    Ok(())
}

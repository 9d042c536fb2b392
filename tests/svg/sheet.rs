//! Worksheets are read back from their pages: which picture belongs to which number, and what each of them reads.

use crate::known::{Kind, Known};
use crate::page::Page;
use crate::reader::{self, FIXED, uprights};
use crate::{scene_at, views};
use linefall::exact::{Quanta, Quantity};
use linefall::instrument::{Catalogue, Instrument, Variant};
use linefall::render::paper::{Leaf, Paper};
use linefall::render::sheet::{Block, Entry, Head, Sheet, lay};
use linefall::render::svg;
use linefall::scene::View;
use linefall::wording::sheet as say;
use roxmltree::{Document, Node};
use std::error::Error;

const TITLE: &str = "Readings";

fn sheet(tool: &Instrument, variant: &Variant, view: View, settings: &[Quanta], paper: Paper) -> Vec<Leaf> {
    let entry = |(n, setting): (usize, &Quanta)| {
        let scene = Box::new(scene_at(tool, *setting, 0, variant, view));
        let picture = Block::Picture { caption: None, scene, quantum: None };
        let answer = Block::Answer { question: vec!["What does it read?".to_owned()], unit: "mm".to_owned() };
        Entry { number: Some((n + 1).to_string()), blocks: vec![picture, answer] }
    };
    let head = Head {
        title: TITLE.to_owned(),
        under: vec![say::HOW.to_owned()],
        fields: say::FIELDS.map(str::to_owned).to_vec(),
        mark: say::mark(7, Some('A')),
        bar: Some(say::BAR.to_owned()),
        page: say::page,
        note: say::note,
        glass: say::GLASS,
    };
    lay(&Sheet { paper, head, entries: settings.iter().enumerate().map(entry).collect() })
}

/// A page as somebody sees it: from the top down numbers in bold, and the pictures below them.
fn numbered(leaf: &str) -> Result<Vec<(u32, Vec<Page>)>, String> {
    let document = Document::parse(leaf).map_err(|fault| fault.to_string())?;
    let mut seen: Vec<(i64, Found)> = Vec::new();
    for node in document.root_element().children().filter(Node::is_element) {
        match node.tag_name().name() {
            "text" if node.attribute("font-weight") == Some("bold") => {
                let y = thousandths(node.attribute("y").ok_or("a text nowhere")?)?;
                if let Ok(number) = node.text().unwrap_or_default().parse() {
                    seen.push((y, Found::Number(number)));
                }
            }
            "g" => {
                let place = node.attribute("transform").ok_or("a picture nowhere")?;
                let inside = place.strip_prefix("translate(").and_then(|rest| rest.split_once(") scale("));
                let (at, _) = inside.ok_or("a picture turned or stretched")?;
                let (_, y) = at.split_once(' ').ok_or("a picture nowhere")?;
                seen.push((thousandths(y)?, Found::Picture(Page::of_group(node)?)));
            }
            _ => {}
        }
    }
    // A number and the picture right below it may stand in one row.
    seen.sort_by_key(|(y, _)| *y);
    let mut all: Vec<(u32, Vec<Page>)> = Vec::new();
    for (_, found) in seen {
        match found {
            Found::Number(number) => all.push((number, Vec::new())),
            Found::Picture(page) => all.last_mut().ok_or("a picture without a number")?.1.push(page),
        }
    }
    Ok(all)
}

enum Found {
    Number(u32),
    Picture(Page),
}

fn thousandths(text: &str) -> Result<i64, String> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    format!("{whole}{part:0<3}").parse().map_err(|_| text.to_owned())
}

/// The number of the vernier line in line, from the lengths under the glass; every one of them is looked at, and what is in
/// line in more than one is the same line.
fn under_glass(lengths: &[Page], lines_a_figure: i64, parts: i64) -> Result<i64, String> {
    let mut found: Vec<i64> = Vec::new();
    for page in lengths {
        let edge = page.plates_of(FIXED).first().ok_or("no main scale")?.bottom;
        let (above, below) = (uprights(page, edge, false), uprights(page, edge, true));
        let figure = |x: i64| page.texts.iter().find(|text| text.x == x && text.y > edge);
        for (n, x) in below.iter().enumerate().filter(|(_, x)| above.contains(x)) {
            let _ = x;
            let mut told = below.iter().enumerate().filter_map(|(m, x)| {
                let value: i64 = figure(*x)?.words.parse().ok()?;
                let away = i64::try_from(n).ok()? - i64::try_from(m).ok()?;
                Some(value * lines_a_figure + away)
            });
            // A figure 0 may be the first or the last one.
            let line = told.find(|line| (0..=parts).contains(line)).ok_or("no figure")?;
            found.push(line.rem_euclid(parts));
        }
    }
    found.dedup();
    match found[..] {
        [line] => Ok(line),
        _ => Err(format!("lines in line: {found:?}")),
    }
}

#[test]
fn every_item_of_a_worksheet_is_read_back_from_its_page() {
    let catalogue = Catalogue::new(vec![]);
    let mut count = 0;
    let mut cut = 0;
    for (id, paper) in [
        ("rule-inch-64", Paper::A4),
        ("rule-metric", Paper::Letter),
        ("caliper-inch-25", Paper::Letter),
        ("caliper-metric-50", Paper::A4),
        ("caliper-metric-20", Paper::Letter),
        ("micrometer-inch-tenths", Paper::A4),
        ("micrometer-metric", Paper::Letter),
        ("depth-micrometer-inch", Paper::A4),
        ("height-gauge-metric", Paper::A4),
        ("dial-caliper-metric", Paper::A4),
        ("dial-indicator-inch-balanced", Paper::Letter),
        ("bevel-protractor", Paper::A4),
    ] {
        let tool = catalogue.get(id).expect("shipped");
        let variant = &Variant::default();
        let tool = &tool.fitted(variant);
        // A tool that stands upright is laid flat on paper.
        let view = if id.starts_with("height") { View::Flat } else { views(tool)[0] };
        let known = Known::of(tool, variant, view);
        let all: Vec<Quanta> = tool.settings().collect();
        let settings: Vec<Quanta> = (0..14).map(|n| all[(n * (all.len() - 1)) / 13]).collect();
        let leaves = sheet(tool, variant, view, &settings, paper);
        let mut next = 1;
        for leaf in &leaves {
            for (number, mut pictures) in numbered(&svg::leaf(leaf)).expect("a page") {
                assert_eq!(number, next, "{id}");
                next += 1;
                let setting = settings[usize::try_from(number - 1).expect("a number")];
                let lengths = pictures.split_off(1);
                let mut whole = pictures.remove(0);
                if known.kind == Kind::Dial {
                    whole.without_face();
                }
                assert_eq!(reader::of_page(&known, &whole), Ok(setting.0), "{id} {number}");
                if !lengths.is_empty() {
                    let fine = known.vernier.as_ref().expect("only a vernier is cut");
                    let parts = i64::try_from(fine.parts).expect("a few");
                    let line = under_glass(&lengths, parts / 10, parts);
                    assert_eq!(line, Ok(setting.0.rem_euclid(parts)), "{id} {number}");
                    cut += 1;
                }
                count += 1;
            }
        }
        assert_eq!(next, 15, "{id}");
    }
    assert!(count == 12 * 14 && cut >= 14, "{count} {cut}");
}

/// Marks lie on the paper and off its edges, where no printer prints: 5 mm is common practice.
#[test]
fn nothing_lies_off_the_paper() {
    let catalogue = Catalogue::new(vec![]);
    for tool in catalogue.all() {
        let variant = &Variant::default();
        let tool = &tool.fitted(variant);
        for paper in [Paper::A4, Paper::Letter] {
            for leaf in sheet(tool, variant, views(tool)[0], &[tool.low, tool.high], paper) {
                let text = svg::leaf(&leaf);
                let document = Document::parse(&text).expect("valid XML");
                let (width, height) = paper.size();
                for node in document.root_element().children().filter(Node::is_element) {
                    let inside = |across: &str, down: &str| {
                        let at = |name| thousandths(node.attribute(name)?).ok();
                        let (x, y) = (at(across)?, at(down)?);
                        Some((5_000..=width - 5_000).contains(&x) && (5_000..=height - 5_000).contains(&y))
                    };
                    match node.tag_name().name() {
                        "line" => {
                            assert_eq!(inside("x1", "y1"), Some(true), "{}", tool.id);
                            assert_eq!(inside("x2", "y2"), Some(true), "{}", tool.id);
                        }
                        "text" => assert_eq!(inside("x", "y"), Some(true), "{}: {:?}", tool.id, node.text()),
                        "g" => {
                            let group = Page::of_group(node).expect("a picture");
                            let place = node.attribute("transform").expect("a place");
                            let (at, scale) =
                                place["translate(".len()..].split_once(") scale(").expect("a scale");
                            let (x, y) = at.split_once(' ').expect("two numbers");
                            let scale = thousandths(scale.trim_end_matches(')')).expect("a number");
                            let right = thousandths(x).expect("a number") + group.right() * scale / 100;
                            let bottom = thousandths(y).expect("a number") + group.bottom() * scale / 100;
                            assert!(
                                right <= width - 5_000 && bottom <= height - 12_000,
                                "{} {right} {bottom}",
                                tool.id
                            );
                        }
                        _ => {}
                    }
                }
            }
        }
    }
}

/// The lines of one scale on one side of an edge stand at least 1.2 mm apart on paper, whatever the tool: common practice for
/// what is read without a glass. The round face, whose rim is read unrolled, is left out: its lines are not level or upright.
#[test]
fn lines_of_a_scale_stand_far_enough_apart_to_be_told() {
    let catalogue = Catalogue::new(vec![]);
    let mut closest = i64::MAX;
    for tool in catalogue.all() {
        for variant in tool.usual() {
            let tool = &tool.fitted(&variant);
            let view = if tool.id.starts_with("height") { View::Flat } else { views(tool)[0] };
            let middle = tool.settings().nth(tool.settings().count() / 2).expect("some");
            for leaf in sheet(tool, &variant, view, &[middle], Paper::A4) {
                let text = svg::leaf(&leaf);
                let document = Document::parse(&text).expect("valid XML");
                for node in document.root_element().children().filter(|node| node.tag_name().name() == "g") {
                    let page = Page::of_group(node).expect("a picture");
                    let scale = node.attribute("transform").and_then(|place| place.rsplit_once("scale("));
                    let scale = scale.expect("a scale").1.trim_end_matches(')');
                    let scale = thousandths(scale).expect("a number");
                    let apart = page.closest().expect("a scale has lines") * scale / 100;
                    assert!(apart >= 1_200, "{} {}: {apart} micrometres", tool.id, variant.word());
                    closest = closest.min(apart);
                }
            }
        }
    }
    assert!(closest < 2_500, "it was looked at: {closest}");
}

/// The real program: a set with settings of its own, printed; the robot reads each of them from the page that came out.
#[test]
fn the_sheet_of_a_set_shows_the_settings_of_the_set() -> Result<(), Box<dyn Error>> {
    let dir = tempfile::tempdir()?;
    std::fs::create_dir(dir.path().join("exercises"))?;
    let catalogue = Catalogue::new(vec![]);
    for (id, readings) in [
        ("caliper-metric-20", ["12.35 mm", "0.05 mm", "99.95 mm", "47.60 mm"]),
        ("micrometer-inch", ["0.286 in", "0.025 in", "0.999 in", "0.500 in"]),
        ("rule-inch-64", ["1 3/64 in", "5 63/64 in", "1/8 in", "3 in"]),
    ] {
        let list = readings.map(|reading| format!("\"{reading}\"")).join(", ");
        let set = format!(
            "set = \"printed\"\ntitle = \"Printed\"\nabout = \"Read back.\"\ncount = 4\norder = \"blocked\"\n\n\
             [[questions]]\ninstrument = \"{id}\"\nreadings = [{list}]\n"
        );
        std::fs::write(dir.path().join("exercises/printed.toml"), set)?;
        let ran = std::process::Command::new(env!("CARGO_BIN_EXE_linefall"))
            .args(["sheet", "printed", "--seed", "1", "-o", "printed.svg", "--data-dir"])
            .arg(dir.path())
            .current_dir(dir.path())
            .output()?;
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
        let tool = catalogue.get(id).ok_or("shipped")?;
        let known = Known::of(tool, &Variant::default(), views(tool)[0]);
        let mut read = Vec::new();
        for name in ["printed.svg", "printed-1.svg", "printed-2.svg"] {
            let path = dir.path().join(name);
            let Ok(text) = std::fs::read_to_string(&path) else { continue };
            for (number, pictures) in numbered(&text)? {
                read.push((number, reader::of_page(&known, pictures.first().ok_or("no picture")?)?));
            }
            std::fs::remove_file(path)?;
        }
        let wanted = readings.map(|reading| Quantity::parse(reading).expect("as written").value);
        let wanted = wanted.map(|value| tool.lattice.at(value).expect("on its lines").0);
        assert_eq!(read, (1..).zip(wanted).collect::<Vec<_>>(), "{id}");
    }
    Ok(())
}

/// Titles as somebody hostile writes them: nothing of them is obeyed, nothing is endless.
#[test]
fn a_hostile_title_is_only_letters() {
    let catalogue = Catalogue::new(vec![]);
    let tool = catalogue.get("rule-metric").expect("shipped");
    let hostile = format!("</text><script>\u{1b}]0;x\u{7}\u{202e}gnp.exe\u{200f}\u{0}{}", "W".repeat(10_000));
    let picture = Block::Picture {
        caption: Some(hostile.clone()),
        scene: Box::new(scene_at(tool, Quanta(9), 0, &Variant::default(), View::Held)),
        quantum: None,
    };
    let blocks = vec![
        picture,
        Block::Words(vec![hostile.clone()]),
        Block::Heading(hostile.clone()),
        Block::Listed(vec![hostile.clone()]),
        Block::Offered(vec![hostile.clone()]),
        Block::Fields(vec![hostile.clone()]),
        Block::Steps(vec![hostile.clone(), format!("{hostile}   {hostile}")]),
        Block::Answer { question: vec![hostile.clone()], unit: hostile.clone() },
    ];
    let head = Head {
        title: hostile.clone(),
        under: vec![hostile.clone()],
        fields: vec![hostile.clone()],
        mark: "No. 1".to_owned(),
        bar: Some(hostile.clone()),
        page: say::page,
        note: say::note,
        glass: say::GLASS,
    };
    let entries = vec![Entry { number: Some(hostile.clone()), blocks }];
    let leaves = lay(&Sheet { paper: Paper::A4, head, entries });
    assert!(leaves.len() < 4, "{} pages", leaves.len());
    for leaf in &leaves {
        let text = svg::leaf(leaf);
        let document = Document::parse(&text).expect("valid XML");
        for node in document.descendants().filter(Node::is_element) {
            assert!(["svg", "g", "rect", "line", "text"].contains(&node.tag_name().name()));
            let words = node.text().unwrap_or_default();
            assert!(words.chars().count() < 300, "{}", words.chars().count());
        }
        let obeyed = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{200f}' | '\u{202e}');
        assert!(!text.contains(obeyed));
    }
    let pdf = linefall::render::pdf::leaves(&leaves, &hostile);
    // As bytes and in the two-byte letters of a PDF's description.
    let hidden: [&[u8]; 4] = [b"\x1b]0;x", b"\x00\x1b\x00]", "\u{202e}gnp".as_bytes(), b"\x20\x2e\x00g\x00n"];
    for sign in hidden {
        assert!(!pdf.windows(sign.len()).any(|window| window == sign), "{sign:?} in the title");
    }
    assert!(pdf.len() < 100_000, "{} bytes", pdf.len());
}

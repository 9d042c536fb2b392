//! Whether the robot can be fooled: a picture with one thing wrong must not be read as if it were right.

use crate::robot::kinds::known;
use crate::robot::{self, Read};
use crate::shots::{How, catalogue, looks, shipped};
use linefall::render::{Glass, LineStyle, text};
use linefall::scene::View;

/// The robot shares no code with what it judges.
#[test]
fn the_robot_knows_nothing_of_the_program() {
    let files = [
        include_str!("robot/mod.rs"),
        include_str!("robot/dial.rs"),
        include_str!("robot/kinds.rs"),
        include_str!("robot/meet.rs"),
        include_str!("robot/micrometer.rs"),
        include_str!("robot/page.rs"),
        include_str!("robot/pairs.rs"),
        include_str!("robot/scale.rs"),
        include_str!("robot/upright.rs"),
    ];
    assert!(files.iter().all(|file| !file.contains("linefall")), "the robot uses the program's own code");
}

fn printed(id: &str, setting: i64, view: View, how: How) -> Vec<String> {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known(id));
    let look = looks(known(id), instrument).into_iter().find(|look| look.view == view).expect("a view");
    text::lines(&look.draw(setting, how).expect("a picture").grid)
}

fn read(id: &str, lines: &[String]) -> Result<Read, String> {
    robot::read(lines, known(id))
}

/// What the robot makes of a picture in which every place where `what` stands is, one at a time, changed to `into`: never the
/// setting with all lines in line as they were.
fn changes(id: &str, setting: i64, view: View, how: How, what: char, into: &[char]) -> usize {
    let lines = printed(id, setting, view, how);
    let right = read(id, &lines).expect("an untouched picture");
    assert_eq!(right.value, setting);
    let mut tried = 0;
    for row in 0..lines.len() {
        for (at, _) in lines[row].match_indices(what) {
            for with in into {
                let mut changed = lines.clone();
                changed[row].replace_range(at..at + what.len_utf8(), &with.to_string());
                tried += 1;
                if let Ok(seen) = read(id, &changed) {
                    let same = seen.value == setting && format!("{seen:?}") == format!("{right:?}");
                    assert!(!same, "{id}: {what:?} at byte {at} of row {row} into {with:?} went unseen");
                }
            }
        }
    }
    tried
}

const THIN: [char; 8] =
    ['\u{258f}', '\u{1fb70}', '\u{1fb71}', '\u{1fb72}', '\u{1fb73}', '\u{1fb74}', '\u{1fb75}', '\u{2595}'];

#[test]
fn a_line_moved_by_a_dot_is_noticed() {
    let how = How::new((80, 24), LineStyle::Thin);
    let mut tried = 0;
    for (n, glyph) in THIN.into_iter().enumerate() {
        let next = [THIN[(n + 1) % 8], THIN[(n + 7) % 8]];
        tried += changes("caliper-inch-25", 1432, View::Flat, how, glyph, &next);
        tried += changes("rule-metric", 83, View::Flat, how, glyph, &next);
    }
    assert!(tried > 300, "{tried} changes");
}

#[test]
fn a_wrong_figure_is_noticed() {
    let how = How::new((80, 24), LineStyle::Thin);
    let digits: Vec<char> = ('0'..='9').collect();
    let mut tried = 0;
    for digit in &digits {
        let others: Vec<char> = digits.iter().copied().filter(|other| other != digit).collect();
        for (id, setting, view) in [
            ("caliper-metric-20", 1234, View::Flat),
            ("micrometer-inch-tenths", 2862, View::Held),
            ("micrometer-metric", 884, View::Flat),
        ] {
            // What is engraved is not read.
            let lines = printed(id, setting, view, how);
            let engraved = lines.iter().position(|line| line.contains(" mm") || line.contains(" in"));
            let engraved = engraved.expect("something is engraved");
            for row in (0..lines.len()).filter(|row| *row != engraved) {
                for (at, _) in lines[row].match_indices(*digit) {
                    for other in &others {
                        let mut changed = lines.clone();
                        changed[row].replace_range(at..=at, &other.to_string());
                        tried += 1;
                        let seen = read(id, &changed).map(|seen| seen.value);
                        assert_ne!(seen, Ok(setting), "{id}: {digit} into {other} in row {row}");
                    }
                }
            }
        }
    }
    assert!(tried > 100, "{tried} changes");
}

#[test]
fn half_a_bar_is_noticed() {
    let how = How::new((80, 24), LineStyle::Bars).with(Glass::At(7));
    let lines = printed("caliper-inch-25", 1432, View::Flat, how);
    let mut tried = 0;
    for row in 0..lines.len() {
        for (at, code) in lines[row].match_indices("\u{1b}[7m") {
            let mut changed = lines.clone();
            changed[row].replace_range(at..at + code.len(), "");
            tried += 1;
            let before = format!("{:?}", read("caliper-inch-25", &lines));
            assert_ne!(before, format!("{:?}", read("caliper-inch-25", &changed)), "row {row}, byte {at}");
        }
    }
    assert!(tried > 30, "{tried} changes");
}

/// Two plates of an overview that touch would show false coincidences.
#[test]
fn an_overview_that_touches_is_noticed() {
    let how = How::new((80, 24), LineStyle::Cell);
    let lines = printed("caliper-inch-25", 1432, View::Flat, how);
    let row = lines.iter().position(|line| line.contains("overview")).expect("an overview");
    let mut changed = lines.clone();
    changed[row] = lines[row - 1].chars().take(60).chain("         overview".chars()).collect();
    assert!(read("caliper-inch-25", &lines).is_ok());
    assert!(read("caliper-inch-25", &changed).is_err());
}

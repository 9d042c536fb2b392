//! The class record, driven by keys.

use crate::script::Script;
use linefall::class::invented::invented;
use linefall::class::questions::questions;
use linefall::class::record::{Class, rows};
use linefall::class::room::Room;
use linefall::drill::Seed;
use linefall::instrument::Catalogue;
use linefall::learner::calendar::Day;
use linefall::tui::model::Screen;
use linefall::tui::theme::Theme;
use linefall::tui::update::Effect;

fn class(cols: u16, rows_of: u16, people: u32, name: Option<&str>) -> Script {
    let catalogue = Catalogue::new(Vec::new());
    let mut made_up = invented(&catalogue, people, Seed(1), Day::of("2026-05-20").expect("a day"));
    if let (Some(name), Some(first)) = (name, made_up.roster.first_mut()) {
        first.name = Some(name.to_owned());
    }
    let all = made_up.sittings.clone();
    let room = Room {
        class: Class::of(
            made_up.roster,
            rows(&made_up.sittings, |_| None, &catalogue),
            made_up.issued,
            None,
            "2026-05-20T08:00:00Z",
        ),
        group: None,
        invented: true,
        sheets: made_up.sheets,
        sets: vec![
            ("micrometer-check".to_owned(), "Micrometer skills check".to_owned()),
            ("caliper-round".to_owned(), "Caliper round".to_owned()),
        ],
        look_up: Box::new(move |set, catalogue| Ok(questions(set, &all, catalogue))),
    };
    let mut script = Script::home(cols, rows_of);
    script.model.class = Some(Box::new(room));
    script.model.screens = vec![Screen::Class(Box::default())];
    script
}

#[test]
fn arrows_enter_and_esc_go_everywhere() {
    let mut script = class(80, 24, 3, None);
    script.sees("Class record: 3 learners");
    script.sees("made up: nobody is real");
    script.press("Down");
    script.keys("\n");
    script.sees("k2 Bram, late shift");
    script.press("Down");
    script.press("Esc");
    for _ in 0..4 {
        script.press("Up");
    }
    script.keys("\n");
    script.sees("What the class gets wrong");
    script.press("Esc");
    script.press("Down");
    script.keys("\n");
    script.sees("Micrometer skills check: 3 people");
    script.sees("too few to say");
    script.press("Right");
    script.sees("Caliper round: 3 people");
    script.press("Esc");
    script.press("Down");
    script.keys("\n");
    script.sees("Given out");
    script.press("Esc");
    script.take_effects();
    script.press("Esc");
    assert!(
        matches!(script.take_effects()[..], [Effect::Leave]),
        "a learner's own screens lie behind none of these"
    );
}

#[test]
fn its_keys_go_straight_there_and_no_size_or_name_is_too_much() {
    let hostile = format!("\u{1b}[2J\u{202e}{}", "w".repeat(10_000));
    let mut script = class(80, 24, 2, Some(&hostile));
    script.model.theme = Theme::Mono;
    for key in ["w", "b", "g"] {
        script.keys(key);
        for (cols, rows) in [(1, 1), (79, 24), (80, 24), (100, 30), (200, 60)] {
            script.resize(cols, rows);
        }
        for press in ["PageDown", "Down", "PageUp", "Up"] {
            script.press(press);
        }
        script.press("Esc");
    }
    script.resize(80, 24);
    for press in ["Right", "Right", "Left", "PageDown"] {
        script.press(press);
    }
    let text = script.text();
    assert!(!text.contains(['\u{1b}', '\u{202e}']), "{text}");
}

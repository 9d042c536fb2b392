//! Key scripts: the real model and the real screens, with a fixed clock and seed; keys in, screen out.
#![allow(missing_docs)]

mod bench;
mod class;
mod exercise;
mod project;
mod repair;
mod round;
mod script;
mod walk;

use linefall::drill::record::Attempt;
use linefall::reading::Asks;
use linefall::render::LineStyle;
use linefall::tui::model::Screen;
use linefall::tui::theme::Theme;
use linefall::tui::update::Effect;
use script::Script;

fn saved(effects: &[Effect]) -> Vec<&Attempt> {
    effects
        .iter()
        .filter_map(|effect| match effect {
            Effect::Save(attempt) => Some(&**attempt),
            _ => None,
        })
        .collect()
}

#[test]
fn read_answer_see_why_next() {
    let mut script = Script::practice("micrometer-metric", 80, 24);
    script.until_plain();
    script.sees("What does it read, in millimetres?");
    let right = script.right_answer();
    assert!(!script.text().contains(&right), "the reading is on the screen before it is asked for");
    script.keys("99.99\n");
    let effects = script.take_effects();
    let attempts = saved(&effects);
    assert_eq!(attempts.len(), 1);
    assert_eq!((attempts[0].answer.as_str(), attempts[0].verdict.word()), ("99.99", "other"));
    script.sees("x 99.99: Not that.");
    script.sees(&right);
    // The next question waits until the attempt has been written down.
    script.keys("n");
    script.sees("x 99.99: Not that.");
    script.written_down();
    script.keys("\n");
    script.sees("sleeve: ");
    script.keys("n");
    script.sees("Answer:");
    script.sees("0 of 1 right");
}

#[test]
fn a_right_answer_is_told_at_once_with_the_sum() {
    let mut script = Script::practice("caliper-metric-50", 100, 30);
    script.until_plain();
    let right = script.right_answer();
    script.keys(&right.replace('.', ","));
    script.keys("\n");
    script.sees("Right: ");
    script.sees("= ");
    script.sees("1 of 1 right");
    script.written_down();
    let next = format!("question {} ", script.screen().run.turn() + 1);
    script.keys("\n");
    script.sees(&next);
}

#[test]
fn nonsense_is_asked_again_and_never_kept() {
    let mut script = Script::practice("micrometer-inch", 80, 24);
    script.until_plain();
    for nonsense in ["1.2.3", "7mm", "0..2"] {
        script.keys(nonsense);
        script.keys("\n");
        assert!(saved(&script.take_effects()).is_empty());
        script.keys("\u{8}\u{8}\u{8}\u{8}\u{8}\u{8}");
    }
    script.keys("\n");
    script.sees("type the reading, then Enter");
}

#[test]
fn the_closed_tool_is_shown_first_where_it_does_not_read_nought() {
    let mut script = Script::practice("caliper-inch-25", 80, 24);
    script.until_corrected();
    script.sees("Closed, it looks like this.");
    script.keys("\n");
    script.sees("What is the size, zero allowed for, in inches?");
    let shown = script.text();
    script.keys("c");
    script.sees("The closed tool again");
    script.keys("c");
    assert_eq!(shown, script.text());
}

#[test]
fn a_change_shows_its_start_first() {
    let mut script = Script::practice("cross-slide-dial-inch", 80, 24);
    while !matches!(script.question().asks, Asks::Diameter) {
        script.next_question();
    }
    script.sees("the handwheel last turned on");
    script.sees("collar stands.");
    script.sees("Enter to go on.");
    assert!(!script.text().contains("passed"), "the start has no turns");
    script.keys("\n");
    script.sees("How much came off the diameter, in inches?");
    script.sees("turned on");
    let shown = script.text();
    script.keys("c");
    script.sees("The start again");
    script.keys("c");
    assert_eq!(shown, script.text());
    let right = script.right_answer();
    script.keys(&right);
    script.keys("\n");
    script.sees("Right: ");
    script.sees("The collar counts what comes off the diameter");
}

#[test]
fn the_glass_starts_at_the_verniers_zero_and_goes_only_where_it_is_slid() {
    let mut script = Script::practice("caliper-inch-25", 80, 24);
    script.until_plain();
    let whole = script.text();
    script.press("Up");
    script.sees("glass");
    let at_zero = script.text();
    script.press("Right");
    assert_ne!(at_zero, script.text());
    script.press("Left");
    assert_eq!(at_zero, script.text());
    script.press("PageDown");
    script.press("Home");
    assert_eq!(at_zero, script.text());
    script.press("Down");
    script.press("Down");
    assert_eq!(whole, script.text(), "the glass is closed again");
}

#[test]
fn letters_are_text_once_something_is_typed() {
    let mut script = Script::practice("micrometer-inch-tenths", 80, 24);
    script.until_plain();
    script.keys("286 thou 2 tenths");
    script.sees("Answer: 286 thou 2 tenths");
    script.keys("\n");
    assert_eq!(saved(&script.take_effects())[0].answer, "286 thou 2 tenths");
}

#[test]
fn help_filters_as_it_is_typed_and_knows_other_shops_words() {
    let mut script = Script::home(80, 24);
    script.keys("?theme");
    script.sees("Next theme");
    script.press("Esc");
    script.keys("?barrel");
    script.sees("sleeve: the fixed cylinder");
    script.press("Esc");
    script.keys(":calibration\n");
    script.sees("Which one looks right?");
    script.keys("3");
    assert_eq!(script.model.lines, LineStyle::Cell);
    assert!(script.take_effects().iter().any(|effect| matches!(effect, Effect::SaveLines(LineStyle::Cell))));
}

#[test]
fn what_could_not_be_written_down_is_said_and_tried_again() {
    let mut script = Script::practice("rule-metric", 80, 24);
    script.keys("1\n");
    script.failed_to_write("the disk is full");
    script.sees("Not saved: the disk is full.");
    script.keys("n2\n");
    let effects = script.take_effects();
    let answers: Vec<&str> = saved(&effects).iter().map(|attempt| attempt.answer.as_str()).collect();
    assert_eq!(answers, ["1", "2"]);
}

#[test]
fn practice_goes_on_where_it_was_left() {
    let mut script = Script::practice("micrometer-metric", 80, 24);
    let before = script.text();
    let Some(Effect::Remember(key, kept)) = script.take_effects().into_iter().next() else {
        panic!("the run is remembered when it starts");
    };
    assert_eq!(key, "run/me/micrometer-metric");
    script.press("Esc");
    assert!(matches!(script.model.screen(), Screen::Home { .. }));
    script.resume("micrometer-metric", &kept);
    assert_eq!(before, script.text());
}

#[test]
fn any_size_on_any_screen() {
    for instrument in ["rule-inch-64", "caliper-metric-50", "micrometer-inch-tenths", "micrometer-metric"] {
        for style in LineStyle::ALL {
            let mut script = Script::practice(instrument, 80, 24);
            script.model.lines = style;
            script.model.theme = Theme::Mono;
            for screens in 0..4 {
                for (cols, rows) in
                    [(1, 1), (20, 5), (79, 24), (80, 23), (80, 24), (200, 60), (300, 25), (81, 120)]
                {
                    script.resize(cols, rows);
                    if (cols, rows) == (20, 5) {
                        script.sees("needs 80x24");
                    }
                }
                script.resize(80, 24);
                match screens {
                    0 => script.keys("?"),
                    1 => {
                        script.press("Esc");
                        script.press("F2");
                    }
                    _ => script.press("F3"),
                }
            }
        }
    }
}

#[test]
fn questions_of_a_run_ask_for_reading_or_size() {
    let mut script = Script::practice("caliper-metric-20", 80, 24);
    let mut corrected = 0;
    for _ in 0..60 {
        corrected += u32::from(script.question().asks == Asks::Corrected);
        script.next_question();
    }
    // Three in ten on the long run.
    assert!((8..=30).contains(&corrected), "{corrected} of 60");
}

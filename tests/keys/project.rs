//! A round for a room, in the smallest window it works in.

use super::script::Script;
use linefall::drill::Kind;
use linefall::drill::set::Allowed;
use linefall::render::LineStyle;
use linefall::session::{Pace, Stage};
use linefall::tui::model::{ProjectScreen, Screen};
use linefall::tui::projecting::LEAST;
use linefall::tui::theme::Theme;
use linefall::tui::update::Effect;
use std::time::Duration;

const TWENTY: Pace = Pace { question: Some(Duration::from_secs(20)), round: Some(Duration::from_mins(10)) };

fn screen(script: &Script) -> &ProjectScreen {
    match script.model.screen() {
        Screen::Project(screen) => screen,
        _ => panic!("no round is up"),
    }
}

fn stage(script: &Script) -> Stage {
    screen(script).run.stage()
}

/// On to the question itself.
fn to_question(script: &mut Script) {
    while matches!(stage(script), Stage::Ready | Stage::Before(_)) {
        script.press("PageDown");
    }
}

/// The value that is to be said, as it is written.
fn answer(script: &Script) -> String {
    let part = screen(script).run.part();
    part.tool.notation.spell(part.question.expected(&part.tool))
}

#[test]
fn asked_time_up_told_next_and_back_with_a_clickers_keys() {
    let mut script = Script::project("micrometer-inch", &[Kind::Read; 3], TWENTY, LEAST);
    script.sees("20 seconds each, 10 minutes in all.");
    script.sees("3 questions");
    to_question(&mut script);
    script.sees("question 1 of 3   10 minutes left");
    script.sees("Write it down.");
    let asked = script.text();
    script.after(21);
    script.sees("Time is up. Hands up.");
    assert_ne!(asked, script.text(), "the countdown went on");
    assert_eq!(stage(&script), Stage::Asking, "the answer stays hidden until somebody asks for it");
    let shares = screen(&script).run.shares().len();
    script.press("PageDown");
    script.sees("sleeve: ");
    for _ in 0..shares {
        script.press("Right");
    }
    script.sees(&format!("= {} in", answer(&script)));
    script.press("PageDown");
    to_question(&mut script);
    script.sees("question 2 of 3");
    script.press("PageUp");
    while screen(&script).run.which().0 == 2 {
        script.press("Left");
    }
    script.sees(&format!("{} in", answer(&script)));
    assert_eq!(stage(&script), Stage::Told(shares), "what was told stays told");
}

#[test]
fn the_clock_stops_and_goes_on_and_the_round_ends() {
    let pace = Pace { round: Some(Duration::from_mins(1)), ..TWENTY };
    let mut script = Script::project("micrometer-inch", &[Kind::OneStep; 5], pace, LEAST);
    to_question(&mut script);
    script.keys("p");
    script.sees("The clock is stopped.");
    let stopped = script.text();
    script.after(300);
    assert_eq!(stopped, script.text());
    script.keys("p");
    script.after(61);
    script.sees("the last one");
    script.press("PageDown");
    script.keys("2-13");
    script.press("PageDown");
    script.sees("End of the round.");
    script.sees("1 question asked.");
    script.sees("team 3");
    assert!(!script.text().contains("team 4"));
    script.press("PageUp");
    assert_eq!(stage(&script), Stage::Told(0));
    script.press("Esc");
    script.take_effects();
    script.press("Esc");
    assert!(script.take_effects().iter().any(|effect| matches!(effect, Effect::Leave)));
}

/// What a room sees before the answer: no line is lit, no step told, and neither the reading nor the value that is asked for stands on
/// it. A figure of a scale may happen to be the value, so of a value only what no scale shows is looked for: one with a point.
#[test]
fn nothing_of_the_answer_is_on_the_screen_before_it_is_told() {
    let instruments = [
        "rule-metric",
        "caliper-inch-25",
        "micrometer-metric",
        "micrometer-inch-tenths",
        "dial-caliper-inch",
    ];
    for instrument in instruments {
        for style in [LineStyle::Thin, LineStyle::Bars, LineStyle::Ascii] {
            let mut script = Script::project(instrument, &[Kind::Read; 4], TWENTY, LEAST);
            (script.model.lines, script.model.theme) = (style, Theme::Mono);
            for _ in 0..4 {
                to_question(&mut script);
                if stage(&script) == Stage::Over {
                    break;
                }
                let part = screen(&script).run.part();
                let values = [answer(&script), part.tool.spell(part.question.reading.total)];
                for _ in 0..22 {
                    let text = script.text();
                    let engraved = part_engraved(&script);
                    for value in
                        values.iter().filter(|value| value.contains('.') && !engraved.contains(*value))
                    {
                        assert!(!text.contains(value), "{instrument}: {value} before it is told\n{text}");
                    }
                    assert!(!text.contains(": figure") && !text.contains("so far"), "{instrument}\n{text}");
                    assert_eq!(script.lit_cells(), 0, "{instrument}: a line is lit before the answer");
                    script.after(1);
                }
                for _ in 0..=screen(&script).run.shares().len() {
                    script.press("PageDown");
                }
                assert!(script.lit_cells() > 0, "{instrument}: the lines of the answer are lit");
                script.keys("n");
            }
        }
    }
}

fn part_engraved(script: &Script) -> String {
    screen(script).run.part().tool.engraved.join(" ")
}

/// A set that forbids the glass is asked where the whole vernier has room, and nowhere else.
#[test]
fn a_forbidden_glass_is_not_shown_to_a_room_either() {
    let begin = |size| {
        let mut script = Script::project_with(Allowed::No, "caliper-inch-25", &[Kind::Read; 2], TWENTY, size);
        to_question(&mut script);
        script
    };
    begin(LEAST).sees("2 questions left out: not drawn truly in this window.");
    let wide = begin((80, 24));
    wide.sees("Write it down.");
    assert_eq!(wide.project_glass(), None);
}

/// The glass goes the same way whatever the tool reads, and lies on the lines in line only once that is told.
#[test]
fn the_glass_knows_no_reading_before_it_is_told() {
    let way = |number: usize| {
        let kinds = vec![Kind::Read; number];
        let mut script = Script::project("caliper-metric-50", &kinds, TWENTY, LEAST);
        for _ in 1..number {
            to_question(&mut script);
            script.keys("n");
        }
        to_question(&mut script);
        let mut way = Vec::new();
        for _ in 0..20 {
            way.push(script.project_glass());
            script.after(1);
        }
        way
    };
    let first = way(1);
    assert!(first.iter().all(Option::is_some) && first.iter().any(|line| *line != first[0]));
    assert_eq!(first, way(3));
}

#[test]
fn every_kind_of_question_is_asked_and_told() {
    let kinds: Vec<Kind> = Kind::ALL.to_vec();
    let pace = Pace { question: None, round: None };
    for instrument in ["micrometer-metric", "rule-inch-64", "protractor-head"] {
        for size in [LEAST, (100, 30)] {
            let mut script = Script::project(instrument, &kinds, pace, size);
            script.sees("1 question left out: there the tool is set by hand.");
            let mut told = 0;
            let mut presses = 0;
            while stage(&script) != Stage::Over {
                script.text();
                script.press("PageDown");
                told += u32::from(stage(&script) == Stage::Told(0));
                presses += 1;
                assert!(
                    presses < 400,
                    "{instrument}: it goes on for ever at {:?}",
                    screen(&script).run.which()
                );
            }
            assert!(told >= 9, "{instrument} at {size:?}: {told} answers told");
        }
    }
}

#[test]
fn what_cannot_be_drawn_is_said_with_the_size_it_needs() {
    let mut script = Script::project("bevel-protractor", &[Kind::Read; 3], TWENTY, LEAST);
    script.press("PageDown");
    script.sees("3 questions left out: not drawn truly in this window.");
    let mut wide = Script::project("bevel-protractor", &[Kind::Read; 3], TWENTY, (80, 24));
    to_question(&mut wide);
    wide.sees("Write it down.");
    // Made smaller in the middle of a question, it says what is needed instead.
    wide.resize(60, 20);
    wide.sees("It needs ");
    wide.resize(59, 20);
    wide.sees("Linefall needs 60x20; this is 59x20.");
    wide.resize(80, 24);
    wide.sees("Write it down.");
}

#[test]
fn any_size_any_style_any_theme() {
    for style in LineStyle::ALL {
        let mut script =
            Script::project("caliper-inch-25", &[Kind::Read, Kind::Pair, Kind::WhatNow], TWENTY, LEAST);
        script.model.lines = style;
        for theme in [Theme::Steel, Theme::Dark, Theme::Mono, Theme::HighContrast] {
            script.model.theme = theme;
            for (cols, rows) in [(1, 1), (60, 20), (61, 21), (80, 24), (160, 50), (300, 90)] {
                script.resize(cols, rows);
            }
            script.press("PageDown");
        }
    }
}

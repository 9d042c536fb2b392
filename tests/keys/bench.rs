//! Questions of other kinds: chosen, answered, kept, gone on with.

use super::saved;
use super::script::Script;
use linefall::drill::Kind;
use linefall::drill::task::Wanted;
use linefall::session::Programme;
use linefall::tui::model::Screen;
use linefall::tui::update::Effect;

#[test]
fn the_kinds_are_chosen_from_a_list() {
    let mut script = Script::home(80, 24);
    script.keys("jjj");
    script.keys("o");
    script.sees("Kinds of question: Outside micrometer");
    script.sees("one step only");
    script.sees("not tried yet");
    script.sees("level 1: ");
    let sentence = "What one scale alone says, the others left out.";
    for _ in 0..12 {
        if !script.text().contains(sentence) {
            script.press("Down");
        }
    }
    script.sees(sentence);
    script.keys("\n");
    let effects = script.take_effects();
    let Some(Effect::LookUpBench(instrument, programme)) = effects.last() else { panic!("{effects:?}") };
    let one_step = Programme::Kinds(vec![Kind::OneStep]);
    assert_eq!((instrument.as_str(), programme), ("micrometer-inch", &one_step));
    script.press("Esc");
    assert!(matches!(script.model.screen(), Screen::Home { .. }));
}

#[test]
fn one_step_is_answered_told_and_kept() {
    let mut script = Script::bench("micrometer-metric", &[Kind::OneStep], 80, 24);
    script.sees(" alone say?");
    let right = script.at_bench().run.part().expected_word();
    let right = right.trim_end_matches(" mm").to_owned();
    script.keys("1.2.3\n");
    assert!(saved(&script.take_effects()).is_empty(), "that is no figure");
    script.press("Esc");
    let mut script = Script::bench("micrometer-metric", &[Kind::OneStep], 80, 24);
    script.keys("77\n");
    let effects = script.take_effects();
    let attempts = saved(&effects);
    assert_eq!((attempts[0].kind, attempts[0].answer.as_str()), (Kind::OneStep, "77"));
    script.sees("x 77: Not that");
    script.sees(&right);
    script.keys("n");
    script.sees("x 77: Not that");
    script.written_down();
    script.keys("n");
    script.sees("question 2   0 of 1 right");
    let right = script.at_bench().run.part().expected_word();
    script.keys(right.trim_end_matches(" mm"));
    script.keys("\n");
    script.sees("\u{2713}");
    script.sees("1 of 2 right");
}

#[test]
fn a_run_goes_on_where_it_was_left() {
    let kinds = [Kind::OneStep];
    let mut script = Script::bench("caliper-inch-25", &kinds, 80, 24);
    script.keys("s");
    let effects = script.take_effects();
    let remembered = |effects: &[Effect]| {
        effects.iter().rev().find_map(|effect| match effect {
            Effect::Remember(key, kept) if key == "bench/me/caliper-inch-25/one-step" => Some(kept.clone()),
            _ => None,
        })
    };
    let answered = remembered(&effects).expect("the place in the run");
    script.written_down();
    script.keys("n");
    let after = remembered(&script.take_effects()).expect("the place in the run");
    assert_eq!(answered, after, "what is answered is not asked again");
    let before = script.text();
    script.press("Esc");
    script.resume_bench("caliper-inch-25", &kinds, &after);
    // The score is that of the sitting.
    let without_score =
        |text: &str| text.lines().filter(|line| !line.contains("question")).collect::<Vec<_>>().join("\n");
    assert_eq!(without_score(&before), without_score(&script.text()));
}

#[test]
fn any_size_with_any_kind_on_any_tool() {
    for id in [
        "rule-inch-64",
        "micrometer-inch-tenths",
        "caliper-metric-50",
        "bevel-protractor",
        "dial-caliper-inch",
    ] {
        for kind in Kind::ALL {
            let mut script = Script::bench(id, &[*kind], 80, 24);
            if !matches!(script.model.screen(), Screen::Bench(_)) {
                continue;
            }
            for (cols, rows) in [(20, 5), (80, 24), (200, 60), (81, 120), (100, 30)] {
                script.resize(cols, rows);
            }
            script.keys("s");
            for (cols, rows) in [(80, 24), (300, 25)] {
                script.resize(cols, rows);
            }
        }
    }
}

/// How far the tool that is being set is from where it is to stand, in the finest moves.
fn moves_left(script: &Script) -> i64 {
    let run = &script.at_bench().run;
    let Wanted::Setting(setting) = &run.part().wanted else { panic!("nothing is being set") };
    (setting.to - run.at()).passed(run.part().tool.travel().fine)
}

#[test]
fn a_tool_is_set_with_the_keypad_alone() {
    let mut script = Script::bench("micrometer-metric", &[Kind::SetIt], 100, 30);
    let mut pulled = 0;
    for _ in 0..8 {
        while script.text().contains("Enter to go on.") {
            script.keys("\n");
        }
        script.sees("Enter locks it.");
        loop {
            // A turn is fifty of the finest moves.
            match moves_left(&script) {
                0 => break,
                left if left >= 50 => script.keys("9"),
                left if left <= -50 => script.keys("3"),
                left if left > 0 => script.keys("6"),
                _ => script.keys("4"),
            }
        }
        script.keys("\n");
        script.sees("Locked. Look at it once more");
        if moves_left(&script) != 0 {
            pulled += 1;
            script.keys("-");
            script.sees("Enter locks it.");
            script.keys(if moves_left(&script) > 0 { "6" } else { "4" });
            script.keys("\n");
        }
        script.take_effects();
        script.keys("\n");
        let effects = script.take_effects();
        assert_eq!(saved(&effects)[0].verdict.word(), "right");
        script.written_down();
        script.keys("n");
    }
    assert!(pulled > 0, "one lock in four pulls");
    script.sees("8 of 8 right");
}

#[test]
fn esc_loosens_a_locked_tool_and_leaves_one_that_is_not() {
    let mut script = Script::bench("caliper-inch-25", &[Kind::SetIt], 160, 45);
    while script.text().contains("Enter to go on.") {
        script.keys("\n");
    }
    let before = script.text();
    script.press("Right");
    assert_ne!(before, script.text(), "it has moved");
    script.press("Left");
    assert_eq!(before, script.text());
    script.keys("\n");
    script.press("Esc");
    script.sees("Enter locks it.");
    script.press("Esc");
    assert!(matches!(script.model.screen(), Screen::Home { .. }));
}

#[test]
fn two_pictures_each_with_its_name() {
    for (cols, rows) in [(80, 24), (100, 30), (160, 45)] {
        let mut script = Script::bench("micrometer-metric", &[Kind::Pair], cols, rows);
        script.sees("Which one?");
        let mut seen = script.text();
        for _ in 0..2 {
            script.keys("x");
            seen.push_str(&script.text());
        }
        for name in ["the first", "the second"] {
            assert!(seen.contains(name), "{cols}x{rows} {name}: {seen}");
        }
        assert!(!seen.contains("cannot be drawn"), "{cols}x{rows}: {seen}");
        script.keys("1");
        script.written_down();
        script.keys("n");
        script.sees("2 of 2");
        script.sees("Answer:");
    }
}

#[test]
fn answers_that_have_no_room_beside_the_picture_take_turns_with_it() {
    let mut script = Script::bench("caliper-metric-50", &[Kind::WhatNow], 80, 24);
    script.sees("x: on to the answers.");
    script.sees("glass");
    // Of two pictures both come before the answers.
    while script.text().contains("x: on to the answers.") {
        script.keys("x");
    }
    script.sees("  2  wipe it and close it again");
    script.press("Down");
    script.keys("x");
    script.sees("x: on to the answers.");
    script.keys("\n");
    let effects = script.take_effects();
    assert_eq!(saved(&effects).len(), 1);
}

//! Questions of other kinds: chosen, answered, kept, gone on with.

use super::saved;
use super::script::Script;
use linefall::drill::Kind;
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

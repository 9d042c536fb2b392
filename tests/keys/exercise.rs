//! Exercises, checks and self-tests: begun, gone through, left and taken up, ended.

use super::saved;
use super::script::Script;
use linefall::tui::model::Screen;
use linefall::tui::update::Effect;
use std::time::Duration;

/// A set of four questions on an instrument in good order.
fn set(instrument: &str, more: &str, asked: &str) -> String {
    format!(
        "set = \"brackwater-trial\"\ntitle = \"A trial of four readings\"\nabout = \"Four readings, for the tests.\"\n\
         count = 4\n{more}\n[[questions]]\ninstrument = \"{instrument}\"\nzero = \"never\"\nconditions = \"never\"\n{asked}\n"
    )
}

/// A check of four readings in five minutes, passed with three.
fn check(instrument: &str) -> String {
    set(instrument, "pass = \"3 of 4\"\ntime = \"5 min\"", "")
}

/// No word of what was right.
fn tells_nothing(script: &Script) {
    let screen = script.text();
    for word in ["Right", "Not that", "right", "\u{2713}", "\nx ", "Passed over"] {
        assert!(!screen.contains(word), "{word}:\n{screen}");
    }
}

/// Answers the reading that is up, rightly or by two lines too much; looks at every frame on the way.
fn read(script: &mut Script, rightly: bool) {
    while script.text().contains("Enter to go on.") {
        script.keys("\n");
    }
    let part = script.at_bench().run.part().clone();
    let right = part.question.expected(&part.tool);
    let word = part.tool.notation.spell(right);
    let two = part.tool.value(part.tool.least_count);
    let typed = if rightly { word.clone() } else { part.tool.notation.spell(right + two + two) };
    for c in typed.chars() {
        script.keys(&c.to_string());
        if script.at_bench().is_silent() {
            tells_nothing(script);
        }
    }
    if !rightly {
        assert!(!script.text().contains(&word), "the reading is on the screen: {}", script.text());
    }
    script.keys("\n");
}

#[test]
fn a_whole_check_tells_nothing_until_its_end() {
    for (cols, rows) in [(80, 24), (160, 45)] {
        let mut script = Script::set(&check("micrometer-metric"), None, cols, rows);
        script.sees("A trial of four readings");
        script.sees("A self-test: the form of a skills check, for yourself.");
        script.sees("With 3 of 4 right.");
        script.sees("5 minutes for the whole.");
        script.keys("\n");
        for (nth, rightly) in [true, false, true, true].into_iter().enumerate() {
            script.sees(&format!("{} of 4   5 min left", nth + 1));
            tells_nothing(&script);
            read(&mut script, rightly);
            if nth < 3 {
                // Not yet on the disk, and nothing told either.
                script.sees("Taken down.");
                tells_nothing(&script);
            }
            assert!(saved(&script.take_effects()).is_empty() || nth == 3, "the record would tell it");
            script.put_down();
        }
        let effects = script.take_effects();
        assert_eq!(saved(&effects).len(), 4);
        script.sees("Self-test: passed");
        script.sees("3 of 4 right: a reader who is right in 30 to 95 of 100 (95 % interval).");
        script.sees("Fine ones (a few lines): 1.");
        script.sees("This is a self-test, not a check");
        script.sees("What went wrong");
        script.keys("\n");
        script.sees("question 2   1 of 1 that went wrong");
        script.sees("Not that");
        while script.text().contains("that went wrong") {
            script.keys("\n");
        }
        script.sees("Self-test: passed");
        script.keys("w");
        let effects = script.take_effects();
        let Some(Effect::WritePage(None, name, lines)) = effects.last() else { panic!("{effects:?}") };
        assert_eq!(name, "self-test-brackwater-trial-2026-03-09.txt");
        let page = lines.join("\n");
        for word in
            ["PASSED", "3 of 4", "Revision        ", "not a check", "Date (UTC)      2026-03-09 07:30"]
        {
            assert!(page.contains(word), "{word}: {page}");
        }
        assert!(lines.iter().all(|line| line.chars().count() <= 78), "{page}");
        script.press("Esc");
        assert!(matches!(script.model.screen(), Screen::Home { .. }));
    }
}

#[test]
fn the_same_gross_slip_twice_is_not_yet() {
    let set = set("micrometer-metric", "pass = \"1 of 4\"", "provoke = [\"half-line-missed\"]");
    let mut script = Script::set(&set, None, 80, 24);
    script.keys("\n");
    for _ in 0..4 {
        let part = script.at_bench().run.part().clone();
        let right = part.question.expected(&part.tool);
        let half = part.tool.value(part.tool.least_count) * linefall::exact::Exact::whole(50);
        script.keys(&part.tool.notation.spell(right - half));
        script.keys("\n");
        script.put_down();
    }
    script.sees("x Self-test: not yet: the same gross slip twice");
    script.sees("an inch): 4.");
    script.sees("4 times: half line missed.");
}

#[test]
fn when_the_time_is_up_it_is_over_wherever_one_is() {
    let mut script = Script::set(&check("micrometer-metric"), None, 80, 24);
    script.keys("\n");
    read(&mut script, true);
    script.put_down();
    script.keys("12");
    script.wait(Duration::from_secs(200));
    script.sees("2 of 4   1:3");
    assert!(script.changes_in().is_some_and(|wait| wait <= Duration::from_secs(1)));
    script.press("F6");
    script.wait(Duration::from_secs(100));
    script.sees("Self-test: not yet: the time was up");
    script.sees("1 of 1 right: ");
    script.sees("3 questions were not answered.");
    assert_eq!(script.changes_in(), None, "no clock runs any more");
    assert_eq!(saved(&script.take_effects()).len(), 1);
}

#[test]
fn left_and_taken_up_it_goes_on_and_says_so() {
    let set = check("micrometer-metric");
    let mut script = Script::set(&set, None, 80, 24);
    script.keys("\n");
    for _ in 0..2 {
        read(&mut script, true);
        script.put_down();
    }
    let before = script.text();
    script.keys("p");
    script.sees("Not while this is going on");
    script.keys("w");
    script.sees("Not while this is going on");
    script.press("Esc");
    script.sees("Esc once more leaves it");
    script.keys("1");
    script.keys("\u{8}");
    assert_eq!(script.text(), before, "it stays");
    script.press("Esc");
    script.press("Esc");
    assert!(matches!(script.model.screen(), Screen::Home { .. }));
    let effects = script.take_effects();
    assert!(saved(&effects).is_empty());
    let kept = effects.iter().rev().find_map(|effect| match effect {
        Effect::Sit(sat) => Some((sat.key.clone(), sat.text.clone())),
        _ => None,
    });
    let (key, text) = kept.expect("it is put away");
    assert_eq!(key, "exercise/me/brackwater-trial");
    let mut again = Script::set(&set, Some(&text), 80, 24);
    again.sees("Left at question 3 of 4; it goes on there.");
    again.keys("\n");
    again.sees("3 of 4   5 min left");
    // The pictures are the same.
    let picture = |text: &str| text.lines().take(18).collect::<Vec<_>>().join("\n");
    assert_eq!(picture(&again.text()), picture(&before));
    for _ in 0..2 {
        read(&mut again, true);
        again.put_down();
    }
    again.sees("Self-test: passed");
    again.sees("It was left once and taken up again.");
    let mut anew = Script::set(&set, Some(&text), 80, 24);
    anew.keys("n");
    assert_eq!(saved(&anew.take_effects()).len(), 2, "what was answered goes into the record");
    anew.sees("With 3 of 4 right.");
    anew.keys("\n");
    anew.sees("1 of 4   5 min left");
}

#[test]
fn without_the_glass_it_begins_only_where_all_can_be_drawn() {
    let set = set("caliper-metric-50", "pass = \"3 of 4\"\nglass = \"forbidden\"", "");
    let mut script = Script::set(&set, None, 80, 24);
    script.sees("It needs 314x24; make it larger to begin.");
    script.keys("\n");
    assert!(matches!(script.model.screen(), Screen::Start(_)), "it does not begin");
    let Screen::Start(start) = script.model.screen() else { panic!("the page before") };
    let (cols, rows) = start.needs.as_ref().expect("a larger window").size;
    let cell = |n: i64| u16::try_from(n).expect("a window");
    script.resize(cell(cols), cell(rows));
    assert!(!script.text().contains("It needs"), "{}", script.text());
    script.keys("\n");
    script.sees("1 of 4");
    let before = script.text();
    script.press("Up");
    script.sees("This is read without the glass.");
    script.press("Right");
    for _ in 0..4 {
        assert!(!script.text().contains("glass \u{2500}"), "{}", script.text());
        read(&mut script, true);
        script.put_down();
    }
    assert_ne!(before, script.text());
    let effects = script.take_effects();
    let attempts = saved(&effects);
    assert_eq!(attempts.len(), 4);
    assert!(attempts.iter().all(|attempt| !attempt.glass));
}

#[test]
fn an_exercise_tells_at_once_and_ends_with_a_list() {
    let kinds = "kinds = [\"read\", \"one-step\", \"pair\", \"in-or-out\"]";
    let mut script = Script::set(&set("micrometer-metric", "", kinds), None, 100, 30);
    script.sees("An exercise: after each answer it is told what was right.");
    script.keys("\n");
    let mut answered = 0;
    while matches!(script.model.screen(), Screen::Bench(_)) {
        while script.text().contains("Enter to go on.") {
            script.keys("\n");
        }
        script.keys("s");
        script.put_down();
        script.written_down();
        script.sees("Passed over.");
        answered += 1;
        script.keys("n");
    }
    assert!(answered > 4, "pairs have two parts");
    script.sees("Exercise: done");
    script.sees("0 of 4 right: ");
    script.sees("Passed over: 4.");
    assert_eq!(saved(&script.take_effects()).len(), answered);
}

#[test]
fn sets_are_chosen_from_a_list_that_says_what_was_done() {
    let mut script = Script::home(80, 24);
    script.keys("x");
    script.sees("Exercises and checks, in the order of the course");
    script.sees("First steel rule");
    script.sees("not tried yet");
    script.press("Down");
    script.press("Up");
    script.keys("\n");
    let effects = script.take_effects();
    let [Effect::LookUpSets, Effect::LookUpSet(id)] = &effects[..] else { panic!("{effects:?}") };
    assert_eq!(id, "first-rule");
    script.set_found("first-rule", None);
    script.sees("12 questions");
    script.keys("\n");
    for _ in 0..12 {
        read(&mut script, true);
        script.put_down();
        script.written_down();
        script.sees("Right: ");
        script.keys("n");
    }
    script.sees("12 of 12 right: ");
    script.sees("Nothing went wrong.");
    script.press("Esc");
    script.sees("12 of 12 right");
}

#[test]
fn any_size_on_every_page() {
    let mut script = Script::set(&check("caliper-metric-50"), None, 80, 24);
    for _ in 0..7 {
        for (cols, rows) in [(1, 1), (20, 5), (79, 24), (80, 24), (200, 60), (81, 120)] {
            script.resize(cols, rows);
        }
        script.resize(80, 24);
        if matches!(script.model.screen(), Screen::Bench(_)) && script.model.under_way().is_some() {
            read(&mut script, false);
            script.put_down();
        } else {
            script.keys("\n");
        }
    }
}

/// Before the work the closed tool is looked at; that leaving takes a second key is said there as well.
#[test]
fn leaving_is_asked_for_twice_before_the_work_too() {
    let text = set("micrometer-metric", "pass = \"3 of 4\"\ntime = \"5 min\"", "")
        .replace("\"never\"\nc", "\"always\"\nc");
    let mut script = Script::set(&text, None, 80, 24);
    script.keys("\n");
    script.sees("Enter to go on.");
    script.press("Esc");
    script.sees("Esc once more leaves it");
}

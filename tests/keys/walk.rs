//! Walking through a tool, guessing it, and lessons.

use crate::script::Script;
use linefall::instrument::Catalogue;
use linefall::lesson;
use linefall::session::{Asked, Mode};
use linefall::tui::command::Command;
use linefall::tui::model::{Screen, WalkScreen};
use linefall::tui::update::begin_walk;

fn walk(instrument: &str, cols: u16, rows: u16) -> Script {
    let mut script = Script::home(cols, rows);
    begin_walk(&mut script.model, Command::Walk, instrument);
    script
}

fn screen(script: &Script) -> &WalkScreen {
    match script.model.screen() {
        Screen::Walk(walk) => walk,
        _ => panic!("not at a walk"),
    }
}

fn reading(script: &Script) -> String {
    let stand = screen(script).run.stand();
    stand.tool.spell(stand.reading.total)
}

/// W19 of the published readings: 20 + 2 + 0.36 = 22.36 mm. Forty-four turns of half a millimetre, thirty-six lines.
#[test]
fn the_reading_builds_up_under_the_picture() {
    let mut script = walk("micrometer-metric", 80, 24);
    script.sees("it uncovers lines, and the reading grows");
    for _ in 0..4 {
        script.press("C-Right");
    }
    for _ in 0..4 {
        script.press("PageUp");
    }
    for _ in 0..36 {
        script.press("Right");
    }
    script.sees("sleeve: figure 20 passed");
    script.sees("sleeve: 2 whole lines after it");
    script.sees("thimble: line 36 on the datum line");
    script.sees("reads 22.36 mm");
    script.press("S-Left");
    assert_eq!(reading(&script), "22.00");
    script.press("Home");
    assert_eq!(reading(&script), "0.00");
    script.press("PageDown");
    assert_eq!(reading(&script), "0.00", "it is closed");
    assert!(script.take_effects().iter().all(|effect| !format!("{effect:?}").starts_with("Save")));
}

/// A depth micrometer's thimble goes left while the reading grows; the arrows go where the thimble goes.
#[test]
fn arrows_go_the_way_the_tool_goes() {
    let mut script = walk("depth-micrometer-inch", 100, 30);
    script.sees("Turn the thimble in, to the left: it covers lines");
    script.press("Left");
    assert_eq!(reading(&script), "0.001");
    script.press("PageUp");
    assert_eq!(reading(&script), "0.026", "the page keys make the reading larger on every tool");
    script.keys("v");
    assert_eq!(reading(&script), "1.026", "another rod");
    script.sees("rod: added as stamped");
}

/// W16 of the published readings: 0.200 + 0.075 + 0.011 + 0.0002 = 0.2862 in.
#[test]
fn guessed_stage_by_stage_and_kept_nowhere() {
    let mut script = walk("micrometer-inch-tenths", 80, 24);
    for _ in 0..2 {
        script.press("C-Right");
    }
    for _ in 0..3 {
        script.press("PageUp");
    }
    for _ in 0..11 {
        script.press("S-Right");
    }
    for _ in 0..2 {
        script.press("Right");
    }
    assert_eq!(reading(&script), "0.2862");
    script.keys("g");
    let hidden = script.text();
    assert!(!hidden.contains("0.2862") && !hidden.contains("0.275"), "{hidden}");
    script.sees("nothing here is recorded");
    script.sees("What does the sleeve alone say");
    script.keys("0.275\n");
    script.sees("What does the thimble add?");
    script.keys("11\n");
    script.sees("the line is 11, worth 0.0110");
    script.keys("1.2.3\n");
    script.sees("What does the vernier add? 1.2.3");
    script.keys("\u{8}\u{8}\u{8}\u{8}\u{8}0.0003\n");
    script.sees("not 0.0003: 0.0002");
    script.sees("reads 0.2862 in");
    script.keys("\n");
    assert!(screen(&script).run.open() == 0, "it stands elsewhere and is hidden again");
    script.keys("s");
    assert_eq!(screen(&script).run.open(), 1);
    script.keys("g");
    assert_eq!(*screen(&script).run.mode(), Mode::Showing);
    assert!(script.take_effects().is_empty(), "nothing is kept");
}

#[test]
fn the_glass_goes_with_the_line_but_never_while_it_is_guessed() {
    let mut script = walk("caliper-metric-50", 80, 24);
    script.keys("r");
    script.press("Up");
    let following = script.text();
    script.keys(">");
    assert_ne!(following, script.text(), "it was slid by hand");
    script.keys("g");
    let hidden = script.text();
    script.press("Up");
    script.keys("gg");
    assert_eq!(hidden, script.text(), "hidden again, the glass is where it is for everybody");
}

#[test]
fn from_a_question_only_when_it_is_answered() {
    let mut script = Script::practice("micrometer-metric", 80, 24);
    script.until_plain();
    script.keys("w");
    assert!(matches!(script.model.screen(), Screen::Practice(_)));
    script.sees("answer first");
    let right = script.right_answer();
    script.keys(&right);
    script.keys("\n");
    script.written_down();
    script.keys("w");
    script.sees(&format!("reads {right} mm"));
    script.press("Esc");
    script.sees("Right: ");
}

#[test]
fn a_lesson_waits_for_its_answer_and_ends_with_the_tool_in_the_hand() {
    let mut script = Script::home(100, 30);
    let number = Catalogue::new(Vec::new()).names().position(|id| id == "lesson-5-part");
    for _ in 0..number.expect("listed") {
        script.press("Down");
    }
    script.keys("e");
    script.sees("step 1 of 11");
    script.sees("the short scale that slides along it");
    for _ in 0..40 {
        let Screen::Lesson(lesson) = script.model.screen() else { break };
        if matches!(lesson.run.asked(), Asked::Open { .. }) {
            let before = lesson.run.which();
            let right = lesson.run.question().expect("it is asked")[1].clone();
            script.keys("99\n");
            script.sees("not yet");
            script.keys(&format!("{right}\n"));
            script.sees("\u{2713}");
            let Screen::Lesson(lesson) = script.model.screen() else { panic!("the lesson goes on") };
            assert_eq!(lesson.run.which(), before);
        }
        script.keys("\n");
    }
    script.sees("now turn it yourself");
    assert_eq!(reading(&script), "21.2");
}

/// Every tool and every lesson at sizes that people have; nothing panics, and the reading is in sight.
#[test]
fn every_instrument_can_be_walked_through() {
    for instrument in Catalogue::new(Vec::new()).ids() {
        for (cols, rows) in [(80, 24), (100, 30)] {
            let mut script = walk(instrument, cols, rows);
            for key in ["PageUp", "Right", "S-Right", "PageUp", "Left"] {
                script.press(key);
                script.sees("reads ");
            }
            script.keys("gs");
            script.keys("ge");
            assert!(matches!(script.model.screen(), Screen::Lesson(_)), "{instrument}");
            script.sees("step 1 of ");
        }
    }
}

#[test]
fn every_step_of_every_lesson_is_drawn_and_said_whole() {
    for lesson in lesson::all() {
        for (cols, rows) in [(80, 24), (100, 30)] {
            let mut script = Script::home(cols, rows);
            begin_walk(&mut script.model, Command::Lesson, &lesson.on);
            while let Screen::Lesson(going) = script.model.screen() {
                let text = script.text();
                assert!(!text.contains("cannot be drawn"), "{} at {cols}x{rows}\n{text}", lesson.id);
                let last = going.run.said();
                let last = last.split_whitespace().last().expect("a word");
                assert!(text.contains(last), "{} at {cols}x{rows}: {last}\n{text}", lesson.id);
                if matches!(going.run.asked(), Asked::Open { .. }) {
                    script.keys("s");
                }
                script.keys("\n");
            }
        }
    }
}

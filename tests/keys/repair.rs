//! A wrong answer and why: both ways of reading side by side.

use super::script::Script;
use linefall::drill::trap;
use linefall::reading::{Asks, misread};

/// Goes on to a question on which a misread gives a wrong answer, and gives it.
fn misread_it(script: &mut Script, id: &str) {
    let misread = misread::named(id).expect("a misread");
    loop {
        if script.question().asks == Asks::Reading {
            let tool = script.model.instrument(script.screen());
            let wrong = misread.wrong(&script.question().case(tool));
            if let Some(wrong) = wrong.first() {
                let answer = tool.notation.spell(wrong.answer);
                script.keys(&answer);
                script.keys("\n");
                return script.written_down();
            }
        }
        script.next_question();
    }
}

/// The row of the screen with these words.
fn row(script: &Script, words: &str) -> String {
    let text = script.text();
    text.lines().find(|line| line.contains(words)).unwrap_or_else(|| panic!("no {words}:\n{text}")).to_owned()
}

#[test]
fn what_happens_twice_is_named_repaired_and_cleared() {
    let mut script = Script::practice("micrometer-metric", 100, 30);
    misread_it(&mut script, "half-line-missed");
    assert!(!script.text().contains("This has happened"), "once is nothing yet");
    script.keys("n");
    misread_it(&mut script, "half-line-missed");
    script.sees("This has happened twice now: half line missed.");
    script.sees("After the last whole line look on the other lines once more");
    assert!(row(&script, "half line shows").contains("left out"));
    // Of three readings two are where it goes wrong; each is read rightly now.
    let (mut biting, mut readings) = (0, 0);
    loop {
        script.keys("n");
        while !script.text().contains("Answer:") {
            script.keys("\n");
        }
        let tool = script.model.instrument(script.screen());
        let wrong =
            misread::named("half-line-missed").expect("a misread").wrong(&script.question().case(tool));
        biting += u32::from(!wrong.is_empty());
        readings += 1;
        let right = script.right_answer();
        script.keys(&right);
        script.keys("\n");
        script.written_down();
        if script.text().contains("Clear: half line missed no longer happens.") {
            break;
        }
        assert!(readings < 18, "it is cleared in the end");
    }
    assert!(biting >= 2, "{biting} of {readings}");
    // Said once.
    script.keys("n");
    assert!(!script.text().contains("Clear: "));
}

#[test]
fn a_missed_setting_comes_back_after_three_and_after_eight_more() {
    let mut script = Script::practice("rule-metric", 80, 24);
    let missed = script.question().number;
    script.keys("0\n");
    script.written_down();
    let (mut numbers, mut turns) = (Vec::new(), Vec::new());
    for _ in 0..13 {
        script.keys("n");
        numbers.push(script.question().number);
        turns.push(script.screen().run.turn());
        let right = script.right_answer();
        script.keys(&right);
        script.keys("\n");
        script.written_down();
    }
    let back: Vec<usize> = (0..13).filter(|n| numbers[*n] == missed).collect();
    assert_eq!(back, [3, 12], "{numbers:?}");
    // Each counts on the screen, and nothing is left out between.
    assert_eq!(turns, (2..=14).collect::<Vec<u32>>());
    numbers.retain(|number| *number != missed);
    let fresh: Vec<u32> = numbers.iter().map(|number| trap::turn_of(*number)).collect();
    assert_eq!(fresh, (2..=12).collect::<Vec<u32>>());
}

#[test]
fn a_wrong_answer_is_set_beside_the_right_one_at_once() {
    for (id, size) in [
        ("micrometer-metric", (80, 24)),
        ("micrometer-metric", (100, 30)),
        ("depth-micrometer-metric", (160, 45)),
        ("micrometer-metric-microns", (80, 24)),
    ] {
        let mut script = Script::practice(id, size.0, size.1);
        misread_it(&mut script, "half-line-missed");
        script.sees("Not that: ");
        let mut seen = vec![script.text()];
        while !script.text().contains("Answer:") && !script.text().contains("Enter to go on.") {
            script.keys("\n");
            seen.push(script.text());
        }
        seen.pop();
        // Every row comes into view, the first step among them; with the replaced one goes a sign and a word.
        let all = seen.concat();
        assert!(all.lines().any(|line| line.contains("large figure") || line.contains("figure")), "{all}");
        let step = all.lines().find(|line| line.contains("this step")).expect("the replaced step");
        assert!(step.trim_start().starts_with('x') && step.contains("left out"), "{step}");
        assert!(all.contains("comes to"), "{all}");
    }
}

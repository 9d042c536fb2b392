//! A wrong answer and why: both ways of reading side by side.

use super::script::Script;
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
        script.sees("half line missed");
        let mut seen = vec![script.text()];
        while !script.text().contains("Answer:") && !script.text().contains("Enter to go on.") {
            script.keys("\n");
            seen.push(script.text());
        }
        seen.pop();
        println!("{}", seen.join("\n"));
        // Every row comes into view, the first step among them; with the replaced one goes a sign and a word.
        let all = seen.concat();
        assert!(all.lines().any(|line| line.contains("large figure") || line.contains("figure")), "{all}");
        let step = all.lines().find(|line| line.contains("this step")).expect("the replaced step");
        assert!(step.trim_start().starts_with('x') && step.contains("left out"), "{step}");
        assert!(all.contains("comes to"), "{all}");
    }
}

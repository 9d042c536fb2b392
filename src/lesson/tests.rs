//! Every shipped lesson, checked: its tool, its settings, its sentences, its places, what it lights and asks.

use super::{Fault, Lesson, all, lesson_for};
use crate::instrument::Catalogue;
use std::collections::BTreeSet;

/// Room for what is said under the picture: three lines of eighty cells.
const LONGEST_SAY: usize = 224;
/// A question stands on one line with its answer.
const LONGEST_QUESTION: usize = 52;
/// Words in a sentence.
const LONGEST_SENTENCE: usize = 26;

/// What a step says at each of its points, with its question and what follows it; and what is wrong with it.
fn texts(lesson: &Lesson) -> (Vec<(usize, String)>, Vec<String>) {
    let (mut found, mut wrong) = (Vec::new(), Vec::new());
    let tool = lesson.tool().unwrap_or_else(|fault| panic!("{}: {fault}", lesson.id));
    for (number, step) in lesson.steps.iter().enumerate() {
        for point in 0..step.at.len() {
            let name = format!("{} step {}", lesson.id, number + 1);
            let mut say = |text: Result<String, Fault>, longest: usize| match text {
                Ok(text) => {
                    if text.chars().count() > longest {
                        wrong.push(format!("{name}: {} characters: {text}", text.chars().count()));
                    }
                    found.push((number, text.clone()));
                    text
                }
                Err(fault) => {
                    wrong.push(format!("{name}: {fault}"));
                    String::new()
                }
            };
            let at = match lesson.point(&tool, number, point) {
                Ok(at) => at,
                Err(fault) => {
                    wrong.push(format!("{name}: {fault}"));
                    continue;
                }
            };
            let said = say(step.said(&at), LONGEST_SAY);
            if let (Some(ask), true) = (&step.ask, point + 1 == step.at.len()) {
                let question = say(ask.asked(&at), LONGEST_QUESTION);
                say(ask.told(&at), LONGEST_SAY);
                match ask.written(&at) {
                    Ok(right) => {
                        let given = right.split(' ').next().unwrap_or(&right);
                        let tells = |text: &str| {
                            text.split([' ', ',', ';']).any(|word| word.trim_end_matches(['.', '?']) == given)
                        };
                        if tells(&said) || tells(&question) {
                            wrong.push(format!("{name} says the answer {right} before it is asked"));
                        }
                    }
                    Err(fault) => wrong.push(format!("{name}: {fault}")),
                }
            }
            if let Err(fault) = step.lit(&at) {
                wrong.push(format!("{name}: {fault}"));
            }
        }
    }
    (found, wrong)
}

#[test]
fn every_lesson_keeps_the_rules() {
    let mut wrong = Vec::new();
    for lesson in all() {
        let id = &lesson.id;
        assert!((5..=14).contains(&lesson.steps.len()), "{id}: {} steps", lesson.steps.len());
        assert!(lesson.steps.iter().any(|step| step.ask.is_some()), "{id} asks nothing");
        assert!(!lesson.source.is_empty() && lesson.caution.ends_with('.'), "{id}");
        assert!(lesson.teaches.contains(&lesson.on), "{id} is not for the tool it is given on");
        let (said, faults) = texts(&lesson);
        wrong.extend(faults);
        for (number, text) in said {
            for sentence in text.split(['.', ';', ':']).filter(|part| part.contains(' ')) {
                let words = sentence.split_whitespace().count();
                if words > LONGEST_SENTENCE {
                    wrong.push(format!("{id} step {}: {words} words: {sentence}", number + 1));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A number that somebody wrote could be wrong; one that is filled in cannot.
#[test]
fn no_number_is_written_into_a_lesson() {
    for lesson in all() {
        let asks = lesson.steps.iter().filter_map(|step| step.ask.as_ref());
        let asked = asks.flat_map(|ask| [&ask.question, &ask.then]);
        for text in lesson.steps.iter().map(|step| &step.say).chain(asked).chain([&lesson.caution]) {
            let mut open = false;
            for c in text.chars() {
                open = (open || c == '{') && c != '}';
                assert!(open || !c.is_ascii_digit(), "{}: {text}", lesson.id);
            }
        }
    }
}

/// Words that belong to the code.
#[test]
fn lessons_speak_the_shops_words() {
    for lesson in all() {
        for (_, text) in texts(&lesson).0 {
            for word in text.to_lowercase().split(|c: char| !c.is_alphabetic()) {
                let hidden =
                    ["drum", "quantum", "quanta", "facet", "lattice", "misread", "pose", "lens", "plate"];
                assert!(!hidden.contains(&word), "{}: {text}", lesson.id);
            }
        }
    }
}

#[test]
fn every_shipped_instrument_has_one_lesson_of_its_own() {
    let catalogue = Catalogue::new(Vec::new());
    let taught: Vec<String> = all().flat_map(|lesson| lesson.teaches).collect();
    let once: BTreeSet<&String> = taught.iter().collect();
    assert_eq!(once.len(), taught.len(), "an instrument with two lessons");
    for instrument in catalogue.all() {
        let lesson = lesson_for(instrument).unwrap_or_else(|| panic!("no lesson for {}", instrument.id));
        assert!(lesson.teaches.contains(&instrument.id), "no lesson for {}", instrument.id);
        assert_eq!(lesson.family, instrument.family, "{}", instrument.id);
    }
    assert!(taught.iter().all(|id| catalogue.get(id).is_some()), "{taught:?}");
}

#[test]
fn every_file_is_listed() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/lessons");
    let files = std::fs::read_dir(folder).expect("the lessons").filter_map(Result::ok);
    assert_eq!(
        files.filter(|file| file.path().extension().is_some_and(|end| end == "toml")).count(),
        all().count()
    );
    let ids: BTreeSet<String> = all().map(|lesson| lesson.id).collect();
    assert_eq!(ids.len(), all().count(), "two lessons of one id");
}

use super::*;
use crate::class::sitting::Entry;
use crate::class::testing::{entry, misread_by, sitting, wrong_by};

fn of(sittings: &[Sitting]) -> Questions {
    questions("first", sittings, &Catalogue::new(Vec::new())).expect("something came back")
}

/// So many people over the same five questions; `wrong` says who is how many hundredths off at which place.
fn class(people: u32, wrong: impl Fn(u32, u32) -> Option<Entry>) -> Vec<Sitting> {
    (0..people)
        .map(|person| {
            let entries = (1..=5).map(|place| wrong(person, place).unwrap_or_else(|| entry(place))).collect();
            let learner = format!("k{person}");
            sitting(&format!("{person:016x}"), &learner, "first", entries)
        })
        .collect()
}

/// The published figures of section 6 of the Law School Admission Test are held by `items`; here the same answers go through
/// sittings, entries and marks. 1,000 people, 5 questions: shares right .924 .709 .553 .763 .870, corrected point-biserial
/// correlations .1128 .1532 .1728 .1444 .1216, KR-20 0.29500, standard error 0.869 (Bock and Lieberman 1970; R package ltm).
#[test]
fn the_published_questions_as_sittings() {
    let patterns = crate::class::items::testing::LSAT_6;
    let people = patterns.iter().flat_map(|(pattern, count)| std::iter::repeat_n(*pattern, *count));
    let sittings: Vec<Sitting> = (0..)
        .zip(people)
        .map(|(person, pattern): (u32, &str)| {
            let one =
                |(place, digit): (u32, char)| if digit == '1' { entry(place) } else { wrong_by(place, 1) };
            let entries = (1..).zip(pattern.chars()).map(one).collect();
            sitting(&format!("{person:016x}"), &format!("k{person}"), "first", entries)
        })
        .collect();
    let found = of(&sittings);
    assert_eq!((found.paper, found.people, found.left_out, found.too_few), (Paper::Same, 1000, 0, false));
    let whole = found.whole.expect("one paper");
    let near = |found: f64, published: f64, digits: f64| {
        assert!((found - published).abs() < digits, "{found} for {published}");
    };
    near(whole.kr20.expect("defined"), 0.29500, 1e-5);
    near(whole.error.expect("defined"), 0.869, 5e-4);
    for (line, (share, with_rest)) in found.lines.iter().zip([
        (0.924, 0.1128),
        (0.709, 0.1532),
        (0.553, 0.1728),
        (0.763, 0.1444),
        (0.870, 0.1216),
    ]) {
        near(line.score.share().expect("answers"), share, 1e-9);
        near(line.with_rest.expect("defined"), with_rest, 6e-5);
        let tells = with_rest >= TELLS;
        assert_eq!(line.flags.contains(&Flag::HardlyTells), !tells, "{:?}", line.flags);
    }
}

#[test]
fn below_twenty_nothing_is_said_of_how_well_a_question_tells() {
    let wrong = |person: u32, place: u32| (person == 0 && place == 2).then(|| wrong_by(place, 1));
    let few = of(&class(19, wrong));
    assert!(few.too_few && few.lines.iter().all(|line| line.flags.is_empty()));
    let enough = of(&class(20, wrong));
    assert!(!enough.too_few && enough.lines[0].flags.contains(&Flag::Easy));
}

#[test]
fn distinct_wrong_answers_are_told_apart_and_what_nothing_explains_is_flagged() {
    let wrong = |person: u32, place: u32| match (person, place) {
        (0..3, 2) => Some(wrong_by(2, 7)),
        (3..5, 2) => Some(misread_by(2, "half-line-missed", 50)),
        (5, 2) => {
            // The same value, written otherwise.
            let mut spelt = wrong_by(2, 7);
            spelt.attempt.answer = format!(" {}0 ", spelt.attempt.answer);
            Some(spelt)
        }
        (6, 3) => Some(wrong_by(3, 1)),
        _ => None,
    };
    let found = of(&class(8, wrong));
    let second = &found.lines[1];
    let all: Vec<_> =
        second.wrong.answers.iter().map(|a| (a.answer.as_str(), a.people, a.misreads.len())).collect();
    assert_eq!(all, [("1.81", 4, 0), ("2.24", 2, 1)]);
    assert_eq!(second.wrong.explained, Score { answered: 6, right: 2 });
    assert_eq!(second.flags, [Flag::Unexplained]);
    assert!(found.lines[2].flags.is_empty());
}

#[test]
fn a_second_try_another_text_and_what_was_left_do_not_count() {
    let mut all = class(4, |_, _| None);
    all.push(Sitting { id: "zz".to_owned(), begun: "2026-03-10T07:30:00Z".to_owned(), ..all[0].clone() });
    all.push(Sitting { learner: "k90".to_owned(), revision: "0".to_owned(), ..all[0].clone() });
    all.push(Sitting { learner: "k91".to_owned(), end: End::Left, ..all[0].clone() });
    let found = of(&all);
    assert_eq!((found.paper, found.people, found.left_out), (Paper::Same, 4, 3));
    assert_eq!(found.lines[0].score, Score { answered: 4, right: 4 });
    assert!(questions("another", &all, &Catalogue::new(Vec::new())).is_none());
}

/// Drawn questions: person `n` has settings of their own. The half lines are missed.
#[test]
fn drawn_questions_are_taken_together_by_what_they_have_in_common() {
    let sittings: Vec<Sitting> = (0..24)
        .map(|person: u32| {
            let entries = (1..=6)
                .map(|place| {
                    let here = person * 6 + place;
                    let half = (here * 37 + 100) % 100 >= 50;
                    let mut entry =
                        if half && person.is_multiple_of(2) { wrong_by(here, 3) } else { entry(here) };
                    entry.place = place;
                    entry
                })
                .collect();
            sitting(&format!("{person:016x}"), &format!("k{person}"), "first", entries)
        })
        .collect();
    let found = of(&sittings);
    assert_eq!((found.paper, found.people, found.too_few), (Paper::Drawn, 24, false));
    let line = |wanted: Option<Feature>| {
        let is = |line: &&Line| matches!(&line.about, About::Family(family) if family.feature == wanted);
        found.lines.iter().find(is).expect("a family")
    };
    let (half, none, all) = (line(Some(Feature::HalfLineShows)), line(Some(Feature::NoHalfLine)), line(None));
    assert_eq!(none.score.right, none.score.answered);
    assert_eq!(half.score.answered + none.score.answered, 144);
    assert_eq!((all.score.answered, all.score.right), (144, none.score.right + half.score.right));
    assert!(half.score.right < half.score.answered);
    // Wrong answers to different questions are the same where they are off by the same.
    assert_eq!(half.wrong.answers.len(), 1);
    assert_eq!((half.wrong.answers[0].answer.as_str(), half.wrong.answers[0].people), ("+0.03 mm", 12));
    assert!(half.flags.contains(&Flag::Unexplained));
    // The thimble's settings are all in one of the three.
    let zones = [Feature::ThimbleNearZero, Feature::ThimbleMiddle, Feature::ThimbleHigh];
    let of_zones: u32 = zones.iter().map(|zone| line(Some(*zone)).score.answered).sum();
    assert_eq!(of_zones, 144);
}

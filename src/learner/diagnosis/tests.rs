//! What an inquiry comes to.

use super::*;
use crate::drill::{Draw, Question, Seed, question};
use crate::exact::Exact;
use crate::instrument::{Catalogue, Instrument, Variant};
use crate::reading::misread;

fn tool(id: &str) -> Instrument {
    Catalogue::new(Vec::new()).get(id).expect("shipped").fitted(&Variant::default())
}

/// What someone who holds a misread answers, never slipping.
fn as_held(id: &str, question: &Question, tool: &Instrument) -> Heard {
    let wrong = misread::named(id).expect("a misread").wrong(&question.case(tool));
    wrong.first().map_or(Heard::Right, |wrong| Heard::Wrong(wrong.answer))
}

fn inquire(id: &str, seed: u64, answer: impl Fn(&Question, &Instrument) -> Heard) -> Diagnosis {
    let tool = tool(id);
    let mut inquiry = Inquiry::new(&tool, &Prior::shipped());
    let suspects = inquiry.suspects().clone();
    let mut pool = Pool::new(&tool, &suspects, Seed(seed));
    for n in 1.. {
        let number = pool.choose(&inquiry, &mut Draw::keyed("test", &tool, Seed(seed), n));
        let question = pool.take(number);
        let fitted = tool.fitted(&question.variant);
        inquiry.hear(&question, &fitted, answer(&question, &fitted));
        if inquiry.diagnosis().status != Status::Open {
            return inquiry.diagnosis();
        }
        pool.renew(&suspects);
    }
    unreachable!("it is given up in the end")
}

#[test]
fn every_misread_of_every_kind_of_tool_is_named_or_one_that_is_alike() {
    for id in ["micrometer-metric", "caliper-inch-25", "micrometer-inch-tenths", "depth-micrometer-metric"] {
        let suspects = Suspects::of(&tool(id));
        for suspect in suspects.all() {
            let found = inquire(id, 3, |question, tool| as_held(suspect.misread.id, question, tool));
            assert_eq!((found.status, found.id), (Status::Named, suspect.misread.id), "{id}: {found:?}");
            assert!(found.asked >= CONFIRMED, "two wrong answers at least: {found:?}");
        }
    }
}

#[test]
fn who_never_errs_is_cleared_and_not_before_every_misread_had_its_chance() {
    for id in ["rule-metric", "micrometer-metric", "caliper-metric-50"] {
        let found = inquire(id, 1, |_, _| Heard::Right);
        assert_eq!(found.status, Status::ReadsCorrectly, "{id}: {found:?}");
        assert!(found.asked >= COVERED, "{id}: {found:?}");
    }
}

#[test]
fn what_nobody_lists_is_told_and_what_nobody_answers_is_given_up() {
    let odd = |question: &Question, tool: &Instrument| {
        Heard::Wrong(
            question.expected(tool) * Exact::ratio(3, 7) + Exact::ratio(question.setting.0.into(), 13),
        )
    };
    assert_eq!(inquire("micrometer-metric", 1, odd).status, Status::Unlisted);
    let found = inquire("micrometer-metric", 1, |_, _| Heard::Skipped);
    assert_eq!((found.status, found.asked), (Status::Undecided, MOST));
}

#[test]
fn where_questions_come_as_they_come_it_is_not_given_up() {
    let tool = tool("micrometer-metric");
    let mut inquiry = Inquiry::new(&tool, &Prior::shipped()).patient();
    for number in 1..=3 * MOST {
        inquiry.hear(&question(&tool, Seed(3), number), &tool, Heard::Skipped);
    }
    assert_eq!((inquiry.diagnosis().status, inquiry.asked()), (Status::Open, 3 * MOST));
}

#[test]
fn one_wrong_answer_convicts_nobody() {
    let tool = tool("micrometer-metric");
    let mut inquiry = Inquiry::new(&tool, &Prior::shipped());
    let question = question(&tool, Seed(3), 1);
    inquiry.hear(&question, &tool, as_held("decimal-slip", &question, &tool));
    let found = inquiry.diagnosis();
    assert_eq!((found.id, found.status), ("decimal-slip", Status::Open), "{found:?}");
}

#[test]
fn a_frame_that_starts_at_nought_cannot_be_forgotten() {
    let suspects = Suspects::of(&tool("micrometer-metric"));
    assert!(suspects.all().iter().all(|suspect| !suspect.is("frame-start-forgotten")));
    assert!(suspects.all().iter().any(|suspect| suspect.is("half-line-missed")));
}

#[test]
fn a_class_that_often_holds_one_misread_is_believed_to() {
    let suspects = Suspects::of(&tool("micrometer-metric"));
    let often = Prior::shipped().with_found([("half-line-missed".to_owned(), 9)].into());
    let belief = Belief::before(&suspects, &often);
    let of = |id: &str| {
        let n = suspects.all().iter().position(|suspect| suspect.is(id)).expect("a suspect");
        belief.of(Hypothesis::Suspect(n))
    };
    assert!((of("half-line-missed") / of("line-added") - 10.0).abs() < 1e-9);
    let sum: f64 = belief.ranked().iter().map(|(_, p)| p).sum();
    assert!((sum - 1.0).abs() < 1e-12);
}

/// The step of A2: a tenth of the misread goes to reading correctly, a hundredth of that comes back spread over all.
#[test]
fn a_repair_takes_a_tenth_away() {
    let suspects = Suspects::of(&tool("micrometer-metric"));
    let mut belief = Belief::before(&suspects, &Prior::shipped());
    let (misread, correct) = (belief.of(Hypothesis::Suspect(0)), belief.of(Hypothesis::Correct));
    belief.forget(0);
    let back = 0.01 * correct;
    let each = back / f64::from(u32::try_from(suspects.count()).expect("few"));
    assert!((belief.of(Hypothesis::Suspect(0)) - (0.9 * misread + each)).abs() < 1e-12);
    assert!((belief.of(Hypothesis::Correct) - (correct + 0.1 * misread - back)).abs() < 1e-12);
    let sum: f64 = belief.ranked().iter().map(|(_, p)| p).sum();
    assert!((sum - 1.0).abs() < 1e-12);
}

#[test]
fn the_same_history_comes_to_the_same() {
    let run = || inquire("caliper-inch-25", 9, |question, tool| as_held("line-early", question, tool));
    assert_eq!(run(), run());
}

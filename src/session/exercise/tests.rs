//! Papers gone through.

use super::*;
use crate::class::verdict::Why;
use crate::drill::record::View;
use crate::drill::set::{Allowed, FIXED_GENERATOR, Given, Met, Order, Pass, Portion, What, ZeroOff};
use crate::drill::task::{Asked, Wanted};
use crate::drill::{GENERATOR, Kind};
use crate::exact::{Exact, Quanta};
use crate::session::{Noted, Shown};

const NOW: &str = "2026-03-09T07:30:00Z";

fn portion(instrument: &str, kinds: &[Kind]) -> Portion {
    Portion {
        instrument: instrument.to_owned(),
        share: 1,
        what: What::Kinds(kinds.to_vec()),
        within: None,
        zero: ZeroOff::AsDrawn,
        conditions: Met::AsDrawn,
        variant: None,
        provoke: Vec::new(),
        spread: false,
        readings: Vec::new(),
    }
}

fn set(portions: Vec<Portion>, count: u32, pass: Option<Pass>) -> DrillSet {
    DrillSet {
        id: "brackwater-trial".to_owned(),
        title: "A trial".to_owned(),
        about: String::new(),
        revision: "r1".to_owned(),
        text: String::new(),
        portions,
        count,
        order: Order::Mixed,
        time: None,
        glass: Allowed::Yes,
        feedback: if pass.is_some() { Feedback::AtTheEnd } else { Feedback::Now },
        pass,
        seed: None,
    }
}

fn whose() -> Whose {
    Whose {
        id: "0123456789abcdef".to_owned(),
        learner: "k7".to_owned(),
        card: None,
        purpose: None,
        nth: 1,
        at: NOW.to_owned(),
    }
}

fn catalogue() -> Catalogue {
    Catalogue::new(Vec::new())
}

fn begin(set: DrillSet) -> (Catalogue, Exercise, Bench) {
    let catalogue = catalogue();
    let exercise = Exercise::begin(set, &catalogue, whose()).expect("all of it is there");
    let bench = exercise.bench(&catalogue).expect("a first question");
    (catalogue, exercise, bench)
}

fn noted() -> Noted {
    let shown = Shown { view: View::Flat, lines: "ascii", cols: 80, rows: 24, glass: false };
    Noted { took: Duration::from_secs(1), at: NOW.to_owned(), shown }
}

/// The acts that answer what is up rightly, or wrongly by one line.
fn answer(bench: &Bench, rightly: bool) -> Vec<Act> {
    let part = bench.part();
    match &part.wanted {
        Wanted::Choice(choice) => {
            let wrong = usize::from(choice.right == 0);
            vec![Act::Choose(if rightly { choice.right } else { wrong }, noted())]
        }
        Wanted::Reading => {
            let mut value = part.question.expected(&part.tool);
            if !rightly {
                value = value + part.tool.value(part.tool.least_count);
            }
            vec![Act::Type(part.tool.notation.spell(value), noted())]
        }
        Wanted::Figure(figure) => {
            let text = if rightly { figure.notation.spell(figure.expected) } else { "77".to_owned() };
            vec![Act::Type(text, noted())]
        }
        Wanted::Setting(setting) => {
            let by = setting.to - bench.at() - setting.creeps;
            let lock = [Act::Move(if rightly { by } else { Quanta::ZERO }), Act::Lock];
            lock.into_iter().chain([Act::Leave(noted())]).collect()
        }
    }
}

/// Answers what is up and goes on; what is to be kept, and whether that was the end.
fn play(
    (catalogue, exercise, bench): (&Catalogue, &mut Exercise, &mut Bench),
    rightly: bool,
) -> (Vec<Keep>, bool) {
    let mut keep = Vec::new();
    for act in answer(bench, rightly) {
        keep.extend(exercise.act(bench, catalogue, act));
    }
    assert!(matches!(bench.stand(), Stand::Told(_)), "{:?}", bench.part().wanted);
    match exercise.go_on(bench, catalogue, NOW) {
        On::Here => {}
        On::Next(next) => *bench = *next,
        On::Over(more) => {
            keep.extend(more);
            return (keep, true);
        }
    }
    (keep, false)
}

fn saved(keep: &[Keep]) -> usize {
    keep.iter().map(|keep| if let Keep::Save(all) = keep { all.len() } else { 0 }).sum()
}

#[test]
fn every_kind_of_question_is_asked_part_by_part_and_told_at_once() {
    let kinds: Vec<Kind> = Kind::ALL.to_vec();
    let count = u32::try_from(kinds.len()).expect("a few");
    let (catalogue, mut exercise, mut bench) =
        begin(set(vec![portion("micrometer-metric", &kinds)], count, None));
    let mut met = Vec::new();
    loop {
        let (number, of) = exercise.which();
        assert_eq!(
            (of, number),
            (
                count,
                exercise
                    .paper()
                    .iter()
                    .position(|i| i.place == bench.turn())
                    .map_or(0, |n| u32::try_from(n).expect("few") + 1)
            )
        );
        if bench.which().0 == 1 {
            met.push(bench.task().kind);
        }
        let (keep, over) = play((&catalogue, &mut exercise, &mut bench), true);
        assert_eq!(saved(&keep), 1, "each is saved as it comes");
        assert!(matches!(keep[0], Keep::Append(_)));
        if over {
            break;
        }
    }
    met.sort_unstable_by_key(|kind| kind.word());
    let mut wanted = kinds;
    wanted.sort_unstable_by_key(|kind| kind.word());
    assert_eq!(met, wanted);
    let judged = exercise.judged(&catalogue);
    assert_eq!(judged.outcome, Outcome::Done);
    assert_eq!((judged.score.answered, judged.score.right), (count, count));
    assert_eq!(exercise.sitting().end, End::Done);
}

#[test]
fn a_check_tells_and_saves_nothing_until_its_end() {
    let check = set(vec![portion("micrometer-metric", &[Kind::Read])], 4, Some(Pass::Right(3)));
    let (catalogue, mut exercise, mut bench) = begin(check);
    assert_eq!(exercise.sitting().purpose, Purpose::SelfTest, "no card was issued");
    for rightly in [true, false, true] {
        assert!(exercise.is_silent());
        let (keep, over) = play((&catalogue, &mut exercise, &mut bench), rightly);
        assert!(!over && saved(&keep) == 0 && keep.len() == 1, "{keep:?}");
        assert_eq!(exercise.judged(&catalogue).outcome, Outcome::Open);
    }
    let (keep, over) = play((&catalogue, &mut exercise, &mut bench), true);
    assert!(over && saved(&keep) == 4, "{keep:?}");
    assert!(!exercise.is_silent());
    let judged = exercise.judged(&catalogue);
    assert_eq!((judged.outcome, judged.score.right, judged.fine), (Outcome::Passed, 3, 1));
    let wrong = exercise.sitting().entries.iter().find(|entry| !entry.attempt.verdict.is_right());
    let back = exercise.look_back(&catalogue, wrong.expect("one was")).expect("it can be looked at");
    let Stand::Told(told) = back.stand() else { panic!("it is told") };
    assert_eq!(back.part().given_word(&told.given), wrong.expect("one was").attempt.answer);
    assert!(exercise.bench(&catalogue).is_none());
}

#[test]
fn a_sequential_check_ends_as_soon_as_it_is_decided() {
    let wald = Pass::Sequential { bad: 800, good: 950, lets_through: 50, turns_away: 50, least: 10 };
    let check = || set(vec![portion("caliper-metric-50", &[Kind::Read])], 60, Some(wald));
    // 18 right ones in a row, or 3 wrong ones of the least number: see learner::plan.
    for (rightly, outcome, after) in
        [(true, Outcome::Passed, 18), (false, Outcome::NotYet(Why::TooFewRight), 10)]
    {
        let (catalogue, mut exercise, mut bench) = begin(check());
        let mut asked = 1;
        while !play((&catalogue, &mut exercise, &mut bench), rightly).1 {
            asked += 1;
        }
        assert_eq!((asked, exercise.judged(&catalogue).outcome), (after, outcome));
    }
}

#[test]
fn put_away_and_taken_up_it_goes_on_and_is_marked() {
    let kinds = [Kind::EstimateFirst, Kind::Read, Kind::Pair];
    let check = set(vec![portion("caliper-metric-50", &kinds)], 6, Some(Pass::Right(5)));
    let (catalogue, mut whole, mut bench) = begin(check.clone());
    let mut broken = whole.clone();
    let mut left = 0;
    broken.shown(Duration::from_secs(10));
    loop {
        // After every answer, in the middle of a question too.
        broken.hidden(Duration::from_secs(40));
        let text = broken.put_away(Duration::from_secs(99));
        broken = Exercise::read(&check, &catalogue, &text).expect("of this set");
        broken.shown(Duration::from_secs(10));
        left += 1;
        let mut again = broken.bench(&catalogue).expect("a question");
        assert_eq!((again.turn(), again.which()), (bench.turn(), bench.which()));
        assert!(again.part() == bench.part(), "another question, or another glass");
        let one = play((&catalogue, &mut whole, &mut bench), true);
        let other = play((&catalogue, &mut broken, &mut again), true);
        assert_eq!(one.1, other.1);
        if one.1 {
            break;
        }
    }
    assert_eq!(broken.sitting().entries, whole.sitting().entries);
    assert_eq!((whole.sitting().interruptions, broken.sitting().interruptions), (0, left));
    assert_eq!(broken.spent(Duration::from_secs(10)), Duration::from_secs(30 * u64::from(left)));
    let changed = DrillSet { revision: "r2".to_owned(), ..check };
    assert!(Exercise::read(&changed, &catalogue, &broken.put_away(Duration::ZERO)).is_none());
}

#[test]
fn the_time_is_an_argument_and_ends_it() {
    let timed = DrillSet {
        time: Some(300),
        ..set(vec![portion("rule-metric", &[Kind::Read])], 5, Some(Pass::Right(4)))
    };
    let (catalogue, mut exercise, mut bench) = begin(timed);
    exercise.shown(Duration::from_secs(7));
    assert_eq!(exercise.left(Duration::from_secs(67)), Some(Duration::from_mins(4)));
    play((&catalogue, &mut exercise, &mut bench), true);
    assert_eq!(exercise.left(Duration::from_secs(400)), Some(Duration::ZERO));
    let keep = exercise.end(End::TimeUp, NOW);
    assert_eq!(saved(&keep), 1);
    assert_eq!(exercise.judged(&catalogue).outcome, Outcome::NotYet(Why::TimeUp));
    assert!(exercise.end(End::Left, NOW).is_empty(), "it ends once");
    assert!(
        exercise.act(&mut bench, &catalogue, Act::Skip(noted())).is_empty(),
        "and nothing is answered after"
    );
}

#[test]
fn what_is_passed_over_counts_and_no_glass_is_opened_where_it_is_forbidden() {
    let strict = DrillSet {
        glass: Allowed::No,
        ..set(vec![portion("caliper-metric-20", &[Kind::Read])], 2, Some(Pass::Right(2)))
    };
    let (catalogue, mut exercise, mut bench) = begin(strict);
    exercise.act(&mut bench, &catalogue, Act::Glass);
    let keep = exercise.act(&mut bench, &catalogue, Act::Skip(noted()));
    let [Keep::Append(entry)] = &keep[..] else { panic!("{keep:?}") };
    assert!(!entry.attempt.glass && entry.attempt.answer.is_empty());
    let On::Next(next) = exercise.go_on(&mut bench, &catalogue, NOW) else { panic!("one of two") };
    bench = *next;
    play((&catalogue, &mut exercise, &mut bench), true);
    let judged = exercise.judged(&catalogue);
    assert_eq!((judged.passed_over, judged.outcome), (1, Outcome::NotYet(Why::TooFewRight)));
}

#[test]
fn a_given_setting_stands_in_its_record_as_given() {
    let mut fixed = portion("micrometer-metric", &[Kind::Read]);
    fixed.readings = vec![Given { reading: Exact::ratio(734, 100), zero_error: Exact::whole(0) }];
    let (catalogue, mut exercise, mut bench) = begin(set(vec![fixed], 2, None));
    let mut met = Vec::new();
    for _ in 0..2 {
        let (keep, _) = play((&catalogue, &mut exercise, &mut bench), true);
        let Keep::Append(entry) = &keep[0] else { panic!("an answer") };
        met.push((entry.attempt.generator, entry.attempt.setting == "7.34 mm"));
    }
    met.sort_unstable();
    assert_eq!(met, [(GENERATOR, false), (FIXED_GENERATOR, true)]);
}

#[test]
fn what_is_not_there_is_not_begun() {
    let gone = set(vec![portion("micrometer-of-brackwater", &[Kind::Read])], 2, None);
    let missing = Exercise::begin(gone, &catalogue(), whose()).err();
    assert_eq!(missing, Some(Missing::Instrument("micrometer-of-brackwater".to_owned())));
    let odd = set(vec![portion("rule-metric", &[Kind::OneStep])], 2, None);
    assert_eq!(Exercise::begin(odd, &catalogue(), whose()).err(), Some(Missing::Question(1)));
}

/// Thirty readings: a setting comes again in half of them, or the test would say nothing.
#[test]
fn what_comes_again_is_held_against_the_first_reading() {
    let again = DrillSet {
        order: Order::Blocked,
        ..set(vec![portion("caliper-metric-50", &[Kind::SameAgain])], 30, None)
    };
    let (catalogue, mut exercise, mut bench) = begin(again);
    let mut compared = 0;
    loop {
        if let Asked::Again { of, answered } = &bench.part().asked {
            let first = exercise.sitting().entries.iter().find(|entry| entry.attempt.number == *of);
            let answered = answered.as_ref().map(|typed| typed.text.as_str());
            assert_eq!(answered, first.map(|entry| entry.attempt.answer.as_str()));
            compared += 1;
        }
        if play((&catalogue, &mut exercise, &mut bench), true).1 {
            break;
        }
    }
    assert!(compared >= 5, "{compared}");
}

//! Killed without warning, and two at once: whatever was marked on screen is on record.

use crate::shop::Shop;
use rustix::process::Signal;

const TURNS: u64 = 25;

#[test]
fn what_was_marked_is_on_record_when_it_is_killed() {
    let shop = Shop::new();
    for turn in 1..=TURNS {
        let trainer = shop.start(&["practice", "caliper-metric-20"]);
        trainer.answers_wrong();
        trainer.signal(Signal::KILL);
        let status = trainer.ends();
        assert!(!status.success());
        assert_eq!(shop.record("caliper-metric-20"), (turn, 0));
    }
    let doctor = shop.asks(&["doctor", "--json"]);
    assert_eq!(doctor["record"]["problem"], serde_json::Value::Null, "{doctor}");
    // The next start goes on: every question was asked once.
    let trainer = shop.start(&["practice", "caliper-metric-20"]);
    trainer.sees(&format!("question {}", TURNS + 1));
}

#[test]
fn two_at_once_lose_nothing() {
    let shop = Shop::new();
    // The first start of all is among what they do at the same time.
    let each = |instrument: &'static str| {
        let trainer = shop.start(&["practice", instrument]);
        for turn in 1..=TURNS {
            trainer.sees(&format!("question {turn}"));
            trainer.answers_wrong();
            trainer.types("n");
        }
        trainer.sees(&format!("question {}", TURNS + 1));
        trainer.leaves();
    };
    std::thread::scope(|scope| {
        let all = ["rule-metric", "rule-inch-64"].map(|instrument| scope.spawn(move || each(instrument)));
        for one in all {
            one.join().expect("it comes to its end");
        }
    });
    assert_eq!(shop.record("rule-metric"), (TURNS, 0));
    assert_eq!(shop.record("rule-inch-64"), (TURNS, 0));
}

#[test]
fn two_at_the_same_instrument() {
    let shop = Shop::new();
    let one = shop.start(&["practice", "rule-metric"]);
    one.comes_to_question();
    let other = shop.start(&["practice", "rule-metric"]);
    for _ in 0..5 {
        for trainer in [&one, &other] {
            trainer.answers_wrong();
            trainer.types("n");
            trainer.no_longer_sees("next question");
        }
    }
    one.leaves();
    other.leaves();
    assert_eq!(shop.record("rule-metric"), (10, 0));
}

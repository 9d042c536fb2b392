//! What there is to do today: said, begun, left, taken up again, done.

use super::script::{Script, TODAY};
use linefall::drill::record::{Asks, Attempt, Verdict, View};
use linefall::drill::{GENERATOR, Kind};
use linefall::exact::Exact;
use linefall::tui::model::{Record, Screen};
use linefall::tui::update::Effect;

/// Ten readings on a metric micrometer, the first `missed` of them half lines missed.
fn readings(date: &str, missed: u32) -> Vec<Attempt> {
    (0..10)
        .map(|n| Attempt {
            learner: "me".to_owned(),
            at: format!("{date}T07:30:00Z"),
            instrument: "micrometer-metric".to_owned(),
            revision: "5f1c".to_owned(),
            generator: GENERATOR,
            seed: 7,
            number: n + 1,
            variant: String::new(),
            conditions: String::new(),
            kind: Kind::Read,
            given: String::new(),
            asks: Asks::Reading,
            setting: format!("{n}.70 mm"),
            zero_error: "0.00 mm".to_owned(),
            view: View::Held,
            glass: false,
            lines: "thin".to_owned(),
            cols: 80,
            rows: 24,
            answer: format!("{n}.{}0", if n < missed { 2 } else { 7 }),
            expected: format!("{n}.70 mm"),
            verdict: if n < missed { Verdict::Misread } else { Verdict::Right },
            misreads: if n < missed { vec!["half-line-missed".to_owned()] } else { Vec::new() },
            took_ms: 6_000,
        })
        .collect()
}

/// The round as it was last put away.
fn put_away(effects: &[Effect]) -> Option<String> {
    effects.iter().rev().find_map(|effect| match effect {
        Effect::Remember(key, text) if key == "round/me" => Some(text.clone()),
        _ => None,
    })
}

fn answer(script: &mut Script) {
    while !script.text().contains("Answer:") {
        script.keys("\n");
    }
    let right = script.right_answer();
    script.keys(&right);
    script.keys("\n");
    script.written_down();
}

#[test]
fn nothing_is_said_before_the_first_reading() {
    let mut script = Script::home(80, 24);
    let before = script.text();
    script.loaded(&[], None);
    assert_eq!(before, script.text());
}

#[test]
fn yesterdays_weak_step_is_what_enter_starts() {
    let mut script = Script::home(80, 24);
    script.loaded(&readings("2026-03-08", 2), None);
    script.sees("Today: outside micrometer, 0-25 mm, half lines (missed twice yesterday)");
    script.sees("Two minutes, 10 readings; Enter begins.");
    script.keys("\n");
    script.sees("reading 1 of 10");
    // The first one is chosen where a half line shows.
    let tool = script.screen().run.tool();
    let hundredths = tool.value(script.question().setting) * Exact::whole(100);
    let half = hundredths.numerator().div_euclid(hundredths.denominator()).rem_euclid(100) >= 50;
    assert!(half, "{:?}", script.question().setting);
    for n in 1..10 {
        answer(&mut script);
        script.sees(&format!("reading {n} of 10   {n} of {n} right"));
        script.keys("n");
    }
    answer(&mut script);
    script.keys("n");
    script.sees("The round is done: 10 of 10 right.");
    assert!(matches!(script.model.screen(), Screen::Home { .. }));
    assert_eq!(put_away(&script.take_effects()).as_deref(), Some(""));
}

#[test]
fn a_round_goes_on_where_it_was_left() {
    let attempts = readings("2026-03-08", 2);
    let mut script = Script::home(80, 24);
    script.loaded(&attempts, None);
    script.keys("\n");
    answer(&mut script);
    script.keys("n");
    let left = script.text();
    let text = put_away(&script.take_effects()).expect("it is put away with every question");
    script.press("Esc");
    script.sees("Today: go on with the round, 1 of 10 read");
    // In this program, and in the next one.
    script.keys("\n");
    assert_eq!(left, script.text());
    let mut later = Script::home(80, 24);
    later.loaded(&attempts, Some(text.clone()));
    later.keys("\n");
    assert_eq!(left, later.text());
    // Another day it is another round.
    let mut tomorrow = Script::home(80, 24);
    tomorrow.loaded(&attempts, Some(text.replace("\"day\":", "\"day\":1")));
    tomorrow.sees("missed twice yesterday");
}

#[test]
fn what_was_missed_comes_back_in_the_round() {
    let mut script = Script::home(80, 24);
    script.loaded(&readings("2026-03-08", 2), None);
    script.keys("\n");
    while !script.text().contains("Answer:") {
        script.keys("\n");
    }
    let missed = script.question().setting;
    script.keys("0.0099\n");
    script.written_down();
    script.sees("reading 1 of 12");
    script.keys("n");
    for _ in 0..3 {
        answer(&mut script);
        script.keys("n");
    }
    assert_eq!(script.question().setting, missed);
}

#[test]
fn the_arrows_go_between_today_and_the_list() {
    let mut script = Script::home(80, 24);
    script.loaded(&readings("2026-03-08", 2), None);
    script.press("Down");
    script.keys("\n");
    // The list's own line: practice on one instrument as ever.
    let looked_up = script.take_effects().into_iter().any(|effect| matches!(effect, Effect::LookUp(_)));
    assert!(looked_up);
    script.press("Up");
    script.keys("\n");
    script.sees("reading 1 of 10");
}

#[test]
fn after_a_long_pause_a_refresher_and_after_good_work_rest() {
    let mut script = Script::home(80, 24);
    script.loaded(&readings("2026-01-08", 0), None);
    script.sees("Today: a refresher, after 60 days without a reading");
    let mut script = Script::home(80, 24);
    let all: Vec<Attempt> = readings(TODAY, 0);
    script.loaded(&all, None);
    // Everything but the zero, which was never off, has had its run today.
    script.sees("allowing for zero (due again)");
}

/// A vernier micrometer laid flat in so few columns is refused; the round goes on with what can be drawn.
#[test]
fn what_cannot_be_drawn_here_is_passed_over() {
    let mut attempts = readings("2026-03-08", 2);
    let microns = readings("2026-03-08", 0).into_iter();
    attempts.extend(microns.map(|one| Attempt { instrument: "micrometer-metric-microns".to_owned(), ..one }));
    for size in [(80, 24), (160, 45)] {
        let mut script = Script::home(size.0, size.1);
        script.model.view = linefall::scene::View::Flat;
        script.loaded(&attempts, None);
        script.keys("\n");
        let mut read = 0;
        while matches!(script.model.screen(), Screen::Practice(_)) {
            assert!(!script.text().contains("cannot be drawn truly"), "{}", script.text());
            answer(&mut script);
            script.keys("n");
            read += 1;
        }
        assert!(read > 0 && read <= 10, "{read}");
    }
}

#[test]
fn private_is_said_on_every_screen() {
    for size in [(80, 24), (160, 45)] {
        let mut script = Script::home(size.0, size.1);
        script.model.record = Record::Private;
        script.sees("Private: nothing of this session is kept.");
        script.sees(" private");
        for instrument in ["caliper-inch-25", "micrometer-inch-tenths"] {
            let mut script = Script::practice(instrument, size.0, size.1);
            script.model.record = Record::Private;
            script.until_corrected();
            for key in ["Esc back", "? help"] {
                let bar = script
                    .text()
                    .lines()
                    .last()
                    .unwrap_or_default()
                    .split_whitespace()
                    .collect::<Vec<_>>()
                    .join(" ");
                assert!(bar.contains(key) && bar.ends_with("private"), "{bar}");
            }
            script.keys("\n1\n");
            script.written_down();
            script.sees(" private");
            script.press("F2");
            script.sees(" private");
        }
    }
}

#[test]
fn the_progress_screen_says_how_readings_stand() {
    let mut script = Script::home(80, 24);
    // The two that were missed come last, so that nothing has repaired them since.
    let mut attempts = readings("2026-03-08", 2);
    attempts.rotate_left(2);
    script.loaded(&attempts, None);
    script.keys("p");
    script.sees("right 8 of 10 so far, 2 gross slips");
    script.sees("no repeats yet");
    script.sees("6.0 s (not counted");
    script.sees("still: half line missed");
    script.sees("each bar 10 readings");
}

/// Later in the day a round has questions of other kinds between its readings; each counts as one, however many parts it has.
#[test]
fn a_long_round_has_questions_of_other_kinds() {
    let mut script = Script::home(100, 30);
    script.loaded(&readings("2026-03-09", 2), None);
    script.sees("24 readings and 4 other questions");
    script.keys("\n");
    let (mut others, mut left) = (0, false);
    for _ in 0..200 {
        match script.model.screen() {
            Screen::Home { .. } => break,
            Screen::Bench(bench) => {
                let place = bench.sitting.as_ref().expect("a question of the round").score().0 + 1;
                script.sees(&format!("question {place} of "));
                if !left {
                    // Left and taken up again it is the same question.
                    left = true;
                    let before = script.text();
                    script.press("Esc");
                    script.sees("Today: go on with the round");
                    script.keys("\n");
                    assert_eq!(before, script.text());
                }
                script.keys("s");
                script.written_down();
                let (part, parts) = script.at_bench().run.which();
                others += u32::from(part == parts);
                script.keys("n");
            }
            _ => {
                answer(&mut script);
                script.keys("n");
            }
        }
    }
    assert_eq!(others, 4);
    script.sees("The round is done: 24 of 28 right.");
}

//! What a learner does from the first start on.

use crate::driver::text;
use crate::shop::{FIELD, Shop};
use rustix::process::Signal;

/// The top of the open glass.
const GLASS: &str = "\u{2500} glass \u{2500}";

#[test]
fn from_the_first_start_on() {
    let shop = Shop::new();
    let first = shop.start(&[]);
    // No question about a name, a level or a colour comes before the first reading.
    first.comes_to_question();
    first.sees("question 1\n");
    // What is remembered waits for the first frame; a key is taken after it.
    first.types("?");
    first.sees("Help:");
    first.types("\x1b");
    first.no_longer_sees("Help:");

    let right = shop.right_answer("micrometer-metric");
    let verdict = first.answers_wrong();
    assert!(verdict.starts_with("x 0.0099: Not that"), "{verdict}");
    assert!(verdict.contains(&format!(" {right} mm.")), "{verdict} is not {right}");
    assert_eq!(shop.record("micrometer-metric"), (1, 0));
    first.types("\r");
    first.sees("sleeve: ");
    first.types("n");
    first.sees("question 2");

    first.comes_to_question();
    let right = shop.right_answer("micrometer-metric");
    let verdict = first.answers(&right);
    assert!(verdict.starts_with(&format!("\u{2713} {right}: Right: {right} mm.")), "{verdict}");
    assert_eq!(shop.record("micrometer-metric"), (2, 1));
    first.types("n");
    first.sees("question 3");
    first.sees("1 of 2 right");
    first.comes_to_question();
    let third = first.sees(FIELD);
    first.types("\x1b");
    let home = first.sees("Choose an instrument");
    assert!(!home.contains("question 3"), "{home}");
    first.sees("1 of 2 right");
    first.leaves();

    let again = shop.start(&[]);
    let home = again.sees("1 of 2 right");
    assert!(home.contains("Choose an instrument") && home.contains("not tried yet"), "{home}");
    again.types("p");
    again.sees("Progress: me");
    again.sees("50 %");
    again.types("\x1b");
    again.no_longer_sees("Progress: me");
    // Below what there is to do today stands the instrument read last.
    again.sees("Today: ");
    again.types("\x1b[B");
    again.types("\r");
    again.comes_to_question();
    // The count of this start is new, the question is the one that was left.
    let wanted = third.replace("question 3   1 of 2 right", &format!("{:>25}", "question 3"));
    again.is(&wanted);
    again.types("\x1b");
    again.sees("Choose an instrument");
    again.leaves();
}

#[test]
fn glass_and_window() {
    let shop = Shop::new();
    // Not turned, where the glass has no line to the right of the 0, nor so fine that a glass is open at once.
    shop.begins_plainly("caliper-inch-25");
    let trainer = shop.start(&["practice", "caliper-inch-25"]);
    trainer.comes_to_question();
    let whole = trainer.sees(FIELD);
    trainer.types("\x1b[A");
    let glass = trainer.sees(GLASS);
    assert_ne!(whole, glass);
    trainer.types("\x1b[C");
    trainer.until("the glass slid", |screen| {
        (text(screen) != glass && text(screen).contains(GLASS)).then_some(())
    });
    trainer.types("\x1b[H");
    trainer.is(&glass);
    trainer.types("\x1b[B");
    trainer.until("a weaker glass", |screen| (text(screen) != glass).then_some(()));
    trainer.types("\x1b[B");
    trainer.is(&whole);

    trainer.types("0.1");
    trainer.sees("Answer: 0.1\n");
    trainer.resize(60, 20);
    trainer.until("one line", |screen| {
        (text(screen).trim() == "Linefall needs 80x24; this is 60x20.").then_some(())
    });
    trainer.resize(80, 24);
    trainer.is(&whole.replace("Answer:\n", "Answer: 0.1\n"));
    trainer.until("the cursor in the field", |screen| {
        let (row, col) = screen.cursor_position();
        (!screen.hide_cursor() && (row, col) == (21, 12)).then_some(())
    });
    trainer.types("\x15");
    trainer.is(&whole);
    trainer.leaves();
}

/// The size told by the terminal and the size last heard of may differ for a moment.
#[test]
fn a_storm_of_sizes() {
    let shop = Shop::new();
    let trainer = shop.start(&["practice", "micrometer-inch-tenths"]);
    trainer.comes_to_question();
    let calm = trainer.sees(FIELD);
    for turn in 0_u16..400 {
        trainer.resize(1 + turn * 37 % 300, 1 + turn * 23 % 120);
        // Every key draws, whether the new size has been heard of or not.
        trainer.types("\x15");
    }
    trainer.resize(80, 24);
    trainer.is(&calm);
    trainer.signal(Signal::TERM);
    trainer.ends();
}

/// A key that came before the word on the new size.
#[test]
fn a_key_in_a_window_already_smaller() {
    let shop = Shop::new();
    let trainer = shop.start(&["practice", "micrometer-inch-tenths"]);
    trainer.comes_to_question();
    let calm = trainer.sees(FIELD);
    for (cols, rows) in [(200, 60), (81, 60), (200, 25), (300, 100)] {
        trainer.resize(cols, rows);
        trainer.until("a larger picture", |screen| {
            let text = text(screen);
            (text.contains(FIELD) && text != calm).then_some(())
        });
        trainer.signal(Signal::STOP);
        trainer.types("\x15\x15");
        trainer.resize(80, 24);
        trainer.signal(Signal::CONT);
        trainer.is(&calm);
    }
    trainer.leaves();
}

/// Keys and a new size at the same moment: neither is passed over.
#[test]
fn a_key_together_with_a_new_size() {
    let shop = Shop::new();
    let trainer = shop.start(&["practice", "micrometer-metric"]);
    trainer.comes_to_question();
    for turn in 0..40 {
        trainer.signal(Signal::STOP);
        trainer.types("7");
        trainer.resize(80 + turn, 24);
        trainer.signal(Signal::CONT);
        trainer.sees("Answer: 7\n");
        trainer.types("\x7f");
        trainer.sees("Answer:\n");
    }
    trainer.leaves();
}

/// Nothing is written: not the answer, not the place in the run, not the folder.
#[test]
fn a_private_session_leaves_nothing() {
    let shop = Shop::new();
    let private = shop.start(&["--private"]);
    private.comes_to_question();
    private.sees("private");
    private.answers_wrong();
    private.types("\x1b");
    // It counts for this session, and what there is to do is said from it.
    private.sees("0 of 1 right");
    private.sees("Today: ");
    private.sees("Private: nothing of this session is kept.");
    private.leaves();
    assert!(!shop.data().exists());
}

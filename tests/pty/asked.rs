//! Terminals that answer what they are asked, late ones and silent ones.

use crate::driver::Driver;
use crate::shop::{FIELD, Shop};
use crate::terminal::Manners;

const MICROMETER: [&str; 2] = ["practice", "micrometer-inch"];

/// The line style that was found for the terminal, and is kept for it.
fn lines_kept(shop: &Shop) -> Option<String> {
    shop.setting("lines/xterm-256color/")
}

/// Types into an empty field and sees that nothing else is in it.
fn only_what_is_typed(trainer: &Driver) {
    trainer.types("1.5");
    trainer.sees(&format!("{FIELD} 1.5\n"));
}

#[test]
fn a_named_terminal_gets_thin_lines() {
    let shop = Shop::new();
    let trainer = shop.start(&MICROMETER);
    trainer.comes_to_question();
    assert_eq!(lines_kept(&shop).as_deref(), Some("thin"));
    only_what_is_typed(&trainer);
}

/// Asking ends by itself: nothing but time passes between the questions and the first frame.
#[test]
fn a_silent_terminal_is_not_waited_for() {
    let shop = Shop::new();
    let trainer = shop.start_with(&MICROMETER, &[], Manners::Silent);
    trainer.is_asked();
    trainer.comes_to_question();
    assert_eq!(lines_kept(&shop).as_deref(), Some("bars"));
    only_what_is_typed(&trainer);
}

#[test]
fn a_late_answer_is_not_typed() {
    let shop = Shop::new();
    let trainer = shop.start_with(&MICROMETER, &[], Manners::Late);
    trainer.comes_to_question();
    let before = trainer.sees(FIELD);
    trainer.answer_late();
    only_what_is_typed(&trainer);
    trainer.types("\x15");
    trainer.is(&before);
    // Nor does it keep anybody from typing later.
    assert!(trainer.answers("2.5").contains(" 2.5: "));
    trainer.leaves();
}

/// The first letters of a late answer would mean something on these screens.
#[test]
fn a_late_answer_is_no_command() {
    let shop = Shop::new();
    shop.start(&MICROMETER).answers_wrong();
    let trainer = shop.start_with(&[], &[("TERM", "xterm")], Manners::Late);
    trainer.sees("Choose an instrument");
    let home = trainer.sees("0 of 1 right");
    trainer.answer_late();
    trainer.types("?none");
    trainer.sees("? none ");
    trainer.types("\x1b");
    trainer.is(&home);
    trainer.leaves();
    assert_eq!(shop.setting("theme"), None);
}

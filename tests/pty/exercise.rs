//! A check in a real terminal: begun, left, taken up, its end.

use crate::shop::{FIELD, Shop};

/// Four readings that everybody is given.
const SET: &str = r#"set = "brackwater-trial"
title = "A trial of four readings"
count = 4
order = "blocked"
pass = "3 of 4"
time = "2 min"

[[questions]]
instrument = "micrometer-metric"
zero = "never"
conditions = "never"
readings = ["7.34 mm", "12.50 mm", "3.86 mm", "0.98 mm"]
"#;

#[test]
fn a_check_is_left_and_goes_on_in_the_next_start() {
    let shop = Shop::new();
    std::fs::create_dir_all(shop.data().join("exercises")).expect("a folder");
    std::fs::write(shop.data().join("exercises/trial.toml"), SET).expect("a set");
    let first = shop.start(&["skills-check", "brackwater-trial"]);
    first.sees("A self-test: the form of a skills check, for yourself.");
    first.types("\r");
    // The clock goes by seconds now, and on its own.
    first.sees("1 of 4   1:5");
    let shown = first.sees(FIELD);
    assert!(!shown.contains("7.34"), "{shown}");
    first.types("7.34\r");
    first.sees("2 of 4");
    first.sees("1:");
    first.types("12.00\r");
    let third = first.sees("3 of 4");
    assert!(!third.contains("Not that") && !third.contains("12.50"), "{third}");
    first.types("\x1b");
    first.sees("Esc once more leaves it");
    first.types("\x1b");
    first.sees("Choose an instrument");
    first.types("x");
    first.sees("Exercises and checks");
    first.types("\x1b");
    first.sees("Choose an instrument");
    first.leaves();

    let again = shop.start(&["skills-check", "brackwater-trial"]);
    again.sees("Left at question 3 of 4; it goes on there.");
    again.types("\r");
    again.sees("3 of 4");
    again.types("3.86\r");
    again.sees("4 of 4");
    again.types("0.98\r");
    let end = again.sees("Self-test: passed");
    assert!(end.contains("3 of 4 right: a reader who is right in 30 to 95 of 100"), "{end}");
    again.sees("It was left once and taken up again.");
    again.types("w");
    again.sees("The page was written:");
    again.types("\r");
    again.sees("question 2   1 of 1 that went wrong");
    again.types("\x1b");
    again.sees("Self-test: passed");
    again.leaves();
    let pages = std::fs::read_dir(shop.data()).expect("the folder").filter_map(Result::ok);
    let page = pages.map(|entry| entry.path()).find(|path| path.extension().is_some_and(|end| end == "txt"));
    let page = std::fs::read_to_string(page.expect("a page")).expect("text");
    assert!(page.contains("PASSED") && page.contains("once, and taken up again"), "{page}");
    assert_eq!(shop.record("micrometer-metric"), (4, 3));
}

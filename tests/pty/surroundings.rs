//! What the environment wishes, and a folder that nothing can be kept in.

use crate::shop::{FIELD, Shop};
use crate::terminal::Manners;
use std::fs;

/// The parameters of every sequence that sets colours or weights.
fn renditions(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(bytes);
    let mut found = Vec::new();
    for part in text.split("\x1b[").skip(1) {
        let end = part.find(|c: char| !c.is_ascii_digit() && c != ';' && c != ':').unwrap_or(part.len());
        if part[end..].starts_with('m') {
            found.push(part[..end].to_owned());
        }
    }
    found
}

/// A colour other than the terminal's own.
fn is_colour(rendition: &str) -> bool {
    let mut numbers = rendition.split([';', ':']).filter_map(|number| number.parse::<u16>().ok());
    numbers.any(|number| matches!(number, 30..=38 | 40..=48 | 58 | 90..=97 | 100..=107))
}

/// Goes through all screens and leaves; gives what was written.
fn tour(environment: &[(&str, &str)]) -> (Vec<u8>, Vec<String>) {
    let shop = Shop::new();
    let trainer = shop.start_with(&[], environment, Manners::Named);
    trainer.comes_to_question();
    let mut screens = vec![trainer.sees(FIELD)];
    trainer.answers_wrong();
    screens.push(trainer.sees("Not that"));
    let steps = [
        ("n", "question 2"),
        ("?", "type to filter"),
        ("\x1b", "question 2"),
        ("\x1b", "Choose an instrument"),
        ("p", "Progress: me"),
        ("l", "Which one looks right?"),
        ("\x1b", "Progress: me"),
        ("\x1b", "Choose an instrument"),
    ];
    for (keys, wanted) in steps {
        trainer.types(keys);
        screens.push(trainer.sees(wanted));
        if keys == "\x1b" {
            trainer.no_longer_sees("type to filter");
        }
    }
    trainer.leaves();
    (trainer.bytes(), screens)
}

#[test]
fn no_colour_where_none_is_wanted() {
    let (bytes, _) = tour(&[("NO_COLOR", "1")]);
    let coloured: Vec<String> = renditions(&bytes).into_iter().filter(|one| is_colour(one)).collect();
    assert!(coloured.is_empty(), "{coloured:?}");
    let (bytes, _) = tour(&[]);
    assert!(renditions(&bytes).iter().any(|one| is_colour(one)), "with colours there are some");
}

#[test]
fn plain_characters_on_a_plain_terminal() {
    for environment in [("TERM", "dumb"), ("LANG", "C")] {
        let (_, screens) = tour(&[environment]);
        // On the practice screen all but the key bar is picture and text.
        for screen in &screens[..2] {
            let bar = screen.lines().count() - 1;
            for line in screen.lines().take(bar).filter(|line| !line.contains("Not that")) {
                assert!(line.is_ascii(), "{environment:?}: {line}");
            }
        }
    }
}

#[test]
fn a_folder_that_nothing_can_be_kept_in() {
    let shop = Shop::new();
    fs::write(shop.data(), "a file stands where the folder should be").expect("a file");
    let trainer = shop.start(&[]);
    trainer.comes_to_question();
    trainer.sees("Nothing can be kept: ");
    trainer.answers_wrong();
    trainer.sees("Not saved: ");
    trainer.types("n");
    trainer.sees("question 2");
    trainer.answers_wrong();
    trainer.types("\x1b");
    trainer.sees("Choose an instrument");
    trainer.sees("Nothing can be kept: ");
    trainer.types("q");
    let status = trainer.ends();
    assert_eq!(status.exit_code(), 3, "{status:?}");
    let screen = trainer.sees("linefall: 2 answers could not be kept: ");
    assert!(!screen.contains("broke off"), "{screen}");
}

/// A stick pulled out and put back. What is claimed to be kept, or not to be, must be so.
#[test]
fn a_record_that_goes_away_meanwhile() {
    let shop = Shop::new();
    let trainer = shop.start(&["practice", "rule-metric"]);
    trainer.answers_wrong();
    fs::rename(shop.data(), shop.home().join("elsewhere")).expect("a folder can be moved");
    trainer.types("n");
    trainer.answers("0.5");
    trainer.sees("Not saved: ");
    fs::rename(shop.home().join("elsewhere"), shop.data()).expect("and moved back");
    // With the next answer the one before is written down as well.
    trainer.types("n");
    trainer.answers("0.25");
    trainer.no_longer_sees("Not saved: ");
    trainer.leaves();
    assert_eq!(shop.record("rule-metric"), (3, 0));
}

//! Every way out leaves the terminal as it was, and what was answered before is on record.

use crate::child::Kept;
use crate::shop::{FIELD, Shop};
use crate::terminal::Manners;
use rustix::process::Signal;
#[cfg(target_os = "linux")]
use rustix::{
    event::{PollFd, PollFlags, Timespec, poll},
    process::{PidfdFlags, kill_process, pidfd_open},
};

#[derive(Clone, Copy)]
enum Place {
    Home,
    Asking,
    Answered,
    Help,
    Strip,
    Progress,
}

const PLACES: [Place; 6] =
    [Place::Home, Place::Asking, Place::Answered, Place::Help, Place::Strip, Place::Progress];

impl Place {
    /// Goes there from an answered question.
    fn go(self, kept: &Kept) {
        let trainer = &kept.driver;
        match self {
            Self::Home => {
                trainer.types("\x1b");
                trainer.sees("Choose an instrument");
            }
            Self::Asking => {
                trainer.types("n");
                trainer.sees("question 2");
                trainer.comes_to_question();
                trainer.types("4.2");
                trainer.sees(&format!("{FIELD} 4.2"));
            }
            Self::Answered => {}
            Self::Help => {
                trainer.types("?th");
                trainer.sees("? th");
            }
            Self::Strip => {
                trainer.types("l");
                trainer.sees("Which one looks right?");
            }
            Self::Progress => {
                trainer.types("p");
                trainer.sees("Progress: me");
            }
        }
    }
}

/// Starts, answers once, goes to a place and leaves by `way`.
fn leaves(place: Place, how: &str, way: impl Fn(&Kept)) {
    let shop = Shop::new();
    let kept = Kept::trainer(&shop, &[], Manners::Named);
    kept.driver.answers_wrong();
    place.go(&kept);
    let before = &kept.driver.before;
    assert_ne!(*before, kept.driver.settings(), "the trainer takes keys as they come");
    way(&kept);
    kept.ends(how, before);
    assert_eq!(shop.record("micrometer-metric"), (1, 0));
}

fn by_signal(signal: Signal) {
    for place in PLACES {
        leaves(place, &format!("by signal {}", signal.as_raw()), |kept| kept.signal(signal));
    }
}

#[test]
fn by_term() {
    by_signal(Signal::TERM);
}

#[test]
fn by_hangup() {
    by_signal(Signal::HUP);
}

#[test]
fn by_interrupt() {
    by_signal(Signal::INT);
}

#[test]
fn by_quit() {
    by_signal(Signal::QUIT);
}

#[test]
fn by_keys() {
    for place in PLACES {
        leaves(place, "with code Some(0)", |kept| kept.driver.types("\x03"));
        leaves(place, "with code Some(0)", |kept| {
            match place {
                // While a text is typed a letter is text.
                Place::Asking => kept.driver.types("\x15"),
                Place::Help => kept.driver.types("\x1b"),
                _ => {}
            }
            kept.driver.no_longer_sees("? th");
            kept.driver.no_longer_sees(&format!("{FIELD} 4"));
            kept.driver.types("q");
        });
    }
}

#[test]
fn by_a_fault_of_its_own() {
    let shop = Shop::new();
    let kept = Kept::panicking(&shop);
    let screen = kept.ends("with code Some(101)", &kept.driver.before);
    assert!(screen.contains("a fault on purpose"), "{screen}");
    // It was on the other screen when it happened.
    let bytes = String::from_utf8_lossy(&kept.driver.bytes()).into_owned();
    let at = |text: &str| bytes.find(text).unwrap_or_else(|| panic!("{text:?} in {bytes:?}"));
    assert!(at("\x1b[?1049h") < at("\x1b[?1049l") && at("\x1b[?1049l") < at("a fault on purpose"));
}

/// A terminal that says nothing is waited for a while; a signal may come in that time.
#[test]
fn while_the_terminal_is_asked() {
    for signal in [Signal::TERM, Signal::INT] {
        let shop = Shop::new();
        let kept = Kept::trainer(&shop, &[], Manners::Silent);
        kept.driver.is_asked();
        kept.signal(signal);
        kept.ends(&format!("by signal {}", signal.as_raw()), &kept.driver.before);
    }
}

/// The window is closed: nobody is there any more.
#[test]
#[cfg(target_os = "linux")]
fn with_the_window() {
    let shop = Shop::new();
    // In a session of its own no signal tells it.
    for words in [shop.words(&[]), [vec!["setsid".to_owned()], shop.words(&["practice"])].concat()] {
        let kept = Kept::start(&shop, &words, &[], Manners::Named);
        kept.driver.answers_wrong();
        let pid = kept.pid();
        let program = pidfd_open(pid, PidfdFlags::empty()).expect("the program is there");
        kept.driver.close_window();
        let limit = Timespec { tv_sec: 20, tv_nsec: 0 };
        let mut watched = [PollFd::new(&program, PollFlags::IN)];
        let ended = poll(&mut watched, Some(&limit));
        if ended != Ok(1) {
            kill_process(pid, Signal::KILL).expect("it is still there");
        }
        assert_eq!(ended, Ok(1), "{} goes on without a window", words[0]);
    }
    assert_eq!(shop.record("micrometer-metric"), (2, 0));
}

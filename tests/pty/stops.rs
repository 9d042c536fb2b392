//! Stopped and continued by a shell that keeps jobs.

use crate::driver::{Driver, command};
use crate::shop::{FIELD, Shop, USUAL};
use crate::terminal::Manners;
use rustix::process::{Signal, kill_process};

/// Runs the trainer as a job; once it is stopped, a line brings it back to the front.
const SHELL: &str = "set -m; \"$@\"; echo \"[stopped $?]\"; read -r line; fg; echo \"[ended $?]\"; exec cat";
/// The same with a shell that puts the terminal to rights by itself.
const CAREFUL: &str = "set -m; was=$(stty -g); \"$@\"; stty \"$was\"; printf '\\033[?1049l\\033[?25h'; \
                       echo \"[stopped $?]\"; read -r line; fg; echo \"[ended $?]\"; exec cat";

fn in_a_shell(shop: &Shop, script: &str) -> Driver {
    let words = shop.words(&["practice", "micrometer-metric"]);
    let mut all = vec!["-c", script, "sh"];
    all.extend(words.iter().map(String::as_str));
    let shell = Driver::start(command("/bin/sh", &all, shop.home()), USUAL, Manners::Named);
    shell.comes_to_question();
    shell
}

#[test]
fn by_its_own_key() {
    let shop = Shop::new();
    let shell = in_a_shell(&shop, SHELL);
    let question = shell.sees(FIELD);
    shell.types("4.2");
    shell.sees("Answer: 4.2\n");
    let working = shell.settings();
    shell.types("\x1a");
    shell.sees("[stopped ");
    assert_eq!(shell.settings(), shell.before, "the settings of the terminal");
    shell.until("an ordinary screen", |screen| {
        (!screen.alternate_screen() && !screen.hide_cursor()).then_some(())
    });
    shell.types("\n");
    shell.is(&question.replace("Answer:\n", "Answer: 4.2\n"));
    assert_eq!(shell.settings(), working, "it takes keys as before");

    shell.types("\x15");
    shell.is(&question);
    assert!(shell.answers("5.5").contains("5.5: "));
    shell.types("q");
    shell.sees("[ended 0]");
    assert_eq!(shell.settings(), shell.before, "the settings of the terminal");
    assert_eq!(shop.record("micrometer-metric").0, 1);
}

#[test]
fn in_a_window_that_changes_meanwhile() {
    let shop = Shop::new();
    let shell = in_a_shell(&shop, SHELL);
    shell.types("\x1a");
    shell.sees("[stopped ");
    shell.resize(60, 20);
    shell.types("\n");
    shell.sees("this is 60x20.");
    shell.resize(100, 30);
    shell.sees(FIELD);
    kill_process(shell.foreground(), Signal::TERM).expect("the trainer is there");
    shell.sees("[ended 143]");
}

/// A stop that cannot be prepared for: whoever stopped it has put the terminal to rights since.
#[test]
fn from_outside() {
    let shop = Shop::new();
    let shell = in_a_shell(&shop, CAREFUL);
    let question = shell.sees(FIELD);
    let working = shell.settings();
    let job = shell.foreground();
    kill_process(job, Signal::STOP).expect("the trainer is there");
    shell.sees("[stopped ");
    assert_eq!(shell.settings(), shell.before, "the shell has put them right");
    shell.types("\n");
    shell.is(&question);
    assert_eq!(shell.settings(), working, "it takes keys as before");
    shell.types("q");
    shell.sees("[ended 0]");
    assert_eq!(shell.settings(), shell.before, "the settings of the terminal");
}

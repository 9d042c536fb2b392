//! Nothing happens while nothing happens.
#![cfg(target_os = "linux")]

use crate::driver::Driver;
use crate::shop::Shop;
use std::fs;
use std::time::Duration;

/// How long nothing must come.
const QUIET: Duration = Duration::from_millis(500);

/// How often the threads of the program have been put on a processor or have given one up.
fn switches(trainer: &Driver) -> u64 {
    let tasks = format!("/proc/{}/task", trainer.pid().as_raw_pid());
    let status =
        |task: fs::DirEntry| fs::read_to_string(task.path().join("status")).expect("a task's status");
    let switches = |status: String| -> u64 {
        let lines = status.lines().filter_map(|line| line.split_once("ctxt_switches:"));
        lines.map(|(_, count)| count.trim().parse::<u64>().expect("a number")).sum()
    };
    fs::read_dir(tasks).expect("the program runs").map(|task| switches(status(task.expect("a task")))).sum()
}

#[test]
fn no_byte_and_no_wake() {
    let shop = Shop::new();
    let trainer = shop.start(&["practice", "caliper-inch-25"]);
    trainer.comes_to_question();
    let screens: [(&str, &str); 4] =
        [("", "Answer:"), ("\x1b[A", "\u{2500} glass"), ("l", "Which one"), ("\x1b", "Answer:")];
    for (keys, wanted) in screens {
        trainer.types(keys);
        trainer.sees(wanted);
        // What belongs to the frame has come once nothing has come for a while; there is no end of it but this.
        let rests = (0..20).any(|_| trainer.stays_quiet(QUIET));
        assert!(rests, "bytes and no end after the frame of {wanted}");
        let before = switches(&trainer);
        assert!(trainer.stays_quiet(QUIET), "bytes while idle at {wanted}");
        assert_eq!(switches(&trainer), before, "wakes while idle at {wanted}");
    }
}

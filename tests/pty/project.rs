//! A round for a room in a real terminal: the only screen on which time goes on by itself.

use crate::shop::Shop;
use std::time::Duration;

#[test]
fn the_countdown_goes_on_by_itself_and_rests_when_it_is_over() {
    let shop = Shop::new();
    let args = [
        "project",
        "micrometer-inch",
        "--kind",
        "one-step",
        "--seconds",
        "2",
        "--minutes",
        "0",
        "--seed",
        "5",
    ];
    let round = shop.start(&args);
    round.sees("2 seconds each.");
    round.resize(60, 20);
    round.types("\x1b[6~");
    round.sees("Write it down.");
    round.sees("question 1 ");
    // No key comes; the time is up all the same, and the answer is not there.
    round.sees("Time is up. Hands up.");
    let rests = (0..20).any(|_| round.stays_quiet(Duration::from_millis(500)));
    assert!(rests, "bytes and no end after the time was up");
    assert!(round.stays_quiet(Duration::from_millis(1500)), "no countdown, no frames");
    round.types("\x1b[6~");
    round.no_longer_sees("Hands up.");
    round.sees("sleeve: ");
    round.types("\x1b[6~");
    round.sees("question 2 ");
    round.types("\x1b");
    round.sees("End of the round.");
    round.types("\x1b");
    assert!(round.ends().success());
}

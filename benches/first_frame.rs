//! Start to first frame: from before the program is started in a pseudo-terminal to its first frame at the other end.
//!
//! `cargo bench --bench first_frame` prints the median and the 99th percentile of 300 starts, line style already saved.
#![allow(missing_docs, clippy::print_stdout)]

use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::Path;
use std::time::{Duration, Instant};

const STARTS: usize = 300;

fn main() {
    // Cargo passes `--bench`; under `cargo test` there is nothing to measure.
    if !std::env::args().any(|arg| arg == "--bench") {
        return;
    }
    let data = tempfile::tempdir().expect("a folder");
    for (name, args, marker) in [
        ("practice", vec!["practice", "micrometer-metric"], "question"),
        // Only the very first start goes straight to a reading. Blank cells are not sent, so a marker is one word.
        ("the list", vec![], "Choose"),
    ] {
        for size in [(80, 24), (200, 60)] {
            // The first start finds the line style and saves it.
            for _ in 0..3 {
                start(data.path(), &args, size, marker, &End::Left);
            }
            let mut times: Vec<Duration> =
                (0..STARTS).map(|_| start(data.path(), &args, size, marker, &End::Killed)).collect();
            times.sort();
            println!(
                "first frame, {name}, {}x{}: median {:.2} ms, 99 % within {:.2} ms",
                size.0,
                size.1,
                ms(times[STARTS / 2]),
                ms(times[STARTS * 99 / 100])
            );
        }
    }
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

/// How a start ends.
#[derive(PartialEq)]
enum End {
    Killed,
    /// Left by its key, so that what is remembered after the first frame has been.
    Left,
}

fn start(data: &Path, args: &[&str], (cols, rows): (u16, u16), marker: &str, end: &End) -> Duration {
    let pair = native_pty_system()
        .openpty(PtySize { rows, cols, pixel_width: cols * 10, pixel_height: rows * 20 })
        .expect("a pseudo-terminal");
    let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_linefall"));
    command.env("TERM", "xterm-256color");
    command.env("LANG", "C.UTF-8");
    command.args(["--data-dir", &data.to_string_lossy()]);
    command.args(args);
    let mut reader = pair.master.try_clone_reader().expect("a reader");
    let began = Instant::now();
    let mut child = pair.slave.spawn_command(command).expect("the program starts");
    drop(pair.slave);
    let mut heard = Vec::new();
    let mut buffer = [0; 8192];
    let took = loop {
        let count = reader.read(&mut buffer).expect("the program writes");
        heard.extend_from_slice(&buffer[..count]);
        if String::from_utf8_lossy(&heard).contains(marker) {
            break began.elapsed();
        }
    };
    if *end == End::Left {
        pair.master.take_writer().expect("a writer").write_all(b"q").expect("a key can be typed");
        while matches!(child.try_wait(), Ok(None)) && matches!(reader.read(&mut buffer), Ok(1..)) {}
    } else {
        child.kill().expect("the program can be ended");
    }
    child.wait().expect("the program has ended");
    took
}

//! Every command in the README and on the instructor's page runs, but clone, install and the tests themselves.

use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::fs;
use std::io::{Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};

const PROGRAM: &str = env!("CARGO_BIN_EXE_linefall");

fn commands() -> Vec<Vec<String>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let pages = ["README.md", "assets/pages/teaching.md"]
        .map(|name| fs::read_to_string(root.join(name)).expect("a page"));
    pages
        .iter()
        .flat_map(|page| page.lines())
        .filter_map(|line| line.strip_prefix("    "))
        .map(|line| line.split_whitespace().map(str::to_owned).collect())
        .collect()
}

#[test]
fn the_two_commands_stand_in_it() {
    let commands: Vec<String> = commands().iter().map(|words| words.join(" ")).collect();
    for needed in ["cargo run --release", "cargo test"] {
        assert_eq!(commands.iter().filter(|command| *command == needed).count(), 1, "{needed}");
    }
}

#[test]
fn every_command_runs() {
    let work = tempfile::tempdir().expect("a folder");
    let data = work.path().join("data");
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut ran = 0;
    for words in commands() {
        match words[0].as_str() {
            // The trainer itself, run by cargo in the README; here it is the same binary.
            "cargo" if words[1] == "run" => full_screen(&[], &data),
            "cargo" => continue,
            "linefall"
                if words.len() == 1 || ["practice", "--private", "project"].contains(&words[1].as_str()) =>
            {
                full_screen(&words[1..], &data);
            }
            // A lesson that is printed is no full screen.
            "linefall"
                if words[1] == "walk"
                    && !words.iter().any(|word| word == "--text" || word == "--describe") =>
            {
                full_screen(&words[1..], &data);
            }
            "linefall" => line_mode(&words[1..], &data, root, work.path()),
            other => panic!("the README runs {other}; teach this test to run it too"),
        }
        ran += 1;
    }
    assert!(ran >= 40, "only {ran} commands found");
}

fn line_mode(words: &[String], data: &Path, root: &Path, work: &Path) {
    let words: Vec<String> = words
        .iter()
        .map(|word| {
            if word.starts_with("assets/") || word.starts_with("drills/") {
                root.join(word).display().to_string()
            } else {
                word.clone()
            }
        })
        .collect();
    let mut child = Command::new(PROGRAM)
        .args(&words)
        .args(["--data-dir", &data.display().to_string()])
        .current_dir(work)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut input = child.stdin.take().expect("its input");
    // Answers for `ask`; the other commands read nothing and may have gone already.
    let _ = input.write_all(b"1\n\n2\n3\nquit\n");
    drop(input);
    let output = child.wait_with_output().expect("the program ends");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "linefall {}: {said}", words.join(" "));
    assert!(
        !output.stdout.is_empty() || words.iter().any(|word| word == "-o"),
        "linefall {}",
        words.join(" ")
    );
}

fn full_screen(words: &[String], data: &Path) {
    let size = PtySize { rows: 24, cols: 80, pixel_width: 800, pixel_height: 480 };
    let pair = native_pty_system().openpty(size).expect("a pseudo-terminal");
    let mut command = CommandBuilder::new(PROGRAM);
    command.env("TERM", "xterm-256color");
    command.args(["--data-dir", &data.display().to_string(), "--lines", "bars"]);
    command.args(words);
    let mut child = pair.slave.spawn_command(command).expect("the program starts");
    drop(pair.slave);
    let mut reader = pair.master.try_clone_reader().expect("a reader");
    let mut writer = pair.master.take_writer().expect("a writer");
    let mut heard = String::new();
    let mut buffer = [0; 4096];
    let mut asked = false;
    // Until the program has ended and its side of the terminal is closed.
    while let Ok(count @ 1..) = reader.read(&mut buffer) {
        heard.push_str(&String::from_utf8_lossy(&buffer[..count]));
        if !asked && heard.contains("help") {
            asked = true;
            writer.write_all(b"q").expect("a key can be typed");
        }
    }
    assert!(child.wait().expect("it ends").success(), "linefall {}", words.join(" "));
    assert!(asked, "linefall {} never showed its keys", words.join(" "));
}

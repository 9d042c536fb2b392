//! A learner at the real program: `linefall ask --json`, a line in, a line out.

use super::fault::Fault;
use super::learner::Learner;
use super::seen::{Seen, spell};
use super::table::Outcome;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};

/// The program that is played against.
pub const PROGRAM: &str = env!("CARGO_BIN_EXE_linefall");

/// The ids that the program says can happen on a tool.
pub fn listed(tool: &str) -> Vec<String> {
    let told = Command::new(PROGRAM)
        .args(["ask", tool, "--json", "--seed", "1"])
        .stdin(Stdio::null())
        .output()
        .expect("it runs");
    let head = String::from_utf8(told.stdout).expect("UTF-8");
    let head: Value = serde_json::from_str(head.lines().next().expect("a head")).expect("JSON");
    let ids = head["linefall"]["misreads"].as_array().expect("misreads").iter();
    ids.map(|one| one["id"].as_str().expect("an id").to_owned()).collect()
}

/// What comes of a learner; the questions chosen in this manner.
pub fn play(tool: &str, choose: &str, seed: u64, learner: &mut Learner<'_>) -> Outcome {
    let mut child = Command::new(PROGRAM)
        .args(["ask", tool, "--json", "--reveal", "--choose", choose, "--seed", &seed.to_string()])
        .args(["--count", "100"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("it runs");
    let mut input = child.stdin.take().expect("a standard input");
    let output = BufReader::new(child.stdout.take().expect("a standard output"));
    let mut outcome = None;
    for line in output.lines() {
        let message: Value = serde_json::from_str(&line.expect("a line")).expect("JSON");
        if let Some(question) = message.get("question") {
            let answer = learner.answer(&Seen::of(question));
            writeln!(input, "{}", json!({"id": question["id"], "answer": answer})).expect("it listens");
        }
        if let Some(mark) = message.get("mark") {
            let diagnosis = &mark["diagnosis"];
            outcome = Some(Outcome {
                status: diagnosis["status"].as_str().expect("a status").to_owned(),
                leading: diagnosis["leading"].as_str().expect("an id").to_owned(),
                also: diagnosis["also"].as_str().map(str::to_owned),
                asked: diagnosis["asked"].as_u64().and_then(|n| n.try_into().ok()).expect("a count"),
            });
            if diagnosis["status"] != "open" {
                break;
            }
        }
    }
    drop(input);
    // Who is asked on after the end is not listened to; it ends by itself.
    let _ = child.kill();
    child.wait().expect("it ends");
    outcome.expect("a diagnosis in the end")
}

/// Answers plain questions as a fault has it, and expects every wrong answer to be marked with it.
pub fn knows(tool: &str, fault: &Fault) {
    let mut child = Command::new(PROGRAM)
        .args(["ask", tool, "--json", "--reveal", "--seed", "17", "--count", "60"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("it runs");
    let mut input = child.stdin.take().expect("a standard input");
    let output = BufReader::new(child.stdout.take().expect("a standard output"));
    let (mut answered, mut skipped) = (String::new(), false);
    for line in output.lines() {
        let message: Value = serde_json::from_str(&line.expect("a line")).expect("JSON");
        if let Some(question) = message.get("question") {
            if question["reveal"]["variant"].as_str().is_some_and(|variant| variant.contains("vernier")) {
                // The formulas are those of the usual vernier.
                writeln!(input, "{}", json!({"id": question["id"], "skip": true})).expect("it listens");
                skipped = true;
                continue;
            }
            skipped = false;
            let seen = Seen::of(question);
            let answers = (fault.answers)(&seen);
            answered = spell(answers[0], seen.tool.places);
            writeln!(input, "{}", json!({"id": question["id"], "answer": answered})).expect("it listens");
        }
        if let Some(mark) = message.get("mark").filter(|_| !skipped) {
            let named = mark["misreads"].as_array().expect("ids").iter().any(|id| id == fault.id);
            assert!(mark["right"] == true || named, "{} answers {answered}: {mark}", fault.id);
        }
    }
    child.wait().expect("it ends");
}

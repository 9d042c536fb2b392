//! A data folder, the program working in it, and what a learner does there.

use crate::driver::{Driver, command, text};
use crate::terminal::Manners;
use linefall::drill::{Seed, question, question_1};
use linefall::instrument::Catalogue;
use linefall::store::{Access, Store};
use linefall::tui::update::{read_run, run_key};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

pub const PROGRAM: &str = env!("CARGO_BIN_EXE_linefall");
pub const USUAL: (u16, u16) = (80, 24);

/// A folder of its own for every test.
pub struct Shop {
    home: TempDir,
}

impl Shop {
    pub fn new() -> Self {
        Self { home: tempfile::tempdir().expect("a folder") }
    }

    pub fn home(&self) -> &Path {
        self.home.path()
    }

    pub fn data(&self) -> PathBuf {
        self.home().join("record")
    }

    /// The program's name and the arguments after it, working in this shop.
    pub fn words(&self, args: &[&str]) -> Vec<String> {
        let data = self.data().to_string_lossy().into_owned();
        let words = [PROGRAM, "--data-dir", &data];
        words.iter().chain(args).map(|word| (*word).to_owned()).collect()
    }

    /// Starts the program in a terminal that answers as a named one does.
    pub fn start(&self, args: &[&str]) -> Driver {
        self.start_with(args, &[], Manners::Named)
    }

    pub fn start_with(&self, args: &[&str], environment: &[(&str, &str)], manners: Manners) -> Driver {
        let words = self.words(args);
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let mut command = command(PROGRAM, &words[1..], self.home());
        for (name, value) in environment {
            command.env(name, value);
        }
        Driver::start(command, USUAL, manners)
    }

    /// What a command without a full screen writes.
    pub fn asks(&self, args: &[&str]) -> Value {
        let words = self.words(args);
        let ran = Command::new(&words[0]).args(&words[1..]).env_clear().output().expect("the program runs");
        let err = String::from_utf8_lossy(&ran.stderr);
        assert!(ran.status.success() && err.is_empty(), "{words:?}: {}: {err}", ran.status);
        serde_json::from_slice(&ran.stdout).expect("JSON")
    }

    /// Answers on record for an instrument, and how many of them are right.
    pub fn record(&self, instrument: &str) -> (u64, u64) {
        let progress = self.asks(&["progress", "--json"]);
        let all = progress["instruments"].as_array().expect("a list");
        let one = all.iter().find(|one| one["instrument"] == instrument);
        let count = |name: &str| one.map_or(0, |one| one["score"][name].as_u64().expect("a number"));
        (count("answered"), count("right"))
    }

    /// What is remembered under a name.
    pub fn setting(&self, key: &str) -> Option<String> {
        let store = Store::open_for(&self.data(), Access::ReadOnly).expect("a record").store;
        store.setting(key).expect("it can be read")
    }

    /// Lets practice on an instrument begin at a plain reading: the usual tool in good order, its zero right.
    pub fn begins_plainly(&self, instrument: &str) {
        let catalogue = Catalogue::new(Vec::new());
        let known = catalogue.get(instrument).expect("a shipped instrument");
        let is_plain = |seed: &u64| {
            let first = question(known, Seed(*seed), 1);
            first == question_1(known, Seed(*seed), 1) && first.earlier(known).is_empty()
        };
        let seed = (1..200).find(is_plain).expect("most questions are plain");
        std::fs::create_dir_all(self.data()).expect("a folder");
        let store = Store::open(&self.data()).expect("a record").store;
        store.set_setting(&run_key("me", instrument), &format!("{seed} 1")).expect("it can be kept");
    }

    /// The right answer to the question that practice on an instrument stands at.
    pub fn right_answer(&self, instrument: &str) -> String {
        let text = self.setting(&run_key("me", instrument));
        let run = text.as_deref().and_then(read_run).expect("the place in the run is kept");
        let catalogue = Catalogue::new(Vec::new());
        let known = catalogue.get(instrument).expect("a shipped instrument");
        let question = question(known, run.seed, run.number);
        known.notation.spell(question.expected(&question.tool(known)))
    }
}

/// On the screen while a reading is asked for.
pub const FIELD: &str = "Answer:";
/// On the screen while the closed tool is shown.
const CLOSED: &str = "Closed, it looks like this.";

impl Driver {
    /// Waits for a question and goes past the closed tool, if that is shown first.
    pub fn comes_to_question(&self) {
        self.sees(" help ");
        if self.sees_one_of(&[FIELD, CLOSED]) == 1 {
            self.types("\r");
            self.sees(FIELD);
        }
    }

    /// Types an answer that is wrong everywhere; gives the verdict's line.
    pub fn answers_wrong(&self) -> String {
        self.answers("0.0099")
    }

    /// Types an answer; gives the verdict's line.
    pub fn answers(&self, answer: &str) -> String {
        self.comes_to_question();
        self.types(answer);
        self.sees(&format!("{FIELD} {answer}\n"));
        self.types("\r");
        self.sees(" next question ");
        let screen = self.sees(&format!(" {answer}: "));
        let line = screen.lines().find(|line| line.contains(&format!(" {answer}: ")));
        line.expect("it has been seen").trim().to_owned()
    }

    /// Leaves by `q`, and well.
    pub fn leaves(&self) {
        self.types("q");
        let status = self.ends();
        assert!(
            status.success(),
            "{status:?}: {}",
            self.until("the last screen", |screen| Some(text(screen)))
        );
    }
}

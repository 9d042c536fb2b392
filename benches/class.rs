//! A year of a training centre, made up and collected by the real program: 300 learners, 200 sittings each, 60 answers a sitting.
//!
//! `LEARNERS=30 cargo bench --bench class` makes a tenth of it. Nothing of it is real.
#![allow(missing_docs, clippy::print_stdout)]

use linefall::class::card::Card;
use linefall::class::remark::answered;
use linefall::class::returned::{Header, Writer};
use linefall::class::seal::{Secret, paper_seed};
use linefall::class::sitting::{End, Purpose};
use linefall::diag::SourceText;
use linefall::drill::record::{Asks, Attempt, Verdict, View};
use linefall::drill::set::{self, DrillSet, Shelf, deal};
use linefall::drill::{Kind, Seed};
use linefall::instrument::Catalogue;
use linefall::learner::calendar::Day;
use linefall::store::round::{Holder, key, put_card};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::thread;
use std::time::{Duration, Instant};

const SITTINGS: usize = 200;
const ANSWERS: u32 = 60;

fn main() {
    let learners = std::env::var("LEARNERS").ok().and_then(|text| text.parse().ok()).unwrap_or(300);
    let folder = tempfile::tempdir().expect("a folder");
    let (shop, share) = (folder.path().join("shop"), folder.path().join("share"));
    fs::create_dir_all(&share).expect("a folder");
    let catalogue = Catalogue::new(Vec::new());
    let cards = cards(&shop, &share, &catalogue);
    let started = Instant::now();
    let (next, answers, bytes) = (AtomicUsize::new(1), AtomicU64::new(0), AtomicU64::new(0));
    thread::scope(|scope| {
        for _ in 0..thread::available_parallelism().map_or(1, std::num::NonZero::get) {
            scope.spawn(|| {
                let catalogue = Catalogue::new(Vec::new());
                while let Some(n) = Some(next.fetch_add(1, Ordering::Relaxed)).filter(|n| *n <= learners) {
                    let (a, b) = year(n, &share, &cards, &catalogue);
                    answers.fetch_add(a, Ordering::Relaxed);
                    bytes.fetch_add(b, Ordering::Relaxed);
                }
            });
        }
    });
    let (answers, bytes) = (answers.into_inner(), bytes.into_inner());
    println!(
        "made up: {learners} learners, {} files, {answers} answers, {} MB in {:?}",
        learners * cards.len(),
        bytes >> 20,
        started.elapsed()
    );
    for what in ["collect, the first time", "collect, a second time"] {
        let (took, peak, work) = run(&["collect", "--json", "--folder", &share.to_string_lossy()], &shop);
        println!("{what}: {took:?}, {work:?} of work on all cores, {} MiB at the most", peak >> 10);
    }
    let (took, peak, _) = run(&["class", "--json"], &shop);
    println!("class record, opened: {took:?}, {} MiB at the most", peak >> 10);
}

/// Ten cards of each shipped set but the sequential one, 60 questions each.
fn cards(shop: &Path, share: &Path, catalogue: &Catalogue) -> Vec<(Card, DrillSet)> {
    let secret = key(shop, Holder::Instructor, [7; 32]).expect("a key");
    let shelf = Shelf::new(Vec::new(), catalogue);
    let mut sets = Vec::new();
    for known in shelf.all().filter(|of| of.id != "running-check") {
        let line = |line: &str| match line.split(' ').next() {
            Some("count") => format!("count = {ANSWERS}\n"),
            Some("pass") => "pass = \"54 of 60\"\n".to_owned(),
            Some("time") => "time = \"60 min\"\n".to_owned(),
            _ => format!("{line}\n"),
        };
        let text: String = known.text.lines().map(line).collect();
        if let Ok(set) = set::read(&SourceText::new("set.toml", text), catalogue) {
            sets.push(set);
        }
    }
    println!("{} sets", sets.len());
    let mut cards = Vec::new();
    for n in 0..SITTINGS {
        let set = sets[n % sets.len()].clone();
        let card = Card {
            number: format!("{n:016x}"),
            set: set.id.clone(),
            title: set.title.clone(),
            revision: set.revision.clone(),
            learners: Vec::new(),
            due: None,
            purpose: if set.pass.is_some() { Purpose::Check } else { Purpose::Exercise },
            issued: day(n).at(7 * 3600),
            from: secret.public(),
            text: set.text.clone(),
        };
        put_card(shop, share, &card, &card.write(&secret), &[]).expect("a card");
        cards.push((card, set));
    }
    cards
}

fn day(n: usize) -> Day {
    Day(20_500 + i32::try_from(n * 7 / 5).expect("a year"))
}

/// All sittings of a learner: answers and bytes. One answer in so many is wrong, by what a neighbour's question wants.
fn year(n: usize, share: &Path, cards: &[(Card, DrillSet)], catalogue: &Catalogue) -> (u64, u64) {
    let learner = format!("k{n}");
    let secret = Secret::new([u8::try_from(n % 250).expect("small"); 32]);
    let folder = share.join("returned").join(&learner);
    fs::create_dir_all(&folder).expect("a folder");
    let wrong = 5 + u32::try_from(n % 11).expect("small");
    let (mut answers, mut bytes) = (0, 0);
    for (place, (card, set)) in cards.iter().enumerate() {
        let sitting = format!("{n:08x}{place:08x}");
        let header = Header {
            seed: paper_seed(Some(&card.number), &learner, 1, &sitting).0,
            sitting,
            learner: learner.clone(),
            set: card.set.clone(),
            revision: card.revision.clone(),
            purpose: card.purpose,
            card: Some(card.number.clone()),
            nth: 1,
            key: secret.public(),
            program: "0.1.0".to_owned(),
            begun: day(place).at(8 * 3600),
        };
        let (mut writer, mut text) = Writer::begin(&header);
        let mut before = "0.25".to_owned();
        for item in deal(set, catalogue, Seed(header.seed)) {
            let tool = catalogue.get(&item.instrument).expect("shipped");
            let task = item.task(catalogue).expect("posed");
            for (part, number) in task.parts.iter().zip(1..) {
                let word = part.expected_word();
                let figure =
                    word.strip_suffix(" mm").or(word.strip_suffix(" in")).unwrap_or(&word).to_owned();
                let answer = if item.place % wrong == 0 { before.clone() } else { figure.clone() };
                before = figure;
                let at = day(place).at(8 * 3600 + item.place * 9);
                let said = |answer: &str| answered(&item, part, tool, said(&learner, &at, answer));
                if let Some(attempt) = said(&answer).or_else(|| said("")) {
                    text += &writer.answer(item.place, number, &attempt);
                    answers += 1;
                }
            }
        }
        text += &writer.end(&day(place).at(9 * 3600), End::Done, &secret);
        bytes += text.len() as u64;
        fs::write(folder.join(header.file_name()), text).expect("a file");
    }
    (answers, bytes)
}

fn said(learner: &str, at: &str, answer: &str) -> Attempt {
    Attempt {
        learner: learner.to_owned(),
        at: at.to_owned(),
        instrument: String::new(),
        revision: String::new(),
        generator: 0,
        seed: 0,
        number: 0,
        variant: String::new(),
        conditions: String::new(),
        kind: Kind::Read,
        given: String::new(),
        asks: Asks::Reading,
        setting: String::new(),
        zero_error: String::new(),
        view: View::Held,
        glass: false,
        lines: "thin".to_owned(),
        cols: 80,
        rows: 24,
        answer: answer.to_owned(),
        expected: String::new(),
        verdict: Verdict::Other,
        misreads: Vec::new(),
        took_ms: 7_000,
    }
}

/// Runs the program: how long, the most memory it held, in KiB, and how long its threads worked, looked at while it runs.
fn run(args: &[&str], shop: &Path) -> (Duration, u64, Duration) {
    let started = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_linefall"))
        .args(args)
        .arg("--data-dir")
        .arg(shop)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .spawn()
        .expect("the program");
    let status = format!("/proc/{}/status", child.id());
    let stat = format!("/proc/{}/stat", child.id());
    let (mut peak, mut ticks) = (0, 0);
    let ended = loop {
        if let Some(ended) = child.try_wait().expect("it runs") {
            break ended;
        }
        let held = fs::read_to_string(&status).unwrap_or_default();
        let line = held.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let kib = line.and_then(|line| line.split_whitespace().next()?.parse().ok());
        peak = kib.unwrap_or(0).max(peak);
        // User and system time, in hundredths of a second.
        let counts = fs::read_to_string(&stat).unwrap_or_default();
        let count =
            |n: usize| counts.split(' ').nth(n).and_then(|text| text.parse::<u64>().ok()).unwrap_or(0);
        ticks = (count(13) + count(14)).max(ticks);
        thread::sleep(Duration::from_millis(2));
    };
    let took = started.elapsed();
    println!("    {} ends with {:?}", args[0], ended.code());
    (took, peak, Duration::from_millis(ticks * 10))
}

//! The parts of a question, each by itself: pose and mark, a picture, an attempt written down.
#![allow(missing_docs, clippy::print_stdout)]

use criterion::{Criterion, criterion_group, criterion_main};
use linefall::diag::SourceText;
use linefall::drill::set::{Dealer, DrillSet, Shelf};
use linefall::drill::{Draw, Seed, mark, question, record};
use linefall::exact::parse_answer;
use linefall::instrument::{Catalogue, check};
use linefall::learner::calendar::Day;
use linefall::learner::diagnosis::{Inquiry, Pool, Prior};
use linefall::learner::gates::{Target, gates};
use linefall::learner::progress::of_summary;
use linefall::learner::schedule::today;
use linefall::render::paper::Paper;
use linefall::render::sheet::{Block, Entry, Head, Sheet, lay};
use linefall::render::{LineStyle, Request, draw, pdf};
use linefall::scene::{View, build};
use linefall::session::{Effect, Practice, Shown, Step};
use linefall::store::Store;
use linefall::wording::sheet as say;
use rusqlite::Connection;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

fn parts(c: &mut Criterion) {
    let catalogue = Catalogue::new(Vec::new());
    for id in ["micrometer-metric-microns", "caliper-metric-50"] {
        let instrument = catalogue.get(id).expect("a shipped instrument");
        c.bench_function(&format!("pose and mark, {id}"), |b| {
            let typed = parse_answer("1.234", instrument.unit).expect("a number");
            b.iter(|| {
                let question = question(instrument, Seed(black_box(7)), 3);
                mark(&question.case(instrument), &typed).verdict
            });
        });
        let question = question(instrument, Seed(7), 3);
        c.bench_function(&format!("picture 80x24, {id}"), |b| {
            let request = Request::new(80, 24, LineStyle::Thin);
            b.iter(|| {
                let scene = build(instrument, black_box(&question.pose), &question.variant, View::Held);
                draw(&scene, &request).map(|drawing| drawing.grid)
            });
        });
    }
    for id in ["micrometer-metric", "caliper-inch-25", "micrometer-inch-tenths"] {
        let instrument = catalogue.get(id).expect("a shipped instrument");
        c.bench_function(&format!("inquiry begun, {id}"), |b| {
            b.iter(|| Inquiry::new(black_box(instrument), &Prior::shipped()));
        });
        let inquiry = Inquiry::new(instrument, &Prior::shipped());
        let mut pool = Pool::new(instrument, inquiry.suspects(), Seed(7));
        let mut n = 0;
        // All that is done between an answer and the next question.
        c.bench_function(&format!("telling question chosen, {id}"), |b| {
            b.iter(|| {
                n += 1;
                pool.renew(inquiry.suspects());
                let mut chance = Draw::keyed("bench", instrument, Seed(7), n);
                let number = pool.choose(&inquiry, &mut chance);
                pool.take(number).number
            });
        });
    }
    let shelf = Shelf::new(Vec::new(), &catalogue);
    for id in ["final-check", "metric-verniers", "traps-day"] {
        let set = shelf.get(id).expect("a shipped set");
        let mut n = 0;
        // A year of a training shop is dealt again on collecting: 60,000 papers.
        c.bench_function(&format!("paper dealt, {id}, {} questions", set.count), |b| {
            let set = DrillSet { seed: None, ..set.clone() };
            let dealer = Dealer::new(&set, &catalogue);
            b.iter(|| {
                n += 1;
                dealer.deal(Seed(n)).len()
            });
        });
    }
    c.bench_function("titles of all shipped files", |b| {
        b.iter(|| {
            let catalogue = Catalogue::new(Vec::new());
            catalogue.ids().filter_map(|id| catalogue.title(id)).map(str::len).sum::<usize>()
        });
    });
    // Each is refused; a person waits for it, so a second would be too long.
    let keys = (0..100_000).map(|n| format!("{n}=1")).collect::<Vec<_>>().join("\n");
    let nested = format!("a = {}1{}\n", "[".repeat(200), "]".repeat(200));
    for (name, text) in [
        ("over a mebibyte", "x".repeat((1 << 20) + 1)),
        ("a mebibyte of text", format!("title = \"{}\"", "x".repeat((1 << 20) - 10))),
        ("100,000 keys", keys),
        ("4,000 lines of garbage", "= [ \u{1b} \"\n".repeat(4_000)),
        ("deep lists", nested.repeat(20)),
    ] {
        let source = SourceText::new("hostile.toml", text);
        c.bench_function(&format!("refused, {name}"), |b| {
            b.iter(|| check::read(black_box(&source)).expect_err("it is refused").len());
        });
    }
    c.bench_function("catalogue, all shipped files", |b| {
        b.iter(|| Catalogue::new(Vec::new()).all().count());
    });
}

/// A million answers on twelve instruments over some three years, made up by the database itself.
fn million(dir: &Path) -> Store {
    let kept = Store::open(dir).expect("a store").store;
    let catalogue = Catalogue::new(Vec::new());
    let tool = catalogue.get("micrometer-metric").expect("a shipped instrument");
    let mut practice = Practice::new(tool, "me", Seed(7));
    practice.step(tool, Step::Seen);
    let shown = Shown { view: record::View::Held, lines: "thin", cols: 80, rows: 24, glass: false };
    let at = "2026-03-09T07:30:00Z".to_owned();
    let seven = Duration::from_secs(7);
    let effects = practice.step(tool, Step::Answer { text: "1.23".to_owned(), took: seven, at, shown });
    let Some(Effect::Save(attempt)) = effects.into_iter().next() else { panic!("an attempt") };
    kept.append(&attempt).expect("a row to copy");
    let ids: Vec<String> = catalogue.ids().take(12).map(|id| format!("('{id}')")).collect();
    let sql = format!(
        "CREATE TEMP TABLE known (id); INSERT INTO known VALUES {};
         INSERT INTO attempt (learner, at, instrument, revision, generator, seed, question, variant, asks, setting, zero_error,
             view, glass, lines, cols, rows, answer, expected, verdict, misreads, took_ms, conditions)
         WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 999999)
         SELECT learner, strftime('%Y-%m-%dT%H:%M:%SZ', 1700000000 + i * 100, 'unixepoch'),
             (SELECT id FROM known WHERE rowid = i % 12 + 1), revision, generator, seed, i % 5000, variant, asks,
             (i * 37 % 2500 / 100) || '.' || (i % 10) || '0 mm', zero_error, view, glass, lines, cols, rows, answer, expected,
             CASE WHEN i % 11 = 0 THEN 'misread' ELSE 'right' END,
             CASE WHEN i % 11 = 0 THEN '[\"line-missed\"]' ELSE '[]' END, 4000 + i * 7919 % 9000, conditions
         FROM n, attempt WHERE attempt.number = 1;",
        ids.join(", ")
    );
    let connection = Connection::open(kept.file()).expect("the file");
    connection.execute_batch(&sql).expect("a million rows");
    kept
}

/// What the progress screen waits for: the record summed up, and judged.
fn history(c: &mut Criterion) {
    let dir = tempfile::tempdir().expect("a folder");
    let store = million(dir.path());
    let catalogue = Catalogue::new(Vec::new());
    let opened = || {
        let summary = store.summary("me").expect("a record").summary;
        let progress = of_summary(&summary);
        let judged = summary.instruments.iter().filter_map(|kept| {
            let tool = catalogue.get(&kept.instrument)?;
            Some(gates(tool, kept, Target::of(tool)).standing)
        });
        let judged = judged.count();
        let tools: Vec<_> = catalogue.all().collect();
        (progress, judged, today(&summary, &tools, Day(21_000)))
    };
    let started = Instant::now();
    let (progress, judged, _) = opened();
    let answers: u32 = progress.instruments.iter().map(|one| one.score.answered).sum();
    assert_eq!((answers, judged), (1_000_000, 12));
    println!("progress of a million answers, the first time: {:?}", started.elapsed());
    c.bench_function("progress of a million answers", |b| b.iter(&opened));
}

/// A hundred pages of worksheets on several tools, from the questions to the bytes of the file.
fn worksheets(c: &mut Criterion) {
    let catalogue = Catalogue::new(Vec::new());
    let tools = [
        "rule-inch-64",
        "caliper-inch-25",
        "caliper-metric-50",
        "micrometer-inch-tenths",
        "dial-caliper-metric",
    ];
    let tools = tools.map(|id| catalogue.get(id).expect("a shipped instrument"));
    let printed = || {
        let entries = (1..=600).map(|number: u32| {
            let tool = tools[usize::try_from(number).expect("a small number") % tools.len()];
            let posed = question(tool, Seed(7), number);
            let sight = posed.measuring(&posed.tool(tool));
            let scene = build(&sight.tool, &sight.pose, &sight.variant, View::Held);
            let picture = Block::Picture { caption: None, scene: Box::new(scene), quantum: None };
            let answer =
                Block::Answer { question: vec!["What does it read?".to_owned()], unit: "mm".to_owned() };
            Entry { number: Some(number.to_string()), blocks: vec![picture, answer] }
        });
        let head = Head {
            title: "Readings".to_owned(),
            under: Vec::new(),
            fields: say::FIELDS.map(str::to_owned).to_vec(),
            mark: String::new(),
            bar: Some(say::BAR.to_owned()),
            page: say::page,
            note: say::note,
            glass: say::GLASS,
        };
        let mut leaves = lay(&Sheet { paper: Paper::A4, head, entries: entries.collect() });
        assert!(leaves.len() > 100, "{} pages", leaves.len());
        leaves.truncate(100);
        pdf::leaves(&leaves, "Readings").len()
    };
    let started = Instant::now();
    let bytes = printed();
    println!("100 pages of worksheets, the first time: {:?}, {bytes} bytes", started.elapsed());
    c.bench_function("100 pages of worksheets", |b| b.iter(printed));
}

criterion_group!(benches, parts, worksheets, history);
criterion_main!(benches);

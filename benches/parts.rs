//! The parts of a question, each by itself: pose and mark, a picture, an attempt written down.
#![allow(missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use linefall::diag::SourceText;
use linefall::drill::{Seed, mark, question};
use linefall::exact::parse_answer;
use linefall::instrument::{Catalogue, check};
use linefall::render::{LineStyle, Request, draw};
use linefall::scene::{View, build};
use std::hint::black_box;

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
    c.bench_function("titles of all shipped files", |b| {
        b.iter(|| {
            let catalogue = Catalogue::new(Vec::new());
            catalogue.ids().filter_map(|id| catalogue.title(id)).map(str::len).sum::<usize>()
        });
    });
    // Each is refused; a person waits for it, so a second would be too long.
    let keys: String = (0..100_000).map(|n| format!("{n}=1\n")).collect();
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

criterion_group!(benches, parts);
criterion_main!(benches);

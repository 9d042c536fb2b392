//! The parts of a question, each by itself: pose and mark, a picture, an attempt written down.
#![allow(missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use linefall::drill::{Seed, mark, question};
use linefall::exact::parse_answer;
use linefall::instrument::Catalogue;
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
    c.bench_function("catalogue, all shipped files", |b| {
        b.iter(|| Catalogue::new(Vec::new()).all().count());
    });
}

criterion_group!(benches, parts);
criterion_main!(benches);

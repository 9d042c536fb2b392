//! The parts of a question, each by itself: pose and mark, a picture, an attempt written down.
#![allow(missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use linefall::drill::{Draw, Seed, mark, question};
use linefall::exact::parse_answer;
use linefall::instrument::Catalogue;
use linefall::learner::diagnosis::{Inquiry, Pool, Prior};
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
    c.bench_function("catalogue, all shipped files", |b| {
        b.iter(|| Catalogue::new(Vec::new()).all().count());
    });
}

criterion_group!(benches, parts);
criterion_main!(benches);

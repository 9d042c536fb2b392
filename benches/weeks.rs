//! Weeks of apprentices that are made up: how long one takes, and what a day costs to plan.
#![allow(missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use linefall::drill::Seed;
use linefall::instrument::Catalogue;
use linefall::learner::calendar::Day;
use linefall::learner::schedule::today;
use linefall::learner::simulate::{Class, Nature, Policy, play};
use linefall::learner::summary::Summary;
use std::hint::black_box;

const MONDAY: Day = Day(20_521);
const ON: [&str; 3] = ["micrometer-metric", "caliper-metric-50", "micrometer-inch"];

fn weeks(c: &mut Criterion) {
    let catalogue = Catalogue::new(Vec::new());
    c.bench_function("a class of three instruments", |b| b.iter(|| Class::new(black_box(&catalogue), &ON)));
    let class = Class::new(&catalogue, &ON).expect("shipped");
    let nature = Nature::usual();
    let mut seed = 0;
    c.bench_function("a week of one apprentice", |b| {
        b.iter(|| {
            seed += 1;
            play(&class, &nature, Policy::Shipped, MONDAY, 7, Seed(seed))
        });
    });
    let course = play(&class, &nature, Policy::Shipped, MONDAY, 28, Seed(1));
    let summary = Summary::of(&course.attempts);
    let instruments = class.instruments();
    c.bench_function("a day planned after four weeks", |b| {
        b.iter(|| today(black_box(&summary), &instruments, MONDAY.after(28)));
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = weeks
}
criterion_main!(benches);

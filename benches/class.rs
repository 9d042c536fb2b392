//! measuring
#![allow(missing_docs, clippy::print_stdout)]
use linefall::class::sitting::{End, Purpose};
use linefall::class::{remark, returned, seal};
use linefall::drill::record::{Asks, Attempt, Verdict, View};
use linefall::drill::set::*;
use linefall::drill::{Kind, Level, Seed, task};
use linefall::instrument::Catalogue;
use std::time::Instant;

fn set(portions: Vec<Portion>) -> DrillSet {
    DrillSet {
        id: "s".into(),
        title: "S".into(),
        about: "".into(),
        revision: "aa".into(),
        text: "".into(),
        portions,
        count: 60,
        order: Order::Mixed,
        time: None,
        glass: Allowed::Yes,
        feedback: Feedback::Now,
        pass: None,
        seed: None,
    }
}
fn portion(id: &str, what: What, spread: bool) -> Portion {
    Portion {
        instrument: id.into(),
        share: 1,
        what,
        within: None,
        zero: ZeroOff::AsDrawn,
        conditions: Met::AsDrawn,
        variant: None,
        provoke: vec![],
        spread,
        readings: vec![],
    }
}
fn main() {
    let catalogue = Catalogue::new(Vec::new());
    let read = || What::Kinds(vec![Kind::Read]);
    let ids = [
        "rule-metric",
        "caliper-metric-50",
        "micrometer-metric",
        "micrometer-inch",
        "dial-caliper-inch",
        "bevel-protractor",
    ];
    for (name, set) in [
        ("plain", set(ids.iter().map(|id| portion(id, read(), false)).collect())),
        ("spread", set(ids.iter().map(|id| portion(id, read(), true)).collect())),
        (
            "whole-readings level",
            set(ids.iter().map(|id| portion(id, What::Level(Level::ALL[1]), true)).collect()),
        ),
        ("traps level", set(ids.iter().map(|id| portion(id, What::Level(Level::ALL[3]), false)).collect())),
        ("decisions", set(ids.iter().map(|id| portion(id, What::Level(Level::ALL[4]), false)).collect())),
    ] {
        let _ = deal(&set, &catalogue, Seed(1));
        let start = Instant::now();
        let n = 20;
        let papers: Vec<_> = (0..n).map(|s| deal(&set, &catalogue, Seed(s))).collect();
        let dealt = start.elapsed() / n as u32;
        let start = Instant::now();
        let tasks: usize = papers
            .iter()
            .map(|p| p.iter().filter_map(|i| i.task(&catalogue)).map(|t| t.parts.len()).sum::<usize>())
            .sum();
        let posed = start.elapsed() / n as u32;
        let secret = seal::Secret::new([1; 32]);
        let files: Vec<String> = papers
            .iter()
            .zip(0..)
            .map(|(paper, s)| {
                let header = returned::Header {
                    sitting: "0123456789abcdef".into(),
                    learner: "k7".into(),
                    set: "s".into(),
                    revision: "aa".into(),
                    purpose: Purpose::Exercise,
                    card: None,
                    nth: 1,
                    seed: s,
                    key: secret.public(),
                    program: "1".into(),
                    begun: "2026-11-30T07:30:00Z".into(),
                };
                let (mut w, mut text) = returned::Writer::begin(&header);
                for item in paper {
                    let inst = catalogue.get(&item.instrument).unwrap();
                    for (k, part) in item.task(&catalogue).unwrap().parts.iter().enumerate() {
                        let right = part.expected_word();
                        let right = right.split(' ').next().unwrap().to_owned();
                        let right = if item.place % 10 == 3 { "0.25".to_owned() } else { right };
                        let said = Attempt {
                            learner: "k7".into(),
                            at: "2026-11-30T07:31:00.250Z".into(),
                            instrument: "".into(),
                            revision: "".into(),
                            generator: 0,
                            seed: 0,
                            number: 0,
                            variant: "".into(),
                            conditions: "".into(),
                            kind: Kind::Read,
                            given: "".into(),
                            asks: Asks::Reading,
                            setting: "".into(),
                            zero_error: "".into(),
                            view: View::Held,
                            glass: false,
                            lines: "thin".into(),
                            cols: 80,
                            rows: 24,
                            answer: right,
                            expected: "".into(),
                            verdict: Verdict::Right,
                            misreads: vec![],
                            took_ms: 4200,
                        };
                        if let Some(a) = remark::answered(item, part, inst, said) {
                            text += &w.answer(item.place, k as u32 + 1, &a);
                        }
                    }
                }
                text + &w.end("2026-11-30T07:43:00Z", End::Done, &secret)
            })
            .collect();
        let start = Instant::now();
        let read: Vec<_> = files.iter().map(|f| returned::read(f.as_bytes()).unwrap()).collect();
        let reading = start.elapsed() / n as u32;
        let start = Instant::now();
        let marked: Vec<_> =
            read.iter().zip(&papers).map(|(r, p)| remark::remark_on(p, r, &set, &catalogue)).collect();
        let marking = start.elapsed() / n as u32;
        println!(
            "{name}: deal {dealt:?}, tasks {posed:?}, {} parts, bytes {}, read {reading:?}, remark {marking:?}, differences {:?} entries {}",
            tasks / n as usize,
            files[0].len(),
            marked.iter().map(|m| m.differences.len()).sum::<usize>(),
            marked.iter().map(|m| m.sitting.entries.len()).sum::<usize>()
        );
    }
}

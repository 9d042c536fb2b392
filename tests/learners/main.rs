//! Learners with a misread of their own, played from outside.
#![allow(missing_docs)]

mod fault;
mod inside;
mod learner;
mod seen;
mod table;

use fault::Fault;
use inside::Inside;
use learner::{Learner, Luck};
use linefall::drill::{Seed, question};
use linefall::instrument::{Catalogue, Instrument, Variant};
use linefall::reading::misread;
use table::Tally;

const TOOLS: [&str; 3] = ["micrometer-metric", "caliper-inch-25", "micrometer-inch-tenths"];

/// The ids of misreads that answer as this fault does wherever it makes a difference.
fn held<'a>(inside: &Inside<'_>) -> Vec<&'a Fault> {
    let known = |fault: &&Fault| inside.suspects.all().iter().any(|suspect| suspect.is(fault.id));
    fault::ALL.iter().filter(known).collect()
}

fn accepted(inside: &Inside<'_>, id: &str) -> Vec<String> {
    let suspect = inside.suspects.all().iter().find(|suspect| suspect.is(id)).expect("known");
    std::iter::once(suspect.misread.id).chain(suspect.alike.iter().map(|m| m.id)).map(str::to_owned).collect()
}

#[test]
#[ignore]
fn trial() {
    let each: usize = std::env::var("EACH").ok().and_then(|n| n.parse().ok()).unwrap_or(1000);
    let catalogue = Catalogue::new(Vec::new());
    for id in TOOLS {
        let instrument = catalogue.get(id).expect("shipped");
        let t = std::time::Instant::now();
        let mut inside = Inside::new(instrument);
        println!("== {id}: {} suspects, made in {:?}", inside.suspects.count(), t.elapsed());
        let t = std::time::Instant::now();
        inside.pool.renew(&inside.suspects.clone());
        println!("renew {:?}", t.elapsed());
        let inq = linefall::learner::diagnosis::Inquiry::among(inside.suspects.clone(), &linefall::learner::diagnosis::Prior::shipped());
        let t = std::time::Instant::now();
        let mut d = linefall::drill::Draw::keyed("x", instrument, Seed(1), 1);
        for _ in 0..10 { inside.pool.choose(&inq, &mut d); }
        println!("choose {:?}", t.elapsed() / 10);
        let faults = held(&inside);
        println!("held: {}", faults.iter().map(|f| f.id).collect::<Vec<_>>().join(" "));
        check(instrument, &faults);
        let run = |inside: &mut Inside<'_>, applies: u64, misreads: bool, telling: bool| {
            let mut tally = Tally::default();
            for n in 0..each {
                let fault = misreads.then(|| faults[n % faults.len()]);
                let seed = (n as u64) * 7919 + applies;
                let mut learner = Learner { holds: fault, applies, slips: 5, others: &faults, luck: Luck(seed) };
                let outcome = if telling { inside.telling(&mut learner, seed) } else { inside.plain(&mut learner, seed) };
                let (held, accepted) = match fault {
                    Some(fault) => (fault.id, accepted(inside, fault.id)),
                    None => ("reads-correctly", vec!["reads-correctly".to_owned()]),
                };
                tally.add(held, &accepted, &outcome);
            }
            tally
        };
        let t = std::time::Instant::now();
        let sure = run(&mut inside, 100, true, true);
        println!("misreads: median {} p95 {} mean {:.2} wrong {} (cleared {}) undecided {} in {:?}", sure.percentile(50), sure.percentile(95), sure.mean(), sure.share(sure.wrongly()), sure.cleared(), sure.share(sure.undecided()), t.elapsed());
        println!("   {:?}", sure.wrong);
        let plain = run(&mut inside, 100, true, false);
        println!("plain: mean {:.2} ratio {:.2} undecided {}", plain.mean(), plain.mean() / sure.mean(), plain.share(plain.undecided()));
        let correct = run(&mut inside, 100, false, true);
        println!("correct: median {} p95 {} wrong {} undecided {}", correct.percentile(50), correct.percentile(95), correct.share(correct.wrongly()), correct.share(correct.undecided()));
        println!("   {:?}", correct.wrong);
        let eighty = run(&mut inside, 80, true, true);
        println!("80 %: median {} p95 {} wrong {} (cleared {}) undecided {}", eighty.percentile(50), eighty.percentile(95), eighty.share(eighty.wrongly()), eighty.cleared(), eighty.share(eighty.undecided()));
        println!("   {:?}", eighty.wrong);
    }
}

/// Where the formulas here and the program's differ.
fn check(instrument: &Instrument, faults: &[&Fault]) {
    let tool = instrument.fitted(&Variant::default());
    for fault in faults {
        let known = misread::named(fault.id).expect("known");
        let (mut differ, mut bites) = (0, 0);
        let mut example = None;
        for n in 1..=400 {
            let question = question(instrument, Seed(5), n);
            let seen = inside::seen(&tool, &question);
            let mut mine: Vec<_> = (fault.answers)(&seen).into_iter().filter(|a| *a != seen.right()).collect();
            let theirs: Vec<_> = known.wrong(&question.case(&tool)).iter().map(|w| seen::figure(&tool.notation.spell(w.answer))).collect();
            bites += u32::from(!theirs.is_empty());
            mine.retain(|a| !theirs.contains(a));
            let silent = (fault.answers)(&seen) == [seen.right()] && !theirs.is_empty();
            if !mine.is_empty() || silent {
                differ += 1;
                example.get_or_insert((seen, theirs, (fault.answers)(&inside::seen(&tool, &question))));
            }
        }
        println!("   {:24} bites {bites} differ {differ} {:?}", fault.id, example);
    }
}

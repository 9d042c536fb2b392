//! Every setting of every shipped instrument: posed, read, explained, misread.

use crate::robot::kinds::{KNOWN, Kind, Known};
use crate::shots::{catalogue, looks, shipped};
use linefall::exact::{Exact, Quanta};
use linefall::instrument::{Instrument, Zero};
use linefall::reading::{self, Asks, Case, Change, Pose, Reading, Seen, misread};
use linefall::scene;

/// Settings below zero that a tool with a zero error can stand at, in least counts.
const BELOW: i64 = 5;

/// Every setting, from five least counts below where zero can be off.
fn settings(known: &Known) -> std::ops::RangeInclusive<i64> {
    let (low, high) = known.range;
    if known.can_be_off { low - BELOW..=high } else { low..=high }
}

fn for_all(mut check: impl FnMut(&'static Known, &Instrument, i64)) -> u64 {
    let catalogue = catalogue();
    let mut count = 0;
    for known in &KNOWN {
        let instrument = shipped(&catalogue, known);
        assert_eq!(instrument.zero == Zero::CanBeOff, known.can_be_off, "{}", known.id);
        for setting in settings(known) {
            check(known, instrument, setting);
            count += 1;
        }
    }
    count
}

fn posed(instrument: &Instrument, setting: i64, lead: i64) -> (Pose, Reading) {
    let pose = reading::pose(instrument, Quanta(setting), Quanta(lead));
    let read = reading::read(instrument, &pose);
    (pose, read)
}

#[test]
fn a_setting_is_read_as_itself() {
    let count = for_all(|known, instrument, setting| {
        let (pose, read) = posed(instrument, setting, 0);
        assert_eq!(read.total, Quanta(setting), "{}", known.id);
        assert_eq!(posed(instrument, read.total.0, 0).0, pose, "{} at {setting}", known.id);
        let sum: Quanta = read.steps.iter().map(|step| step.value).sum();
        assert_eq!(sum, read.total, "{} at {setting}", known.id);
    });
    println!("{count} settings read");
}

/// All settings that the instrument itself lists are those of its range.
#[test]
fn settings_are_those_of_the_range() {
    let catalogue = catalogue();
    for known in &KNOWN {
        let listed = shipped(&catalogue, known).settings().map(|at| at.0);
        assert!(listed.eq(known.range.0..=known.range.1), "{}", known.id);
    }
}

/// Which part of a turn the edge may be early or late by, without the reading changing: less than a quarter.
#[test]
fn an_edge_a_little_early_or_late_changes_nothing() {
    let catalogue = catalogue();
    for known in &KNOWN {
        let fine = match &known.kind {
            Kind::Micrometer(barrel) => &barrel.thimble,
            Kind::Dial(gauge) if gauge.turns.is_some() => &gauge.dial,
            Kind::Rule(_) | Kind::Pair(..) | Kind::Dial(_) | Kind::Disc(_) => continue,
        };
        let instrument = shipped(&catalogue, known);
        let quarter = fine.end / 4;
        let division = fine.division;
        for lead in [-quarter, 1 - quarter, -2 * division, -1, 1, 4 * division, quarter - 1, quarter] {
            for setting in settings(known) {
                let read = posed(instrument, setting, lead).1;
                assert_eq!(read.total, Quanta(setting), "{} with a lead of {lead}", known.id);
            }
        }
    }
}

#[test]
fn one_line_is_in_line_and_at_zero_the_first_and_the_last() {
    let count = for_all(|known, instrument, setting| {
        let (division, vernier) = match &known.kind {
            Kind::Pair(scale, vernier) => (scale.division, vernier),
            Kind::Micrometer(barrel) => match &barrel.vernier {
                Some(vernier) => (barrel.thimble.division, vernier),
                None => return,
            },
            Kind::Rule(_) | Kind::Dial(_) | Kind::Disc(_) => return,
        };
        let last = vernier.lines.end;
        let mut seen = posed(instrument, setting, 0).1.steps.into_iter().filter_map(|step| match step.seen {
            Seen::InLine { lines, taken } => Some((lines, taken)),
            _ => None,
        });
        let (lines, taken) = seen.next().expect("a vernier is read");
        assert!(seen.next().is_none(), "{}: two verniers", known.id);
        let wanted: Vec<i64> =
            if setting % division == 0 { vec![0, last] } else { vec![setting.rem_euclid(division)] };
        assert_eq!(lines, wanted, "{} at {setting}", known.id);
        assert_eq!(taken, wanted[0], "{} at {setting}", known.id);
    });
    println!("{count} settings counted");
}

#[test]
fn a_misread_never_gives_the_right_answer() {
    let mut wrongs = 0;
    let mut given = vec![0_u64; misread::ALL.len()];
    for_all(|known, instrument, setting| {
        let (pose, reading) = posed(instrument, setting, 0);
        let zero_errors: &[i64] = if known.can_be_off { &[0, 3, -4] } else { &[0] };
        for zero_error in zero_errors {
            let asks = if *zero_error == 0 { Asks::Reading } else { Asks::Corrected };
            let zero_error = Quanta(*zero_error);
            let size = instrument.value(Quanta(setting) - zero_error);
            let mut asked = vec![(asks, size)];
            if matches!(known.kind, Kind::Disc(_)) {
                let corner = Exact::whole(5400);
                asked.push((Asks::PartAsRead, size));
                asked.push((Asks::PartComplement, corner - size));
                asked.push((Asks::PartSupplement, corner + corner - size));
            }
            for (asks, right) in asked {
                let case = Case {
                    instrument,
                    pose: &pose,
                    reading: &reading,
                    zero_error,
                    asks,
                    change: Change::default(),
                };
                assert_eq!(case.expected(), right, "{} at {setting}", known.id);
                for (n, misread) in misread::ALL.iter().enumerate() {
                    for wrong in misread.wrong(&case) {
                        assert_ne!(wrong.answer, right, "{} at {setting}: {}", known.id, misread.id);
                        assert!(!wrong.did.is_empty(), "{}", misread.id);
                        wrongs += 1;
                        given[n] += 1;
                    }
                }
            }
        }
    });
    println!("{wrongs} wrong answers");
    let idle: Vec<&str> =
        misread::ALL.iter().zip(&given).filter(|(_, n)| **n == 0).map(|(misread, _)| misread.id).collect();
    // These take a collar or a larger frame, which `fitted` counts, a digit between lines, which `conditions` does, or a change,
    // which `changes` does.
    let elsewhere = ["collar-forgotten", "frame-start-forgotten", "estimate-rounded"]
        .into_iter()
        .chain(crate::changes::SLIPS);
    let elsewhere: Vec<&str> = elsewhere.collect();
    let idle: Vec<&str> = idle.into_iter().filter(|id| !elsewhere.contains(id)).collect();
    assert!(idle.is_empty(), "misreads that never happen: {idle:?}");
}

/// What goes wrong with a hand happens on dials only, and a bar that counts its turns is not counted like a main scale.
#[test]
fn misreads_of_dials_happen_on_dials() {
    let of_dials = ["revolution-missed", "revolution-added", "balanced-sign", "dial-backwards"];
    let of_lines = ["line-missed", "line-added", "line-early", "thimble-backwards"];
    let mut seen = std::collections::BTreeSet::new();
    for_all(|known, instrument, setting| {
        let (pose, reading) = posed(instrument, setting, 0);
        let (zero_error, change) = (Quanta::ZERO, Change::default());
        let case =
            Case { instrument, pose: &pose, reading: &reading, zero_error, asks: Asks::Reading, change };
        let is_dial = matches!(known.kind, Kind::Dial(_));
        let refused = if is_dial { of_lines } else { of_dials };
        for misread in misread::ALL {
            if !misread.wrong(&case).is_empty() {
                assert!(!refused.contains(&misread.id), "{} at {setting}: {}", known.id, misread.id);
                assert!(misread.happens_on(instrument), "{}: {} is not listed", known.id, misread.id);
                if is_dial {
                    seen.insert(misread.id);
                }
            }
        }
    });
    assert!(of_dials.iter().all(|id| seen.contains(id)), "{seen:?}");
}

#[test]
fn shares_add_up() {
    for_all(|known, instrument, setting| {
        let read = posed(instrument, setting, 0).1;
        let shares = reading::shares(instrument, &read);
        let sum: Quanta = shares.iter().map(|share| share.value).sum();
        assert_eq!(sum, Quanta(setting), "{}", known.id);
        for (stage, step) in read.steps.iter().enumerate() {
            let of_stage: Quanta = shares.iter().filter(|s| s.stage == stage).map(|s| s.value).sum();
            assert_eq!(of_stage, step.value, "{} at {setting}, stage {stage}", known.id);
        }
        if setting >= known.range.0.max(0) {
            assert!(shares.iter().all(|share| share.value >= Quanta::ZERO), "{} at {setting}", known.id);
        }
    });
}

#[test]
fn what_cannot_occur_in_a_display_list_does_not() {
    let catalogue = catalogue();
    let mut count = 0;
    for known in &KNOWN {
        let instrument = shipped(&catalogue, known);
        for look in looks(known, instrument) {
            for setting in settings(known) {
                assert_eq!(scene::audit(&look.scene(setting)), [], "{} at {setting}", look.name());
                count += 1;
            }
        }
    }
    println!("{count} display lists");
}

/// A quantum is worth what the robot's table says, and a value is spelled in the instrument's own way and no other.
#[test]
fn settings_are_spelled_one_by_one() {
    for_all(|known, instrument, setting| {
        let (numerator, denominator) = known.quantum;
        let value = Exact::ratio(i128::from(setting) * numerator, denominator);
        assert_eq!(instrument.value(Quanta(setting)), value, "{}", known.id);
    });
}

//! The plan of a skills check: how many readings, when it is passed, and what such a plan lets through.
//!
//! A fixed plan has so many readings. A sequential one (Wald's test, cut off at a length) goes on until the answers speak for one
//! side or the other.

use super::chance::{Slips, at_least, exactly};
use crate::drill::set::Pass;

/// A plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Plan {
    /// So many readings, passed with so many right.
    Fixed {
        /// Readings.
        of: u32,
        /// Right at the least.
        pass: u32,
    },
    /// As many as it takes.
    Sequential(Sequential),
}

/// Wald's sequential test of two accuracies, cut off at a length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sequential {
    /// An accuracy that should fail.
    pub bad: f64,
    /// An accuracy that should pass.
    pub good: f64,
    /// How often the bad one may pass.
    pub lets_through: f64,
    /// How often the good one may fail.
    pub turns_away: f64,
    /// Readings at the least.
    pub least: u32,
    /// Readings at the most; then the likelier side has it.
    pub most: u32,
}

/// What a plan does with somebody of a given accuracy.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Characteristic {
    /// The chance of passing.
    pub passes: f64,
    /// Readings on average.
    pub mean: f64,
    /// Readings that suffice in 95 of 100 checks.
    pub most_often: u32,
}

/// How a check stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It goes on.
    Open,
    /// Passed.
    Passed,
    /// Not yet.
    NotYet,
}

impl Plan {
    /// The usual fixed plan: an accuracy of 0.80 passes 4.4 % of the time, one of 0.98 is turned away 2.2 %.
    pub const USUAL: Self = Self::Fixed { of: 30, pass: 28 };

    /// The usual sequential plan.
    pub const USUAL_SEQUENTIAL: Self = Self::Sequential(Sequential {
        bad: 0.80,
        good: 0.95,
        lets_through: 0.05,
        turns_away: 0.05,
        least: 10,
        most: 60,
    });

    /// The plan of a drill set with so many questions.
    pub fn of(pass: &Pass, count: u32) -> Self {
        let share = |thousandths: u32| f64::from(thousandths) / 1000.0;
        match *pass {
            Pass::Right(pass) => Self::Fixed { of: count, pass },
            Pass::Sequential { bad, good, lets_through, turns_away, least } => Self::Sequential(Sequential {
                bad: share(bad),
                good: share(good),
                lets_through: share(lets_through),
                turns_away: share(turns_away),
                least,
                most: count,
            }),
        }
    }

    /// Readings at the most.
    pub fn most(&self) -> u32 {
        match self {
            Self::Fixed { of, .. } => *of,
            Self::Sequential(test) => test.most,
        }
    }

    /// How it stands after so many right of so many. A fixed plan is read to its end.
    pub fn verdict(&self, right: u32, of: u32) -> Verdict {
        match self {
            Self::Fixed { of: all, .. } if of < *all => Verdict::Open,
            Self::Fixed { pass, .. } if right >= *pass => Verdict::Passed,
            Self::Fixed { .. } => Verdict::NotYet,
            Self::Sequential(test) => test.verdict(right, of),
        }
    }

    /// What it does with somebody of this accuracy, each reading by itself.
    pub fn characteristic(&self, accuracy: f64) -> Characteristic {
        match self {
            Self::Fixed { of, pass } => Characteristic {
                passes: at_least(*pass, *of, accuracy),
                mean: f64::from(*of),
                most_often: *of,
            },
            Self::Sequential(test) => test.characteristic(accuracy),
        }
    }

    /// The chance that somebody passes who slips at two rates, where the same gross slip twice is "not yet" whatever the score and
    /// all his gross slips are the same one. A sequential plan ends with the second.
    pub fn passes_with(&self, slips: Slips) -> f64 {
        let (of, pass) = match *self {
            Self::Fixed { of, pass } => (of, pass),
            Self::Sequential(test) => return test.passes_with(slips),
        };
        let clean = 1.0 - slips.gross;
        if clean <= 0.0 {
            return 0.0;
        }
        let among_clean = 1.0 - slips.fine / clean;
        let gross = 0..=1.min(of);
        gross.map(|n| exactly(n, of, slips.gross) * at_least(pass, of - n, among_clean)).sum()
    }
}

impl Sequential {
    /// What a right and a wrong answer say for the good side, and where it passes and fails.
    fn weights(&self) -> (f64, f64, f64, f64) {
        let right = (self.good / self.bad).ln();
        let wrong = ((1.0 - self.good) / (1.0 - self.bad)).ln();
        let passes = ((1.0 - self.turns_away) / self.lets_through).ln();
        let fails = (self.turns_away / (1.0 - self.lets_through)).ln();
        (right, wrong, passes, fails)
    }

    fn verdict(&self, right: u32, of: u32) -> Verdict {
        let (for_right, for_wrong, passes, fails) = self.weights();
        let says = f64::from(right) * for_right + f64::from(of.saturating_sub(right)) * for_wrong;
        if of < self.least.min(self.most) {
            Verdict::Open
        } else if says >= passes {
            Verdict::Passed
        } else if says <= fails {
            Verdict::NotYet
        } else if of < self.most {
            Verdict::Open
        } else if says >= 0.0 {
            Verdict::Passed
        } else {
            Verdict::NotYet
        }
    }

    /// The same with two rates of slips: how likely each score is that is still open, without a gross slip and after one.
    fn passes_with(&self, slips: Slips) -> f64 {
        let right = (1.0 - slips.gross - slips.fine).clamp(0.0, 1.0);
        let mut open = [vec![1.0], vec![0.0]];
        let mut passes = 0.0;
        for of in 1..=self.most {
            let mut next = [vec![0.0; open[0].len() + 1], vec![0.0; open[0].len() + 1]];
            for (gross, scores) in open.iter().enumerate() {
                for (score, chance) in scores.iter().enumerate() {
                    next[gross][score + 1] += chance * right;
                    next[gross][score] += chance * slips.fine;
                    if gross == 0 {
                        next[1][score] += chance * slips.gross;
                    }
                }
            }
            for (score, chance) in next.iter_mut().flat_map(|scores| (0_u32..).zip(scores)) {
                let verdict = self.verdict(score, of);
                if verdict != Verdict::Open {
                    passes += if verdict == Verdict::Passed { *chance } else { 0.0 };
                    *chance = 0.0;
                }
            }
            open = next;
        }
        passes
    }

    /// Worked out reading by reading: how likely each score is that is still open.
    fn characteristic(&self, accuracy: f64) -> Characteristic {
        let accuracy = accuracy.clamp(0.0, 1.0);
        let mut open = vec![1.0];
        let (mut passes, mut mean, mut over, mut most_often) = (0.0, 0.0, 0.0, None);
        for of in 1..=self.most {
            let mut next = vec![0.0; open.len() + 1];
            for (right, chance) in open.iter().enumerate() {
                next[right] += chance * (1.0 - accuracy);
                next[right + 1] += chance * accuracy;
            }
            for (right, chance) in (0_u32..).zip(next.iter_mut()) {
                let verdict = self.verdict(right, of);
                if verdict != Verdict::Open {
                    passes += if verdict == Verdict::Passed { *chance } else { 0.0 };
                    mean += *chance * f64::from(of);
                    over += *chance;
                    *chance = 0.0;
                }
            }
            if over >= 0.95 && most_often.is_none() {
                most_often = Some(of);
            }
            open = next;
        }
        Characteristic { passes, mean, most_often: most_often.unwrap_or(self.most) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SEQUENTIAL: Sequential =
        Sequential { bad: 0.80, good: 0.95, lets_through: 0.05, turns_away: 0.05, least: 10, most: 60 };

    /// The binomial distribution, summed term by term with whole numbers of ways: 20 of 30 readings and so on. The same figures as
    /// any printed table of the cumulative binomial gives.
    #[test]
    fn fixed_plans() {
        let table = [
            (30, 28, 0.80, 0.0442),
            (30, 28, 0.95, 0.8122),
            (30, 28, 0.98, 0.9783),
            (20, 19, 0.80, 0.0692),
            (10, 9, 0.70, 0.1493),
            (50, 47, 0.85, 0.0460),
            (100, 95, 0.97, 0.9192),
        ];
        for (of, pass, accuracy, chance) in table {
            let found = Plan::Fixed { of, pass }.characteristic(accuracy).passes;
            assert!((found - chance).abs() < 5e-5, "{of} {pass} {accuracy}: {found}");
        }
    }

    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.2.3.2: the plan with 52 parts, 3 faulty ones
    /// accepted; the chances of acceptance as printed, three digits.
    #[test]
    fn the_handbooks_plan() {
        let plan = Plan::Fixed { of: 52, pass: 49 };
        for (faulty, chance) in
            [(0.01, 0.998), (0.02, 0.980), (0.03, 0.930), (0.04, 0.845), (0.05, 0.739), (0.06, 0.620)]
        {
            let found = plan.characteristic(1.0 - faulty).passes;
            assert!((found - chance).abs() < 1.1e-3, "{faulty}: {found}");
        }
    }

    /// Source: NIST/SEMATECH e-Handbook, section 6.2.6: the sequential plan for 0.01 and 0.10 faulty, risks 0.05 and 0.10. Its table
    /// of boundaries: accepted with none from 24, one from 49, two from 74, three from 100; rejected with two up to 19, three
    /// from 20, four from 46, five from 71, six from 96.
    #[test]
    fn the_handbooks_sequential_plan() {
        let test =
            Sequential { bad: 0.90, good: 0.99, lets_through: 0.10, turns_away: 0.05, least: 1, most: 1000 };
        let verdict = |faulty: u32, of: u32| test.verdict(of - faulty, of);
        for (faulty, from) in [(0, 24), (1, 49), (2, 74), (3, 100)] {
            assert_eq!(verdict(faulty, from), Verdict::Passed, "{faulty}");
            assert_eq!(verdict(faulty, from - 1), Verdict::Open, "{faulty}");
        }
        for (faulty, from, to) in [(2, 2, 19), (3, 20, 45), (4, 46, 70), (5, 71, 95)] {
            assert_eq!(verdict(faulty, from.max(faulty)), Verdict::NotYet, "{faulty}");
            assert_eq!(verdict(faulty, to), Verdict::NotYet, "{faulty}");
            assert_eq!(verdict(faulty, to + 1), Verdict::Open, "{faulty}");
        }
    }

    /// The closed form for a walk in two steps has no simple value once it is cut off; the figures are those of a separate exact
    /// calculation over all walks, to the digits given.
    #[test]
    fn the_usual_sequential_plan() {
        let table = [
            (0.50, 0.0000, 10.25, 12),
            (0.70, 0.0024, 13.69, 27),
            (0.80, 0.0536, 22.63, 58),
            (0.90, 0.6116, 36.49, 60),
            (0.95, 0.9577, 29.47, 60),
            (0.98, 0.9986, 21.88, 36),
            (1.00, 1.0000, 18.00, 18),
        ];
        for (accuracy, passes, mean, most_often) in table {
            let found = Plan::USUAL_SEQUENTIAL.characteristic(accuracy);
            assert!((found.passes - passes).abs() < 6e-5, "{accuracy}: {found:?}");
            assert!((found.mean - mean).abs() < 6e-3, "{accuracy}: {found:?}");
            assert_eq!(found.most_often, most_often, "{accuracy}");
        }
        assert_eq!(Plan::Sequential(SEQUENTIAL), Plan::USUAL_SEQUENTIAL);
    }

    /// By hand: 3 readings, 2 right wanted, half of all gross: none or one of three may be gross, 1/8 + 3/8. With no gross slip
    /// the plan is the plain one.
    #[test]
    fn two_rates() {
        let plan = Plan::Fixed { of: 3, pass: 2 };
        let found = plan.passes_with(Slips { gross: 0.5, fine: 0.0 });
        assert!((found - 0.5).abs() < 1e-12, "{found}");
        for plan in [Plan::USUAL, Plan::USUAL_SEQUENTIAL] {
            let one_rate = plan.passes_with(Slips { gross: 0.0, fine: 0.2 });
            assert!((one_rate - plan.characteristic(0.8).passes).abs() < 1e-12);
        }
    }

    /// By hand: read to three, more right than wrong passes at the end (a right and a wrong answer weigh alike). With gross slips
    /// in a quarter and fine ones in a quarter of the readings, three right have 1/8, two right and one of either kind 3/8: the
    /// second gross slip is in none of them.
    #[test]
    fn two_rates_as_it_goes() {
        let three =
            Sequential { bad: 0.25, good: 0.75, lets_through: 1e-9, turns_away: 1e-9, least: 3, most: 3 };
        let found = Plan::Sequential(three).passes_with(Slips { gross: 0.25, fine: 0.25 });
        assert!((found - 0.5).abs() < 1e-12, "{found}");
        let lax = Sequential { bad: 0.05, good: 0.5, least: 3, ..three };
        let all = Plan::Sequential(lax).characteristic(0.5).passes;
        let without = Plan::Sequential(lax).passes_with(Slips { gross: 0.25, fine: 0.25 });
        // One right and two wrong pass as well: 3/8; of those two gross in a quarter of the ways.
        assert!(
            (all - 0.875).abs() < 1e-12 && (all - without - 0.375 / 4.0).abs() < 1e-12,
            "{all} {without}"
        );
    }

    #[test]
    fn the_rule_of_a_set_is_a_plan() {
        assert_eq!(Plan::of(&Pass::Right(28), 30), Plan::USUAL);
        let wald = Pass::Sequential { bad: 800, good: 950, lets_through: 50, turns_away: 50, least: 10 };
        assert_eq!(Plan::of(&wald, 60), Plan::USUAL_SEQUENTIAL);
    }

    #[test]
    fn a_check_is_open_until_it_is_decided() {
        assert_eq!(Plan::USUAL.verdict(28, 29), Verdict::Open);
        assert_eq!(Plan::USUAL.verdict(28, 30), Verdict::Passed);
        assert_eq!(Plan::USUAL.verdict(27, 30), Verdict::NotYet);
        assert_eq!(Plan::USUAL_SEQUENTIAL.verdict(17, 17), Verdict::Open);
        assert_eq!(Plan::USUAL_SEQUENTIAL.verdict(18, 18), Verdict::Passed);
    }
}

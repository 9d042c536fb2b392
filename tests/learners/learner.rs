//! Learners: what they hold, how often they apply it, and how they slip.

use super::fault::Fault;
use super::seen::{Figure, Seen, spell};

/// Splitmix64: a few lines, the same everywhere.
pub struct Luck(pub u64);

impl Luck {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(n).expect("small")).expect("small")
    }

    pub fn happens(&mut self, percent: u64) -> bool {
        self.next() % 100 < percent
    }
}

/// Someone who reads.
pub struct Learner<'a> {
    /// What is held; nothing by someone who reads correctly.
    pub holds: Option<&'a Fault>,
    /// What is held as well, on another step.
    pub also: Option<&'a Fault>,
    /// How often it is applied, in percent.
    pub applies: u64,
    /// How often a reading slips, in percent.
    pub slips: u64,
    /// What a slip may borrow from.
    pub others: &'a [&'a Fault],
    pub luck: Luck,
}

impl Learner<'_> {
    /// The answer to what is seen, as typed.
    pub fn answer(&mut self, seen: &Seen) -> String {
        let mut meant = seen.right();
        for fault in [self.holds, self.also].into_iter().flatten() {
            if self.luck.happens(self.applies) {
                // Each replaces a step of its own, so what each adds is added.
                meant += self.one_of(&(fault.answers)(seen)) - seen.right();
            }
        }
        let places = seen.tool.places;
        if !self.luck.happens(self.slips) {
            return spell(meant, places);
        }
        match self.luck.below(3) {
            0 => {
                let line = if self.luck.happens(50) { seen.least() } else { -seen.least() };
                spell(meant + line, places)
            }
            1 => self.with_a_digit_wrong(&spell(meant, places)),
            _ => {
                let n = self.luck.below(self.others.len());
                let borrowed = self.one_of(&(self.others[n].answers)(seen));
                spell(borrowed, places)
            }
        }
    }

    fn one_of(&mut self, answers: &[Figure]) -> Figure {
        answers[self.luck.below(answers.len())]
    }

    fn with_a_digit_wrong(&mut self, text: &str) -> String {
        let digits: Vec<usize> =
            text.char_indices().filter(|(_, c)| c.is_ascii_digit()).map(|(at, _)| at).collect();
        let at = digits[self.luck.below(digits.len())];
        let was = text.as_bytes()[at] - b'0';
        let now = (was + 1 + u8::try_from(self.luck.below(9)).expect("small")) % 10;
        format!("{}{now}{}", &text[..at], &text[at + 1..])
    }
}

//! The conditions a tool is read under, beside its zero error: part of the question, and of its record.

use crate::exact::{Quanta, Quantity};
use crate::instrument::Instrument;

/// The conditions of a question. The default is a tool in good order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Conditions {
    /// How far the edge runs ahead of the thimble; below nought where it lags.
    pub lead: Quanta,
}

impl Conditions {
    /// As a record spells them: empty, or such as `lead=0.02 mm`, parted by semicolons.
    pub fn word(&self, tool: &Instrument) -> String {
        let mut parts = Vec::new();
        if self.lead != Quanta::ZERO {
            parts.push(format!("lead={}", tool.spell_with_unit(self.lead)));
        }
        parts.join("; ")
    }

    /// The conditions of a record's word; `None` for a word that is none of ours, or not of this tool.
    pub fn from_word(word: &str, tool: &Instrument) -> Option<Self> {
        let mut conditions = Self::default();
        for part in word.split(';').map(str::trim).filter(|part| !part.is_empty()) {
            match part.split_once('=')? {
                ("lead", length) => conditions.lead = length_of(length, tool)?,
                _ => return None,
            }
        }
        Some(conditions)
    }
}

fn length_of(text: &str, tool: &Instrument) -> Option<Quanta> {
    let quantity = Quantity::parse(text).ok().filter(|quantity| quantity.unit == tool.unit)?;
    tool.lattice.at(quantity.value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    #[test]
    fn through_a_word_and_back() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = catalogue.get("micrometer-metric").expect("shipped");
        let early = Conditions { lead: Quanta(3) };
        assert_eq!(early.word(tool), "lead=0.03 mm");
        assert_eq!(Conditions::from_word("lead=0.03 mm", tool), Some(early));
        assert_eq!(Conditions::from_word("", tool), Some(Conditions::default()));
        assert_eq!(Conditions::from_word("lead=0.003 in", tool), None);
        assert_eq!(Conditions::from_word("late", tool), None);
    }
}

//! The conditions a tool is read under, beside its zero error: part of the question, and of its record.

use super::change;
use crate::exact::{Quanta, Quantity};
use crate::instrument::Instrument;
use crate::reading::Change;

/// The conditions of a question. The default is a tool in good order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Conditions {
    /// How far the edge runs ahead of the thimble; below nought where it lags.
    pub lead: Quanta,
    /// What the answer rests on beside the picture that is measured from: where the tool stood first, how it was turned, an angle.
    pub change: Change,
    /// Where the slide that is set by itself was set and locked before, in its own quanta.
    pub set: Option<Quanta>,
}

impl Conditions {
    /// As a record spells them: empty, or such as `lead=0.02 mm`, parted by semicolons.
    pub fn word(&self, tool: &Instrument) -> String {
        let mut parts = Vec::new();
        if self.lead != Quanta::ZERO {
            parts.push(format!("lead={}", tool.spell_with_unit(self.lead)));
        }
        parts.extend(change::words(&self.change, tool));
        if let (Some(set), Some(other)) = (self.set, tool.own_slide()) {
            parts.push(format!("set={}", other.tool.spell_with_unit(set)));
        }
        parts.join("; ")
    }

    /// The conditions of a record's word; `None` for a word that is none of ours, or not of this tool.
    pub fn from_word(word: &str, tool: &Instrument) -> Option<Self> {
        let mut conditions = Self::default();
        for part in word.split(';').map(str::trim).filter(|part| !part.is_empty()) {
            match part.split_once('=')? {
                ("lead", length) => conditions.lead = length_of(length, tool)?,
                ("set", length) => conditions.set = Some(length_of(length, &tool.own_slide()?.tool)?),
                (name, value) => change::take(&mut conditions.change, name, value, tool)?,
            }
        }
        Some(conditions)
    }
}

pub(super) fn length_of(text: &str, tool: &Instrument) -> Option<Quanta> {
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
        let early = Conditions { lead: Quanta(3), ..Conditions::default() };
        assert_eq!(early.word(tool), "lead=0.03 mm");
        assert_eq!(Conditions::from_word("lead=0.03 mm", tool), Some(early));
        assert_eq!(Conditions::from_word("", tool), Some(Conditions::default()));
        assert_eq!(Conditions::from_word("set=3 mm", tool), None);
        let gear = catalogue.get("gear-tooth-metric").expect("shipped");
        let set = Conditions { set: Some(Quanta(683)), ..Conditions::default() };
        assert_eq!(set.word(gear), "set=13.66 mm");
        assert_eq!(Conditions::from_word("set=13.66 mm", gear), Some(set));
        assert_eq!(Conditions::from_word("lead=0.003 in", tool), None);
        assert_eq!(Conditions::from_word("late", tool), None);
        let collar = catalogue.get("cross-slide-dial-inch").expect("shipped");
        let word = "start=0.094 in; turned=back; passed=2; slack=0.006 in";
        let back = Conditions::from_word(word, collar).expect("conditions");
        assert_eq!((back.change.start, back.change.passed), (Some(Quanta(94)), 2));
        assert_eq!(back.word(collar), word);
        let lever = catalogue.get("lever-indicator-metric").expect("shipped");
        let steep = Conditions::from_word("start=-0.02 mm; angle=30", lever).expect("conditions");
        assert_eq!(steep.word(lever), "start=-0.02 mm; angle=30");
        assert_eq!(Conditions::from_word("angle=35", lever), None);
    }
}

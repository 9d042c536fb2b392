//! The conditions a tool is read under, beside its zero error: part of the question, and of its record.

use super::change;
use super::worn::{Wear, worn};
use crate::exact::{Quanta, Quantity};
use crate::instrument::{Instrument, MOST_PARTS, Parts, State};
use crate::reading::Change;

/// The conditions of a question. The default is a tool in good order, standing on its lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Conditions {
    /// Where it may stand, and how that is read.
    pub settings: Settings,
    /// How far the edge runs ahead of the thimble; below nought where it lags. In quanta of the tool under these conditions.
    pub lead: Quanta,
    /// Figures that cannot be read any more.
    pub worn: Option<Wear>,
    /// The lock.
    pub lock: Lock,
    /// What the answer rests on beside the picture that is measured from: where the tool stood first, how it was turned, an angle.
    pub change: Change,
    /// Where the slide that is set by itself was set and locked before, in its own quanta.
    pub set: Option<Quanta>,
}

/// Where a tool may stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Settings {
    /// As its definition says.
    #[default]
    AsDefined,
    /// Between its lines too, in such parts of its quantum. It is read as its definition says: at the nearest line.
    Between(Parts),
    /// Between its lines too, and the last digit is judged.
    Estimated,
}

/// The lock of a tool.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Lock {
    /// As it should be when a reading is taken, or not there.
    #[default]
    Tight,
    /// Not tight: what is read may move before it is written down.
    Loose,
}

/// What stands on the tag of a tool whose lock is not tight.
const LOOSE: &str = "lock loose";

impl Conditions {
    /// The fitted tool as it is under these conditions.
    #[must_use]
    pub fn tool(&self, fitted: &Instrument) -> Instrument {
        let mut tool = match self.settings {
            Settings::AsDefined => fitted.clone(),
            Settings::Between(parts) => fitted.refined(parts),
            Settings::Estimated => fitted.estimated(),
        };
        let tag = match self.lock {
            Lock::Tight => String::new(),
            Lock::Loose => LOOSE.to_owned(),
        };
        tool.state = State { tag, worn: self.worn.map(|wear| worn(fitted, wear)).unwrap_or_default() };
        tool
    }

    /// True where [`Self::tool`] makes the fitted tool of itself.
    pub(super) fn leave_the_tool(&self) -> bool {
        self.settings == Settings::AsDefined && self.worn.is_none() && self.lock == Lock::Tight
    }

    /// As a record spells them: empty, or such as `lead=0.02 mm`, parted by semicolons. `tool` is the one under them.
    pub fn word(&self, tool: &Instrument) -> String {
        let mut parts = Vec::new();
        match self.settings {
            Settings::AsDefined => {}
            Settings::Between(count) => parts.push(format!("between={}", count.0)),
            Settings::Estimated => parts.push("read=estimate".to_owned()),
        }
        if self.lead != Quanta::ZERO {
            parts.push(format!("lead={}", tool.spell_with_unit(self.lead)));
        }
        if let Some(Wear(wear)) = self.worn {
            parts.push(format!("worn={wear}"));
        }
        if self.lock == Lock::Loose {
            parts.push("lock=loose".to_owned());
        }
        parts.extend(change::words(&self.change, tool));
        if let (Some(set), Some(other)) = (self.set, tool.own_slide()) {
            parts.push(format!("set={}", other.tool.spell_with_unit(set)));
        }
        parts.join("; ")
    }

    /// The conditions of a record's word; `None` for a word that is none of ours, or not of this fitted tool.
    pub fn from_word(word: &str, fitted: &Instrument) -> Option<Self> {
        let mut conditions = Self::default();
        let mut lead = None;
        for part in word.split(';').map(str::trim).filter(|part| !part.is_empty()) {
            match part.split_once('=')? {
                ("lead", length) => lead = Some(length),
                ("read", "estimate") if fitted.estimate.is_some() => {
                    conditions.settings = Settings::Estimated;
                }
                ("between", count) => {
                    let parts = count.parse().ok().filter(|parts| (2..=MOST_PARTS.0).contains(parts))?;
                    conditions.settings = Settings::Between(Parts(parts));
                }
                ("set", length) => conditions.set = Some(length_of(length, &fitted.own_slide()?.tool)?),
                ("worn", wear) => conditions.worn = Some(Wear(wear.parse().ok()?)),
                ("lock", "loose") => conditions.lock = Lock::Loose,
                (name, value) => change::take(&mut conditions.change, name, value, fitted)?,
            }
        }
        if let Some(length) = lead {
            conditions.lead = length_of(length, &conditions.tool(fitted))?;
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
        let plain = Conditions::default();
        let all = [
            (Conditions { lead: Quanta(3), ..plain.clone() }, "lead=0.03 mm"),
            (Conditions { settings: Settings::Between(Parts(10)), ..plain.clone() }, "between=10"),
            (
                Conditions { settings: Settings::Estimated, lead: Quanta(-30), ..plain.clone() },
                "read=estimate; lead=-0.030 mm",
            ),
            (Conditions { worn: Some(Wear(17)), lock: Lock::Loose, ..plain.clone() }, "worn=17; lock=loose"),
            (plain, ""),
        ];
        for (conditions, word) in all {
            assert_eq!(conditions.word(&conditions.tool(tool)), word);
            assert_eq!(Conditions::from_word(word, tool), Some(conditions));
        }
        for wrong in
            ["lead=0.003 in", "late", "between=1", "between=11", "between=x", "lock=tight", "worn=-1"]
        {
            assert_eq!(Conditions::from_word(wrong, tool), None, "{wrong}");
        }
        let vernier = catalogue.get("caliper-metric-50").expect("shipped");
        assert_eq!(Conditions::from_word("read=estimate", vernier), None, "a vernier is never estimated");
        let gear = catalogue.get("gear-tooth-metric").expect("shipped");
        let set = Conditions { set: Some(Quanta(683)), ..Conditions::default() };
        assert_eq!(set.word(gear), "set=13.66 mm");
        assert_eq!(Conditions::from_word("set=13.66 mm", gear), Some(set));
    }
}

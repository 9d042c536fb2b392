//! Care cards: how a family of instruments is checked, used and kept. One file a family in `assets/care`.

use serde::Deserialize;

/// A care card.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CareCard {
    /// What it is for.
    pub title: String,
    /// Checks before use.
    pub before: Vec<String>,
    /// How a measurement is taken.
    pub measure: Vec<String>,
    /// How it is kept.
    pub storage: Vec<String>,
    /// What wears and cannot be adjusted.
    pub wear: Vec<String>,
    /// What must never be done.
    pub cautions: Vec<String>,
    /// Where this is published, or that it is common practice.
    pub source: String,
}

/// The cards, by family.
static CARDS: &[(&str, &str)] = &[
    ("caliper", include_str!("../../assets/care/caliper.toml")),
    ("depth", include_str!("../../assets/care/depth.toml")),
    ("depth-gauge", include_str!("../../assets/care/depth-gauge.toml")),
    ("dial-caliper", include_str!("../../assets/care/dial-caliper.toml")),
    ("dial-indicator", include_str!("../../assets/care/dial-indicator.toml")),
    ("gear-tooth", include_str!("../../assets/care/gear-tooth.toml")),
    ("handwheel", include_str!("../../assets/care/handwheel.toml")),
    ("height-gauge", include_str!("../../assets/care/height-gauge.toml")),
    ("inside", include_str!("../../assets/care/inside.toml")),
    ("lesson", include_str!("../../assets/care/lesson.toml")),
    ("micrometer", include_str!("../../assets/care/micrometer.toml")),
    ("protractor", include_str!("../../assets/care/protractor.toml")),
    ("rule", include_str!("../../assets/care/rule.toml")),
];

/// The care card of a family; none for a family of one's own.
pub fn care_card(family: &str) -> Option<CareCard> {
    let (_, text) = CARDS.iter().find(|(name, _)| *name == family)?;
    Some(toml::from_str(text).expect("a shipped care card is well-formed; a test reads them all"))
}

#[cfg(test)]
mod tests {
    use super::{CARDS, care_card};
    use crate::instrument::Catalogue;

    #[test]
    fn every_shipped_instrument_has_a_card() {
        for instrument in Catalogue::new(Vec::new()).all() {
            let card = care_card(&instrument.family);
            assert!(card.is_some(), "no care card for {} of {}", instrument.family, instrument.id);
        }
    }

    #[test]
    fn every_card_says_something_on_everything() {
        for (family, _) in CARDS {
            let card = care_card(family).expect("listed");
            for part in [&card.before, &card.measure, &card.storage, &card.wear, &card.cautions] {
                assert!(!part.is_empty() && part.iter().all(|line| line.ends_with('.')), "{family}");
            }
            assert!(!card.source.is_empty(), "{family}");
        }
    }
}

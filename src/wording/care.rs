//! A care card in lines.

use super::CAUTIONS;
use crate::instrument::CareCard;

/// A heading and its sentences.
pub type Section<'a> = (&'static str, Vec<&'a str>);

/// The card's sections in the order they are needed, the shop's own rules last.
pub fn care(card: &CareCard) -> Vec<Section<'_>> {
    vec![
        ("Before use", lines(&card.before)),
        ("Taking the measurement", lines(&card.measure)),
        ("Keeping it", lines(&card.storage)),
        ("What wears", lines(&card.wear)),
        ("Never", lines(&card.cautions)),
        ("Always", vec![CAUTIONS[1], CAUTIONS[3]]),
    ]
}

fn lines(part: &[String]) -> Vec<&str> {
    part.iter().map(String::as_str).collect()
}

/// Where the card's sentences are from.
pub fn care_source(card: &CareCard) -> String {
    format!("Source: {}.", card.source)
}

/// A family without a card.
pub fn no_care_card(family: &str) -> String {
    let family: String = family.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
    format!("there is no care card for the family {family}; ask whoever keeps the tool crib")
}

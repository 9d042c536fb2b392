//! The nearest known name.

/// The candidate that `wrong` most likely meant, if any is near enough to suggest.
pub fn nearest<'a>(wrong: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let wrong: String = wrong.chars().take(64).collect();
    candidates
        .into_iter()
        .map(|candidate| (strsim::damerau_levenshtein(&wrong, candidate), candidate))
        .filter(|(distance, candidate)| *distance <= (candidate.chars().count() / 3).max(1))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn suggests_only_what_is_near() {
        let keys = ["division", "numerals", "tiers"];
        assert_eq!(nearest("divison", keys), Some("division"));
        assert_eq!(nearest("numeral", keys), Some("numerals"));
        assert_eq!(nearest("colour", keys), None);
    }
}

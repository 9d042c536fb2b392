//! Floor 1. The trade's words: one word a thing, the same in code, files, documents and messages; other shops' words for it,
//! by which help finds it; and spellings the project refuses.

/// A word of the trade.
pub struct Term {
    /// The word used here.
    pub word: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Other words for it.
    pub also: &'static [&'static str],
}

const fn term(word: &'static str, meaning: &'static str, also: &'static [&'static str]) -> Term {
    Term { word, meaning, also }
}

/// The glossary, in the order of the alphabet.
pub static GLOSSARY: &[Term] = &[
    term(
        "20\u{2039}3",
        "figure 20 is left of the picture; the first line in view comes third after it",
        &["left", "mark", "sign"],
    ),
    term(
        "balanced face",
        "a dial figured both ways from 0 and read plus or minus",
        &["plus and minus", "comparator"],
    ),
    term("coincidence", "a vernier line that runs straight on into a line of the other scale", &["in line"]),
    term("collar", "the graduated ring of a handwheel, read at a line beside it", &["handwheel dial"]),
    term("counter", "the small scale whose hand counts the turns of the large one", &["revolution counter"]),
    term(
        "datum line",
        "the line along the sleeve that the thimble is read against",
        &["index line", "reading line"],
    ),
    term("dial", "a round scale that a hand goes round once a turn", &["clock", "dial gauge", "gage"]),
    term("division", "the value between two neighbouring graduations", &["graduation interval"]),
    term("frame", "the bow of an outside micrometer; the size stamped on it says what to add", &["bow"]),
    term("glass", "the magnifying glass over the two scales", &["lens", "loupe", "eyeglass"]),
    term("graduation", "a marked line of a scale", &["mark"]),
    term("hand", "what points at the line of a dial to be read", &["pointer", "needle"]),
    term("in the hand", "the tool as it looks when it is read", &["held"]),
    term("laid flat", "its round scales unwrapped into straight lines", &["unwrapped", "flat"]),
    term("lead", "the travel of the spindle in one turn of the thimble", &["pitch"]),
    term("least count", "the smallest value read without estimating", &["readability"]),
    term("main scale", "the scale that the vernier is read against", &["bar", "beam"]),
    term("reading", "what the scales show, correctly read", &[]),
    term(
        "rod",
        "the interchangeable length of a depth or inside micrometer, added to its head",
        &["extension"],
    ),
    term("size", "the reading less the zero error", &["corrected reading"]),
    term("sleeve", "the fixed cylinder that carries the datum line", &["barrel", "hub"]),
    term("spacing collar", "half the step between two rods, put between rod and head", &["spacer"]),
    term(
        "standard",
        "the bar, block or ring of known size on which a tool is checked that cannot be closed",
        &["master"],
    ),
    term("thimble", "the turning drum with the fine scale", &[]),
    term("vernier", "the short scale whose one line in line gives the last figure", &[]),
    term("zero error", "what the tool reads when closed, with its sign", &["zero"]),
];

/// Spellings refused in code, files, documents and messages, with the word to use.
pub static REFUSED: &[(&str, &str)] = &[
    ("nonius", "vernier"),
    ("tick mark", "graduation"),
    ("hash mark", "graduation"),
    ("slider", "vernier"),
    ("gradebook", "class record"),
    ("loupe view", "glass"),
];

/// The terms that a text finds, by word or by other words.
pub fn find(text: &str) -> Vec<&'static Term> {
    let wanted = text.trim().to_lowercase();
    if wanted.chars().count() < 2 {
        return Vec::new();
    }
    GLOSSARY
        .iter()
        .filter(|term| term.word.contains(&wanted) || term.also.iter().any(|word| word.contains(&wanted)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{GLOSSARY, find};

    #[test]
    fn other_shops_words_find_the_term() {
        let words = |text| find(text).iter().map(|term| term.word).collect::<Vec<_>>();
        assert_eq!(words("barrel"), ["sleeve"]);
        assert_eq!(words("index"), ["datum line"]);
        assert!(words("x").is_empty());
    }

    #[test]
    fn in_order_and_once_each() {
        assert!(GLOSSARY.windows(2).all(|pair| pair[0].word < pair[1].word));
    }
}

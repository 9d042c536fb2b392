//! Sizes as they are said in the shop. The words are common practice, in Britain and in America.

use crate::drill::task::Manner;
use crate::exact::Exact;

/// Whether an "and" follows the hundreds, as it does in Britain.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Hundreds {
    And,
    Bare,
}

/// A value in words; one that is not said so, in figures.
pub fn said(manner: Manner, value: Exact) -> String {
    let Some(count) = manner.count(value).filter(|_| manner.says(value)) else {
        return crate::exact::Notation::Fraction.spell(value);
    };
    match manner {
        Manner::RunTogether | Manner::Thou | Manner::Thousandths => thou(manner, count),
        Manner::Allowance => allowance(count),
        Manner::Hundredths if count < 10 => several(count, "a hundredth", "hundredths"),
        Manner::Hundredths => several(count / 10, "a tenth", "tenths"),
        Manner::Microns => several(count, "a micron", "microns"),
        Manner::SleeveThimble => {
            let half = if count % 100 >= 50 { " and a half" } else { "" };
            format!("{}{half}, {}", plain(count / 100), two_figures(count % 50))
        }
        Manner::Point => point(count),
        Manner::Fraction => fraction(count),
        Manner::Degrees => degrees(count),
    }
}

fn thou(manner: Manner, count: i128) -> String {
    let (inches, thou, tenths) = (count / 10_000, count / 10 % 1000, count % 10);
    let inches = match inches {
        0 => String::new(),
        1 => "one inch, ".to_owned(),
        more => format!("{} inches, ", plain(more)),
    };
    let thou = match manner {
        Manner::Thou => format!("{} thou", number(thou, Hundreds::And)),
        Manner::Thousandths => format!("{} thousandths", number(thou, Hundreds::Bare)),
        _ if thou % 100 == 0 => format!("{} hundred", plain(thou / 100)),
        _ => format!("{} {}", plain(thou / 100), two_figures(thou % 100)),
    };
    let tenths = match tenths {
        0 => String::new(),
        5 => " and a half".to_owned(),
        more => format!(" and {}", several(more, "a tenth", "tenths")),
    };
    format!("{inches}{thou}{tenths}")
}

fn allowance(count: i128) -> String {
    let sign = if count < 0 { "minus" } else { "plus" };
    let size = count.abs();
    let said = match (size / 10, size % 10) {
        (0, 5) => "half a thou".to_owned(),
        (0, tenths) => several(tenths, "a tenth", "tenths"),
        (thou, 0) => several(thou, "a thou", "thou"),
        (1, _) => "a thou and a half".to_owned(),
        (thou, _) => format!("{} and a half thou", plain(thou)),
    };
    format!("{sign} {said}")
}

fn several(count: i128, one: &str, more: &str) -> String {
    if count == 1 { one.to_owned() } else { format!("{} {more}", plain(count)) }
}

/// Figure by figure after the point.
fn point(count: i128) -> String {
    let mut figures = vec![count / 100 % 10, count / 10 % 10, count % 10];
    while figures.last() == Some(&0) {
        figures.pop();
    }
    let figures: Vec<&str> = figures.into_iter().map(below_twenty).collect();
    format!("{} point {}", plain(count / 1000), figures.join(" "))
}

fn fraction(count: i128) -> String {
    let (whole, mut over, mut under) = (count / 64, count % 64, 64);
    while over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    let part = match (over, under) {
        (_, 2) => "a half".to_owned(),
        (1, 4) => "a quarter".to_owned(),
        (_, 4) => "three quarters".to_owned(),
        (over, under) => {
            let name = match under {
                8 => "eighth",
                16 => "sixteenth",
                32 => "thirty-second",
                _ => "sixty-fourth",
            };
            format!("{} {name}{}", plain(over), if over == 1 { "" } else { "s" })
        }
    };
    if whole == 0 { part } else { format!("{} and {part}", plain(whole)) }
}

fn degrees(count: i128) -> String {
    match count % 60 {
        30 => format!("{} and a half degrees", number(count / 60, Hundreds::And)),
        minutes => format!("{} {}", number(count / 60, Hundreds::And), two_figures(minutes)),
    }
}

/// Two figures as they follow others: oh four, thirty-four.
fn two_figures(n: i128) -> String {
    if n < 10 { format!("oh {}", below_twenty(n)) } else { plain(n) }
}

fn plain(n: i128) -> String {
    number(n, Hundreds::And)
}

fn number(n: i128, hundreds: Hundreds) -> String {
    const TENS: [&str; 10] =
        ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    match n {
        ..20 => below_twenty(n).to_owned(),
        20..100 => {
            let tens = TENS[usize::try_from(n / 10).expect("below ten")];
            if n % 10 == 0 { tens.to_owned() } else { format!("{tens}-{}", below_twenty(n % 10)) }
        }
        _ => {
            let head = format!("{} hundred", below_twenty(n / 100 % 10));
            match (n % 100, hundreds) {
                (0, _) => head,
                (rest, Hundreds::And) => format!("{head} and {}", number(rest, hundreds)),
                (rest, Hundreds::Bare) => format!("{head} {}", number(rest, hundreds)),
            }
        }
    }
}

fn below_twenty(n: i128) -> &'static str {
    const NUMBERS: [&str; 20] = [
        "nought",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ];
    usize::try_from(n).ok().and_then(|n| NUMBERS.get(n).copied()).unwrap_or("many")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exact::{Unit, parse_answer};

    /// As they are said: common practice.
    #[test]
    fn known_sayings() {
        let of = Exact::ratio;
        for (manner, value, words) in [
            (Manner::RunTogether, of(2862, 10_000), "two eighty-six and two tenths"),
            (Manner::RunTogether, of(205, 1000), "two oh five"),
            (Manner::RunTogether, of(12_001, 10_000), "one inch, two hundred and a tenth"),
            (Manner::RunTogether, of(3125, 10_000), "three twelve and a half"),
            (Manner::Thou, of(2862, 10_000), "two hundred and eighty-six thou and two tenths"),
            (Manner::Thousandths, of(286, 1000), "two hundred eighty-six thousandths"),
            (Manner::Thou, of(45, 1000), "forty-five thou"),
            (Manner::Allowance, of(15, 10_000), "plus a thou and a half"),
            (Manner::Allowance, of(-2, 10_000), "minus two tenths"),
            (Manner::Allowance, of(5, 10_000), "plus half a thou"),
            (Manner::Hundredths, of(3, 100), "three hundredths"),
            (Manner::Hundredths, of(1, 10), "a tenth"),
            (Manner::SleeveThimble, of(884, 100), "eight and a half, thirty-four"),
            (Manner::SleeveThimble, of(804, 100), "eight, oh four"),
            (Manner::Point, of(884, 100), "eight point eight four"),
            (Manner::Point, of(3, 100), "nought point nought three"),
            (Manner::Fraction, of(67, 64), "one and three sixty-fourths"),
            (Manner::Fraction, of(3, 4), "three quarters"),
            (Manner::Degrees, Exact::whole(23 * 60 + 47), "twenty-three forty-seven"),
            (Manner::Degrees, Exact::whole(12 * 60 + 30), "twelve and a half degrees"),
        ] {
            assert!(manner.says(value), "{words}");
            assert_eq!(said(manner, value), words);
        }
    }

    /// A number said at full length, as a child learns it: shares nothing with the way forward but the words.
    fn heard(words: &str) -> u32 {
        let ones = [
            ("one", 1),
            ("two", 2),
            ("three", 3),
            ("four", 4),
            ("five", 5),
            ("six", 6),
            ("seven", 7),
            ("eight", 8),
            ("nine", 9),
            ("ten", 10),
            ("eleven", 11),
            ("twelve", 12),
            ("thirteen", 13),
            ("fourteen", 14),
            ("fifteen", 15),
            ("sixteen", 16),
            ("seventeen", 17),
            ("eighteen", 18),
            ("nineteen", 19),
            ("twenty", 20),
            ("thirty", 30),
            ("forty", 40),
            ("fifty", 50),
            ("sixty", 60),
            ("seventy", 70),
            ("eighty", 80),
            ("ninety", 90),
            ("a", 1),
        ];
        words.split([' ', '-']).filter(|word| *word != "and").fold(0, |sum, word| {
            if word == "hundred" {
                sum * 100
            } else {
                sum + ones
                    .iter()
                    .find(|(name, _)| *name == word)
                    .unwrap_or_else(|| panic!("{word} in {words}"))
                    .1
            }
        })
    }

    /// Said in words, turned into `286 thou 2 tenths` and typed, every ten-thousandth below an inch is itself again.
    #[test]
    fn what_is_said_can_be_typed() {
        for count in 100..10_000 {
            let value = Exact::ratio(count, 10_000);
            for (manner, word) in [(Manner::Thou, " thou"), (Manner::Thousandths, " thousandths")] {
                let words = said(manner, value);
                let (thou, rest) = words.split_once(word).expect("thousandths are said");
                let tenths = match rest.trim_start_matches(" and ") {
                    "" => 0,
                    "a half" => 5,
                    rest => heard(rest.split_once(" tenth").expect("tenths are said").0),
                };
                let typed = parse_answer(&format!("{} thou {tenths} tenths", heard(thou)), Unit::Inch);
                assert_eq!(typed.map(|typed| typed.value), Ok(value), "{words}");
            }
        }
    }

    /// Nothing said stands for two values.
    #[test]
    fn one_saying_one_value() {
        for manner in Manner::ALL {
            let unit = match manner {
                Manner::RunTogether | Manner::Thou | Manner::Thousandths | Manner::Allowance => {
                    Exact::ratio(1, 10_000)
                }
                Manner::Hundredths | Manner::SleeveThimble => Exact::ratio(1, 100),
                Manner::Microns | Manner::Point => Exact::ratio(1, 1000),
                Manner::Fraction => Exact::ratio(1, 64),
                Manner::Degrees => Exact::ONE,
            };
            let mut all = std::collections::HashMap::new();
            for count in -100..21_000 {
                let value = unit * Exact::whole(count);
                if manner.says(value) {
                    let before = all.insert(said(*manner, value), value);
                    assert_eq!(before, None, "{}", said(*manner, value));
                }
            }
            assert!(all.len() >= 18, "{manner}: {}", all.len());
        }
    }
}

//! What is spelled is read back; a comma is as good as a point.

use crate::robot::kinds::KNOWN;
use crate::shots::{catalogue, shipped};
use linefall::drill::{self, Question};
use linefall::exact::{Exact, Notation, Quanta, Unit, parse_answer};
use linefall::instrument::{Catalogue, Instrument};
use proptest::prelude::*;
use std::sync::OnceLock;

fn shared() -> &'static Catalogue {
    static SHARED: OnceLock<Catalogue> = OnceLock::new();
    SHARED.get_or_init(catalogue)
}

/// A shipped instrument and a setting of it.
fn standing() -> impl Strategy<Value = (&'static Instrument, i64, i64)> {
    let below = |n: usize| if KNOWN[n].can_be_off { 5 } else { 0 };
    (0..KNOWN.len()).prop_flat_map(move |n| {
        let (low, high) = KNOWN[n].range;
        let zero = below(n);
        (Just(shipped(shared(), &KNOWN[n])), low - zero..=high, -zero..=zero)
    })
}

/// Digits, marks and signs in any order, as a hand on the keys makes them.
fn scribble() -> impl Strategy<Value = String> {
    proptest::string::string_regex("[-+ 0-9.,/'°a-z]{0,12}").expect("a pattern")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_spelled_setting_is_read_as_itself((instrument, setting, _) in standing()) {
        let at = Quanta(setting);
        let typed = parse_answer(&instrument.spell(at), instrument.unit).expect("a spelled value");
        prop_assert_eq!(typed.value, instrument.value(at));
        let typed = parse_answer(&instrument.spell_with_unit(at), instrument.unit).expect("with its unit");
        prop_assert_eq!(typed.value, instrument.value(at));
    }

    #[test]
    fn a_spelled_value_is_read_as_itself(numerator in -1_000_000_i128..1_000_000, places in 0_u32..6) {
        let value = Exact::ratio(numerator, 10_i128.pow(places));
        for notation in [Notation::Decimal { places }, Notation::Fraction] {
            for unit in [Unit::Inch, Unit::Millimetre] {
                let text = notation.spell(value);
                let typed = parse_answer(&text, unit).expect("a spelled value");
                prop_assert_eq!(typed.value, value, "{}", text);
            }
        }
        let minutes = Exact::whole(numerator);
        let typed = parse_answer(&Notation::Angle.spell(minutes), Unit::Minute).expect("a spelled angle");
        prop_assert_eq!(typed.value, minutes);
    }

    #[test]
    fn right_answers_are_right_with_point_and_comma((instrument, setting, zero_error) in standing()) {
        let variant = instrument.variants()[0].clone();
        let question = Question::new(instrument, 1, Quanta(setting), Quanta(zero_error), variant);
        let right = instrument.spell(Quanta(setting - zero_error));
        for text in [right.clone(), right.replace('.', ","), format!(" {right} {}", instrument.unit.symbol())] {
            let typed = parse_answer(&text, instrument.unit).expect("a spelled value");
            let mark = drill::mark(&question.case(instrument), &typed);
            prop_assert_eq!(mark.verdict, drill::Verdict::Right, "{} at {}: {}", instrument.id, setting, text);
        }
    }

    #[test]
    fn marks_are_the_same_with_point_and_comma((instrument, setting, off) in standing(), by in -400_i64..400) {
        let variant = instrument.variants()[0].clone();
        let question = Question::new(instrument, 1, Quanta(setting), Quanta(off), variant);
        let text = instrument.spell(Quanta(setting + by));
        let marks = [text.clone(), text.replace('.', ",")].map(|text| {
            let typed = parse_answer(&text, instrument.unit).expect("a spelled value");
            let mark = drill::mark(&question.case(instrument), &typed);
            (mark.verdict, mark.note, mark.misreads.iter().map(|found| found.misread.id).collect::<Vec<_>>())
        });
        prop_assert_eq!(&marks[0], &marks[1], "{} at {}: {}", instrument.id, setting, text);
        let right = setting + by == setting - off;
        prop_assert_eq!(marks[0].0.is_right(), right);
    }

    #[test]
    fn what_is_typed_is_read_alike_with_point_and_comma(text in scribble()) {
        for unit in [Unit::Inch, Unit::Millimetre, Unit::Minute] {
            let value = |text: &str| parse_answer(text, unit).map(|typed| (typed.value, typed.form));
            prop_assert_eq!(value(&text.replace(',', ".")), value(&text.replace('.', ",")), "{}", text);
        }
    }
}

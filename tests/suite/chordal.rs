//! Chordal values of gear teeth: the table against the published formula, and what slides are set to.

use crate::shots::catalogue;
use linefall::drill::{Role, Seed, question};
use linefall::exact::{Exact, Quanta};
use linefall::instrument::{Pitch, teeth};
use std::collections::BTreeSet;

/// The formula of electricalworkbook.com, gear tooth vernier caliper, to four decimals.
#[test]
fn the_table_is_the_formula() {
    assert!(teeth().len() > 30);
    for tooth in teeth() {
        let n = i32::try_from(tooth.teeth).expect("few teeth");
        let angle = (90.0 / f64::from(n)).to_radians();
        let thickness = f64::from(n) * angle.sin();
        let addendum = f64::from(n) / 2.0 * (1.0 + 2.0 / f64::from(n) - angle.cos());
        for (value, formula) in [(tooth.thickness, thickness), (tooth.addendum, addendum)] {
            let scaled = value * Exact::whole(10_000);
            let scaled = i32::try_from(scaled.to_whole().expect("four decimals")).expect("small");
            assert!((f64::from(scaled) - formula * 1e4).abs() <= 0.5 + 1e-6, "{n} teeth: {scaled} {formula}");
        }
    }
}

/// Worked by hand from the same formula, apart from the table.
#[test]
fn the_table_has_the_values_worked_by_hand() {
    for (n, thickness, addendum) in [
        (12, 15_663, 10_513),
        (17, 15_686, 10_363),
        (20, 15_692, 10_308),
        (24, 15_697, 10_257),
        (30, 15_701, 10_206),
        (40, 15_704, 10_154),
    ] {
        let tooth = teeth().iter().find(|tooth| tooth.teeth == n).expect("in the table");
        assert_eq!(tooth.thickness, Exact::ratio(thickness, 10_000), "{n}");
        assert_eq!(tooth.addendum, Exact::ratio(addendum, 10_000), "{n}");
    }
}

/// W80 and W81: chordal values have more digits than a slide can be set to.
#[test]
fn published_values_are_set_to_the_least_count() {
    let catalogue = catalogue();
    let tool = catalogue.get("gear-tooth-metric").expect("shipped");
    let height = &tool.own_slide().expect("two slides").tool;
    let set = height.nearest_setting(Exact::ratio(136_657, 10_000));
    assert_eq!(height.spell_with_unit(set), "13.66 mm");
    let thickness = tool.nearest_setting(Exact::ratio(178_256, 10_000));
    assert_eq!(tool.spell_with_unit(thickness), "17.82 mm");
    let tooth = teeth().iter().find(|tooth| tooth.teeth == 24).expect("in the table");
    assert_eq!(tool.set_for(tooth, Pitch::Module(Exact::whole(4))), Some((Quanta(205), Quanta(314))));
    assert_eq!(tool.set_for(tooth, Pitch::Module(Exact::whole(40))), None);
    let inch = catalogue.get("gear-tooth-inch").expect("shipped");
    assert_eq!(inch.set_for(tooth, Pitch::Diametral(Exact::whole(4))), Some((Quanta(256), Quanta(392))));
    assert_eq!(
        catalogue.get("caliper-two-scale").expect("shipped").set_for(tooth, Pitch::Module(Exact::whole(4))),
        None
    );
}

/// Questions on a gear-tooth caliper show the height slide before the thickness, and now and then ask the height alone.
#[test]
fn the_height_is_set_before_the_thickness_is_read() {
    let catalogue = catalogue();
    for id in ["gear-tooth-inch", "gear-tooth-metric"] {
        let instrument = catalogue.get(id).expect("shipped");
        let (mut heights, mut settings) = (0, BTreeSet::new());
        for number in 1..=400 {
            let question = question(instrument, Seed(7), number);
            let tool = instrument.fitted(&question.variant);
            assert!(tool.low <= question.setting && question.setting <= tool.high, "{id} {number}");
            let roles: Vec<Role> = question.earlier(&tool).iter().map(|sight| sight.role).collect();
            if question.variant.word() == "reads=height" {
                heights += 1;
                assert!(!roles.contains(&Role::Height), "{id} {number}");
            } else {
                assert_eq!(question.variant.word(), "");
                assert_eq!(roles.last(), Some(&Role::Height), "{id} {number}");
                settings.insert(question.setting);
            }
        }
        assert!((40..=130).contains(&heights), "{id}: the height alone {heights} times of 400");
        assert!(settings.len() > 100, "{id}: {} settings", settings.len());
    }
}

/// Of two scales on one jaw both are asked, mixed.
#[test]
fn both_scales_of_a_jaw_are_asked() {
    let catalogue = catalogue();
    let instrument = catalogue.get("caliper-two-scale").expect("shipped");
    let inches =
        (1..=400).filter(|number| question(instrument, Seed(7), *number).variant.word() == "reads=in");
    let inches = inches.count();
    assert!((150..=250).contains(&inches), "{inches} of 400 in inches");
}

//! Which picture is whole, which is read through a glass, which falls back to the view laid flat, which is refused. The record
//! says it for every instrument; a difference is a fault. `LINEFALL_RECORD=write` writes the record anew, to be looked through.

use crate::readback::read_back;
use crate::robot::kinds::{KNOWN, Known};
use crate::shots::{How, Look, Size, catalogue, looks, shipped};
use linefall::render::{Drawing, Extent, Glass, LineStyle};
use linefall::scene::View;
use std::collections::BTreeMap;
use std::fmt::Write as _;

const RECORD: &str = include_str!("../records/extent.toml");

/// The sizes in the record.
const RECORDED: [Size; 7] = [(80, 24), (90, 27), (100, 30), (120, 36), (132, 43), (160, 45), (200, 60)];

const HEAD: &str = "# Which picture is whole, which is read through a glass slid over an overview (slide), which is laid flat
# because the view in the hand does not fit (flat), and which is refused, with the size it asks for.
# Under `least`: the fewest columns that 24 and 45 rows allow, and the fewest rows that 80 and 160 columns allow.
";

/// How the record calls an instrument, or one of its sets of scales.
fn key(known: &Known) -> String {
    known.id.replace(" reads=", "-")
}

/// What becomes of a request.
fn fate(look: &Look<'_>, how: How, setting: i64) -> String {
    match look.draw(setting, how) {
        Err(refusal) => format!("refused {}x{}", refusal.needs_cols, refusal.needs_rows),
        Ok(drawing) => fate_of(look, &drawing).to_owned(),
    }
}

/// What became of a request that was drawn.
pub fn fate_of(look: &Look<'_>, drawing: &Drawing) -> &'static str {
    let fell_back = look.view == View::Held && drawing.view == View::Flat;
    match (fell_back, drawing.extent) {
        (false, Extent::Whole) => "whole",
        (false, Extent::Slide) => "slide",
        (true, Extent::Whole) => "flat whole",
        (true, Extent::Slide) => "flat slide",
    }
}

/// Settings at which a fate is looked at; it must be the same at all.
fn settings(known: &Known) -> Vec<i64> {
    let (low, high) = known.range;
    let mut all = vec![
        low,
        low + 1,
        low + known.interval,
        i64::midpoint(low, high),
        high - known.interval / 2,
        high - 1,
        high,
    ];
    if known.can_be_off {
        all.extend([low - 1, low - 5]);
    }
    all
}

fn steady_fate(look: &Look<'_>, how: How) -> String {
    let fates: Vec<String> = settings(look.known).into_iter().map(|at| fate(look, how, at)).collect();
    assert!(
        fates.iter().all(|fate| *fate == fates[0]),
        "{} {how:?} depends on the setting: {fates:?}",
        look.name()
    );
    fates.into_iter().next().expect("one fate")
}

/// The first of a run of sizes that is drawn. All after it must be drawn as well.
fn least(look: &Look<'_>, style: LineStyle, sizes: &mut dyn Iterator<Item = Size>) -> Option<Size> {
    let mut first = None;
    for size in sizes {
        let drawn = look.draw(look.known.range.0, How::new(size, style)).is_ok();
        match (drawn, first) {
            (true, None) => first = Some(size),
            (false, Some(first)) => {
                panic!("{} {}: drawn from {first:?} on, but not at {size:?}", look.name(), style.word())
            }
            _ => {}
        }
    }
    first
}

/// The fewest columns at 24 and 45 rows, and the fewest rows at 80 and 160 columns.
fn least_sizes(look: &Look<'_>, style: LineStyle) -> [Option<Size>; 4] {
    let cols = |rows: i64| least(look, style, &mut (1..=260).map(|cols| (cols, rows)));
    let rows = |cols: i64| least(look, style, &mut (1..=70).map(|rows| (cols, rows)));
    [cols(24), cols(45), rows(80), rows(160)]
}

fn list(of: impl Fn(LineStyle) -> String) -> String {
    let styles: Vec<String> =
        LineStyle::ALL.iter().map(|style| format!("{} = \"{}\"", style.word(), of(*style))).collect();
    styles.join(", ")
}

/// The part of the record that is a variant's own.
fn of_variant(look: &Look<'_>) -> Option<String> {
    let key = |key: &str| look.variant.value(key).map(|word| format!("{key}-{word}"));
    key("halves").or_else(|| key("direction"))
}

fn record_of(known: &'static Known) -> String {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known);
    let mut record = String::new();
    for look in looks(known, instrument) {
        let halves = of_variant(&look).map_or(String::new(), |word| format!(".{word}"));
        let mut line = |text: String| writeln!(record, "{text}").expect("a string takes all");
        line(format!("\n[{}.{}{halves}]", key(known), look.view.word()));
        for size in RECORDED {
            let fates = list(|style| steady_fate(&look, How::new(size, style)));
            line(format!("{}x{} = {{ {fates} }}", size.0, size.1));
        }
        let least = list(|style| {
            let word = |n: Option<i64>| n.map_or_else(|| "none".to_owned(), |n| n.to_string());
            let [a, b, c, d] = least_sizes(&look, style);
            let [a, b] = [a, b].map(|size| word(size.map(|size| size.0)));
            let [c, d] = [c, d].map(|size| word(size.map(|size| size.1)));
            format!("{a} {b} columns, {c} {d} rows")
        });
        line(format!("least = {{ {least} }}"));
    }
    record
}

#[test]
fn the_record_of_extents_is_kept() {
    let found: String = HEAD.to_owned() + &KNOWN.iter().map(record_of).collect::<String>();
    if std::env::var("LINEFALL_RECORD").as_deref() == Ok("write") {
        let file = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/records/extent.toml");
        std::fs::write(file, &found).expect("the record can be written");
        return;
    }
    found.parse::<toml::Table>().expect("the record is TOML");
    let differ: Vec<String> = found
        .lines()
        .zip(RECORD.lines())
        .filter(|(found, kept)| found != kept)
        .map(|(found, kept)| format!("- {kept}\n+ {found}"))
        .collect();
    assert!(differ.is_empty(), "extents have changed:\n{}", differ.join("\n"));
    assert_eq!(found.lines().count(), RECORD.lines().count(), "the record has other lines");
}

/// What the record says of a picture of one of its sizes.
pub fn recorded(look: &Look<'_>, how: How) -> String {
    let record: toml::Table = RECORD.parse().expect("the record is TOML");
    let mut table = &record[key(look.known).as_str()][look.view.word()];
    if let Some(word) = of_variant(look) {
        table = &table[&word];
    }
    let size = format!("{}x{}", how.size.0, how.size.1);
    table[&size][how.style.word()].as_str().expect("a word").to_owned()
}

/// Whether the record lets a picture be refused.
pub fn may_be_refused(look: &Look<'_>, how: How) -> bool {
    recorded(look, how).starts_with("refused")
}

/// A column less than the fewest, or a row less, is refused; the size that is named is the fewest.
#[test]
fn one_less_is_refused_and_the_least_is_named() {
    let catalogue = catalogue();
    for known in &KNOWN {
        let instrument = shipped(&catalogue, known);
        for look in looks(known, instrument) {
            for style in LineStyle::ALL {
                for (n, size) in least_sizes(&look, style).into_iter().enumerate() {
                    let Some((cols, rows)) = size else { continue };
                    let less = if n < 2 { (cols - 1, rows) } else { (cols, rows - 1) };
                    for setting in settings(known) {
                        let at = format!("{} {} at {less:?}, {setting}", look.name(), style.word());
                        let refusal = look.draw(setting, How::new(less, style)).expect_err(&at);
                        assert_eq!((refusal.cols, refusal.rows), less, "{at}");
                        let named =
                            if n < 2 { (cols, refusal.needs_rows) } else { (refusal.needs_cols, rows) };
                        assert_eq!((refusal.needs_cols, refusal.needs_rows), named, "{at}");
                        let size = (less.0.max(named.0), less.1.max(named.1));
                        assert!(
                            look.draw(setting, How::new(size, style)).is_ok(),
                            "{at}: {size:?} is refused"
                        );
                    }
                }
            }
        }
    }
}

/// The smallest pictures that are drawn are read back as well.
#[test]
fn the_smallest_pictures_are_read() {
    let catalogue = catalogue();
    let mut pictures = 0;
    let mut faults = BTreeMap::new();
    for known in &KNOWN {
        let instrument = shipped(&catalogue, known);
        let (low, high) = known.range;
        let step = usize::try_from((high - low) / 97).expect("positive").max(1);
        for look in looks(known, instrument) {
            for style in LineStyle::ALL {
                for size in least_sizes(&look, style).into_iter().flatten() {
                    for setting in (low..=high).step_by(step).chain(settings(known)) {
                        pictures += 1;
                        if let Err(fault) = read_back(&look, How::new(size, style), setting) {
                            let sort: String = fault.chars().filter(|c| !c.is_ascii_digit()).collect();
                            let sort = format!("{} {} at {size:?}: {sort}", look.name(), style.word());
                            let first = || (0, format!("at {setting}: {fault}"));
                            faults.entry(sort).or_insert_with(first).0 += 1;
                        }
                    }
                }
            }
        }
    }
    println!("{pictures} smallest pictures");
    assert!(faults.is_empty(), "{faults:#?}");
}

/// A refusal names a size that is enough and not too much.
fn refusals_of(known: &'static Known, glass: Glass) -> (u32, BTreeMap<String, (u32, String)>) {
    let catalogue = catalogue();
    let instrument = shipped(&catalogue, known);
    let mut faults = BTreeMap::new();
    let mut refusals = 0;
    for look in looks(known, instrument) {
        for style in LineStyle::ALL {
            for (cols, rows) in
                (1..=165).step_by(4).flat_map(|cols| [3, 8, 12, 16, 20, 24, 45].map(|rows| (cols, rows)))
            {
                let draw = |size: Size| look.draw(known.range.0, How::new(size, style).with(glass));
                let Err(refusal) = draw((cols, rows)) else { continue };
                refusals += 1;
                let needs = (refusal.needs_cols, refusal.needs_rows);
                let mut fault = |what: &str| {
                    let sort = format!("{} {} {glass:?}: {what}", look.name(), style.word());
                    let first = || (0, format!("at {cols}x{rows}, which names {}x{}", needs.0, needs.1));
                    faults.entry(sort).or_insert_with(first).0 += 1;
                };
                if needs.0 <= cols && needs.1 <= rows {
                    fault("the size named is there");
                }
                if draw((needs.0.max(cols), needs.1.max(rows))).is_err() {
                    fault("the size named is refused as well");
                }
                if needs.0 > cols && draw((needs.0 - 1, needs.1.max(rows))).is_ok() {
                    fault("a column less is enough");
                }
                if needs.1 > rows && draw((needs.0.max(cols), needs.1 - 1)).is_ok() {
                    fault("a row less is enough");
                }
            }
        }
    }
    (refusals, faults)
}

#[test]
fn a_refusal_names_a_size_that_is_enough() {
    let mut refusals = 0;
    let mut faults = Vec::new();
    for known in &KNOWN {
        for glass in [Glass::IfNeeded, Glass::Forbidden, Glass::At(0)] {
            let (count, found) = refusals_of(known, glass);
            refusals += count;
            faults.extend(found.into_iter().map(|(sort, (n, first))| format!("{n} x {sort}; first {first}")));
        }
    }
    println!("{refusals} refusals");
    let shown = 60.min(faults.len());
    assert!(
        faults.is_empty(),
        "{} faults in {refusals} refusals:\n{}",
        faults.len(),
        faults[..shown].join("\n")
    );
}

//! A robot reads every picture back.

use crate::extent::{fate_of, may_be_refused, recorded};
use crate::robot::kinds::{Disc, KNOWN, Kind, Known, known};
use crate::robot::{self, Met};
use crate::shots::{How, Look, SIZES, catalogue, intervals, looks, shipped};
use linefall::render::{Extent, Glass, LineStyle, text};
use linefall::scene::View;
use std::collections::BTreeMap;
use std::fmt::Debug;
use std::time::Instant;

/// How many pictures were looked at, and the faults found: of each sort how many, and the first.
#[derive(Default)]
pub struct Tally {
    pictures: u64,
    wrong: u64,
    sorts: BTreeMap<String, (u64, String)>,
}

impl Tally {
    /// Reads one picture back.
    fn look(&mut self, look: &Look<'_>, how: How, setting: i64) {
        self.note(look, how, setting, read_back(look, how, setting).map(|_| ()));
    }

    /// Reads back the picture of every setting, which must be what the record says of this size.
    fn all(&mut self, look: &Look<'_>, how: How, settings: &mut dyn Iterator<Item = i64>) {
        let wanted = recorded(look, how);
        for setting in settings {
            let seen = if wanted.starts_with("refused") {
                look.draw(setting, how).map_or(Ok(()), |_| Err("drawn, not refused".to_owned()))
            } else {
                read_back(look, how, setting).and_then(|fate| expect("extent", fate, wanted.as_str()))
            };
            self.note(look, how, setting, seen);
        }
    }

    fn note(&mut self, look: &Look<'_>, how: How, setting: i64, seen: Result<(), String>) {
        self.pictures += 1;
        if let Err(fault) = seen {
            self.wrong += 1;
            let sort: String = fault.chars().filter(|c| !c.is_ascii_digit()).collect();
            let sort = format!("{} {:?} {}: {sort}", look.name(), how.size, how.style.word());
            let first = || (0, format!("at {setting}, {:?}: {fault}", how.glass));
            self.sorts.entry(sort).or_insert_with(first).0 += 1;
        }
    }

    fn finish(self, what: &str, since: Instant) {
        println!("{what}: {} pictures in {:.1} s", self.pictures, since.elapsed().as_secs_f32());
        let list: Vec<String> =
            self.sorts.iter().take(40).map(|(sort, (n, first))| format!("{n} x {sort}; {first}")).collect();
        assert!(self.pictures > 0, "{what}: nothing was looked at");
        assert_eq!(self.wrong, 0, "{what}: wrong of {}\n{}", self.pictures, list.join("\n"));
    }
}

/// The vernier lines in line at a setting, by arithmetic.
fn in_line(known: &Known, setting: i64) -> Vec<i64> {
    let (division, vernier) = match &known.kind {
        Kind::Rule(_) | Kind::Dial(_) | Kind::Disc(_) => return Vec::new(),
        Kind::Pair(scale, vernier) => (scale.division, vernier),
        Kind::Micrometer(barrel) => match &barrel.vernier {
            Some(vernier) => (barrel.thimble.division, vernier),
            None => return Vec::new(),
        },
    };
    (0..=vernier.lines.end).filter(|k| (setting + k * vernier.part) % division == 0).collect()
}

fn expect<T: PartialEq + Debug + Copy>(what: &str, got: T, wanted: T) -> Result<(), String> {
    if got == wanted { Ok(()) } else { Err(format!("{what}: {got:?} in place of {wanted:?}")) }
}

/// What must be seen of a vernier at a setting.
fn check_met(known: &Known, way: i64, setting: i64, met: &Met, glass: bool) -> Result<(), String> {
    let mut wanted = in_line(known, setting);
    let mut lines = if wanted.contains(&0) { 2 } else { 1 };
    if let Kind::Disc(Disc { division, vernier: Some(vernier), .. }) = &known.kind {
        wanted =
            vernier.lines.clone().filter(|k| (way * setting + k * vernier.part) % division == 0).collect();
        lines = if wanted.contains(&0) { 3 } else { 2 };
    }
    expect("lines in line by arithmetic", wanted.len(), lines)?;
    // Below zero a main scale has no line for the vernier to meet.
    if let Kind::Pair(_, vernier) = &known.kind {
        wanted.retain(|k| setting - known.manner().added + k * vernier.part >= 0);
    }
    wanted.retain(|k| (met.view.0..=met.view.1).contains(k));
    expect("lines in line", &met.in_line, &wanted)?;
    if glass {
        if met.miss < met.dots {
            return Err(format!("a miss of {} dots at {} dots per quantum", met.miss, met.dots));
        }
        if met.neighbour {
            expect("the smallest miss", met.miss, met.dots)?;
        }
        if met.lines[0] < 3 || met.lines[1] < 3 {
            return Err(format!("lines of scale and vernier in the glass: {:?}", met.lines));
        }
    } else {
        expect("the smallest miss", met.miss, met.dots)?;
        if !met.passed_in_view && setting >= known.manner().added {
            return Err("the line last passed is not in view".to_owned());
        }
    }
    if met.figures.contains(&0) {
        return Err(format!("figures of scale and vernier in view: {:?}", met.figures));
    }
    Ok(())
}

/// Reads a picture back, and says whether it is whole, slid or laid flat.
pub fn read_back(look: &Look<'_>, how: How, setting: i64) -> Result<&'static str, String> {
    let drawing = look.draw(setting, how).map_err(|refusal| refusal.to_string())?;
    let lines = text::lines(&drawing.grid);
    let read = robot::read(&lines, look.known)?;
    expect("reading", read.value, setting)?;
    expect("held", read.held, drawing.view == View::Held)?;
    expect("overview", read.overview, drawing.extent == Extent::Slide)?;
    expect("glass", read.glass.is_some(), drawing.glass.is_some())?;
    if let (Some(line), Some(met)) = (drawing.glass, &read.glass)
        && !(met.view.0..=met.view.1).contains(&line)
    {
        return Err(format!("line {line} is not in the glass that was put on it, but {:?}", met.view));
    }
    if let Some((lead, steps)) = &read.lead
        && !lead.contains(&(look.lead * steps))
    {
        return Err(format!("the edge is early by {lead:?} in {steps}ths, not by {}", look.lead));
    }
    if read.dots < 1 {
        return Err(format!("{} dots per quantum", read.dots));
    }
    let way = if look.variant.value("direction") == Some("left") { -1 } else { 1 };
    if let Some(seen) = read.way {
        expect("the way the zero has moved", seen, way)?;
    } else if matches!(look.known.kind, Kind::Disc(_)) {
        let turns = setting == look.known.range.0 || setting == look.known.range.1;
        expect("the zero has moved", turns, true)?;
    }
    if let Some(met) = &read.whole {
        check_met(look.known, way, setting, met, false).map_err(|fault| format!("whole: {fault}"))?;
    }
    if let Some(met) = &read.glass {
        check_met(look.known, way, setting, met, true).map_err(|fault| format!("glass: {fault}"))?;
    }
    Ok(fate_of(look, &drawing))
}

const EXACT: [LineStyle; 3] = [LineStyle::Thin, LineStyle::Bars, LineStyle::Cell];

/// Every setting of the intervals in all views, variants, sizes and styles; ascii at every seventh.
fn every_setting(id: &str) {
    let since = Instant::now();
    let catalogue = catalogue();
    let known = known(id);
    let instrument = shipped(&catalogue, known);
    let mut settings = intervals(known);
    if known.can_be_off {
        settings.extend(known.range.0 - 5..known.range.0);
    }
    let mut tally = Tally::default();
    for look in looks(known, instrument) {
        for size in SIZES {
            for style in EXACT {
                tally.all(&look, How::new(size, style), &mut settings.iter().copied());
            }
            let some = &mut settings.iter().copied().step_by(7);
            tally.all(&look, How::new(size, LineStyle::Ascii), some);
        }
    }
    tally.finish(&format!("{id}, every setting"), since);
}

/// Every place of the glass, for every setting of the intervals (`every` = 1) or some of them.
fn every_glass(id: &str, every: usize) {
    let since = Instant::now();
    let catalogue = catalogue();
    let known = known(id);
    let instrument = shipped(&catalogue, known);
    let lines = match &known.kind {
        Kind::Pair(_, vernier) => 0..=vernier.lines.end,
        Kind::Micrometer(barrel) => 0..=barrel.vernier.as_ref().expect("asked with a vernier").lines.end,
        Kind::Disc(Disc { vernier: Some(vernier), .. }) => vernier.lines.start..=vernier.lines.end - 1,
        Kind::Disc(_) | Kind::Rule(_) | Kind::Dial(_) => panic!("no vernier"),
    };
    let mut tally = Tally::default();
    for look in looks(known, instrument).into_iter().filter(|look| look.view == View::Flat) {
        for (size, style) in SIZES.into_iter().flat_map(|size| EXACT.map(|style| (size, style))) {
            if !may_be_refused(&look, How::new(size, style)) {
                for line in lines.clone() {
                    let how = How::new(size, style).with(Glass::At(line));
                    let settings = intervals(known);
                    for setting in settings.iter().step_by(every) {
                        tally.look(&look, how, *setting);
                    }
                }
            }
        }
    }
    tally.finish(&format!("{id}, every glass"), since);
}

macro_rules! each {
    ($($name:ident = $id:literal;)+) => { $(#[test] fn $name() { every_setting($id); })+ };
}

each! {
    microns = "micrometer-metric-microns";
    tenths = "micrometer-inch-tenths";
    depth_inch = "depth-micrometer-inch";
    depth_metric = "depth-micrometer-metric";
    inside_inch = "inside-micrometer-inch";
    inside_metric = "inside-micrometer-metric";
    inside_jaw = "inside-jaw-micrometer-metric";
    micrometer_metric = "micrometer-metric";
    micrometer_inch = "micrometer-inch";
    caliper_metric_50 = "caliper-metric-50";
    caliper_metric_20 = "caliper-metric-20";
    caliper_inch_25 = "caliper-inch-25";
    caliper_inch_25_inside = "caliper-inch-25-inside";
    caliper_inch_50 = "caliper-inch-50";
    caliper_inch_128 = "caliper-inch-128";
    caliper_metric_10 = "caliper-metric-10";
    caliper_metric_20_long = "caliper-metric-20-long";
    caliper_metric_50_inside = "caliper-metric-50-inside";
    height_gauge_inch = "height-gauge-inch";
    height_gauge_metric = "height-gauge-metric";
    depth_gauge_inch = "depth-gauge-inch";
    depth_gauge_metric = "depth-gauge-metric";
    two_scale_millimetres = "caliper-two-scale";
    two_scale_inches = "caliper-two-scale reads=in";
    thickness_inch = "gear-tooth-inch";
    thickness_metric = "gear-tooth-metric";
    height_inch = "gear-tooth-inch reads=height";
    height_metric = "gear-tooth-metric reads=height";
    dial_caliper_inch = "dial-caliper-inch";
    dial_caliper_metric = "dial-caliper-metric";
    dial_indicator_metric = "dial-indicator-metric-continuous";
    dial_indicator_inch = "dial-indicator-inch-balanced";
    lever_indicator = "lever-indicator-metric";
    cross_slide_inch = "cross-slide-dial-inch";
    cross_slide_inch_radius = "cross-slide-dial-inch-radius";
    cross_slide_metric_diameter = "cross-slide-dial-metric-diameter";
    lever_indicator_inch = "lever-indicator-inch";
    cross_slide_metric = "cross-slide-dial-metric";
    bevel_protractor = "bevel-protractor";
    protractor_head = "protractor-head";
    lesson_10 = "lesson-10-part";
    lesson_5 = "lesson-5-part";
    rule_inch = "rule-inch-64";
    rule_inch_100 = "rule-inch-100";
    rule_metric = "rule-metric";
}

macro_rules! each_glass {
    ($($name:ident = $id:literal, $every:literal;)+) => { $(#[test] fn $name() { every_glass($id, $every); })+ };
}

each_glass! {
    glass_metric_50 = "caliper-metric-50", 1;
    glass_metric_20 = "caliper-metric-20", 1;
    glass_inch_25 = "caliper-inch-25", 1;
    glass_inch_25_inside = "caliper-inch-25-inside", 1;
    glass_inch_50 = "caliper-inch-50", 7;
    glass_inch_128 = "caliper-inch-128", 1;
    glass_metric_10 = "caliper-metric-10", 1;
    glass_metric_20_long = "caliper-metric-20-long", 1;
    glass_metric_50_inside = "caliper-metric-50-inside", 7;
    glass_height_inch = "height-gauge-inch", 3;
    glass_height_metric = "height-gauge-metric", 7;
    glass_depth_inch = "depth-gauge-inch", 7;
    glass_depth_metric = "depth-gauge-metric", 7;
    glass_bevel_protractor = "bevel-protractor", 1;
    glass_two_scale_millimetres = "caliper-two-scale", 1;
    glass_two_scale_inches = "caliper-two-scale reads=in", 1;
    glass_thickness_inch = "gear-tooth-inch", 1;
    glass_thickness_metric = "gear-tooth-metric", 1;
    glass_tooth_height_inch = "gear-tooth-inch reads=height", 1;
    glass_tooth_height_metric = "gear-tooth-metric reads=height", 1;
    glass_lesson_10 = "lesson-10-part", 1;
    glass_lesson_5 = "lesson-5-part", 1;
    glass_tenths = "micrometer-inch-tenths", 37;
    glass_microns = "micrometer-metric-microns", 191;
}

/// Every strength of the glass that can be chosen, at some settings.
#[test]
fn strengths_of_the_glass() {
    let since = Instant::now();
    let catalogue = catalogue();
    let mut tally = Tally::default();
    for known in &KNOWN {
        let lines = match &known.kind {
            Kind::Pair(_, vernier) => 0..=vernier.lines.end,
            Kind::Disc(Disc { vernier: Some(vernier), .. }) => vernier.lines.start..=vernier.lines.end - 1,
            _ => continue,
        };
        let instrument = shipped(&catalogue, known);
        for look in looks(known, instrument) {
            for (size, style) in SIZES.into_iter().flat_map(|size| EXACT.map(|style| (size, style))) {
                if may_be_refused(&look, How::new(size, style)) {
                    continue;
                }
                for strength in [2, 4, 8] {
                    for line in lines.clone().step_by(3).chain([*lines.end()]) {
                        let how =
                            How { strength: Some(strength), ..How::new(size, style).with(Glass::At(line)) };
                        let settings = intervals(known);
                        for setting in settings.iter().step_by(13) {
                            tally.look(&look, how, *setting);
                        }
                    }
                }
            }
        }
    }
    tally.finish("strengths of the glass", since);
}

/// Every size from 80x24 to 200x60, one setting each.
fn other_sizes(ids: &[&str]) {
    let since = Instant::now();
    let catalogue = catalogue();
    let mut tally = Tally::default();
    let mut turn: i64 = 0;
    for known in KNOWN.iter().filter(|known| ids.contains(&known.id)) {
        let instrument = shipped(&catalogue, known);
        let (low, high) = known.range;
        for look in looks(known, instrument) {
            for size in (80..=200).flat_map(|cols| (24..=60).map(move |rows| (cols, rows))) {
                for style in [LineStyle::Thin, LineStyle::Bars] {
                    turn += 1;
                    let setting = low + (turn * 7919) % (high - low + 1);
                    tally.look(&look, How::new(size, style), setting);
                }
            }
        }
    }
    tally.finish("other sizes", since);
}

#[test]
fn other_sizes_of_micrometers() {
    other_sizes(&[
        "micrometer-inch",
        "micrometer-inch-tenths",
        "micrometer-metric",
        "micrometer-metric-microns",
    ]);
}

#[test]
fn other_sizes_of_depth_and_inside_micrometers() {
    other_sizes(&[
        "depth-micrometer-inch",
        "depth-micrometer-metric",
        "inside-micrometer-inch",
        "inside-micrometer-metric",
        "inside-jaw-micrometer-metric",
    ]);
}

#[test]
fn other_sizes_of_the_rest() {
    let rest = KNOWN.iter().filter(|known| !matches!(known.kind, Kind::Micrometer(_)));
    other_sizes(&rest.map(|known| known.id).collect::<Vec<_>>());
}

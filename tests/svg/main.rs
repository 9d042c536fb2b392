//! The vector pictures and the descriptions are read back by two robots that share no code with what made them: one sees the
//! SVG's text, the other hears the sentences.

mod dial;
mod disc;
mod known;
mod listener;
mod page;
mod reader;
mod sheet;
mod two;

use known::Known;
use linefall::drill::{Conditions, Settings, Wear};
use linefall::exact::Quanta;
use linefall::instrument::{
    Body, Catalogue, Course, Form, Grows, Instrument, Joined, Parts, Turns, Variant, Zero,
};
use linefall::reading::pose;
use linefall::render::describe::describe;
use linefall::render::{Lit, svg};
use linefall::scene::{self, Item, Scene, View};
use linefall::wording;

fn scene_at(instrument: &Instrument, setting: Quanta, lead: i64, variant: &Variant, view: View) -> Scene {
    scene::build(instrument, &pose(instrument, setting, Quanta(lead)), variant, view)
}

fn is_turned(instrument: &Instrument) -> bool {
    instrument.stages.iter().any(|stage| matches!(stage.form, Form::Drum(_)))
}

fn views(instrument: &Instrument) -> &'static [View] {
    let upright = |form: &Form| matches!(form, Form::Line(line) if line.runs == Course::Upward);
    let round = |form: &Form| matches!(form, Form::Dial(dial) if dial.body == Body::Face);
    if is_turned(instrument)
        || instrument.stages.iter().any(|stage| upright(&stage.form) || round(&stage.form))
    {
        &[View::Held, View::Flat]
    } else {
        &[View::Held]
    }
}

/// Every setting of one numbered interval at zero, at mid range and at the end.
fn settings(instrument: &Instrument) -> Vec<Quanta> {
    let interval = known::numbered_interval(instrument);
    let all: Vec<Quanta> = instrument.settings().collect();
    let middle = Quanta(instrument.low.0.midpoint(instrument.high.0));
    let near = |at: Quanta, from: i64, to: i64| (from..=to).contains(&at.0);
    all.into_iter()
        .filter(|at| {
            near(*at, instrument.low.0, instrument.low.0 + interval)
                || near(*at, middle.0, middle.0 + interval)
                || near(*at, instrument.high.0 - interval, instrument.high.0)
        })
        .collect()
}

fn pictures(mut each: impl FnMut(&Instrument, Quanta, &Variant, View)) {
    let catalogue = Catalogue::new(vec![]);
    for (listed, set) in
        catalogue.all().flat_map(|listed| listed.sets().into_iter().map(move |set| (listed, set)))
    {
        let instrument = &listed.fitted(&set);
        for variant in instrument.usual() {
            let tool = instrument.fitted(&variant);
            for view in views(&tool) {
                for setting in settings(&tool) {
                    each(&tool, setting, &variant, *view);
                }
            }
        }
    }
}

/// What makers do differently and tools held the other way round: one picture of each setting of an interval, and its words.
#[test]
fn less_common_variants_are_read_and_heard() {
    let mut count = 0;
    for instrument in Catalogue::new(vec![]).all() {
        for variant in instrument.usual().iter().flat_map(|usual| instrument.unusual(usual)) {
            let tool = instrument.fitted(&variant);
            for view in views(&tool) {
                let known = Known::of(&tool, &variant, *view);
                for setting in settings(&tool).into_iter().step_by(3) {
                    let scene = scene_at(&tool, setting, 0, &variant, *view);
                    let what = || format!("{} {} {setting:?} {view:?}", tool.id, variant.word());
                    assert_eq!(reader::read(&known, &svg::draw(&scene, &[])), Ok(setting.0), "{}", what());
                    let sentences = wording::describe(&tool, &describe(&scene));
                    let heard = listener::read(&known, &sentences);
                    assert_eq!(heard, Ok(setting.0), "{} {sentences:#?}", what());
                    count += 1;
                }
            }
        }
    }
    assert!(count > 5_000, "{count} pictures");
}

/// What is left of a text when the engravings, which name a size, are taken out.
fn without_engravings(instrument: &Instrument, text: &str) -> String {
    instrument.engraved.iter().fold(text.to_owned(), |text, engraved| text.replace(engraved, ""))
}

#[test]
fn every_picture_reads_what_it_was_set_to() {
    let mut count = 0;
    pictures(|instrument, setting, variant, view| {
        let text = svg::draw(&scene_at(instrument, setting, 0, variant, view), &[]);
        let known = Known::of(instrument, variant, view);
        let read = match instrument.on_same_jaw() {
            None => reader::read(&known, &text),
            Some(other) => two::read(instrument, other.joined == Joined::Below, &text),
        };
        assert_eq!(read, Ok(setting.0), "{} {setting:?} {variant:?} {view:?}", instrument.id);
        let spelled = instrument.spell_with_unit(setting);
        assert!(!without_engravings(instrument, &text).contains(&spelled), "{} {spelled}", instrument.id);
        count += 1;
    });
    assert!(count > 40_000, "{count} pictures");
}

#[test]
fn the_inch_is_known_all_along_the_bar() {
    let catalogue = Catalogue::new(vec![]);
    let mut marked = 0;
    for id in ["caliper-inch-25", "rule-inch-64"] {
        let instrument = catalogue.get(id).expect("shipped");
        let known = Known::of(instrument, &Variant::default(), View::Held);
        for setting in instrument.settings() {
            let text = svg::draw(&scene_at(instrument, setting, 0, &Variant::default(), View::Held), &[]);
            assert_eq!(reader::read(&known, &text), Ok(setting.0), "{id} {setting:?}");
            marked += usize::from(text.contains('\u{2039}'));
        }
    }
    assert!(marked > 100, "{marked} pictures hold no inch figure and tell it at the left end");
}

#[test]
fn every_description_tells_what_it_was_set_to() {
    let mut count = 0;
    pictures(|instrument, setting, variant, view| {
        if setting.0 % 7 != 0 && setting != instrument.high && setting.0 % 50 != 0 {
            return;
        }
        let seen = describe(&scene_at(instrument, setting, 0, variant, view));
        let mut sentences = wording::describe(instrument, &seen);
        if let Some(other) = instrument.on_same_jaw() {
            sentences = two::about(&sentences, other.joined == Joined::Below);
        }
        let known = Known::of(instrument, variant, view);
        let heard = listener::read(&known, &sentences);
        assert_eq!(heard, Ok(setting.0), "{} {setting:?} {view:?} {sentences:#?}", instrument.id);
        let spelled = instrument.spell_with_unit(setting);
        let text = without_engravings(instrument, &sentences.join("\n"));
        assert!(!text.contains(&spelled) && !text.contains("quant"), "{} {spelled}", instrument.id);
        count += 1;
    });
    assert!(count > 5_000, "{count} descriptions");
}

#[test]
fn a_line_showing_early_or_late_is_settled_by_the_thimble() {
    let counted = |form: &Form| matches!(form, Form::Dial(dial) if dial.turns != Turns::Uncounted);
    let turns = |instrument: &&Instrument| {
        is_turned(instrument) || instrument.stages.iter().any(|stage| counted(&stage.form))
    };
    for instrument in Catalogue::new(vec![]).all().filter(turns) {
        let turn = known::turn(instrument);
        let around =
            (-turn / 6..=turn / 6).step_by(usize::try_from(turn / 25).expect("a turn has divisions"));
        for variant in instrument.usual() {
            for (setting, view) in
                around.clone().flat_map(|off| views(instrument).iter().map(move |v| (off, v)))
            {
                for lead in [-turn / 12, turn / 6] {
                    let setting = instrument.low + Quanta(turn * 9 + setting);
                    let scene = scene_at(instrument, setting, lead, &variant, *view);
                    let known = Known::of(instrument, &variant, *view);
                    let read = reader::read(&known, &svg::draw(&scene, &[]));
                    assert_eq!(read, Ok(setting.0), "{} {lead} {view:?}", instrument.id);
                    let sentences = wording::describe(instrument, &describe(&scene));
                    let heard = listener::read(&known, &sentences);
                    assert_eq!(heard, Ok(setting.0), "{} {lead} {sentences:#?}", instrument.id);
                }
            }
        }
    }
}

#[test]
fn a_tool_standing_below_its_zero_can_be_drawn_and_described() {
    for instrument in Catalogue::new(vec![]).all().filter(|instrument| instrument.zero == Zero::CanBeOff) {
        for view in views(instrument) {
            let setting = match instrument.grows {
                Grows::Covering => instrument.low,
                Grows::Uncovering => instrument.start(),
            } - instrument.least_count * 3;
            let scene = scene_at(instrument, setting, 0, &Variant::default(), *view);
            page::Page::parse(&svg::draw(&scene, &[])).expect("valid XML");
            let sentences = wording::describe(instrument, &describe(&scene));
            let said = |part: &str| sentences.iter().any(|sentence| sentence.contains(part));
            let covered = said("has not reached its 0") || said("its 0 is under the thimble");
            let shows = format!("first figure showing from the edge on is {}", instrument.low.0 / 100);
            assert!(
                if instrument.grows == Grows::Covering { said(&shows) } else { covered },
                "{sentences:#?}"
            );
        }
    }
}

#[test]
fn the_same_scene_gives_the_same_bytes_and_nothing_but_what_is_seen() {
    for instrument in Catalogue::new(vec![]).all() {
        for view in views(instrument) {
            let scene = scene_at(instrument, instrument.high, 0, &Variant::default(), *view);
            let text = svg::draw(&scene, &[]);
            assert_eq!(text, svg::draw(&scene.clone(), &[]));
            let page = page::Page::parse(&text).expect("valid XML");
            assert!(page.in_order, "plates, then lines, then figures");
            assert_eq!(page.inks.len(), 1, "one ink for every line before the answer");
            for word in ["id=", "class=", "<title", "<desc", "<!--", "<metadata", "style=", "data-"] {
                assert!(!text.contains(word), "{word} in {}", instrument.id);
            }
        }
    }
}

#[test]
fn two_settings_differ_only_in_places_and_figures() {
    // The shape of the file, numbers taken out of it, is that of any other setting with as many lines in view.
    let catalogue = Catalogue::new(vec![]);
    let instrument = catalogue.get("caliper-metric-20").expect("shipped");
    let shape = |setting: i64| {
        let scene = scene_at(instrument, Quanta(setting), 0, &Variant::default(), View::Held);
        let text = svg::draw(&scene, &[]);
        let mut lines: Vec<String> =
            text.lines().map(|line| line.chars().filter(|c| !c.is_ascii_digit()).collect()).collect();
        lines.dedup();
        lines
    };
    assert_eq!(shape(801), shape(1217));
}

#[test]
fn lines_are_lit_only_when_asked_for() {
    let catalogue = Catalogue::new(vec![]);
    for instrument in catalogue.all() {
        for view in views(instrument) {
            let scene = scene_at(instrument, instrument.low, 0, &Variant::default(), *view);
            // A straight scale is in view where the tool stands and nothing covers it, all others at their 0 or where a hand or
            // datum line is.
            let stands = instrument.low - instrument.start();
            let first = |track: usize| {
                if let Some(turn) = scene.tracks[track].period {
                    let of = &scene.tracks[track];
                    return Some((-of.origin * of.sense).left_of(turn));
                }
                let items = scene.tracks[track].items.iter().map(Item::at);
                items.filter(|at| track > 0 || *at >= stands).find(|at| !scene.hides(track, *at))
            };
            let lit: Vec<Lit> = (0..scene.tracks.len())
                .map(|track| Lit { track, at: first(track).expect("a line shows") })
                .collect();
            let plain = svg::draw(&scene, &[]);
            let shown = svg::draw(&scene, &lit);
            assert!(!plain.contains("#b00020"));
            assert!(shown.matches("#b00020").count() >= scene.tracks.len(), "{}", instrument.id);
            assert_eq!(plain, shown.replace("#b00020", "#000"));
        }
    }
}

#[test]
fn a_persons_own_engraving_cannot_break_the_file() {
    let catalogue = Catalogue::new(vec![]);
    for id in ["rule-metric", "caliper-inch-25", "micrometer-inch"] {
        let mut instrument = catalogue.get(id).expect("shipped").clone();
        instrument.engraved =
            vec!["<b> & \"best\" ]]> quality of the workshop, made by hand".to_owned(), String::new()].into();
        let scene = scene_at(&instrument, Quanta(7), 0, &Variant::default(), View::Held);
        let page = page::Page::parse(&svg::draw(&scene, &[])).expect("valid XML");
        assert!(page.texts.iter().any(|text| text.words == instrument.engraved[0]));
    }
}

/// A tool of the catalogue under conditions, some settings of it in every view.
fn under_conditions(
    id: &str,
    conditions: &Conditions,
    mut each: impl FnMut(&Instrument, Quanta, &Variant, View),
) {
    let catalogue = Catalogue::new(vec![]);
    let tool = conditions.tool(catalogue.get(id).expect("shipped"));
    let count = (tool.high.0 - tool.low.0).min(300);
    for variant in tool.usual() {
        for view in views(&tool) {
            for n in 0..=count {
                let setting = Quanta(tool.low.0 + (tool.high.0 - tool.low.0) * n / count);
                each(&tool, setting, &variant, *view);
            }
        }
    }
}

#[test]
fn tools_between_their_lines_and_worn_ones_are_read_and_heard() {
    let between = |parts| Conditions { settings: Settings::Between(Parts(parts)), ..Conditions::default() };
    let worn = |wear| Conditions { worn: Some(Wear(wear)), ..Conditions::default() };
    let estimated = Conditions { settings: Settings::Estimated, ..Conditions::default() };
    let mut count = 0;
    for (id, conditions) in [
        ("micrometer-metric", between(10)),
        ("micrometer-metric", estimated.clone()),
        ("micrometer-inch", estimated),
        ("depth-micrometer-inch", between(10)),
        ("rule-metric", between(4)),
        ("rule-inch-64", between(2)),
        ("rule-metric", worn(1)),
        ("micrometer-inch", worn(2)),
        ("caliper-metric-50", worn(3)),
        ("caliper-inch-25", worn(4)),
        ("height-gauge-metric", worn(5)),
    ] {
        under_conditions(id, &conditions, |tool, setting, variant, view| {
            let scene = scene_at(tool, setting, 0, variant, view);
            let known = Known::of(tool, variant, view);
            let read = reader::read(&known, &svg::draw(&scene, &[]));
            assert_eq!(read, Ok(setting.0), "{id} {conditions:?} {setting:?} {view:?}");
            let sentences = wording::describe(tool, &describe(&scene));
            let heard = listener::read(&known, &sentences);
            assert_eq!(heard, Ok(setting.0), "{id} {conditions:?} {setting:?} {view:?} {sentences:#?}");
            count += 1;
        });
    }
    assert!(count > 3000, "{count}");
}

//! Tools with two sets of scales: two pairs on one beam, or two slides side by side.

use crate::known::Known;
use crate::listener;
use crate::page::Page;
use crate::reader::{self, FIXED, MOVING};
use linefall::exact::Quanta;
use linefall::instrument::{Catalogue, Instrument};
use linefall::reading::pose;
use linefall::render::describe::describe;
use linefall::render::svg;
use linefall::scene::{self, View};
use linefall::wording;

/// The pair that lies along an edge of the beam, laid as a pair lies alone: the main scale above its vernier.
fn along(page: &Page, upper: bool) -> Result<Page, String> {
    let beams = page.plates_of(FIXED);
    let [beam] = beams[..] else { return Err(format!("{} beams", beams.len())) };
    let slides = page.plates_of(MOVING);
    let [above, below] = slides[..] else { return Err(format!("{} parts of the slide", slides.len())) };
    if above.bottom != beam.top || below.top != beam.bottom {
        return Err("slide and beam do not meet".to_owned());
    }
    if page.lines.iter().any(|line| line.y1 != beam.top && line.y1 != beam.bottom) {
        return Err("a line at neither edge of the beam".to_owned());
    }
    let (edge, middle) = (if upper { beam.top } else { beam.bottom }, i64::midpoint(beam.top, beam.bottom));
    let mut part = page.clone();
    part.plates = vec![beam.clone(), if upper { above.clone() } else { below.clone() }];
    part.lines.retain(|line| line.y1 == edge);
    part.texts.retain(|text| (text.y < middle) == upper);
    if upper {
        part.turn_over();
    }
    Ok(part)
}

/// What the pair reads whose tool this is, where a second one lies on the same beam.
pub fn read(tool: &Instrument, is_upper: bool, text: &str) -> Result<i64, String> {
    let page = along(&Page::parse(text)?, is_upper)?;
    reader::of_page(&Known::of(tool, &tool.plain(), View::Flat), &page)
}

/// The sentences about one edge of the beam.
pub fn about(sentences: &[String], is_upper: bool) -> Vec<String> {
    let begins =
        |edge: &str| sentences.iter().position(|said| said.starts_with(&format!("Along the {edge} edge")));
    let (Some(upper), Some(lower)) = (begins("upper"), begins("lower")) else { return Vec::new() };
    assert!(upper == 0 && lower > upper, "from the top down");
    if is_upper { sentences[..lower].to_vec() } else { sentences[lower..].to_vec() }
}

/// 0.05 mm in 128ths of an inch: 1/20 * 5/127 * 128; the nearest, half way up.
fn beside(millimetres_asked: bool, setting: i64) -> i64 {
    let (up, down) = if millimetres_asked { (640, 2540) } else { (2540, 640) };
    (2 * setting * up + down).div_euclid(2 * down)
}

#[test]
fn both_pairs_of_a_beam_are_read_whichever_is_asked() {
    let catalogue = Catalogue::new(vec![]);
    let instrument = catalogue.get("caliper-two-scale").expect("shipped");
    let mut count = 0;
    for set in instrument.sets() {
        let tool = instrument.fitted(&set);
        let asks_millimetres = set.word().is_empty();
        let other = &tool.on_same_jaw().expect("two scales").tool;
        for setting in tool.settings() {
            let scene = scene::build(&tool, &pose(&tool, setting, Quanta::ZERO), &set, View::Flat);
            let text = svg::draw(&scene, &[]);
            let wanted = Ok(beside(asks_millimetres, setting.0));
            // Inches lie above, whichever of the two is asked.
            assert_eq!(read(&tool, !asks_millimetres, &text), Ok(setting.0), "{} {setting:?}", set.word());
            assert_eq!(read(other, asks_millimetres, &text), wanted, "{} {setting:?}", set.word());
            if setting.0 % 7 == 0 {
                let said = wording::describe(&tool, &describe(&scene));
                let known = Known::of(other, &other.plain(), View::Flat);
                assert_eq!(listener::read(&known, &about(&said, asks_millimetres)), wanted, "{said:#?}");
            }
            count += 1;
        }
    }
    assert_eq!(count, 3001 + 769);
}

/// The same place of the jaw gives the same picture, whichever of the two is asked.
#[test]
fn the_picture_does_not_tell_which_scale_is_asked() {
    let catalogue = Catalogue::new(vec![]);
    let instrument = catalogue.get("caliper-two-scale").expect("shipped");
    let sets = instrument.sets();
    let tools = [0, 1].map(|n: usize| instrument.fitted(&sets[n]));
    let draw = |n: usize, at: i64| {
        let pose = pose(&tools[n], Quanta(at), Quanta::ZERO);
        let scene = scene::build(&tools[n], &pose, &sets[n], View::Flat);
        (svg::draw(&scene, &[]), wording::describe(&tools[n], &describe(&scene)))
    };
    let mut both = 0;
    for inches in 0..=768 {
        let millimetres = beside(false, inches);
        if millimetres <= 3000 && beside(true, millimetres) == inches {
            assert_eq!(draw(0, millimetres), draw(1, inches), "{inches}/128 in");
            both += 1;
        }
    }
    // Every setting in inches up to 150 mm.
    assert_eq!(both, 757);
}

#[test]
fn both_slides_of_a_gear_tooth_caliper_are_read() {
    let catalogue = Catalogue::new(vec![]);
    for id in ["gear-tooth-inch", "gear-tooth-metric"] {
        let tool = catalogue.get(id).expect("shipped");
        let height = &tool.own_slide().expect("two slides").tool;
        for view in [View::Held, View::Flat] {
            let known = [height, tool].map(|tool| Known::of(tool, &tool.plain(), view));
            for (n, thickness) in (0..=tool.high.0).step_by(3).enumerate() {
                let set = i64::try_from(n).expect("few") * 7 % (height.high.0 + 1);
                let scene = |tool: &Instrument, at: i64| {
                    scene::build(tool, &pose(tool, Quanta(at), Quanta::ZERO), &tool.plain(), view)
                };
                let text = svg::draw_slides(&scene(height, set), &scene(tool, thickness));
                let [left, right] = Page::parse(&text).expect("an SVG").halves().expect("two pictures");
                assert_eq!(reader::of_page(&known[0], &left), Ok(set), "{id} {view:?}");
                assert_eq!(reader::of_page(&known[1], &right), Ok(thickness), "{id} {view:?}");
            }
        }
    }
}

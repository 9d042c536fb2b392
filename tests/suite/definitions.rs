//! Definitions made up at random are posed, read, drawn or refused, and read back; wrong ones are refused with a sentence.

use crate::made::{Dice, Made, dice, made};
use crate::readback::read_back;
use crate::shots::{How, Look, Size};
use linefall::diag::SourceText;
use linefall::exact::{Quanta, parse_answer};
use linefall::instrument::{Instrument, check};
use linefall::reading;
use linefall::render::{LineStyle, describe::describe, svg};
use linefall::scene::View;
use linefall::wording;
use proptest::prelude::*;
use std::sync::atomic::{AtomicU64, Ordering};

const SIZES: [Size; 6] = [(80, 24), (100, 30), (132, 43), (160, 45), (200, 60), (250, 80)];
const STYLES: [LineStyle; 4] = [LineStyle::Thin, LineStyle::Bars, LineStyle::Cell, LineStyle::Ascii];

/// What became of pictures, over all definitions of a run.
static DRAWN: AtomicU64 = AtomicU64::new(0);
static REFUSED: AtomicU64 = AtomicU64::new(0);

fn instrument(text: &str) -> Result<Instrument, String> {
    check::read(&SourceText::new("made.toml", text)).map_err(|faults| {
        let said: Vec<String> =
            faults.iter().map(|fault| format!("{}: {}", fault.code, fault.message)).collect();
        format!("{}\n{text}", said.join("; "))
    })
}

/// The lowest, the highest and a few settings between them.
fn settings(dice: &mut Dice, range: (i64, i64)) -> [i64; 4] {
    let between = dice.number(0, range.1 - range.0);
    [range.0, range.1, range.0 + between, range.0 + between / 7]
}

/// Poses, reads, draws or has refused, and reads back.
fn walk(dice: &mut Dice, made: Made) -> Result<(), String> {
    let tool = instrument(&made.text)?;
    let known: &'static crate::robot::kinds::Known = Box::leak(Box::new(made.known));
    let range = (tool.low.0, tool.high.0);
    if range != known.range || tool.step.0 != 1 {
        return Err(format!("{range:?} in place of {:?}\n{}", known.range, made.text));
    }
    for setting in settings(dice, range) {
        let at = Quanta(setting);
        let fault = |what: String| format!("at {setting}: {what}\n{}", made.text);
        let pose = reading::pose(&tool, at, Quanta::ZERO);
        let total = reading::read(&tool, &pose).total;
        if total != at {
            return Err(fault(format!("read as {total:?}")));
        }
        let spelled = tool.spell_with_unit(at);
        let typed = parse_answer(&spelled, tool.unit).map_err(|why| fault(format!("{spelled}: {why}")))?;
        if typed.value != tool.value(at) {
            return Err(fault(format!("{spelled} is read as {:?}", typed.value)));
        }
        for view in [View::Held, View::Flat] {
            for variant in tool.variants() {
                let look = Look { known, instrument: &tool, view, variant, lead: 0 };
                let how = How::new(dice.one(&SIZES), dice.one(&STYLES));
                let readable = made.readable
                    && (made.in_cells || matches!(how.style, LineStyle::Thin | LineStyle::Bars));
                look_at(&look, how, setting, readable)
                    .map_err(|why| fault(format!("{} {how:?}: {why}", view.word())))?;
            }
        }
    }
    Ok(())
}

fn look_at(look: &Look<'_>, how: How, setting: i64, readable: bool) -> Result<(), String> {
    let scene = look.scene(setting);
    let picture = svg::draw(&scene, &[]);
    roxmltree::Document::parse(&picture).map_err(|why| format!("the SVG: {why}"))?;
    if wording::describe(look.instrument, &describe(&scene)).is_empty() {
        return Err("nothing to say".to_owned());
    }
    match look.draw(setting, how) {
        Ok(_) if readable => {
            DRAWN.fetch_add(1, Ordering::Relaxed);
            read_back(look, how, setting).map(|_| ())
        }
        Ok(_) => Ok(()),
        Err(refusal) => {
            REFUSED.fetch_add(1, Ordering::Relaxed);
            // What is asked for is what then does.
            let (cols, rows) = (refusal.needs_cols.max(how.size.0), refusal.needs_rows.max(how.size.1));
            if refusal.needs_cols <= how.size.0 && refusal.needs_rows <= how.size.1 {
                return Err(format!("refused, but it asks for {cols}x{rows}"));
            }
            Ok(())
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_passes_the_check_is_read_from_its_pictures(mut dice in dice()) {
        let made = made(&mut dice);
        if let Err(fault) = walk(&mut dice, made) {
            prop_assert!(false, "{}", fault);
        }
    }

    #[test]
    fn what_is_spoiled_is_refused_with_a_place_and_a_fix(mut dice in dice()) {
        let text = made(&mut dice).text;
        let text = spoiled(&mut dice, text);
        match check::read(&SourceText::new("spoiled.toml", text.as_str())) {
            // A number changed may leave a good definition.
            Ok(tool) => {
                let pose = reading::pose(&tool, tool.high, Quanta::ZERO);
                prop_assert!(!reading::read(&tool, &pose).steps.is_empty());
                let look = tool.variants().into_iter().next().expect("one variant");
                let scene = linefall::scene::build(&tool, &pose, &look, View::Held);
                let request = linefall::render::Request::new(100, 30, LineStyle::Thin);
                let _ = linefall::render::draw(&scene, &request);
                let _ = svg::draw(&scene, &[]);
            }
            Err(faults) => {
                prop_assert!(!faults.is_empty());
                for fault in faults {
                    prop_assert!(fault.fix.is_some() && !fault.message.is_empty(), "{:?}", fault);
                    prop_assert!(text.get(fault.at.span.start..fault.at.span.end).is_some(), "{:?}", fault);
                    for note in &fault.related {
                        prop_assert!(text.get(note.span.start..note.span.end).is_some(), "{:?}", fault);
                    }
                }
            }
        }
    }
}

/// A definition with a few things wrong: lines dropped, doubled or moved, numbers changed, text garbled.
fn spoiled(dice: &mut Dice, mut text: String) -> String {
    for _ in 0..dice.number(1, 4) {
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let last = i64::try_from(lines.len()).expect("few lines") - 1;
        let at = usize::try_from(dice.number(0, last)).expect("a line");
        match dice.number(0, 6) {
            0 => drop(lines.remove(at)),
            1 => {
                let line = lines[at].clone();
                lines.push(line);
            }
            2 => {
                let other = usize::try_from(dice.number(0, last)).expect("a line");
                lines.swap(at, other);
            }
            3 | 4 => {
                let digit = lines[at].find(|c: char| c.is_ascii_digit());
                if let Some(digit) = digit {
                    let other =
                        dice.one(&["0", "1", "2", "7", "64", "100", "1000", "-3", "0.5", "1/3", "99999"]);
                    lines[at].replace_range(digit..=digit, other);
                }
            }
            5 => {
                let ends: Vec<usize> = lines[at].char_indices().map(|(n, _)| n).collect();
                if !ends.is_empty() {
                    let place = dice.one(&ends);
                    let rubbish = dice.one(&[
                        "\"", "[", "]", "{", "=", "#", "\u{202e}", "\u{1b}", "\u{e9}", "'", "\\", "9",
                    ]);
                    lines[at].insert_str(place, rubbish);
                }
            }
            _ => {
                let ends: Vec<usize> = lines[at].char_indices().map(|(n, _)| n).collect();
                if !ends.is_empty() {
                    lines[at].truncate(dice.one(&ends));
                }
            }
        }
        text = lines.join("\n");
        if text.is_empty() {
            break;
        }
    }
    text
}

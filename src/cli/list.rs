//! `linefall list`.

use super::args::{Common, Listing};
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::shelf;
use crate::drill::set::{self, Allowed, DrillSet, Feedback, Order, Pass, Shelf};
use crate::drill::{self, task::kinds};
use crate::instrument::schema::{Key, Kind, Need, Place, keys};
use crate::instrument::{Catalogue, Instrument, Origin};
use crate::lesson::{self, Lesson};
use crate::reading::{Misread, misread};
use crate::wording::{command as say, format, pages, set as sets, set_format, task};
use serde::Serialize;
use unicode_width::UnicodeWidthStr;

#[derive(Serialize)]
struct InstrumentOut<'a> {
    id: &'a str,
    title: &'a str,
    unit: &'a str,
    range: [String; 2],
    least_count: String,
}

#[derive(Serialize)]
struct MisreadOut<'a> {
    id: &'a str,
    name: &'a str,
    instruments: Vec<&'a str>,
    stage: String,
    formula: &'a str,
    cure: &'a str,
}

#[derive(Serialize)]
struct LessonOut {
    id: String,
    title: String,
    steps: usize,
    instruments: Vec<String>,
    caution: String,
    source: String,
}

#[derive(Serialize)]
struct SetOut<'a> {
    id: &'a str,
    title: &'a str,
    about: &'a str,
    /// From the instructor's own folder.
    own: bool,
    revision: &'a str,
    count: u32,
    instruments: Vec<&'a str>,
    order: Order,
    seconds: Option<u32>,
    glass: Allowed,
    feedback: Feedback,
    pass: Option<PassOut>,
    seed: Option<u64>,
}

#[derive(Serialize)]
#[serde(tag = "rule", rename_all = "lowercase")]
enum PassOut {
    Right { right: u32, of: u32 },
    Sequential { bad: f64, good: f64, lets_through: f64, turns_away: f64, least: u32, most: u32 },
}

#[derive(Serialize)]
struct KindOut {
    kind: &'static str,
    name: &'static str,
    about: &'static str,
    instruments: Vec<String>,
}

#[derive(Serialize)]
struct KeyOut {
    key: &'static str,
    of: Vec<&'static str>,
    value: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    words: Option<&'static [&'static str]>,
    required: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    default: Option<&'static str>,
    says: &'static str,
    example: &'static str,
}

#[derive(Serialize)]
struct PageOut {
    text: &'static str,
}

#[derive(Serialize)]
struct FormatOut {
    keys: Vec<KeyOut>,
    examples: Vec<ExampleOut>,
}

#[derive(Serialize)]
struct ExampleOut {
    shows: &'static str,
    text: &'static str,
}

fn key_out<P>(key: &Key<P>, of: Vec<&'static str>) -> KeyOut {
    KeyOut {
        key: key.name,
        of,
        value: key.kind.word(),
        words: match key.kind {
            Kind::Word(words) | Kind::Words(words) => Some(words),
            _ => None,
        },
        required: key.need == Need::Always,
        default: match key.need {
            Need::Default(holds) => Some(holds),
            Need::Always | Need::Unless(_) => None,
        },
        says: key.says,
        example: key.line,
    }
}

fn all_keys() -> Vec<KeyOut> {
    keys().map(|key| key_out(key, key.places.iter().map(|place| place.word()).collect())).collect()
}

fn all_set_keys() -> Vec<KeyOut> {
    let of = |key: &set::Key| key.places.iter().map(|place| place.word()).collect();
    set::KEYS.iter().map(|key| key_out(key, of(key))).collect()
}

/// A page on a format: its keys and its examples.
fn format_out(keys: Vec<KeyOut>, examples: &[format::Example]) -> FormatOut {
    let example = |example: &format::Example| ExampleOut { shows: example.shows, text: example.text };
    FormatOut { keys, examples: examples.iter().map(example).collect() }
}

/// Lists what there is.
pub fn run(common: &Common, what: Listing, json: bool, out: &mut Out) -> Result<Exit, Halt> {
    match (what, json) {
        (Listing::Keys, true) => out.line(&out::json(&all_keys()))?,
        (Listing::Keys, false) => parted(out, Place::ALL.map(format::keys))?,
        (Listing::Format, true) => out.line(&out::json(&format_out(all_keys(), &format::EXAMPLES)))?,
        (Listing::Format, false) => out.lines(format::page().lines())?,
        (Listing::SetKeys, true) => out.line(&out::json(&all_set_keys()))?,
        (Listing::SetKeys, false) => parted(out, set::Place::ALL.map(set_format::keys))?,
        (Listing::SetFormat, true) => {
            out.line(&out::json(&format_out(all_set_keys(), &set_format::EXAMPLES)))?;
        }
        (Listing::SetFormat, false) => out.lines(set_format::page().lines())?,
        (Listing::Teaching | Listing::Round | Listing::Folder, _) => page(what, json, out)?,
        (Listing::Lessons, true) => out.line(&out::json(&lessons()))?,
        (Listing::Lessons, false) => {
            for of in lessons() {
                out.line(&format!("{}: {} ({} steps)", of.id, of.title, of.steps))?;
                out.line(&format!("    for {}", of.instruments.join(", ")))?;
            }
        }
        (Listing::Sets, true) => {
            let sets = shelf::sets(common, &shelf::catalogue(common));
            out.line(&out::json(&sets.all().map(|of| set_out(of, &sets)).collect::<Vec<_>>()))?;
        }
        (Listing::Sets, false) => {
            let sets = shelf::sets(common, &shelf::catalogue(common));
            for of in sets.all() {
                out.lines(set_card(of))?;
            }
        }
        (Listing::Instruments, true) => {
            let catalogue = shelf::catalogue(common);
            out.line(&out::json(&catalogue.all().map(instrument).collect::<Vec<_>>()))?;
        }
        (Listing::Instruments, false) => out.lines(table(&shelf::catalogue(common)))?,
        (Listing::Kinds, true) => out.line(&out::json(&all_kinds(&shelf::catalogue(common))))?,
        (Listing::Kinds, false) => {
            let catalogue = shelf::catalogue(common);
            let every: Vec<&str> = catalogue.ids().collect();
            for of in all_kinds(&catalogue) {
                out.line(&format!("{}: {}", of.kind, of.name))?;
                out.line(&format!("    {}", of.about))?;
                out.line(&format!("    instruments  {}", say::those(&of.instruments, &every)))?;
            }
        }
        (Listing::Misreads, true) => {
            let catalogue = shelf::catalogue(common);
            let all = misread::ALL.into_iter().map(|one| misread(one, &catalogue));
            out.line(&out::json(&all.collect::<Vec<_>>()))?;
        }
        (Listing::Misreads, false) => {
            let catalogue = shelf::catalogue(common);
            for (n, one) in misread::ALL.into_iter().enumerate() {
                if n > 0 {
                    out.line("")?;
                }
                out.lines(card(&misread(one, &catalogue)))?;
            }
        }
    }
    Ok(Exit::Fine)
}

/// Blocks of lines with an empty line between them.
fn parted<const N: usize>(out: &mut Out, blocks: [Vec<String>; N]) -> Result<(), Halt> {
    for (n, block) in blocks.into_iter().enumerate() {
        if n > 0 {
            out.line("")?;
        }
        out.lines(block)?;
    }
    Ok(())
}

fn page(what: Listing, json: bool, out: &mut Out) -> Result<(), Halt> {
    let text = match what {
        Listing::Teaching => pages::TEACHING,
        Listing::Round => pages::ROUND,
        _ => pages::FOLDER,
    };
    if json { out.line(&out::json(&PageOut { text })) } else { out.bytes(text.as_bytes()) }
}

fn lessons() -> Vec<LessonOut> {
    let out = |of: Lesson| LessonOut {
        id: of.id,
        title: of.title,
        steps: of.steps.len(),
        instruments: of.teaches,
        caution: of.caution,
        source: of.source,
    };
    lesson::all().map(out).collect()
}

fn set_out<'a>(of: &'a DrillSet, sets: &Shelf) -> SetOut<'a> {
    let thousandths = |n: u32| f64::from(n) / 1000.0;
    let pass = of.pass.map(|pass| match pass {
        Pass::Right(right) => PassOut::Right { right, of: of.count },
        Pass::Sequential { bad, good, lets_through, turns_away, least } => PassOut::Sequential {
            bad: thousandths(bad),
            good: thousandths(good),
            lets_through: thousandths(lets_through),
            turns_away: thousandths(turns_away),
            least,
            most: of.count,
        },
    });
    SetOut {
        id: &of.id,
        title: &of.title,
        about: &of.about,
        own: !matches!(sets.origin(&of.id), Some(Origin::Shipped)),
        revision: &of.revision,
        count: of.count,
        instruments: instruments(of),
        order: of.order,
        seconds: of.time,
        glass: of.glass,
        feedback: of.feedback,
        pass,
        seed: of.seed.map(|seed| seed.0),
    }
}

/// Each instrument of a set once.
fn instruments(of: &DrillSet) -> Vec<&str> {
    let mut ids: Vec<&str> = Vec::new();
    for portion in &of.portions {
        if !ids.contains(&portion.instrument.as_str()) {
            ids.push(&portion.instrument);
        }
    }
    ids
}

fn set_card(of: &DrillSet) -> Vec<String> {
    let title = out::clean_name(&of.title);
    let mut lines = vec![format!("{}: {title} ({})", of.id, sets::in_short(of))];
    lines.extend(sets::wrapped(&out::clean_name(&of.about)).iter().map(|line| format!("    {line}")));
    let on = sets::wrapped(&format!("on {}", instruments(of).join(", ")));
    lines.extend(on.iter().map(|line| format!("    {line}")));
    lines
}

fn all_kinds(catalogue: &Catalogue) -> Vec<KindOut> {
    let known: Vec<(&Instrument, Vec<drill::Kind>)> =
        catalogue.all().map(|tool| (tool, kinds(tool))).collect();
    let out = |kind: &drill::Kind| KindOut {
        kind: kind.word(),
        name: task::name(*kind),
        about: task::about(*kind),
        instruments: known
            .iter()
            .filter(|(_, kinds)| kinds.contains(kind))
            .map(|(tool, _)| tool.id.clone())
            .collect(),
    };
    drill::Kind::ALL.iter().map(out).collect()
}

fn instrument(of: &Instrument) -> InstrumentOut<'_> {
    InstrumentOut {
        id: &of.id,
        title: &of.title,
        unit: of.unit.symbol(),
        range: [of.spell(of.low), of.spell(of.high)],
        least_count: of.spell(of.least_count),
    }
}

fn misread<'a>(one: &'static Misread, catalogue: &'a Catalogue) -> MisreadOut<'a> {
    MisreadOut {
        id: one.id,
        name: one.name,
        instruments: catalogue.all().filter(|i| one.happens_on(i)).map(|i| i.id.as_str()).collect(),
        stage: one.on.iter().map(|on| say::stage(*on)).collect::<Vec<_>>().join(" or "),
        formula: one.formula,
        cure: one.cure,
    }
}

fn table(catalogue: &Catalogue) -> Vec<String> {
    let rows: Vec<[String; 5]> = catalogue
        .all()
        .map(instrument)
        .map(|of| {
            let [low, high] = of.range;
            [
                of.id.to_owned(),
                of.unit.to_owned(),
                format!("{low} to {high}"),
                of.least_count,
                out::clean_name(of.title),
            ]
        })
        .collect();
    let widths: [usize; 4] =
        std::array::from_fn(|column| rows.iter().map(|row| row[column].width()).max().unwrap_or(0));
    rows.into_iter()
        .map(|row| {
            let mut line = String::new();
            for (cell, width) in row.iter().zip(widths) {
                line.push_str(cell);
                line.push_str(&" ".repeat(width - cell.width() + 2));
            }
            line + &row[4]
        })
        .collect()
}

fn card(of: &MisreadOut<'_>) -> [String; 5] {
    [
        format!("{}: {}", of.id, of.name),
        format!("    stage        {}", of.stage),
        format!("    what is done {}", of.formula),
        format!("    cure         {}", of.cure),
        format!("    instruments  {}", of.instruments.join(", ")),
    ]
}

//! `linefall list`.

use super::args::{Common, Listing};
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::shelf;
use crate::drill::{self, task::kinds};
use crate::instrument::schema::{Key, Kind, Need, Place, keys};
use crate::instrument::{Catalogue, Instrument};
use crate::lesson::{self, Lesson};
use crate::reading::{Misread, misread};
use crate::wording::{command as say, format, task};
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
struct FormatOut {
    keys: Vec<KeyOut>,
    examples: Vec<ExampleOut>,
}

#[derive(Serialize)]
struct ExampleOut {
    shows: &'static str,
    text: &'static str,
}

fn all_keys() -> Vec<KeyOut> {
    let out = |key: &Key| KeyOut {
        key: key.name,
        of: key.places.iter().map(|place| place.word()).collect(),
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
    };
    keys().map(out).collect()
}

/// Lists what there is.
pub fn run(common: &Common, what: Listing, json: bool, out: &mut Out) -> Result<Exit, Halt> {
    match (what, json) {
        (Listing::Keys, true) => out.line(&out::json(&all_keys()))?,
        (Listing::Keys, false) => {
            for (n, place) in Place::ALL.into_iter().enumerate() {
                if n > 0 {
                    out.line("")?;
                }
                out.lines(format::keys(place))?;
            }
        }
        (Listing::Format, true) => {
            let examples = format::EXAMPLES.iter();
            let examples = examples.map(|example| ExampleOut { shows: example.shows, text: example.text });
            out.line(&out::json(&FormatOut { keys: all_keys(), examples: examples.collect() }))?;
        }
        (Listing::Format, false) => out.lines(format::page().lines())?,
        (Listing::Lessons, true) => out.line(&out::json(&lessons()))?,
        (Listing::Lessons, false) => {
            for of in lessons() {
                out.line(&format!("{}: {} ({} steps)", of.id, of.title, of.steps))?;
                out.line(&format!("    for {}", of.instruments.join(", ")))?;
            }
        }
        (Listing::Instruments, true) => {
            let catalogue = shelf::catalogue(common);
            out.line(&out::json(&catalogue.all().map(instrument).collect::<Vec<_>>()))?;
        }
        (Listing::Instruments, false) => out.lines(table(&shelf::catalogue(common)))?,
        (Listing::Kinds, true) => out.line(&out::json(&all_kinds(&shelf::catalogue(common))))?,
        (Listing::Kinds, false) => {
            for of in all_kinds(&shelf::catalogue(common)) {
                out.line(&format!("{}: {}", of.kind, of.name))?;
                out.line(&format!("    {}", of.about))?;
                out.line(&format!("    instruments  {}", of.instruments.join(", ")))?;
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

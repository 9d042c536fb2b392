//! Charts for the wall, cards for the bench, the tick sheet.

use super::work::view;
use super::{head, length};
use crate::cli::exit::Halt;
use crate::cli::shelf;
use crate::drill::{Question, Seed, question_1};
use crate::exact::{Exact, Notation, Quanta};
use crate::instrument::{Catalogue, Instrument, Variant, care_card};
use crate::reading::{Share, shares};
use crate::render::lines_of;
use crate::render::paper::{Leaf, Paper};
use crate::render::sheet::{Block, Card, Chart, Column, Entry, Pointed, Sheet, Stand};
use crate::render::sheet::{cards as lay_cards, chart as lay_chart, lay};
use crate::scene::{self, Scene};
use crate::wording::sheet as say;

/// Sentences of a care card on a chart or a card.
const FEW: usize = 4;

/// The chart that is wanted, and its title.
pub(super) fn chart(
    catalogue: &Catalogue,
    wanted: &str,
    reading: Option<&str>,
    paper: Paper,
) -> Result<(Vec<Leaf>, String), Halt> {
    match wanted {
        "64ths" => Ok((lay(&sixty_fourths(paper)), say::sixty_fourths::TITLE.to_owned())),
        "tick-sheet" => Ok((lay(&tick_sheet(paper)), say::ticks::TITLE.to_owned())),
        id => {
            let instrument = shelf::find(catalogue, id)?;
            let shown = Shown::new(instrument, reading)?;
            let card = care_card(&instrument.family);
            let notes = card.map_or_else(Vec::new, |card| {
                vec![
                    (say::BEFORE.to_owned(), few(&card.before)),
                    (say::NEVER.to_owned(), few(&card.cautions)),
                ]
            });
            let title = instrument.title.clone();
            let chart = Chart {
                paper,
                head: head(title.clone(), vec![say::chart_under(&shown.tool)]),
                quantum: length(&shown.tool),
                steps: shown.steps(),
                sum: vec![say::sum(&shown.tool, &shown.question.reading, &shown.shares)],
                scene: shown.scene,
                notes,
            };
            Ok((vec![lay_chart(&chart)], title))
        }
    }
}

/// Cards for tools, two a page, and their title.
pub(super) fn cards(
    catalogue: &Catalogue,
    ids: &[String],
    paper: Paper,
) -> Result<(Vec<Leaf>, String), Halt> {
    let mut all = Vec::new();
    for id in ids {
        let instrument = shelf::find(catalogue, id)?;
        let shown = Shown::new(instrument, None)?;
        let steps = shown.shares.iter().map(|share| {
            let (what, worth) = say::step(&shown.tool, share);
            format!("{what}: {worth}")
        });
        let mut read: Vec<String> = steps.collect();
        read.push(say::sum(&shown.tool, &shown.question.reading, &shown.shares));
        let mut columns = [vec![(say::READ_LIKE_THIS.to_owned(), read)], Vec::new()];
        if let Some(card) = care_card(&instrument.family) {
            columns[0].push((say::BEFORE.to_owned(), card.before));
            columns[1].push((say::MEASURE.to_owned(), card.measure));
            columns[1].push((say::NEVER.to_owned(), card.cautions));
        }
        all.push(Card {
            title: instrument.title.clone(),
            under: say::chart_under(&shown.tool),
            quantum: length(&shown.tool),
            scene: shown.scene,
            columns,
        });
    }
    let title = all.iter().map(|card| card.title.as_str()).collect::<Vec<_>>().join(", ");
    Ok((lay_cards(paper, &head(String::new(), Vec::new()), &all), title))
}

fn few(sentences: &[String]) -> Vec<String> {
    sentences.iter().take(FEW).cloned().collect()
}

/// A tool standing somewhere, and how it is read there.
struct Shown {
    tool: Instrument,
    question: Question,
    shares: Vec<Share>,
    scene: Scene,
}

impl Shown {
    /// At a reading; where none is given, at the first one of some that has the most steps.
    fn new(instrument: &Instrument, reading: Option<&str>) -> Result<Self, Halt> {
        let variant = Variant::default();
        let tool = instrument.fitted(&variant);
        let at = |setting| Question::new(&tool, 1, setting, Quanta::ZERO, variant.clone());
        let steps = |question: &Question| shares(&tool, &question.reading).len();
        let question = if let Some(text) = reading {
            at(shelf::setting(&tool, text)?)
        } else {
            // In the middle half of the range: a thimble leaves some of the sleeve in view and covers some.
            let quarter = Quanta((tool.high - tool.low).0 / 4);
            let middle = |setting: &Quanta| tool.low + quarter <= *setting && *setting <= tool.high - quarter;
            (1..=48)
                .map(|number| question_1(instrument, Seed(1), number).setting)
                .filter(middle)
                .map(at)
                .reduce(|best, next| if steps(&next) > steps(&best) { next } else { best })
                .unwrap_or_else(|| at(tool.low))
        };
        let shares = shares(&tool, &question.reading);
        let scene = scene::build(&tool, &question.pose, &variant, view(&tool));
        Ok(Self { tool, question, shares, scene })
    }

    fn steps(&self) -> Vec<Pointed> {
        let step = |share: &Share| {
            let (words, worth) = say::step(&self.tool, share);
            Pointed { lit: lines_of(std::slice::from_ref(share), &self.scene), words, worth }
        };
        self.shares.iter().map(step).collect()
    }
}

/// Every sixty-fourth as a fraction, in inches and in millimetres; all of them exact.
fn sixty_fourths(paper: Paper) -> Sheet {
    use say::sixty_fourths::{COLUMNS, TITLE, UNDER};
    let rows = (1..=32).map(|n| [n, n + 32].into_iter().flat_map(sixty_fourth).collect()).collect();
    let column = |heading: &str| Column { heading: heading.to_owned(), share: 1, stand: Stand::Right };
    let columns = COLUMNS.iter().chain(&COLUMNS).map(|heading| column(heading)).collect();
    let head = head(TITLE.to_owned(), vec![UNDER.to_owned()]);
    let entry = Entry { number: None, blocks: vec![Block::Grid { columns, rows, tall: 6_900 }] };
    Sheet { paper, head, entries: vec![entry] }
}

/// One of them: six places are as many as any of them has.
fn sixty_fourth(n: i128) -> [String; 3] {
    let inches = Exact::ratio(n, 64);
    let places = Notation::Decimal { places: 6 };
    [Notation::Fraction.spell(inches), places.spell(inches), places.spell(inches * Exact::ratio(127, 5))]
}

/// The sheet for the practical half, to be filled in by hand.
fn tick_sheet(paper: Paper) -> Sheet {
    use say::ticks::{FIELDS, NOTE, PART, SIGNED, SIZES, STEP, TITLE, UNDER, WATCHED};
    let mut head = head(TITLE.to_owned(), UNDER.map(str::to_owned).to_vec());
    head.fields = FIELDS.map(str::to_owned).to_vec();
    head.bar = None;
    let column = |heading: &str, share, stand| Column { heading: heading.to_owned(), share, stand };
    let mut watched = vec![column(STEP, 6, Stand::Left)];
    watched.extend(PART.map(|part| column(part, 1, Stand::Middle)));
    let rows = WATCHED.map(|words| {
        let mut row = vec![words.to_owned()];
        row.extend(PART.map(|_| String::new()));
        row
    });
    let sizes = SIZES.map(|heading| column(heading, 1, Stand::Left)).to_vec();
    let blank = PART.map(|part| {
        let mut row = vec![part.to_owned()];
        row.extend((1..SIZES.len()).map(|_| String::new()));
        row
    });
    let blocks = vec![
        Block::Grid { columns: watched, rows: rows.to_vec(), tall: 11_000 },
        Block::Space(8_000),
        Block::Grid { columns: sizes, rows: blank.to_vec(), tall: 11_000 },
        Block::Fields(SIGNED[0].map(str::to_owned).to_vec()),
        Block::Fields(SIGNED[1].map(str::to_owned).to_vec()),
        Block::Words(vec![NOTE.to_owned()]),
    ];
    Sheet { paper, head, entries: vec![Entry { number: None, blocks }] }
}

#[cfg(test)]
mod tests {
    use super::sixty_fourth;

    /// The decimal equivalents as handbooks print them: first to last figure of each row from memory of the common chart, which
    /// gives inches to six places; millimetres from 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
    #[test]
    fn sixty_fourths_are_those_of_the_published_charts() {
        let published = [
            (1, "1/64", "0.015625", "0.396875"),
            (2, "1/32", "0.031250", "0.793750"),
            (3, "3/64", "0.046875", "1.190625"),
            (4, "1/16", "0.062500", "1.587500"),
            (8, "1/8", "0.125000", "3.175000"),
            (11, "11/64", "0.171875", "4.365625"),
            (16, "1/4", "0.250000", "6.350000"),
            (21, "21/64", "0.328125", "8.334375"),
            (24, "3/8", "0.375000", "9.525000"),
            (32, "1/2", "0.500000", "12.700000"),
            (37, "37/64", "0.578125", "14.684375"),
            (48, "3/4", "0.750000", "19.050000"),
            (63, "63/64", "0.984375", "25.003125"),
            (64, "1", "1.000000", "25.400000"),
        ];
        for (n, fraction, inches, millimetres) in published {
            assert_eq!(sixty_fourth(n), [fraction, inches, millimetres], "{n}");
        }
    }
}

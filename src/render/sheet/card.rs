//! Bench cards: half a page for each tool, to be cut out and put beside it.

use super::Head;
use super::blocks::{ROOM, Slip, leading, text};
use super::magnified::Scaled;
use crate::exact::Exact;
use crate::render::paper::{Leaf, MM, Mark, Paper, Weight, clean, cut};
use crate::render::vector::{self, UNIT};
use crate::scene::Scene;

/// A card.
#[derive(Clone, Debug)]
pub struct Card {
    /// The tool.
    pub title: String,
    /// Its least count and range, in a line.
    pub under: String,
    /// An example of a reading.
    pub scene: Scene,
    /// How long its quantum is in millimetres.
    pub quantum: Option<Exact>,
    /// What stands in the left column, what in the right one: headings and their sentences.
    pub columns: [Vec<(String, Vec<String>)>; 2],
}

const TITLE: i64 = 5 * MM;
/// Sizes of type that are tried until all has room.
const SIZES: [i64; 7] = [3_200, 3_000, 2_800, 2_600, 2_400, 2_200, 2_000];
/// How tall the picture may be.
const TALLEST: i64 = 46 * MM;
const MARGIN: i64 = 8 * MM;

/// Two cards a page.
pub fn cards(paper: Paper, head: &Head, cards: &[Card]) -> Vec<Leaf> {
    let (width, height) = paper.size();
    let (left, half) = ((width - ROOM) / 2, height / 2);
    let page = |pair: &[Card]| {
        let mut marks = Vec::new();
        for (n, card) in (0_i64..).zip(pair) {
            let top = n * half + MARGIN;
            let tall = half - 2 * MARGIN;
            marks.push(Mark::Frame {
                corner: (left - 3 * MM, top - 3 * MM),
                size: (ROOM + 6 * MM, tall + 6 * MM),
                width: 300,
            });
            let all = SIZES.map(|size| drawn(card, head, size));
            let fits =
                all.into_iter().enumerate().find(|(n, slip)| slip.height <= tall || *n + 1 == SIZES.len());
            let slip = fits.map(|(_, slip)| slip).unwrap_or_default();
            marks.extend(slip.marks.into_iter().map(|mark| mark.moved(left, top)));
        }
        Leaf { width, height, marks }
    };
    cards.chunks(2).map(page).collect()
}

fn drawn(card: &Card, head: &Head, size: i64) -> Slip {
    let mut slip = Slip::default();
    slip.rows(0, TITLE, Weight::Bold, vec![cut(&clean(&card.title), TITLE, Weight::Bold, ROOM)]);
    slip.words(0, size, Weight::Regular, &card.under, ROOM);
    slip.gap(2 * MM);
    let picture = vector::draw_wide(&card.scene, &[]);
    let most = (TALLEST * UNIT / picture.height.max(1)).min(110);
    let scaled = Scaled::at_most(picture, ROOM, most);
    let note = (head.note)(&scaled.magnified(card.scene.kind, card.quantum));
    slip.picture(0, scaled);
    slip.gap(500);
    slip.words(0, 2_000, Weight::Regular, &note, ROOM);
    slip.gap(MM);
    let top = slip.height;
    let mut ends = [top, top];
    let half = ROOM / 2;
    for ((n, sections), end) in (0_i64..).zip(&card.columns).zip(&mut ends) {
        slip.height = top;
        let (left, room) = (n * (half + 2 * MM), half - 2 * MM);
        for (heading, sentences) in sections {
            slip.words(left, size, Weight::Bold, heading, room);
            for sentence in sentences {
                let from = slip.height;
                slip.words(left + 3 * MM, size, Weight::Regular, sentence, room - 3 * MM);
                let baseline = from + leading(size) - size * 2 / 5;
                slip.marks.push(text(left, baseline, size, Weight::Regular, "\u{2013}".to_owned()));
            }
            slip.gap(700);
        }
        *end = slip.height;
    }
    slip.height = ends[0].max(ends[1]);
    slip
}

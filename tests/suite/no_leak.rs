//! What a picture must not give away: the lines in line look like all others, and nothing but the moving scale follows the
//! setting.

use crate::robot::kinds::{Disc, KNOWN, Kind, Known};
use crate::shots::{How, Look, SIZES, catalogue, looks, shipped};
use linefall::render::{Cell, Drawing, Extent, Glass, Ink, LineStyle, Paper};

fn cells(drawing: &Drawing) -> impl Iterator<Item = (usize, usize, &Cell)> {
    let grid = &drawing.grid;
    (0..grid.rows())
        .flat_map(move |row| grid.row(row).iter().enumerate().map(move |(col, cell)| (col, row, cell)))
}

/// Settings to compare with their neighbour: some of each kind, coinciding or not.
fn settings(known: &Known) -> Vec<i64> {
    let (low, high) = known.range;
    (low..high).step_by(usize::try_from((high - low) / 60).expect("positive").max(1)).collect()
}

fn for_pictures(mut check: impl FnMut(&Look<'_>, How, i64, &Drawing)) {
    let catalogue = catalogue();
    for known in &KNOWN {
        let instrument = shipped(&catalogue, known);
        let glasses: &[Glass] = match known.kind {
            Kind::Disc(Disc { vernier: Some(_), .. }) => &[Glass::IfNeeded, Glass::At(0), Glass::At(-3)],
            Kind::Pair(..) => &[Glass::IfNeeded, Glass::At(0), Glass::At(3)],
            Kind::Rule(_) | Kind::Micrometer(_) | Kind::Dial(_) | Kind::Disc(_) => &[Glass::IfNeeded],
        };
        for look in looks(known, instrument) {
            for size in SIZES {
                for style in LineStyle::ALL {
                    for glass in glasses {
                        let how = How::new(size, style).with(*glass);
                        for setting in settings(known) {
                            if let Ok(drawing) = look.draw(setting, how) {
                                check(&look, how, setting, &drawing);
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What a cell holds is not ink alone: a blank has none.
fn drawn(cell: Cell) -> bool {
    cell.glyph != ' ' || cell.swapped
}

#[test]
fn all_lines_have_the_same_ink() {
    for_pictures(|look, how, setting, drawing| {
        for (col, row, cell) in cells(drawing) {
            let is_figure = cell.glyph.is_ascii_alphanumeric() || matches!(cell.glyph, '.' | '/' | ':');
            let allowed = match cell.ink {
                Ink::Line => !is_figure,
                Ink::Figure | Ink::LargeFigure => {
                    cell.glyph.is_ascii_digit()
                        || matches!(cell.glyph, '\u{2039}' | '<' | '\u{203a}' | '>' | '\u{25be}')
                }
                Ink::Engraving | Ink::Note => true,
                Ink::Lit | Ink::Pointer => false,
            };
            assert!(allowed, "{} at {setting}, {how:?}: {cell:?} at {col}, {row}", look.name());
        }
    });
}

/// Whether a cell may look different at another setting.
fn may_move(look: &Look<'_>, drawing: &Drawing, row: usize, cell: Cell) -> bool {
    let cells = drawing.grid.row(row);
    match &look.known.kind {
        // The vernier stands still on the page and the bar slides behind it, whichever of the two moves on the tool.
        Kind::Pair(..) => {
            cell.paper == if look.known.manner().bar_moves { Paper::Moving } else { Paper::Fixed }
        }
        // The work's end stands still, but where the rule's own beginning is in view.
        Kind::Rule(_) => true,
        // What it is read at stands in the middle and never moves.
        Kind::Disc(_) => cell.paper != Paper::Moving,
        Kind::Dial(_) => match cell.paper {
            Paper::Moving => true,
            // What the jaw leaves in view of the bar; never the hand.
            Paper::Fixed => cells[1].paper == Paper::Frame,
            Paper::Bench | Paper::Frame | Paper::Work => false,
        },
        Kind::Micrometer(_) => match cell.paper {
            Paper::Moving => true,
            // On the sleeve its own lines, never a vernier's nor the datum line; in a strip nothing at all.
            Paper::Fixed => {
                let on_sleeve = cells[1].paper == Paper::Frame;
                let level =
                    drawn(cells[8]) && cells[8].glyph == cells[9].glyph && cells[9].glyph == cells[10].glyph;
                on_sleeve && !level
            }
            Paper::Bench | Paper::Frame | Paper::Work => false,
        },
    }
}

#[test]
fn only_the_moving_relation_follows_the_setting() {
    for_pictures(|look, how, setting, drawing| {
        let next = look.draw(setting + 1, how).expect("as its neighbour");
        assert_eq!(next.extent, drawing.extent, "{} at {setting}, {how:?}", look.name());
        assert_eq!(next.view, drawing.view, "{} at {setting}, {how:?}", look.name());
        assert_eq!(next.glass, drawing.glass, "{} at {setting}, {how:?}", look.name());
        let pairs = cells(drawing).zip(cells(&next));
        for ((col, row, cell), (_, _, other)) in pairs.filter(|((_, _, cell), (_, _, other))| cell != other) {
            let moved = may_move(look, drawing, row, *cell) && may_move(look, &next, row, *other);
            let same_paper = cell.paper == other.paper || matches!(look.known.kind, Kind::Rule(_));
            assert!(
                moved && same_paper,
                "{} at {setting}, {how:?}: {cell:?} {other:?} at {col}, {row}",
                look.name()
            );
        }
    });
}

/// The glass opens at the vernier's zero whatever the setting, and stands where it is put.
#[test]
fn the_glass_never_goes_to_the_line_in_line() {
    let mut open = 0;
    for_pictures(|look, how, setting, drawing| {
        let wanted = match (how.glass, drawing.extent) {
            (Glass::At(line), _) => Some(line),
            (_, Extent::Slide) => Some(0),
            (_, Extent::Whole) => None,
        };
        assert_eq!(drawing.glass, wanted, "{} at {setting}, {how:?}", look.name());
        open += u64::from(wanted.is_some());
    });
    assert!(open > 0, "no glass was open");
}

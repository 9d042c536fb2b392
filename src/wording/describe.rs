//! What can be seen, in short plain sentences, for ears as well as eyes.

use crate::exact::Unit;
use crate::instrument::{Body, Form, Instrument, NumeralSize, Runs, Side, Turns};
use crate::render::describe::{Against, Meets, Miss, Seen, Standing, Way, Whose};
use crate::scene::{Kind, View};

/// A sentence for each thing that can be seen.
pub fn describe(instrument: &Instrument, seen: &[Seen]) -> Vec<String> {
    seen.iter().flat_map(|seen| sentences(instrument, seen)).collect()
}

/// Of two pairs of scales on one beam each has sentences of its own.
fn sentences(instrument: &Instrument, seen: &Seen) -> Vec<String> {
    let Seen::OnBeam { edge, whose, seen } = seen else { return vec![sentence(instrument, seen)] };
    let tool = match (whose, instrument.on_same_jaw()) {
        (Whose::Other, Some(other)) => &other.tool,
        (Whose::Read | Whose::Other, _) => instrument,
    };
    let name = |n: usize| tool.stages.get(n).map_or("scale", |stage| stage.name.as_str());
    let (along, beyond) = match edge {
        Side::Above => ("upper", "above"),
        Side::Below => ("lower", "below"),
    };
    let first = format!("Along the {along} edge of the beam a {}, with a {} {beyond} it.", name(0), name(1))
        .replace(" a inch", " an inch");
    std::iter::once(first).chain(describe(tool, seen)).collect()
}

fn sentence(instrument: &Instrument, seen: &Seen) -> String {
    let name = |stage: usize| instrument.stages[stage].name.as_str();
    match seen {
        Seen::Tool { kind, view, grows } => tool(instrument, *kind, *view, *grows),
        Seen::OnBeam { .. } => String::new(),
        Seen::Engraved(texts) => format!("Engraved on it: {}.", texts.join("; ")),
        Seen::Tags(texts) => format!(
            "On the tag: {}.",
            texts.join("; ").replace('|', "stroke ").replace("stroke ;", "stroke;")
        ),
        Seen::NotReached { stage, against: Against::ThimbleEdge } => {
            format!("{}: no line shows; its 0 is under the thimble.", capital(name(*stage)))
        }
        Seen::NotReached { stage, against: Against::CoveringEdge } => {
            format!("{}: no line shows; all of them are under the thimble.", capital(name(*stage)))
        }
        Seen::NotReached { stage, against } => {
            format!("{}: {} has not reached its 0.", capital(name(*stage)), index(*against))
        }
        Seen::Figure { stage, against, size, number, times } => {
            figure(&capital(name(*stage)), *against, *size, *number, *times)
        }
        Seen::Between { stage, against, clockwise, last, next } => {
            let going = match (against, clockwise) {
                (Against::IndexLine, true) => "to the right",
                (Against::IndexLine, false) => "to the left",
                (_, true) => "clockwise",
                (_, false) => "counter-clockwise",
            };
            let (scale, at) = (capital(name(*stage)), index(*against));
            format!(
                "{scale}: going {going}, the last figure at {at} or before it is {last}, the next is {next}."
            )
        }
        Seen::Lines { stage, against, side, count, longer } => {
            let side = side.map_or_else(String::new, |side| format!(", {} the datum line", side.word()));
            let lines = match count {
                0 => "no more lines".to_owned(),
                1 => "1 more line".to_owned(),
                count => format!("{count} more lines"),
            };
            let longer = match (longer, count) {
                (0, _) => String::new(),
                (1, 1) => ", a longer one".to_owned(),
                (longer, _) => format!(", {longer} of them longer"),
            };
            let scale = capital(name(*stage));
            match against {
                Against::CoveringEdge => {
                    format!("{scale}{side}: {lines} showing between the edge and that figure{longer}.")
                }
                Against::ThimbleEdge => format!("{scale}{side}: {lines} showing after that figure{longer}."),
                _ => format!("{scale}: {lines} after that figure, up to {}{longer}.", index(*against)),
            }
        }
        Seen::Stands { stage, against, standing } => {
            format!("{}: {}.", capital(name(*stage)), stands(*against, *standing))
        }
        Seen::VernierLine { stage, other, half, line, figure, meets } => {
            let half = match half {
                None => "",
                Some(Way::Left) => "left half, ",
                Some(_) => "right half, ",
            };
            let figure = figure.map_or_else(String::new, |figure| format!(", figure {figure}"));
            let other = name(*other);
            let meets = match meets {
                Meets::InLine => format!("a line of the {other} is in line with it"),
                Meets::HalfWay => format!("it is half way between two lines of the {other}"),
                Meets::Beside { way, by } => {
                    let by = match by {
                        Miss::Hair => "a hair ",
                        Miss::Plain => "",
                    };
                    format!("the nearest line of the {other} is {by}{}", beside(*way))
                }
            };
            format!("{} {half}line {line}{figure}: {meets}.", capital(name(*stage)))
        }
    }
}

/// The last figure before an edge, a hand or an index.
fn figure(
    scale: &str,
    against: Against,
    size: Option<NumeralSize>,
    number: Option<i64>,
    times: usize,
) -> String {
    let size = match size {
        None => "",
        Some(NumeralSize::Large) => "large ",
        Some(NumeralSize::Small) => "small ",
    };
    let last = match against {
        Against::ThimbleEdge => format!("last {size}figure showing"),
        Against::CoveringEdge => format!("first {size}figure showing from the edge on"),
        Against::DatumLine(way) => format!("last {size}figure at the datum line or {}", beside(way)),
        Against::WorkEnd
        | Against::VernierZero
        | Against::JawEdge
        | Against::SmallHand
        | Against::Hand
        | Against::IndexLine => {
            format!("last {size}figure reached by {}", index(against))
        }
    };
    match (number, times) {
        (None, _) if against == Against::CoveringEdge => format!("{scale}: no figure shows."),
        (None, _) => format!("{scale}: no {size}figure after that one."),
        (Some(number), 0 | 1) => format!("{scale}: the {last} is {number}."),
        (Some(number), times) => {
            format!("{scale}: the {last} is {number}, the {} {number} on the scale.", ordinal(times))
        }
    }
}

/// Where an edge, a hand or an index stands.
fn stands(against: Against, standing: Standing) -> String {
    if against == Against::CoveringEdge {
        let short = match standing {
            Standing::InLine => "a whole division",
            Standing::JustPast => "nearly a whole division",
            Standing::Quarter => "about three quarters of a division",
            Standing::Third => "about two thirds of a division",
            Standing::UnderHalf => "a little more than half a division",
            Standing::Half => "half a division",
            Standing::OverHalf => "a little less than half a division",
            Standing::TwoThirds => "about a third of a division",
            Standing::ThreeQuarters => "about a quarter of a division",
            Standing::NearlyNext => "a hair",
        };
        return format!("the edge of the thimble is {short} short of the nearest line");
    }
    let standing = match standing {
        Standing::InLine => "in line with the line last counted",
        Standing::JustPast => "just past the line last counted",
        Standing::Quarter => "about a quarter of the way to the next line",
        Standing::Third => "about a third of the way to the next line",
        Standing::UnderHalf => "a little less than half way to the next line",
        Standing::Half => "half way to the next line",
        Standing::OverHalf => "a little more than half way to the next line",
        Standing::TwoThirds => "about two thirds of the way to the next line",
        Standing::ThreeQuarters => "about three quarters of the way to the next line",
        Standing::NearlyNext => "nearly at the next line",
    };
    format!("{} is {standing}", index(against))
}

fn tool(instrument: &Instrument, kind: Kind, view: View, grows: Way) -> String {
    let scales: Vec<&str> = instrument
        .stages
        .iter()
        .filter(|stage| !matches!(stage.form, Form::Fixed(_)))
        .map(|stage| stage.name.as_str())
        .collect();
    let name = |n: usize| scales.get(n).copied().unwrap_or("scale");
    match (kind, view) {
        _ if instrument.is_both_ways() => both_ways(grows, name(0), scales.get(1).copied()),
        (Kind::Rule, _) if instrument.unit == Unit::Minute => {
            format!("A {} over an index line, unrolled.", name(0))
        }
        (Kind::Rule, _) => format!("A {} laid along the work, to be read at the end of the work.", name(0)),
        (Kind::Dial, _) => dial(instrument),
        (Kind::Pair, _) => match grows {
            Way::Left if runs_back(instrument) => format!(
                "A {} that runs from right to left, with a {} below it, whose figures grow to the right.",
                name(0),
                name(1)
            ),
            Way::Left => {
                format!("A {} with a {} below it; both run from right to left.", name(0), name(1))
            }
            Way::Above => format!("A {} standing upright, with a {} to the right of it.", name(0), name(1)),
            Way::Right | Way::Below if runs_back(instrument) => {
                format!("A {} with a {} below it, whose figures grow to the left.", name(0), name(1))
            }
            Way::Right | Way::Below => format!("A {} with a {} below it.", name(0), name(1)),
        },
        (Kind::Sleeve, View::Held) if grows == Way::Left => format!(
            "In the hand: the {} to the left, its figures growing to the left; the {} to the right of its edge, its \
             figures growing downward, covers it as the reading grows.",
            name(0),
            name(1)
        ),
        (Kind::Sleeve, View::Flat) if grows == Way::Left => format!(
            "Laid flat: the {}, its figures growing to the left, with the edge that covers it as the reading grows, and \
             below it the {} rolled out, its figures growing to the left as well.",
            name(0),
            name(1)
        ),
        (Kind::Sleeve, View::Held) => {
            format!("In the hand: the {} to the left, the {} to the right of its edge.", name(0), name(1))
        }
        (Kind::Sleeve, View::Flat) => {
            format!(
                "Laid flat: the {} with the edge over it, and below it the {} rolled out.",
                name(0),
                name(1)
            )
        }
    }
}

/// True where the vernier's figures grow against those of its scale.
fn runs_back(instrument: &Instrument) -> bool {
    let back = |form: &Form| matches!(form, Form::Vernier(vernier) if vernier.runs == Runs::Backward);
    instrument.stages.iter().any(|stage| back(&stage.form))
}

/// A disc figured both ways: what matters is where its figures grow to, past the line they are read at.
fn both_ways(grows: Way, disc: &str, vernier: Option<&str>) -> String {
    let way = if grows == Way::Left { "left" } else { "right" };
    match vernier {
        Some(vernier) => format!(
            "A {disc} with a double {vernier} below it, unrolled; at the {vernier}'s 0 the figures of the {disc} grow to the {way}."
        ),
        None => format!(
            "A {disc} over an index line, unrolled; at the index line the figures of the {disc} grow to the {way}."
        ),
    }
}

fn dial(instrument: &Instrument) -> String {
    let mut coarse = "";
    for stage in &instrument.stages {
        match &stage.form {
            Form::Line(_) => coarse = &stage.name,
            Form::Dial(dial) => {
                let name = &stage.name;
                return match (dial.body, dial.turns) {
                    (Body::Collar, _) => format!("A {name} that turns under an index line."),
                    (Body::Face, Turns::Bar) => {
                        format!("A {coarse} with the edge of the jaw over it, and a {name} with a hand.")
                    }
                    (Body::Face, Turns::Counter) => {
                        format!("A {name} with a hand, and a {coarse} of its turns with a small hand.")
                    }
                    (Body::Face, Turns::Uncounted) => format!("A {name} with a hand."),
                };
            }
            Form::Drum(_) | Form::Vernier(_) | Form::Fixed(_) => {}
        }
    }
    String::new()
}

fn index(against: Against) -> &'static str {
    match against {
        Against::WorkEnd => "the end of the work",
        Against::VernierZero => "the vernier's 0",
        Against::ThimbleEdge | Against::CoveringEdge => "the edge of the thimble",
        Against::JawEdge => "the edge of the jaw",
        Against::SmallHand => "the small hand",
        Against::Hand => "the hand",
        Against::IndexLine => "the index line",
        Against::DatumLine(_) => "the datum line",
    }
}

fn ordinal(times: usize) -> String {
    match times {
        2 => "second".to_owned(),
        3 => "third".to_owned(),
        times => format!("{times}th"),
    }
}

fn beside(way: Way) -> &'static str {
    match way {
        Way::Left => "to its left",
        Way::Right => "to its right",
        Way::Above => "above it",
        Way::Below => "below it",
    }
}

fn capital(name: &str) -> String {
    let mut chars = name.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

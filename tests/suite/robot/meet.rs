//! Two scales that meet: which lines are in line, and what that says.

use super::kinds::{Divided, Sliding};
use super::scale::{Line, Round, Scale};

/// What was seen where a vernier meets a scale.
#[derive(Debug)]
pub struct Met {
    /// The value of the scale at the vernier's zero.
    pub value: i64,
    /// The numbers of the vernier lines that are in line.
    pub in_line: Vec<i64>,
    /// The numbers of the first and the last vernier line in view.
    pub view: (i64, i64),
    /// Dots per quantum.
    pub dots: i64,
    /// The least distance of lines that are not in line, in dots.
    pub miss: i64,
    /// Whether a neighbour of a line in line, and the line it nearly meets, are both in view.
    pub neighbour: bool,
    /// Whether the scale's line last passed by the vernier's zero is in view.
    pub passed_in_view: bool,
    /// Lines in view, of the scale and of the vernier.
    pub lines: [usize; 2],
    /// Figures in view, of the scale and of the vernier.
    pub figures: [usize; 2],
}

fn whole(a: i64, b: i64, what: &str) -> Result<i64, String> {
    if a % b == 0 { Ok(a / b) } else { Err(format!("{a} dots are no whole number of {what} of {b}")) }
}

/// Reads a vernier against a scale twice: by the lines in line, and by where its zero stands. Both must agree.
pub fn meet(
    scale: &Scale,
    divided: &Divided,
    vernier: &Scale,
    sliding: &Sliding,
    round: Round,
) -> Result<Met, String> {
    let dots = whole(scale.pitch, divided.division, "divisions")?;
    if whole(vernier.pitch, sliding.part, "parts")? != dots {
        return Err(format!("{dots} dots per quantum on the scale, {} on the vernier", vernier.pitch));
    }
    let turned = |value: i64| match round {
        Round::Straight => value,
        Round::Turning => value.rem_euclid(divided.end),
    };
    let zero = vernier.lines[0].pos - vernier.first * vernier.pitch;
    let place = |line: &Line| line.pos - scale.lines[0].pos;
    let second = turned(scale.first + whole(zero - scale.lines[0].pos, dots, "dots per quantum")?);
    let mut in_line = Vec::new();
    let mut miss = i64::MAX;
    let mut neighbour = false;
    for (k, line) in (vernier.first..).zip(&vernier.lines) {
        let n = place(line).div_euclid(scale.pitch);
        for n in [n, n + 1] {
            let Some(other) = usize::try_from(n).ok().and_then(|n| scale.lines.get(n)) else { continue };
            let apart = (other.pos - line.pos).abs();
            if apart == 0 {
                in_line.push(k);
                let both = |step: i64| {
                    let there = |n: i64, lines: &[Line]| usize::try_from(n).is_ok_and(|n| n < lines.len());
                    there(n + step, &scale.lines) && there(k - vernier.first + step, &vernier.lines)
                };
                neighbour |= both(-1) || both(1);
                let value = turned(scale.value(n, divided) - k * sliding.part);
                if value != second {
                    return Err(format!("line {k} in line says {value}, the zero says {second}"));
                }
            } else {
                miss = miss.min(apart);
            }
        }
    }
    let passed_in_view = scale.lines.iter().any(|line| line.pos <= zero && zero - line.pos < scale.pitch);
    let count = i64::try_from(vernier.lines.len()).expect("few lines");
    Ok(Met {
        value: second,
        in_line,
        view: (vernier.first, vernier.first + count - 1),
        dots,
        miss,
        neighbour,
        passed_in_view,
        lines: [scale.lines.len(), vernier.lines.len()],
        figures: [scale.figures, vernier.figures],
    })
}

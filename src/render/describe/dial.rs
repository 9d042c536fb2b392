//! What can be seen of a dial or a collar: the figures on both sides of the hand, the lines between, where the hand stands.

use super::{Against, Line, Seen, graduations, lines_after, standing};
use crate::exact::Quanta;
use crate::scene::{Track, TrackForm};

/// A dial up to its hand, a collar up to its index line, going the way its figures run.
pub(super) fn dial(seen: &mut Vec<Seen>, track: &Track) {
    let (Some(stage), Some(period)) = (track.stage, track.period) else { return };
    let against = if track.form == TrackForm::Dial { Against::Hand } else { Against::IndexLine };
    let at = (-track.origin * track.sense).left_of(period);
    let round = [-period, Quanta::ZERO, period].into_iter().flat_map(|from| graduations(track, from));
    let (reached, ahead): (Vec<Line>, Vec<Line>) = round.partition(|line| line.at <= at);
    let number = |line: &Line| line.figure.map(|(number, _)| number);
    let last = reached.iter().rev().find_map(number);
    let next = ahead.iter().find_map(number);
    if let (Some(last), Some(next)) = (last, next) {
        seen.push(Seen::Between { stage, against, clockwise: track.sense > 0, last, next });
    }
    lines_after(seen, track, against, &reached);
    if let Some(last) = reached.last() {
        standing(seen, track, against, last.at, at);
    }
}

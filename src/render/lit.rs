//! The lines that light up as a reading is explained.

use super::Lit;
use crate::exact::Quanta;
use crate::reading::Share;
use crate::scene::{Kind, Scene};

/// The lines of shares: each share's own, and the line that a vernier's line runs into.
pub fn lines_of(shares: &[Share], scene: &Scene) -> Vec<Lit> {
    let mut all = Vec::new();
    for share in shares {
        let Some(at) = share.at else { continue };
        let Some(track) = scene.tracks.iter().position(|track| track.stage == Some(share.stage)) else {
            continue;
        };
        let by_number = share.kind.counts_lines();
        let Some(at) = scene.tracks[track].line(at, by_number) else { continue };
        all.push(Lit { track, at });
        if by_number {
            all.extend(met_by(scene, track, at));
        }
    }
    all
}

/// The line of the scale under a vernier that stands where one of the vernier's lines stands.
fn met_by(scene: &Scene, vernier: usize, at: Quanta) -> Option<Lit> {
    let track = match scene.kind {
        Kind::Pair => 0,
        Kind::Sleeve => 1,
        Kind::Rule | Kind::Dial => return None,
    };
    let under = &scene.tracks[track];
    let along = (scene.tracks[vernier].place(at) - under.origin) * under.sense;
    let at = under.period.map_or(along, |turn| along.left_of(turn));
    Some(Lit { track, at })
}

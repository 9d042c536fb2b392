//! What the state of a tool changes on a display list.

use super::item::{Item, Scene};
use crate::instrument::State;

/// Takes off the figures that are worn, and ties the tag on: it is read first.
pub(super) fn wear(scene: &mut Scene, state: &State) {
    for figure in &state.worn {
        let track = scene.tracks.iter_mut().find(|track| track.stage == Some(figure.stage));
        if let Some(Item::Graduation { figure, .. }) =
            track.and_then(|track| track.items.get_mut(figure.line))
        {
            *figure = None;
        }
    }
    if !state.tag.is_empty() {
        scene.engraved.insert(0, state.tag.clone());
        scene.stamped += 1;
    }
}

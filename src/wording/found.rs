//! What was found out about how someone reads.

use crate::learner::diagnosis::{Diagnosis, Status};
use crate::reading::misread;

/// One sentence on what was found; none while it is not known.
pub fn found(diagnosis: &Diagnosis) -> Option<String> {
    let name = |id| misread::named(id).map(|misread| misread.name);
    let first = name(diagnosis.id);
    match (diagnosis.status, first) {
        (Status::Named, Some(first)) => Some(match diagnosis.also.and_then(name) {
            Some(also) => format!("Found: {first}, and {also}."),
            None => format!("Found: {first}."),
        }),
        (Status::ReadsCorrectly, _) => Some("Clear: every scale was read as it should be.".to_owned()),
        (Status::Unlisted, _) => Some(
            "Something is read wrong again and again, and it has no name here: show it to someone."
                .to_owned(),
        ),
        (Status::Undecided, _) => {
            let perhaps: Vec<&str> = [first, name(diagnosis.second)].into_iter().flatten().collect();
            Some(if perhaps.is_empty() {
                "Not sure after so many readings.".to_owned()
            } else {
                format!("Not sure after so many readings; perhaps {}.", perhaps.join(", or "))
            })
        }
        (Status::Open | Status::Named, _) => None,
    }
}

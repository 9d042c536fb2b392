//! Floor 4. What the attempts say about a learner.
//!
//! | type | what it is |
//! |---|---|
//! | [`diagnosis::Diagnosis`] | which step goes wrong, and how sure that is |
//! | [`summary::Summary`] | all that is needed of a history, however long |
//! | [`progress::Progress`] | scores, intervals, times |
//! | [`facet::Facet`] | a step of the reading; what a wrong answer says about it, and what it costs |
//! | [`gates::Gates`] | whether readings on an instrument repeat |
//! | [`repair::Attended`] | a misread that keeps happening: named, repaired, asked about again |
//! | [`again::Again`] | what was missed and comes back |
//! | [`ladder::Step`] | how sure a step is, and when it is due again |
//! | [`level::proposed`] | the level that is proposed on an instrument |
//! | [`schedule::Round`] | what to practise today, and why |
//! | [`plan::Plan`] | a skills check: how many readings, when it is passed, what that lets through |
//! | [`sitting::Sitting`] | a round as it goes: what comes next after what was answered |
//! | [`simulate::Apprentice`] | somebody made up, who plays whole weeks of it |

pub mod again;
pub mod calendar;
pub mod chance;
pub mod diagnosis;
pub mod facet;
pub mod gates;
pub mod known;
pub mod ladder;
pub mod level;
pub mod plan;
pub mod progress;
pub mod repair;
pub mod schedule;
pub mod simulate;
pub mod sitting;
pub mod summary;
#[cfg(test)]
mod testing;

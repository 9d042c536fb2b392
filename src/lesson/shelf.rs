//! The shipped lessons. One that is needed is read then.

use super::Lesson;
use crate::instrument::Instrument;

/// The name of each file of `assets/lessons` and its text, in the order in which they are listed.
static LESSONS: &[(&str, &str)] = &[
    ("lesson-5-part", include_str!("../../assets/lessons/lesson-5-part.toml")),
    ("lesson-10-part", include_str!("../../assets/lessons/lesson-10-part.toml")),
    ("rule-metric", include_str!("../../assets/lessons/rule-metric.toml")),
    ("rule-inch", include_str!("../../assets/lessons/rule-inch.toml")),
    ("micrometer-metric", include_str!("../../assets/lessons/micrometer-metric.toml")),
    ("micrometer-inch", include_str!("../../assets/lessons/micrometer-inch.toml")),
    ("micrometer-inch-tenths", include_str!("../../assets/lessons/micrometer-inch-tenths.toml")),
    ("micrometer-metric-microns", include_str!("../../assets/lessons/micrometer-metric-microns.toml")),
    ("depth-micrometer", include_str!("../../assets/lessons/depth-micrometer.toml")),
    ("inside-micrometer", include_str!("../../assets/lessons/inside-micrometer.toml")),
    ("inside-jaw-micrometer", include_str!("../../assets/lessons/inside-jaw-micrometer.toml")),
    ("caliper-metric", include_str!("../../assets/lessons/caliper-metric.toml")),
    ("caliper-inch", include_str!("../../assets/lessons/caliper-inch.toml")),
    ("caliper-inch-128", include_str!("../../assets/lessons/caliper-inch-128.toml")),
    ("caliper-inch-inside", include_str!("../../assets/lessons/caliper-inch-inside.toml")),
    ("caliper-metric-inside", include_str!("../../assets/lessons/caliper-metric-inside.toml")),
    ("caliper-two-scale", include_str!("../../assets/lessons/caliper-two-scale.toml")),
    ("height-gauge", include_str!("../../assets/lessons/height-gauge.toml")),
    ("depth-gauge", include_str!("../../assets/lessons/depth-gauge.toml")),
    ("gear-tooth", include_str!("../../assets/lessons/gear-tooth.toml")),
    ("dial-caliper", include_str!("../../assets/lessons/dial-caliper.toml")),
    ("dial-indicator", include_str!("../../assets/lessons/dial-indicator.toml")),
    ("indicator-balanced", include_str!("../../assets/lessons/indicator-balanced.toml")),
    ("cross-slide", include_str!("../../assets/lessons/cross-slide.toml")),
    ("protractor-head", include_str!("../../assets/lessons/protractor-head.toml")),
    ("bevel-protractor", include_str!("../../assets/lessons/bevel-protractor.toml")),
];

/// All lessons, in the order in which they are listed.
pub fn all() -> impl Iterator<Item = Lesson> {
    LESSONS.iter().map(|(name, text)| read(name, text))
}

/// The lesson of an instrument: its own, else the first of its family; none for a family of one's own.
pub fn lesson_for(instrument: &Instrument) -> Option<Lesson> {
    let mut of_family = None;
    for lesson in all() {
        if lesson.teaches.contains(&instrument.id) {
            return Some(lesson);
        }
        if of_family.is_none() && lesson.family == instrument.family {
            of_family = Some(lesson);
        }
    }
    of_family
}

fn read(name: &str, text: &str) -> Lesson {
    let lesson: Result<Lesson, _> = toml::from_str(text);
    lesson.unwrap_or_else(|fault| panic!("the lesson {name} is well-formed, a test reads them all: {fault}"))
}

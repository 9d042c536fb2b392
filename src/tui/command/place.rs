//! Where commands are valid.

/// Where a command is valid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// The list of instruments.
    Home,
    /// What is seen before the work.
    Before,
    /// A question.
    Asking,
    /// An answered question.
    Answered,
    /// The progress screen.
    Progress,
    /// The calibration strip.
    Lines,
    /// A care card.
    Care,
    /// The kinds of question on an instrument.
    Kinds,
    /// The list of sets.
    Sets,
    /// Before a set is begun.
    Start,
    /// Before one goes on that was left.
    GoOn,
    /// After its end.
    Result,
    /// A question with answers to choose from.
    Choosing,
    /// A tool that is being set.
    Setting,
    /// The same, locked and looked at again.
    Locked,
    /// A tool that is moved by hand, its reading shown.
    Walk,
    /// The same with the reading hidden.
    Guess,
    /// A lesson.
    Lesson,
    /// A round for a room.
    Project,
}

impl Place {
    /// Where it is, in words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Home => "in the list",
            Self::Before | Self::Asking | Self::Answered => "in practice",
            Self::Progress => "in progress",
            Self::Lines => "on the strip",
            Self::Care => "on the card",
            Self::Kinds => "in the list of kinds",
            Self::Choosing | Self::Setting | Self::Locked => "at the bench",
            Self::Walk | Self::Guess => "when you turn it",
            Self::Lesson => "in a lesson",
            Self::Sets => "in the exercises",
            Self::Start | Self::GoOn => "before a set",
            Self::Result => "after a set",
            Self::Project => "before a room",
        }
    }
}

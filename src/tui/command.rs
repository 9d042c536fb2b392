//! The one list of commands: key bar, help, palette and the README's table all come from it.

mod bench;
mod class;
mod exercise;
mod key;
mod lookup;
mod project;
mod strip;
mod walk;

pub use class::OfClass;
pub use key::Key;
pub use lookup::{command_for, find, key_name, valid_at};

use crossterm::event::KeyCode;
use key::{control, control_key, key, letter, shifted};

/// What a learner can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Command {
    /// Choose the line above.
    Up,
    /// Choose the line below.
    Down,
    /// Practise on the chosen instrument.
    Start,
    /// Look on, after what is seen before the work.
    Seen,
    /// Enter the reading.
    Answer,
    /// Go on: the next step of the explanation, then the next question.
    Next,
    /// Go straight to the next question.
    NextNow,
    /// Show again what was seen before the work.
    ShowEarlier,
    /// Open the glass, or make it stronger.
    GlassUp,
    /// Make the glass weaker, or close it.
    GlassDown,
    /// Slide the glass one line left.
    GlassLeft,
    /// Slide it one line right.
    GlassRight,
    /// Slide it five lines left.
    GlassLeftFive,
    /// Slide it five lines right.
    GlassRightFive,
    /// Back to the vernier's 0.
    GlassZero,
    /// In the hand, or laid flat.
    TurnView,
    /// Pass the question over.
    Skip,
    /// Empty the answer field.
    ClearField,
    /// How far the readings have come.
    Progress,
    /// The calibration strip.
    Lines,
    /// Take the first line style of the strip.
    Lines1,
    /// The second.
    Lines2,
    /// The third.
    Lines3,
    /// The fourth.
    Lines4,
    /// The next theme.
    Theme,
    /// All keys, filtered as you type.
    Help,
    /// Type a command.
    Palette,
    /// The care card.
    Care,
    /// The kinds of question there are on the chosen instrument.
    Kinds,
    /// The other one of two pictures.
    OtherPicture,
    /// Take the chosen answer.
    Pick,
    /// Take the answer of this number.
    PickNumber(u8),
    /// Lock the tool that is being set.
    Lock,
    /// Loosen the lock again.
    Loosen,
    /// Leave the tool as it is set.
    LeaveSet,
    /// The list of exercises and checks.
    Sets,
    /// Begin a set anew that was left.
    Anew,
    /// Write the page for the supervisor.
    WritePage,
    /// A tool that is moved by hand.
    Walk,
    /// A lesson.
    Lesson,
    /// Move the tool by the least, to the right as it is seen.
    FineRight,
    /// To the left.
    FineLeft,
    /// On to the next line.
    LineUp,
    /// Back to the line before.
    LineDown,
    /// On by a turn or a division.
    CoarseUp,
    /// Back by one.
    CoarseDown,
    /// On as far as a figure is.
    FarUp,
    /// Back as far.
    FarDown,
    /// To its zero.
    ToZero,
    /// Somewhere by chance.
    Elsewhere,
    /// Its next form.
    Form,
    /// Hide the reading, or show it.
    GuessMode,
    /// Say what a stage shows.
    Guess,
    /// On in a lesson.
    LessonNext,
    /// Back in it.
    LessonBack,
    /// Something in the class record.
    Class(OfClass),
    /// On in a round for a room.
    ProjectOn,
    /// Back in it.
    ProjectBack,
    /// Stop its clock, or start it.
    Pause,
    /// A point for the team of this number.
    Point(u8),
    /// Take the last point back.
    TakeBack,
    /// Leave this screen.
    Back,
    /// Leave Linefall.
    Quit,
}

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
    /// The class record.
    Class,
    /// A page of it.
    ClassPage,
    /// Its questions.
    Bites,
    /// A round for a room.
    Project,
}

/// One entry of the list.
pub struct Entry {
    /// The command.
    pub command: Command,
    /// What it does, for help and palette.
    pub sentence: &'static str,
    /// Other words it is found by.
    pub found_by: &'static str,
    /// The keys; the first one is named in the key bar.
    pub keys: &'static [Key],
    /// Where it is valid.
    pub places: &'static [Place],
}

const ENTER: Key = key(KeyCode::Enter, "Enter");
const ESC: Key = key(KeyCode::Esc, "Esc");

use Command as C;
use Place::{
    Answered, Asking, Before, Bites, Care, Choosing, Class, ClassPage, GoOn, Guess, Home, Kinds, Lesson,
    Lines, Locked, Progress, Project, Result, Sets, Setting, Start, Walk,
};

const ALL: &[Place] = &[
    Home, Before, Asking, Answered, Progress, Lines, Care, Walk, Guess, Lesson, Kinds, Choosing, Setting,
    Locked, Project, Sets, Start, GoOn, Result, Class, ClassPage, Bites,
];
const LISTS: &[Place] = &[Home, Progress, Care, Kinds, Choosing];
const PICTURES: &[Place] = &[Before, Asking, Answered, Locked];
const SEEN: &[Place] = &[Before, Asking, Answered, Walk, Guess, Lesson, Choosing, Setting, Locked, Project];

const fn entry(
    command: Command,
    keys: &'static [Key],
    places: &'static [Place],
    sentence: &'static str,
    found_by: &'static str,
) -> Entry {
    Entry { command, sentence, found_by, keys, places }
}

/// The list.
static COMMANDS: &[Entry] = &[
    entry(C::Start, &[ENTER], &[Home], "Practise on the chosen instrument", "start begin read drill"),
    entry(C::Seen, &[ENTER], &[Before], "Look at the work", "zero closed next"),
    entry(C::Answer, &[ENTER], &[Asking], "Enter the reading", "mark"),
    entry(
        C::Next,
        &[ENTER, key(KeyCode::Char(' '), "Space")],
        &[Answered],
        "Next step, then the next question",
        "why explain",
    ),
    entry(C::NextNow, &[letter('n', "n")], &[Answered], "Go straight to the next question", ""),
    entry(
        C::Up,
        &[key(KeyCode::Up, "\u{2191}\u{2193}"), letter('k', "k")],
        LISTS,
        "Choose the line above",
        "",
    ),
    entry(C::Down, &[key(KeyCode::Down, "\u{2193}"), letter('j', "j")], LISTS, "Choose the line below", ""),
    entry(
        C::GlassUp,
        &[key(KeyCode::Up, "\u{2191}")],
        PICTURES,
        "Open the glass; again: stronger",
        "lens zoom magnify loupe",
    ),
    entry(
        C::GlassDown,
        &[key(KeyCode::Down, "\u{2193}")],
        PICTURES,
        "Weaker glass; again: close it",
        "lens zoom",
    ),
    entry(
        C::GlassLeft,
        &[key(KeyCode::Left, "\u{2190}")],
        PICTURES,
        "Slide the glass one line left, or down",
        "lens",
    ),
    entry(
        C::GlassRight,
        &[key(KeyCode::Right, "\u{2192}")],
        PICTURES,
        "Slide the glass one line right, or up",
        "lens",
    ),
    entry(
        C::GlassLeftFive,
        &[key(KeyCode::PageUp, "PgUp")],
        PICTURES,
        "Slide the glass five lines left, or up",
        "lens",
    ),
    entry(
        C::GlassRightFive,
        &[key(KeyCode::PageDown, "PgDn")],
        PICTURES,
        "Slide the glass five lines right, or down",
        "lens",
    ),
    entry(C::GlassZero, &[key(KeyCode::Home, "Home")], PICTURES, "Back to the vernier's 0", "lens"),
    entry(
        C::TurnView,
        &[key(KeyCode::Tab, "Tab")],
        SEEN,
        "In the hand, or laid flat",
        "view held unwrapped barrel",
    ),
    entry(
        C::ShowEarlier,
        &[letter('c', "c"), key(KeyCode::F(5), "F5")],
        &[Asking, Answered],
        "Show what came before again",
        "zero error closed tool",
    ),
    entry(
        C::Skip,
        &[letter('s', "s"), key(KeyCode::F(8), "F8")],
        &[Asking],
        "Pass it over and see the reading",
        "skip",
    ),
    entry(C::ClearField, &[control('u', "Ctrl-U")], &[Asking], "Empty the answer field", ""),
    entry(
        C::Progress,
        &[letter('p', "p"), key(KeyCode::F(2), "F2")],
        &[Home, Asking, Answered, Kinds],
        "How your readings have come on",
        "record history accuracy plot",
    ),
    entry(
        C::Care,
        &[letter('i', "i"), key(KeyCode::F(6), "F6")],
        &[Home, Before, Asking, Answered, Walk, Guess, Lesson, Kinds, Choosing, Setting, Locked],
        "How this instrument is checked, used and kept",
        "care card handling safety cautions storage",
    ),
    entry(C::Palette, &[letter(':', ":")], ALL, "Find and run a command by typing", "command menu"),
    entry(
        C::Help,
        &[letter('?', "?"), key(KeyCode::F(1), "F1")],
        ALL,
        "All keys; type to filter",
        "keys what",
    ),
    entry(
        C::Back,
        &[ESC],
        &[Before, Asking, Answered, Progress, Lines, Care, Walk, Guess, Lesson, Kinds, Choosing, Setting],
        "Leave this screen; practice keeps its place",
        "stop return",
    ),
    entry(C::Quit, &[letter('q', "q"), control('c', "Ctrl-C")], ALL, "Leave Linefall", "quit exit stop"),
];

/// The key bar of a place: at most five commands, each with a word.
pub fn bar(place: Place) -> &'static [(Command, &'static str)] {
    match place {
        Home => &[
            (C::Start, "practise"),
            (C::Sets, "exercises"),
            (C::Walk, "turn it"),
            (C::Help, "help"),
            (C::Quit, "leave"),
        ],
        Before => &[
            (C::Seen, "look at the work"),
            (C::GlassUp, "glass"),
            (C::TurnView, "hand/flat"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
        Asking => &[
            (C::Answer, "answer"),
            (C::GlassUp, "glass"),
            (C::TurnView, "hand/flat"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
        Answered => &[
            (C::Next, "go on"),
            (C::NextNow, "next question"),
            (C::GlassUp, "glass"),
            (C::Help, "help"),
            (C::Back, "back"),
        ],
        Progress => &[(C::Up, "choose"), (C::Help, "help"), (C::Back, "back")],
        Care => &[(C::Up, "scroll"), (C::Help, "help"), (C::Back, "back")],
        Lines => strip::BAR,
        Kinds | Choosing | Setting | Locked => bench::bar(place),
        Class | ClassPage | Bites => class::bar(place),
        Walk | Guess | Lesson => walk::bar(place),
        Sets | Start | GoOn | Result => exercise::bar(place),
        Project => project::BAR,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::{KeyEvent, KeyModifiers};

    #[test]
    fn no_key_means_two_things_at_a_place() {
        for place in ALL {
            let mut seen = Vec::new();
            for key in valid_at(*place).flat_map(|entry| entry.keys) {
                assert!(!seen.contains(&(key.code, key.held)), "{place:?} {}", key.name);
                seen.push((key.code, key.held));
            }
        }
    }

    #[test]
    fn at_most_five_in_the_key_bar_and_all_valid_there() {
        for place in ALL {
            let bar = bar(*place);
            assert!(bar.len() <= 5, "{place:?}");
            for (command, _) in bar {
                assert!(valid_at(*place).any(|entry| entry.command == *command), "{place:?} {command:?}");
            }
        }
    }

    #[test]
    fn letters_are_text_while_typing() {
        let s = KeyEvent::new(KeyCode::Char('s'), KeyModifiers::NONE);
        assert_eq!(command_for(Asking, s, false), Some(Command::Skip));
        assert_eq!(command_for(Asking, s, true), None);
        let help = KeyEvent::new(KeyCode::Char('?'), KeyModifiers::NONE);
        assert_eq!(command_for(Asking, help, true), Some(Command::Help));
    }

    #[test]
    fn other_words_find_a_command() {
        let found = find(Asking, "lens");
        assert!(found.iter().any(|entry| entry.command == Command::GlassUp));
        let elsewhere = find(Home, "lens");
        assert!(!elsewhere.is_empty() && elsewhere.iter().all(|entry| !entry.places.contains(&Home)));
    }
}

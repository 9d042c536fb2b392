//! Commands looked up: by key, by place, by a text.

use super::Place::{
    Answered, Asking, Before, Bites, Care, Choosing, Class, ClassPage, GoOn, Guess, Home, Kinds, Lesson,
    Lines, Locked, Progress, Project, Result, Sets, Setting, Start, Walk,
};
use super::{COMMANDS, Command, Entry, Place, bench, class, exercise, project, strip, walk};
use crossterm::event::KeyEvent;

/// The command a key means at a place. `typing` is true while a text is being typed: letters and figures then are text.
pub fn command_for(place: Place, event: KeyEvent, typing: bool) -> Option<Command> {
    valid_at(place)
        .find(|entry| entry.keys.iter().any(|key| key.is(event, typing)))
        .map(|entry| entry.command)
}

/// The name of the first key of a command at a place.
pub fn key_name(place: Place, command: Command) -> &'static str {
    valid_at(place).find(|entry| entry.command == command).map_or("", |entry| entry.keys[0].name)
}

/// The entries valid at a place.
pub fn valid_at(place: Place) -> impl Iterator<Item = &'static Entry> {
    all().filter(move |entry| entry.places.contains(&place))
}

/// The whole list.
fn all() -> impl Iterator<Item = &'static Entry> {
    let round_exercises =
        exercise::EXERCISE.iter().chain(project::PROJECT).chain(class::CLASS_RECORD).chain(strip::STRIP);
    COMMANDS.iter().chain(walk::WALK).chain(bench::BENCH).chain(round_exercises)
}

/// The entries that a text finds, by sentence, key or other words: those valid at a place first, then the rest.
pub fn find(place: Place, text: &str) -> Vec<&'static Entry> {
    let wanted = text.to_lowercase();
    let fits = |entry: &&Entry| {
        wanted.split_whitespace().all(|word| {
            entry.sentence.to_lowercase().contains(word)
                || entry.found_by.contains(word)
                || entry.keys.iter().any(|key| key.name.to_lowercase() == word)
        })
    };
    let here = |entry: &&Entry| entry.places.contains(&place);
    let (mut all, rest): (Vec<&Entry>, Vec<&Entry>) = all().filter(fits).partition(here);
    for entry in rest {
        if !all.iter().any(|other| other.command == entry.command) {
            all.push(entry);
        }
    }
    all
}

impl Place {
    /// Where it is, in words.
    pub fn word(self) -> &'static str {
        match self {
            Home => "in the list",
            Before | Asking | Answered => "in practice",
            Progress => "in progress",
            Lines => "on the strip",
            Care => "on the card",
            Kinds => "in the list of kinds",
            Choosing | Setting | Locked => "at the bench",
            Walk | Guess => "when you turn it",
            Lesson => "in a lesson",
            Class | ClassPage | Bites => "in the class record",
            Sets => "in the exercises",
            Start | GoOn => "before a set",
            Result => "after a set",
            Project => "before a room",
        }
    }
}

//! Colours. Plates have fixed greys from the 256-colour table; everything else is the terminal's own.

use super::ThemeChoice;
use crate::render::{Cell, Ink, Paper};
use ratatui::style::{Color, Modifier, Style};

/// A theme in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// Light steel plates.
    Steel,
    /// Dark plates.
    Dark,
    /// The terminal's own colours.
    Mono,
    /// White plates and black lines.
    HighContrast,
}

struct Plates {
    fixed: u8,
    moving: u8,
    frame: u8,
    work: u8,
    ink: u8,
    engraving: u8,
    lit: u8,
}

const STEEL: Plates =
    Plates { fixed: 254, moving: 251, frame: 249, work: 109, ink: 16, engraving: 236, lit: 26 };
const DARK: Plates =
    Plates { fixed: 235, moving: 238, frame: 241, work: 24, ink: 231, engraving: 250, lit: 215 };
const CONTRAST: Plates =
    Plates { fixed: 231, moving: 252, frame: 244, work: 153, ink: 16, engraving: 16, lit: 21 };

impl Theme {
    /// The theme for a choice.
    pub fn new(choice: ThemeChoice, no_color: bool) -> Self {
        match choice {
            _ if no_color => Self::Mono,
            ThemeChoice::Auto | ThemeChoice::Steel => Self::Steel,
            ThemeChoice::Dark => Self::Dark,
            ThemeChoice::Mono => Self::Mono,
            ThemeChoice::HighContrast => Self::HighContrast,
        }
    }

    /// The next one, on a key.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Steel => Self::Dark,
            Self::Dark => Self::Mono,
            Self::Mono => Self::HighContrast,
            Self::HighContrast => Self::Steel,
        }
    }

    /// The word it is saved under and named by.
    pub fn word(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Dark => "dark",
            Self::Mono => "mono",
            Self::HighContrast => "high-contrast",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Steel, Self::Dark, Self::Mono, Self::HighContrast]
            .into_iter()
            .find(|theme| theme.word() == word)
    }

    /// The style of a picture's cell.
    pub fn cell(self, cell: &Cell) -> Style {
        let plates = match self {
            Self::Steel => &STEEL,
            Self::Dark => &DARK,
            Self::HighContrast => &CONTRAST,
            Self::Mono => return mono(*cell),
        };
        let paper = match cell.paper {
            Paper::Bench => Color::Reset,
            Paper::Fixed => Color::Indexed(plates.fixed),
            Paper::Moving => Color::Indexed(plates.moving),
            Paper::Frame => Color::Indexed(plates.frame),
            Paper::Work => Color::Indexed(plates.work),
        };
        let ink = match (cell.ink, cell.paper) {
            (Ink::Lit | Ink::Pointer, _) => Color::Indexed(plates.lit),
            (_, Paper::Bench) => Color::Reset,
            (Ink::Engraving | Ink::Note, _) => Color::Indexed(plates.engraving),
            (Ink::Line | Ink::Figure | Ink::LargeFigure, _) => Color::Indexed(plates.ink),
        };
        match (matches!(cell.ink, Ink::LargeFigure | Ink::Pointer), cell.swapped) {
            (true, _) => Style::new().fg(paper).bg(ink).add_modifier(Modifier::BOLD),
            // A swapped cell on the bare terminal cannot name its background as an ink.
            (false, true) if cell.paper == Paper::Bench => {
                Style::new().fg(ink).bg(paper).add_modifier(Modifier::REVERSED)
            }
            (false, true) => Style::new().fg(paper).bg(ink),
            (false, false) => Style::new().fg(ink).bg(paper),
        }
    }

    /// The style of a right answer's sign and word.
    pub fn right(self) -> Style {
        self.signal(Color::Indexed(28))
    }

    /// The style of a wrong answer's.
    pub fn wrong(self) -> Style {
        self.signal(Color::Indexed(160))
    }

    /// The style of what is chosen in a list.
    pub fn chosen() -> Style {
        Style::new().add_modifier(Modifier::REVERSED)
    }

    /// The style of words that may be overlooked.
    pub fn quiet() -> Style {
        Style::new().add_modifier(Modifier::DIM)
    }

    fn signal(self, color: Color) -> Style {
        let bold = Style::new().add_modifier(Modifier::BOLD);
        if self == Self::Mono { bold } else { bold.fg(color) }
    }
}

fn mono(cell: Cell) -> Style {
    let style = Style::new();
    let style = if cell.swapped || matches!(cell.ink, Ink::LargeFigure | Ink::Pointer) {
        style.add_modifier(Modifier::REVERSED)
    } else {
        style
    };
    if cell.ink == Ink::Lit { style.add_modifier(Modifier::BOLD) } else { style }
}

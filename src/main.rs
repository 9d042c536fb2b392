//! Linefall: arguments, then either a command or the full screen, then the exit code.

use linefall::cli::{self, FullScreen, Next, args::Theme, exit::Exit};
use linefall::tui::{self, Issued, Record, Sets, Stands, Start, ThemeChoice};
use std::process::ExitCode;

fn main() -> ExitCode {
    let exit = match cli::run(std::env::args_os()) {
        Next::Done(exit) => exit,
        Next::FullScreen(start) => match tui::run(start_of(*start)) {
            Ok(()) => Exit::Fine,
            Err(cause) => {
                cli::out::complain(&cause.to_string());
                Exit::Trouble
            }
        },
    };
    exit.into()
}

/// The command line and the full screen never see each other; here they meet.
fn start_of(asked: FullScreen) -> Start {
    Start {
        catalogue: asked.catalogue,
        store: asked.store,
        store_problem: asked.store_problem,
        learner: asked.learner,
        record: if asked.private { Record::Private } else { Record::Kept },
        sets: Sets {
            cards: asked
                .card
                .map(|(card, set)| Issued { card, set, stands: Stands::New })
                .into_iter()
                .collect(),
            page: asked.page,
            ..Sets::new(asked.sets)
        },
        place: asked.begin,
        class: asked.class,
        lines: asked.lines,
        theme: match asked.theme {
            Theme::Auto => ThemeChoice::Auto,
            Theme::Steel => ThemeChoice::Steel,
            Theme::Dark => ThemeChoice::Dark,
            Theme::Mono => ThemeChoice::Mono,
            Theme::HighContrast => ThemeChoice::HighContrast,
        },
        terminal: asked.terminal,
        no_color: asked.no_color,
    }
}

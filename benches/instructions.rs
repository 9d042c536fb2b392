//! Instructions a frame: the whole way from the model to the bytes for the terminal, counted by callgrind.
//!
//! `cargo bench --bench instructions` runs itself under valgrind with 20 and with 220 frames and divides the difference.
#![allow(missing_docs, clippy::print_stdout)]

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use linefall::drill::Seed;
use linefall::drill::set::Shelf;
use linefall::instrument::Catalogue;
use linefall::render::LineStyle;
use linefall::scene::View;
use linefall::tui::model::{Model, Screen, Sets};
use linefall::tui::theme::Theme;
use linefall::tui::update::{Env, Msg, update};
use linefall::tui::view;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use ratatui::{Terminal, TerminalOptions, Viewport};
use std::process::Command;
use std::time::Duration;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    if let Some(at) = args.iter().position(|arg| arg == "frames") {
        let count = args[at + 4].parse().expect("a number of frames");
        let size = (args[at + 2].parse().expect("columns"), args[at + 3].parse().expect("rows"));
        frames(&args[at + 1], size, count);
    } else if args.iter().any(|arg| arg == "--bench") {
        for (instrument, cols, rows) in [
            ("micrometer-metric", 80, 24),
            ("micrometer-inch-tenths", 80, 24),
            ("caliper-inch-25", 80, 24),
            ("caliper-metric-50", 80, 24),
            ("rule-inch-64", 80, 24),
            ("caliper-metric-50", 200, 60),
            ("micrometer-inch-tenths", 200, 60),
        ] {
            let counted = [20, 220].map(|count| instructions(instrument, cols, rows, count));
            let each = (counted[1] - counted[0]) / 200;
            println!("{instrument} {cols}x{rows}: {} thousand instructions a frame", each / 1000);
        }
    }
}

/// Draws frames in which the glass slides to and fro, into nothing.
fn frames(instrument: &str, (cols, rows): (u16, u16), count: u32) {
    let mut model = Model {
        size: (cols, rows),
        catalogue: Catalogue::new(Vec::new()),
        learner: "me".to_owned(),
        theme: Theme::Steel,
        lines: LineStyle::Thin,
        small_cells: false,
        view: View::Held,
        screens: vec![Screen::Home { chosen: 0 }],
        overlay: None,
        progress: None,
        gates: std::collections::BTreeMap::new(),
        today: None,
        sets: Sets::new(Shelf::new(Vec::new(), &Catalogue::new(Vec::new()))),
        now: Duration::ZERO,
        attendance: linefall::session::Attendance::default(),
        record: linefall::tui::model::Record::Kept,
        store_problem: None,
        unsaved: Vec::new(),
        class: None,
        notice: None,
    };
    let env = Env { at: "2026-03-09T07:30:00Z".to_owned(), now: Duration::ZERO, seed: Seed(1) };
    update(&mut model, Msg::Resumed(None, instrument.to_owned()), &env);
    let area = Rect::new(0, 0, cols, rows);
    let options = TerminalOptions { viewport: Viewport::Fixed(area) };
    let mut screen = Terminal::with_options(CrosstermBackend::new(std::io::sink()), options)
        .expect("a sink is a terminal");
    for n in 0..count {
        let code = if n % 2 == 0 { KeyCode::Right } else { KeyCode::Left };
        update(&mut model, Msg::Key(KeyEvent::new(code, KeyModifiers::NONE)), &env);
        screen
            .draw(|frame| {
                view(&model, frame.buffer_mut());
            })
            .expect("a sink takes everything");
    }
}

fn instructions(instrument: &str, cols: u16, rows: u16, count: u32) -> u64 {
    let program = std::env::current_exe().expect("this program");
    let output = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .arg(program)
        .args(["frames", instrument, &cols.to_string(), &rows.to_string(), &count.to_string()])
        .output()
        .expect("valgrind is installed");
    let text = String::from_utf8_lossy(&output.stderr);
    let line = text.lines().find(|line| line.contains("Collected :")).expect("callgrind counts");
    line.rsplit(' ').next().and_then(|number| number.parse().ok()).expect("a number")
}

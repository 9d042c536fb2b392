//! A model driven by keys.

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use linefall::diag::SourceText;
use linefall::drill::record::Attempt;
use linefall::drill::set::{self, Allowed, Item, Posed, Shelf};
use linefall::drill::{Kind, Question, Seed};
use linefall::instrument::Catalogue;
use linefall::learner::summary::Summary;
use linefall::reading::Asks;
use linefall::render::{Ink, LineStyle};
use linefall::scene::View;
use linefall::session::{Attendance, Pace, Phase, Programme, Projected};
use linefall::tui::model::{BenchScreen, Model, PracticeScreen, Record, Screen, Sets};
use linefall::tui::theme::Theme;
use linefall::tui::update::{Effect, Env, Loaded, Msg, begin_project, read_run, update};
use linefall::tui::view;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::collections::BTreeMap;
use std::time::Duration;

/// The day of every script.
pub const TODAY: &str = "2026-03-09";

/// What every message takes.
const STEP: Duration = Duration::from_millis(700);

pub struct Script {
    pub model: Model,
    effects: Vec<Effect>,
    clock: Duration,
}

impl Script {
    pub fn home(cols: u16, rows: u16) -> Self {
        let model = Model {
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
            gates: BTreeMap::new(),
            today: None,
            sets: Sets::new(Shelf::new(Vec::new(), &Catalogue::new(Vec::new()))),
            now: Duration::ZERO,
            attendance: Attendance::default(),
            record: Record::Kept,
            store_problem: None,
            unsaved: Vec::new(),
            class: None,
            notice: None,
        };
        Self { model, effects: Vec::new(), clock: Duration::ZERO }
    }

    pub fn practice(instrument: &str, cols: u16, rows: u16) -> Self {
        let mut script = Self::home(cols, rows);
        script.message(Msg::Resumed(None, instrument.to_owned()));
        script
    }

    /// Before a set, or before one goes on that was put away.
    pub fn set(text: &str, kept: Option<&str>, cols: u16, rows: u16) -> Self {
        let mut script = Self::home(cols, rows);
        let source = SourceText::new("trial.toml", text);
        let set = set::read(&source, &script.model.catalogue).expect("a set without a fault");
        script.model.sets = Sets::new(Shelf::new(vec![source], &script.model.catalogue));
        script.set_found(&set.id, kept);
        script
    }

    /// What was put away of a set has been read.
    pub fn set_found(&mut self, id: &str, kept: Option<&str>) {
        self.message(Msg::SetFound(id.to_owned(), kept.map(str::to_owned)));
    }

    /// The answer is on the disk.
    pub fn put_down(&mut self) {
        self.message(Msg::Sat(Ok(())));
    }

    /// How long until the screen changes by itself.
    pub fn changes_in(&self) -> Option<Duration> {
        self.model.changes_in(self.clock)
    }

    /// So much time goes by, and the clock on the screen is looked at.
    pub fn wait(&mut self, time: Duration) {
        self.clock += time;
        self.message(Msg::Tick);
    }

    /// At the bench, asked questions of these kinds.
    pub fn bench(instrument: &str, kinds: &[Kind], cols: u16, rows: u16) -> Self {
        let mut script = Self::home(cols, rows);
        script.message(Msg::BenchResumed(None, instrument.to_owned(), Programme::Kinds(kinds.to_vec())));
        script
    }

    /// Goes on with such a run where it was left.
    pub fn resume_bench(&mut self, instrument: &str, kinds: &[Kind], kept: &str) {
        self.message(Msg::BenchResumed(
            read_run(kept),
            instrument.to_owned(),
            Programme::Kinds(kinds.to_vec()),
        ));
    }

    /// A round for a room, not begun yet, of one question of each kind.
    pub fn project(instrument: &str, kinds: &[Kind], pace: Pace, size: (u16, u16)) -> Self {
        Self::project_with(Allowed::Yes, instrument, kinds, pace, size)
    }

    /// The same with the glass, or without.
    pub fn project_with(
        glass: Allowed,
        instrument: &str,
        kinds: &[Kind],
        pace: Pace,
        (cols, rows): (u16, u16),
    ) -> Self {
        let mut script = Self::home(cols, rows);
        let item = |(place, kind): (u32, &Kind)| Item {
            place,
            instrument: instrument.to_owned(),
            kind: *kind,
            posed: Posed::Drawn { seed: Seed(20_260_309), number: place },
        };
        let paper: Vec<Item> = (1..).zip(kinds).map(item).collect();
        let projected =
            Projected { title: "A round".to_owned(), count: Some(paper.len()), paper, glass, pace };
        begin_project(&mut script.model, &projected, script.clock);
        script
    }

    /// So many seconds later, as the runtime would say it.
    pub fn after(&mut self, seconds: u64) {
        self.clock = (self.clock + Duration::from_secs(seconds)).saturating_sub(STEP);
        self.message(Msg::Tick);
    }

    /// Where the glass lies on the picture before a room.
    pub fn project_glass(&self) -> Option<i64> {
        let Screen::Project(screen) = self.model.screen() else { panic!("no round is up") };
        let page = self.model.project_page(screen).expect("it can be drawn");
        page.plates[0].drawing.as_ref().ok().and_then(|drawing| drawing.glass)
    }

    /// Cells of the pictures before a room that are lit.
    pub fn lit_cells(&self) -> usize {
        let Screen::Project(screen) = self.model.screen() else { panic!("no round is up") };
        let page = self.model.project_page(screen).expect("it can be drawn");
        let grids =
            page.plates.iter().filter_map(|plate| plate.drawing.as_ref().ok()).map(|drawn| &drawn.grid);
        grids
            .map(|grid| {
                let lit = |row| grid.row(row).iter().filter(|cell| cell.ink == Ink::Lit).count();
                (0..grid.rows()).map(lit).sum::<usize>()
            })
            .sum()
    }

    /// The bench on top.
    pub fn at_bench(&self) -> &BenchScreen {
        match self.model.screen() {
            Screen::Bench(bench) => bench,
            _ => panic!("not at the bench"),
        }
    }

    pub fn resume(&mut self, instrument: &str, kept: &str) {
        self.message(Msg::Resumed(read_run(kept), instrument.to_owned()));
    }

    /// Earlier readings have been read, and perhaps a round that was left.
    pub fn loaded(&mut self, attempts: &[Attempt], round: Option<String>) {
        let loaded = Loaded { summary: Summary::of(attempts), round };
        self.message(Msg::Loaded(Box::new(loaded)));
    }

    fn message(&mut self, msg: Msg) {
        self.clock += STEP;
        let env = Env { at: format!("{TODAY}T07:30:00Z"), now: self.clock, seed: Seed(20_260_309) };
        let effects = update(&mut self.model, msg, &env);
        self.effects.extend(effects);
    }

    /// Types characters; a line feed is Enter, a backspace is Backspace.
    pub fn keys(&mut self, text: &str) {
        for c in text.chars() {
            let code = match c {
                '\n' => KeyCode::Enter,
                '\u{8}' => KeyCode::Backspace,
                c => KeyCode::Char(c),
            };
            self.message(Msg::Key(KeyEvent::new(code, KeyModifiers::NONE)));
        }
    }

    /// Presses a key; `S-` is with Shift, `C-` with Ctrl.
    pub fn press(&mut self, name: &str) {
        let (held, name) = match name.split_once('-') {
            Some(("S", name)) => (KeyModifiers::SHIFT, name),
            Some(("C", name)) => (KeyModifiers::CONTROL, name),
            _ => (KeyModifiers::NONE, name),
        };
        let code = match name {
            "Up" => KeyCode::Up,
            "Down" => KeyCode::Down,
            "Left" => KeyCode::Left,
            "Right" => KeyCode::Right,
            "PageDown" => KeyCode::PageDown,
            "PageUp" => KeyCode::PageUp,
            "Home" => KeyCode::Home,
            "Esc" => KeyCode::Esc,
            "F2" => KeyCode::F(2),
            "F3" => KeyCode::F(3),
            "F6" => KeyCode::F(6),
            other => panic!("no key {other}"),
        };
        self.message(Msg::Key(KeyEvent::new(code, held)));
    }

    pub fn resize(&mut self, cols: u16, rows: u16) {
        self.message(Msg::Resize(cols, rows));
        self.text();
    }

    pub fn take_effects(&mut self) -> Vec<Effect> {
        std::mem::take(&mut self.effects)
    }

    /// The attempt being written down, unless the test has taken the effects.
    fn attempt(&self) -> Option<Box<Attempt>> {
        let saving = match self.model.screen() {
            Screen::Bench(bench) => bench.saving,
            _ => self.screen().saving,
        };
        assert!(saving, "nothing is being written down");
        self.effects.iter().rev().find_map(|effect| match effect {
            Effect::Save(attempt) => Some(attempt.clone()),
            _ => None,
        })
    }

    pub fn written_down(&mut self) {
        if let Some(attempt) = self.attempt() {
            self.message(Msg::Saved(attempt, Ok(())));
        } else {
            match self.model.screen_mut() {
                Screen::Practice(practice) => practice.saving = false,
                Screen::Bench(bench) => bench.saving = false,
                _ => {}
            }
        }
    }

    pub fn failed_to_write(&mut self, why: &str) {
        let attempt = self.attempt().expect("an attempt is being written down");
        self.effects.clear();
        self.message(Msg::Saved(attempt, Err(why.to_owned())));
    }

    pub fn screen(&self) -> &PracticeScreen {
        match self.model.screen() {
            Screen::Practice(practice) => practice,
            _ => panic!("not in practice"),
        }
    }

    pub fn question(&self) -> &Question {
        self.screen().run.question()
    }

    pub fn right_answer(&self) -> String {
        let instrument = self.model.instrument(self.screen());
        instrument.notation.spell(self.question().expected(instrument))
    }

    pub fn next_question(&mut self) {
        if matches!(self.screen().run.phase(), Phase::Before(_)) {
            self.keys("\n");
        }
        self.keys("s");
        self.written_down();
        self.keys("n");
    }

    /// Goes on to a question without a zero error.
    pub fn until_plain(&mut self) {
        while self.question().asks != Asks::Reading {
            self.next_question();
        }
        self.effects.clear();
    }

    /// Goes on to a question with one.
    pub fn until_corrected(&mut self) {
        while self.question().asks != Asks::Corrected {
            self.next_question();
        }
        self.effects.clear();
    }

    pub fn text(&self) -> String {
        let (cols, rows) = self.model.size;
        let mut buffer = Buffer::empty(Rect::new(0, 0, cols, rows));
        view(&self.model, &mut buffer);
        (0..rows)
            .map(|y| (0..cols).map(|x| buffer[(x, y)].symbol().to_owned()).collect::<String>())
            .map(|line| line.trim_end().to_owned() + "\n")
            .collect()
    }

    pub fn sees(&self, text: &str) {
        let screen = self.text();
        let flat = screen.replace('\n', "");
        assert!(screen.contains(text) || flat.contains(text), "not on the screen: {text}\n{screen}");
    }
}

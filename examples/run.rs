use linefall::{
    instrument::*,
    render::*,
    store::Store,
    tui::{self, *},
};
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let dir = std::path::PathBuf::from(&a[1]);
    let place = match a.get(2) {
        Some(id) => Begin::Practice(id.clone()),
        None => Begin::Home,
    };
    let store = Store::open(&dir);
    let (store, p) = match store {
        Ok(o) => (Some(o.store), None),
        Err(e) => (None, Some(e.to_string())),
    };
    let theme = match std::env::var("LF_THEME").as_deref() {
        Ok("dark") => ThemeChoice::Dark,
        Ok("mono") => ThemeChoice::Mono,
        Ok("hc") => ThemeChoice::HighContrast,
        _ => ThemeChoice::Auto,
    };
    let lines = std::env::var("LF_LINES").ok().and_then(|w| LineStyle::from_word(&w));
    tui::run(Start {
        catalogue: Catalogue::new(vec![]),
        store,
        store_problem: p,
        learner: "me".into(),
        place,
        lines,
        theme,
        terminal: Terminal {
            is_terminal: true,
            term: std::env::var("TERM").unwrap_or_default(),
            program: String::new(),
            utf8: true,
            replies: None,
        },
        no_color: std::env::var_os("NO_COLOR").is_some(),
    })
    .expect("runs");
}

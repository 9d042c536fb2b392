//! A paper in words and pictures, for people at a terminal, a screen reader or a pipe.

use super::{Leaves, Sitter};
use crate::class::sitting::End;
use crate::cli::ask::{Picture, now, read};
use crate::cli::exit::Halt;
use crate::cli::input::{Line, Lines};
use crate::cli::out::{self, Out};
use crate::drill::Role;
use crate::drill::set::Feedback;
use crate::drill::task::Wanted;
use crate::session::{Act, Bench, On, Stand};
use crate::wording;
use crate::wording::{bench, command, exercise as say, task};

/// What was typed.
enum Typed {
    /// An answer, or what is done to the tool.
    Answer(String),
    /// The glass over a picture, so many vernier lines to the right, or below nought to the left.
    Slide(usize, i64),
    Look,
    Skip,
    Help,
    Quit,
}

/// Asks to the end, or until it is left or the input ends.
pub(super) fn run(sitter: &mut Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    head(sitter, out)?;
    let mut lines = Lines::new();
    sitter.exercise.shown(sitter.began.elapsed());
    sitter.put_away(Leaves::No);
    loop {
        let pictures = sitter.pose()?;
        pose(sitter, &pictures, out)?;
        while !sitter.is_told() {
            out.bytes(b": ")?;
            out.flush()?;
            let line = read(&mut lines)?;
            if time_up(sitter, out)? {
                return Ok(());
            }
            let Some(line) = line else {
                // The cursor still stands behind the colon.
                out.line("")?;
                return leave(sitter, out);
            };
            match typed(line) {
                Typed::Quit => return leave(sitter, out),
                Typed::Help => out.lines(bench::ASK_HELP)?,
                Typed::Slide(place, by) => slide(sitter, place, by, out)?,
                Typed::Look => look(sitter, &pictures, out)?,
                Typed::Skip => {
                    let noted = sitter.noted()?;
                    sitter.take(Act::Skip(noted));
                }
                Typed::Answer(text) => answer(sitter, text, out)?,
            }
        }
        match sitter.exercise.feedback() {
            Feedback::Now => explain(&sitter.bench, out)?,
            Feedback::AtTheEnd => out.line(say::TAKEN)?,
        }
        out.line("")?;
        match sitter.exercise.go_on(&mut sitter.bench, sitter.catalogue, &now()) {
            On::Here => {}
            On::Next(next) => sitter.bench = *next,
            On::Over(keep) => {
                sitter.keep(keep);
                return Ok(());
            }
        }
    }
}

/// What there is to know before it begins.
fn head(sitter: &Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    let (set, sitting) = (sitter.exercise.set(), sitter.exercise.sitting());
    out.line(&out::clean_name(&set.title))?;
    out.line(say::form(sitting.purpose, set))?;
    for (label, text) in say::start(set, sitting.purpose, say::WORDS, sitter.catalogue) {
        out.line(&out::clean_name(format!("{label:<14}{text}").trim_end()))?;
    }
    if !sitting.entries.is_empty() {
        out.line(&say::goes_on(sitter.exercise.which(), sitting.interruptions))?;
    }
    out.line(wording::CAUTIONS[0])?;
    out.line(bench::ASK_START)?;
    out.line("")
}

fn typed(line: Line) -> Typed {
    let Line::Text(text) = line else {
        // Neither is an answer; its own sentence says so.
        return Typed::Answer("\u{fffd}".to_owned());
    };
    let word = text.trim().to_ascii_lowercase();
    let (place, signs) = match word.strip_prefix(['1', '2']) {
        Some(signs) => (usize::from(word.starts_with('2')), signs),
        None => (0, word.as_str()),
    };
    let run_of = |sign: char| !signs.is_empty() && signs.chars().all(|c| c == sign);
    let length = i64::try_from(signs.len()).unwrap_or(i64::MAX);
    match word.as_str() {
        "?" | "help" => Typed::Help,
        "look" => Typed::Look,
        "skip" => Typed::Skip,
        "quit" => Typed::Quit,
        _ if run_of('<') => Typed::Slide(place, -length),
        _ if run_of('>') => Typed::Slide(place, length),
        _ => Typed::Answer(text),
    }
}

fn pose(sitter: &Sitter<'_>, pictures: &[Picture], out: &mut Out) -> Result<(), Halt> {
    let bench = &sitter.bench;
    let part = bench.part();
    let (number, count) = sitter.exercise.which();
    let kind = task::name(bench.task().kind);
    let family = out::clean_name(&part.tool.family);
    let head = bench::question(number, count, bench.which(), kind, &family);
    let left = sitter.exercise.left(sitter.began.elapsed());
    let clock = left.map_or_else(String::new, |left| format!("   {}", say::clock(left)));
    out.line(&format!("{head}{clock}"))?;
    let work = bench.sights().len();
    let before = pictures.len() - work;
    for (n, picture) in pictures.iter().enumerate() {
        if n < before {
            out.line(wording::beside(&part.tool, picture.role))?;
        } else if work > 1 {
            out.line(&bench::picture_head(n - before))?;
        } else if n > 0 {
            out.line(wording::then(&part.tool, pictures[n - 1].role))?;
        }
        show(sitter, picture, out)?;
    }
    if let Some(rows) = wording::sketch(part.question.asks).filter(|_| matches!(part.wanted, Wanted::Reading))
    {
        out.lines(rows)?;
    }
    ask(bench, out)
}

/// What is asked, and the answers offered.
fn ask(bench: &Bench, out: &mut Out) -> Result<(), Halt> {
    let part = bench.part();
    out.lines(task::asked(part))?;
    let offered = task::offered(part);
    out.lines(offered.iter().enumerate().map(|(n, says)| format!("{:>3}  {says}", n + 1)))?;
    if matches!(part.wanted, Wanted::Setting(_)) {
        out.line(&bench::typed_strokes(&part.tool, &part.tool.travel()))?;
    }
    Ok(())
}

fn show(sitter: &Sitter<'_>, picture: &Picture, out: &mut Out) -> Result<(), Halt> {
    out.lines(sitter.frame.look.rows(&picture.drawing.grid))
}

/// The pictures in words; a tool that is being set as it stands now.
fn look(sitter: &Sitter<'_>, pictures: &[Picture], out: &mut Out) -> Result<(), Halt> {
    let now = sitter.work()?;
    let before = pictures.len() - now.len();
    for (n, picture) in pictures[..before].iter().chain(&now).enumerate() {
        if now.len() > 1 && n >= before {
            out.line(&bench::picture_head(n - before))?;
        } else if n > 0 {
            let role = pictures.get(n - 1).map_or(Role::Measuring, |earlier| earlier.role);
            out.line(wording::then(&sitter.bench.part().tool, role))?;
        }
        out.lines(picture.sentences.iter().map(|line| out::clean_name(line)))?;
    }
    Ok(())
}

fn slide(sitter: &mut Sitter<'_>, place: usize, by: i64, out: &mut Out) -> Result<(), Halt> {
    let sights = sitter.bench.sights();
    let Some((tool, lines)) = sights.get(place).and_then(|s| Some((s.tool.clone(), s.tool.vernier_lines()?)))
    else {
        return out.line(command::NO_GLASS_HERE);
    };
    let by = if tool.glass_runs_leftward() { -by } else { by };
    // The glass starts over the vernier's 0.
    let line = sitter.lens[place.min(1)].unwrap_or(0).saturating_add(by).clamp(*lines.start(), *lines.end());
    match sitter.slide(place, line)? {
        Some(picture) => {
            show(sitter, &picture, out)?;
            ask(&sitter.bench, out)
        }
        None => out.line(say::NO_GLASS),
    }
}

fn answer(sitter: &mut Sitter<'_>, text: String, out: &mut Out) -> Result<(), Halt> {
    let noted = sitter.noted()?;
    let part = sitter.bench.part();
    if let Wanted::Choice(choice) = &part.wanted {
        let count = choice.options.len();
        return match text.trim().parse::<usize>().ok().filter(|n| (1..=count).contains(n)) {
            Some(number) => {
                sitter.take(Act::Choose(number - 1, noted));
                Ok(())
            }
            None => out.line(&bench::number_wanted(count)),
        };
    }
    let is_set = matches!(part.wanted, Wanted::Setting(_));
    sitter.take(Act::Type(text, noted));
    match sitter.bench.stand() {
        Stand::Asking { again: Some(again) } | Stand::Locked { again: Some(again) } => {
            out.line(&command::once_more(*again))
        }
        Stand::Asking { again: None } | Stand::Locked { again: None } if is_set => {
            for picture in sitter.work()? {
                show(sitter, &picture, out)?;
            }
            let locked = matches!(sitter.bench.stand(), Stand::Locked { .. });
            if locked { out.line(bench::LOCKED_LINE) } else { Ok(()) }
        }
        _ => Ok(()),
    }
}

/// What became of an answer, and why.
pub(in crate::cli) fn explain(bench: &Bench, out: &mut Out) -> Result<(), Halt> {
    let part = bench.part();
    let Stand::Told(told) = bench.stand() else { return Ok(()) };
    out.line(&task::told(part, &told.marked))?;
    if let Some(note) = told.marked.note {
        out.line(wording::note(note))?;
    }
    let why = task::why(part, &told.given, &told.marked);
    out.lines(why.iter().map(|line| format!("    {}", out::clean_name(line))))
}

/// True where the time is up: what was typed since is not taken.
fn time_up(sitter: &mut Sitter<'_>, out: &mut Out) -> Result<bool, Halt> {
    let left = sitter.exercise.left(sitter.began.elapsed());
    if !left.is_some_and(|left| left.is_zero()) {
        return Ok(false);
    }
    out.line(say::TIME_UP)?;
    out.line("")?;
    let keep = sitter.exercise.end(End::TimeUp, &now());
    sitter.keep(keep);
    Ok(true)
}

fn leave(sitter: &mut Sitter<'_>, out: &mut Out) -> Result<(), Halt> {
    sitter.exercise.hidden(sitter.began.elapsed());
    sitter.put_away(Leaves::Now);
    out.line(if sitter.store.is_some() { say::LEFT } else { say::LEFT_FOR_GOOD })
}

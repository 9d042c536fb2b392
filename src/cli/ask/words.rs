//! Questions at a bench in words and pictures.

use super::asker::Asker;
use super::{Picture, read};
use crate::cli::exit::Halt;
use crate::cli::input::{Line, Lines};
use crate::cli::out::{self, Out};
use crate::drill::Role;
use crate::drill::task::Wanted;
use crate::session::{Bench, Stand};
use crate::wording;
use crate::wording::{bench, command as say, task};

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

/// What became of a part.
pub(super) enum Heard {
    /// It is answered or passed over.
    Answered,
    /// It was left, or the input has ended.
    Left,
    /// The time is up.
    TimeUp,
}

/// Asks the part that is up.
pub(super) fn one(asker: &mut impl Asker, lines: &mut Lines, out: &mut Out) -> Result<Heard, Halt> {
    let pictures = asker.pose()?;
    pose(asker, &pictures, out)?;
    while !asker.is_told() {
        out.bytes(b": ")?;
        out.flush()?;
        let line = read(lines)?;
        if asker.is_time_up() {
            return Ok(Heard::TimeUp);
        }
        let Some(line) = line else {
            // The cursor still stands behind the colon.
            out.line("")?;
            return Ok(Heard::Left);
        };
        match typed(line) {
            Typed::Quit => return Ok(Heard::Left),
            Typed::Help => out.lines(bench::ASK_HELP)?,
            Typed::Slide(place, by) => slide(asker, place, by, out)?,
            Typed::Look => look(asker, &pictures, out)?,
            Typed::Skip => asker.skip()?,
            Typed::Answer(text) => answer(asker, text, out)?,
        }
    }
    Ok(Heard::Answered)
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

fn pose(asker: &impl Asker, pictures: &[Picture], out: &mut Out) -> Result<(), Halt> {
    let (bench, (number, count)) = (asker.bench(), asker.which());
    let part = bench.part();
    let family = out::clean_name(&part.tool.family);
    let head = bench::question(number, count, bench.which(), task::name(bench.task().kind), &family);
    out.line(&format!("{head}{}", asker.clock()))?;
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
        show(asker, picture, out)?;
    }
    if let Some(rows) = wording::sketch(part.question.asks).filter(|_| matches!(part.wanted, Wanted::Reading))
    {
        out.lines(rows)?;
    }
    ask(asker, out)
}

/// What is asked, and the answers offered.
fn ask(asker: &impl Asker, out: &mut Out) -> Result<(), Halt> {
    let part = asker.bench().part();
    out.lines(task::asked(part))?;
    let offered = task::offered(part);
    out.lines(offered.iter().enumerate().map(|(n, says)| format!("{:>3}  {says}", n + 1)))?;
    if matches!(part.wanted, Wanted::Setting(_)) {
        out.line(&bench::typed_strokes(&part.tool, &part.tool.travel()))?;
    }
    Ok(())
}

fn show(asker: &impl Asker, picture: &Picture, out: &mut Out) -> Result<(), Halt> {
    out.lines(asker.easel().frame.look.rows(&picture.drawing.grid))
}

/// The pictures in words; a tool that is being set as it stands now.
fn look(asker: &impl Asker, pictures: &[Picture], out: &mut Out) -> Result<(), Halt> {
    let now = asker.work()?;
    let before = pictures.len() - now.len();
    for (n, picture) in pictures[..before].iter().chain(&now).enumerate() {
        if now.len() > 1 && n >= before {
            out.line(&bench::picture_head(n - before))?;
        } else if n > 0 {
            let role = pictures.get(n - 1).map_or(Role::Measuring, |earlier| earlier.role);
            out.line(wording::then(&asker.bench().part().tool, role))?;
        }
        out.lines(picture.sentences.iter().map(|line| out::clean_name(line)))?;
    }
    Ok(())
}

fn slide(asker: &mut impl Asker, place: usize, by: i64, out: &mut Out) -> Result<(), Halt> {
    let sights = asker.bench().sights();
    let Some((tool, lines)) = sights.get(place).and_then(|s| Some((s.tool.clone(), s.tool.vernier_lines()?)))
    else {
        return out.line(say::NO_GLASS_HERE);
    };
    let by = if tool.glass_runs_leftward() { -by } else { by };
    // The glass starts over the vernier's 0.
    let line =
        asker.easel().lens[place.min(1)].unwrap_or(0).saturating_add(by).clamp(*lines.start(), *lines.end());
    match asker.slide(place, line)? {
        Some(picture) => {
            show(asker, &picture, out)?;
            ask(asker, out)
        }
        None => out.line(asker.no_glass()),
    }
}

fn answer(asker: &mut impl Asker, text: String, out: &mut Out) -> Result<(), Halt> {
    let part = asker.bench().part();
    if let Wanted::Choice(choice) = &part.wanted {
        let count = choice.options.len();
        return match text.trim().parse::<usize>().ok().filter(|n| (1..=count).contains(n)) {
            Some(number) => asker.choose(number - 1),
            None => out.line(&bench::number_wanted(count)),
        };
    }
    let is_set = matches!(part.wanted, Wanted::Setting(_));
    asker.answer(text)?;
    match asker.bench().stand() {
        Stand::Asking { again: Some(again) } | Stand::Locked { again: Some(again) } => {
            out.line(&say::once_more(*again))
        }
        Stand::Asking { again: None } | Stand::Locked { again: None } if is_set => {
            for picture in asker.work()? {
                show(asker, &picture, out)?;
            }
            let locked = matches!(asker.bench().stand(), Stand::Locked { .. });
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

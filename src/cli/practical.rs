//! `linefall practical`.

use super::args::Common;
use super::exit::{Exit, Halt};
use super::input::{Line, Lines};
use super::out::{self, Out};
use super::{class, shelf};
use crate::class::practical::{self, Act, Alone, LONGEST, MOST_PARTS, Measured, Sheet, Tick};
use crate::class::text::is_code;
use crate::exact::{Quantity, parse_answer};
use crate::instrument::{Catalogue, Instrument};
use crate::store;
use crate::wording::practical as say;
use crate::wording::wrapped;
use clap::Args;
use rand::TryRng;
use rand::rngs::SysRng;

/// `practical`.
#[derive(Debug, Args)]
pub struct Options {
    /// Whose sheet, by the short code; without it the sheets that are filled are listed
    pub code: Option<String>,
    /// The instrument; as `linefall list instruments` has it
    #[arg(requires = "code")]
    pub instrument: Option<String>,
    /// Which tool it is, as the shop calls it
    #[arg(long, value_name = "LABEL", requires = "instrument")]
    pub tool: Option<String>,
    /// A check part and its known size, such as "block 5.00 mm"; as often as there are parts
    #[arg(long = "part", value_name = "NAME SIZE", requires = "instrument")]
    pub parts: Vec<String>,
    /// How far off a reading of a part may be; one line either way when left out
    #[arg(long, value_name = "LENGTH", requires = "instrument")]
    pub allow: Option<String>,
    /// Print the sheet to be filled by hand
    #[arg(long, conflicts_with_all = ["slip", "take_back", "json"])]
    pub blank: bool,
    /// The sign-off in one sentence, to be printed and signed
    #[arg(long, requires = "instrument", conflicts_with = "take_back")]
    pub slip: bool,
    /// Take a sheet back that was filled by mistake, by its number; both lines stay in the file
    #[arg(long, value_name = "NUMBER", requires = "initials")]
    pub take_back: Option<String>,
    /// Your initials
    #[arg(long, value_name = "INITIALS")]
    pub initials: Option<String>,
    /// The sheets as JSON
    #[arg(long)]
    pub json: bool,
}

/// The sheets that are filled. A line that cannot be read is said and passed over.
pub fn sheets(common: &Common) -> Result<Vec<Sheet>, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    let (sheets, unreadable) = practical::sheets(&store::read_practical(&dir)?);
    if !unreadable.is_empty() {
        let file = out::clean_name(&store::practical_file(&dir).to_string_lossy());
        out::complain(&say::unreadable(&file, &unreadable));
    }
    Ok(sheets)
}

/// Fills a sheet, or shows what was filled.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    let catalogue = shelf::catalogue(common);
    let id = args.instrument.as_deref().or(args.code.as_deref().filter(|_| args.blank));
    let tool = id.map(|id| shelf::find(&catalogue, id)).transpose()?;
    if args.blank {
        let (title, least) =
            (tool.map(|tool| tool.title.as_str()), tool.map(|tool| tool.spell_with_unit(tool.least_count)));
        out.lines(say::blank(title, least.as_deref()).iter().map(|line| out::clean_name(line)))?;
        return Ok(Exit::Fine);
    }
    if let Some(id) = &args.take_back {
        return take_back(common, id, args.initials.as_deref().unwrap_or_default(), out);
    }
    let code = args.code.as_deref().filter(|code| !is_code(code));
    if let Some(code) = code {
        return Err(Halt::usage(say::no_code(&out::clean_name(code))));
    }
    match (&args.code, tool) {
        (Some(code), Some(tool)) if args.slip => slip(common, code, (tool, &catalogue), out),
        (Some(code), Some(tool)) if !args.json => fill(common, args, code, tool, out),
        _ => list(common, args, &catalogue, out),
    }
}

fn list(common: &Common, args: &Options, catalogue: &Catalogue, out: &mut Out) -> Result<Exit, Halt> {
    let mut all = sheets(common)?;
    all.retain(|sheet| args.code.as_ref().is_none_or(|code| *code == sheet.learner));
    all.retain(|sheet| args.instrument.as_ref().is_none_or(|id| *id == sheet.instrument));
    if args.json {
        out.line(&out::json(&all))?;
    } else if all.is_empty() {
        out.lines(wrapped(say::NO_SHEETS, 80))?;
    }
    for sheet in all.iter().filter(|_| !args.json) {
        let title = catalogue.title(&sheet.instrument).unwrap_or(&sheet.instrument);
        let line = out::clean_name(&say::listed(sheet, title));
        out.lines(wrapped(&line, 80))?;
    }
    Ok(Exit::Fine)
}

fn slip(
    common: &Common,
    code: &str,
    (tool, catalogue): (&Instrument, &Catalogue),
    out: &mut Out,
) -> Result<Exit, Halt> {
    let room = class::collected(common, catalogue)?;
    let Some(sheet) = room.steel(code, &tool.id) else {
        return Err(Halt::usage(say::no_sheet(code, &tool.id)));
    };
    let row = room.class.member(code).and_then(|member| member.row.as_ref());
    out.line(&"-".repeat(80))?;
    out.lines(wrapped(&out::clean_name(&say::slip(sheet, row, tool)), 80))?;
    out.line("")?;
    out.line(say::SIGN_HERE)?;
    out.line("")?;
    out.lines(wrapped(say::CAUTION, 80))?;
    out.line(&"-".repeat(80))?;
    Ok(Exit::Fine)
}

fn take_back(common: &Common, id: &str, initials: &str, out: &mut Out) -> Result<Exit, Halt> {
    let (id, initials) = (id.to_owned(), text(initials));
    if initials.is_empty() {
        return Err(Halt::usage(say::NO_INITIALS));
    }
    if !sheets(common)?.iter().any(|sheet| sheet.id == id) {
        return Err(Halt::usage(say::no_such_sheet(&out::clean_name(&id))));
    }
    keep(common, &practical::Line::TakenBack { id: id.clone(), at: now(), initials })?;
    out.line(&say::taken_back(&id))?;
    Ok(Exit::Fine)
}

fn keep(common: &Common, line: &practical::Line) -> Result<(), Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    Ok(store::add_practical(&dir, &out::json(line))?)
}

fn now() -> String {
    jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
}

/// What was typed, harmless and not too long.
fn text(typed: &str) -> String {
    out::clean_name(typed.trim()).chars().take(LONGEST).collect()
}

/// Asks line by line.
struct Asking<'a> {
    lines: Lines,
    out: &'a mut Out,
}

impl Asking<'_> {
    /// What is typed; none at the end of the input.
    fn ask(&mut self, what: &str) -> Result<Option<String>, Halt> {
        self.out.bytes(format!("{what}: ").as_bytes())?;
        self.out.flush()?;
        let line =
            self.lines.next().map_err(|cause| Halt::trouble(format!("cannot read the answers: {cause}")))?;
        if line.is_none() {
            // The cursor still stands behind the colon.
            self.out.line("")?;
        }
        Ok(line.map(|line| match line {
            Line::Text(typed) => text(&typed),
            Line::TooLong | Line::NoText => "\u{fffd}".to_owned(),
        }))
    }

    /// Yes, no, or nothing said; asks until it is one of them.
    fn yes_or_no(&mut self, what: &str) -> Result<Option<Tick>, Halt> {
        loop {
            let Some(typed) = self.ask(what)? else { return Ok(None) };
            match typed.to_lowercase().as_str() {
                "" => return Ok(Some(Tick::NotShown)),
                "y" | "yes" => return Ok(Some(Tick::Done)),
                "n" | "no" => return Ok(Some(Tick::Not)),
                _ => self.out.line(say::YES_OR_NO)?,
            }
        }
    }
}

/// Fills a sheet line by line, and writes it down if that is wanted.
fn fill(common: &Common, args: &Options, code: &str, tool: &Instrument, out: &mut Out) -> Result<Exit, Halt> {
    let allowed = match &args.allow {
        Some(text) => size(text, tool).ok_or_else(|| Halt::usage(say::no_size(&out::clean_name(text))))?,
        None => tool.spell_with_unit(tool.least_count),
    };
    let given: Vec<(String, String)> = args
        .parts
        .iter()
        .map(|text| part(text, tool).ok_or_else(|| Halt::usage(say::no_part(&out::clean_name(text)))))
        .collect::<Result<_, _>>()?;
    out.line(&out::clean_name(&say::fill_head(code, &tool.title)))?;
    out.line(say::TICK_HELP)?;
    let mut asking = Asking { lines: Lines::new(), out };
    let filled = filled(&mut asking, args, &given, &allowed, tool)?;
    let Some((mut sheet, true)) = filled else {
        asking.out.line(say::NOT_KEPT)?;
        return Ok(Exit::Fine);
    };
    code.clone_into(&mut sheet.learner);
    keep(common, &practical::Line::Sheet(sheet.clone()))?;
    asking.out.line(&say::kept(&sheet.id))?;
    Ok(Exit::Fine)
}

/// The sheet, and whether it is to be written down; none where the input ended before.
fn filled(
    asking: &mut Asking<'_>,
    args: &Options,
    given: &[(String, String)],
    allowed: &str,
    tool: &Instrument,
) -> Result<Option<(Sheet, bool)>, Halt> {
    let mut ticks = Vec::new();
    for act in Act::ALL {
        let Some(said) = asking.yes_or_no(say::act(act))? else { return Ok(None) };
        ticks.push((act, said));
    }
    let Some(parts) = measured(asking, given, allowed, tool)? else { return Ok(None) };
    let Some(not_shown) = asking.ask(say::NOT_SHOWN_HELP)? else { return Ok(None) };
    let Some(alone) = asking.yes_or_no(say::ALONE_HELP)? else { return Ok(None) };
    let initials = match args.initials.as_deref().map(text) {
        Some(initials) => initials,
        None => loop {
            let Some(typed) = asking.ask(say::INITIALS_HELP)? else { return Ok(None) };
            if !typed.is_empty() {
                break typed;
            }
            asking.out.line(say::NO_INITIALS)?;
        },
    };
    let sheet = Sheet {
        form: practical::FORM,
        id: number()?,
        learner: String::new(),
        instrument: tool.id.clone(),
        tool: args.tool.as_deref().map(text).unwrap_or_default(),
        at: now(),
        initials,
        ticks,
        parts,
        not_shown,
        alone: if alone == Tick::Done { Alone::Yes } else { Alone::NotYet },
    };
    let Some(keep) = asking.yes_or_no(say::KEEP_HELP)? else { return Ok(None) };
    Ok(Some((sheet, keep == Tick::Done)))
}

fn measured(
    asking: &mut Asking<'_>,
    given: &[(String, String)],
    allowed: &str,
    tool: &Instrument,
) -> Result<Option<Vec<Measured>>, Halt> {
    let mut parts = Vec::new();
    if given.is_empty() {
        asking.out.line(say::PART_HELP)?;
    }
    for n in 0..MOST_PARTS {
        let (name, size) = match given.get(n) {
            Some(one) => one.clone(),
            None if !given.is_empty() => break,
            None => {
                let typed = loop {
                    let Some(typed) = asking.ask(&say::part(n + 1))? else { return Ok(None) };
                    match part(&typed, tool) {
                        Some(one) => break Some(one),
                        None if typed.is_empty() => break None,
                        None => asking.out.line(&say::no_part(&typed))?,
                    }
                };
                let Some(typed) = typed else { break };
                typed
            }
        };
        let of = loop {
            let Some(typed) = asking.ask(&say::read(&name, &size))? else { return Ok(None) };
            match self::size(&typed, tool) {
                Some(read) => break Measured { part: name, size, allowed: allowed.to_owned(), read },
                None => asking.out.line(&say::no_size(&typed))?,
            }
        };
        asking.out.line(&format!("    {}", say::measured(&of, tool)))?;
        parts.push(of);
    }
    Ok(Some(parts))
}

/// A part as it is typed: its name, then its size.
fn part(typed: &str, tool: &Instrument) -> Option<(String, String)> {
    let words: Vec<&str> = typed.split_whitespace().collect();
    let begins = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit() || c == '.' || c == ',');
    // The name may hold a number: of several places the first from which on all is a size.
    let places = words.iter().enumerate().filter(|(_, word)| begins(word)).map(|(at, _)| at);
    places.into_iter().find_map(|at| {
        let size = size(&words[at..].join(" "), tool)?;
        let name = words[..at].join(" ");
        Some((if name.is_empty() { size.clone() } else { text(&name) }, size))
    })
}

/// A size as it is typed, its unit added where it was left out; none where it is no size of this tool.
fn size(typed: &str, tool: &Instrument) -> Option<String> {
    let typed = typed.trim();
    parse_answer(typed, tool.unit).ok()?;
    let with_unit = format!("{typed} {}", tool.unit.symbol());
    let readable = |text: &str| Quantity::parse(text).is_ok_and(|size| size.unit == tool.unit);
    let as_spelt = || {
        let value = parse_answer(typed, tool.unit).ok()?.value;
        Some(tool.notation.spell_with_unit(value, tool.unit))
    };
    [typed.to_owned(), with_unit].into_iter().find(|text| readable(text)).or_else(as_spelt)
}

/// A number by chance, 16 hexadecimal digits.
fn number() -> Result<String, Halt> {
    let drawn =
        SysRng.try_next_u64().map_err(|cause| Halt::trouble(format!("no random numbers: {cause}")))?;
    Ok(format!("{drawn:016x}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_is_a_name_and_a_size() {
        let catalogue = Catalogue::new(Vec::new());
        let tool = |id: &str| catalogue.get(id).expect("shipped");
        let metric = |text: &str| part(text, tool("micrometer-metric"));
        let of = |name: &str, size: &str| Some((name.to_owned(), size.to_owned()));
        assert_eq!(metric("block 5.00 mm"), of("block", "5.00 mm"));
        assert_eq!(metric("gauge pin 3 12.37"), of("gauge pin 3", "12.37 mm"));
        assert_eq!(metric("12.37"), of("12.37 mm", "12.37 mm"));
        assert_eq!((metric("block"), metric("block 0.5 in"), metric("")), (None, None, None));
        assert_eq!(part("block 1 3/64", tool("rule-inch-64")), of("block", "1 3/64 in"));
        assert_eq!(part("wedge 35 10", tool("bevel-protractor")), of("wedge", "35\u{b0}10'"));
    }
}

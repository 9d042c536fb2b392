//! The class record in lines of at most eighty columns.

use crate::class::questions::Questions;
use crate::class::record::{Class, Member};
use crate::class::room::Room;
use crate::cli::exit::Halt;
use crate::cli::out::{self, Out};
use crate::instrument::Catalogue;
use crate::wording::class as say;
use crate::wording::{fit, wrapped};

/// The columns of a line.
const WIDTH: usize = 80;
/// Those of code and name.
const CODE: usize = 9;
const NAME: usize = 14;
/// Those of an instrument, and how many of them stand side by side.
const TOOL: usize = 20;
const STEEL: usize = 6;
const ABREAST: usize = 2;
/// Beside what the class gets wrong.
const COMMON: usize = 40;

/// All of it.
pub(super) fn class(room: &Room, catalogue: &Catalogue, out: &mut Out) -> Result<(), Halt> {
    let (class, group) = (&room.class, room.group.as_deref());
    invented(room, out)?;
    if class.members.is_empty() {
        return line(&say::nobody(group), out);
    }
    line(&say::head(class, group), out)?;
    for instruments in class.instruments.chunks(ABREAST) {
        out.line("")?;
        table(room, instruments, catalogue, out)?;
    }
    out.line("")?;
    out.lines(say::LEGEND)?;
    line(say::STEEL_LEGEND, out)?;
    out.line("")?;
    common(class, out)?;
    out.line("")?;
    returned_head(class, out)
}

fn invented(room: &Room, out: &mut Out) -> Result<(), Halt> {
    if room.invented { out.line(say::INVENTED) } else { Ok(()) }
}

/// A line, harmless and broken where it is too long.
fn line(text: &str, out: &mut Out) -> Result<(), Halt> {
    indented(text, 0, out)
}

fn indented(text: &str, by: usize, out: &mut Out) -> Result<(), Halt> {
    let clean = out::clean_name(text);
    for (n, part) in wrapped(&clean, WIDTH - by - 4 * usize::from(by > 0)).iter().enumerate() {
        let more = if n > 0 { 4 } else { 0 };
        out.line(&format!("{}{part}", " ".repeat(by + more)))?;
    }
    Ok(())
}

fn table(room: &Room, instruments: &[String], catalogue: &Catalogue, out: &mut Out) -> Result<(), Halt> {
    let title = |id: &String| catalogue.title(id).unwrap_or(id).to_owned();
    let mut titles = " ".repeat(CODE + NAME);
    let mut head = format!("{}{}", fit("code", CODE), fit("name", NAME));
    for id in instruments {
        titles.push_str(&fit(&out::clean_name(&title(id)), TOOL + STEEL));
        head.push_str(&fit(say::READING, TOOL));
        head.push_str(&fit(say::STEEL, STEEL));
    }
    head.push_str("last");
    out.line(titles.trim_end())?;
    out.line(&head)?;
    for member in &room.class.members {
        let mut row = fit(&out::clean_name(&member.person.code), CODE);
        row.push_str(&fit(&out::clean_name(say::name(member)), NAME));
        for id in instruments {
            let tool = member.row.as_ref().and_then(|row| row.on(id));
            row.push_str(&fit(&out::clean_name(&say::cell(tool)), TOOL));
            let steel = room.steel(&member.person.code, id).map(say::steel_cell).unwrap_or_default();
            row.push_str(&fit(&steel, STEEL));
        }
        row.push_str(&say::month_day(member.row.as_ref().and_then(|row| row.last)));
        out.line(row.trim_end())?;
    }
    Ok(())
}

fn common(class: &Class, out: &mut Out) -> Result<(), Halt> {
    out.line(say::COMMON)?;
    if class.common.is_empty() {
        return out.line(&format!("    {}", say::NOTHING_COMMON));
    }
    for of in &class.common {
        let name = out::clean_name(say::slip(&of.misread));
        out.line(&format!("    {}{}", fit(&name, COMMON), say::common(of)))?;
    }
    indented(say::COMMON_LEGEND, 4, out)
}

fn returned_head(class: &Class, out: &mut Out) -> Result<(), Halt> {
    out.line(say::GIVEN)?;
    if class.given.is_empty() {
        return out.line(&format!("    {}", say::NOTHING_GIVEN));
    }
    for given in &class.given {
        indented(&say::given(given), 4, out)?;
        for beside in say::given_beside(given) {
            indented(&beside, 8, out)?;
        }
    }
    Ok(())
}

/// What came back of each card, learner by learner.
pub(super) fn returned(room: &Room, out: &mut Out) -> Result<(), Halt> {
    let class = &room.class;
    invented(room, out)?;
    if class.given.is_empty() {
        return out.line(say::NOTHING_GIVEN);
    }
    for (n, given) in class.given.iter().enumerate() {
        if n > 0 {
            out.line("")?;
        }
        line(&say::given(given), out)?;
        for stand in &given.stands {
            let code = fit(&out::clean_name(&stand.learner), CODE);
            if stand.tries.is_empty() {
                out.line(&format!("    {code}{}", say::back(stand.back)))?;
            }
            for one in &stand.tries {
                let beside = say::try_beside(one);
                let joined = if beside.is_empty() { "" } else { "; " };
                indented(&format!("{code}{}{joined}{beside}", say::outcome(&one.brief)), 4, out)?;
            }
        }
    }
    Ok(())
}

/// One learner.
pub(super) fn learner(
    room: &Room,
    member: &Member,
    catalogue: &Catalogue,
    out: &mut Out,
) -> Result<(), Halt> {
    invented(room, out)?;
    for text in say::whole_learner(&room.class, member, &room.sheets, |id| {
        catalogue.title(id).unwrap_or(id).to_owned()
    }) {
        let by = text.len() - text.trim_start().len();
        indented(text.trim_start(), by, out)?;
    }
    Ok(())
}

/// The questions of a set.
pub(super) fn questions(
    room: &Room,
    found: &Questions,
    catalogue: &Catalogue,
    out: &mut Out,
) -> Result<(), Halt> {
    invented(room, out)?;
    for text in say::questions_head(found, room.title(&found.set)) {
        line(&text, out)?;
    }
    if found.whole.is_some() && !found.too_few {
        line(say::RELIABILITY, out)?;
    }
    let title = |id: &str| catalogue.title(id).unwrap_or(id).to_owned();
    for of in &found.lines {
        out.line("")?;
        line(&say::about(of, title), out)?;
        for text in say::question_beside(of, found.too_few) {
            indented(&text, 4, out)?;
        }
    }
    Ok(())
}

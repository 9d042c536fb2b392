//! `linefall issue`.

use super::{chance, folder, now, roster_of, shown};
use crate::class::card::{Card, Due, is_text, is_title};
use crate::class::sitting::Purpose;
use crate::class::text::{hex, is_code};
use crate::cli::args::Common;
use crate::cli::exit::{Exit, Halt};
use crate::cli::out::{self, Out};
use crate::cli::shelf;
use crate::diag::SourceText;
use crate::drill::set::{self, DrillSet};
use crate::instrument::Catalogue;
use crate::store::{self, round};
use crate::wording::round as say;
use clap::Args;
use std::path::PathBuf;

/// `issue`.
#[derive(Debug, Args)]
pub struct Options {
    /// Which exercise or skills check (linefall list sets)
    pub set: String,
    /// The shared folder; remembered for the next time
    #[arg(long, value_name = "DIR")]
    pub folder: Option<PathBuf>,
    /// To whom, by short codes; to everyone when left out
    #[arg(long, value_name = "CODES", value_delimiter = ',', value_parser = code)]
    pub to: Vec<String>,
    /// Until when it is to be done: 2026-12-04
    #[arg(long, value_name = "DATE", value_parser = due)]
    pub due: Option<Due>,
}

fn code(text: &str) -> Result<String, String> {
    if is_code(text.trim()) { Ok(text.trim().to_owned()) } else { Err(say::NO_CODE.to_owned()) }
}

/// The end of a day here.
fn due(text: &str) -> Result<Due, String> {
    let no_day = || "write a day like 2026-12-04".to_owned();
    let day: jiff::civil::Date = text.trim().parse().map_err(|_| no_day())?;
    let next = day.tomorrow().and_then(|next| next.to_zoned_datetime(jiff::tz::TimeZone::system()));
    let until = next.map_err(|_| no_day())?.timestamp();
    Ok(Due { day: day.to_string(), until: until.strftime("%Y-%m-%dT%H:%M:%SZ").to_string() })
}

/// Puts a signed job card into the shared folder.
pub fn run(common: &Common, args: &Options, out: &mut Out) -> Result<Exit, Halt> {
    let dir = store::data_dir(common.data_dir.clone())?;
    let catalogue = shelf::catalogue(common);
    let sets = shelf::sets(common, &catalogue);
    let known = sets.get(&args.set).ok_or_else(|| {
        let near = crate::diag::nearest(&args.set, sets.ids());
        Halt::usage(say::no_set(&crate::instrument::schema::shown(&args.set), near))
    })?;
    let set = plain(known, &catalogue)?;
    let issued = now();
    if let Some(due) = args.due.as_ref().filter(|due| due.until <= issued) {
        return Err(Halt::usage(say::due_is_over(&due.day)));
    }
    let roster = roster_of(common)?;
    let everyone = roster.iter().flat_map(|roster| &roster.people).map(|person| person.code.clone());
    let codes: Vec<String> = if args.to.is_empty() { everyone.collect() } else { args.to.clone() };
    if let Some(roster) = &roster {
        let strange = |code: &&String| roster.people.iter().all(|person| person.code != **code);
        for code in args.to.iter().filter(strange) {
            out::complain(&say::not_on_roster(code));
        }
    }
    let share = folder(&dir, args.folder.as_deref())?;
    let secret = round::key(&dir, round::Holder::Instructor, chance()?)?;
    let purpose = if set.pass.is_some() { Purpose::Check } else { Purpose::Exercise };
    let mut learners = args.to.clone();
    learners.sort();
    learners.dedup();
    let card = Card {
        number: hex(&chance::<8>()?),
        set: set.id.clone(),
        title: set.title.clone(),
        revision: set.revision.clone(),
        learners,
        due: args.due.clone(),
        purpose,
        issued,
        from: secret.public(),
        text: set.text.clone(),
    };
    let path = round::put_card(&dir, &share, &card, &card.write(&secret), &codes)?;
    out.line(&say::issued(&card))?;
    out.line(&format!("    {}", shown(&path)))?;
    out.line(&say::your_key(&card.from.fingerprint()))?;
    Ok(Exit::Fine)
}

/// The set as it can stand on a card: the ends of its lines as the card has them, nothing in it that a terminal would obey.
fn plain(known: &DrillSet, catalogue: &Catalogue) -> Result<DrillSet, Halt> {
    let text = known.text.replace("\r\n", "\n");
    let read = if text == known.text {
        Some(known.clone())
    } else {
        set::read(&SourceText::new(format!("{}.toml", known.id), text), catalogue).ok()
    };
    read.filter(|set| is_text(&set.text) && is_title(&set.title))
        .ok_or_else(|| Halt::trouble(say::not_for_a_card(&known.id)))
}

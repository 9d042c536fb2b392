//! Worksheets and what is asked on them.

use super::{Options, head, key, length, write};
use crate::cli::args::Common;
use crate::cli::exit::{Exit, Halt};
use crate::cli::out::{self, Out};
use crate::cli::shelf;
use crate::drill::set::{Allowed, DrillSet, Feedback, Item, Met, Order, Portion, Posed, What, ZeroOff, deal};
use crate::drill::task::{Part, Task, Wanted};
use crate::drill::{Draw, Kind, Role, Seed, Sight};
use crate::instrument::{Catalogue, Instrument};
use crate::render::paper::Paper;
use crate::render::sheet::{Block, Entry, Sheet, lay};
use crate::scene::{self, View};
use crate::wording;
use crate::wording::sheet as say;
use crate::wording::task as words;
use rand::TryRng;
use rand::rngs::SysRng;

/// Questions on a sheet about one instrument.
const DOZEN: u32 = 12;

/// One sheet: its letter, and its questions in order.
pub(super) struct Dealt {
    pub(super) letter: Option<char>,
    pub(super) tasks: Vec<Task>,
}

/// Prints worksheets and their key.
pub(super) fn run(
    common: &Common,
    catalogue: &Catalogue,
    wanted: &str,
    args: &Options,
    out: &mut Out,
) -> Result<Exit, Halt> {
    let mut set = find(common, catalogue, wanted)?;
    if let Some(count) = args.count {
        set.count = count;
    }
    let seed = Seed(match args.seed {
        Some(seed) => seed,
        None => SysRng
            .try_next_u32()
            .map(u64::from)
            .map_err(|cause| Halt::trouble(format!("no random numbers: {cause}")))?,
    });
    let sheets = sheets(&set, catalogue, seed, args.variants)?;
    let code = Draw::apart(&format!("linefall sheet 1 {}", set.id), seed, 0).below(10_000);
    let paper = Paper::from(args.paper);
    let mut leaves = Vec::new();
    for dealt in &sheets {
        leaves.extend(lay(&sheet(&set, dealt, code, paper)));
    }
    write(&args.output, &leaves, &set.title, out)?;
    if let Some(path) = &args.key {
        let command = key::command(wanted, args, seed);
        let leaves = lay(&key::sheet(&set, &sheets, code, &command, paper));
        write(path, &leaves, &say::key_title(&set.title), out)?;
    }
    Ok(Exit::Fine)
}

/// The set of an id; of an instrument, a dozen readings.
fn find(common: &Common, catalogue: &Catalogue, wanted: &str) -> Result<DrillSet, Halt> {
    let sets = shelf::sets(common, catalogue);
    if let Some(set) = sets.get(wanted) {
        return Ok(set.clone());
    }
    if let Some(instrument) = catalogue.get(wanted) {
        return Ok(readings(instrument));
    }
    let near = crate::diag::nearest(wanted, sets.ids().chain(catalogue.names()));
    Err(Halt::usage(say::no_set(&crate::instrument::schema::shown(wanted), near)))
}

/// Readings on one instrument, spread over what can go wrong.
fn readings(instrument: &Instrument) -> DrillSet {
    let portion = Portion {
        instrument: instrument.label.clone().unwrap_or_else(|| instrument.id.clone()),
        share: 1,
        what: What::Kinds(vec![Kind::Read]),
        within: None,
        zero: ZeroOff::AsDrawn,
        conditions: Met::AsDrawn,
        variant: None,
        provoke: Vec::new(),
        spread: true,
        readings: Vec::new(),
    };
    DrillSet {
        id: instrument.id.clone(),
        title: say::readings_on(&instrument.title),
        about: String::new(),
        revision: String::new(),
        text: String::new(),
        portions: vec![portion],
        count: DOZEN,
        order: Order::Blocked,
        time: None,
        glass: Allowed::Yes,
        feedback: Feedback::AtTheEnd,
        pass: None,
        seed: None,
    }
}

/// As many sheets as are wanted, each with questions of its own where the set has them.
pub(super) fn sheets(
    set: &DrillSet,
    catalogue: &Catalogue,
    seed: Seed,
    variants: u32,
) -> Result<Vec<Dealt>, Halt> {
    let first = deal(set, catalogue, seed);
    let on_paper = |items: &[Item]| -> Vec<Task> {
        let tasks = items.iter().filter(|item| say::on_paper(item.kind));
        tasks.filter_map(|item| item.task(catalogue)).collect()
    };
    let left_out = first.iter().filter(|item| !say::on_paper(item.kind)).count();
    if left_out > 0 {
        out::complain(&say::left_out(left_out));
    }
    if on_paper(&first).is_empty() {
        return Err(Halt::usage(say::NOTHING_ON_PAPER));
    }
    if variants == 1 {
        return Ok(vec![Dealt { letter: None, tasks: on_paper(&first) }]);
    }
    let fixed = set.seed.is_some() || first.iter().all(|item| matches!(item.posed, Posed::Given { .. }));
    if fixed {
        out::complain(say::SAME_QUESTIONS);
    }
    let sheet = |(number, letter): (u32, char)| {
        let mut items = if number == 0 {
            first.clone()
        } else if fixed {
            let mut items = first.clone();
            Draw::apart("linefall sheet order 1", seed, number).shuffle(&mut items);
            items
        } else {
            let mut draw = Draw::apart("linefall sheet variant 1", seed, number);
            let other = u64::from(draw.below(u32::MAX)) << 32 | u64::from(draw.below(u32::MAX));
            deal(set, catalogue, Seed(other))
        };
        for (place, item) in (1..).zip(&mut items) {
            item.place = place;
        }
        Dealt { letter: Some(letter), tasks: on_paper(&items) }
    };
    Ok((0..variants).zip('A'..='Z').map(sheet).collect())
}

/// The parts of a question that stand on paper. What a later part says or shows tells the answer to the one before it in some
/// kinds; there it is left to the screen.
pub(super) fn parts(task: &Task) -> &[Part] {
    match task.kind {
        Kind::OtherMansSlip | Kind::WhatNow => &task.parts[..1],
        _ => &task.parts,
    }
}

/// One sheet laid out.
pub(super) fn sheet(set: &DrillSet, dealt: &Dealt, code: u32, paper: Paper) -> Sheet {
    let mut under = vec![say::HOW.to_owned()];
    under.extend(set.time.map(say::time));
    if set.glass == Allowed::No {
        under.push(say::WITHOUT_GLASS.to_owned());
    }
    let mut head = head(set.title.clone(), under);
    head.mark = say::mark(code, dealt.letter);
    head.fields = say::FIELDS.map(str::to_owned).to_vec();
    let entries = (1..).zip(&dealt.tasks).map(|(number, task)| entry(number, task)).collect();
    Sheet { paper, head, entries }
}

fn entry(number: usize, task: &Task) -> Entry {
    let parts = parts(task);
    let mut blocks = Vec::new();
    if let Some(first) = parts.first() {
        blocks.extend(pictures(first));
    }
    for (n, part) in parts.iter().enumerate() {
        // The tool of a later part has been seen with the first one, unless it lies elsewhere.
        if n > 0 && !part.pictures.iter().all(|sight| parts[0].pictures.contains(sight)) {
            blocks.extend(pictures(part));
        }
        if let Some(rows) =
            wording::sketch(part.question.asks).filter(|_| matches!(part.wanted, Wanted::Reading))
        {
            blocks.push(Block::Sketch(rows.iter().map(|row| (*row).to_owned()).collect()));
        }
        let question = say::asked(part);
        match &part.wanted {
            Wanted::Choice(_) => {
                blocks.push(Block::Words(question));
                blocks.push(Block::Offered(words::offered(part)));
            }
            Wanted::Reading | Wanted::Figure(_) | Wanted::Setting(_) => {
                blocks.push(Block::Answer { question, unit: say::unit(part).to_owned() });
            }
        }
    }
    Entry { number: Some(number.to_string()), blocks }
}

fn pictures(part: &Part) -> Vec<Block> {
    let earlier = part.earlier();
    let mut before: Option<Role> = None;
    let mut blocks = Vec::new();
    let several = part.pictures.len() > 1;
    for (place, sight) in earlier.iter().map(|sight| (None, sight)).chain((0..).map(Some).zip(&part.pictures))
    {
        let place = place.filter(|_| several);
        let caption = say::caption(&part.tool, sight.role, before, place);
        blocks.push(picture(sight, caption));
        before = Some(sight.role);
    }
    blocks
}

pub(super) fn picture(sight: &Sight, caption: Option<String>) -> Block {
    let scene =
        scene::build(&sight.tool, &sight.pose, &sight.variant, view(&sight.tool)).tagged(sight.tags.clone());
    Block::Picture { caption, scene: Box::new(scene), quantum: length(&sight.tool) }
}

/// In the hand; a tool that stands upright is laid flat, or half of the page would be empty.
pub(super) fn view(tool: &Instrument) -> View {
    use crate::instrument::{Course, Form};
    let upright = tool
        .stages
        .iter()
        .any(|stage| matches!(&stage.form, Form::Line(line) if line.runs == Course::Upward));
    if upright { View::Flat } else { View::Held }
}

//! `linefall draw`.

use super::args::{Common, Draw, Format, Lens, LockArg};
use super::exit::{Exit, Halt};
use super::out::{self, Out};
use super::picture::Look;
use super::{change, shelf, terminal};
use crate::drill::{Conditions, Lock, Question, Role, Settings, Sight, Wear, can_wear, edge_limits};
use crate::exact::Quanta;
use crate::instrument::{DIRECTION, Form, Instrument, Set, Variant};
use crate::reading::{Asks, read, shares};
use crate::render::vector::{self, Picture};
use crate::render::{self, Glass, Request, describe};
use crate::scene::{self, Scene};
use crate::store;
use crate::wording;
use crate::wording::command as say;

/// An instrument standing at a reading.
struct Subject<'a> {
    instrument: &'a Instrument,
    reading: Quanta,
    zero_error: Option<Quanta>,
    variant: Variant,
    /// The instrument is the tool under them.
    conditions: Conditions,
}

/// Draws.
pub fn run(common: &Common, args: &Draw, out: &mut Out) -> Result<Exit, Halt> {
    let catalogue = shelf::catalogue(common);
    let instrument = shelf::find(&catalogue, &args.instrument)?;
    let variant = variant(instrument, args)?;
    let fitted = instrument.fitted(&variant);
    let mut conditions = conditions(&fitted, args)?;
    let instrument = &conditions.tool(&fitted);
    conditions.lead = lead(instrument, args.edge_lead)?;
    conditions.change = args.change.of(instrument)?;
    conditions.set = args.addendum.as_deref().map(|text| set_before(instrument, text)).transpose()?;
    let zero_error =
        args.zero_error.as_deref().map(|text| shelf::zero_error(instrument, text)).transpose()?;
    let subject = Subject {
        instrument,
        reading: shelf::setting(instrument, &args.reading)?,
        zero_error,
        variant,
        conditions,
    };
    if let Some(Lens::At(line)) = args.lens {
        let lines = instrument.vernier_lines().ok_or_else(|| Halt::usage(say::NO_GLASS))?;
        if !lines.contains(&line) {
            return Err(Halt::usage(say::no_vernier_line(*lines.start(), *lines.end())));
        }
    }
    let lines = match args.format {
        Format::Text => text(common, args, &subject)?,
        Format::Json => vec![json(args, &subject)],
        Format::Svg => vec![svg(args, &subject)?],
        Format::Pdf => return pdf(args, &subject, out),
        Format::Describe => describe(args, &subject),
        Format::Explain => explain(&subject),
    };
    match &args.output {
        None => out.lines(&lines)?,
        Some(path) => {
            let mut text = lines.join("\n");
            text.push('\n');
            store::write_new(path, text.as_bytes())?;
        }
    }
    Ok(Exit::Fine)
}

/// The variant of the options: a maker's, with the rod and the collar that are fitted. Of two scales on one jaw the unit of the
/// reading says which is read, where nothing else does.
fn variant(instrument: &Instrument, args: &Draw) -> Result<Variant, Halt> {
    let mut words: Vec<String> = args.variant.iter().cloned().collect();
    words.extend(args.direction.iter().map(|word| format!("{DIRECTION}={word}")));
    words.extend(args.variant.is_none().then(|| shelf::set_in_unit(instrument, &args.reading)).flatten());
    if let Some(rod) = &args.rod {
        words.push(format!("rod={rod}"));
    }
    if args.collar {
        let collar = instrument.choices.iter().find(|choice| choice.name == "collar");
        let length = collar.and_then(|choice| choice.lengths.last()).map(|length| length.written.as_str());
        words.push(format!("collar={}", length.unwrap_or_default()));
    }
    let wanted = words.join(" ");
    instrument.variant(&wanted).ok_or_else(|| {
        Halt::usage(say::no_variant(&crate::instrument::schema::shown(&wanted), &instrument.offered()))
    })
}

/// The conditions of the options, the edge's excepted.
fn conditions(fitted: &Instrument, args: &Draw) -> Result<Conditions, Halt> {
    let settings = if args.estimate {
        if fitted.estimate.is_none() {
            return Err(Halt::usage(say::NO_ESTIMATE));
        }
        Settings::Estimated
    } else if args.between {
        shelf::parts(fitted, &args.reading)?.map_or(Settings::AsDefined, Settings::Between)
    } else {
        Settings::AsDefined
    };
    let lock = match args.lock {
        LockArg::Tight => Lock::Tight,
        LockArg::Loose if fitted.has_lock() => Lock::Loose,
        LockArg::Loose => return Err(Halt::usage(say::NO_LOCK)),
    };
    if args.worn.is_some() && !can_wear(fitted) {
        return Err(Halt::usage(say::NOTHING_WEARS));
    }
    Ok(Conditions { settings, worn: args.worn.map(Wear), lock, ..Conditions::default() })
}

/// The slide that is set before this tool is read, and where.
fn set_before(instrument: &Instrument, text: &str) -> Result<Quanta, Halt> {
    let other = instrument.own_slide().filter(|other| other.read == Set::First);
    let slide = &other.ok_or_else(|| Halt::usage(say::no_height_slide(&instrument.id)))?.tool;
    shelf::setting(slide, text)
}

/// How far the edge runs ahead of the thimble, from so many thimble divisions.
fn lead(instrument: &Instrument, divisions: i64) -> Result<Quanta, Halt> {
    if divisions == 0 {
        return Ok(Quanta::ZERO);
    }
    let drum = instrument.stages.iter().find_map(|stage| match &stage.form {
        Form::Drum(drum) => Some(drum),
        Form::Line(_) | Form::Dial(_) | Form::Vernier(_) | Form::Fixed(_) => None,
    });
    let drum = drum.ok_or_else(|| Halt::usage(say::NO_EDGE))?;
    let (late, early) = edge_limits(instrument.unit, drum);
    if !(-late..=early).contains(&divisions) {
        return Err(Halt::usage(say::edge_lead(late, early)));
    }
    Ok(drum.division * divisions)
}

impl Subject<'_> {
    /// The question that it is.
    fn question(&self) -> Question {
        let (tool, variant) = (self.instrument, self.variant.clone());
        let zero_error = self.zero_error.unwrap_or_default();
        let question = Question::new(tool, 1, self.reading, zero_error, variant);
        let question = question.under(tool, self.conditions.clone());
        let usual = if self.zero_error.is_some() { Asks::Corrected } else { Asks::Reading };
        Question { asks: change::asks(tool, &self.conditions.change).unwrap_or(usual), ..question }
    }

    fn scene(&self, args: &Draw) -> Scene {
        sight_scene(&self.question().measuring(self.instrument), args)
    }

    /// What comes before the work: the closed tool where a zero error is given, what a change is counted from, the slide that
    /// was set before.
    fn earlier(&self) -> Vec<Sight> {
        let mut all = self.question().earlier(self.instrument);
        if self.zero_error == Some(Quanta::ZERO) {
            let closed = Question { setting: self.instrument.low, ..self.question() };
            let closed = closed.under(self.instrument, self.conditions.clone());
            all.insert(0, Sight { role: Role::Closed, ..closed.measuring(self.instrument) });
        }
        all
    }

    /// The slide that was set before.
    fn set_before(&self) -> Option<Sight> {
        self.earlier().into_iter().find(|sight| sight.role == Role::Height)
    }
}

fn sight_scene(sight: &Sight, args: &Draw) -> Scene {
    scene::build(&sight.tool, &sight.pose, &sight.variant, args.view).tagged(sight.tags.clone())
}

fn text(common: &Common, args: &Draw, subject: &Subject<'_>) -> Result<Vec<String>, Halt> {
    let look = match args.output {
        None => Look::on_standard_output(common),
        Some(_) => Look::in_a_file(common),
    };
    let size = args.size.or_else(|| if args.output.is_none() { terminal::size() } else { None });
    let size = size.unwrap_or(terminal::USUAL);
    let request = Request {
        dots: args.dots,
        glass: match args.lens {
            None => Glass::IfNeeded,
            Some(Lens::Forbidden) => Glass::Forbidden,
            Some(Lens::At(line)) => Glass::At(line),
        },
        marks: look.marks(),
        ..Request::new(i64::from(size.cols), i64::from(size.rows), look.lines)
    };
    let mut lines = Vec::new();
    for earlier in subject.earlier() {
        // The glass is held over the measuring picture; the closed one opens its own where it needs one.
        let glass = if args.lens == Some(Lens::Forbidden) { Glass::Forbidden } else { Glass::IfNeeded };
        let request = Request { glass, ..request.clone() };
        lines.extend(look.rows(&render::draw(&sight_scene(&earlier, args), &request)?.grid));
    }
    let drawing = render::draw(&subject.scene(args), &request)?;
    if matches!(args.lens, Some(Lens::At(_))) && drawing.glass.is_none() {
        return Err(Halt::usage(say::NO_GLASS_IN_HAND));
    }
    lines.extend(look.rows(&drawing.grid));
    Ok(lines)
}

fn json(args: &Draw, subject: &Subject<'_>) -> String {
    let lens = match args.lens {
        Some(Lens::At(line)) => Some(line),
        Some(Lens::Forbidden) | None => None,
    };
    let scene = subject.scene(args);
    let zero_error = subject.zero_error.unwrap_or_default();
    let beside = subject.instrument.on_same_jaw().zip(scene.beside.as_ref());
    let set = subject.set_before().map(|sight| (sight_scene(&sight, args), sight.tool));
    let before = set.as_ref().map(|(scene, slide)| (slide, scene));
    let other = beside.map(|(other, beside)| (&other.tool, &beside.scene)).or(before);
    out::json(&scene::json::document(subject.instrument, &scene, subject.reading, zero_error, lens, other))
}

fn svg(args: &Draw, subject: &Subject<'_>) -> Result<String, Halt> {
    if subject.zero_error.is_some() || subject.conditions.change.start.is_some() {
        return Err(Halt::usage(say::ONE_PICTURE));
    }
    // Whatever ends a line is written once, by the caller.
    Ok(render::svg::picture(&picture(args, subject)).trim_end().to_owned())
}

fn picture(args: &Draw, subject: &Subject<'_>) -> Picture {
    let scene = subject.scene(args);
    match subject.set_before() {
        None => vector::draw(&scene, &[]),
        Some(set) => vector::draw_slides(&sight_scene(&set, args), &scene),
    }
}

/// The same as the SVG on a page of its size. The file's title is the tool's, never what it reads.
fn pdf(args: &Draw, subject: &Subject<'_>, out: &mut Out) -> Result<Exit, Halt> {
    if subject.zero_error.is_some() || subject.conditions.change.start.is_some() {
        return Err(Halt::usage(say::ONE_PICTURE));
    }
    let bytes = render::pdf::picture(&picture(args, subject), &subject.instrument.title);
    match &args.output {
        None => out.bytes(&bytes)?,
        Some(path) => store::write_new(path, &bytes)?,
    }
    Ok(Exit::Fine)
}

fn describe(args: &Draw, subject: &Subject<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    for sight in subject.earlier() {
        lines.push(wording::beside(subject.instrument, sight.role).to_owned());
        lines.extend(wording::describe(&sight.tool, &describe::describe(&sight_scene(&sight, args))));
    }
    if let Some(last) = subject.earlier().last() {
        lines.push(wording::then(subject.instrument, last.role).to_owned());
    }
    lines.extend(wording::describe(subject.instrument, &describe::describe(&subject.scene(args))));
    lines.iter().map(|line| out::clean_name(line)).collect()
}

fn explain(subject: &Subject<'_>) -> Vec<String> {
    let instrument = subject.instrument;
    let question = subject.question();
    let mut lines = Vec::new();
    if let Some(sight) = subject.set_before() {
        let set = read(&sight.tool, &sight.pose);
        lines.push(say::HEIGHT_SLIDE.to_owned());
        lines.extend(say::steps(&sight.tool, &set, &shares(&sight.tool, &set), Quanta::ZERO, Asks::Reading));
        lines.push(say::THICKNESS_SLIDE.to_owned());
    }
    let (reading, zero_error) = (&question.reading, question.zero_error);
    lines.extend(say::steps(instrument, reading, &shares(instrument, reading), zero_error, question.asks));
    lines.extend(wording::worked(&question.case(instrument)));
    lines.iter().map(|line| out::clean_name(line)).collect()
}

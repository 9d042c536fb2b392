//! `linefall walk`.

use super::args::{Common, Size, size};
use super::exit::{Exit, Halt};
use super::out::Out;
use super::picture::Look;
use super::start;
use super::{Next, shelf, terminal};
use crate::lesson::lesson_for;
use crate::reading::Stand;
use crate::render::{self, Glass, Request, describe};
use crate::scene::{self, View};
use crate::session::{Asked, Begin, More, Teaching, TeachingStep};
use crate::wording;
use crate::wording::walk as say;
use clap::Args;

/// `walk`.
#[derive(Debug, Args)]
pub struct Options {
    /// Which instrument
    pub instrument: String,
    /// Begin with its lesson
    #[arg(long)]
    pub lesson: bool,
    /// Print the lesson with its pictures instead
    #[arg(long)]
    pub text: bool,
    /// Print the lesson with each picture in words instead
    #[arg(long, conflicts_with = "text")]
    pub describe: bool,
    /// Cells across and down of a printed picture
    #[arg(long, value_name = "COLSxROWS", value_parser = size, requires = "text")]
    pub size: Option<Size>,
}

/// Rows of a printed picture, where nobody says.
const ROWS: u16 = 20;

/// Opens a walk on the full screen, or prints the lesson.
pub fn run(common: Common, args: &Options, out: &mut Out) -> Result<Next, Halt> {
    let catalogue = shelf::catalogue(&common);
    let instrument = shelf::find(&catalogue, &args.instrument)?;
    let lesson = lesson_for(instrument);
    let wanted = args.lesson || args.text || args.describe;
    let Some(lesson) = lesson.filter(|_| wanted) else {
        if wanted {
            return Err(Halt::usage(say::no_lesson(&instrument.family)));
        }
        return start::at(common, Begin::Walk(args.instrument.clone())).map(Next::FullScreen);
    };
    if !args.text && !args.describe {
        return start::at(common, Begin::Lesson(args.instrument.clone())).map(Next::FullScreen);
    }
    let look = Look::on_standard_output(&common);
    let mut run = Teaching::new(lesson);
    out.line(&run.lesson().title)?;
    out.line(&say::mind(&run.lesson().caution))?;
    loop {
        out.line("")?;
        let stand = run.point().stand;
        let (step, steps) = run.which();
        // A reading that is asked for is not said before.
        let open = matches!(run.asked(), Asked::Open { .. });
        let reading = if open { String::new() } else { stand.tool.spell_with_unit(stand.reading.total) };
        out.line(say::step_head(step, steps, &reading).trim_end_matches([':', ' ']))?;
        if args.describe {
            let scene = scene::build(&stand.tool, &stand.pose, &stand.variant, View::Held);
            out.lines(wording::describe(&stand.tool, &describe::describe(&scene)))?;
        } else {
            out.lines(picture(&stand, args, &look)?)?;
        }
        out.line(&run.said())?;
        if let (Asked::Open { .. }, Some([question, right, told])) = (run.asked(), run.question()) {
            out.line(&say::asked(&question, &right))?;
            out.line(&told)?;
            run.step(TeachingStep::Show);
        }
        if run.step(TeachingStep::Next) == More::Ended {
            return Ok(Next::Done(Exit::Fine));
        }
    }
}

/// Where a glass is needed it lies on the line that is in line: a lesson hides nothing.
fn picture(stand: &Stand, args: &Options, look: &Look) -> Result<Vec<String>, Halt> {
    let size = args.size.map_or((terminal::USUAL.cols, ROWS), |size| (size.cols, size.rows));
    let scene = scene::build(&stand.tool, &stand.pose, &stand.variant, View::Held);
    let mut request = Request::new(i64::from(size.0), i64::from(size.1), look.lines);
    request.marks = look.marks();
    let drawing = match render::draw(&scene, &request) {
        // What is printed may be as wide as it must.
        Err(refusal) if args.size.is_none() => {
            (request.cols, request.rows) = (refusal.needs_cols, refusal.needs_rows);
            render::draw(&scene, &request)?
        }
        drawing => drawing?,
    };
    let line = stand.shares.iter().rev().find(|share| share.kind.counts_lines()).and_then(|share| share.at);
    let drawing = match (drawing.extent, line) {
        (render::Extent::Slide, Some(line)) => {
            request.glass = Glass::At(stand.tool.glass_line(line.0));
            render::draw(&scene, &request)?
        }
        _ => drawing,
    };
    Ok(look.rows(&drawing.grid))
}

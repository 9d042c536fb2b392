//! The arguments of `ask`.

use crate::cli::args::{Size, size, view};
use crate::cli::asked::{Asked, Choose};
use crate::scene::View;
use clap::Args;

/// `ask`.
#[derive(Debug, Args)]
pub struct Ask {
    /// The instrument's id, or an exercise's or check's; one instrument after the other when left out
    #[arg(value_name = "INSTRUMENT|SET")]
    pub instrument: Option<String>,
    /// What is asked
    #[command(flatten)]
    pub asked: Asked,
    /// How many questions, 20 when left out; a set says so itself
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=10_000))]
    pub count: Option<u32>,
    /// The same seed gives the same questions
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
    /// One JSON object a line, in and out
    #[arg(long)]
    pub json: bool,
    /// Put the right answer beside every question
    #[arg(long, requires = "json")]
    pub reveal: bool,
    /// How the next question is chosen
    #[arg(long, default_value = "plain")]
    pub choose: Choose,
    /// Go on to the last question, whatever has been found out (plain questions always do)
    #[arg(long)]
    pub keep_going: bool,
    /// Cells across and down
    #[arg(long, value_name = "COLSxROWS", value_parser = size)]
    pub size: Option<Size>,
    /// In the hand, or laid flat
    #[arg(long, default_value = "held", value_parser = view())]
    pub view: View,
}

/// Questions where nobody says how many.
const USUAL_COUNT: u32 = 20;

impl Ask {
    /// How many questions.
    pub fn count(&self) -> u32 {
        self.count.unwrap_or(USUAL_COUNT)
    }
}

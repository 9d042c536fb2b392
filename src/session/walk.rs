//! Walking through a tool: it is moved by hand, and the reading builds up stage by stage, or is guessed stage by stage.

use crate::drill::{Draw, Guess, Guessed, Seed};
use crate::exact::{Nonsense, Quanta, parse_answer};
use crate::instrument::{Instrument, Stroke, Toward, Travel, Variant};
use crate::reading::{Seen, ShareKind, Stand};

/// A tool that somebody moves. Nothing of it is recorded.
#[derive(Clone)]
pub struct Walk {
    instrument: Instrument,
    /// The tool in each of its forms, one thing changed at a time, the usual one first.
    forms: Vec<Variant>,
    form: usize,
    stand: Stand,
    mode: Mode,
    drawn: u32,
}

/// Whether the reading is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mode {
    /// It builds up as the tool is moved.
    Showing,
    /// It is hidden, and guessed stage by stage.
    Guessing {
        /// The guesses so far, one a stage, in the order of the stages.
        guesses: Vec<Guess>,
        /// What was wrong with the last text typed, if it was no value at all.
        again: Option<Nonsense>,
    },
}

/// What the learner does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WalkStep {
    /// Moves the tool.
    Move(Stroke, Toward),
    /// Moves it to its zero, or as low as it goes.
    Zero,
    /// Sets it somewhere by chance.
    Elsewhere(Seed),
    /// Takes its next form: another rod, the half lines above.
    Form,
    /// Hides the reading, or shows it again.
    Mode,
    /// Says what the next stage shows.
    Guess(String),
    /// Has the next stage shown.
    Show,
}

impl Walk {
    /// A tool at its zero.
    pub fn new(instrument: &Instrument) -> Self {
        let plain = instrument.plain();
        let zero = instrument.fitted(&plain).travel().zero();
        Self::at(instrument, &plain, zero)
    }

    /// A tool in one of its variants at a setting.
    pub fn at(instrument: &Instrument, variant: &Variant, setting: Quanta) -> Self {
        let mut forms = forms(instrument);
        let form = forms.iter().position(|form| form == variant).unwrap_or_else(|| {
            forms.push(variant.clone());
            forms.len() - 1
        });
        let stand = Stand::new(instrument, variant, setting, Quanta::ZERO);
        Self { instrument: instrument.clone(), forms, form, stand, mode: Mode::Showing, drawn: 0 }
    }

    /// Where it stands.
    pub fn stand(&self) -> &Stand {
        &self.stand
    }

    /// The instrument that it is a form of.
    pub fn instrument(&self) -> &Instrument {
        &self.instrument
    }

    /// Whether the reading is shown.
    pub fn mode(&self) -> &Mode {
        &self.mode
    }

    /// How it is moved.
    pub fn travel(&self) -> Travel {
        self.stand.tool.travel()
    }

    /// True where the tool comes in more forms than one.
    pub fn has_forms(&self) -> bool {
        self.forms.len() > 1
    }

    /// How many stages are open to be seen: all, or those that have been guessed.
    pub fn open(&self) -> usize {
        match &self.mode {
            Mode::Showing => self.stand.reading.steps.len(),
            Mode::Guessing { guesses, .. } => guesses.len(),
        }
    }

    /// The stage to be guessed next, by its number in the tool.
    pub fn asked(&self) -> Option<usize> {
        self.stand.reading.steps.get(self.open()).map(|step| step.stage)
    }

    /// Carries a step out.
    pub fn step(&mut self, step: WalkStep) {
        match step {
            WalkStep::Move(stroke, toward) => {
                let to = self.travel().moved(self.stand.setting, stroke, toward);
                self.set(to);
            }
            WalkStep::Zero => self.set(self.travel().zero()),
            WalkStep::Elsewhere(seed) => {
                self.drawn += 1;
                let tool = &self.stand.tool;
                let travel = tool.travel();
                let mut draw = Draw::keyed("linefall walk 1", tool, seed, self.drawn);
                let count = u32::try_from(travel.settings()).expect("a bounded number of settings");
                self.set(tool.low + travel.fine * i64::from(draw.below(count)));
            }
            WalkStep::Form => self.next_form(),
            WalkStep::Mode => {
                self.mode = match self.mode {
                    Mode::Showing => Mode::Guessing { guesses: Vec::new(), again: None },
                    Mode::Guessing { .. } => Mode::Showing,
                };
            }
            WalkStep::Guess(text) => self.guess(&text),
            WalkStep::Show => {
                if let (Some(_), Mode::Guessing { guesses, again }) = (self.asked(), &mut self.mode) {
                    guesses.push(Guess { typed: String::new(), verdict: Guessed::Shown });
                    *again = None;
                }
            }
        }
    }

    /// What has been guessed of a tool that stood elsewhere is forgotten.
    fn set(&mut self, setting: Quanta) {
        self.stand = self.stand.clone().moved(setting);
        if let Mode::Guessing { guesses, again } = &mut self.mode {
            guesses.clear();
            *again = None;
        }
    }

    /// The next form, standing as far along its range.
    fn next_form(&mut self) {
        self.form = (self.form + 1) % self.forms.len();
        let along = self.stand.tool.value(self.stand.setting - self.stand.tool.low);
        let variant = &self.forms[self.form];
        let tool = self.instrument.fitted(variant);
        let kept = tool.lattice.at(along).map(|along| tool.low + along);
        let kept = kept.filter(|at| *at <= tool.high && (*at - tool.low).is_multiple_of(tool.step));
        let setting = kept.unwrap_or_else(|| tool.travel().zero());
        self.stand = Stand::new(&self.instrument, variant, setting, Quanta::ZERO);
        self.set(setting);
    }

    fn guess(&mut self, text: &str) {
        let Some(stage) = self.asked() else { return };
        let tool = &self.stand.tool;
        let typed = parse_answer(text, tool.unit);
        let total = tool.value(self.stand.reading.total);
        let worth = tool.value(self.stand.shown_by(stage).unwrap_or_default());
        let line = self.line_number(stage);
        let left = self.stand.reading.steps.len() - self.open();
        let first = self.open() == 0;
        let Mode::Guessing { guesses, again } = &mut self.mode else { return };
        *again = None;
        match typed {
            Err(nonsense) => *again = Some(nonsense),
            Ok(typed) => {
                let verdict = Guessed::of(&typed, worth, line, first.then_some(total));
                let count = if verdict == Guessed::Whole { left } else { 1 };
                guesses.extend((0..count).map(|_| Guess { typed: typed.text.clone(), verdict }));
            }
        }
    }

    /// The number of the line that a stage is read at; none on a straight scale.
    fn line_number(&self, stage: usize) -> Option<i64> {
        let estimated =
            self.stand.reading.steps.iter().any(|step| matches!(step.seen, Seen::Estimated { .. }));
        self.stand.shares.iter().filter(|share| share.stage == stage && !estimated).find_map(|share| {
            match share.kind {
                ShareKind::DrumLine { line }
                | ShareKind::DialLine { line, .. }
                | ShareKind::VernierLine { line } => Some(line),
                _ => None,
            }
        })
    }
}

/// The forms of an instrument, each with one thing changed.
fn forms(instrument: &Instrument) -> Vec<Variant> {
    let mut all = instrument.variants();
    all.extend(instrument.sets().into_iter().skip(1));
    for choice in instrument.choices.iter().filter(|choice| choice.owned.is_none()) {
        all.extend((1..choice.lengths.len()).map(|n| choice.fit(instrument.plain(), n)));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Catalogue;

    fn tool(id: &str) -> Instrument {
        Catalogue::new(Vec::new()).get(id).expect("shipped").clone()
    }

    fn walk_at(id: &str, text: &str) -> Walk {
        let tool = tool(id);
        let quantity = crate::exact::Quantity::parse(text).expect("a length");
        let at = tool.lattice.at(quantity.value).expect("a setting");
        Walk::at(&tool, &tool.plain(), at)
    }

    fn verdicts(walk: &Walk) -> Vec<Guessed> {
        match walk.mode() {
            Mode::Showing => panic!("not guessing"),
            Mode::Guessing { guesses, .. } => guesses.iter().map(|guess| guess.verdict).collect(),
        }
    }

    fn guess(walk: &mut Walk, text: &str) {
        walk.step(WalkStep::Guess(text.to_owned()));
    }

    /// W16 of the published readings: 0.200 + 0.075 + 0.011 + 0.0002 = 0.2862 in.
    #[test]
    fn stage_by_stage() {
        let mut walk = walk_at("micrometer-inch-tenths", "0.2862 in");
        walk.step(WalkStep::Mode);
        assert_eq!(walk.open(), 0);
        guess(&mut walk, "0.275");
        guess(&mut walk, "11");
        guess(&mut walk, "0.0003");
        assert_eq!(verdicts(&walk), [Guessed::Right, Guessed::LineNumber, Guessed::Wrong]);
        assert_eq!(walk.asked(), None);
        guess(&mut walk, "0.1");
        assert_eq!(verdicts(&walk).len(), 3, "there is nothing left to be guessed");
    }

    #[test]
    fn the_whole_at_once_and_what_is_no_value() {
        let mut walk = walk_at("micrometer-metric", "8.84 mm");
        walk.step(WalkStep::Mode);
        guess(&mut walk, "1.2.3");
        assert!(matches!(walk.mode(), Mode::Guessing { again: Some(_), .. }));
        guess(&mut walk, "8,84");
        assert_eq!(verdicts(&walk), [Guessed::Whole; 2]);
        walk.step(WalkStep::Move(Stroke::Fine, Toward::Larger));
        assert!(verdicts(&walk).is_empty(), "it stands elsewhere");
        walk.step(WalkStep::Show);
        assert_eq!(verdicts(&walk), [Guessed::Shown]);
    }

    #[test]
    fn another_form_stands_as_far_along() {
        let mut walk = walk_at("depth-micrometer-inch", "0.435 in");
        let readings: Vec<String> = (0..6)
            .map(|_| {
                let stand = walk.stand();
                let read = stand.tool.spell(stand.reading.total);
                walk.step(WalkStep::Form);
                read
            })
            .collect();
        assert_eq!(readings, ["0.435", "1.435", "2.435", "3.435", "4.435", "5.435"]);
        assert_eq!(walk.stand().variant, walk.forms[0]);
    }

    #[test]
    fn elsewhere_is_a_setting_of_every_instrument() {
        for known in Catalogue::new(Vec::new()).all() {
            let mut walk = Walk::new(known);
            for number in 0..walk.forms.len().min(8) {
                walk.step(WalkStep::Elsewhere(Seed(u64::try_from(number).expect("small"))));
                let stand = walk.stand();
                let tool = &stand.tool;
                assert!(stand.setting >= tool.low && stand.setting <= tool.high, "{}", tool.id);
                assert!((stand.setting - tool.low).is_multiple_of(tool.step), "{}", tool.id);
                assert_eq!(stand.reading.total, stand.setting, "{}", tool.id);
                walk.step(WalkStep::Form);
            }
        }
    }
}

//! Somebody who is asked at a bench line by line: what a run of kinds and the paper of a set have in common.

use super::{Frame, Picture, now};
use crate::cli::exit::Halt;
use crate::drill::record;
use crate::render::Glass;
use crate::scene::View;
use crate::session::{Act, Bench, Noted, Shown, Stand};
use std::time::Instant;

/// What is drawn at a bench and when it was shown.
pub(super) struct Easel {
    /// How the pictures are made.
    pub(super) frame: Frame,
    /// When the part that is up was shown.
    pub(super) shown_at: Instant,
    /// Where the glass is held over each of the pictures, if it has been slid.
    pub(super) lens: [Option<i64>; 2],
}

impl Easel {
    pub(super) fn new(frame: Frame) -> Self {
        Self { frame, shown_at: Instant::now(), lens: [None; 2] }
    }
}

/// Somebody who is asked.
pub(super) trait Asker {
    /// The bench that is up.
    fn bench(&self) -> &Bench;
    /// What is drawn there.
    fn easel(&self) -> &Easel;
    /// The same, to be changed.
    fn easel_mut(&mut self) -> &mut Easel;
    /// The number of the question, from 1, and of how many.
    fn which(&self) -> (u32, u32);
    /// Carries out what was done at the bench, and keeps what comes of it.
    fn take(&mut self, act: Act);
    /// Poses the next part or question; false when there is none left.
    fn advance(&mut self) -> bool;
    /// Parts right, answered and passed over.
    fn score(&self) -> (u32, u32, u32);

    /// The pictures of the part that is up, what is seen before the work first; the clock of the part starts.
    fn pose(&mut self) -> Result<Vec<Picture>, Halt> {
        self.open();
        let pictures = self.all();
        self.easel_mut().shown_at = Instant::now();
        pictures
    }

    /// The glass over a vernier line, or where it is needed.
    fn glass(&self, over: Option<i64>) -> Glass {
        over.map_or(Glass::IfNeeded, Glass::At)
    }

    /// What stands behind the number of the question.
    fn clock(&self) -> String {
        String::new()
    }

    /// True where the time is up: what was typed since is not taken.
    fn is_time_up(&self) -> bool {
        false
    }

    /// True where it is told at the end what was right.
    fn is_silent(&self) -> bool {
        false
    }

    /// What is said where there is no glass to slide.
    fn no_glass(&self) -> &'static str {
        crate::wording::command::NO_GLASS_HERE
    }

    /// True once the part is answered.
    fn is_told(&self) -> bool {
        matches!(self.bench().stand(), Stand::Told(_))
    }

    /// The glass lies where the part wants it.
    fn open(&mut self) {
        self.easel_mut().lens = [self.bench().part().glass, None];
    }

    /// What is seen before the work, and the work.
    fn all(&self) -> Result<Vec<Picture>, Halt> {
        let mut all = Vec::new();
        // A later part has seen it.
        if self.bench().which().0 == 1 {
            for sight in self.bench().part().earlier() {
                all.push(self.easel().frame.draw(&sight, self.glass(None), 0)?);
            }
        }
        all.extend(self.work()?);
        Ok(all)
    }

    /// The pictures of the work as they are now.
    fn work(&self) -> Result<Vec<Picture>, Halt> {
        let easel = self.easel();
        let over = |place: usize| easel.lens.get(place).copied().flatten();
        let sights = self.bench().sights();
        let sights = sights.iter().enumerate();
        sights.map(|(place, sight)| easel.frame.draw(sight, self.glass(over(place)), 0)).collect()
    }

    /// One of the pictures with the glass over a vernier line; `None` where there is no glass to slide.
    fn slide(&mut self, place: usize, line: i64) -> Result<Option<Picture>, Halt> {
        let glass = self.glass(Some(line));
        let sight = self.bench().sights().into_iter().nth(place);
        let Some(sight) = sight.filter(|_| glass != Glass::Forbidden) else { return Ok(None) };
        let picture = self.easel().frame.draw(&sight, glass, 0)?;
        if picture.drawing.glass.is_none() {
            return Ok(None);
        }
        self.easel_mut().lens[place.min(1)] = picture.drawing.glass;
        self.take(Act::Glass);
        Ok(Some(picture))
    }

    /// Answers, moves or locks the tool, as it was typed.
    fn answer(&mut self, text: String) -> Result<(), Halt> {
        let noted = self.noted()?;
        self.take(Act::Type(text, noted));
        Ok(())
    }

    /// Takes one of the answers offered.
    fn choose(&mut self, place: usize) -> Result<(), Halt> {
        let noted = self.noted()?;
        self.take(Act::Choose(place, noted));
        Ok(())
    }

    /// Passes over.
    fn skip(&mut self) -> Result<(), Halt> {
        let noted = self.noted()?;
        self.take(Act::Skip(noted));
        Ok(())
    }

    /// When and how the part was shown, for the record.
    fn noted(&self) -> Result<Noted, Halt> {
        let (pictures, easel) = (self.work()?, self.easel());
        let first = pictures.first();
        let shown = Shown {
            view: match first.map_or(easel.frame.view, |picture| picture.drawing.view) {
                View::Held => record::View::Held,
                View::Flat => record::View::Flat,
            },
            lines: easel.frame.look.lines.word(),
            cols: first.map_or(0, |picture| u32::from(picture.size.cols)),
            rows: first.map_or(0, |picture| u32::from(picture.size.rows)),
            glass: pictures.iter().any(|picture| picture.drawing.glass.is_some()),
        };
        Ok(Noted { took: easel.shown_at.elapsed(), at: now(), shown })
    }
}

//! A job card being worked on: its file kept level with the sitting, whoever drives it.

use super::share::{announce, tries_on};
use super::{HandedIn, Holder, StoreError, TakenUp, WorkFile, hand_in, key, open_work, share, tries};
use crate::class::returned::{Header, Writer};
use crate::class::sitting::{End, Sitting};
use std::path::{Path, PathBuf};

/// Where somebody works on a job card.
#[derive(Debug)]
pub struct Desk {
    dir: PathBuf,
    open: Option<Open>,
}

/// The file of the sitting that goes on, and how much of it is down.
#[derive(Debug)]
struct Open {
    sitting: String,
    file: WorkFile,
    writer: Writer,
    answers: usize,
    backs: u32,
}

/// What there is of a card on this machine.
#[derive(Debug)]
pub struct OnDesk {
    /// The sitting that was broken off, its seed, and which try it is.
    pub going: Option<(Sitting, u64, u32)>,
    /// How often it was begun, as far as this machine and the shared folder know.
    pub tries: u32,
}

/// What is put down beside the sitting itself.
#[derive(Clone, Debug)]
pub struct Note {
    /// Nothing is told before the end: answers are put down without their marks.
    pub silent: bool,
    /// Which try of the card it is.
    pub nth: u32,
    /// Now, UTC as RFC 3339.
    pub at: String,
    /// It is left now.
    pub leaves: bool,
    /// Thirty-two bytes by chance, for a machine that has no key yet.
    pub drawn: [u8; 32],
}

impl Desk {
    /// At a data folder.
    pub fn new(dir: &Path) -> Self {
        Self { dir: dir.to_owned(), open: None }
    }

    /// What there is of a card on this machine. What was broken off is taken up.
    pub fn look(&mut self, card: &str, learner: &str) -> Result<OnDesk, StoreError> {
        self.open = None;
        let here = tries(&self.dir, card, learner)?;
        let tries = here.max(share(&self.dir)?.map_or(0, |share| tries_on(&share, card, learner)));
        let mine = |header: &Header| header.card.as_deref() == Some(card) && header.learner == learner;
        let Some((path, _)) = open_work(&self.dir)?.into_iter().find(|(_, header)| mine(header)) else {
            return Ok(OnDesk { going: None, tries });
        };
        let TakenUp { file, writer, so_far } = WorkFile::take_up(&path)?;
        let sitting = so_far.claimed();
        let going = Some((sitting.clone(), so_far.header.seed().0, so_far.header.nth));
        self.open = Some(Open::of(&sitting, file, writer));
        Ok(OnDesk { going, tries })
    }

    /// Puts down what is new in a sitting. At its end the file goes to the outbox, and from there into the shared folder if
    /// that can be reached.
    pub fn put_down(&mut self, sitting: &Sitting, note: &Note) -> Result<Option<HandedIn>, StoreError> {
        let mut open = match self.open.take() {
            Some(open) if open.sitting == sitting.id => open,
            _ => self.open_again(sitting, note)?,
        };
        let secret = key(&self.dir, Holder::Machine, note.drawn)?;
        while open.backs < sitting.interruptions {
            open.file.append(&open.writer.back(&note.at))?;
            open.backs += 1;
        }
        for entry in sitting.entries.iter().skip(open.answers) {
            let (place, part, attempt) = (entry.place, entry.part, &entry.attempt);
            open.file.append(&if note.silent {
                open.writer.silent_answer(place, part, attempt)
            } else {
                open.writer.answer(place, part, attempt)
            })?;
            open.answers += 1;
        }
        if sitting.end == End::Open {
            if note.leaves {
                open.file.append(&open.writer.left(&note.at))?;
            }
            self.open = Some(open);
            return Ok(None);
        }
        let at = sitting.ended.as_deref().unwrap_or(&note.at);
        open.file.finish(&open.writer.end(at, sitting.end, &secret))?;
        let handed = match share(&self.dir)? {
            Some(share) => hand_in(&self.dir, &share)?,
            None => HandedIn { waiting: super::waiting(&self.dir)?, ..HandedIn::default() },
        };
        Ok(Some(handed))
    }

    /// The file of a sitting that is not open here: begun, or taken up after something stood in the way.
    fn open_again(&self, sitting: &Sitting, note: &Note) -> Result<Open, StoreError> {
        let found = open_work(&self.dir)?.into_iter().find(|(_, header)| header.sitting == sitting.id);
        if let Some((path, _)) = found {
            let TakenUp { file, writer, so_far } = WorkFile::take_up(&path)?;
            return Ok(Open::of(&so_far.claimed(), file, writer));
        }
        let header = Header {
            sitting: sitting.id.clone(),
            learner: sitting.learner.clone(),
            set: sitting.set.clone(),
            revision: sitting.revision.clone(),
            purpose: sitting.purpose,
            card: sitting.card.clone(),
            nth: note.nth,
            key: key(&self.dir, Holder::Machine, note.drawn)?.public(),
            program: env!("CARGO_PKG_VERSION").to_owned(),
            begun: sitting.begun.clone(),
        };
        let (file, writer) = WorkFile::begin(&self.dir, &header)?;
        if let Some(share) = share(&self.dir)?.filter(|_| header.card.is_some()) {
            // A share that is away keeps nobody from working.
            let _ = announce(&share, &header);
        }
        Ok(Open { sitting: sitting.id.clone(), file, writer, answers: 0, backs: 0 })
    }
}

impl Open {
    fn of(sitting: &Sitting, file: WorkFile, writer: Writer) -> Self {
        let (answers, backs) = (sitting.entries.len(), sitting.interruptions);
        Self { sitting: sitting.id.clone(), file, writer, answers, backs }
    }
}

//! The key to worksheets.

use super::work::{Dealt, parts};
use super::{Options, head};
use crate::drill::Seed;
use crate::drill::set::DrillSet;
use crate::render::paper::Paper;
use crate::render::sheet::{Block, Entry, Sheet};
use crate::wording::sheet as say;

/// The command that prints the same sheets again.
pub(super) fn command(wanted: &str, args: &Options, seed: Seed) -> String {
    let mut words = vec![format!("linefall sheet {wanted} --seed {}", seed.0)];
    if args.variants > 1 {
        words.push(format!("--variants {}", args.variants));
    }
    if let Some(count) = args.count {
        words.push(format!("--count {count}"));
    }
    words.push(format!("--paper {} -o FILE", args.paper.word()));
    words.join(" ")
}

/// The key to all sheets, one after the other.
pub(super) fn sheet(set: &DrillSet, sheets: &[Dealt], code: u32, command: &str, paper: Paper) -> Sheet {
    let mut head = head(say::key_title(&set.title), vec![set.about.clone(), say::key_how(command)]);
    head.mark = say::mark(code, None);
    head.bar = None;
    let mut entries = Vec::new();
    for dealt in sheets {
        if let Some(letter) = dealt.letter {
            entries.push(Entry { number: None, blocks: vec![Block::Heading(say::mark(code, Some(letter)))] });
        }
        for (number, task) in (1..).zip(&dealt.tasks) {
            let parts = parts(task);
            let mut blocks = Vec::new();
            for (n, part) in parts.iter().enumerate() {
                let (answer, why) = say::answer(part);
                let answer = say::part_answer(n, parts.len(), &answer);
                blocks.push(Block::Heading(if n == 0 { format!("{number}:  {answer}") } else { answer }));
                blocks.push(Block::Steps(why));
            }
            entries.push(Entry { number: None, blocks });
        }
    }
    Sheet { paper, head, entries }
}

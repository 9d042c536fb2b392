use super::*;
use crate::class::returned::Closing;
use crate::class::returned::testing::{attempt, header};
use crate::class::sitting::Purpose;
use crate::class::verdict::{Judged, Outcome, Why, judge_sitting};
use crate::diag::SourceText;
use crate::drill::Seed;
use crate::drill::set::read;

const RUNNING: &str = r#"
set = "running"
title = "Running"
about = "Rules, until it is clear."
count = 60
pass = "sequential"

[[questions]]
instrument = "rule-metric"
to = "60 mm"
conditions = "never"
"#;

struct Shop {
    catalogue: Catalogue,
    set: DrillSet,
    paper: Vec<Item>,
}

impl Shop {
    fn new(text: &str) -> Self {
        let catalogue = Catalogue::new(Vec::new());
        let set = read(&SourceText::new("set.toml", text), &catalogue).expect("a set");
        let paper = deal(&set, &catalogue, Seed(7));
        Self { catalogue, set, paper }
    }

    fn parts(&self, place: u32) -> u32 {
        let item = self.paper.iter().find(|item| item.place == place).expect("on the paper");
        u32::try_from(item.task(&self.catalogue).expect("posed").parts.len()).expect("few")
    }

    /// The right answer to a part, or a reading that is a line too much.
    fn entry(&self, (place, part): (u32, u32), right: bool) -> Entry {
        let item = self.paper.iter().find(|item| item.place == place).expect("on the paper");
        let tool = self.catalogue.get(&item.instrument).expect("shipped");
        let task = item.task(&self.catalogue).expect("posed");
        let of = &task.parts[usize::try_from(part - 1).expect("small")];
        let expected = of.expected_word();
        let off = of.question.expected(&of.tool) + of.tool.value(of.tool.least_count);
        let words = if right {
            vec![expected.split(' ').next().unwrap_or_default().to_owned(), expected]
        } else {
            vec![of.tool.notation.spell(off)]
        };
        let said = |answer: String| answered(item, of, tool, Attempt { answer, ..attempt("") });
        let attempt = words.into_iter().filter_map(said).find(|said| said.verdict.is_right() == right);
        Entry { place, part, attempt: attempt.expect("such an answer") }
    }

    /// The parts of so many questions; those at `wrong` are wrong.
    fn entries(&self, count: u32, wrong: &[u32]) -> Vec<Entry> {
        let parts = (1..=count).flat_map(|place| (1..=self.parts(place)).map(move |part| (place, part)));
        parts.map(|at| self.entry(at, !wrong.contains(&at.0))).collect()
    }

    fn remarked(&self, entries: Vec<Entry>, end: End) -> Remarked {
        let returned = Returned {
            header: crate::class::returned::Header { purpose: Purpose::Check, ..header() },
            entries,
            happened: Vec::new(),
            end,
            ended: Some("2026-11-30T07:43:00Z".to_owned()),
            closing: Closing::Signed,
            head: String::new(),
            whole: 0,
        };
        remark_on(&self.paper, returned, &self.set, &self.catalogue)
    }

    fn judged(&self, found: &Remarked) -> Judged {
        let plan = self.set.pass.as_ref().map(|pass| Plan::of(pass, self.set.count));
        judge_sitting(plan.as_ref(), &found.sitting, &self.catalogue)
    }
}

fn what(found: &Remarked) -> Vec<&Differs> {
    found.differences.iter().map(|difference| &difference.what).collect()
}

#[test]
fn keeping_only_what_went_well_does_not_pass() {
    let shop = Shop::new(RUNNING);
    let wrong = [1, 3, 4, 7, 9, 12];
    let honest = shop.remarked(shop.entries(10, &wrong), End::Done);
    assert_eq!(honest.differences, []);
    let honest = shop.judged(&honest);
    let failed = Outcome::NotYet(Why::TooFewRight);
    assert_eq!(honest.outcome, failed, "{honest:?}");
    let all = shop.entries(30, &wrong);
    // Those that are right, with gaps.
    let well: Vec<Entry> = all.iter().filter(|entry| !wrong.contains(&entry.place)).cloned().collect();
    let found = shop.remarked(well.clone(), End::Done);
    assert_eq!(shop.judged(&found).outcome, failed);
    assert!(what(&found).contains(&&Differs::Gap), "{:?}", found.differences);
    // Those first, then the others.
    let ill = all.iter().filter(|entry| wrong.contains(&entry.place)).cloned();
    let found = shop.remarked(well.iter().cloned().chain(ill).collect(), End::Done);
    assert_eq!(shop.judged(&found).outcome, failed);
    assert!(what(&found).contains(&&Differs::OutOfOrder));
    assert!(!what(&found).contains(&&Differs::Gap));
    // The wrong ones made into no answers.
    let mut nonsense = all;
    for entry in nonsense.iter_mut().filter(|entry| wrong.contains(&entry.place)) {
        entry.attempt.answer = "x".to_owned();
    }
    let found = shop.remarked(nonsense, End::Done);
    assert_eq!(shop.judged(&found).outcome, failed);
    assert!(what(&found).contains(&&Differs::NoAnswer));
}

#[test]
fn what_comes_after_the_decision_is_left_out() {
    let shop = Shop::new(RUNNING);
    let found = shop.remarked(shop.entries(20, &[]), End::Done);
    let judged = shop.judged(&found);
    assert_eq!(judged.outcome, Outcome::Passed);
    let last = judged.score.answered;
    let after: Vec<(u32, &Differs)> = found.differences.iter().map(|of| (of.place, &of.what)).collect();
    assert_eq!(after, (last + 1..=20).map(|place| (place, &Differs::AfterTheEnd)).collect::<Vec<_>>());
    assert_eq!(found.sitting.entries.len(), usize::try_from(last).expect("small"));
}

/// In an exercise a question is passed by where there is no room for its picture: nothing is missing then.
#[test]
fn an_exercise_may_leave_questions_out() {
    let shop = Shop::new(&RUNNING.replace("pass = \"sequential\"\n", ""));
    let mut entries = shop.entries(8, &[]);
    entries.remove(3);
    let found = shop.remarked(entries, End::Done);
    assert_eq!((found.differences.len(), found.sitting.lacks.len()), (0, 0));
    assert_eq!(shop.judged(&found).score.answered, 7);
}

const TWO_PARTS: &str = r#"
set = "two-parts"
title = "Two parts"
about = "Questions of two parts."
count = 10
pass = "8 of 10"

[[questions]]
instrument = "caliper-metric-50"
kinds = ["estimate-first", "pair"]
"#;

#[test]
fn a_question_short_of_a_part_is_not_right() {
    let shop = Shop::new(TWO_PARTS);
    assert_eq!((1..=10).map(|place| shop.parts(place)).collect::<Vec<_>>(), [2; 10]);
    let all = shop.entries(10, &[]);
    let whole = shop.remarked(all.clone(), End::Done);
    assert_eq!((whole.differences.len(), shop.judged(&whole).outcome), (0, Outcome::Passed));
    let first: Vec<Entry> = all.iter().filter(|entry| entry.part == 1).cloned().collect();
    let found = shop.remarked(first, End::Done);
    assert_eq!(what(&found), [&Differs::PartsMissing; 10]);
    let judged = shop.judged(&found);
    assert_eq!((judged.outcome, judged.score.right), (Outcome::NotYet(Why::TooFewRight), 0));
    let second: Vec<Entry> = all.iter().filter(|entry| entry.part == 2).cloned().collect();
    assert_eq!(shop.judged(&shop.remarked(second, End::Done)).score.right, 0);
    // The time was up after the first part of the third: nobody has to look at that.
    let broken = shop.remarked(all[..5].to_vec(), End::TimeUp);
    let judged = shop.judged(&broken);
    assert_eq!((broken.differences.len(), judged.score.right, judged.score.answered), (0, 2, 3));
}

/// A check passed with the instruments of last year is not failed by those of this year.
#[test]
fn what_cannot_be_marked_any_more_is_not_failed() {
    let shop =
        Shop::new(&RUNNING.replace("pass = \"sequential\"", "pass = 18").replace("count = 60", "count = 20"));
    let mut entries = shop.entries(20, &[]);
    let honest = shop.remarked(entries.clone(), End::Done);
    assert_eq!(shop.judged(&honest).outcome, Outcome::Passed);
    entries[4].attempt.revision = "0123".to_owned();
    let found = shop.remarked(entries, End::Done);
    assert_eq!(what(&found), [&Differs::OtherInstrument("rule-metric".to_owned())]);
    let judged = shop.judged(&found);
    assert_eq!((judged.outcome, judged.score.answered), (Outcome::CannotBeMarked, 19));
    // The last one of the paper as any other.
    let mut entries = shop.entries(20, &[]);
    entries[19].attempt.revision = "0123".to_owned();
    let found = shop.remarked(entries, End::Done);
    assert_eq!(what(&found), [&Differs::OtherInstrument("rule-metric".to_owned())]);
    assert_eq!(shop.judged(&found).outcome, Outcome::CannotBeMarked);
}

/// Nor is what was answered to its other part taken for an answer after the end.
#[test]
fn half_of_the_last_question_cannot_be_marked() {
    let shop = Shop::new(TWO_PARTS);
    let mut entries = shop.entries(10, &[]);
    entries[19].attempt.revision = "0123".to_owned();
    let found = shop.remarked(entries, End::Done);
    assert_eq!(what(&found), [&Differs::OtherInstrument("caliper-metric-50".to_owned())]);
    assert_eq!(shop.judged(&found).outcome, Outcome::CannotBeMarked);
}

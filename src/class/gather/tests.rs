use super::*;
use crate::class::card::Due;
use crate::class::remark::answered;
use crate::class::returned::Writer;
use crate::class::returned::testing::{attempt, machine};
use crate::class::sitting::End;
use crate::drill::record::Verdict;
use crate::drill::set::deal;

const CARD: &str = "00000000000000aa";

struct Shop {
    catalogue: Catalogue,
    shelf: Shelf,
    cards: BTreeMap<String, Given>,
}

impl Shop {
    fn new() -> Self {
        let catalogue = Catalogue::new(Vec::new());
        let shelf = Shelf::new(Vec::new(), &catalogue);
        let set = shelf.get("first-rule").expect("shipped").clone();
        let card = Card {
            number: CARD.to_owned(),
            set: set.id.clone(),
            title: set.title.clone(),
            revision: set.revision.clone(),
            learners: vec!["k7".to_owned(), "k8".to_owned()],
            due: Some(Due { day: "2026-12-04".to_owned(), until: "2026-12-04T23:00:00Z".to_owned() }),
            purpose: Purpose::Exercise,
            issued: "2026-11-29T08:00:00Z".to_owned(),
            from: machine(9).public(),
            text: set.text.clone(),
        };
        Self { catalogue, shelf, cards: BTreeMap::from([(CARD.to_owned(), Given { card, set })]) }
    }

    fn ground(&self) -> Ground<'_> {
        Ground { catalogue: &self.catalogue, cards: &self.cards, sets: &self.shelf }
    }

    fn gather(&self, files: &[(&str, String)]) -> Gathered {
        let slips: Vec<Slip<'_>> =
            files.iter().map(|(name, text)| Slip { name, bytes: text.as_bytes() }).collect();
        let there = gather(&slips, &self.ground());
        let back: Vec<Slip<'_>> = slips.iter().rev().copied().collect();
        assert_eq!(gather(&back, &self.ground()), there, "whatever the order");
        there
    }

    fn set(&self) -> &DrillSet {
        self.shelf.get("first-rule").expect("shipped")
    }
}

/// A first line for the card.
fn header(shop: &Shop, sitting: u8, nth: u32) -> Header {
    let (set, sitting) = (shop.set(), format!("{sitting:016x}"));
    Header {
        learner: "k7".to_owned(),
        set: set.id.clone(),
        revision: set.revision.clone(),
        purpose: Purpose::Exercise,
        card: Some(CARD.to_owned()),
        nth,
        key: machine(1).public(),
        program: "0.1.0".to_owned(),
        begun: format!("2026-11-30T07:30:{nth:02}Z"),
        sitting,
    }
}

/// A paper gone through: every third answer a millimetre too much, the last one passed over, by so many answers.
fn file(shop: &Shop, header: &Header, answers: usize) -> (Writer, String) {
    let (mut writer, mut text) = Writer::begin(header);
    let paper = deal(shop.set(), &shop.catalogue, header.seed());
    for item in paper.iter().take(answers) {
        let tool = shop.catalogue.get(&item.instrument).expect("shipped");
        let part = &item.task(&shop.catalogue).expect("posed").parts[0];
        let off = i128::from(item.place % 3 == 0);
        let value = part.question.expected(&part.tool) + crate::exact::Exact::whole(off);
        let typed = part.tool.notation.spell(value);
        let answer = if item.place == 12 { String::new() } else { typed };
        let at = format!("2026-11-30T07:31:{:02}Z", item.place);
        let said = answered(item, part, tool, crate::drill::record::Attempt { at, answer, ..attempt("") });
        text += &writer.answer(item.place, 1, &said.expect("an answer"));
    }
    (writer, text)
}

fn whole(shop: &Shop, header: &Header) -> String {
    let (writer, text) = file(shop, header, 12);
    text + &writer.end("2026-11-30T07:43:00Z", End::Done, &machine(1))
}

fn is(gathered: &Gathered) -> Vec<&Standing> {
    gathered.files.iter().map(|file| &file.standing).collect()
}

#[test]
fn a_whole_file_counts_and_is_marked_again() {
    let shop = Shop::new();
    let text = whole(&shop, &header(&shop, 1, 1));
    let found = shop.gather(&[("returned/k7/a.work", text)]);
    assert_eq!(
        found.files,
        [Filed { name: "returned/k7/a.work".to_owned(), standing: Standing::Counted, notes: vec![] }]
    );
    let sitting = &found.sittings[0];
    let verdicts: Vec<bool> = sitting.entries.iter().map(|entry| entry.attempt.verdict.is_right()).collect();
    let right = |place: usize| !place.is_multiple_of(3);
    assert_eq!(verdicts, (1..=12).map(right).collect::<Vec<_>>());
    assert_eq!(sitting.entries[11].attempt.verdict, Verdict::Skipped);
    assert_eq!(found.machines, BTreeMap::from([(machine(1).public(), "returned/k7/a.work".to_owned())]));
}

#[test]
fn copies_count_once_and_broken_off_ones_not_at_all() {
    let shop = Shop::new();
    let head = header(&shop, 1, 1);
    let (_, early) = file(&shop, &head, 5);
    let text = whole(&shop, &head);
    let (name, half) = ("b-half.work", text[..text.len() - 3].to_owned());
    let found = shop.gather(&[
        ("a.work", text.clone()),
        ("copy of a.work", text.clone()),
        ("e.work", early.clone()),
        (name, half.clone()),
    ]);
    let of = |name: &str| name.to_owned();
    assert_eq!(
        is(&found),
        [
            &Standing::Counted,
            &Standing::EarlierCopy(of("a.work")),
            &Standing::Duplicate(of("a.work")),
            &Standing::EarlierCopy(of("a.work")),
        ]
    );
    assert_eq!(found.sittings.len(), 1);
    let alone = shop.gather(&[("e.work", early), (name, half)]);
    // Of two pieces the longer one is the later.
    assert_eq!(is(&alone), [&Standing::CutShort, &Standing::EarlierCopy(of(name))]);
    assert!(alone.sittings.is_empty() && alone.files[0].is_finding() && !alone.files[1].is_finding());
    let (_, open) = file(&shop, &head, 7);
    assert_eq!(is(&shop.gather(&[("open.work", open)])), [&Standing::Open]);
}

#[test]
fn two_whole_files_of_one_sitting_count_neither() {
    let shop = Shop::new();
    let head = header(&shop, 1, 1);
    let (writer, text) = file(&shop, &head, 11);
    let other = text + &writer.end("2026-11-30T07:44:00Z", End::Left, &machine(1));
    let found = shop.gather(&[("a.work", whole(&shop, &head)), ("b.work", other)]);
    assert_eq!(is(&found), [&Standing::Clash("b.work".to_owned()), &Standing::Clash("a.work".to_owned())]);
    assert!(found.sittings.is_empty());
}

#[test]
fn what_is_not_ours_is_named() {
    let shop = Shop::new();
    let good = header(&shop, 1, 1);
    let text = |change: &dyn Fn(&mut Header)| {
        let mut head = good.clone();
        change(&mut head);
        let (writer, text) = Writer::begin(&head);
        text + &writer.end("2026-11-30T07:43:00Z", End::Left, &machine(1))
    };
    let standing = |change: &dyn Fn(&mut Header)| {
        let found = shop.gather(&[("a.work", text(change))]);
        assert!(found.files[0].is_finding() && found.sittings.is_empty());
        found.files[0].standing.clone()
    };
    let foreign = "00000000000000ff".to_owned();
    assert_eq!(standing(&|head| head.card = Some(foreign.clone())), Standing::Foreign(foreign.clone()));
    let faulty = |change: &dyn Fn(&mut Header), says: &str| match standing(change) {
        Standing::Faulty(why) => assert!(why[0].contains(says), "{why:?}"),
        other => panic!("{says}: {other:?}"),
    };
    faulty(&|head| head.set = "dials".to_owned(), "another exercise");
    faulty(&|head| head.revision = "00".to_owned(), "another exercise");
    faulty(&|head| head.purpose = Purpose::Check, "not what its card is for");
    faulty(&|head| (head.card, head.purpose) = (None, Purpose::Check), "answers no card");
    let own = |head: &mut Header| {
        head.card = None;
    };
    assert_eq!(is(&shop.gather(&[("a.work", text(&own))])), [&Standing::Counted]);
    assert_eq!(
        standing(&|head| {
            own(head);
            head.revision = "00".to_owned();
        }),
        Standing::UnknownSet("first-rule".to_owned())
    );
    assert_eq!(
        is(&shop.gather(&[("x.txt", "hello\n".to_owned())])),
        [&Standing::Faulty(vec!["it is no returned work of Linefall".to_owned()])]
    );
}

#[test]
fn late_second_tries_and_those_that_did_not_come_back_are_told() {
    let shop = Shop::new();
    let late = {
        let (writer, text) = file(&shop, &header(&shop, 3, 3), 12);
        text + &writer.end("2026-12-05T07:43:00Z", End::Done, &machine(1))
    };
    let found = shop.gather(&[("a.work", whole(&shop, &header(&shop, 1, 1))), ("c.work", late)]);
    assert_eq!(
        found.files[1].notes,
        [Note::Late("2026-12-04".to_owned()), Note::Try(3), Note::TriesMissing(vec![2])]
    );
    assert!(!found.files[1].is_finding());
    let twice = shop.gather(&[
        ("a.work", whole(&shop, &header(&shop, 1, 1))),
        ("b.work", whole(&shop, &header(&shop, 2, 1))),
    ]);
    assert_eq!((twice.files[0].notes.len(), twice.sittings.len()), (1, 2));
    assert_eq!(twice.files[1].notes, [Note::SameTry("a.work".to_owned())]);
    let elsewhere = shop.gather(&[("returned/k8/a.work", whole(&shop, &header(&shop, 1, 1)))]);
    assert_eq!(elsewhere.files[0].notes, [Note::InFolderOf("k8".to_owned())]);
    let mut stranger = header(&shop, 1, 1);
    stranger.learner = "k9".to_owned();
    stranger.begun = "2026-11-28T07:30:00Z".to_owned();
    let (writer, text) = Writer::begin(&stranger);
    let text = text + &writer.end("2026-11-30T07:43:00Z", End::Left, &machine(1));
    assert_eq!(shop.gather(&[("a.work", text)]).files[0].notes, [Note::NotForThem, Note::Clock]);
}

type Change = dyn Fn(&mut crate::drill::record::Attempt);

/// Somebody has the machine's key and a program of their own: the chain and the signature are right, what is claimed is not.
#[test]
fn no_mark_is_taken_on_trust() {
    let shop = Shop::new();
    let head = header(&shop, 1, 1);
    let honest = read(&shop, &head);
    let forged = |change: &dyn Fn(usize, &mut crate::class::sitting::Entry)| {
        let (mut writer, mut text) = Writer::begin(&head);
        for (n, entry) in honest.iter().enumerate() {
            let mut entry = entry.clone();
            change(n, &mut entry);
            text += &writer.answer(entry.place, entry.part, &entry.attempt);
        }
        let text = text + &writer.end("2026-11-30T07:43:00Z", End::Done, &machine(1));
        shop.gather(&[("a.work", text)])
    };
    let same = forged(&|_, _| {});
    let all_right = forged(&|_, entry| {
        entry.attempt.verdict = Verdict::Right;
        entry.attempt.misreads.clear();
    });
    assert_eq!(all_right.sittings, same.sittings, "our own marks");
    assert_eq!(all_right.files[0].notes, [3, 6, 9, 12].map(|place| Note::OtherMark(place, 1)));
    let noted = |change: &dyn Fn(usize, &mut crate::class::sitting::Entry), says: &str| {
        let found = forged(change);
        let note = found.files[0].notes.iter().find_map(|note| match note {
            Note::NotMarked(_, _, why) => Some(why.clone()),
            _ => None,
        });
        assert!(note.as_ref().is_some_and(|why| why.contains(says)), "{says}: {note:?}");
        assert!(found.files[0].is_finding());
        found.sittings[0].entries.len()
    };
    let first = |n: usize| n == 0;
    let cases: [(&Change, &str); 10] = [
        (&|of| of.setting = "3 mm".to_owned(), "(setting)"),
        (&|of| of.number += 1, "(number)"),
        (&|of| of.seed += 1, "(seed)"),
        (&|of| of.generator = 1, "(generator)"),
        (&|of| of.kind = crate::drill::Kind::OneStep, "(kind)"),
        (&|of| of.variant = "figures=cm".to_owned(), "(variant)"),
        (&|of| of.conditions = "worn=3".to_owned(), "(conditions)"),
        (&|of| of.given = "stage 1".to_owned(), "(what is given)"),
        (&|of| of.revision = "00".to_owned(), "another version here"),
        (&|of| of.answer = "\u{1b}[2J".to_owned(), "no answer to it"),
    ];
    for (change, says) in cases {
        let left = noted(
            &|n, entry| {
                if first(n) {
                    change(&mut entry.attempt);
                }
            },
            says,
        );
        assert_eq!(left, 11, "{says}: the others count");
    }
    assert_eq!(
        noted(&|n, entry| entry.place = if first(n) { 13 } else { entry.place }, "no such question"),
        11
    );
    assert_eq!(noted(&|n, entry| entry.part = if first(n) { 2 } else { entry.part }, "no such question"), 11);
    assert_eq!(
        noted(&|n, entry| entry.place = if first(n) { 0 } else { entry.place }, "no such question"),
        11
    );
    // The second answer once more, in place of the first: it is the first one to be looked at.
    let again = honest[1].clone();
    assert_eq!(
        noted(
            &|n, entry| if first(n) {
                *entry = again.clone();
            },
            "answered before"
        ),
        11
    );
}

fn read(shop: &Shop, head: &Header) -> Vec<crate::class::sitting::Entry> {
    crate::class::returned::read(whole(shop, head).as_bytes()).expect("whole").entries
}

/// Every byte of a small file changed, with the original beside it and without: it counts once, or not at all.
#[test]
fn every_byte_changed_is_named_and_counts_nothing_twice() {
    let shop = Shop::new();
    let (writer, text) = file(&shop, &header(&shop, 1, 1), 1);
    let text = text + &writer.end("2026-11-30T07:43:00Z", End::Left, &machine(1));
    for at in 0..text.len() {
        let mut bytes = text.as_bytes().to_vec();
        bytes[at] ^= 1;
        let changed = Slip { name: "changed.work", bytes: &bytes };
        let alone = gather(&[changed], &shop.ground());
        assert!(alone.sittings.is_empty() && alone.files[0].is_finding(), "byte {at}: {:?}", alone.files);
        let original = Slip { name: "original.work", bytes: text.as_bytes() };
        let both = gather(&[changed, original], &shop.ground());
        assert_eq!((both.sittings.len(), &both.files[1].standing), (1, &Standing::Counted), "byte {at}");
    }
}

/// A space more at any place, or a byte less: an original beside it counts as ever, alone it is named.
#[test]
fn every_byte_more_or_less_is_named_and_voids_nothing() {
    let shop = Shop::new();
    let (writer, text) = file(&shop, &header(&shop, 1, 1), 1);
    let text = text + &writer.end("2026-11-30T07:43:00Z", End::Left, &machine(1));
    let changed = (0..=text.len()).map(|at| format!("{} {}", &text[..at], &text[at..]));
    let less = (0..text.len()).map(|at| format!("{}{}", &text[..at], &text[at + 1..]));
    for other in changed.chain(less) {
        let changed = Slip { name: "changed.work", bytes: other.as_bytes() };
        let alone = gather(&[changed], &shop.ground());
        let named = alone.files[0].is_finding();
        assert!(alone.sittings.is_empty() && named, "{other:?}: {:?}", alone.files);
        let original = Slip { name: "original.work", bytes: text.as_bytes() };
        let both = gather(&[changed, original], &shop.ground());
        assert_eq!((both.sittings.len(), &both.files[1].standing), (1, &Standing::Counted), "{other:?}");
    }
}

/// By hand: from 07:30:01 to 07:43:00 are 779 seconds; eight minutes of them away, where that was said.
#[test]
fn time_runs_on_in_a_break_that_nobody_announced() {
    let shop = Shop::new();
    let over = |breaks: &[(&str, bool)], limit: u32| {
        let (mut writer, mut text) = file(&shop, &header(&shop, 1, 1), 1);
        for (at, back) in breaks {
            text += &if *back { writer.back(at) } else { writer.left(at) };
        }
        text += &writer.end("2026-11-30T07:43:00Z", End::Done, &machine(1));
        over_time(&crate::class::returned::read(text.as_bytes()).expect("whole"), limit)
    };
    assert_eq!((over(&[], 600), over(&[], 720)), (Some(179), None));
    let (left, back) = (("2026-11-30T07:32:00Z", false), ("2026-11-30T07:40:00Z", true));
    assert_eq!((over(&[left, back], 100), over(&[left, back], 240)), (Some(199), None));
    assert_eq!(over(&[back], 240), Some(539));
}

/// By hand: 13 minutes less a second are 779 seconds; an hour is 2,821 more than that.
#[test]
fn answers_cannot_take_longer_than_the_sitting() {
    let shop = Shop::new();
    let head = header(&shop, 1, 1);
    let honest = read(&shop, &head);
    let (mut writer, mut text) = Writer::begin(&head);
    for (n, entry) in honest.iter().enumerate() {
        let took_ms = if n == 0 { 3_600_000 } else { 0 };
        let attempt = crate::drill::record::Attempt { took_ms, ..entry.attempt.clone() };
        text += &writer.answer(entry.place, entry.part, &attempt);
    }
    text += &writer.end("2026-11-30T07:43:00Z", End::Done, &machine(1));
    let found = shop.gather(&[("a.work", text)]);
    assert!(found.files[0].notes.contains(&Note::MoreThanItsTime(2_821)), "{:?}", found.files);
    assert!(found.files[0].is_finding());
    assert_eq!(found.sittings[0].entries[0].attempt.took_ms, 780_000);
}

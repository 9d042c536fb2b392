//! The instructor's round: issue, return, collect, with the real program in folders of its own. What learners do in between is
//! written by the library, as the full screen writes it.

use super::{Ran, Tested, command, run, text, well};
use linefall::class::card::Card;
use linefall::class::remark::answered;
use linefall::class::returned::Header;
use linefall::class::sitting::End;
use linefall::diag::SourceText;
use linefall::drill::Kind;
use linefall::drill::record::{Asks, Attempt, Verdict, View};
use linefall::drill::set::{self, deal};
use linefall::instrument::Catalogue;
use linefall::store::round::{Holder, WorkFile, key, take_card};
use serde_json::Value;
use std::collections::BTreeMap;
use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

/// Folders of an instructor, a share, and learners.
struct Shop {
    all: tempfile::TempDir,
    catalogue: Catalogue,
    cards: BTreeMap<PathBuf, (Card, set::DrillSet, Vec<u8>)>,
}

impl Shop {
    fn new() -> Result<Self, Box<dyn Error>> {
        let all = tempfile::tempdir()?;
        fs::create_dir(all.path().join("share"))?;
        fs::create_dir(all.path().join("shop"))?;
        Ok(Self { all, catalogue: Catalogue::new(Vec::new()), cards: BTreeMap::new() })
    }

    fn path(&self, name: &str) -> PathBuf {
        self.all.path().join(name)
    }

    fn roster(&self, people: usize) -> Tested {
        let line = |n: usize| format!("k{n} = {{ name = \"Learner {n}\", group = \"days\" }}\n");
        fs::write(self.path("shop/roster.toml"), (1..=people).map(line).collect::<String>())?;
        Ok(())
    }

    /// Runs the program as the instructor.
    fn shop(&self, args: &[&str]) -> Result<Ran, Box<dyn Error>> {
        run(&[args, &["--data-dir", text(&self.path("shop"))?]].concat())
    }

    fn issue(&mut self, args: &[&str]) -> Result<PathBuf, Box<dyn Error>> {
        let ran = self.shop(&[&["issue"], args, &["--folder", text(&self.path("share"))?]].concat())?;
        assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{args:?}");
        let path = PathBuf::from(ran.out.lines().nth(1).ok_or("no path")?.trim());
        let bytes = fs::read(&path)?;
        let card = Card::read(&bytes).map_err(|faults| format!("{faults:?}"))?;
        let source = SourceText::new("card.toml", card.text.clone());
        let set = set::read(&source, &self.catalogue).map_err(|faults| format!("{faults:?}"))?;
        assert!(card.gives(&set));
        self.cards.insert(path.clone(), (card, set, bytes));
        Ok(path)
    }

    fn collect(&self) -> Result<(Ran, Value), Box<dyn Error>> {
        let ran = self.shop(&["collect", "--json"])?;
        let document = serde_json::from_str(&ran.out)?;
        Ok((ran, document))
    }

    /// A learner goes through a card, every so many answers wrong; the file is left in the outbox.
    fn sit(
        &self,
        learner: &str,
        card: &Path,
        wrong: u32,
        answers: usize,
        drawn: u8,
    ) -> Result<PathBuf, Box<dyn Error>> {
        let (card_file, (card, set, bytes)) = self.cards.get_key_value(card).ok_or("no such card")?;
        let data = self.path(learner);
        take_card(&data, card_file, card, bytes)?;
        let machine = key(&data, Holder::Machine, [drawn; 32])?;
        let nth = linefall::store::round::tries(&data, &card.number, learner)? + 1;
        let sitting = format!("{:08x}{}", u32::from(drawn) << 8 | nth, &card.number[..8]);
        let header = Header {
            sitting,
            learner: learner.to_owned(),
            set: card.set.clone(),
            revision: card.revision.clone(),
            purpose: card.purpose,
            card: Some(card.number.clone()),
            nth,
            key: machine.public(),
            program: "0.1.0".to_owned(),
            begun: card.issued.clone(),
        };
        let (mut file, mut writer) = WorkFile::begin(&data, &header)?;
        let mut lines = String::new();
        for item in deal(set, &self.catalogue, header.seed()).iter().take(answers) {
            let tool = self.catalogue.get(&item.instrument).ok_or("no instrument")?;
            let task = item.task(&self.catalogue).ok_or("no question")?;
            for (part, number) in task.parts.iter().zip(1..) {
                let right = part.expected_word();
                let figure = right.strip_suffix(" mm").or(right.strip_suffix(" in")).unwrap_or(&right);
                let answer = if item.place % wrong == 0 { "0.25" } else { figure };
                let said = said(learner, &card.issued, answer);
                let Some(attempt) = answered(item, part, tool, said) else { continue };
                lines += &writer.answer(item.place, number, &attempt);
            }
        }
        file.append(&lines)?;
        if answers < usize::try_from(set.count)? {
            return Ok(file.path().to_owned());
        }
        Ok(file.finish(&writer.end(&card.issued, End::Done, &machine))?)
    }
}

fn said(learner: &str, at: &str, answer: &str) -> Attempt {
    Attempt {
        learner: learner.to_owned(),
        at: at.to_owned(),
        instrument: String::new(),
        revision: String::new(),
        generator: 0,
        seed: 0,
        number: 0,
        variant: String::new(),
        conditions: String::new(),
        kind: Kind::Read,
        given: String::new(),
        asks: Asks::Reading,
        setting: String::new(),
        zero_error: String::new(),
        view: View::Held,
        glass: false,
        lines: "thin".to_owned(),
        cols: 80,
        rows: 24,
        answer: answer.to_owned(),
        expected: String::new(),
        verdict: Verdict::Other,
        misreads: Vec::new(),
        took_ms: 500,
    }
}

/// Hands in as the learner, with the program.
fn hand_in(shop: &Shop, learner: &str) -> Result<Ran, Box<dyn Error>> {
    run(&["return", "--data-dir", text(&shop.path(learner))?])
}

#[test]
fn a_class_of_thirty_from_issue_to_class_record() -> Tested {
    let mut shop = Shop::new()?;
    shop.roster(30)?;
    let mut cards = Vec::new();
    for set in
        ["first-rule", "rule-fractions", "metric-verniers", "metric-micrometer", "inch-micrometer", "dials"]
    {
        cards.push(shop.issue(&[set])?);
    }
    cards.push(shop.issue(&["half-way-check", "--due", "2999-12-04"])?);
    let drawn = |n: u32| u8::try_from(n).unwrap_or(0);
    for n in 1..=30 {
        let learner = format!("k{n}");
        for card in &cards {
            // k30 is ill; k29 breaks off at the check.
            match (n, card == &cards[6]) {
                (30, _) => {}
                (29, true) => drop(shop.sit(&learner, card, 99, 5, drawn(n))?),
                (_, true) => drop(shop.sit(&learner, card, if n % 3 == 0 { 4 } else { 99 }, 20, drawn(n))?),
                (_, false) => drop(shop.sit(&learner, card, 3 + n % 5, 100, drawn(n))?),
            }
        }
        if n == 29 {
            // An older copy was carried over by hand.
            let open = shop.path("k29/sittings");
            let file = fs::read_dir(open)?.next().ok_or("no open sitting")??;
            fs::create_dir_all(shop.path("share/returned/k29"))?;
            fs::copy(file.path(), shop.path("share/returned/k29/from the stick.work"))?;
        }
        if n <= 3 {
            let ran = hand_in(&shop, &learner)?;
            assert_eq!((ran.code, ran.out.lines().count()), (Some(0), 7), "{}{}", ran.out, ran.err);
        } else if n < 30 {
            let handed = linefall::store::round::hand_in(&shop.path(&learner), &shop.path("share"))?;
            assert_eq!(handed.waiting, 0);
        }
    }
    let (ran, found) = shop.collect()?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{}", ran.out);
    assert_eq!((found["files"].as_u64(), found["counted"].as_u64()), (Some(29 * 7), Some(29 * 7 - 1)));
    assert_eq!(found["machines"].as_array().map(Vec::len), Some(29));
    let check = found["cards"].as_array().and_then(|all| all.iter().find(|of| of["set"] == "half-way-check"));
    let check = check.ok_or("no check")?;
    assert_eq!(
        (check["due"].as_str(), check["returned"].as_array().map(Vec::len)),
        (Some("2999-12-04"), Some(28))
    );
    assert_eq!(check["not_back"], serde_json::json!(["k29", "k30"]));
    let open = &found["learners"]
        .as_array()
        .and_then(|all| all.iter().find(|of| of["learner"] == "k29"))
        .ok_or("k29")?["files"];
    let is =
        |file: &Value| (file["is"].as_str().map(str::to_owned), file["name"].as_str().map(str::to_owned));
    let open =
        open.as_array().and_then(|all| all.iter().map(is).find(|(is, _)| is.as_deref() == Some("open")));
    assert_eq!(open.and_then(|(_, name)| name).as_deref(), Some("returned/k29/from the stick.work"));
    // A second time: the same, and no machine is new. Thrown away, it is made again.
    let (_, again) = shop.collect()?;
    assert_eq!((again["changed"].as_u64(), again["machines"].as_array().map(Vec::len)), (Some(0), Some(0)));
    assert_eq!(again["learners"], found["learners"]);
    for name in ["class.sqlite", "class.sqlite-wal", "class.sqlite-shm"] {
        let _ = fs::remove_file(shop.path("shop").join(name));
    }
    let (_, anew) = shop.collect()?;
    assert_eq!((&anew["learners"], &anew["cards"]), (&found["learners"], &found["cards"]));
    assert_eq!(anew["changed"].as_u64(), Some(29));
    let plain = shop.shop(&["collect"])?.out;
    for wanted in [
        "203 files: 202 count, 1 is not done yet",
        "28 of 30 back",
        "not back yet: k29, k30",
        "who sat at the keyboard",
    ] {
        assert!(plain.contains(wanted), "{wanted}: {plain}");
    }
    assert!(!plain.contains("Learner"), "names stay in the roster");
    // The class record knows the names, what came back of the check, and the questions of a set.
    let class: Value = serde_json::from_str(&shop.shop(&["class", "--json"])?.out)?;
    let learners = class["learners"].as_array().ok_or("no learners")?;
    assert_eq!((learners.len(), learners[6]["name"].as_str()), (30, Some("Learner 7")), "{class}");
    let given = class["given"].as_array().and_then(|all| all.iter().find(|of| of["set"] == "half-way-check"));
    let stands = given.and_then(|given| given["stands"].as_array()).ok_or("no check")?;
    let outcome = |n: usize| stands[n]["tries"][0]["outcome"].to_string();
    assert_eq!(outcome(0), "\"passed\"", "{}", stands[0]);
    assert!(outcome(2).contains("not-yet"), "{}", stands[2]);
    assert_eq!(
        (stands[28]["back"].as_str(), stands[29]["back"].as_str()),
        (Some("not-back"), Some("not-back"))
    );
    let questions: Value =
        serde_json::from_str(&shop.shop(&["class", "--questions", "first-rule", "--json"])?.out)?;
    assert_eq!(questions["people"].as_u64(), Some(29), "{questions}");
    Ok(())
}

#[test]
fn what_was_tampered_with_is_named_and_nothing_is_moved() -> Tested {
    let mut shop = Shop::new()?;
    let card = shop.issue(&["first-rule", "--to", "k7,k8"])?;
    let outbox = shop.sit("k7", &card, 4, 12, 1)?;
    let name = outbox.file_name().and_then(|name| name.to_str()).ok_or("a name")?.to_owned();
    assert_eq!(hand_in(&shop, "k7")?.code, Some(0));
    let folder = shop.path("share/returned/k7");
    let whole = fs::read_to_string(folder.join(&name))?;
    fs::write(folder.join("edited.work"), whole.replacen("\"answer\":\"0.25\"", "\"answer\":\"0.52\"", 1))?;
    fs::write(folder.join("cut.work"), &whole[..whole.len() - 40])?;
    fs::write(folder.join("copy of it.work"), &whole)?;
    fs::write(folder.join("\u{1b}[31mred\u{202e}.work"), "\u{1b}]52;c;eA==\u{7}")?;
    let marked_up = whole.replace("\"verdict\":\"other\"", "\"verdict\":\"right\"");
    fs::write(shop.path("share/returned/loose.work"), marked_up)?;
    let before = names(&shop.path("share"))?;
    let (ran, found) = shop.collect()?;
    assert_eq!(ran.code, Some(1), "{}", ran.err);
    assert_eq!((found["files"].as_u64(), found["counted"].as_u64()), (Some(6), Some(1)));
    let all: Vec<(String, String)> = found["learners"]
        .as_array()
        .into_iter()
        .flatten()
        .flat_map(|of| of["files"].as_array().cloned().unwrap_or_default())
        .map(|file| {
            (file["name"].as_str().unwrap_or("").to_owned(), file["is"].as_str().unwrap_or("").to_owned())
        })
        .collect();
    let is = |end: &str| all.iter().find(|(name, _)| name.ends_with(end)).map(|(_, is)| is.as_str());
    assert_eq!(
        [is("edited.work"), is("/cut.work"), is("copy of it.work"), is("red\u{202e}.work"), is("loose.work")],
        [Some("faulty"), Some("earlier-copy"), Some("duplicate"), Some("faulty"), Some("faulty")],
        "{all:?}"
    );
    assert_eq!(is(&name), Some("counted"));
    assert_eq!(names(&shop.path("share"))?, before, "nothing is moved or deleted");
    let plain = shop.shop(&["collect"])?;
    assert_eq!(plain.code, Some(1));
    assert!(plain.out.contains("was changed, or lines after it were taken out or put in"), "{}", plain.out);
    let obeyed = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
    assert!(!plain.out.contains(obeyed) && !plain.err.contains(obeyed));
    Ok(())
}

#[test]
fn what_waits_goes_when_the_share_is_there() -> Tested {
    let mut shop = Shop::new()?;
    let card = shop.issue(&["first-rule"])?;
    shop.sit("k7", &card, 4, 12, 1)?;
    fs::rename(shop.path("share"), shop.path("away"))?;
    let away = hand_in(&shop, "k7")?;
    assert_eq!((away.code, away.out.as_str()), (Some(3), ""));
    assert!(
        away.err.contains("1 waiting: cannot reach ") && away.err.contains("nothing is lost"),
        "{}",
        away.err
    );
    fs::rename(shop.path("away"), shop.path("share"))?;
    assert!(hand_in(&shop, "k7")?.out.starts_with("handed in: "));
    assert_eq!(hand_in(&shop, "k7")?.out, "nothing waits to be handed in\n");
    // A stick in place of the share.
    shop.sit("k7", &card, 4, 12, 1)?;
    let stick = shop.path("stick");
    fs::create_dir(&stick)?;
    let ran = run(&["return", "--json", "--data-dir", text(&shop.path("k7"))?, "--folder", text(&stick)?])?;
    let said: Value = serde_json::from_str(&ran.out)?;
    assert_eq!((ran.code, said["copied"].as_array().map(Vec::len)), (Some(0), Some(1)), "{}", ran.err);
    let collected = shop.shop(&["collect", "--json", "--folder", text(&stick)?])?;
    let found: Value = serde_json::from_str(&collected.out)?;
    let notes = &found["learners"][0]["files"][0]["notes"];
    assert_eq!(notes, &serde_json::json!([{"try": 2}, {"tries-missing": [1]}]), "{}", collected.out);
    Ok(())
}

#[test]
fn what_cannot_be_issued_is_said() -> Tested {
    let mut shop = Shop::new()?;
    let share = shop.path("share");
    let share = text(&share)?;
    for (args, code, says) in [
        (&["issue", "first-rul", "--folder", share][..], 2, "did you mean first-rule?"),
        (&["issue", "first-rule"][..], 2, "which shared folder?"),
        (&["issue", "first-rule", "--folder", share, "--to", "Ada Smith"][..], 2, "a code has up to 16"),
        (&["issue", "first-rule", "--folder", share, "--due", "Friday"][..], 2, "write a day like"),
        (&["issue", "first-rule", "--folder", share, "--due", "2020-02-02"][..], 2, "has gone by"),
        (&["issue", "first-rule", "--folder", "/nonexistent/share"][..], 3, "is the share connected"),
        (&["collect"][..], 2, "which shared folder?"),
    ] {
        let ran = shop.shop(args)?;
        assert_eq!((ran.code, ran.out.as_str()), (Some(code), ""), "{args:?}: {}", ran.err);
        assert!(ran.err.contains(says), "{args:?}: {}", ran.err);
    }
    assert!(names(&shop.path("share"))?.is_empty());
    shop.roster(8)?;
    let odd = shop.shop(&["issue", "first-rule", "--folder", share, "--to", "k7,k99"])?;
    assert_eq!(odd.code, Some(0));
    assert!(odd.err.contains("k99 is not on your roster"), "{}", odd.err);
    // The folder is remembered.
    shop.issue(&["first-rule"])?;
    assert!(well(&["issue", "dials", "--data-dir", text(&shop.path("shop"))?])?.contains("to everyone"));
    let roster = shop.path("shop/roster.toml");
    assert!(well(&["check", text(&roster)?])?.ends_with("no faults (8 learners)\n"));
    fs::write(&roster, "K7 = \"Ada\"\n")?;
    assert!(run(&["check", text(&roster)?])?.out.contains("error[code]"));
    Ok(())
}

/// A share that is away, an empty folder, one learner's folder that is gone: what was collected stays.
#[test]
fn collecting_from_the_wrong_folder_takes_nothing_away() -> Tested {
    let mut shop = Shop::new()?;
    let card = shop.issue(&["first-rule"])?;
    for (learner, drawn) in [("k7", 1), ("k8", 2)] {
        shop.sit(learner, &card, 4, 12, drawn)?;
        assert_eq!(hand_in(&shop, learner)?.code, Some(0));
    }
    let record = || linefall::store::ClassStore::open(&shop.path("shop")).and_then(|kept| kept.rows());
    shop.collect()?;
    let before = record()?;
    assert_eq!(before.len(), 2, "{before:?}");
    fs::create_dir(shop.path("empty"))?;
    let empty = shop.path("empty");
    let wrong = shop.shop(&["collect", "--folder", text(&empty)?])?;
    assert_eq!((wrong.code, wrong.out.as_str()), (Some(3), ""));
    assert!(wrong.err.contains("holds neither \"issued\" nor \"returned\""), "{}", wrong.err);
    assert_eq!(record()?, before);
    // The share is away and its empty folder is there, as where it would be mounted.
    fs::rename(shop.path("share"), shop.path("away"))?;
    fs::create_dir(shop.path("share"))?;
    assert_eq!(shop.shop(&["collect"])?.code, Some(3));
    fs::remove_dir(shop.path("share"))?;
    fs::rename(shop.path("away"), shop.path("share"))?;
    assert_eq!(record()?, before);
    fs::rename(shop.path("share/returned/k8"), shop.path("k8 taken out"))?;
    let (ran, found) = shop.collect()?;
    assert_eq!((ran.code, &found["not_there"]), (Some(0), &serde_json::json!(["k8"])), "{}", ran.out);
    assert_eq!(found["files"].as_u64(), Some(1));
    assert!(shop.shop(&["collect"])?.out.contains("nothing there this time of k8"));
    assert_eq!(record()?, before);
    Ok(())
}

/// A card that somebody changed, and one of another instructor, are left out and named.
#[test]
fn strange_cards_are_left_out() -> Tested {
    let mut shop = Shop::new()?;
    let card = shop.issue(&["first-rule"])?;
    let own = fs::read_to_string(&card)?;
    fs::write(shop.path("share/issued/changed.card"), own.replace("count = 12", "count = 10"))?;
    let folder = shop.path("share");
    let other = command(&[
        "issue",
        "first-rule",
        "--data-dir",
        text(&shop.path("other"))?,
        "--folder",
        text(&folder)?,
    ])
    .output()?;
    assert!(other.status.success());
    let (ran, found) = shop.collect()?;
    assert_eq!((ran.code, found["cards"].as_array().map(Vec::len)), (Some(0), Some(1)));
    assert!(ran.err.contains("changed.card is left out: it was changed after it was signed"), "{}", ran.err);
    assert!(ran.err.contains("was not signed with your key but with "), "{}", ran.err);
    Ok(())
}

/// Every file below a folder.
fn names(folder: &Path) -> Result<Vec<PathBuf>, Box<dyn Error>> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            all.extend(names(&path)?);
        } else {
            all.push(path);
        }
    }
    all.sort();
    Ok(all)
}

/// Every command of the two pages, FOLDER and CARD filled in: those of learners with data of their own.
#[test]
fn every_command_of_the_pages_runs() -> Tested {
    let shop = Shop::new()?;
    let (folder, mut ran) = (shop.path("share"), 0);
    for page in ["folder", "round"] {
        let page = well(&["list", page])?;
        assert!(page.lines().all(|line| line.chars().count() <= 80), "a page fits a terminal");
        for line in page.lines().filter_map(|line| line.strip_prefix("    ")) {
            let issued = fs::read_dir(folder.join("issued")).ok().and_then(|mut all| {
                all.find_map(|of| {
                    of.ok()?.file_name().into_string().ok().filter(|name| name.starts_with("first-rule"))
                })
            });
            let line = line.replace("FOLDER", text(&folder)?).replace("CARD", &issued.unwrap_or_default());
            let words: Vec<&str> = line.split_whitespace().collect();
            ran += 1;
            let ["linefall", args @ ..] = &words[..] else {
                assert!(std::process::Command::new(words[0]).args(&words[1..]).status()?.success(), "{line}");
                continue;
            };
            let theirs = ["practice", "skills-check", "return"].contains(&args[0]);
            let data = shop.path(if !theirs {
                "shop"
            } else if line.ends_with("k8") {
                "k8"
            } else {
                "k7"
            });
            // The full screen is gone through in tests/pty; here the same card is worked on line by line.
            let first = if args[0] == "practice" { "skills-check" } else { args[0] };
            let args = [&[first][..], &args[1..], &["--data-dir", text(&data)?]].concat();
            let done = super::feed(&args, &b"skip\n".repeat(80))?;
            assert_eq!(done.code, Some(0), "{line}: {}{}", done.out, done.err);
        }
    }
    assert!(ran >= 13, "only {ran} commands");
    let (_, found) = shop.collect()?;
    assert_eq!(found["counted"].as_u64(), Some(2), "what the learners of the page did: {found}");
    Ok(())
}

/// Two learners at one machine, and one of them hands in the other's sitting under his own code, signed anew.
#[test]
fn one_sitting_under_two_codes_is_named() -> Tested {
    let mut shop = Shop::new()?;
    shop.roster(2)?;
    let card = shop.issue(&["first-rule", "--to", "k1,k2"])?;
    for learner in ["k1", "k2"] {
        shop.sit(learner, &card, 5, 99, 9)?;
        assert_eq!(hand_in(&shop, learner)?.code, Some(0));
    }
    let (ran, found) = shop.collect()?;
    assert_eq!((ran.code, &found["under_two_codes"]), (Some(1), &serde_json::json!([["k1", "k2"]])));
    assert_eq!(found["machines"][1]["also_of"], serde_json::json!(["k1"]));
    let told = shop.shop(&["collect"])?;
    assert!(told.out.contains("the same sitting came back as that of k1 and of k2"), "{}", told.out);
    Ok(())
}

/// Who throws a sitting away after a look at its paper has begun twice all the same, and on another paper.
#[test]
fn what_was_begun_is_known_in_the_shared_folder() -> Tested {
    let mut shop = Shop::new()?;
    let card = shop.issue(&["half-way-check", "--to", "k1"])?;
    let data = shop.path("k1");
    let mut firsts = Vec::new();
    for _ in 0..2 {
        let ran =
            run(&["skills-check", text(&card)?, "--plain", "--learner", "k1", "--data-dir", text(&data)?])?;
        assert_eq!(ran.code, Some(0), "{}", ran.err);
        let begun = names(&data.join("sittings"))?;
        assert_eq!(begun.len(), 1);
        firsts.push(fs::read_to_string(&begun[0])?.lines().next().ok_or("no first line")?.to_owned());
        fs::remove_file(&begun[0])?;
    }
    let found = names(&shop.path("share/returned/k1"))?;
    let mut known = found.iter().map(fs::read_to_string).collect::<Result<Vec<_>, _>>()?;
    known.sort_by_key(|text| text.contains("\"try\":2"));
    assert_eq!(known, firsts.iter().map(|line| format!("{line}\n")).collect::<Vec<_>>());
    assert!(firsts[0].contains("\"try\":1") && firsts[1].contains("\"try\":2"), "{firsts:?}");
    let (ran, back) = shop.collect()?;
    let standings: Vec<_> =
        back["learners"][0]["files"].as_array().ok_or("files")?.iter().map(|of| of["is"].as_str()).collect();
    assert_eq!((ran.code, standings), (Some(0), vec![Some("open"), Some("open")]));
    Ok(())
}

//! `linefall skills-check`: line by line, its rules, and job cards.

use super::{Ran, Tested, feed, run};
use linefall::class::card::Card;
use linefall::class::returned::{Closing, Happened, read};
use linefall::class::seal::{Public, Secret, paper_seed};
use linefall::class::sitting::{End, Purpose};
use linefall::diag::SourceText;
use linefall::drill::set;
use linefall::instrument::Catalogue;
use serde_json::Value;
use std::fs;
use std::path::Path;

/// Four readings that everybody is given, in this order.
const RIGHT: [&str; 4] = ["7.34", "12.50", "3.86", "0.98"];

fn trial() -> String {
    let readings: Vec<String> = RIGHT.iter().map(|reading| format!("\"{reading} mm\"")).collect();
    format!(
        "set = \"brackwater-trial\"\ntitle = \"A trial of four readings\"\ncount = 4\norder = \"blocked\"\npass = \"3 of 4\"\n\
         time = \"30 min\"\n\n[[questions]]\ninstrument = \"micrometer-metric\"\nzero = \"never\"\nconditions = \"never\"\n\
         readings = [{}]\n",
        readings.join(", ")
    )
}

/// A data folder with the set in it.
fn with_trial(dir: &Path) -> Tested {
    fs::create_dir_all(dir.join("exercises"))?;
    fs::write(dir.join("exercises/brackwater-trial.toml"), trial())?;
    Ok(())
}

fn sit(dir: &Path, more: &[&str], input: &str) -> Result<Ran, Box<dyn std::error::Error>> {
    let dir = dir.to_string_lossy();
    let args: Vec<&str> = ["skills-check", "--data-dir", &*dir].iter().chain(more).copied().collect();
    feed(&args, input.as_bytes())
}

#[test]
fn nothing_is_told_until_the_end() -> Tested {
    let dir = tempfile::tempdir()?;
    with_trial(dir.path())?;
    let page = dir.path().join("page.txt");
    let to_page = page.to_string_lossy();
    let args = ["brackwater-trial", "--learner", "k7", "--page", &*to_page];
    let ran = sit(dir.path(), &args, "look\n7.34\n13.00\nno\n3,86\n.98\n")?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{}", ran.out);
    let end = ran.out.find("Self-test: passed").ok_or("no end")?;
    let (before, after) = ran.out.split_at(end);
    for told in ["Right", "Not that", "12.50", "Passed over", " of 4 right:"] {
        assert!(!before.contains(told), "{told}: {before}");
    }
    for said in [
        "A self-test: the form of a skills check, for yourself.",
        "With 3 of 4 right.",
        "Question 2 of 4: micrometer, read it   30 min left",
        "Once more: that is not a number",
        "Taken down.",
    ] {
        assert!(before.contains(said), "{said}: {before}");
    }
    for said in [
        "3 of 4 right: a reader who is right in 30 to 95 of 100 (95 % interval).",
        "Gross slips (a turn, a half line, an inch): 1.",
        "  2  13.00 for 12.50 mm",
        "    sleeve: ",
        "This is a self-test, not a check",
    ] {
        assert!(after.contains(said), "{said}: {after}");
    }
    let written = fs::read_to_string(&page)?;
    for said in ["PASSED", "3 of 4", "Who             k7", "0 min", "not a check", "Seen by"] {
        assert!(written.contains(said), "{said}: {written}");
    }
    let dir = dir.path().to_string_lossy();
    let progress = run(&["progress", "--json", "--learner", "k7", "--data-dir", &dir])?;
    let progress: Value = serde_json::from_str(&progress.out)?;
    assert_eq!(progress["instruments"][0]["score"]["answered"], 4, "{progress}");
    Ok(())
}

#[test]
fn left_it_goes_on_and_the_record_tells_nothing_meanwhile() -> Tested {
    let dir = tempfile::tempdir()?;
    with_trial(dir.path())?;
    let args = ["brackwater-trial", "--learner", "k7"];
    let first = sit(dir.path(), &args, "7.34\nskip\nquit\n")?;
    assert!(first.out.contains("Left. The same command goes on"), "{}", first.out);
    let data = dir.path().to_string_lossy();
    let progress = run(&["progress", "--learner", "k7", "--data-dir", &data])?;
    assert!(progress.out.contains("Nothing is recorded for k7"), "{}", progress.out);
    let second = sit(dir.path(), &args, "3.86\n0.98\n")?;
    assert!(second.out.contains("Left at question 3 of 4; it goes on there."), "{}", second.out);
    for said in ["Self-test: passed", "Passed over: 1.", "It was left once", "passed over, it is 12.50 mm"] {
        assert!(second.out.contains(said), "{said}: {}", second.out);
    }
    let again = sit(dir.path(), &args, "1\n1\n1\n1\n")?;
    assert_eq!(again.code, Some(1), "not yet is a finding: {}", again.out);
    assert!(again.out.contains("Self-test: not yet: too few right"), "{}", again.out);
    Ok(())
}

#[test]
fn what_is_no_check_is_said() -> Tested {
    let dir = tempfile::tempdir()?;
    let said = |args: &[&str]| sit(dir.path(), args, "").map(|ran| (ran.code, ran.err));
    let (code, err) = said(&["first-rule"])?;
    assert_eq!(code, Some(2));
    assert!(err.contains("linefall practice first-rule"), "{err}");
    let (code, err) = said(&["half-way-chek"])?;
    assert_eq!(code, Some(2));
    assert!(err.contains("did you mean half-way-check?"), "{err}");
    assert!(said(&[])?.1.contains("name a set"));
    // Without the glass a caliper is not whole in any terminal of this width.
    fs::create_dir_all(dir.path().join("exercises"))?;
    let bare = trial()
        .replace("micrometer-metric", "caliper-metric-50")
        .replace("time", "glass = \"forbidden\"\ntime");
    fs::write(dir.path().join("exercises/brackwater-trial.toml"), bare)?;
    let (code, err) = said(&["brackwater-trial", "--size", "100x30"])?;
    assert_eq!(code, Some(1));
    assert!(
        err.contains("question 1: this picture cannot be drawn truly in 100x30 cells; it needs "),
        "{err}"
    );
    Ok(())
}

/// Chances of passing of the plan with 30 readings and 28 right: the binomial distribution as any table has it; of the sequential
/// one: an exact calculation over all walks (the project's notes on measurement, C3).
#[test]
fn the_rules_are_told_before_one_is_chosen() -> Tested {
    let ran = run(&["skills-check", "--plans", "--json"])?;
    let plans: Value = serde_json::from_str(&ran.out)?;
    let find = |wanted: &dyn Fn(&Value) -> bool| {
        plans.as_array().and_then(|all| all.iter().find(|plan| wanted(plan))).cloned().ok_or("no such plan")
    };
    let at = |plan: &Value, accuracy: f64, what: &str| {
        let row = plan["accuracies"].as_array().and_then(|all| {
            all.iter()
                .find(|row| row["accuracy"].as_f64().is_some_and(|a| (a - accuracy).abs() < 1e-9))
                .cloned()
        });
        row.and_then(|row| row[what].as_f64()).unwrap_or(f64::NAN)
    };
    let usual = find(&|plan| plan["questions"] == 30 && plan["pass"] == 28)?;
    let wald = find(&|plan| plan["kind"] == "sequential" && plan["most"] == 60)?;
    for (plan, accuracy, what, wanted) in [
        (&usual, 0.80, "passes", 0.0442),
        (&usual, 0.95, "passes", 0.8122),
        (&usual, 0.98, "passes", 0.9783),
        (&wald, 0.80, "passes", 0.0536),
        (&wald, 0.95, "passes", 0.9577),
        (&wald, 0.95, "mean_questions", 29.47),
        (&wald, 0.70, "mean_questions", 13.69),
    ] {
        let found = at(plan, accuracy, what);
        assert!((found - wanted).abs() < 6e-3 * wanted.max(0.01), "{accuracy} {what}: {found}");
    }
    let text = run(&["skills-check", "--plans"])?;
    assert!(
        text.out.contains("28 of 30 right: passes 4 of 100 people who read 80 in 100 rightly,"),
        "{}",
        text.out
    );
    assert!(text.out.lines().all(|line| line.chars().count() <= 80), "{}", text.out);
    let own = run(&["skills-check", "half-way-check", "--plans"])?;
    assert!(own.out.contains("18 of 20") && !own.out.contains("28 of 30 right:"), "{}", own.out);
    Ok(())
}

fn card(learners: &[&str]) -> Result<Card, Box<dyn std::error::Error>> {
    let source = SourceText::new("trial.toml", trial());
    let set = set::read(&source, &Catalogue::new(Vec::new())).map_err(|faults| format!("{faults:?}"))?;
    Ok(Card {
        number: "00000000000000aa".to_owned(),
        set: set.id,
        title: set.title,
        revision: set.revision,
        learners: learners.iter().map(|code| (*code).to_owned()).collect(),
        due: None,
        purpose: Purpose::Check,
        issued: "2026-11-29T08:00:00Z".to_owned(),
        from: instructor().public(),
        text: set.text,
    })
}

fn instructor() -> Secret {
    Secret::new([9; 32])
}

#[test]
fn a_job_card_is_worked_on_left_and_handed_in() -> Tested {
    let dir = tempfile::tempdir()?;
    let (own, share) = (dir.path().join("own"), dir.path().join("share"));
    fs::create_dir_all(share.join("issued"))?;
    let path = share.join("issued/trial.card");
    fs::write(&path, card(&["k7", "k8"])?.write(&instructor()))?;
    let name = path.to_string_lossy();
    let whose = sit(&own, &[&*name], "")?;
    assert_eq!(whose.code, Some(2));
    assert!(whose.err.contains("this job card is for k7, k8: give your code"), "{}", whose.err);
    let other = sit(&own, &[&*name, "--learner", "k9"], "")?;
    assert!(other.err.contains("not for k9"), "{}", other.err);
    let args = [&*name, "--learner", "k7"];
    let first = sit(&own, &args, "7.34\n12.50\nquit\n")?;
    assert!(first.out.contains("A skills check.") && first.err.is_empty(), "{}{}", first.out, first.err);
    let second = sit(&own, &args, "3.86\n1.00\n")?;
    assert!(second.out.contains("Left at question 3 of 4"), "{}", second.out);
    assert!(
        second.out.contains("Skills check: passed") && second.out.contains("It is handed in."),
        "{}",
        second.out
    );
    assert!(!second.out.contains("self-test"), "{}", second.out);
    let mut back: Vec<_> = fs::read_dir(share.join("returned/k7"))?.collect::<Result<_, _>>()?;
    back.retain(|file| !file.file_name().to_string_lossy().ends_with("-begun.work"));
    let [file] = &back[..] else { return Err(format!("{} files", back.len()).into()) };
    let work = read(&fs::read(file.path())?).map_err(|faults| format!("{faults:?}"))?;
    assert_eq!((work.closing, work.end, work.entries.len()), (Closing::Signed, End::Done, 4));
    let text = fs::read_to_string(file.path())?;
    for told in ["seed", "setting", "expected", "verdict"] {
        assert!(!text.contains(told), "nothing is told while it goes on: {text}");
    }
    let answers: Vec<&str> = work.entries.iter().map(|entry| entry.attempt.answer.as_str()).collect();
    assert_eq!(answers, ["7.34", "12.50", "3.86", "1.00"]);
    let header = &work.header;
    assert_eq!((header.learner.as_str(), header.nth, header.purpose), ("k7", 1, Purpose::Check));
    let seed = paper_seed(Some("00000000000000aa"), "k7", 1, &header.sitting);
    assert_eq!(header.seed(), seed, "the instructor deals the same paper");
    for ask in [&["preview", "first-rule"][..], &["ask", "first-rule"], &["ask", "rule-metric"]] {
        let refused = run(&[ask, &["--seed", &seed.0.to_string()]].concat())?;
        assert_eq!((refused.code, refused.out.as_str()), (Some(2), ""), "{ask:?}");
    }
    assert!(Public::of(header.key.hex()).is_some());
    let happened: Vec<(usize, bool)> =
        work.happened.iter().map(|(after, what)| (*after, matches!(what, Happened::Left(_)))).collect();
    assert_eq!(happened, [(2, true), (2, false)], "left after two, and taken up");
    // The share is away: it waits, and nothing is lost.
    fs::rename(&share, dir.path().join("away"))?;
    let again = dir.path().join("away/issued/trial.card").to_string_lossy().into_owned();
    let kept = dir.path().join("trial.card");
    fs::copy(&again, &kept)?;
    let kept = kept.to_string_lossy();
    let third = sit(&own, &[&*kept, "--learner", "k7"], "1\n1\n1\n1\n")?;
    assert!(third.out.contains("It waits on this machine"), "{}", third.out);
    assert_eq!(fs::read_dir(own.join("outbox"))?.count(), 1);
    Ok(())
}

#[test]
fn a_card_that_was_changed_is_not_worked_on() -> Tested {
    let dir = tempfile::tempdir()?;
    let path = dir.path().join("trial.card");
    fs::write(&path, card(&["k7"])?.write(&instructor()).replace("3 of 4", "0 of 4"))?;
    let ran = sit(dir.path(), &[&*path.to_string_lossy(), "--learner", "k7"], "")?;
    assert_eq!(ran.code, Some(1));
    assert!(ran.err.contains("it was changed after it was signed"), "{}", ran.err);
    assert!(ran.out.is_empty());
    Ok(())
}

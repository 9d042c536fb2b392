//! `linefall ask --json`: the stream, answered line by line by someone who looks at it.

use super::{Tested, command, feed, run};
use serde_json::{Value, json};
use std::error::Error;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout};

/// A stream that is open.
pub struct Stream {
    child: Child,
    input: Option<ChildStdin>,
    output: BufReader<ChildStdout>,
}

impl Stream {
    pub fn open(args: &[&str]) -> Result<Self, Box<dyn Error>> {
        let mut child = command(&[&["ask", "--json"], args].concat()).spawn()?;
        let input = child.stdin.take();
        let output = BufReader::new(child.stdout.take().ok_or("no output")?);
        Ok(Self { child, input, output })
    }

    /// The next message, whatever it is.
    pub fn any(&mut self) -> Result<Value, Box<dyn Error>> {
        let mut line = String::new();
        self.output.read_line(&mut line)?;
        Ok(serde_json::from_str(&line)?)
    }

    /// The next message under its name. It comes without anything more being sent: every line is flushed.
    pub fn next(&mut self, name: &str) -> Result<Value, Box<dyn Error>> {
        let mut line = String::new();
        self.output.read_line(&mut line)?;
        let mut message: Value = serde_json::from_str(&line)?;
        let body = message.get_mut(name).ok_or_else(|| format!("no {name}: {line}"))?.take();
        Ok(body)
    }

    fn send(&mut self, line: &str) -> Tested {
        let input = self.input.as_mut().ok_or("closed")?;
        writeln!(input, "{line}")?;
        input.flush()?;
        Ok(())
    }

    pub fn say(&mut self, message: &Value) -> Tested {
        self.send(&message.to_string())
    }

    pub fn end(mut self) -> Result<Option<i32>, Box<dyn Error>> {
        drop(self.input.take());
        let mut rest = String::new();
        self.output.read_line(&mut rest)?;
        assert_eq!(rest, "", "nothing after the summary");
        let ended = self.child.wait_with_output()?;
        assert_eq!(String::from_utf8_lossy(&ended.stderr), "");
        Ok(ended.status.code())
    }
}

fn keys(of: &Value) -> Vec<&str> {
    of.as_object().map(|map| map.keys().map(String::as_str).collect()).unwrap_or_default()
}

#[test]
fn a_whole_session() -> Tested {
    let mut stream = Stream::open(&["caliper-metric-20", "--seed", "11", "--count", "3", "--reveal"])?;
    let head = stream.next("linefall")?;
    assert_eq!(
        (&head["stream"], &head["seed"], &head["choose"], &head["count"]),
        (&json!(1), &json!(11), &json!("plain"), &json!(3))
    );
    let named =
        |id: &str| head["misreads"].as_array().is_some_and(|all| all.iter().any(|one| one["id"] == id));
    assert!(named("vernier-ignored") && !named("half-line-missed"), "{head}");

    // Right.
    let question = stream.next("question")?;
    assert_eq!((&question["n"], &question["instrument"]), (&json!(1), &json!("caliper-metric-20")));
    assert_eq!((&question["unit"], &question["least_count"]), (&json!("mm"), &json!("0.05")));
    let id = question["id"].clone();
    let reveal = &question["reveal"];
    stream.say(&json!({"id": id, "answer": reveal["expected"]}))?;
    let mark = stream.next("mark")?;
    assert_eq!((&mark["id"], &mark["right"], &mark["verdict"]), (&id, &json!(true), &json!("right")));
    for key in ["expected", "reading", "zero_error", "steps"] {
        assert_eq!(mark[key], reveal[key], "{key}");
    }
    assert_eq!(mark["accepted"], json!([reveal["expected"], reveal["expected"]]));
    assert_eq!(mark["misreads"], json!([]));

    // Nonsense, bad JSON, wrong ids and orders: the question stays open, the stream goes on.
    let question = stream.next("question")?;
    let id = question["id"].clone();
    assert_ne!(id, mark["id"]);
    stream.say(&json!({"id": id, "answer": "about three"}))?;
    let again = stream.next("again")?;
    assert_eq!(again["id"], id);
    assert!(again["why"].as_str().is_some_and(|why| why.contains("not a number")), "{again}");
    let wrong = [
        "{".to_owned(),
        String::new(),
        "[]".to_owned(),
        json!({"id": mark["id"], "answer": "1"}).to_string(),
        json!({"id": id}).to_string(),
        json!({"id": id, "answer": "1", "skip": true}).to_string(),
        json!({"id": id, "skip": false}).to_string(),
        json!({"id": id, "answr": "1"}).to_string(),
        json!({"id": id, "answer": 1}).to_string(),
        json!({"id": id, "lens": 21}).to_string(),
        json!({"id": id, "lens": 1.5}).to_string(),
        json!({"id": id, "answer": "x".repeat(100_000)}).to_string(),
    ];
    for (n, line) in wrong.iter().enumerate() {
        stream.send(line)?;
        let error = stream.next("error")?;
        assert_eq!(error["line"], json!(n + 3), "{line}");
        assert!(error["why"].as_str().is_some_and(|why| !why.is_empty()));
    }

    // The glass is slid, then the answer is wrong.
    stream.say(&json!({"id": id, "lens": 18}))?;
    let picture = stream.next("picture")?;
    assert_eq!((&picture["role"], &picture["lens"]), (&json!("measuring"), &json!(18)));
    assert_ne!(
        Some(&picture["text"]),
        question["pictures"].as_array().and_then(|p| p.last()).map(|p| &p["text"])
    );
    stream.say(&json!({"id": id, "answer": "149.95"}))?;
    let mark = stream.next("mark")?;
    assert_eq!((&mark["right"], &mark["verdict"]), (&json!(false), &json!("other")));

    // Passed over.
    let question = stream.next("question")?;
    stream.say(&json!({"id": question["id"], "skip": true}))?;
    let mark = stream.next("mark")?;
    assert_eq!((&mark["right"], &mark["verdict"]), (&json!(false), &json!("skipped")));
    let summary = stream.next("summary")?;
    assert_eq!(
        (&summary["complete"], &summary["asked"], &summary["right"]),
        (&json!(true), &json!(3), &json!(1))
    );
    // Passed over counts as asked, and says nothing.
    assert_eq!(summary["diagnosis"], mark["diagnosis"]);
    assert_eq!((&mark["diagnosis"]["status"], &mark["diagnosis"]["asked"]), (&json!("open"), &json!(3)));
    assert_eq!(stream.end()?, Some(0));
    Ok(())
}

#[test]
fn messages_have_the_fields_of_the_protocol() -> Tested {
    let mut stream = Stream::open(&["micrometer-metric", "--seed", "5", "--count", "1"])?;
    assert_eq!(keys(&stream.next("linefall")?), ["choose", "count", "misreads", "seed", "stream"]);
    let question = stream.next("question")?;
    let mut expected =
        vec!["asks", "id", "instrument", "least_count", "n", "pictures", "prompt", "revision", "unit"];
    assert_eq!(keys(&question), expected);
    let picture = &question["pictures"][0];
    for key in ["cols", "description", "lens", "lines", "role", "rows", "text"] {
        assert!(picture.get(key).is_some(), "{key}");
    }
    assert_eq!(
        picture["text"].as_array().map(Vec::len),
        picture["rows"].as_u64().and_then(|n| n.try_into().ok())
    );
    stream.say(&json!({"id": question["id"], "answer": "99"}))?;
    expected = vec![
        "accepted",
        "diagnosis",
        "expected",
        "id",
        "misreads",
        "reading",
        "right",
        "steps",
        "verdict",
        "zero_error",
    ];
    // What the tool was read under, and what is to be done about it, where there is something.
    let mark = stream.next("mark")?;
    let always: Vec<&str> =
        keys(&mark).into_iter().filter(|key| !["advice", "conditions", "variant"].contains(key)).collect();
    assert_eq!(always, expected);
    assert_eq!(keys(&mark["diagnosis"]), ["asked", "leading", "probability", "status"]);
    let summary = stream.next("summary")?;
    assert_eq!(keys(&summary), ["asked", "complete", "diagnosis", "right"]);
    assert_eq!(keys(&summary["diagnosis"]), ["asked", "leading", "probability", "status"]);
    assert_eq!(stream.end()?, Some(0));
    Ok(())
}

/// The script of someone who answers every question of a revealed stream as `answer` says.
fn script(args: &[&str], answer: impl Fn(&Value) -> String) -> Result<(String, Vec<Value>), Box<dyn Error>> {
    let mut stream = Stream::open(&[args, &["--reveal"]].concat())?;
    let count = stream.next("linefall")?["count"].as_u64().ok_or("no count")?;
    let (mut script, mut questions) = (String::new(), Vec::new());
    for _ in 0..count {
        let question = stream.next("question")?;
        let line = json!({"id": question["id"], "answer": answer(&question)}).to_string();
        stream.send(&line)?;
        let mark = stream.next("mark")?;
        script.push_str(&line);
        script.push('\n');
        questions.push(json!({"question": question, "mark": mark}));
    }
    stream.next("summary")?;
    assert_eq!(stream.end()?, Some(0));
    Ok((script, questions))
}

#[test]
fn same_seed_and_input_same_bytes() -> Tested {
    let args = ["--seed", "77", "--count", "60"];
    let (script, met) = script(&args, |q| q["reveal"]["expected"].as_str().unwrap_or("?").to_owned())?;
    let all = [&["ask", "--json"], &args[..]].concat();
    let first = feed(&all, script.as_bytes())?;
    assert_eq!((first.code, first.err.as_str()), (Some(0), ""));
    assert!(!first.out.contains("\"reveal\""));
    assert!(
        first
            .out
            .ends_with("{\"summary\":{\"complete\":true,\"asked\":60,\"right\":60,\"diagnosis\":null}}\n"),
        "{}",
        first.out
    );
    assert_eq!(first.out, feed(&all, script.as_bytes())?.out);
    assert_ne!(first.out, run(&["ask", "--json", "--seed", "78", "--count", "60"])?.out);
    // All shipped instruments in turn.
    let ids = |n: usize| met[n]["question"]["instrument"].as_str().unwrap_or_default();
    let round =
        met.iter().skip(1).position(|one| one["question"]["instrument"] == ids(0)).ok_or("no round")? + 1;
    assert!(round > 5);
    assert_eq!(ids(1), ids(1 + round));
    assert_eq!((ids(0), ids(1)), ("rule-inch-64", "rule-inch-100"));
    Ok(())
}

#[test]
fn the_closed_picture_comes_first_where_zero_is_allowed_for() -> Tested {
    let args = ["micrometer-inch", "--seed", "2", "--count", "40"];
    let (_, met) = script(&args, |q| q["reveal"]["reading"].as_str().unwrap_or("?").to_owned())?;
    let mut off = 0;
    for one in &met {
        let (question, mark) = (&one["question"], &one["mark"]);
        let roles: Vec<&str> = question["pictures"]
            .as_array()
            .ok_or("no pictures")?
            .iter()
            .filter_map(|p| p["role"].as_str())
            .collect();
        if question["asks"] == "corrected" {
            off += 1;
            assert_eq!(roles, ["closed", "measuring"]);
            assert_ne!(question["reveal"]["zero_error"], "0.000");
            assert_eq!(question["reveal"]["expected"], question["reveal"]["corrected"]);
            assert_eq!(mark["verdict"], "misread");
            assert!(
                mark["misreads"].as_array().is_some_and(|all| all.contains(&json!("zero-ignored"))),
                "{mark}"
            );
        } else {
            assert_eq!((&question["asks"], &roles[..]), (&json!("reading"), &["measuring"][..]));
            assert_eq!(mark["verdict"], "right");
        }
    }
    assert!((4..=24).contains(&off), "{off} of 40");
    Ok(())
}

#[test]
fn an_early_end_is_a_summary() -> Tested {
    let ran = run(&["ask", "rule-metric", "--json", "--seed", "1"])?;
    assert_eq!(ran.code, Some(0));
    assert_eq!(ran.out.lines().count(), 3);
    let last: Value = serde_json::from_str(ran.out.lines().last().ok_or("no summary")?)?;
    let summary = &last["summary"];
    assert_eq!(
        (&summary["complete"], &summary["asked"], &summary["right"]),
        (&json!(false), &json!(0), &json!(0))
    );
    assert_eq!(
        (&summary["diagnosis"]["status"], &summary["diagnosis"]["asked"]),
        (&json!("open"), &json!(0))
    );
    Ok(())
}

#[test]
fn no_glass_where_none_is_needed() -> Tested {
    let mut stream = Stream::open(&["rule-metric", "--seed", "1", "--count", "1"])?;
    stream.next("linefall")?;
    let id = stream.next("question")?["id"].clone();
    stream.say(&json!({"id": id, "lens": 3}))?;
    assert!(stream.next("error")?["why"].as_str().is_some_and(|why| why.contains("no glass")));
    stream.say(&json!({"id": id, "skip": true}))?;
    stream.next("mark")?;
    stream.next("summary")?;
    assert_eq!(stream.end()?, Some(0));
    Ok(())
}

#[test]
fn size_lines_and_view_apply() -> Tested {
    let ran =
        run(&["ask", "micrometer-metric", "--json", "--seed", "1", "--size", "100x30", "--lines", "thin"])?;
    let line = ran.out.lines().nth(1).ok_or("no question")?;
    let held: Value = serde_json::from_str(line)?;
    let picture = &held["question"]["pictures"][0];
    assert_eq!(
        (&picture["cols"], &picture["rows"], &picture["lines"]),
        (&json!(100), &json!(30), &json!("thin"))
    );
    let flat = run(&[
        "ask",
        "micrometer-metric",
        "--json",
        "--seed",
        "1",
        "--size",
        "100x30",
        "--lines",
        "thin",
        "--view",
        "flat",
    ])?;
    assert_ne!(ran.out, flat.out);
    let ran = run(&["ask", "caliper-metric-50", "--json", "--size", "40x10"])?;
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    assert!(ran.err.contains("needs"), "{}", ran.err);
    let ran = run(&["ask", "--choose", "telling"])?;
    assert_eq!(ran.code, Some(2));
    Ok(())
}

/// Answers a revealed stream until it ends: the whole output, and what was sent.
fn told(args: &[&str], answer: impl Fn(&Value) -> String) -> Result<(Vec<Value>, String), Box<dyn Error>> {
    let mut stream = Stream::open(&[args, &["--reveal"]].concat())?;
    stream.next("linefall")?;
    let (mut marks, mut sent) = (Vec::new(), String::new());
    loop {
        let mut line = String::new();
        stream.output.read_line(&mut line)?;
        let message: Value = serde_json::from_str(&line)?;
        let Some(question) = message.get("question") else {
            marks.push(message["summary"].clone());
            assert_eq!(stream.end()?, Some(0));
            return Ok((marks, sent));
        };
        let answer = json!({"id": question["id"], "answer": answer(question)}).to_string();
        stream.send(&answer)?;
        sent.push_str(&answer);
        sent.push('\n');
        marks.push(stream.next("mark")?);
    }
}

#[test]
fn telling_questions_end_when_it_is_known() -> Tested {
    let right = |q: &Value| q["reveal"]["expected"].as_str().unwrap_or("?").to_owned();
    let ten_times = |q: &Value| {
        let right = q["reveal"]["expected"].as_str().unwrap_or("0.00").to_owned();
        let (whole, part) = right.split_once('.').unwrap_or((&right, "00"));
        format!("{whole}{}.{}", &part[..1], &part[1..])
    };
    let args = ["micrometer-metric", "--seed", "8", "--choose", "telling"];
    let (marks, sent) = told(&args, ten_times)?;
    let (summary, marks) = marks.split_last().ok_or("nothing")?;
    assert_eq!(summary["diagnosis"]["leading"], "decimal-slip", "{summary}");
    assert_eq!((&summary["complete"], &summary["diagnosis"]["status"]), (&json!(true), &json!("named")));
    assert_eq!(summary["diagnosis"], marks.last().ok_or("no mark")?["diagnosis"]);
    assert!(marks.len() >= 2 && marks[..marks.len() - 1].iter().all(|m| m["diagnosis"]["status"] == "open"));
    // Same seed, same answers, same bytes.
    let all = [&["ask", "--json"], &args[..]].concat();
    assert_eq!(feed(&all, sent.as_bytes())?.out, feed(&all, sent.as_bytes())?.out);

    let (marks, _) = told(&args, right)?;
    let (summary, marks) = marks.split_last().ok_or("nothing")?;
    assert_eq!(summary["diagnosis"]["status"], "reads-correctly");
    assert_eq!(summary["diagnosis"]["leading"], "reads-correctly");
    assert!((3..=15).contains(&marks.len()), "{}", marks.len());

    // The first thing found stays, whoever goes on.
    let going_on = [&args[..], &["--keep-going", "--count", "18"]].concat();
    let (marks, _) = told(&going_on, right)?;
    assert_eq!(marks.len(), 19);
    assert_eq!(marks[18]["diagnosis"], summary["diagnosis"]);
    let (marks, _) = told(&["micrometer-metric", "--seed", "8", "--count", "18"], ten_times)?;
    assert_eq!(marks.len(), 19);
    assert_eq!(marks[18]["diagnosis"]["leading"], "decimal-slip");
    Ok(())
}

#[test]
fn a_change_has_a_start_and_says_what_it_rests_on() -> Tested {
    let args = ["lever-indicator-metric", "--seed", "4", "--count", "12", "--reveal"];
    let mut stream = Stream::open(&args)?;
    stream.next("linefall")?;
    let mut met = std::collections::BTreeSet::new();
    for _ in 0..12 {
        let question = stream.next("question")?;
        let pictures = question["pictures"].as_array().ok_or("no pictures")?;
        let roles: Vec<&str> = pictures.iter().filter_map(|picture| picture["role"].as_str()).collect();
        let asks = question["asks"].as_str().ok_or("nothing asked")?.to_owned();
        assert_eq!(roles, if asks == "change" { &["start", "measuring"][..] } else { &["measuring"] });
        stream.say(&json!({"id": question["id"], "answer": question["reveal"]["expected"]}))?;
        let mark = stream.next("mark")?;
        assert_eq!(mark["right"], json!(true), "{mark}");
        let conditions = mark["conditions"].as_str().unwrap_or_default();
        assert_eq!(conditions.contains("start="), asks == "change", "{mark}");
        let [low, high] = [&mark["accepted"][0], &mark["accepted"][1]];
        assert_eq!(low != high, conditions.contains("angle="), "{mark}");
        met.insert(asks);
    }
    assert!(["reading", "change", "movement"].iter().all(|asks| met.contains(*asks)), "{met:?}");
    stream.next("summary")?;
    assert_eq!(stream.end()?, Some(0));
    Ok(())
}

use super::testing::{attempt, header, machine, small};
use super::*;
use crate::class::sitting::End;

fn faults(text: &str) -> Vec<Fault> {
    read(text.as_bytes()).expect_err("faulty")
}

#[test]
fn read_back_as_written() {
    let text = small();
    let returned = read(text.as_bytes()).expect("no fault");
    assert_eq!((returned.closing, returned.end, returned.whole), (Closing::Signed, End::Done, text.len()));
    let sitting = returned.claimed();
    assert_eq!((sitting.entries.len(), sitting.interruptions), (2, 1));
    assert_eq!(sitting.entries[1].attempt, attempt("13"));
    assert_eq!(sitting.ended.as_deref(), Some("2026-11-30T07:43:00Z"));
    assert_eq!(returned.header, header());
    assert_eq!(super::header(text.as_bytes()), Ok(header()));
    assert_eq!(Writer::resume(&returned), None, "it is at its end");
    assert_eq!(header().file_name(), "2026-11-30-first-rule-0123456789abcdef.work");
    let own = Header { card: None, purpose: Purpose::SelfTest, ..header() };
    let (_, text) = Writer::begin(&own);
    assert_eq!(read(text.as_bytes()).expect("no fault").header, own);
}

#[test]
fn one_that_broke_off_is_gone_on_with_and_comes_out_the_same() {
    let text = small();
    let second = text.match_indices('\n').nth(3).expect("lines").0 + 1;
    // Half a line was on the disk when the power went.
    let broken = &text[..second + 40];
    let open = read(broken.as_bytes()).expect("no fault");
    assert_eq!(
        (open.closing, open.end, open.whole, open.entries.len()),
        (Closing::CutShort, End::Open, second, 1)
    );
    let mut writer = Writer::resume(&open).expect("it is open");
    let rest = writer.answer(2, 1, &attempt("13"));
    let rest = rest + &writer.end("2026-11-30T07:43:00Z", End::Done, &machine(1));
    assert_eq!(text[..open.whole].to_owned() + &rest, text);
    assert_eq!(read(&text.as_bytes()[..second]).expect("no fault").closing, Closing::Open);
}

#[test]
fn faults_are_named_with_their_lines() {
    let text = small();
    assert_eq!(read(b""), Err(vec![Fault::Empty]));
    assert_eq!(read(b"\n"), Err(vec![Fault::NotOurs]));
    assert_eq!(read(&[0xff, 0xfe, b'\n']), Err(vec![Fault::NotOurs]));
    assert_eq!(faults("{\"linefall\":\"a song\",\"form\":1}\n"), [Fault::NotOurs]);
    assert_eq!(faults(&text.replacen("\"form\":1", "\"form\":2", 1)), [Fault::Newer(2)]);
    for (from, to, what) in [
        ("\"k7\"", "\"K7\"", "learner"),
        ("\"k7\"", "\"../k7\"", "learner"),
        ("0123456789abcdef", "0123", "sitting"),
        ("first-rule", "first rule", "set"),
        ("5f1c", "5f1g", "revision"),
        ("00000000000000aa", "aa", "card"),
        ("\"try\":1", "\"try\":0", "try"),
        ("2026-11-30T07:30:00Z", "yesterday", "begun"),
        ("0.1.0", "\\u001b[31m", "program"),
        ("\"try\":1", "\"try\":-1", "something"),
        ("\"try\":1", "\"more\":1,\"try\":1", "something"),
        ("\"try\":1", "\"seed\":7,\"try\":1", "something"),
    ] {
        assert_eq!(faults(&text.replacen(from, to, 1)), [Fault::Header(what)], "{to}");
    }
    assert_eq!(faults(&text.replace("\"answer\":\"13\"", "\"answer\":\"12.5\"")), [Fault::Chain(5)]);
    let lines: Vec<&str> = text.lines().collect();
    let without = |n: usize| {
        let kept = lines.iter().enumerate().filter(|(at, _)| *at != n).map(|(_, line)| *line);
        kept.collect::<Vec<_>>().join("\n") + "\n"
    };
    assert_eq!(faults(&without(1)), [Fault::Chain(1)]);
    assert_eq!(faults(&without(5)), [Fault::Chain(5), Fault::Line(6)], "no signature without an end");
    assert_eq!(read(without(6).as_bytes()).expect("it only breaks off").closing, Closing::CutShort);
    assert_eq!(faults(&(text.clone() + lines[4] + "\n")), [Fault::Chain(7), Fault::AfterEnd(8)]);
    assert_eq!(faults(&(text.clone() + "x")), [Fault::AfterEnd(8)]);
    assert_eq!(faults(&text.replacen("\"left\"", "\"lift\"", 1)), [Fault::Line(3), Fault::Chain(3)]);
    let long = format!("{}\n{}\n", lines[0], "x".repeat(LINE_LIMIT + 1));
    assert_eq!(faults(&long), [Fault::LongLine(2)]);
    let many = format!("{}\n{}", lines[0], "x\n".repeat(100_000));
    assert_eq!(faults(&many).len(), 20);
    assert_eq!(read(&vec![b'\n'; 4 << 20 | 1]), Err(vec![Fault::TooBig]));
}

#[test]
fn the_key_that_is_named_must_have_signed() {
    let (writer, mut text) = Writer::begin(&header());
    text += &writer.end("2026-11-30T07:43:00Z", End::Left, &machine(2));
    assert_eq!(faults(&text), [Fault::Signature]);
    // The end may not be open, nor come from no time.
    let (writer, first) = Writer::begin(&header());
    assert_eq!(
        faults(&(first + &writer.end("soon", End::Open, &machine(1)))),
        [Fault::Line(2), Fault::Line(3)]
    );
}

/// Every byte changed, taken out, and the file cut there: named, or seen not to be whole.
#[test]
fn every_change_shows() {
    let text = small();
    let whole = read(text.as_bytes()).expect("no fault");
    for at in 0..text.len() {
        for to in [text.as_bytes()[at] ^ 1, text.as_bytes()[at] ^ 32, b'\n', 0xff] {
            let mut bytes = text.as_bytes().to_vec();
            bytes[at] = to;
            if to != text.as_bytes()[at] {
                let read = read(&bytes);
                assert!(
                    read.is_err() || read.as_ref().is_ok_and(|of| of.closing != Closing::Signed),
                    "byte {at} to {to}"
                );
            }
        }
        let cut = read(&text.as_bytes()[..at]);
        assert!(
            cut.is_err() || cut.is_ok_and(|of| of.closing != Closing::Signed && of.whole <= at),
            "cut at {at}"
        );
    }
    assert_eq!(whole.closing, Closing::Signed);
}

#[test]
fn a_silent_answer_says_nothing_of_what_is_right() {
    let (mut writer, first) = Writer::begin(&header());
    let line = writer.silent_answer(1, 1, &attempt("13"));
    for told in ["seed", "number", "setting", "zero_error", "expected", "verdict", "misreads", "12.5"] {
        assert!(!line.contains(told) && !first.contains(told), "{told}: {line}");
    }
    assert!(line.contains("\"answer\":\"13\""));
    let entry = read((first.clone() + &line).as_bytes()).expect("no fault").entries.remove(0);
    assert!(entry.attempt.is_unmarked() && !attempt("13").is_unmarked());
    let half = line.replacen("\"answer\":\"13\"", "\"answer\":\"13\",\"verdict\":\"right\"", 1);
    assert_eq!(faults(&(first + &half)), [Fault::Line(2)], "a mark without the rest");
}

#[test]
fn nothing_a_terminal_would_obey_is_written() {
    let (mut writer, _) = Writer::begin(&header());
    let line = writer.answer(1, 1, &attempt("\u{9b}31m\u{202e}1\u{7f}"));
    assert!(line.is_ascii() && !line.trim_end().chars().any(char::is_control), "{line}");
    assert!(line.contains("\\u009b31m\\u202e1\\u007f"));
}

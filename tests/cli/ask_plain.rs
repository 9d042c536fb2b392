//! `linefall ask` for people.

use super::{Tested, feed, run};

#[test]
fn a_run_through_a_pipe() -> Tested {
    let args = ["ask", "micrometer-metric", "--seed", "9", "--count", "3"];
    let ran = feed(&args, b"?\nabout three\n\nskip\n99,01\n>\nquit\n")?;
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));
    let at = |text: &str| ran.out.find(text).ok_or_else(|| format!("no {text:?} in\n{}", ran.out));
    let order = [
        at("Question 1 of 3: micrometer")?,
        at("Type the reading and Enter")?,
        at("Once more: that is not a number")?,
        at("Once more: type the reading, then Enter.")?,
        at("Passed over. It reads ")?,
        at("    sleeve: ")?,
        at("Question 2 of 3")?,
        at("Not that")?,
        at("Question 3 of 3")?,
        at("There is no glass over this picture")?,
        at("Stopped early: 0 of 1 right, 1 passed over.")?,
    ];
    assert!(order.is_sorted(), "{order:?}\n{}", ran.out);
    assert!(ran.out.is_ascii());
    Ok(())
}

#[test]
fn what_can_be_seen_in_words() -> Tested {
    let args = ["ask", "micrometer-metric", "--seed", "9", "--count", "1"];
    let (plain, looked) = (feed(&args, b"quit\n")?, feed(&args, b"look\nquit\n")?);
    assert!(looked.out.lines().count() > plain.out.lines().count() + 2, "{}", looked.out);
    assert!(looked.out.contains("thimble"), "{}", looked.out);
    Ok(())
}

/// What the run itself says is right, typed in the next run of the same seed.
#[test]
fn right_answers() -> Tested {
    let args = ["ask", "caliper-inch-25", "--seed", "21", "--count", "6"];
    let shown = feed(&args, "skip\n".repeat(6).as_bytes())?;
    let answers: Vec<&str> = shown
        .out
        .lines()
        .filter_map(|line| line.split_once("Passed over. "))
        .filter_map(|(_, rest)| rest.strip_prefix("It reads ").or_else(|| rest.strip_prefix("The size is ")))
        .filter_map(|rest| rest.strip_suffix(" in."))
        .collect();
    assert_eq!(answers.len(), 6, "{}", shown.out);
    let ran = feed(&args, (answers.join("\n") + "\n").as_bytes())?;
    assert_eq!(ran.code, Some(0));
    assert!(ran.out.ends_with("6 of 6 right.\n"), "{}", ran.out);
    assert_eq!(ran.out, feed(&args, (answers.join("\n") + "\n").as_bytes())?.out);
    let short = answers[0].trim_end_matches('0').trim_start_matches('0');
    let ran = feed(&args, format!("{short}0000\n").as_bytes())?;
    assert!(ran.out.contains("Right value; write it"), "{}", ran.out);
    assert!(ran.out.contains("Stopped early: 1 of 1 right."), "{}", ran.out);
    Ok(())
}

#[test]
fn the_glass_slides() -> Tested {
    let args = ["ask", "caliper-metric-20", "--seed", "4", "--count", "1"];
    let (none, one) = (feed(&args, b"quit\n")?, feed(&args, b">\nquit\n")?);
    assert!(one.out.matches("glass").count() > none.out.matches("glass").count());
    // Forth and back, each drawn anew.
    let back = feed(&args, b">>>\n<\n<<\nquit\n")?;
    let first = one.out.split("\n: ").next().unwrap_or_default();
    let picture = first.split_once("caliper\n").map_or("", |(_, picture)| picture);
    assert!(back.out.matches(picture).count() == 2, "{}", back.out);
    // It stops at the ends.
    assert_eq!(feed(&args, b"<<<<<<<<<<\nquit\n")?.code, Some(0));
    assert_eq!(feed(&args, &[vec![b'>'; 5000], b"\nquit\n".to_vec()].concat())?.code, Some(0));
    Ok(())
}

#[test]
fn the_closed_tool_comes_first() -> Tested {
    let ran =
        feed(&["ask", "micrometer-inch", "--seed", "2", "--count", "12"], "skip\n".repeat(12).as_bytes())?;
    let closed = ran.out.find("Closed, it looks like this").ok_or("never off zero")?;
    let rest = &ran.out[closed..];
    let work = rest.find("On the work it looks like this.").ok_or("no second picture")?;
    let prompt = rest.find("What is the size, zero allowed for").ok_or("not asked")?;
    assert!(work < prompt);
    assert_eq!(rest[..work].lines().count(), 25);
    assert!(rest.contains(" it reads closed: size "), "{rest}");
    Ok(())
}

#[test]
fn several_instruments_and_a_size_too_small_for_some() -> Tested {
    let ran = feed(&["ask", "--seed", "3", "--size", "80x9", "--count", "2"], b"skip\nskip\n")?;
    assert_eq!(ran.code, Some(0));
    assert!(ran.err.contains("caliper-inch-25 is left out: "), "{}", ran.err);
    assert!(ran.out.contains("0 of 0 right, 2 passed over."), "{}", ran.out);
    let ran = run(&["ask", "--size", "3x2"])?;
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    let ran = run(&["ask", "micrometer-inhc"])?;
    assert_eq!(ran.code, Some(2));
    let ran = run(&["ask", "rule-metric", "--reveal"])?;
    assert_eq!(ran.code, Some(2));
    Ok(())
}

#[test]
fn bytes_that_are_no_text_are_asked_again() -> Tested {
    let mut input = b"\xff\xfe\n".to_vec();
    input.extend(vec![b'9'; 200_000]);
    input.extend(b"\n\x1b[2J\nquit\n");
    let ran = feed(&["ask", "rule-metric", "--seed", "1"], &input)?;
    assert_eq!(ran.code, Some(0));
    assert_eq!(ran.out.matches("Once more: ").count(), 3, "{}", ran.out);
    assert!(!ran.out.contains('\u{1b}'));
    Ok(())
}

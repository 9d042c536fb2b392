//! `linefall draw`.

use super::{Tested, run, text, well};
use serde_json::Value;
use std::fs;

#[test]
fn exactly_so_many_lines_and_no_longer_than_asked() -> Tested {
    let cases = [
        ("rule-inch-64", "1 3/64", "60x12"),
        ("rule-metric", "41", "80x24"),
        ("micrometer-inch", "0.286", "80x24"),
        ("micrometer-inch-tenths", "0.2862", "80x24"),
        ("micrometer-metric", "5.78 mm", "100x30"),
        ("depth-micrometer-inch", "0.435", "80x24"),
        ("inside-micrometer-metric", "62.51", "80x24"),
        ("caliper-inch-25", "1.234", "80x24"),
        ("caliper-metric-50", "27,36", "160x45"),
    ];
    for (instrument, reading, size) in cases {
        for view in ["held", "flat"] {
            for lines in ["thin", "bars", "cell", "ascii"] {
                let args = ["draw", instrument, reading, "--size", size, "--view", view, "--lines", lines];
                let ran = run(&args)?;
                if ran.code == Some(1) {
                    // Only a style of whole cells may ask for more room here.
                    assert!(matches!(lines, "cell" | "ascii"), "{args:?}: {}", ran.err);
                    continue;
                }
                assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{args:?}");
                assert_eq!(ran.out, well(&args)?, "twice the same");
                let (cols, rows) = size.split_once('x').unwrap_or_default();
                assert_eq!(ran.out.lines().count(), rows.parse::<usize>()?, "{args:?}");
                let bare = ran.out.replace("\u{1b}[7m", "").replace("\u{1b}[27m", "");
                assert!(!bare.contains('\u{1b}'), "{args:?}");
                let most = cols.parse::<usize>()?;
                assert!(bare.lines().all(|line| line.chars().count() <= most), "{args:?}");
                assert_eq!(lines == "ascii", bare.is_ascii(), "{args:?}");
            }
        }
    }
    Ok(())
}

#[test]
fn into_a_pipe_plain_characters_at_the_usual_size() -> Tested {
    let out = well(&["draw", "caliper-inch-25", "1.234"])?;
    assert!(out.is_ascii());
    assert_eq!(out.lines().count(), 24);
    assert_eq!(out, well(&["draw", "caliper-inch-25", "1.234", "--size", "80x24", "--theme", "steel"])?);
    Ok(())
}

#[test]
fn a_reading_that_cannot_be_shown_names_what_can() -> Tested {
    let cases = [
        (&["caliper-inch-25", "1.2345"][..], &["1.234", "1.235"][..]),
        (&["micrometer-metric", "-0.005"], &["-0.01", "0.00 mm"]),
        (&["rule-inch-64", "1 1/128"], &["1 and", "1 1/64 in"]),
        (&["caliper-metric-50", "151"], &["150.00 mm"]),
        (&["rule-metric", "-1"], &["0 to 150 mm"]),
        (&["micrometer-inch", "-0.026"], &["-0.025 to 1.000 in"]),
        (&["micrometer-inch", "12 mm"], &["reads in in"]),
        (&["micrometer-inch", "1,000.5"], &["one decimal mark"]),
        (&["micrometer-inch", "a\u{1b}[2J"], &["a\\u{1b}[2J"]),
        (&["micrometer-inhc", "0.1"], &["did you mean micrometer-inch?"]),
        (&["rule-metric", "3", "--zero-error", "1"], &["no zero error"]),
        (&["rule-metric", "3", "--lens", "3"], &["no glass"]),
        (&["caliper-inch-25", "1", "--lens", "26"], &["0 to 25"]),
        (&["micrometer-metric", "3", "--variant", "halves=left"], &["halves=below|above"]),
        (&["micrometer-inch", "0.1", "--rod", "1 in"], &["frame=0 in|1 in"]),
        (&["depth-micrometer-inch", "0.1", "--rod", "9 in"], &["rod=9 in", "rod=0 in|1 in"]),
        (&["depth-micrometer-inch", "0.1", "--collar"], &["there is no variant \"collar=\""]),
        (&["depth-micrometer-inch", "1.435"], &["-0.025 to 1.000 in", "fits another rod"]),
        (&["rule-metric", "3", "--edge-lead", "1"], &["no thimble"]),
        (&["micrometer-inch", "0.1", "--edge-lead", "5"], &["2 divisions late (-2) or 4 early (4)"]),
        (&["micrometer-metric", "1", "--edge-lead", "-6"], &["5 divisions late (-5)"]),
        (&["caliper-inch-25", "1", "--zero-error", "0.0005"], &["0.000", "0.001"]),
        (&["caliper-inch-25", "1", "--size", "80"], &["80x24"]),
        (&["caliper-inch-25", "--veiw"], &["no such option"]),
    ];
    for (args, said) in cases {
        let args: Vec<&str> = ["draw"].iter().chain(args).copied().collect();
        let ran = run(&args)?;
        assert_eq!((ran.code, ran.out.as_str()), (Some(2), ""), "{args:?}: {}", ran.err);
        for word in said {
            assert!(ran.err.contains(word), "{args:?}: {}", ran.err);
        }
        assert!(!ran.err.contains('\u{1b}'));
    }
    Ok(())
}

#[test]
fn below_nought_where_zero_can_be_off() -> Tested {
    for (instrument, reading) in [
        ("caliper-inch-25", "-0.002"),
        ("micrometer-metric", "-0.03 mm"),
        ("micrometer-inch", "\u{2212}.025"),
    ] {
        let out = well(&["draw", instrument, reading])?;
        assert_eq!(out.lines().count(), 24, "{instrument}");
        assert_ne!(out, well(&["draw", instrument, "0"])?);
    }
    Ok(())
}

#[test]
fn a_refused_picture_says_the_size_needed() -> Tested {
    let args = ["draw", "caliper-metric-50", "27.36", "--lens", "none", "--lines", "thin"];
    let ran = run(&args)?;
    assert_eq!((ran.code, ran.out.as_str()), (Some(1), ""));
    assert_eq!(ran.err.lines().count(), 1);
    let needs = ran.err.trim_end().rsplit(' ').next().unwrap_or_default();
    let larger = [&args[..], &["--size", needs]].concat();
    let (_, rows) = needs.split_once('x').ok_or("no size")?;
    assert_eq!(well(&larger)?.lines().count(), rows.parse::<usize>()?);
    Ok(())
}

#[test]
fn glass_dots_variant_and_view_have_an_effect() -> Tested {
    let base = ["draw", "caliper-metric-50", "27.36", "--lines", "thin"];
    let slide = well(&base)?;
    assert!(slide.contains("slide"));
    assert_ne!(slide, well(&[&base[..], &["--lens", "20"]].concat())?);
    assert_eq!(slide, well(&[&base[..], &["--lens", "0"]].concat())?);
    let wide = ["draw", "caliper-inch-25", "1.234", "--size", "200x24", "--lines", "thin"];
    assert_ne!(well(&wide)?, well(&[&wide[..], &["--dots", "1"]].concat())?);
    let metric = ["draw", "micrometer-metric", "5.78", "--lines", "thin"];
    let above = well(&[&metric[..], &["--variant", "halves=above"]].concat())?;
    let below = well(&[&metric[..], &["--variant", "halves=below"]].concat())?;
    assert_ne!(above, below);
    assert_ne!(well(&metric)?, well(&[&metric[..], &["--view", "flat"]].concat())?);
    Ok(())
}

#[test]
fn rod_collar_and_frame_are_fitted_and_stamped() -> Tested {
    let explained = |args: &[&str]| well(&[&["draw"], args, &["--format", "explain"]].concat());
    let inside = ["inside-micrometer-inch", "2.735", "--rod", "2 in", "--collar"];
    assert!(explained(&inside)?.ends_with("2.000 + 0.500 + 0.200 + 0.025 + 0.010 = 2.735 in\n"));
    let picture = well(&[&["draw"], &inside[..]].concat())?;
    assert!(picture.starts_with("   rod 2-3 in   collar 0.500 in   0.001 in "), "{picture}");
    let word = ["draw", "inside-micrometer-inch", "2.735", "--variant", "rod=2 in collar=0.5 in"];
    assert_eq!(well(&word)?, picture);
    let frame = ["micrometer-metric", "585.70", "--variant", "halves=above frame=575 mm"];
    assert!(explained(&frame)?.ends_with("575.00 + 10.00 + 0.50 + 0.20 = 585.70 mm\n"));
    assert!(well(&[&["draw"], &frame[..]].concat())?.starts_with("   575-600 mm   0.01 mm "));
    let depth = ["depth-micrometer-inch", "1.435", "--rod", "1"];
    let steps = explained(&depth)?;
    assert!(steps.contains("sleeve: figure 4 covered"), "{steps}");
    assert!(steps.ends_with("1.000 + 0.400 + 0.025 + 0.010 = 1.435 in\n"), "{steps}");
    Ok(())
}

#[test]
fn an_early_edge_shows_the_next_line() -> Tested {
    let base = ["draw", "micrometer-metric", "8.98", "--lines", "thin"];
    let [late, early] = ["-5", "10"].map(|lead| well(&[&base[..], &["--edge-lead", lead]].concat()));
    let (late, early) = (late?, early?);
    assert_ne!(late, early);
    let list = well(&[&base[..], &["--format", "json", "--edge-lead", "4"]].concat())?;
    let json: Value = serde_json::from_str(&list)?;
    assert_eq!((json["edges"][0]["at"].as_i64(), json["edges"][0]["lead"].as_i64()), (Some(902), Some(4)));
    let list = well(&["draw", "depth-micrometer-inch", "0.435", "--format", "json"])?;
    let json: Value = serde_json::from_str(&list)?;
    assert_eq!([&json["tracks"][0]["sense"], &json["tracks"][1]["sense"]], [-1, -1]);
    assert_eq!(json["covers"][0]["to"], 435);
    Ok(())
}

#[test]
fn the_closed_picture_stands_above() -> Tested {
    let both = well(&["draw", "micrometer-inch", "0.286", "--zero-error", "-0.002"])?;
    let closed = well(&["draw", "micrometer-inch", "-0.002"])?;
    let measuring = well(&["draw", "micrometer-inch", "0.286"])?;
    assert_eq!(both, closed + &measuring);
    Ok(())
}

#[test]
fn the_display_list() -> Tested {
    let args = ["draw", "micrometer-inch-tenths", "0.2862", "--format", "json", "--zero-error=-0.0003"];
    let out = well(&args)?;
    assert_eq!(out.lines().count(), 1);
    let list: Value = serde_json::from_str(&out)?;
    assert_eq!(list["linefall_draw"], 1);
    assert_eq!(list["quantum"], "0.0001 in");
    assert_eq!(list["reading"], "0.2862");
    assert_eq!(list["zero_error"], "-0.0003");
    assert_eq!(list["lens"], Value::Null);
    assert_eq!(out, well(&[&args[..], &["--size", "200x60"]].concat())?, "independent of the size");
    let list: Value = serde_json::from_str(&well(&[&args[..], &["--lens", "4"]].concat())?)?;
    assert_eq!(list["lens"], 4);
    Ok(())
}

#[test]
fn the_steps_in_words() -> Tested {
    let args = ["draw", "micrometer-inch-tenths", "0.2862", "--format", "explain"];
    let expected = "sleeve: figure 2 passed   0.2000\n\
                    sleeve: 3 lines after it  0.0750\n\
                    thimble: line 11 passed   0.0110\n\
                    vernier: line 2 in line   0.0002\n\
                    0.2000 + 0.0750 + 0.0110 + 0.0002 = 0.2862 in\n";
    assert_eq!(well(&args)?, expected);
    let corrected = well(&[&args[..], &["--zero-error", "-0.0003"]].concat())?;
    assert!(corrected.ends_with("; less the -0.0003 it reads closed: size 0.2865 in\n"), "{corrected}");
    Ok(())
}

#[test]
fn a_vector_picture() -> Tested {
    let args = ["draw", "micrometer-metric", "5.78", "--format", "svg"];
    let out = well(&args)?;
    assert_eq!(out, well(&args)?);
    let document = roxmltree::Document::parse(&out)?;
    assert_eq!(document.root_element().tag_name().name(), "svg");
    assert_ne!(out, well(&[&args[..], &["--view", "flat"]].concat())?);
    let ran = run(&[&args[..], &["--zero-error", "0.02"]].concat())?;
    assert_eq!(ran.code, Some(2));
    Ok(())
}

#[test]
fn what_can_be_seen_in_words() -> Tested {
    let args = ["draw", "micrometer-inch", "0.286", "--format", "describe"];
    let out = well(&args)?;
    assert!(out.lines().count() > 2 && out.contains("thimble"), "{out}");
    assert!(!out.contains("0.286") && !out.contains("286"), "{out}");
    let both = well(&[&args[..], &["--zero-error", "0.001"]].concat())?;
    assert!(both.ends_with(&out) && both.starts_with("Closed, "), "{both}");
    Ok(())
}

#[test]
fn into_a_file() -> Tested {
    let dir = tempfile::tempdir()?;
    let file = dir.path().join("rule.txt");
    let args = ["draw", "rule-metric", "41"];
    assert_eq!(well(&[&args[..], &["-o", text(&file)?]].concat())?, "");
    assert_eq!(fs::read_to_string(&file)?, well(&args)?);
    let ran = run(&[&args[..], &["-o", text(&dir.path().join("no/such/folder"))?]].concat())?;
    assert_eq!(ran.code, Some(3));
    assert!(ran.err.contains("cannot write"), "{}", ran.err);
    Ok(())
}

/// A change is drawn as two pictures, and worked out.
#[test]
fn a_change_is_two_pictures_and_a_sum() -> Tested {
    let cut =
        ["draw", "cross-slide-dial-inch", "0.028", "--start", "0.094", "--passed", "1", "--slack", "0.006"];
    let with = |more: &[&'static str]| run(&[&cut[..], more].concat());
    let text = with(&["--size", "80x12", "--lines", "ascii"])?;
    assert_eq!(text.out.lines().count(), 24);
    assert!(text.out.contains("passed 0: |   turned on"), "{}", text.out);
    let explained = with(&["--format", "explain"])?.out;
    assert!(explained.contains("0.028 - 0.094 + 1 turn of 0.100 = 0.034 in"), "{explained}");
    let back = with(&["--turned", "back", "--format", "explain"])?.out;
    assert!(back.contains("0.166 - 0.006 = 0.160 in") && back.contains("0.080 in"), "{back}");
    let said = with(&["--format", "describe"])?.out;
    assert!(said.contains("On the tag: slack 0.006 in; passed 0: stroke; turned on."), "{said}");
    assert!(!said.contains("0.034"), "{said}");

    let steep = run(&["draw", "lever-indicator-inch", "0.010", "--angle", "60", "--format", "explain"])?;
    assert!(steep.out.contains("0.0100 x 0.50 = 0.0050 in"), "{}", steep.out);
    for (args, why) in [
        (&["draw", "rule-metric", "10", "--start", "9"][..], "neither"),
        (&["draw", "dial-indicator-inch-balanced", "0.010", "--angle", "30"], "test indicator"),
        (&["draw", "dial-indicator-inch-balanced", "0.010", "--start", "0", "--passed", "1"], "collar"),
        (&["draw", "lever-indicator-metric", "0.10", "--angle", "35"], "10, 20, 30"),
        (
            &["draw", "cross-slide-dial-inch", "0.010", "--start", "0.090", "--slack", "0.2"],
            "less than a turn",
        ),
    ] {
        let refused = run(args)?;
        assert_eq!(refused.code, Some(2), "{args:?}");
        assert!(refused.err.contains(why), "{args:?}: {}", refused.err);
    }
    Ok(())
}

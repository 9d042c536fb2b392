//! `linefall project` where there is nothing to show.

use super::{Tested, run};

/// The exit code 2 and a sentence that helps, before any full screen is asked for.
#[test]
fn what_a_room_cannot_be_asked_is_refused_with_the_reason() -> Tested {
    let cases: [(&[&str], &str); 4] = [
        (&["project", "set-to-size"], "a tool is set by hand there"),
        (&["project", "micrometer-metric", "--kind", "set-it"], "a tool is set by hand there"),
        (&["project", "first-rule", "--level", "2"], "--kind and --level go with an instrument"),
        (&["project", "metric-micromete"], "did you mean metric-micrometer?"),
    ];
    for (args, wanted) in cases {
        let ran = run(args)?;
        assert_eq!(ran.code, Some(2), "{args:?}: {}", ran.err);
        assert!(ran.err.contains(wanted), "{args:?}: {}", ran.err);
    }
    Ok(())
}

//! What a dial is used for is a thing its body can do, and is engraved on the tool.
//!
//! Only a collar takes something off, and whether that is off the radius or the diameter must be there to be read. Only the
//! hand of a dial that stands alone is moved by a lever.
//!
//! Example: `takes = "diameter"` on a collar that is engraved `off the radius`.

use super::measure::{before, of_shape};
use crate::diag::Diagnostic;
use crate::instrument::schema::{Definition, Draft, Shape};
use crate::instrument::{Body, Contact, Takes};

pub(super) fn check(def: &Definition, faults: &mut Vec<Diagnostic>) {
    for (at, dial) in of_shape(def, Shape::Dial) {
        let is_collar = dial.body.as_ref().is_some_and(|body| body.value == Body::Collar);
        takes(def, dial, is_collar, faults);
        let Some(contact) = dial.contact.as_ref().filter(|contact| contact.value == Contact::Lever) else {
            continue;
        };
        if is_collar || before(def, at).is_some() {
            let message =
                format!("no lever moves the {}: that is for an indicator's dial alone", dial.called());
            let fault = Diagnostic::new("dial-contact", contact.span.clone(), message);
            faults.push(fault.fix("take out `contact`"));
        }
    }
}

fn takes(def: &Definition, dial: &Draft, is_collar: bool, faults: &mut Vec<Diagnostic>) {
    let Some(takes) = &dial.takes else { return };
    if !is_collar {
        let message = format!("the {} takes nothing off: only the collar of a handwheel does", dial.called());
        let fault = Diagnostic::new("dial-takes", takes.span.clone(), message);
        faults.push(fault.fix("take out `takes`, or write body = \"collar\""));
        return;
    }
    let word = match takes.value {
        Takes::Diameter => "diameter",
        Takes::Radius => "radius",
    };
    if def.engraved.iter().any(|text| text.value.contains(word)) {
        return;
    }
    let message = format!("nobody can see that the {} says what comes off the {word}", dial.called());
    let mut fault = Diagnostic::new("dial-takes", takes.span.clone(), message);
    if let Some(text) = def.engraved.first() {
        fault = fault.related(text.span.clone(), "what is engraved");
    }
    faults.push(fault.fix(format!("engraved = [\"off the {word}\", ...]")));
}

#[cfg(test)]
mod tests {
    use crate::diag::SourceText;
    use crate::instrument::check::read;

    const COLLAR: &str = include_str!("../../../assets/instruments/cross-slide-dial-inch.toml");
    const LEVER: &str = include_str!("../../../assets/instruments/lever-indicator-metric.toml");

    #[test]
    fn each_rule_finds_its_example() {
        for (text, from, to, code, marked) in [
            (COLLAR, "\"off the diameter\"", "\"off the radius\"", "dial-takes", "\"diameter\""),
            (COLLAR, "body = \"collar\"\n", "", "dial-takes", "\"diameter\""),
            (COLLAR, "takes = \"diameter\"", "contact = \"lever\"", "dial-contact", "\"lever\""),
            (LEVER, "contact = \"lever\"", "takes = \"radius\"", "dial-takes", "\"radius\""),
            (LEVER, "contact = \"lever\"", "contact = \"finger\"", "unknown-word", "\"finger\""),
        ] {
            assert!(text.contains(from), "{from}");
            let text = text.replacen(from, to, 1);
            let found = read(&SourceText::new("test.toml", text.as_str())).expect_err("a fault");
            assert_eq!(found.len(), 1, "{found:#?}");
            assert!(found[0].fix.is_some());
            let span = &found[0].at.span;
            assert_eq!((found[0].code, &text[span.start..span.end]), (code, marked));
        }
    }
}

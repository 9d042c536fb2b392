//! The time in which an instructor wants readings: `micrometer-metric = "8 s"`.

use super::Catalogue;
use super::schema::{read_targets, shown};
use crate::diag::{Diagnostic, SourceText, nearest};

/// A time, in tenths of a second.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Tenths(pub u32);

/// The shortest and the longest time that can be wanted.
const FROM: Tenths = Tenths(10);
const TO: Tenths = Tenths(6000);

/// What the file holds.
#[derive(Clone, Debug, Default)]
pub struct Targets {
    /// The ids of instruments with their times, those without a fault.
    pub set: Vec<(String, Tenths)>,
    /// Every fault, in the order of the file.
    pub faults: Vec<Diagnostic>,
}

/// Reads the file; its instruments are those of the catalogue.
pub fn read(source: &SourceText, catalogue: &Catalogue) -> Targets {
    let (listed, faults) = read_targets(source);
    let mut targets = Targets { set: Vec::new(), faults };
    for one in listed {
        let id = &one.instrument;
        let known = catalogue.origin(&id.value).is_some();
        if !known {
            let near = nearest(&id.value, catalogue.ids());
            let fix = near.map_or_else(
                || "linefall list instruments shows all".to_owned(),
                |near| format!("{near} = \"10 s\""),
            );
            let message = format!("there is no instrument \"{}\"", shown(&id.value));
            targets.faults.push(Diagnostic::new("instrument", id.span.clone(), message).fix(fix));
        }
        match tenths(&one.time.value).filter(|time| (FROM..=TO).contains(time)) {
            Some(time) if known => targets.set.push((id.value.clone(), time)),
            Some(_) => {}
            None => {
                let message = format!("\"{}\" is no time from 1 s to 600 s", shown(&one.time.value));
                let fault = Diagnostic::new("time", one.time.span, message);
                targets.faults.push(fault.fix(format!("{} = \"10 s\"", shown(&id.value))));
            }
        }
    }
    targets.faults.sort_by_key(|fault| fault.at.span.start);
    targets
}

/// `8 s`, `7.5 s`, `7.5s`.
fn tenths(text: &str) -> Option<Tenths> {
    let number = text.strip_suffix('s')?.trim_end();
    let (whole, tenth) = number.split_once(['.', ',']).unwrap_or((number, "0"));
    let digits = |text: &str, most: usize| -> Option<u32> {
        let all = (1..=most).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        all.then(|| text.parse().ok()).flatten()
    };
    Some(Tenths(digits(whole, 3)? * 10 + digits(tenth, 1)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn targets(text: &str) -> Targets {
        read(&SourceText::new("targets.toml", text), &Catalogue::new(Vec::new()))
    }

    #[test]
    fn times_are_set_by_instrument() {
        let found = targets("# second year\nmicrometer-metric = \"8 s\"\ncaliper-metric-50 = \"12.5s\"\n");
        assert!(found.faults.is_empty(), "{:?}", found.faults);
        let wanted = [("micrometer-metric", 80), ("caliper-metric-50", 125)];
        assert_eq!(found.set, wanted.map(|(id, tenths)| (id.to_owned(), Tenths(tenths))));
        let catalogue = Catalogue::new(Vec::new()).with_targets(found.set);
        let set = |id: &str| catalogue.get(id).expect("shipped").target;
        assert_eq!((set("micrometer-metric"), set("rule-metric")), (Some(Tenths(80)), None));
    }

    #[test]
    fn every_fault_is_named_with_its_place() {
        let text = "micrometer-metrik = \"8 s\"\nrule-metric = \"fast\"\ncaliper-metric-50 = 12\nmicrometer-inch = \"0.5 s\"\n";
        let found = targets(text);
        let at: Vec<_> =
            found.faults.iter().map(|f| (f.code, &text[f.at.span.start..f.at.span.end])).collect();
        assert_eq!(
            at,
            [
                ("instrument", "micrometer-metrik"),
                ("time", "\"fast\""),
                ("wrong-type", "12"),
                ("time", "\"0.5 s\"")
            ]
        );
        assert_eq!(found.faults[0].fix.as_deref(), Some("micrometer-metric = \"10 s\""));
        assert!(found.set.is_empty());
    }
}

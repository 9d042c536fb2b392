//! The tools that somebody has: their own names, which instrument each is, and in which variant.
//!
//! [`read`] judges the file as definitions are judged: every fault of it is named, and the tools without one can be used.
//! [`with_tool`] and [`without_tool`] change the text of the file by one tool and leave the rest of it as a person wrote it.

use super::schema::{Listed, Written, read_crib, shown};
use super::variant::TOOL;
use super::{Catalogue, Instrument};
use crate::diag::{Diagnostic, SourceText, nearest};

/// A tool that somebody has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tool {
    /// What it is called in the shop.
    pub label: String,
    /// Its variant, as options spell it; empty for the usual one.
    pub variant: String,
    /// The instrument, of which nothing but this variant comes up.
    pub instrument: Instrument,
}

/// What the file holds.
#[derive(Clone, Debug, Default)]
pub struct Crib {
    /// The tools without a fault, in the order of the file.
    pub tools: Vec<Tool>,
    /// Every fault, in the order of the file.
    pub faults: Vec<Diagnostic>,
}

/// Characters of a label.
const LONGEST: usize = 24;

/// Reads the file of a crib; its tools are instruments of the catalogue.
pub fn read(source: &SourceText, catalogue: &Catalogue) -> Crib {
    let (listed, faults) = read_crib(source);
    let mut crib = Crib { tools: Vec::new(), faults };
    let mut taken: Vec<&Written<String>> = Vec::new();
    for one in &listed {
        let label = one.label.as_ref().filter(|written| label(written, &taken, catalogue, &mut crib.faults));
        let tool = owned(one, catalogue, &mut crib.faults);
        taken.extend(&one.label);
        if let (Some(label), Some((instrument, variant))) = (label, tool) {
            crib.tools.push(named(label.value.clone(), instrument, variant));
        }
    }
    crib.faults.sort_by_key(|fault| fault.at.span.start);
    crib
}

fn named(label: String, instrument: Instrument, variant: String) -> Tool {
    let title = format!("{label}: {}", instrument.title);
    let instrument = Instrument { title, label: Some(label.clone()), ..instrument };
    Tool { label, variant, instrument }
}

/// Whether a label can name a tool: it is typed in commands, and stands in records after `tool=`.
fn label(
    written: &Written<String>,
    taken: &[&Written<String>],
    catalogue: &Catalogue,
    faults: &mut Vec<Diagnostic>,
) -> bool {
    let text = written.value.as_str();
    let fault = |message: String| Diagnostic::new("label", written.span.clone(), message);
    let single = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let found = if text.chars().count() > LONGEST {
        let shorter: String = text.chars().take(LONGEST).collect();
        let message = format!("a label has at most {LONGEST} characters");
        fault(message).fix(format!("label = \"{}\"", shorter.trim_end()))
    } else if text.contains('=') || text.starts_with('-') {
        fault("a label has no equals sign and does not begin with a hyphen".to_owned())
            .fix("label = \"no. 14\"")
    } else if single != text {
        fault("a label has single spaces, between its words only".to_owned())
            .fix(format!("label = \"{single}\""))
    } else if catalogue.ids().any(|id| id == text) {
        fault(format!("\"{text}\" is the name of an instrument, so no label"))
            .fix(format!("label = \"our {text}\""))
    } else if let Some(other) = taken.iter().find(|other| other.value.to_lowercase() == text.to_lowercase()) {
        let message = format!("another tool is called \"{}\" already", other.value);
        fault(message).related(other.span.clone(), "the other one").fix(format!("label = \"{text} b\""))
    } else {
        return true;
    };
    faults.push(found);
    false
}

/// The instrument of a tool, of which nothing but its variant comes up, and the variant's word.
fn owned(one: &Listed, catalogue: &Catalogue, faults: &mut Vec<Diagnostic>) -> Option<(Instrument, String)> {
    let id = one.instrument.as_ref()?;
    let Some(instrument) = catalogue.get(&id.value).filter(|known| known.label.is_none()) else {
        let near = nearest(&id.value, catalogue.ids());
        let fix = near.map_or_else(
            || "linefall list instruments shows all".to_owned(),
            |near| format!("instrument = \"{near}\""),
        );
        let message = format!("there is no instrument \"{}\"", shown(&id.value));
        faults.push(Diagnostic::new("instrument", id.span.clone(), message).fix(fix));
        return None;
    };
    let Some(written) = &one.variant else { return Some((instrument.owned("")?, String::new())) };
    // Which of two scales is read and which way a protractor is turned are asked, and no properties of a tool.
    let set = |part: &str| part.starts_with("reads=") || part.starts_with("direction=");
    let asked = written.value.split_whitespace().any(set);
    let variant = instrument.variant(&written.value).filter(|_| !asked);
    let tool = instrument.owned(&written.value);
    let (Some(variant), Some(tool)) = (variant, tool) else {
        let known = instrument.offered();
        let message = format!("{} has no variant \"{}\"", instrument.id, shown(&written.value));
        let fault = Diagnostic::new("variant", written.span.clone(), message);
        let fix = if known.is_empty() {
            "take out `variant`".to_owned()
        } else {
            format!("choose from {}", known.join(", "))
        };
        faults.push(fault.related(id.span.clone(), "the instrument").fix(fix));
        return None;
    };
    Some((tool, variant.word()))
}

/// The text of a crib with one tool more, at its end.
pub fn with_tool(text: &str, label: &str, instrument: &str, variant: &str) -> String {
    let written = |c: char| match c {
        '"' | '\\' => format!("\\{c}"),
        c if c.is_control() => format!("\\u{:04x}", u32::from(c)),
        c => c.to_string(),
    };
    let quoted = |text: &str| format!("\"{}\"", text.chars().map(written).collect::<String>());
    let mut out = text.to_owned();
    if !out.is_empty() && !out.ends_with('\n') {
        out.push('\n');
    }
    if !out.trim().is_empty() {
        out.push('\n');
    }
    out.push_str("[[tool]]\n");
    for (key, value) in [("label", label), ("instrument", instrument), ("variant", variant)] {
        if !value.is_empty() {
            out.extend([key, " = ", &quoted(value), "\n"]);
        }
    }
    out
}

/// The text of a crib without the tool of a label; its lines go, every comment that has a line of its own stays. `None` where no
/// tool is called so, or where it cannot be taken out by lines.
pub fn without_tool(source: &SourceText, label: &str) -> Option<String> {
    let text = &source.text;
    let (listed, _) = read_crib(source);
    let wanted = |one: &&Listed| one.label.as_ref().is_some_and(|known| known.value == label);
    let one = listed.iter().find(wanted)?;
    if !text[one.header.start..].starts_with("[[") {
        return None;
    }
    let start = text[..one.header.start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[one.end()..].find('\n').map_or(text.len(), |at| one.end() + at + 1);
    let comments = |line: &&str| line.trim_start().starts_with('#');
    let kept: String = text[start..end].split_inclusive('\n').filter(comments).collect();
    let (before, mut after) = (&text[..start], &text[end..]);
    // Of the empty lines on its two sides one is enough.
    let open = before.is_empty() || before.ends_with("\n\n") || before.ends_with("\n\r\n");
    if kept.is_empty() && open {
        after = after.strip_prefix("\r\n").or(after.strip_prefix('\n')).unwrap_or(after);
    }
    let mut out = format!("{before}{kept}{after}");
    if out.trim().is_empty() {
        out.clear();
    } else if after.is_empty() {
        out.truncate(out.trim_end().len());
        out.push('\n');
    }
    Some(out)
}

impl Instrument {
    /// A variant of it as a record has it: behind it, what somebody calls their own.
    pub fn record_word(&self, variant: &super::Variant) -> String {
        match &self.label {
            None => variant.word(),
            Some(label) => format!("{} {TOOL}={label}", variant.word()).trim_start().to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "# the first bench\n[[tool]]\nlabel = \"no. 14\" # a gift\n# scratched\ninstrument = \"caliper-metric-20\"\nvariant = \"vernier=long figures=cm\"\n\n# the second bench\n[[tool]]\nlabel = \"old Tom\"\ninstrument = \"micrometer-metric\"\nvariant = \"halves=above\"\n";

    fn crib(text: &str) -> Crib {
        read(&SourceText::new("crib.toml", text), &Catalogue::new(Vec::new()))
    }

    /// The faults of a text: what each marks, and its fix.
    fn faults(text: &str) -> Vec<(&'static str, String, String)> {
        let marked = |fault: Diagnostic| {
            let at = text[fault.at.span.start..fault.at.span.end].to_owned();
            (fault.code, at, fault.fix.expect("every fault has a fix"))
        };
        crib(text).faults.into_iter().map(marked).collect()
    }

    #[test]
    fn tools_are_instruments_with_a_label() {
        let crib = crib(GOOD);
        assert!(crib.faults.is_empty(), "{:?}", crib.faults);
        let seen: Vec<_> = crib
            .tools
            .iter()
            .map(|t| (t.label.as_str(), t.instrument.id.as_str(), t.variant.as_str()))
            .collect();
        let wanted = [
            ("no. 14", "caliper-metric-20", "figures=cm vernier=long"),
            ("old Tom", "micrometer-metric", "halves=above"),
        ];
        assert_eq!(seen, wanted);
        let tool = &crib.tools[0].instrument;
        assert_eq!(tool.title, "no. 14: Vernier caliper, 150 mm, 20 parts, to 0.05 mm");
        let word = tool.record_word(&tool.plain());
        assert_eq!(word, "figures=cm vernier=long tool=no. 14");
        // What stands in a record is read back by the definition, whoever's tool it was.
        let catalogue = Catalogue::new(Vec::new());
        let shipped = catalogue.get("caliper-metric-20").expect("shipped");
        assert_eq!(shipped.variant(&word), Some(tool.plain()));
        assert_eq!(shipped.variant("tool=no. 14"), Some(shipped.plain()));
    }

    #[test]
    fn all_faults_are_named_at_once_with_their_places() {
        let text = "[[tool]]\nlabel = \"a\"\ninstrument = \"caliper-metric-2\"\n\n[[tool]]\nlabel = \"A\"\ninstrument = \"caliper-metric-20\"\nvariant = \"figures=dm\"\n\n[[tool]]\nlable = \"c\"\ninstrument = \"caliper-metric-20\"\n";
        let caliper = "choose from figures=mm|cm, vernier=short|long, held=usual|turned";
        let wanted = [
            ("instrument", "\"caliper-metric-2\"", "instrument = \"caliper-metric-20\""),
            ("label", "\"A\"", "label = \"A b\""),
            ("variant", "\"figures=dm\"", caliper),
            ("unknown-key", "lable", "label = \"c\""),
        ];
        let wanted: Vec<_> = wanted.into_iter().map(|(a, b, c)| (a, b.to_owned(), c.to_owned())).collect();
        let found = faults(text);
        assert_eq!(found, wanted);
    }

    #[test]
    fn hostile_labels_are_refused() {
        let with = |label: &str| format!("[[tool]]\nlabel = {label}\ninstrument = \"rule-metric\"\n");
        for (label, code) in [
            ("\"\\u001b[2J\"", "hidden-character"),
            ("\"a\\u202eb\"", "hidden-character"),
            ("\"a\u{202e}b\"", "hidden-character"),
            ("\"\"", "empty-text"),
            ("\"12345678901234567890123456\"", "label"),
            ("\"a=b\"", "label"),
            ("\" a\"", "label"),
            ("\"a  b\"", "label"),
            ("\"--help\"", "label"),
            ("\"rule-metric\"", "label"),
            ("14", "wrong-type"),
        ] {
            let text = with(label);
            let found = crib(&text);
            assert_eq!(found.faults.iter().map(|f| f.code).collect::<Vec<_>>(), [code], "{label}");
            assert!(found.tools.is_empty(), "{label}");
        }
        let many = "[[tool]]\n".repeat(6_000);
        assert_eq!(crib(&many).faults.len(), 1);
        assert!(crib("tool = 3").faults.len() == 1 && crib("[tool").tools.is_empty());
    }

    #[test]
    fn a_tool_is_put_in_and_taken_out_and_the_comments_stay() {
        let more = with_tool(GOOD, "no. 15", "rule-metric", "");
        assert!(more.starts_with(GOOD));
        assert!(more.ends_with("\n\n[[tool]]\nlabel = \"no. 15\"\ninstrument = \"rule-metric\"\n"), "{more}");
        assert_eq!(without_tool(&SourceText::new("x", more), "no. 15").as_deref(), Some(GOOD));
        let less = without_tool(&SourceText::new("x", GOOD), "no. 14").expect("it is there");
        assert!(
            less.starts_with(
                "# the first bench\n# scratched\n\n# the second bench\n[[tool]]\nlabel = \"old Tom\"\n"
            ),
            "{less}"
        );
        assert_eq!(crib(&less).tools.len(), 1);
        assert_eq!(without_tool(&SourceText::new("x", GOOD), "no. 1"), None);
        assert_eq!(
            with_tool("", "a", "rule-metric", ""),
            "[[tool]]\nlabel = \"a\"\ninstrument = \"rule-metric\"\n"
        );
        let one = with_tool("", "a \"b\" \\c", "rule-metric", "held=turned");
        assert_eq!(crib(&one).tools[0].label, "a \"b\" \\c");
        assert_eq!(without_tool(&SourceText::new("x", one), "a \"b\" \\c").as_deref(), Some(""));
    }
}

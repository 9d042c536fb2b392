//! The class record in words.

mod given;
mod learner;
mod questions;

pub use given::{back, given, given_beside, outcome, purpose, try_beside};
pub use learner::{NOTHING_BACK, learner, steel, steel_cell, tool, whole_learner};
pub use questions::{about, about_among, flags, question_beside, questions_head, range, right, tells, wrong};

use crate::class::record::{Back, Class, Common, Member, Tool};
use crate::learner::calendar::Day;
use crate::learner::gates::Standing;
use crate::learner::progress::Interval;
use crate::reading::misread;

/// A class that is made up says so wherever it is shown.
pub const INVENTED: &str = "Made up for trying out: nobody in it is real.";
/// The same in a corner.
pub const INVENTED_SHORT: &str = "made up: nobody is real";
/// The head of a column: how somebody reads on a screen.
pub const READING: &str = "on screen";
/// What stands under the table of learners.
pub const LEGEND: [&str; 3] = [
    "Right of the latest 40 readings. uniform: right, no gross slip, the same again",
    "read the same, in time, steady, nothing still happening. gross: a turn, a half",
    "line, a sign.",
];
/// The head of the column beside each instrument.
pub const STEEL: &str = "steel";
/// What stands in it.
pub const STEEL_LEGEND: &str =
    "steel: check parts measured within what was allowed, of those measured; * may use it unsupervised.";
/// The head of what the class gets wrong.
pub const COMMON: &str = "What the class gets wrong";
/// What stands under it.
pub const COMMON_LEGEND: &str = "likely: explains the latest answers best; sure: 95 in 100, after two of them; put right: was sure, is gone.";
/// Under the screen of learners.
pub const STEEL_SHORT: &str = "on screen: of the latest 40; steel: check parts in, * may use it alone";
/// Nothing came back of any set.
pub const NOTHING_GIVEN_BACK: &str = "Nothing came back yet of any set.";
/// The columns of the questions.
pub const QUESTION_COLUMNS: [&str; 5] = ["question", "right", "95 %", "tells", "look"];
/// Where nothing is wrong that has a name.
pub const NOTHING_COMMON: &str = "Nothing that has a name here.";
/// The head of what was given out.
pub const GIVEN: &str = "Given out";
/// Where nothing was.
pub const NOTHING_GIVEN: &str = "Nothing was given out yet: `linefall issue` does.";
/// Of a question, where the class is too small.
pub const TOO_FEW: &str = "too few to say";
/// What a check's reliability is not.
pub const RELIABILITY: &str =
    "Where nearly all pass, scores lie close together and this figure is low: that is no fault of the check.";

/// The first line.
pub fn head(class: &Class, group: Option<&str>) -> String {
    let read = class.members.iter().filter(|member| member.row.is_some()).count();
    let of = group.map_or_else(String::new, |group| format!(", {group}"));
    format!("Class record{of}: {}, {read} with readings", learners(class.members.len()))
}

/// Nobody is there.
pub fn nobody(group: Option<&str>) -> String {
    match group {
        Some(group) => format!("Nobody on the roster is in the group {group}."),
        None => "The class record is empty: nobody is on the roster and nothing was collected.".to_owned(),
    }
}

/// No such code.
pub fn no_learner(code: &str) -> String {
    format!("nobody in the class record has the code {code}; `linefall class` lists them")
}

/// No such group.
pub fn no_group(group: &str, known: &[&str]) -> String {
    if known.is_empty() {
        format!("there is no group {group}: the roster has no groups")
    } else {
        format!("there is no group {group}; the roster has {}", known.join(", "))
    }
}

/// Nothing came back of a set.
pub fn no_questions(set: &str, known: &[&str]) -> String {
    if known.is_empty() {
        format!("nothing came back of {set}, and of no other set yet")
    } else {
        format!("nothing came back of {set}; there is {}", known.join(", "))
    }
}

fn learners(count: usize) -> String {
    if count == 1 { "1 learner".to_owned() } else { format!("{count} learners") }
}

/// A name where there is one, else nothing.
pub fn name(member: &Member) -> &str {
    match &member.person.name {
        Some(name) => name,
        None if member.not_on_roster => "(not on the roster)",
        None => "",
    }
}

/// How somebody reads an instrument, in a few characters: `38/40 uniform`.
pub fn cell(tool: Option<&Tool>) -> String {
    let Some(tool) = tool.filter(|tool| tool.lately.answered > 0) else { return "-".to_owned() };
    format!("{}/{} {}", tool.lately.right, tool.lately.answered, how(tool))
}

/// The same in fewer: the sign beside it says that it still happens.
pub fn short_cell(tool: Option<&Tool>) -> String {
    match tool.and_then(|tool| tool.live.as_deref().map(|live| (tool, live))) {
        Some((tool, live)) => format!("{}/{} {}", tool.lately.right, tool.lately.answered, slip(live)),
        None => cell(tool),
    }
}

/// The sign that goes with it, for whoever sees no colours.
pub fn sign(tool: Option<&Tool>) -> char {
    match tool {
        None => ' ',
        Some(tool) if tool.gross > 0 || tool.live.is_some() => '!',
        Some(tool) => match tool.standing {
            Standing::Met => '=',
            Standing::Nearly => '~',
            Standing::Open => '.',
            Standing::Short => 'x',
        },
    }
}

/// What a sign means.
pub const SIGNS: &str = "= uniform   ~ nearly   . so far   x not yet   ! gross, or still happening";

fn how(tool: &Tool) -> String {
    if let Some(live) = &tool.live {
        return format!("still: {}", slip(live));
    }
    match (tool.standing, tool.gross) {
        (Standing::Met, _) => "uniform".to_owned(),
        (_, gross) if gross > 0 => format!("{gross} gross"),
        (Standing::Nearly, _) => "nearly".to_owned(),
        (Standing::Open, _) => "so far".to_owned(),
        (Standing::Short, _) => "not yet".to_owned(),
    }
}

/// A day as month and day; a record without one has none.
pub fn month_day(day: Option<Day>) -> String {
    day.map_or_else(String::new, |day| day.at(0)[5..10].to_owned())
}

/// A whole date.
pub fn date(day: Day) -> String {
    day.at(0)[..10].to_owned()
}

/// A share's interval: `83 to 99 %`.
pub fn interval(of: Option<Interval>) -> Option<String> {
    of.map(|of| format!("{:.0} to {:.0} %", of.low * 100.0, of.high * 100.0))
}

/// A misread of the class.
pub fn common(of: &Common) -> String {
    let mut parts = Vec::new();
    let mut add =
        |who: &[String], word: &str| parts.extend((!who.is_empty()).then(|| format!("{} {word}", who.len())));
    add(&of.leading, "likely");
    add(&of.confirmed, "sure");
    add(&of.gone, "put right");
    parts.join(", ")
}

/// The shop's words for a misread; a record may name one that is no longer known.
pub fn slip(id: &str) -> &str {
    misread::named(id).map_or(id, |misread| misread.name)
}

/// Milliseconds as seconds with one decimal, rounded half up.
pub fn seconds(ms: u64) -> String {
    let tenths = ms / 100 + u64::from(ms % 100 >= 50);
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// What stands above the learners on the screen.
pub fn heads(class: &Class, sets: usize) -> [String; 3] {
    let worst = class.common.first().map_or_else(
        || NOTHING_COMMON.to_owned(),
        |of| format!("most: {} ({})", slip(&of.misread), common(of)),
    );
    let absent: usize = class
        .given
        .iter()
        .map(|given| given.stands.iter().filter(|stand| stand.back == Back::Absent).count())
        .sum();
    let cards = class.given.len();
    [
        format!("What the class gets wrong ({worst})"),
        format!("Which questions bite ({sets} {})", if sets == 1 { "set" } else { "sets" }),
        format!(
            "What was given out ({cards} {}, {absent} times nothing back)",
            if cards == 1 { "card" } else { "cards" }
        ),
    ]
}

/// Which instruments are in view.
pub fn columns(first: usize, last: usize, of: usize) -> String {
    format!("instruments {first} to {last} of {of}, \u{2190}\u{2192} for more ")
}

/// The page of what the class gets wrong.
pub fn all_common(class: &Class, title: impl Fn(&str) -> String) -> Vec<String> {
    let mut lines = vec![COMMON.to_owned(), format!("    {COMMON_LEGEND}")];
    if class.common.is_empty() {
        lines.push(NOTHING_COMMON.to_owned());
    }
    let most = class.common.iter().map(|of| of.leading.len() + of.gone.len()).max().unwrap_or(0);
    for of in &class.common {
        let tools: Vec<String> = of.instruments.iter().map(|id| title(id)).collect();
        lines.push(format!("{}: {}", slip(&of.misread), common(of)));
        // A head a learner, so that the longest is seen first.
        if most > 0 {
            lines.push(format!("    {}{}", "#".repeat(of.leading.len()), "-".repeat(of.gone.len())));
        }
        lines.push(format!("    on {}", tools.join(", ")));
        for (word, who) in [("likely", &of.leading), ("sure", &of.confirmed), ("put right", &of.gone)] {
            if !who.is_empty() {
                lines.push(format!("    {word}: {}", who.join(", ")));
            }
        }
    }
    lines
}

/// The page of what was given out.
pub fn all_given(class: &Class) -> Vec<String> {
    let mut lines = vec![GIVEN.to_owned()];
    if class.given.is_empty() {
        lines.push(NOTHING_GIVEN.to_owned());
    }
    for one in class.given.iter().rev() {
        lines.push(given(one));
        lines.extend(given_beside(one).into_iter().map(|line| format!("    {line}")));
    }
    lines
}

/// Rows that an older or a newer version made.
pub fn stale(rows: usize) -> String {
    format!(
        "{rows} learners were collected by another version and are left out: `linefall collect` counts them anew"
    )
}

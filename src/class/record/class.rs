//! Rows, roster and issued cards, put together.

use super::row::{Brief, Row};
use crate::class::sitting::Purpose;
use crate::learner::calendar::Day;
use crate::learner::gates::Standing;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Somebody on the roster. Names stay with the instructor: files carry codes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Person {
    /// The short code.
    pub code: String,
    /// The name, where the roster has one.
    pub name: Option<String>,
    /// The group, where there are groups.
    pub group: Option<String>,
}

/// What was given out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Issued {
    /// The number of the card.
    pub card: String,
    /// The drill set's id.
    pub set: String,
    /// What a person calls it.
    pub title: String,
    /// What it is for.
    pub purpose: Purpose,
    /// When it was given out, UTC as RFC 3339.
    pub at: String,
    /// Until when it is wanted back.
    pub due: Option<String>,
    /// The end of that day where the card was issued, UTC as RFC 3339; none where only the day is known.
    pub until: Option<String>,
    /// The codes it went to; empty: everybody.
    pub to: Vec<String>,
}

impl Issued {
    /// The time, or the day, that a sitting is late after.
    fn wanted(&self) -> Option<&str> {
        self.until.as_deref().or(self.due.as_deref())
    }
}

/// The class, or a group of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Class {
    /// In the order of the roster; then those who are not on it.
    pub members: Vec<Member>,
    /// The ids of the instruments that anybody met, those met by most first.
    pub instruments: Vec<String>,
    /// The cards in the order they were given out, and how each stands.
    pub given: Vec<Given>,
    /// What the class gets wrong: what most have first.
    pub common: Vec<Common>,
}

/// Somebody of the class.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Member {
    /// Who.
    pub person: Person,
    /// Answers came back from a code that is not on the roster.
    pub not_on_roster: bool,
    /// How they read; none before anything came back.
    pub row: Option<Row>,
}

/// An issued card.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Given {
    /// What.
    #[serde(flatten)]
    pub issued: Issued,
    /// With each member that it went to.
    pub stands: Vec<Stand>,
}

/// How a card stands with a member.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stand {
    /// The member's code.
    pub learner: String,
    /// Whether anything came back.
    pub back: Back,
    /// Each time it was sat, in order.
    pub tries: Vec<Try>,
}

/// Whether anything came back of a card.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Back {
    /// Something did.
    Returned,
    /// Not yet.
    NotBack,
    /// Not by the day it was wanted.
    Absent,
}

/// One sitting over a card.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Try {
    /// The first, the second ...
    pub nth: u32,
    /// Ended after it was wanted back.
    pub late: bool,
    /// What it came to.
    #[serde(flatten)]
    pub brief: Brief,
}

/// A misread in the class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Common {
    /// Its id.
    pub misread: String,
    /// Those with whom it leads among the explanations of the latest answers.
    pub leading: Vec<String>,
    /// Those with whom it is confirmed and still happens.
    pub confirmed: Vec<String>,
    /// Those with whom it was confirmed and is gone.
    pub gone: Vec<String>,
    /// The instruments it happens on.
    pub instruments: Vec<String>,
}

impl Class {
    /// The class of a roster. `rows` in any order; `now` is UTC as RFC 3339. With a group, that group of it.
    pub fn of(
        roster: Vec<Person>,
        rows: Vec<Row>,
        issued: Vec<Issued>,
        group: Option<&str>,
        now: &str,
    ) -> Self {
        let mut rows: BTreeMap<String, Row> =
            rows.into_iter().map(|row| (row.learner.clone(), row)).collect();
        let mut members = Vec::new();
        for person in roster {
            let row = rows.remove(&person.code);
            if group.is_none_or(|group| person.group.as_deref() == Some(group)) {
                members.push(Member { person, not_on_roster: false, row });
            }
        }
        if group.is_none() {
            members.extend(rows.into_iter().map(|(code, row)| Member {
                person: Person { code, name: None, group: None },
                not_on_roster: true,
                row: Some(row),
            }));
        }
        if group.is_none() {
            // Whom a card names and nobody knows.
            let named: BTreeSet<String> =
                issued.iter().flat_map(|issued| issued.to.iter().cloned()).collect();
            let known: BTreeSet<String> = members.iter().map(|member| member.person.code.clone()).collect();
            members.extend(named.difference(&known).map(|code| Member {
                person: Person { code: code.clone(), name: None, group: None },
                not_on_roster: true,
                row: None,
            }));
        }
        let given = issued.into_iter().map(|issued| given(issued, &members, now)).collect();
        Self { instruments: instruments(&members), common: common(&members), given, members }
    }

    /// Somebody by code.
    pub fn member(&self, code: &str) -> Option<&Member> {
        self.members.iter().find(|member| member.person.code == code)
    }

    /// How many of those who met an instrument read it uniformly.
    pub fn uniform(&self, instrument: &str) -> (usize, usize) {
        let met: Vec<_> = self.members.iter().filter_map(|m| m.row.as_ref()?.on(instrument)).collect();
        (met.iter().filter(|tool| tool.standing == Standing::Met).count(), met.len())
    }
}

fn instruments(members: &[Member]) -> Vec<String> {
    let mut met: BTreeMap<&str, usize> = BTreeMap::new();
    for tool in members.iter().filter_map(|member| member.row.as_ref()).flat_map(|row| &row.tools) {
        *met.entry(&tool.instrument).or_default() += 1;
    }
    let mut met: Vec<(&str, usize)> = met.into_iter().collect();
    met.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    met.into_iter().map(|(id, _)| id.to_owned()).collect()
}

fn given(issued: Issued, members: &[Member], now: &str) -> Given {
    let is_to = |code: &str| issued.to.is_empty() || issued.to.iter().any(|to| to == code);
    let stands = members
        .iter()
        .filter(|member| is_to(&member.person.code))
        .filter(|member| {
            let named = issued.to.contains(&member.person.code);
            named || !member.not_on_roster || !tries(&issued, member).is_empty()
        })
        .map(|member| {
            let tries = tries(&issued, member);
            let over = issued.wanted().is_some_and(|due| is_after(now, due));
            let back = match (tries.is_empty(), over) {
                (false, _) => Back::Returned,
                (true, true) => Back::Absent,
                (true, false) => Back::NotBack,
            };
            Stand { learner: member.person.code.clone(), back, tries }
        })
        .collect();
    Given { issued, stands }
}

fn tries(issued: &Issued, member: &Member) -> Vec<Try> {
    let sat = member.row.iter().flat_map(|row| &row.sittings);
    let of_it = sat.filter(|brief| brief.card.as_deref() == Some(&issued.card));
    let mut tries: Vec<Try> = of_it
        .map(|brief| {
            let end = brief.ended.as_deref().unwrap_or(&brief.begun);
            let late = issued.wanted().is_some_and(|due| is_after(end, due));
            Try { nth: brief.nth, late, brief: brief.clone() }
        })
        .collect();
    // By their own numbers: a clock can be set back, and a first try may never have come.
    tries.sort_by_key(|one| one.nth);
    tries
}

/// Whether a time is after what was wanted: a whole day where only a date was given. Both are UTC as RFC 3339, so that their
/// texts have the order of their times.
fn is_after(time: &str, due: &str) -> bool {
    if due.len() == 10 { Day::of(time) > Day::of(due) } else { time > due }
}

fn common(members: &[Member]) -> Vec<Common> {
    let mut all: BTreeMap<&str, [BTreeSet<&str>; 4]> = BTreeMap::new();
    for (member, tool) in members
        .iter()
        .filter_map(|m| Some((m, m.row.as_ref()?)))
        .flat_map(|(m, row)| row.tools.iter().map(move |t| (m, t)))
    {
        let code = member.person.code.as_str();
        for (place, id) in tool.leading.iter().map(|id| (0, id)).chain(tool.live.iter().map(|id| (1, id))) {
            let of = all.entry(id).or_default();
            of[place].insert(code);
            of[3].insert(&tool.instrument);
        }
        for id in &tool.gone {
            let of = all.entry(id).or_default();
            of[2].insert(code);
            of[3].insert(&tool.instrument);
        }
    }
    let own = |of: &BTreeSet<&str>| of.iter().map(|one| (*one).to_owned()).collect::<Vec<String>>();
    // In the order of the class.
    let heads = |of: &BTreeSet<&str>| -> Vec<String> {
        let codes = members.iter().map(|member| &member.person.code);
        codes.filter(|code| of.contains(code.as_str())).cloned().collect()
    };
    let one = |(id, [leading, confirmed, gone, instruments]): (&str, [BTreeSet<&str>; 4])| Common {
        misread: id.to_owned(),
        leading: heads(&leading),
        confirmed: heads(&confirmed),
        gone: heads(&gone),
        instruments: own(&instruments),
    };
    let mut all: Vec<Common> = all.into_iter().map(one).collect();
    all.sort_by_key(|of| std::cmp::Reverse((of.leading.len(), of.confirmed.len(), of.gone.len())));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::sitting::{End, Sitting};
    use crate::class::testing::{entry, misread_by, sitting};
    use crate::class::verdict::judge;
    use crate::instrument::Catalogue;
    use crate::learner::progress::Score;
    use crate::learner::summary::Summary;

    const NOW: &str = "2026-03-20T08:00:00Z";

    fn row(learner: &str, sittings: &[Sitting]) -> Row {
        let catalogue = Catalogue::new(Vec::new());
        let entries = || sittings.iter().flat_map(|sitting| &sitting.entries);
        let summary = Summary::of(entries().map(|entry| &entry.attempt));
        let brief = |one: &Sitting| Brief::of(one, &judge(None, one.end, &one.entries, &catalogue));
        Row::of(learner, &summary, sittings.iter().map(brief).collect(), &catalogue)
    }

    fn person(code: &str, group: &str) -> Person {
        Person { code: code.to_owned(), name: None, group: Some(group.to_owned()) }
    }

    fn card(due: Option<&str>, to: &[&str]) -> Issued {
        Issued {
            card: "c1".to_owned(),
            set: "first".to_owned(),
            title: "First".to_owned(),
            purpose: Purpose::Exercise,
            at: "2026-03-08T07:00:00Z".to_owned(),
            due: due.map(str::to_owned),
            until: None,
            to: to.iter().map(|code| (*code).to_owned()).collect(),
        }
    }

    fn sat(id: &str, ended: &str) -> Sitting {
        let entries = (1..=4).map(entry).collect();
        let ended = Some(ended.to_owned());
        Sitting { card: Some("c1".to_owned()), ended, ..sitting(id, "k7", "first", entries) }
    }

    #[test]
    fn late_second_try_and_absent_are_shown() {
        let first = sat("a", "2026-03-09T07:50:00Z");
        let again = Sitting { nth: 2, end: End::TimeUp, ..sat("b", "2026-03-11T07:50:00Z") };
        let roster = vec![person("k7", "days"), person("k8", "days"), person("k9", "nights")];
        let rows = || vec![row("k7", &[first.clone(), again.clone()])];
        let class = Class::of(roster.clone(), rows(), vec![card(Some("2026-03-10"), &[])], None, NOW);
        let stands = &class.given[0].stands;
        let tries: Vec<_> = stands[0].tries.iter().map(|one| (one.nth, one.late, one.brief.end)).collect();
        assert_eq!(tries, [(1, false, End::Done), (2, true, End::TimeUp)]);
        assert_eq!((stands[1].back, stands[2].back), (Back::Absent, Back::Absent));
        // Before the day it is not back yet; on the day itself it is in time.
        let early = Class::of(
            roster.clone(),
            rows(),
            vec![card(Some("2026-03-11"), &["k7", "k8"])],
            None,
            "2026-03-11T23:00:00Z",
        );
        let stands = &early.given[0].stands;
        assert_eq!((stands.len(), stands[1].back, stands[0].tries[1].late), (2, Back::NotBack, false));
        // Where the day ends later than it does in UTC, that is the end.
        let west = Issued { until: Some("2026-03-11T09:00:00Z".to_owned()), ..card(Some("2026-03-10"), &[]) };
        let west = Class::of(roster.clone(), rows(), vec![west], None, "2026-03-11T08:00:00Z");
        assert!(!west.given[0].stands[0].tries[1].late && west.given[0].stands[1].back == Back::NotBack);
        let nights = Class::of(roster, rows(), vec![card(None, &[])], Some("nights"), NOW);
        assert_eq!((nights.members.len(), nights.given[0].stands.len()), (1, 1));
        assert!(nights.instruments.is_empty());
    }

    #[test]
    fn who_is_not_on_the_roster_is_shown_all_the_same() {
        let class =
            Class::of(vec![person("k8", "days")], vec![row("k7", &[sat("a", NOW)])], Vec::new(), None, NOW);
        assert_eq!(class.members.len(), 2);
        let stranger = class.member("k7").expect("a row");
        assert!(stranger.not_on_roster && stranger.row.as_ref().is_some_and(|row| row.score.right == 4));
        assert_eq!(class.uniform("micrometer-metric"), (0, 1));
    }

    #[test]
    fn what_the_class_gets_wrong_counts_heads() {
        let held = "half-line-missed";
        // Each of these settings shows a half line: n.75 and the like.
        let halves: Vec<u32> = (1..=40).filter(|place| (place * 37 + 100) % 100 >= 50).take(6).collect();
        // The last so many of six are wrong.
        let entries = |wrong: usize| {
            (0..)
                .zip(&halves)
                .map(|(n, place)| if n >= 6 - wrong { half(*place, held) } else { entry(*place) })
                .collect()
        };
        let of = |code: &str, wrong| row(code, &[sitting("a", code, "first", entries(wrong))]);
        let rows = vec![of("k7", 3), of("k8", 0), of("k9", 4)];
        let class = Class::of(Vec::new(), rows, Vec::new(), None, NOW);
        assert_eq!(class.common.len(), 1, "{:?}", class.common);
        assert_eq!((&class.common[0].misread[..], class.common[0].confirmed.len()), (held, 2));
        let row = class.member("k9").and_then(|member| member.row.as_ref()).expect("a row");
        let tool = row.on("micrometer-metric").expect("read");
        assert_eq!((tool.lately, tool.gross), (Score { answered: 6, right: 2 }, 4));
        assert_eq!(tool.steps[0].times, 4);
        assert_eq!(tool.weeks[0].monday, Day::of("2026-03-09").expect("a Monday"));
    }

    /// A half line missed: half a millimetre too little.
    fn half(place: u32, id: &str) -> crate::class::sitting::Entry {
        let mut wrong = misread_by(place, id, 0);
        let n = place * 37 + 50;
        wrong.attempt.answer = format!("{}.{:02}", n / 100, n % 100);
        wrong
    }
}

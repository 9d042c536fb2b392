//! A question as a reader sees it: what each scale shows, from the stream's own answer sheet.

use serde_json::Value;

/// Millionths of the unit: every figure that is shown, and a tenth of it, is whole.
pub type Figure = i64;

/// What stands on the tool.
#[derive(Clone, Debug, Default)]
pub struct Seen {
    /// Sleeve or main scale.
    pub coarse: Figure,
    /// Thimble; nought on a caliper.
    pub thimble: Figure,
    /// Vernier; nought where there is none.
    pub vernier: Figure,
    /// What it reads when closed.
    pub zero: Figure,
    /// The size is asked for, not the reading.
    pub corrected: bool,
    /// The geometry.
    pub tool: Tool,
}

/// The geometry of a tool, in figures.
#[derive(Clone, Copy, Debug, Default)]
pub struct Tool {
    /// Between lines of the sleeve or main scale.
    pub division: Figure,
    /// Between whole lines, where there are halves.
    pub whole: Option<Figure>,
    /// Between the figured lines.
    pub figured: Figure,
    /// One line of the thimble, and its lines in a turn.
    pub thimble: Option<(Figure, i64)>,
    /// What a line of the vernier is worth, its parts, and the divisions they are over.
    pub vernier: Option<(Figure, i64, i64)>,
    /// Decimals of a reading.
    pub places: usize,
}

/// The three tools, as their makers describe them.
pub fn tool(id: &str) -> Tool {
    match id {
        "micrometer-metric" => Tool {
            division: 500_000,
            whole: Some(1_000_000),
            figured: 5_000_000,
            thimble: Some((10_000, 50)),
            vernier: None,
            places: 2,
        },
        "caliper-inch-25" => Tool {
            division: 25_000,
            whole: None,
            figured: 100_000,
            thimble: None,
            vernier: Some((1_000, 25, 24)),
            places: 3,
        },
        "micrometer-inch-tenths" => Tool {
            division: 25_000,
            whole: None,
            figured: 100_000,
            thimble: Some((1_000, 25)),
            vernier: Some((100, 10, 9)),
            places: 4,
        },
        _ => panic!("no such tool here: {id}"),
    }
}

impl Seen {
    /// From a question with its `reveal`.
    pub fn of(question: &Value) -> Self {
        let tool = tool(question["instrument"].as_str().expect("an instrument"));
        let mut seen = Self { tool, ..Self::default() };
        for step in question["reveal"]["steps"].as_array().expect("steps") {
            let value = figure(step["value"].as_str().expect("a value"));
            match step["stage"].as_str().expect("a stage") {
                "sleeve" | "main scale" => seen.coarse = value,
                "thimble" => seen.thimble = value,
                "vernier" => seen.vernier = value,
                other => panic!("no such stage here: {other}"),
            }
        }
        seen.zero = figure(question["reveal"]["zero_error"].as_str().expect("a zero error"));
        seen.corrected = question["asks"] == "corrected";
        seen
    }

    /// The reading.
    pub fn reading(&self) -> Figure {
        self.coarse + self.thimble + self.vernier
    }

    /// The right answer.
    pub fn right(&self) -> Figure {
        self.size_of(self.reading())
    }

    /// The answer of someone who reads this and goes on rightly.
    pub fn size_of(&self, reading: Figure) -> Figure {
        if self.corrected { reading - self.zero } else { reading }
    }

    /// What one line of the finest scale is worth.
    pub fn least(&self) -> Figure {
        self.tool
            .vernier
            .map(|(worth, ..)| worth)
            .or(self.tool.thimble.map(|(worth, _)| worth))
            .expect("a scale")
    }
}

/// Reads a decimal.
pub fn figure(text: &str) -> Figure {
    let (sign, digits) = text.strip_prefix('-').map_or((1, text), |rest| (-1, rest));
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let part = format!("{part:0<6}");
    sign * (whole.parse::<i64>().expect("digits") * 1_000_000 + part.parse::<i64>().expect("six digits"))
}

/// Writes a figure with at least so many decimals.
pub fn spell(figure: Figure, places: usize) -> String {
    let sign = if figure < 0 { "-" } else { "" };
    let size = figure.abs();
    let mut part = format!("{:06}", size % 1_000_000);
    while part.len() > places && part.ends_with('0') {
        part.pop();
    }
    format!("{sign}{}.{part}", size / 1_000_000)
}

/// A tool standing everywhere in its range, set right and with every zero error that is asked about.
pub fn everywhere(id: &str) -> Vec<Seen> {
    let tool = tool(id);
    let least = Seen { tool, ..Seen::default() }.least();
    let turn = tool.division;
    let top = match id {
        "micrometer-metric" => 25_000_000,
        "caliper-inch-25" => 6_000_000,
        _ => 1_000_000,
    };
    let mut all = Vec::new();
    for zero in (-4..=4).map(|n| n * least) {
        for n in 0..=top / least {
            let reading = n * least;
            let above = reading % turn;
            let line = match (tool.thimble, tool.vernier) {
                (Some((worth, _)), Some(_)) => above - above % worth,
                (Some(_), None) => above,
                (None, _) => 0,
            };
            all.push(Seen {
                coarse: reading - above,
                thimble: line,
                vernier: above - line,
                zero,
                corrected: zero != 0,
                tool,
            });
        }
    }
    all
}

//! An SVG as plates, lines and texts; lengths in hundredths of a unit.

use roxmltree::{Document, Node};
use std::collections::BTreeSet;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plate {
    pub fill: String,
    pub left: i64,
    pub right: i64,
    pub top: i64,
    pub bottom: i64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Line {
    pub x1: i64,
    pub y1: i64,
    pub x2: i64,
    pub y2: i64,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    pub x: i64,
    pub y: i64,
    pub size: i64,
    pub words: String,
}

#[derive(Clone)]
pub struct Page {
    width: i64,
    height: i64,
    pub plates: Vec<Plate>,
    pub lines: Vec<Line>,
    pub texts: Vec<Text>,
    pub inks: BTreeSet<String>,
    /// Plates come first, then lines, then texts.
    pub in_order: bool,
}

impl Page {
    pub fn parse(text: &str) -> Result<Self, String> {
        let document = Document::parse(text).map_err(|fault| fault.to_string())?;
        let root = document.root_element();
        if root.tag_name().name() != "svg"
            || root.tag_name().namespace() != Some("http://www.w3.org/2000/svg")
        {
            return Err("not an SVG".to_owned());
        }
        let (width, height) = (number(root, "width")?, number(root, "height")?);
        let mut page = Self {
            width,
            height,
            plates: vec![],
            lines: vec![],
            texts: vec![],
            inks: BTreeSet::new(),
            in_order: true,
        };
        let mut rank = 0;
        for node in root.descendants().filter(Node::is_element) {
            let here = match node.tag_name().name() {
                "rect" => {
                    let (left, top) = (number(node, "x")?, number(node, "y")?);
                    let (right, bottom) = (left + number(node, "width")?, top + number(node, "height")?);
                    let fill = node.attribute("fill").ok_or("a plate without a fill")?.to_owned();
                    page.plates.push(Plate { fill, left, right, top, bottom });
                    1
                }
                "line" => {
                    let [x1, y1, x2, y2] =
                        [number(node, "x1")?, number(node, "y1")?, number(node, "x2")?, number(node, "y2")?];
                    if [x1, x2].iter().any(|x| !(0..=width).contains(x))
                        || [y1, y2].iter().any(|y| !(0..=height).contains(y))
                    {
                        return Err(format!("a line off the page: {x1} {y1} {x2} {y2}"));
                    }
                    page.inks.insert(node.attribute("stroke").ok_or("a line without ink")?.to_owned());
                    page.lines.push(Line { x1, y1, x2, y2 });
                    2
                }
                "text" => {
                    let (x, y, size) = (number(node, "x")?, number(node, "y")?, number(node, "font-size")?);
                    page.texts.push(Text { x, y, size, words: node.text().unwrap_or_default().to_owned() });
                    3
                }
                "svg" | "g" => rank,
                other => return Err(format!("an element {other}")),
            };
            page.in_order &= here >= rank;
            rank = here;
        }
        Ok(page)
    }

    /// A picture on a sheet of paper, where plates are told apart by their outlines: round corners are those of the member that
    /// moves, a heavy line is that of a frame. An outline lies within its plate.
    pub fn of_group(group: Node<'_, '_>) -> Result<Self, String> {
        let mut page = Self {
            width: 0,
            height: 0,
            plates: vec![],
            lines: vec![],
            texts: vec![],
            inks: BTreeSet::new(),
            in_order: true,
        };
        for node in group.descendants().filter(Node::is_element) {
            match node.tag_name().name() {
                "rect" => {
                    let wide = number(node, "stroke-width")?;
                    let (left, top) = (number(node, "x")? - wide / 2, number(node, "y")? - wide / 2);
                    let (right, bottom) =
                        (left + number(node, "width")? + wide, top + number(node, "height")? + wide);
                    let fill = match (node.has_attribute("rx"), wide > 200) {
                        (true, false) => "#c6c6c6",
                        (false, true) => "#b2b2b2",
                        (false, false) => "#e4e4e4",
                        (true, true) => return Err("a heavy plate with round corners".to_owned()),
                    };
                    page.plates.push(Plate { fill: fill.to_owned(), left, right, top, bottom });
                    (page.width, page.height) = (page.width.max(right), page.height.max(bottom));
                }
                "line" => page.lines.push(Line {
                    x1: number(node, "x1")?,
                    y1: number(node, "y1")?,
                    x2: number(node, "x2")?,
                    y2: number(node, "y2")?,
                }),
                "text" => {
                    let (x, y, size) = (number(node, "x")?, number(node, "y")?, number(node, "font-size")?);
                    page.texts.push(Text { x, y, size, words: node.text().unwrap_or_default().to_owned() });
                }
                _ => {}
            }
        }
        Ok(page)
    }

    /// The least distance between two lines that stand on one edge and lie on one side of it.
    pub fn closest(&self) -> Option<i64> {
        let mut places: Vec<(bool, i64, bool, i64)> = Vec::new();
        for line in &self.lines {
            if line.x1 == line.x2 {
                places.push((true, line.y1, line.y2 > line.y1, line.x1));
            } else if line.y1 == line.y2 {
                places.push((false, line.x1, line.x2 > line.x1, line.y1));
            }
        }
        places.sort_unstable();
        let same = |pair: &&[(bool, i64, bool, i64)]| {
            (pair[0].0, pair[0].1, pair[0].2) == (pair[1].0, pair[1].1, pair[1].2)
        };
        places.windows(2).filter(same).map(|pair| pair[1].3 - pair[0].3).min()
    }

    /// How far it reaches to the right.
    pub fn right(&self) -> i64 {
        self.width
    }

    /// How far it reaches down.
    pub fn bottom(&self) -> i64 {
        self.height
    }

    /// Without the round face beside the unrolled rim: the last frame of all, as tall as it is wide.
    pub fn without_face(&mut self) {
        let face = self
            .plates
            .iter()
            .rfind(|plate| plate.fill == "#b2b2b2" && plate.right - plate.left == plate.bottom - plate.top);
        let Some(face) = face.cloned() else { return };
        self.plates.retain(|plate| plate.left < face.left);
        self.lines.retain(|line| line.x1 < face.left);
        self.texts.retain(|text| text.x < face.left);
    }

    /// Left and right change places.
    pub fn mirror(&mut self) {
        let across = self.width;
        for plate in &mut self.plates {
            (plate.left, plate.right) = (across - plate.right, across - plate.left);
        }
        for line in &mut self.lines {
            (line.x1, line.x2) = (across - line.x1, across - line.x2);
        }
        for text in &mut self.texts {
            text.x = across - text.x;
            if let Some(figure) = text.words.strip_prefix('\u{203a}') {
                text.words = format!("{figure}\u{2039}");
            }
        }
    }

    /// Half a turn; figures stay as they are read, signs change sides.
    pub fn turn(&mut self) {
        let (across, down) = (self.width, self.height);
        for plate in &mut self.plates {
            (plate.left, plate.right) = (across - plate.right, across - plate.left);
            (plate.top, plate.bottom) = (down - plate.bottom, down - plate.top);
        }
        for line in &mut self.lines {
            *line =
                Line { x1: across - line.x1, y1: down - line.y1, x2: across - line.x2, y2: down - line.y2 };
        }
        for text in &mut self.texts {
            // Figures are three quarters of their size tall.
            (text.x, text.y) = (across - text.x, down - (text.y - text.size * 3 / 4));
            if let Some(figure) = text.words.strip_prefix('\u{203a}') {
                text.words = format!("{figure}\u{2039}");
            } else if let Some(figure) = text.words.strip_suffix('\u{2039}') {
                text.words = format!("\u{203a}{figure}");
            }
        }
    }

    /// What grows upward grows to the right, and what lies left lies above. Figures stand at their lines, half their height
    /// below the middle.
    pub fn lay_down(&mut self) {
        let down = self.height;
        for plate in &mut self.plates {
            let Plate { left, right, top, bottom, .. } = *plate;
            (plate.left, plate.right, plate.top, plate.bottom) = (down - bottom, down - top, left, right);
        }
        for line in &mut self.lines {
            *line = Line { x1: down - line.y1, y1: line.x1, x2: down - line.y2, y2: line.x2 };
        }
        for text in &mut self.texts {
            (text.x, text.y) = (down - (text.y - text.size * 3 / 8), text.x);
            if let Some(figure) = text.words.strip_suffix('\u{25be}') {
                text.words = format!("{figure}\u{2039}");
            }
        }
        (self.width, self.height) = (self.height, self.width);
    }

    /// Above and below change places.
    pub fn turn_over(&mut self) {
        let down = self.height;
        for plate in &mut self.plates {
            (plate.top, plate.bottom) = (down - plate.bottom, down - plate.top);
        }
        for line in &mut self.lines {
            (line.y1, line.y2) = (down - line.y1, down - line.y2);
        }
        for text in &mut self.texts {
            text.y = down - text.y + text.size * 3 / 4;
        }
    }

    /// Two pictures side by side: the only gap between plates parts them.
    pub fn halves(&self) -> Option<[Self; 2]> {
        let free = |x: i64| self.plates.iter().all(|plate| x < plate.left || plate.right <= x);
        let mut ends = self.plates.iter().map(|plate| plate.right).filter(|x| *x < self.width && free(*x));
        let end = ends.next()?;
        if ends.any(|other| other != end) {
            return None;
        }
        let begin = self.plates.iter().map(|plate| plate.left).filter(|x| *x > end).min()?;
        let (mut left, mut right) = (self.clone(), self.clone());
        left.plates.retain(|plate| plate.left < end);
        left.lines.retain(|line| line.x1 < end);
        left.texts.retain(|text| text.x < end);
        right.plates.retain(|plate| plate.left >= begin);
        right.lines.retain(|line| line.x1 >= begin);
        right.texts.retain(|text| text.x >= begin);
        for plate in &mut right.plates {
            (plate.left, plate.right) = (plate.left - begin, plate.right - begin);
        }
        for line in &mut right.lines {
            (line.x1, line.x2) = (line.x1 - begin, line.x2 - begin);
        }
        for text in &mut right.texts {
            text.x -= begin;
        }
        (left.width, right.width) = (end, self.width - begin);
        Some([left, right])
    }

    /// The plates of a fill, topmost first.
    pub fn plates_of(&self, fill: &str) -> Vec<&Plate> {
        let mut plates: Vec<&Plate> = self.plates.iter().filter(|plate| plate.fill == fill).collect();
        plates.sort_by_key(|plate| plate.top);
        plates
    }
}

fn number(node: Node<'_, '_>, name: &str) -> Result<i64, String> {
    let text = node.attribute(name).ok_or_else(|| format!("no {name}"))?;
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let hundredths = match part.len() {
        1 => part.parse::<i64>().map(|n| n * 10),
        2 => part.parse(),
        _ => return Err(format!("{name} = {text}")),
    };
    let size = whole.trim_start_matches('-').parse::<i64>().map_err(|_| format!("{name} = {text}"))?;
    let size = size * 100 + hundredths.map_err(|_| format!("{name} = {text}"))?;
    Ok(if whole.starts_with('-') { -size } else { size })
}

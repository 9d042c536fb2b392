//! How large a picture becomes on paper.

use crate::exact::Exact;
use crate::render::paper::MM;
use crate::render::vector::{self, Picture, UNIT};
use crate::scene::{Kind, Scene};

/// Micrometres of a unit of a picture, at the most: a tenth of a millimetre and a little more, so that a line of two units is
/// as wide as a pen's and figures are taller than 2 mm.
const LARGEST: i64 = 110;
/// Neighbours of two lines that meet miss by as much at the least: one dot of a coarse copy of 150 dots an inch, four of an
/// office printer of 600. An eye sees a tenth of it at arm's length (from memory); a copier does not.
pub(super) const LEAST_MISS: i64 = 170;
/// How tall a picture may be: a page less its head and foot.
const TALLEST: i64 = 200 * MM;
/// The most lengths a vernier is cut into.
const MOST_LENGTHS: i64 = 8;

/// How large a picture is, for a sentence below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Magnified {
    /// What is drawn.
    pub kind: Kind,
    /// How many times life size, in tenths; none where there is no length to compare.
    pub tenths: Option<i64>,
    /// How far the neighbours of two lines that meet miss each other, in micrometres, if lines meet on it.
    pub miss: Option<i64>,
}

/// A picture and the micrometres of its unit.
pub(super) struct Scaled {
    pub(super) picture: Picture,
    pub(super) scale: i64,
}

impl Scaled {
    /// As large as there is room.
    pub(super) fn into(picture: Picture, room: i64) -> Self {
        Self::at_most(picture, room, LARGEST)
    }

    /// The same up to so many micrometres of a unit.
    pub(super) fn at_most(picture: Picture, room: i64, most: i64) -> Self {
        let by_height = TALLEST * UNIT / picture.height.max(1);
        let scale = (room * UNIT / picture.width.max(1)).min(by_height).clamp(1, most);
        Self { picture: picture.on_paper(), scale }
    }

    pub(super) fn height(&self) -> i64 {
        self.picture.height * self.scale / UNIT
    }

    pub(super) fn width(&self) -> i64 {
        self.picture.width * self.scale / UNIT
    }

    pub(super) fn miss(&self) -> i64 {
        self.picture.scale.miss * self.scale / UNIT
    }

    pub(super) fn magnified(&self, kind: Kind, quantum: Option<Exact>) -> Magnified {
        let along = self.picture.scale.along * self.scale;
        let tenths = quantum.filter(|quantum| along > 0 && !quantum.is_negative() && *quantum != Exact::ZERO);
        let tenths = tenths.map(|quantum| {
            let times = Exact::ratio(i128::from(along * 10), i128::from(UNIT * MM)).over(quantum);
            let whole = times.numerator() / times.denominator();
            i64::try_from(whole).expect("a few times life size")
        });
        Magnified { kind, tenths, miss: (self.miss() > 0).then(|| self.miss()) }
    }
}

/// What is seen of a scene: the whole, and where its lines would meet too finely, its vernier under the glass length by length.
/// Every length is shown, so that which of them is looked at gives nothing away.
pub(super) fn whole_and_glass(scene: &Scene, room: i64) -> (Scaled, Vec<Scaled>) {
    let whole = Scaled::into(vector::draw_wide(scene, &[]), room);
    if whole.miss() == 0 || whole.miss() >= LEAST_MISS {
        return (whole, Vec::new());
    }
    let cut = |lengths: i64| {
        let all = vector::glass(scene, lengths, &[])?;
        let all: Vec<Scaled> = all.into_iter().map(|picture| Scaled::into(picture, room)).collect();
        all.iter().all(|one| one.miss() >= LEAST_MISS).then_some(all)
    };
    let glass = (2..=MOST_LENGTHS).find_map(cut).unwrap_or_default();
    (whole, glass)
}

//! The angle between the stylus of a test indicator and the work, and the factor it costs.
//!
//! The true movement is the reading times the cosine of the angle. Shops work from a table to two decimals, and so do we.

use crate::exact::Exact;

/// Degrees and hundredths, as published by makers of test indicators (reference: instrument facts, section 6).
const TABLE: [(u32, i128); 6] = [(10, 98), (20, 94), (30, 87), (40, 77), (50, 64), (60, 50)];

/// An angle that stands in the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Angle(u32);

impl Angle {
    /// Every angle of the table, the flattest first.
    pub fn all() -> impl ExactSizeIterator<Item = Self> {
        TABLE.into_iter().map(|(degrees, _)| Self(degrees))
    }

    /// The angle of so many degrees; `None` where the table has none.
    pub fn of(degrees: u32) -> Option<Self> {
        Self::all().find(|angle| angle.0 == degrees)
    }

    /// In degrees.
    pub fn degrees(self) -> u32 {
        self.0
    }

    /// What a reading is multiplied by.
    pub fn factor(self) -> Exact {
        let row = TABLE.into_iter().find(|(degrees, _)| *degrees == self.0);
        row.map_or(Exact::ONE, |(_, hundredths)| Exact::ratio(hundredths, 100))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Instrument facts, section 6: a maker's technical page; 60 degrees also cnccookbook.com, cosine error.
    #[test]
    fn the_published_factors() {
        let of = |degrees| Angle::of(degrees).map(Angle::factor);
        assert_eq!(of(60), Some(Exact::ratio(1, 2)));
        assert_eq!([10, 20, 30, 40, 50].map(of), [98, 94, 87, 77, 64].map(|n| Some(Exact::ratio(n, 100))));
        assert_eq!([0, 15, 70].map(of), [None, None, None]);
    }
}

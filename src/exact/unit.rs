//! The three units an instrument can be graduated in.

/// The base unit of an instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Inch.
    Inch,
    /// Millimetre.
    Millimetre,
    /// Minute of arc; read and written as degrees and minutes.
    Minute,
}

impl Unit {
    /// The short name used in files, streams and on the screen: `in`, `mm`, `deg`.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
            Self::Minute => "deg",
        }
    }

    /// Base units in one unit of the short name: 60 minutes in a degree, else 1.
    pub fn per_symbol(self) -> i128 {
        match self {
            Self::Inch | Self::Millimetre => 1,
            Self::Minute => 60,
        }
    }

    /// Reads the short name.
    pub fn from_symbol(text: &str) -> Option<Self> {
        match text {
            "in" => Some(Self::Inch),
            "mm" => Some(Self::Millimetre),
            "deg" => Some(Self::Minute),
            _ => None,
        }
    }
}

impl std::fmt::Display for Unit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.symbol())
    }
}

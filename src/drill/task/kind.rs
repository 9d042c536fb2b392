//! The kinds of question.

use crate::drill::record::words;
use serde::{Deserialize, Serialize};

words! {
    /// A kind of question: what is done with an instrument.
    #[derive(Default, PartialOrd, Ord)]
    Kind {
        /// It is read.
        #[default]
        Read = "read",
        /// One step of the reading alone, such as the sleeve.
        OneStep = "one-step",
        /// What one line of a scale is worth, or one turn.
        LineWorth = "line-worth",
        /// It is set to a size.
        SetIt = "set-it",
        /// Readings among which settings come a second time.
        SameAgain = "same-again",
        /// About where is it? Then the reading.
        EstimateFirst = "estimate-first",
        /// Two pictures that a trap separates.
        Pair = "pair",
        /// The other man's figure: is it right, and if not, what did he do?
        OtherMansSlip = "other-mans-slip",
        /// Which of several entries cannot come from the tool.
        CannotCome = "cannot-come",
        /// The zero is seen first: what now?
        WhatNow = "what-now",
        /// A part is judged against its drawing.
        InOrOut = "in-or-out",
        /// Fraction, decimal and millimetre, by heart.
        ByHeart = "by-heart",
        /// Shop speech to figures, and back.
        ShopSpeech = "shop-speech",
    }
}

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
        /// It is set to a size.
        SetIt = "set-it",
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

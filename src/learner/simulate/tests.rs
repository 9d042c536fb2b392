//! What a policy does with those whose end is known.

use super::*;

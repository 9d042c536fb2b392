//! Floor 3. Questions, marks, and the record of an answered question.
pub mod record;

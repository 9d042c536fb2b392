//! Linefall trains people to read graduated instruments: steel rules, verniers, micrometers, dials.
//!
//! ```
//! use linefall::exact::Quanta;
//! use linefall::instrument::{Catalogue, Variant};
//! use linefall::{reading, render, scene};
//!
//! let catalogue = Catalogue::new(Vec::new());
//! let micrometer = catalogue.get("micrometer-inch-tenths").expect("a shipped instrument");
//! // 0.2862 in, in quanta of a tenth of a thousandth.
//! let pose = reading::pose(micrometer, Quanta(2862), Quanta::ZERO);
//! assert_eq!(reading::read(micrometer, &pose).total, Quanta(2862));
//!
//! let scene = scene::build(micrometer, &pose, &Variant::default(), scene::View::Held);
//! let drawing = render::draw(&scene, &render::Request::new(80, 24, render::LineStyle::Thin))?;
//! for line in render::text::lines(&drawing.grid) {
//!     println!("{line}");
//! }
//! # Ok::<(), render::Refusal>(())
//! ```
//!
//! # Floors
//! A module uses lower floors only, never a neighbour.
//!
//! | floor | modules |
//! |---|---|
//! | 7 | [`tui`], [`cli`]: adapters; alone touch the terminal, the arguments, the clock |
//! | 6 | [`session`], [`store`], [`wording`]: use cases without I/O; database and files; sentences |
//! | 5 | [`class`]: item analysis |
//! | 4 | [`learner`], [`render`]: what attempts say; display list to cells, SVG, PDF, sheets, description |
//! | 3 | [`drill`], [`lesson`], [`scene`]: questions and marks; lessons; pose to display list |
//! | 2 | [`reading`]: setting, pose, reading, misreads, explanation |
//! | 1 | [`instrument`], [`terms`]: checked definitions; the glossary |
//! | 0 | [`exact`], [`diag`]: quantities and notation; spans and faults |
//!
//! # Types
//! Text becomes an [`instrument::Instrument`] or a list of [`diag::Diagnostic`]; an instrument and a setting a
//! [`reading::Pose`]; a pose a [`reading::Reading`] and a [`scene::Scene`]; a scene and a [`render::Request`] a
//! [`render::Drawing`] or a [`render::Refusal`]; a [`drill::Question`] and an [`exact::Typed`] text a [`drill::Mark`]; an
//! answered question a [`drill::record::Attempt`].
//!
//! # Not supported
//! Values that are not exact (there is no float below the statistics), scales that are not even, pictures that would have to
//! be rounded to fit.
pub mod class;
pub mod cli;
pub mod diag;
pub mod drill;
pub mod exact;
pub mod instrument;
pub mod learner;
pub mod lesson;
pub mod reading;
pub mod render;
pub mod scene;
pub mod session;
pub mod store;
pub mod terms;
pub mod tui;
pub mod wording;

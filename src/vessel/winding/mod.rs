//! Winding the overwrap: whether the bands hold where they shall lie, how thick they pile up, what it takes.
//!
//! Takes the tank as given, its dimensions, and what is stated about bands, tows and openings; hands each ply
//! with its path, build-up, pattern and amounts. One design, plain numbers; nothing of the chain rests on it.
//! In reading order:
//!
//! - what is given: `given`;
//! - where a fibre lies: `geodesic` (Clairaut), `dome` (curvatures of what is wound over), `slip` (which
//!   friction a path needs), `path` (the path itself, to where it turns), `isotensoid` (the dome whose fibres
//!   are all pulled alike, to compare with);
//! - what comes of it: `build_up`, `pattern`, `ply` (one ply with all of these), `liner` (what the winding does
//!   to the bare liner), `wound` (the whole wrap).
//!
//! First order: tows have no width of their own across the band but in the build-up and at the band's edges; the
//! surface wound over is that of the ply's middle, without the build-up of the plies below; the angle on the
//! cylinder is even, and all deviation from the geodesic lies on the domes.

mod build_up;
mod dome;
mod geodesic;
mod given;
mod isotensoid;
mod liner;
mod path;
mod pattern;
mod ply;
mod slip;
mod wound;

pub use build_up::banded_thickness;
pub use dome::{Dome, DomePlace};
pub use geodesic::{geodesic_angle, turning_length};
pub use given::Winding;
pub use isotensoid::{isotensoid_contour, isotensoid_depth};
pub use liner::{elastic_collapse_pressure, tension_pressure};
pub use path::{DomePath, PathPlace, dome_path};
pub use pattern::{Pattern, bands_for_cover, closing_pattern};
pub use ply::{BuildUpPlace, HelicalPly, Turn, WoundPly};
pub use slip::{edge_slippage, needed_slippage, normal_curvature};
pub use wound::{Wound, wind};

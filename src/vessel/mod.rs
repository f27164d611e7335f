//! The tank as a pressure vessel: closures, dimensions, liner and overwrap, margins, rule sets.
//!
//! Takes the tank as given and its form, metals and fibres from `material`; hands dimensions to the load
//! and the body, and margins at the pressures and flight loads that the chain brings. In reading order:
//!
//! - what is given: `form`, `tank`, `rule_set`;
//! - dimensions: `closure`, `torisphere`, `isotensoid`, then `dimensions`; `contour` for drawings;
//! - response: `membrane` (liner and overwrap share the load), `overwrap`, `thick_wall` and `bore`,
//!   `spent`, `seam`;
//! - response beyond yield, of one vessel: `flow` (the metal), `shared_wall` (with its wrap),
//!   `load_history` (through its pressures);
//! - a bulkhead held by bolts: `bolts` (what is given), then `bolt_row`;
//! - edge bending where cylinder and closure meet: `edge`, then `junction`, with the closure's side in `dome` (on its
//!   `meridian`) or `closure_plate`;
//! - the same for every design of a study, from rest to one pressure: `rising`;
//! - the overwrap as it is wound, of one vessel: `winding`;
//! - temperature, cycles and damage, of one vessel: `service`;
//! - what is attached to the cylinder: `fitting`;
//! - what is judged: `margins`;
//! - beside the chain, for checks by hand: `code_formulas`, `edge_limits`, `metal_burst`.
//!
//! Not in it yet: margins after flow back and forth; strength of the wrap over the domes.
//!
//! First order: elastic load share of liner and overwrap by common strain, Lame's stresses in the liner,
//! burst as the sum of what liner and fibres carry. Strength rests on the minimum wall that the tolerance
//! leaves; mass, volume and diameters on the nominal one. See each file for equations, sources and known
//! error.

mod bolt_row;
mod bolts;
mod bore;
mod capacity;
mod closure;
mod closure_plate;
pub mod code_formulas;
mod contour;
mod dimensions;
mod dome;
mod edge;
pub mod edge_limits;
pub mod fitting;
mod flow;
mod form;
mod isotensoid;
mod junction;
mod load_history;
mod margins;
mod membrane;
mod meridian;
pub mod metal_burst;
mod overwrap;
mod rising;
pub mod rule_set;
mod seam;
pub mod service;
mod shared_wall;
mod spent;
mod tank;
pub mod thick_wall;
mod torisphere;
mod walls;
pub mod winding;

pub use bolt_row::{RowStress, bolt_force, row_stress, wall_growth};
pub use bolts::{Bolts, bolt_mass, closure_length, overhang, tube_length};
pub use bore::bore_stress;
pub use capacity::burst_pressure;
pub(crate) use closure::closure_area_outside;
pub use closure::{
    closure_area, closure_depth, closure_metal_volume, closure_stress, closure_volume,
};
pub use contour::{MeridianPoint, closure_contour};
pub use dimensions::{Dimensions, dimensions};
pub use edge::Stress;
pub use flow::{Answer, FlowLaw, Flowed, equivalent_stress};
pub use form::{ClosureKind, DiameterPair, MAX_FITTINGS, MAX_PLIES, PlyKind, Shape, TankForm};
pub use junction::{JUDGED, Junction, Part, Place, SIGNS, Worst};
pub use load_history::{Begins, Held, LoadHistory, WallChoice, load_history};
pub use margins::{Margins, SHAKEDOWN, VesselLoads, margins};
pub use membrane::{
    Membrane, axial_line_load, axial_stress, hoop_line_load, hoop_stress, membrane_response,
    wall_stiffness,
};
pub(crate) use overwrap::fibre_path_over_radius;
pub use overwrap::{
    Overwrap, Ply, fibre_volume, helical_closure_fibre, laminate_thickness, netting_thickness,
};
pub use rising::{Risen, Rising, largest_zone_strain, risen};
pub use seam::{SeamBasis, girth_strength, seam_strength, seam_thickness};
pub use service::{ServiceForm, ServiceMatter};
pub use shared_wall::{SharedWall, Strained};
pub use tank::{Closure, GirthSeam, Liner, LongitudinalSeam, Tank};
pub use walls::{Ending, Seam};

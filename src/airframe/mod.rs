//! The airframe: body from the tank outwards, areas, fins and stability, drag.
//!
//! Takes the tank's diameter and length, nose, bays, skin and motor as given; hands the body to the mass
//! statement, fins and centre of pressure to the vehicle, and drag columns to `ascent`. In reading order:
//!
//! - the body: `nose`, `body`, `outline` for drawings;
//! - fins and stability: `fins`, `stability`;
//! - drag: `given_drag`, `friction`, `surface` and `pressure_drag`, then `drag_terms`, from which both
//!   `drag` (columns for the ascent, over `by_mach`) and `build_up` (every term at one Mach number) take;
//! - beside the chain: `roughness` (heights to choose from), `van_driest` (a second law of friction),
//!   `plate_heating` (heat from the air to a wall).
//!
//! Not in it yet: `bending` where dynamic pressure times angle of attack is largest, which will stand
//! after `stability` and take its loads from the ascent; `stability` above low speed.

mod body;
mod build_up;
mod by_mach;
mod drag;
mod drag_terms;
mod fins;
mod friction;
mod given_drag;
mod nose;
mod outline;
mod plate_heating;
mod pressure_drag;
mod roughness;
mod stability;
mod surface;
mod van_driest;

pub(crate) use body::bay_equivalents;
pub use body::{Bay, BayRule, Body, BodyForm, Skin, SkinRule, body, frontal_area};
pub use build_up::BuildUp;
pub use drag::{Drag, DragTable, MAX_DRAG_POINTS, build_drag, stated_drag};
pub use drag_terms::DragTerms;
pub use fins::{FinForm, FinRule, Fins, Planform, planform};
pub use friction::{compressibility, cut_off_reynolds, turbulent_plate};
pub use given_drag::GivenDrag;
pub use nose::{
    Nose, NoseRule, NoseShape, nose_centre_of_pressure, nose_skin_spread, nose_wetted_area,
};
pub use outline::{fin_outline, nose_outline};
pub use plate_heating::{
    HEATING_ERROR, PRANDTL, heat_transfer_coefficient, local_friction, recovery_temperature,
};
pub use pressure_drag::{base_drag, fin_wave_drag, nose_wave_drag};
pub use roughness::SAND_GRAIN_HEIGHTS;
pub(crate) use stability::CHORD_RANGE;
pub use stability::{Balance, centre_of_pressure, fin_normal_force, size_fins};
pub use van_driest::{AdiabaticWall, friction_spread, karman_schoenherr, van_driest};

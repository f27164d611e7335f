//! What service asks of a tank beside pressure: temperature, cycles, time, damage.
//!
//! Takes the tank as given, its dimensions and pressures, for the wall in flight also columns of heating; hands
//! numbers of one matter each. One design, plain numbers; nothing of the chain rests on it. Each matter is judged
//! only where its table is given, and every allowance is asked for. In reading order:
//!
//! - what is given: `given`;
//! - liner and fibres that would like different lengths: `thermal`, then `cool_down` (after cure) and `draw_off`
//!   (a cold liner under a warm wrap);
//! - `proof_test` at another temperature than service;
//! - `hot_wall`: the wrap in the sun and in flight;
//! - `endurance`: pressure cycles of the metal, time under pressure of the fibre;
//! - `damage`.
//!
//! First order: thermal strains are elastic and start from a tank at rest; the resin carries and shrinks nothing;
//! the cylinder stands for the tank, away from closures.

mod cool_down;
mod damage;
mod draw_off;
mod endurance;
mod given;
mod hot_wall;
mod proof_test;
mod thermal;

pub use cool_down::{CoolDownResult, cool_down, cooled};
pub use damage::{DamageResult, damage};
pub use draw_off::{DrawOffResult, draw_off};
pub use endurance::{
    CyclesResult, Endured, HoldResult, Range, cycle, cycles, ductility, hold, universal_slopes,
    universal_slopes_life,
};
pub use given::{
    CoolDown, Cycles, Damage, DrawOff, Hold, HotWall, ProofTest, Service, ServiceForm,
    ServiceMatter,
};
pub use hot_wall::{HeatedWall, Heating, HotWallResult, WallLayer, heat_up};
pub use proof_test::{ProofTestResult, proof_test};
pub use thermal::{ThermalStress, free_pull, gap_after, thermal_stress};

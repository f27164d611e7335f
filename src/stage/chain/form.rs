//! [`Form`]: everything about a stage that cannot vary continuously.

use super::digested::Digested;
use crate::airframe::{BodyForm, DragTable, SkinRule};
use crate::ascent::{Course, Grid};
use crate::mass::{MAX_ITEMS, Place};
use crate::motor::{Curve, ThrustBasis, ThrustRule};
use crate::quantity::{Applies, choice};
use crate::vessel::fitting::FittingHold;
use crate::vessel::rule_set::BurstBasis;
use crate::vessel::{ClosureKind, ServiceMatter, Shape, TankForm};

choice! {
    /// Which measure of the load stays when the tank changes.
    pub enum LoadRule {
        /// The ullage stays; the mass follows.
        Ullage = "ullage",
        /// The mass stays; the ullage follows.
        Mass = "mass",
    }
}

choice! {
    /// What the MEOP rests on.
    pub enum PressureBasis {
        /// A pressure stated by the user, with a reason.
        Stated = "stated",
        /// The relief is open: its setting plus accumulation.
        Vented = "vented",
        /// The tank is closed and soaks to the soak temperature.
        Closed = "closed",
    }
}

choice! {
    /// The atmosphere.
    pub enum AtmosphereModel {
        /// U.S. Standard Atmosphere 1976.
        Standard = "us_standard_1976",
        /// The same with the temperature and pressure read at the site.
        OffStandardDay = "off_standard_day",
        /// Exponential density and pressure, as in textbook cases.
        Exponential = "exponential",
    }
}

/// The tank and what it holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct TankSide {
    /// The tank.
    pub tank: TankForm,
    /// Which measure of its size is the input.
    pub shape: Shape,
    /// Which measure of its load is the input.
    pub load: LoadRule,
    /// What the MEOP rests on.
    pub basis: PressureBasis,
    /// Whether a stated MEOP is given.
    pub stated_pressure: bool,
    /// Whether a relief is given.
    pub relief: bool,
    /// Whether the tank's mass is stated as a what-if.
    pub stated_mass: bool,
    /// What the required burst pressure is counted on.
    pub burst_basis: BurstBasis,
}

/// How the drag comes about.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Shell {
    /// A body drawn from its parts.
    Drawn(BodyForm),
    /// A drag table on a stated diameter.
    Stated(Digested<DragTable>),
}

/// Everything that cannot vary continuously. Equal forms can share a block of lanes.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Form {
    /// The tank; none for a stated propellant mass.
    pub tank: Option<TankSide>,
    /// Body or stated drag.
    pub shell: Shell,
    /// Thrust curve as given.
    pub curve: Digested<Curve>,
    /// Ambient pressure the thrust refers to.
    pub thrust_basis: ThrustBasis,
    /// Follow rule of the thrust.
    pub thrust_rule: ThrustRule,
    /// Whether a rail guides the start.
    pub rail: bool,
    /// Direction of the rail; vertical without one.
    pub course: Course,
    /// Atmosphere.
    pub atmosphere: AtmosphereModel,
    /// Step grid of the ascent.
    pub grid: Grid,
    /// Number of the user's mass items.
    pub items: usize,
    /// Where each item sits.
    pub places: [Place; MAX_ITEMS],
}

impl Form {
    /// The body, if it is drawn.
    pub fn body(&self) -> Option<&BodyForm> {
        match &self.shell {
            Shell::Drawn(body) => Some(body),
            Shell::Stated(_) => None,
        }
    }

    /// Whether a skin passes over the tank and is the airframe there.
    pub fn skin_over_tank(&self) -> bool {
        self.body()
            .is_some_and(|body| body.skin_rule == SkinRule::OverTank)
    }

    /// Whether an entry exists for stages of this form.
    pub fn applies(&self, when: Applies, index: usize) -> bool {
        let tank = |holds: &dyn Fn(&TankSide) -> bool| self.tank.as_ref().is_some_and(holds);
        // A matter of the wrap.
        let serves = |matter| tank(&|side| side.tank.service.judges(matter) && side.tank.plies > 0);
        match when {
            Applies::Always => true,
            Applies::Tank => self.tank.is_some(),
            Applies::StatedPropellant => self.tank.is_none(),
            Applies::StatedPressure => {
                tank(&|side| side.stated_pressure || side.basis == PressureBasis::Stated)
            }
            Applies::Relief => tank(&|side| side.relief || side.basis == PressureBasis::Vented),
            Applies::BurstFactor => tank(&|side| side.burst_basis == BurstBasis::Meop),
            Applies::BurstRatio => tank(&|side| side.burst_basis == BurstBasis::Proof),
            Applies::GirthEfficiency => tank(&|side| side.tank.girth_seam.uses_efficiency()),
            Applies::LongitudinalEfficiency => {
                tank(&|side| side.tank.longitudinal_seam.uses_efficiency())
            }
            Applies::WeldZone => tank(&|side| side.tank.needs_weld_zone()),
            Applies::GirthSeam => tank(&|side| side.tank.has_girth_seam()),
            Applies::LongitudinalSeam => tank(&|side| side.tank.has_longitudinal_seam()),
            Applies::Overwrap => tank(&|side| side.tank.plies > 0),
            Applies::Torisphere => tank(&|side| {
                let kinds = [side.tank.fore_closure, side.tank.aft_closure];
                kinds.get(index) == Some(&ClosureKind::Torisphere)
            }),
            Applies::Isotensoid => tank(&|side| {
                let kinds = [side.tank.fore_closure, side.tank.aft_closure];
                kinds.get(index) == Some(&ClosureKind::Isotensoid)
            }),
            Applies::BoltedClosure => tank(&|side| {
                let kinds = [side.tank.fore_closure, side.tank.aft_closure];
                kinds.get(index).is_some_and(|kind| kind.is_bolted())
            }),
            Applies::ForeBolts => tank(&|side| side.tank.fore_closure.is_bolted()),
            Applies::AftBolts => tank(&|side| side.tank.aft_closure.is_bolted()),
            Applies::ForeJunction => tank(&|side| !side.tank.fore_closure.is_bolted()),
            Applies::AftJunction => tank(&|side| !side.tank.aft_closure.is_bolted()),
            Applies::Winding => tank(&|side| side.tank.winding && side.tank.plies > 0),
            Applies::HelicalWinding => tank(&|side| side.tank.winding && side.tank.has_helical()),
            Applies::ThermalStrain => {
                serves(ServiceMatter::CoolDown) || serves(ServiceMatter::DrawOff)
            }
            Applies::CoolDown => serves(ServiceMatter::CoolDown),
            Applies::DrawOff => serves(ServiceMatter::DrawOff),
            Applies::ProofTest => tank(&|side| side.tank.service.judges(ServiceMatter::ProofTest)),
            Applies::HotWall => serves(ServiceMatter::HotWall),
            Applies::Cycles => tank(&|side| side.tank.service.judges(ServiceMatter::Cycles)),
            Applies::Hold => serves(ServiceMatter::Hold),
            Applies::Damage => serves(ServiceMatter::Damage),
            Applies::Ply => tank(&|side| index < side.tank.plies),
            Applies::GirthAllowance => tank(&|side| side.tank.judges_girth_zone()),
            Applies::Fittings => tank(&|side| side.tank.fittings > 0),
            Applies::WoundInFittings => tank(&|side| side.tank.has_fitting(FittingHold::WoundIn)),
            Applies::BondedFittings => tank(&|side| side.tank.has_fitting(FittingHold::Bonded)),
            Applies::Fitting => tank(&|side| index < side.tank.fittings),
            Applies::WoundInFitting => {
                tank(&|side| side.tank.fitting_kind(index) == Some(FittingHold::WoundIn))
            }
            Applies::BondedFitting => {
                tank(&|side| side.tank.fitting_kind(index) == Some(FittingHold::Bonded))
            }
            Applies::StatedTankMass => tank(&|side| side.stated_mass),
            Applies::Body => self.body().is_some(),
            Applies::SkinOverTank => self.skin_over_tank(),
            Applies::StatedDrag => self.body().is_none(),
            Applies::Fins => self.body().is_some_and(|body| body.fins.count > 0),
            Applies::StandPressure => self.thrust_basis == ThrustBasis::Stand,
            Applies::Rail => self.rail,
            Applies::InclinedRail => self.rail && self.course == Course::Inclined,
            Applies::OffStandardDay => self.atmosphere == AtmosphereModel::OffStandardDay,
            Applies::ExponentialAtmosphere => self.atmosphere == AtmosphereModel::Exponential,
            Applies::Item => index < self.items,
            Applies::Station => index < self.items && self.places[index] == Place::Station,
        }
    }
}

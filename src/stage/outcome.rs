//! [`Outcome`]: every scalar result of a stage, and its status.

use crate::numerics::Real;
use crate::quantity::slots;
use crate::vessel::Margins;

slots! {
    /// Every scalar result. Which of them apply is the form's business.
    pub struct Outcome<R> {} groups {
        /// Propellant on board.
        load: Load<R>,
        /// Tank pressures.
        pressures: Pressures<R>,
        /// Dimensions.
        geometry: Geometry<R>,
        /// The tank.
        tank: TankResult<R>,
        /// Mass statement.
        mass: MassResult<R>,
        /// Airframe.
        airframe: AirframeResult<R>,
        /// Drag coefficients of the coast at the launch site's Reynolds number.
        drag: DragResult<R>,
        /// Thrust.
        thrust: ThrustResult<R>,
        /// Ascent.
        ascent: AscentResult<R>,
        /// Closed-form estimate of the ascent, to stand beside it.
        estimate: Estimate<R>,
        /// Loads on the tank in flight.
        loads: FlightLoads<R>,
        /// Margins of safety.
        margins: Margins<R>,
        /// Why a design has no results, if it has none.
        status: Status<R>,
    }
}

slots! {
    /// Propellant on board.
    pub struct Load<R> {
        /// Oxidiser loaded, liquid and vapour.
        oxidiser: Mass, Tank;
        /// Part of the oxidiser that is vapour when the tank is closed.
        vapour: Mass, Tank;
        /// Fuel loaded.
        fuel: Mass, Tank;
        /// Vapour's share of the tank's volume at the fill temperature.
        ullage: Share, Tank;
        /// Oxidiser loaded over tank volume.
        fill_density: Density, Tank;
        /// Propellant loaded.
        propellant: Mass, Always;
        /// Propellant burned.
        burned: Mass, Always;
        /// Oxidiser left at burnout.
        oxidiser_residual: Mass, Tank;
        /// Fuel left at burnout.
        fuel_residual: Mass, Tank;
        /// Propellant left at burnout.
        residual: Mass, Always;
    }
}

slots! {
    /// Tank pressures. MEOP is the one of the basis chosen; every basis for which there are inputs
    /// stands beside it.
    pub struct Pressures<R> {
        /// Ambient pressure at the launch site.
        site: AbsolutePressure, Always;
        /// Saturation pressure at the fill temperature.
        fill: AbsolutePressure, Tank;
        /// MEOP as stated.
        meop_stated: GaugePressure, StatedPressure;
        /// MEOP of a tank whose relief is open: setting plus accumulation.
        meop_vented: GaugePressure, Relief;
        /// MEOP of a closed tank at the soak temperature.
        meop_closed: GaugePressure, Tank;
        /// Maximum expected operating pressure of the basis chosen.
        meop: GaugePressure, Tank;
        /// Proof pressure.
        proof: GaugePressure, Tank;
        /// Required burst pressure.
        burst: GaugePressure, Tank;
    }
}

slots! {
    /// Dimensions.
    pub struct Geometry<R> {
        /// Outside diameter of the tank, wrap included.
        tank_outer_diameter: Length, Tank;
        /// Outside diameter of the liner.
        liner_outer_diameter: Length, Tank;
        /// Inside diameter of the liner.
        liner_inner_diameter: Length, Tank;
        /// Wall of the liner, nominal.
        liner_wall: Length, Tank;
        /// Least wall of the liner that the tolerance leaves.
        liner_minimum_wall: Length, Tank;
        /// Laminate thickness of all plies.
        wrap_thickness: Length, Overwrap;
        /// Inside volume of the tank.
        tank_volume: Volume, Tank;
        /// Overall length of the tank.
        tank_length: Length, Tank;
        /// Length of the tank's cylinder between the closures.
        cylinder_length: Length, Tank;
        /// Overall length over outside diameter of the tank.
        tank_fineness_ratio: Ratio, Tank;
        /// Length of the nose.
        nose_length: Length, Body;
        /// Root chord of a fin.
        fin_root_chord: Length, Fins;
        /// Exposed span of a fin.
        fin_span: Length, Fins;
    }
}

slots! {
    /// The tank.
    pub struct TankResult<R> {
        /// Basic mass of the tank: liner, closures, overwrap, fittings.
        mass: Mass, Tank;
        /// Basic mass of the liner's cylinder.
        liner_mass: Mass, Tank;
        /// Basic mass of both closures.
        closure_mass: Mass, Tank;
        /// Basic mass of the fibre.
        fibre_mass: Mass, Overwrap;
        /// Basic mass of the resin.
        resin_mass: Mass, Overwrap;
        /// Share of the hoop load that the liner carries while all is elastic.
        liner_hoop_share: Share, Tank;
        /// Share of the axial load that the liner carries while all is elastic.
        liner_axial_share: Share, Tank;
    }
}

slots! {
    /// Mass statement, summed.
    pub struct MassResult<R> {
        /// Basic mass without propellant.
        basic: Mass, Always;
        /// Growth allowance without propellant.
        growth_allowance: Mass, Always;
        /// Predicted mass without propellant: basic plus growth allowance.
        predicted: Mass, Always;
        /// Mass at ignition.
        lift_off: Mass, Always;
        /// Mass at burnout, residual propellant included.
        burnout: Mass, Always;
        /// Centre of gravity at ignition, from the nose tip.
        centre_of_gravity: Length, Body;
        /// Centre of gravity at burnout, from the nose tip.
        burnout_centre_of_gravity: Length, Body;
    }
}

slots! {
    /// Airframe.
    pub struct AirframeResult<R> {
        /// Overall length.
        length: Length, Body;
        /// Largest diameter.
        frontal_diameter: Length, Body;
        /// Frontal area.
        frontal_area: Area, Always;
        /// Wetted area, fins included, base not.
        wetted_area: Area, Body;
        /// Overall length over body diameter.
        fineness_ratio: Ratio, Body;
        /// Centre of pressure at small angle of attack and low speed, from the nose tip.
        centre_of_pressure: Length, Body;
        /// Static margin at lift-off, in body diameters.
        static_margin: Ratio, Body;
        /// Static margin at burnout, in body diameters, still at low speed.
        burnout_static_margin: Ratio, Body;
    }
}

slots! {
    /// Drag coefficients with power off, on the frontal area.
    pub struct DragResult<R> {
        /// Drag coefficient at Mach 0.5.
        subsonic: Ratio, Always;
        /// Drag coefficient at Mach 1.1.
        transonic: Ratio, Always;
        /// Drag coefficient at Mach 2.
        supersonic: Ratio, Always;
    }
}

slots! {
    /// Thrust.
    pub struct ThrustResult<R> {
        /// Mean thrust at its basis.
        mean: Force, Always;
        /// Time from ignition to the end of thrust.
        burn_time: Time, Always;
        /// Total impulse at the thrust's basis.
        impulse: Impulse, Always;
        /// Mean thrust over weight at ignition.
        to_weight: Ratio, Always;
    }
}

slots! {
    /// Ascent. Altitudes are above the launch site.
    pub struct AscentResult<R> {
        /// Time at which thrust first exceeds weight.
        lift_off_time: Time, Always;
        /// Speed at the end of the rail.
        rail_exit_speed: Speed, Rail;
        /// Altitude at the end of thrust.
        burnout_altitude: Altitude, Always;
        /// Speed at the end of thrust.
        burnout_speed: Speed, Always;
        /// Apogee.
        apogee: Altitude, Always;
        /// Time of apogee after ignition.
        apogee_time: Time, Always;
        /// Largest dynamic pressure.
        max_dynamic_pressure: PressureDifference, Always;
        /// Altitude of the largest dynamic pressure.
        max_dynamic_pressure_altitude: Altitude, Always;
        /// Largest Mach number.
        max_mach: Ratio, Always;
        /// Largest (thrust - drag) over mass.
        max_axial_acceleration: Acceleration, Always;
        /// Speed at apogee, horizontal.
        apogee_speed: Speed, InclinedRail;
        /// Distance along the ground from the launch site to below the apogee.
        downrange: Altitude, InclinedRail;
    }
}

slots! {
    /// Closed-form estimate of the ascent.
    pub struct Estimate<R> {
        /// Closed-form estimate of the speed at the end of thrust.
        burnout_speed: Speed, Always;
        /// Closed-form estimate of the altitude at the end of thrust.
        burnout_altitude: Altitude, Always;
        /// Closed-form estimate of the apogee.
        apogee: Altitude, Always;
    }
}

slots! {
    /// Loads on the tank in flight.
    pub struct FlightLoads<R> {
        /// Height of the liquid above the tank's aft end at ignition.
        liquid_column: Length, Tank;
        /// Pressure of that column under the largest axial acceleration.
        acceleration_head: PressureDifference, Tank;
        /// MEOP and acceleration head: pressure at the tank's aft end in flight, at most.
        aft_pressure: GaugePressure, Tank;
        /// Largest axial force by which thrust compresses the tank's wall.
        thrust_compression: Force, Tank;
        /// Tank pressure below which that force leaves the wall without axial tension.
        slack_pressure: GaugePressure, Tank;
    }
}

slots! {
    /// Status of a design.
    pub struct Status<R> {
        /// Zero, or the number of the fault.
        code: Ratio, Always;
        /// The number that tells how far off the design is.
        value: Ratio, Always;
    }
}

impl<R: Real> Status<R> {
    /// No fault so far.
    pub fn sound() -> Self {
        Self {
            code: R::splat(0.0),
            value: R::splat(0.0),
        }
    }

    /// Records a fault where `mask` is true and none was recorded before.
    pub fn flag(&mut self, mask: R::Mask, fault: Fault, value: R) {
        let fresh = mask & !self.code.above(0.0);
        self.code = R::splat(f64::from(fault as u8)).select(self.code, fresh);
        self.value = value.select(self.value, fresh);
    }
}

/// Why a design has no results.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u8)]
#[non_exhaustive]
pub enum Fault {
    /// Wall and wrap leave no bore.
    NoBore = 1,
    /// The closures alone are larger than the tank.
    TankTooShort = 2,
    /// The tank cannot hold the load.
    LoadDoesNotFit = 3,
    /// The tank's MEOP is not above ambient pressure.
    NoPressure = 4,
    /// No fins of these proportions give the static margin.
    NoFins = 5,
    /// Thrust never exceeds weight.
    ThrustBelowWeight = 6,
    /// The vehicle comes to a stop before the end of thrust.
    StopsInBurn = 7,
    /// Nothing burns.
    NothingToBurn = 8,
    /// The vehicle without propellant has no mass left.
    NoMass = 9,
    /// A result is not a finite number.
    NotFinite = 10,
    /// The skin fills the body.
    SkinFillsBody = 11,
    /// A combination of choices cannot be built.
    CannotBeBuilt = 12,
    /// The vehicle does not leave an inclined rail before the end of thrust.
    HeldByRail = 13,
}

impl Fault {
    /// The fault of that number.
    pub fn from_code(code: f64) -> Option<Self> {
        [
            Self::NoBore,
            Self::TankTooShort,
            Self::LoadDoesNotFit,
            Self::NoPressure,
            Self::NoFins,
            Self::ThrustBelowWeight,
            Self::StopsInBurn,
            Self::NothingToBurn,
            Self::NoMass,
            Self::NotFinite,
            Self::SkinFillsBody,
            Self::CannotBeBuilt,
            Self::HeldByRail,
        ]
        .into_iter()
        .find(|fault| f64::from(*fault as u8) == code)
    }

    /// A short name for tables.
    pub fn word(self) -> &'static str {
        match self {
            Self::NoBore => "no_bore",
            Self::TankTooShort => "tank_too_short",
            Self::LoadDoesNotFit => "load_does_not_fit",
            Self::NoPressure => "no_pressure",
            Self::NoFins => "no_fins",
            Self::ThrustBelowWeight => "thrust_below_weight",
            Self::StopsInBurn => "stops_in_burn",
            Self::NothingToBurn => "nothing_to_burn",
            Self::NoMass => "no_mass",
            Self::NotFinite => "not_finite",
            Self::SkinFillsBody => "skin_fills_body",
            Self::CannotBeBuilt => "cannot_be_built",
            Self::HeldByRail => "held_by_rail",
        }
    }

    /// The sentence for a reader, with the number that tells how far off the design is.
    pub fn sentence(self, value: f64) -> String {
        let millimetres = value * 1e3;
        match self {
            Self::NoBore => format!(
                "wall and wrap leave an inside diameter of {millimetres:.1} mm; reduce tank.liner.wall \
                 or the plies, or enlarge the diameter"
            ),
            Self::TankTooShort => format!(
                "the closures alone are too large: the cylinder between them would be {millimetres:.1} \
                 mm long; enlarge tank.volume or tank.length, or reduce the diameter"
            ),
            Self::LoadDoesNotFit => format!(
                "the tank cannot hold the load: at the fill temperature its ullage would be {:.1} %; \
                 enlarge the tank, or reduce propellant.oxidiser_mass",
                value * 100.0
            ),
            Self::NoPressure => format!(
                "MEOP is {:.3} bar gauge, not above ambient pressure; check soak and fill temperature",
                value / 1e5
            ),
            Self::NoFins => format!(
                "no fins of these proportions with a root chord of 0.05 to 4 body diameters give a \
                 static margin of {value:.2} body diameters; change fins.static_margin, their \
                 proportions, or move mass"
            ),
            Self::ThrustBelowWeight => format!(
                "thrust never exceeds weight: mean thrust over weight is {value:.2}; raise \
                 motor.thrust or reduce mass"
            ),
            Self::StopsInBurn => {
                "the vehicle stops, or gravity turns it level, before the end of thrust; raise thrust or \
                 rail.elevation, or shorten the burn"
                    .to_owned()
            }
            Self::HeldByRail => format!(
                "the vehicle is still on the rail at the end of thrust, at {value:.1} m/s; raise thrust \
                 or shorten rail.length"
            ),
            Self::NothingToBurn => {
                "no propellant is burned; check load and residual shares".to_owned()
            }
            Self::NoMass => format!(
                "the vehicle without propellant would have {value:.2} kg, less than a thousandth of \
                 its propellant; raise mass.added"
            ),
            Self::SkinFillsBody => format!(
                "the skin leaves an inside diameter of {millimetres:.1} mm in the bays; reduce \
                 skin.thickness"
            ),
            Self::CannotBeBuilt => {
                "this combination of choices cannot be built; replace it on the \
                 stage alone to read why"
                    .to_owned()
            }
            Self::NotFinite => {
                "a result is not a finite number: the inputs lie outside what the models can do"
                    .to_owned()
            }
        }
    }
}

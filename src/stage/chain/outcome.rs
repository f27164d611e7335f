//! [`Outcome`]: every scalar result of a stage, and its status.

use super::fault::Status;
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
        flight_loads: FlightLoads<R>,
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
        overwrap_thickness: Length, Overwrap;
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
        /// Root of the sum of the lines' squared growth allowances: scatter if lines were independent, not for flight.
        growth_root_sum_square: Mass, Always;
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
        /// Moment of inertia at ignition about a transverse axis through the centre of gravity.
        pitch_inertia: MomentOfInertia, Body;
        /// Moment of inertia at ignition about the vehicle's axis, liquid as if it turned along.
        roll_inertia: MomentOfInertia, Body;
        /// Moment of inertia at burnout about a transverse axis through the centre of gravity.
        burnout_pitch_inertia: MomentOfInertia, Body;
        /// Moment of inertia at burnout about the vehicle's axis.
        burnout_roll_inertia: MomentOfInertia, Body;
    }
}

slots! {
    /// Airframe.
    pub struct AirframeResult<R> {
        /// Overall length.
        length: Length, Body;
        /// Outside diameter of nose, bays and tank section.
        diameter: Length, Body;
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
        /// Time at which the end of the rail is reached.
        rail_exit_time: Time, Rail;
        /// Altitude at the end of thrust.
        burnout_altitude: Altitude, Always;
        /// Speed at the end of thrust.
        burnout_speed: Speed, Always;
        /// Apogee.
        apogee: Altitude, Always;
        /// Time of apogee after ignition.
        apogee_time: Time, Always;
        /// Estimated error of the apogee from stepping, mostly several times too large.
        apogee_error: Length, Always;
        /// How often the steps of the ascent were doubled because the grid did not serve the design.
        grid_doublings: Ratio, Always;
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
        /// Pressure of the contents on the aft end under the largest axial acceleration: liquid under vapour as filled, or the tank full of liquid, the larger.
        acceleration_head: PressureDifference, Tank;
        /// MEOP and acceleration head: pressure at the tank's aft end in flight, no transient or slosh.
        aft_pressure: GaugePressure, Tank;
        /// Proof factor x aft pressure: what a stand test must reach to prove the aft end with its head.
        proof_with_head: GaugePressure, Tank;
        /// Largest axial force by which thrust compresses the tank's wall.
        thrust_compression: Force, Tank;
        /// Tank pressure below which that force leaves the wall without axial tension.
        slack_pressure: GaugePressure, Tank;
    }
}

//! What an ascent comes to.

use crate::numerics::Real;

/// What the ascent comes to. Altitudes are above the launch site.
#[derive(Debug, Clone, Copy)]
pub struct Trajectory<R: Real> {
    /// Time at which thrust first exceeds weight (along the rail), s after ignition.
    pub lift_off_time: R,
    /// Speed at the end of the rail, m/s; zero without a rail and for a design held by it.
    pub rail_exit_speed: R,
    /// Time at which the end of the rail is reached, s after ignition: of lift-off without a rail,
    /// of the end of thrust for an inclined design held by it.
    pub rail_exit_time: R,
    /// Altitude at the end of thrust, m.
    pub burnout_altitude: R,
    /// Speed at the end of thrust, m/s.
    pub burnout_speed: R,
    /// Largest altitude, m.
    pub apogee: R,
    /// Time of apogee, s after ignition.
    pub apogee_time: R,
    /// Estimated error of the apogee from stepping, m: mostly several times the error. It is a guide, not
    /// a bound, but of 3000 vehicles at random it lay below an error that counts for three.
    pub apogee_error: R,
    /// How often the steps of the grid were doubled for this design.
    pub grid_doublings: R,
    /// Speed at apogee, which is horizontal, m/s; zero for a vertical course.
    pub apogee_speed: R,
    /// Distance of the point below the apogee from the launch site, m along the ground at the
    /// site's level.
    pub downrange: R,
    /// Largest dynamic pressure, Pa.
    pub max_dynamic_pressure: R,
    /// Altitude of the largest dynamic pressure, m.
    pub max_dynamic_pressure_altitude: R,
    /// Largest Mach number; a peak within a step is that of the cubic through both ends.
    pub max_mach: R,
    /// Largest (thrust - drag) / mass, m/s2.
    pub max_axial_acceleration: R,
    /// Largest axial compressive force at the section with [`Flight::mass_ahead`](super::Flight::mass_ahead) ahead of it, N.
    ///
    /// The part ahead of the section, of mass `m_a`, is accelerated by the force `N` from behind
    /// less the drag `D_a` that acts on it; gravity pulls on either side alike and drops out:
    /// `N = m_a a + D_a` with the axial acceleration `a = (T - D) / m`. With all the drag taken as
    /// acting ahead, `D_a = D = T - m a` and `N = T - (m - m_a) a`: an upper bound, too high by the
    /// drag of the fins and of the base, which act behind. It is taken at the ends of the steps, in
    /// burn and coast, so a peak between two of them is missed by a little: on the packaged examples
    /// the trade grid is within 1e-4 of the fine one.
    pub max_compression: R,
    /// Designs whose thrust never exceeds their weight (along the rail).
    pub grounded: R::Mask,
    /// Designs that do not leave the rail before the end of thrust.
    pub held: R::Mask,
    /// Designs too fast at the end of thrust for an apogee in this model: at circular speed,
    /// sqrt(g r), on an inclined course, where the coast need not slow down at all any more; at escape
    /// speed, sqrt(2 g r), on a vertical one.
    pub lost: R::Mask,
    /// Designs that come to a stop, or stop climbing, before the end of thrust.
    pub stopped: R::Mask,
}

impl<R: Real> Trajectory<R> {
    /// Designs that fly but that the steps do not serve: the estimated error is beyond a tolerance.
    pub(super) fn coarse(&self, tolerance: f64) -> R::Mask {
        self.apogee_error.above(tolerance) & !(self.grounded | self.held | self.lost | self.stopped)
    }

    /// Designs of which the steps may be to blame that there is no result: they seem to stop in the burn,
    /// or come to no number.
    pub(super) fn doubtful(&self) -> R::Mask {
        let lame = self.stopped | !self.apogee_error.is_finite();
        lame & !(self.grounded | self.held | self.lost)
    }

    /// One design's in every lane.
    pub(super) fn splat(alone: &Trajectory<f64>) -> Self {
        let number = R::splat;
        let truth = |truth: bool| R::splat(f64::from(u8::from(truth))).above(0.5);
        Self {
            lift_off_time: number(alone.lift_off_time),
            rail_exit_speed: number(alone.rail_exit_speed),
            rail_exit_time: number(alone.rail_exit_time),
            burnout_altitude: number(alone.burnout_altitude),
            burnout_speed: number(alone.burnout_speed),
            apogee: number(alone.apogee),
            apogee_time: number(alone.apogee_time),
            apogee_error: number(alone.apogee_error),
            grid_doublings: number(alone.grid_doublings),
            apogee_speed: number(alone.apogee_speed),
            downrange: number(alone.downrange),
            max_dynamic_pressure: number(alone.max_dynamic_pressure),
            max_dynamic_pressure_altitude: number(alone.max_dynamic_pressure_altitude),
            max_mach: number(alone.max_mach),
            max_axial_acceleration: number(alone.max_axial_acceleration),
            max_compression: number(alone.max_compression),
            grounded: truth(alone.grounded),
            held: truth(alone.held),
            lost: truth(alone.lost),
            stopped: truth(alone.stopped),
        }
    }

    /// `self` where the mask is true, `other` elsewhere.
    pub(super) fn select(&self, other: &Self, mask: R::Mask) -> Self {
        let number = |pick: fn(&Self) -> R| pick(self).select(pick(other), mask);
        let truth = |pick: fn(&Self) -> R::Mask| (pick(self) & mask) | (pick(other) & !mask);
        Self {
            lift_off_time: number(|flown| flown.lift_off_time),
            rail_exit_speed: number(|flown| flown.rail_exit_speed),
            rail_exit_time: number(|flown| flown.rail_exit_time),
            burnout_altitude: number(|flown| flown.burnout_altitude),
            burnout_speed: number(|flown| flown.burnout_speed),
            apogee: number(|flown| flown.apogee),
            apogee_time: number(|flown| flown.apogee_time),
            apogee_error: number(|flown| flown.apogee_error),
            grid_doublings: number(|flown| flown.grid_doublings),
            apogee_speed: number(|flown| flown.apogee_speed),
            downrange: number(|flown| flown.downrange),
            max_dynamic_pressure: number(|flown| flown.max_dynamic_pressure),
            max_dynamic_pressure_altitude: number(|flown| flown.max_dynamic_pressure_altitude),
            max_mach: number(|flown| flown.max_mach),
            max_axial_acceleration: number(|flown| flown.max_axial_acceleration),
            max_compression: number(|flown| flown.max_compression),
            grounded: truth(|flown| flown.grounded),
            held: truth(|flown| flown.held),
            lost: truth(|flown| flown.lost),
            stopped: truth(|flown| flown.stopped),
        }
    }
}

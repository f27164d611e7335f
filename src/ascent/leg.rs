//! One interval of the thrust curve, scaled to a design: thrust in a straight line, mass in a parabola.
//! No interval straddles a kink of thrust at a pressure; see [`Curve`](crate::motor::Curve).

use crate::motor::{Curve, Drive, KINKS};
use crate::numerics::Real;

/// Share of the mean thrust below which the pressure term fades.
const FADING: f64 = KINKS[0];

/// Thrust and mass within one interval of the thrust curve.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Leg<R> {
    /// Time of its start after ignition, s.
    pub time: R,
    /// Its length, s.
    pub span: R,
    /// Thrust at its basis at the start, N, and its rise, N/s.
    force: R,
    rise: R,
    /// Mass at the start, kg.
    mass: R,
    /// Half of one over the exhaust speed, s/m.
    half_per_exhaust: R,
    per_mean_thrust: R,
    reference_pressure: R,
    exit_area: R,
}

impl<R: Real> Leg<R> {
    /// An interval of a curve, scaled, for a mass at ignition in kg; `interval` is its number, which may
    /// differ from design to design.
    pub fn new(curve: &Curve, drive: &Drive<R>, lift_off_mass: R, interval: R) -> Self {
        let (cell, _) = (interval + 0.5).split();
        let [time, length, force, rise, impulse] = R::gather(cell, |interval| {
            let [start, end] = curve.interval(interval);
            let (length, rise) = (end.time - start.time, end.force - start.force);
            [start.time, length, start.force, rise, start.impulse]
        });
        let span = drive.time_scale * length;
        let spent = drive.force_scale * drive.time_scale * impulse;
        let half_per_exhaust = R::splat(0.5) / drive.exhaust_speed;
        Self {
            time: drive.time_scale * time,
            span,
            force: drive.force_scale * force,
            rise: drive.force_scale * rise / span,
            mass: lift_off_mass - spent * half_per_exhaust * 2.0,
            half_per_exhaust,
            per_mean_thrust: R::splat(1.0) / drive.mean_thrust,
            reference_pressure: drive.reference_pressure,
            exit_area: drive.exit_area,
        }
    }

    fn at_basis(&self, within: R) -> R {
        self.force + self.rise * within
    }

    /// Thrust, N, at a time within the interval and an ambient pressure, and the share of full thrust
    /// (at most one). The pressure term fades below a tenth of the mean thrust.
    #[inline]
    pub fn thrust(&self, within: R, pressure: R) -> (R, R) {
        let one = R::splat(1.0);
        let at_basis = self.at_basis(within);
        let share = at_basis * self.per_mean_thrust;
        let relief = (self.reference_pressure - pressure) * self.exit_area;
        let flowing = (share * (1.0 / FADING)).min(one);
        (at_basis + relief * flowing, share.min(one))
    }

    /// Mass at a time within the interval: the impulse spent so far over the exhaust speed.
    #[inline]
    pub fn mass(&self, within: R) -> R {
        self.mass - (self.force + self.at_basis(within)) * within * self.half_per_exhaust
    }

    /// The larger of an acceleration at a time within the interval and of what thrust makes of it by the
    /// interval's end, without their signs.
    pub fn fastest(&self, within: R, acceleration: R) -> R {
        let gained = self.rise * (self.span - within) / self.mass(within);
        acceleration.abs().max((acceleration + gained).abs())
    }

    /// When thrust at a pressure, growing, first equals `pull` times the mass, within the interval:
    /// thrust is linear there and mass quadratic, so the balance is a quadratic. Only for designs whose
    /// thrust falls short at the start and exceeds it at the end.
    pub fn balance(&self, pressure: R, pull: R) -> R {
        let zero = R::splat(0.0);
        // No interval straddles the thrust below which the pressure term fades with it.
        let share = self.at_basis(self.span * 0.5) * self.per_mean_thrust;
        let in_full = R::splat(1.0).select(zero, share.above(FADING));
        let relief = (self.reference_pressure - pressure) * self.exit_area;
        let fading = relief * self.per_mean_thrust / FADING;
        let gain = (R::splat(1.0) - in_full) * fading + 1.0;
        let square = self.rise * self.half_per_exhaust * pull;
        let linear = self.rise * gain + self.force * self.half_per_exhaust * pull * 2.0;
        let constant = self.force * gain + relief * in_full - self.mass * pull;
        let root = (linear.squared() - square * constant * 4.0)
            .max(zero)
            .sqrt();
        (constant * -2.0 / (linear + root)).max(zero).min(self.span)
    }
}

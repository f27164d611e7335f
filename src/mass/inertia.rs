//! Moments of inertia of a list of lines about an axis of the vehicle's.

use super::statement::Line;
use crate::numerics::Real;

/// Moments of inertia, kg m2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inertia<R> {
    /// About a transverse axis: pitch, and yaw alike.
    pub pitch: R,
    /// About the vehicle's axis.
    pub roll: R,
}

/// Moments of inertia of predicted masses, about the transverse axis at a station and about the
/// vehicle's axis: each line's own and, by the parallel-axis theorem, mass times squared distance.
///
/// Source: J. L. Meriam and L. G. Kraige, "Engineering Mechanics: Dynamics", appendix B (from memory);
/// R. L. Zimmerman and J. H. Nakai, "Are You Sure? Uncertainty in Mass Properties Engineering", Society of
/// Allied Weight Engineers, paper 3360, 2005.
///
/// ```
/// use hoopline::mass::{Group, Line, Spread, inertia};
/// let mass = |station| Line {
///     name: "ball",
///     group: Group::Item,
///     basic: 2.0,
///     growth_share: 0.0,
///     station,
///     spread: Spread::point(),
/// };
/// // Two balls of 2 kg, 3 m to each side of station 5 m.
/// let found = inertia(&[&[mass(2.0), mass(8.0)]], 5.0);
/// assert_eq!((found.pitch, found.roll), (36.0, 0.0));
/// ```
pub fn inertia<R: Real>(lists: &[&[Line<R>]], station: R) -> Inertia<R> {
    let zero = R::splat(0.0);
    let mut found = Inertia {
        pitch: zero,
        roll: zero,
    };
    for line in lists.iter().copied().flatten() {
        let own = line.own_inertia();
        found.pitch =
            found.pitch + own.pitch + line.predicted() * (line.station - station).squared();
        found.roll = found.roll + own.roll;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mass::{Group, Spread};

    fn line(mass: f64, station: f64, spread: Spread<f64>) -> Line<f64> {
        Line {
            name: "part",
            group: Group::Item,
            basic: mass,
            growth_share: 0.1,
            station,
            spread,
        }
    }

    /// Lines without order or symmetry.
    fn lines() -> Vec<Line<f64>> {
        let spreads = [
            Spread::point(),
            Spread::hollow_cylinder(0.7, 0.05, 0.06),
            Spread::solid_cylinder(0.4, 0.07),
            Spread::cap(0.03, 0.08),
        ];
        let part = |place: usize| {
            let mass = 0.3 + f64::from(u32::try_from(place * 7 % 5).expect("small"));
            let station = 0.11 * f64::from(u32::try_from(place * place % 13).expect("small"));
            line(mass, station, spreads[place % spreads.len()])
        };
        (0..11).map(part).collect()
    }

    fn centre(lines: &[Line<f64>]) -> (f64, f64) {
        let mass: f64 = lines.iter().map(Line::predicted).sum();
        let moment: f64 = lines
            .iter()
            .map(|line| line.predicted() * line.station)
            .sum();
        (mass, moment / mass)
    }

    #[test]
    fn about_the_centre_of_gravity_it_is_least() {
        let lines = lines();
        let (mass, centre) = centre(&lines);
        let least = inertia(&[&lines], centre);
        for away in [-0.4, -1e-3, 2e-3, 0.9] {
            let found = inertia(&[&lines], centre + away);
            assert!(found.pitch > least.pitch, "{away}");
            approx::assert_relative_eq!(
                found.pitch,
                least.pitch + mass * away * away,
                max_relative = 1e-13
            );
            assert_eq!(found.roll.to_bits(), least.roll.to_bits());
        }
    }

    #[test]
    fn a_shift_and_a_mirror_leave_it_and_parts_add_up() {
        let lines = lines();
        let (_, centre) = centre(&lines);
        let whole = inertia(&[&lines], centre);
        for (sign, shift) in [(1.0, 3.7), (-1.0, 0.0), (-1.0, 5.0)] {
            let mut moved = lines.clone();
            for line in &mut moved {
                line.station = sign * line.station + shift;
            }
            let found = inertia(&[&moved], sign * centre + shift);
            approx::assert_relative_eq!(found.pitch, whole.pitch, max_relative = 1e-12);
            assert_eq!(found.roll.to_bits(), whole.roll.to_bits());
        }
        let (fore, aft) = lines.split_at(4);
        let [first, second] = [fore, aft].map(|part| inertia(&[part], centre));
        approx::assert_relative_eq!(
            first.pitch + second.pitch,
            whole.pitch,
            max_relative = 1e-14
        );
        approx::assert_relative_eq!(first.roll + second.roll, whole.roll, max_relative = 1e-14);
        let apart = inertia(&[fore, aft], centre);
        assert_eq!(apart.pitch.to_bits(), whole.pitch.to_bits());
    }
}

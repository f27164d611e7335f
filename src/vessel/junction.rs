//! Where the cylinder meets a closure: bending of both edges under pressure.
//!
//! The cylinder's wall is a beam on an elastic foundation: hoop stress answers a radial displacement. Its
//! decaying wave `w = exp(-b x) (A cos b x + B sin b x)` has `4 b^4 = k / D`, `k` the foundation's stiffness
//! and `D` the wall's bending stiffness (code_aster, validation manual V3.03.144, section 2, there for a bare
//! cylinder with `k = E t / R^2`). A closure answers by [`Dome`] or [`Plate`]. Under pressure both would grow
//! unlike; a line force and a couple at the edge, found from equal displacement and turn, make them meet.
//!
//! The foundation's stiffness is that of liner and fibres at common strain, while the axial load stays;
//! bending is the liner's alone. No land and no taper beside the seam; a step of thickness stands on the
//! inside, which is flush, so that the middle surfaces are offset by half of it.

use super::closure_plate::Plate;
use super::dimensions::Dimensions;
use super::dome::{self, Dome};
use super::edge::{Edge, Stress, Wall};
use super::form::{ClosureKind, TankForm};
use super::tank::{Closure, Tank};
use crate::numerics::{Mask, Real};
use std::sync::LazyLock;

/// Length of the edge wave that is judged, as an angle: a quarter, within which axial and hoop stress have
/// their first extremes. Beyond it cylinder and closure have margins of their own (own choice).
pub const JUDGED: f64 = std::f64::consts::FRAC_PI_2;
/// Places on it.
const PLACES: usize = 9;

/// Which of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The wall of the cylinder.
    Cylinder,
    /// The closure.
    Closure,
}

/// A place beside the junction, with its stresses per pressure.
pub struct Place<R: Real> {
    /// Where it is.
    pub part: Part,
    /// Distance from the edge along the meridian, m.
    pub distance: R,
    /// Whether it lies within the length that is judged.
    pub judged: R::Mask,
    /// Of the pressure on a perfect seam, of its misalignment and of its peaking, which may have either sign.
    pub stress: [Stress<R>; 3],
}

impl<R: Real> Place<R> {
    /// Stresses with misalignment and peaking of the signs given.
    pub fn with(&self, [offset, kink]: [f64; 2]) -> Stress<R> {
        let [perfect, misaligned, peaked] = &self.stress;
        perfect
            .plus(misaligned, R::splat(offset))
            .plus(peaked, R::splat(kink))
    }
}

/// Signs that misalignment and peaking may have against the rest; equivalent stress is convex in both, so
/// that its largest value lies at one of these.
pub const SIGNS: [[f64; 2]; 4] = [[1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0]];

/// Where the largest equivalent stress of a junction stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// The stress per pressure.
    pub stress: f64,
    /// Where it is.
    pub part: Part,
    /// Whether it is at the inside.
    pub inside: bool,
    /// Distance from the edge along the meridian, m.
    pub distance: f64,
    /// Signs of misalignment and peaking that are worst.
    pub signs: [f64; 2],
}

/// A junction of the tank under a unit of pressure.
pub struct Junction<'a, R> {
    form: &'a TankForm,
    kind: ClosureKind,
    closure: &'a Closure<R>,
    diameter: R,
    metal: [R; 2],
    wall: Wall<R>,
    /// Couple and force of misalignment and peaking.
    imperfect: [R; 2],
    lack: R,
}

/// A place on the cylinder's wave: its angle, and the decaying cosine and sine there.
type Wave = [f64; 3];

fn wave(angle: f64) -> Wave {
    let (decay, sine, cosine): (f64, f64, f64) =
        (Real::exp(-angle), Real::sin(angle), Real::cos(angle));
    [angle, decay * cosine, decay * sine]
}

/// The places that are judged.
static WAVES: LazyLock<[Wave; PLACES]> = LazyLock::new(|| {
    std::array::from_fn(|place| wave(place as f64 * (JUDGED / (PLACES - 1) as f64)))
});

impl Junction<'_, f64> {
    /// Where the [`Junction::largest`] stress stands.
    pub fn worst(&self) -> Worst {
        let mut worst = Worst {
            stress: 0.0,
            part: Part::Cylinder,
            inside: false,
            distance: 0.0,
            signs: SIGNS[0],
        };
        self.visit_near(&mut |place| {
            for signs in SIGNS.into_iter().filter(|_| place.judged) {
                let both = place.with(signs).equivalent_squared(1.0);
                for (inside, squared) in [(true, both[0]), (false, both[1])] {
                    if squared.sqrt() > worst.stress {
                        worst = Worst {
                            stress: squared.sqrt(),
                            part: place.part,
                            inside,
                            distance: place.distance,
                            signs,
                        };
                    }
                }
            }
        });
        worst
    }
}

impl<'a, R: Real> Junction<'a, R> {
    /// Of a tank with one of its closures, at minimum wall and minimum thickness.
    pub fn new(
        form: &'a TankForm,
        tank: &Tank<R>,
        size: &Dimensions<R>,
        kind: ClosureKind,
        closure: &'a Closure<R>,
    ) -> Self {
        let metal = &tank.liner.metal;
        let wall = Wall::new(form, tank, size);
        let seam = &tank.liner.girth_seam;
        let imperfect = [seam.misalignment, seam.peaking].map(|size| size * wall.loads[0]);
        Self {
            form,
            kind,
            closure,
            diameter: size.inner_diameter,
            metal: [metal.elastic_modulus, metal.poisson_ratio],
            wall,
            imperfect,
            lack: seam.lack_of_penetration,
        }
    }

    /// Length along which the wave of the cylinder decays by a factor e, m.
    pub fn decay_length(&self) -> R {
        R::splat(1.0) / self.wall.wave
    }

    /// Largest equivalent (von Mises) stress per pressure within the length that is judged, whatever the signs
    /// of misalignment and peaking.
    pub fn largest(&self) -> R {
        let mut largest = R::splat(0.0);
        let pressed = R::splat(1.0);
        let signs = if self.is_perfect() {
            &SIGNS[..1]
        } else {
            &SIGNS[..]
        };
        self.visit_near(&mut |place| {
            for signs in signs {
                for equivalent in place.with(*signs).equivalent_squared(pressed) {
                    largest = largest.max(R::splat(0.0).select(equivalent, !place.judged));
                }
            }
        });
        largest.sqrt()
    }

    /// Whether no lane has misalignment or peaking: then signs and their cases change no bit.
    fn is_perfect(&self) -> bool {
        !(self.imperfect[0].above(0.0) | self.imperfect[1].above(0.0)).any()
    }

    /// Calls with the places near enough to be judged.
    fn visit_near(&self, call: &mut impl FnMut(&Place<R>)) {
        self.walk::<{ dome::NEAR }>(WAVES.iter().copied(), call);
    }

    /// Calls with every place: the cylinder's at the angles of its wave given, from the edge on, then the
    /// closure's.
    pub fn visit(&self, angles: impl Iterator<Item = f64>, call: &mut impl FnMut(&Place<R>)) {
        self.walk::<{ dome::PLACES }>(angles.map(wave), call);
    }

    fn walk<const N: usize>(
        &self,
        waves: impl Iterator<Item = Wave>,
        call: &mut impl FnMut(&Place<R>),
    ) {
        let thickness = self.closure.minimum_thickness();
        match self.kind {
            ClosureKind::FlatClamped | ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
                let held = self.kind == ClosureKind::FlatClamped;
                let plate =
                    Plate::new(self.wall.radius, self.diameter, thickness, self.metal, held);
                let moves = self.moves(&plate.edge, R::splat(0.0));
                self.on_wall(waves, &moves, call);
                let fields = self.cases(&moves, |moves, loaded| plate.stresses(moves, loaded));
                self.on_closure(&fields, call);
            }
            kind => {
                let dome = Dome::new(kind, self.closure, self.diameter, thickness, self.metal);
                let offset = (thickness - self.wall.thickness) * 0.5;
                let moves = self.moves(&dome.edge, offset);
                self.on_wall(waves, &moves, call);
                let fields = self.cases(&moves, |moves, loaded| dome.stresses::<N>(moves, loaded));
                self.on_closure(&fields, call);
            }
        }
    }

    /// Stresses in the three cases; of a perfect seam the last two are nought.
    fn cases<const N: usize>(
        &self,
        moves: &[[R; 2]; 3],
        stresses: impl Fn([R; 2], bool) -> [(R, Stress<R>); N],
    ) -> [[(R, Stress<R>); N]; 3] {
        let loaded = stresses(moves[0], true);
        if self.is_perfect() {
            let none = loaded.map(|(distance, _)| (distance, Stress::nought()));
            [loaded, none, none]
        } else {
            [loaded, stresses(moves[1], false), stresses(moves[2], false)]
        }
    }

    /// Displacement and turn of the junction: under a unit of pressure, by misalignment and by peaking.
    fn moves(&self, closure: &Edge<R>, offset: R) -> [[R; 2]; 3] {
        let sum = |a: R, b: R| a + b;
        let wall = &self.wall.edge;
        let stiffness = [0, 1]
            .map(|row| [0, 1].map(|k| sum(wall.stiffness[row][k], closure.stiffness[row][k])));
        let [[a, b], [c, d]] = stiffness;
        let scale = R::splat(1.0) / (a * d - b * c);
        let moved = |[force, couple]: [R; 2]| {
            [
                (d * force - b * couple) * scale,
                (a * couple - c * force) * scale,
            ]
        };
        let none = R::splat(0.0);
        // The closure's meridian pulls that much further out than the wall.
        let eccentric = self.wall.loads[0] * offset;
        let held = [0, 1].map(|row| -sum(wall.held[row], closure.held[row]));
        [
            moved([held[0], held[1] + eccentric]),
            moved([none, self.imperfect[0]]),
            moved([self.imperfect[1], none]),
        ]
    }

    fn on_wall(
        &self,
        waves: impl Iterator<Item = Wave>,
        moves: &[[R; 2]; 3],
        call: &mut impl FnMut(&Place<R>),
    ) {
        let always = R::splat(0.0).below(1.0);
        for (number, [angle, cosine, sine]) in waves.enumerate() {
            let on = |case: usize| self.wall.stress(moves[case], case == 0, [cosine, sine]);
            let mut stress = if self.is_perfect() {
                [on(0), Stress::nought(), Stress::nought()]
            } else {
                [on(0), on(1), on(2)]
            };
            if number == 0 && self.form.has_girth_seam() {
                stress = self.through_throat(&stress);
            }
            call(&Place {
                part: Part::Cylinder,
                distance: R::splat(angle) / self.wall.wave,
                judged: if angle <= JUDGED { always } else { !always },
                stress,
            });
        }
    }

    /// Stresses in the throat of a seam that lacks penetration at the inside: the same line loads and moments
    /// in less thickness, and the axial load's arm to its middle.
    fn through_throat(&self, stress: &[Stress<R>; 3]) -> [Stress<R>; 3] {
        let full = self.wall.thickness;
        let throat = (full - self.lack).max(full * 1e-3);
        let mut number = 0;
        stress.map(|case| {
            let mean = [0, 1].map(|k| (case.inner[k] + case.outer[k]) * 0.5 * full);
            let moment = [0, 1].map(|k| (case.outer[k] - case.inner[k]) * full.squared() / 12.0);
            let arm = if number == 0 {
                (full - throat) * 0.5
            } else {
                R::splat(0.0)
            };
            number += 1;
            Stress::of(
                [mean[0], mean[1] * throat / full],
                [moment[0] - mean[0] * arm, moment[1]],
                throat,
            )
        })
    }

    fn on_closure<const N: usize>(
        &self,
        fields: &[[(R, Stress<R>); N]; 3],
        call: &mut impl FnMut(&Place<R>),
    ) {
        let [perfect, misaligned, peaked] = fields;
        let reach = R::splat(JUDGED) / self.wall.wave;
        for place in 0..N {
            let distance = perfect[place].0;
            let flat = !self.kind.is_domed();
            call(&Place {
                part: Part::Closure,
                distance,
                // A plate's own bending further in is its own margin's.
                judged: if flat {
                    distance.below(0.0) | !distance.above(0.0)
                } else {
                    !reach.lt(distance)
                },
                stress: [perfect[place].1, misaligned[place].1, peaked[place].1],
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Slots;
    use crate::vessel::fitting::FittingHold;
    use crate::vessel::{DiameterPair, MAX_FITTINGS, MAX_PLIES, PlyKind, SeamBasis, ServiceForm};

    fn largest(kind: ClosureKind, crown: f64, knuckle: f64) -> f64 {
        let form = TankForm {
            diameters: DiameterPair::InnerAndWall,
            fore_closure: kind,
            aft_closure: kind,
            girth_seam: SeamBasis::None,
            longitudinal_seam: SeamBasis::None,
            plies: 0,
            ply_kinds: [PlyKind::Hoop; MAX_PLIES],
            winding: false,
            girth_allowance: false,
            service: ServiceForm::default(),
            fittings: 0,
            fitting_kinds: [FittingHold::WoundIn; MAX_FITTINGS],
        };
        let mut tank: Tank<f64> = Slots::uniform(0.0);
        tank.liner.metal.elastic_modulus = 70e9;
        tank.liner.metal.poisson_ratio = 0.33;
        tank.aft_closure = Closure {
            thickness: 0.003,
            thickness_under_tolerance: 0.0,
            crown_radius_ratio: crown,
            knuckle_radius_ratio: knuckle,
            turning_radius_ratio: 0.3,
            ..tank.aft_closure
        };
        let none = 0.0;
        let size = Dimensions {
            outer_diameter: 0.156,
            liner_outer_diameter: 0.156,
            inner_diameter: 0.15,
            wall: 0.003,
            minimum_wall: 0.003,
            wrap: none,
            cylinder_length: 1.0,
            length: 1.2,
            volume: 0.02,
        };
        let junction = Junction::new(&form, &tank, &size, kind, &tank.aft_closure);
        let largest = junction.largest();
        let worst = junction.worst();
        assert_eq!(worst.stress.to_bits(), largest.to_bits(), "{kind:?}");
        largest
    }

    /// A torisphere whose knuckle or crown has no extent is a hemisphere.
    #[test]
    fn a_torisphere_may_be_a_hemisphere() {
        let sphere = largest(ClosureKind::Hemisphere, 0.0, 0.0);
        for knuckle in [0.06, 0.3, 0.5] {
            let dished = largest(ClosureKind::Torisphere, 0.5, knuckle);
            assert!((dished / sphere - 1.0).abs() < 0.01, "{dished} {sphere}");
        }
        let ellipsoid = largest(ClosureKind::Ellipsoid, 0.0, 0.0);
        assert!(ellipsoid > 1.1 * sphere, "{ellipsoid} {sphere}");
        for kind in [
            ClosureKind::Isotensoid,
            ClosureKind::FlatClamped,
            ClosureKind::FlatSupported,
        ] {
            assert!(largest(kind, 0.0, 0.0).is_finite());
        }
    }
}

//! The cylinder and the weld zones in it, at one pressure after the other.
//!
//! A girth seam's weld zone has the hoop strain of the wall beside it and carries the whole axial line load under
//! the same wrap: in series, so that a weak zone strains more than its neighbours. A longitudinal seam's has the
//! wall's axial strain and carries the whole hoop line load.

use super::dimensions::Dimensions;
use super::flow::FlowLaw;
use super::form::TankForm;
use super::membrane::{axial_line_load, hoop_line_load};
use super::seam::{girth_strength, longitudinal_strength};
use super::shared_wall::{SharedWall, Strained};
use super::tank::Tank;

/// A seam of the cylinder, told by the direction whose line load it carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seam {
    /// Between cylinder and closure.
    Girth = 0,
    /// Along the cylinder.
    Longitudinal = 1,
}

impl Seam {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Girth, Self::Longitudinal];
}

/// What breaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// The fibre of a ply, counted from the liner.
    Fibre(usize),
    /// The liner flows without limit.
    Collapse,
    /// The liner has hardened up to its ultimate strength.
    Rupture,
    /// A weld zone flows without limit.
    Zone(Seam),
    /// A weld zone has hardened up to its ultimate strength.
    ZoneRupture(Seam),
    /// The fibre of a ply breaks over a weld zone.
    ZoneFibre(Seam, usize),
    /// Nothing does up to the farthest pressure tried.
    Holds,
}

/// Cylinder and weld zones under a pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pressed {
    pub wall: Strained,
    pub zones: [Option<Strained>; 2],
}

/// Strains of the wall and, along the load that each carries, of the zones.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Step {
    wall: [f64; 2],
    zones: [f64; 2],
}

/// Strain by which the next state is expected to go on: a start for its search, which changes nothing else but the
/// last bits. It holds for steps of pressure of one length.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Ahead {
    expected: Step,
    last: Option<Step>,
}

impl Ahead {
    /// After a step from one state to the next: as far again, and by as much farther as it went beyond the one before.
    pub fn after(&self, from: &Pressed, to: &Pressed) -> Self {
        let moved = |at: usize| match (&to.zones[at], &from.zones[at]) {
            (Some(to), Some(from)) => to.strain[at] - from.strain[at],
            _ => 0.0,
        };
        let step = Step {
            wall: [0, 1].map(|i| to.wall.strain[i] - from.wall.strain[i]),
            zones: [0, 1].map(moved),
        };
        let on = |step: [f64; 2], last: [f64; 2]| [0, 1].map(|i| 2.0 * step[i] - last[i]);
        Self {
            expected: self.last.map_or(step, |last| Step {
                wall: on(step.wall, last.wall),
                zones: on(step.zones, last.zones),
            }),
            last: Some(step),
        }
    }
}

/// The walls that a history is told of, and their line loads.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Walls {
    pub wall: SharedWall,
    pub zones: [Option<SharedWall>; 2],
    /// Ultimate strengths of the cylinder and the zones, Pa.
    breaks: [f64; 3],
    /// Axial and hoop line load per pressure, m.
    loads: [f64; 2],
    /// Hoop stress at which the liner buckles inwards, Pa.
    buckles_at: f64,
    /// Strain across the fibre at which resin cracks; infinite where it is not given.
    cracks_at: f64,
}

impl Walls {
    /// Of a tank whose liner and girth seam have the thicknesses given, m.
    pub fn new(
        form: &TankForm,
        tank: &Tank<f64>,
        size: &Dimensions<f64>,
        [thickness, girth_thickness]: [f64; 2],
    ) -> Self {
        let liner = &tank.liner;
        let metal = &liner.metal;
        let law = FlowLaw {
            elastic_modulus: metal.elastic_modulus,
            poisson_ratio: metal.poisson_ratio,
            yield_strength: metal.yield_strength,
            plastic_modulus: liner.plastic_modulus,
        };
        let inner = size.inner_diameter * 0.5;
        let radius = inner + thickness * 0.5;
        let gap = tank.overwrap.gap / (inner + size.wall);
        let wall = |law: FlowLaw, thickness: f64| SharedWall::new(form, tank, law, thickness, gap);
        let (yields, breaks) = (metal.yield_strength, metal.ultimate_strength);
        let zone = |yield_strength: f64, thickness: f64| {
            let law = FlowLaw {
                yield_strength,
                ..law
            };
            wall(law, thickness)
        };
        let girth = |parent: f64, weld_zone: f64| girth_strength(form, tank, parent, weld_zone);
        let longitudinal =
            |parent: f64, weld_zone: f64| longitudinal_strength(form, tank, parent, weld_zone);
        let (zone_yields, zone_breaks) = (
            metal.weld_zone_yield_strength,
            metal.weld_zone_ultimate_strength,
        );
        Self {
            wall: wall(law, thickness),
            zones: [
                form.has_girth_seam()
                    .then(|| zone(girth(yields, zone_yields), girth_thickness)),
                form.has_longitudinal_seam()
                    .then(|| zone(longitudinal(yields, zone_yields), thickness)),
            ],
            breaks: [
                breaks,
                girth(breaks, zone_breaks),
                longitudinal(breaks, zone_breaks),
            ],
            loads: [
                axial_line_load(1.0, inner, radius),
                hoop_line_load(1.0, radius),
            ],
            buckles_at: buckling_stress(&law, thickness, radius),
            cracks_at: match tank.overwrap.cracking_strain {
                stated if stated > 0.0 => stated,
                _ => f64::INFINITY,
            },
        }
    }

    /// Without pressure, before anything has flowed; none if winding tension alone crushes the liner.
    pub fn at_rest(&self) -> Option<Pressed> {
        let start = Pressed {
            wall: self.wall.unstrained(),
            zones: [0, 1].map(|seam| self.zones[seam].as_ref().map(SharedWall::unstrained)),
        };
        self.next(&start, 0.0, &Ahead::default()).ok()
    }

    /// The state at a pressure, Pa, from the one before; the search for it starts ahead of that.
    pub fn next(&self, before: &Pressed, pressure: f64, ahead: &Ahead) -> Result<Pressed, Ending> {
        let near = [0, 1].map(|i| before.wall.strain[i] + ahead.expected.wall[i]);
        let wall = self
            .wall
            .under(self.line_loads(pressure), &before.wall, near);
        let wall = wall.ok_or(Ending::Collapse)?;
        let mut zones = [None; 2];
        for seam in Seam::ALL {
            let at = seam as usize;
            if let (Some(zone), Some(before)) = (&self.zones[at], &before.zones[at]) {
                let load = self.loads[at] * pressure;
                let near = before.strain[at] + ahead.expected.zones[at];
                let held = zone.held(at, load, wall.strain[1 - at], before, near);
                zones[at] = Some(held.ok_or(Ending::Zone(seam))?);
            }
        }
        Ok(Pressed { wall, zones })
    }

    fn line_loads(&self, pressure: f64) -> [f64; 2] {
        self.loads.map(|load| load * pressure)
    }

    /// Equivalent stress of the liner at a pressure if it did not flow on the way, over its yield strength, less
    /// one.
    pub fn liner_excess(&self, before: &Pressed, pressure: f64) -> f64 {
        let loads = self.line_loads(pressure);
        let tried = self.wall.tried_under(loads, &before.wall);
        tried.map_or(f64::INFINITY, |tried| self.wall.excess(&tried))
    }

    /// The same of a weld zone, whose neighbours may flow.
    pub fn zone_excess(&self, seam: Seam, before: &Pressed, pressure: f64) -> f64 {
        let at = seam as usize;
        let (Some(zone), Some(last)) = (&self.zones[at], &before.zones[at]) else {
            return f64::NEG_INFINITY;
        };
        let loads = self.line_loads(pressure);
        let Some(wall) = self.wall.under(loads, &before.wall, before.wall.strain) else {
            return f64::INFINITY;
        };
        let load = self.loads[at] * pressure;
        let tried = zone.tried_held(at, load, wall.strain[1 - at], last);
        tried.map_or(f64::INFINITY, |tried| zone.excess(&tried))
    }

    /// Strain across the fibres over the one at which resin cracks, less one.
    pub fn crack_excess(&self, state: &Pressed) -> f64 {
        self.wall.across_fibre(state.wall.strain) / self.cracks_at - 1.0
    }

    /// What is nearest to breaking, and how much of what it bears is used.
    pub fn nearest_to_break(&self, state: &Pressed) -> (Ending, f64) {
        let mut nearest = (Ending::Holds, 0.0);
        let mut consider = |ending: Ending, share: f64| {
            if share > nearest.1 {
                nearest = (ending, share);
            }
        };
        if let Some((ply, share)) = self.wall.nearest_to_break(state.wall.strain) {
            consider(Ending::Fibre(ply), share);
        }
        let hardened = self.wall.hardened(self.breaks[0], &state.wall);
        consider(Ending::Rupture, hardened);
        for seam in Seam::ALL {
            let at = seam as usize;
            let (Some(wall), Some(zone)) = (&self.zones[at], &state.zones[at]) else {
                continue;
            };
            let hardened = wall.hardened(self.breaks[1 + at], zone);
            consider(Ending::ZoneRupture(seam), hardened);
            if let Some((ply, share)) = wall.nearest_to_break(zone.strain) {
                consider(Ending::ZoneFibre(seam, ply), share);
            }
        }
        nearest
    }

    /// Hoop stress that presses the liner, over the one under which it buckles inwards; zero where it is pulled.
    pub fn buckling_share(&self, state: &Pressed) -> f64 {
        (-state.wall.liner.stress[1]).max(0.0) / self.buckles_at
    }
}

/// Hoop stress, Pa, at which a liner that fits tightly into a rigid wrap buckles inwards: that of a pressure from
/// outside of `E / (1 - nu^2) (t / D)^2.2` (D. Glock, 1977, as derived again by an energy method).
///
/// What the wrap does ends where the liner gives way, what a pressure does not: so the comparison is
/// cautious for a round liner. Dents, and a liner that has come off its wrap, lower it.
fn buckling_stress(law: &FlowLaw, thickness: f64, radius: f64) -> f64 {
    let stiff = law.elastic_modulus / (1.0 - law.poisson_ratio * law.poisson_ratio);
    stiff * libm::pow(thickness / (2.0 * radius), 2.2) * radius / thickness
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Glock's own form for a ring held tight, 0.969 (E I)^0.6 (E A)^0.4 / R^2.2 (from memory), with the plate
    /// modulus for a long tube: the two coefficients differ by 0.25 %.
    #[test]
    fn a_tight_liner_buckles_as_a_ring_held_tight() {
        let law = FlowLaw {
            elastic_modulus: 68.9e9,
            poisson_ratio: 0.33,
            yield_strength: 240e6,
            plastic_modulus: 0.0,
        };
        let (thickness, radius) = (1.5e-3_f64, 75e-3_f64);
        let plate: f64 = 68.9e9 / (1.0 - 0.33 * 0.33);
        let bending = libm::pow(plate * thickness.powi(3) / 12.0, 0.6);
        let ring = 0.969 * bending * libm::pow(plate * thickness, 0.4) / libm::pow(radius, 2.2);
        let pressure = buckling_stress(&law, thickness, radius) * thickness / radius;
        approx::assert_relative_eq!(pressure, ring, max_relative = 3e-3);
    }
}

//! Plastic flow of a metal in plane stress.
//!
//! Isotropic elasticity, the yield condition of von Mises, flow along its normal, and hardening that grows in
//! proportion to the plastic strain, the same in all directions. A strain is followed by the implicit return
//! to the yield surface in plane stress (J. C. Simo, R. L. Taylor, "A return mapping algorithm for plane stress
//! elastoplasticity", International Journal for Numerical Methods in Engineering 22 (1986) 649-670, from
//! memory): exact for a path along a straight line from rest, else of first order in the steps.

use std::f64::consts::FRAC_1_SQRT_2;

/// Largest number of corrections; three or four are enough.
const MOST: usize = 50;
/// Equivalent stress over yield strength by which the return may miss.
const CLOSE: f64 = 1e-13;

/// Equivalent stress over yield strength by which a stress still counts as on the yield surface: what has flowed
/// and is left there is elastic on its way back, whatever rounding says.
const ON_SURFACE: f64 = 1e-10;

/// How a metal answers to strain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowLaw {
    /// Elastic modulus, Pa.
    pub elastic_modulus: f64,
    /// Poisson's ratio.
    pub poisson_ratio: f64,
    /// Yield strength before any flow, Pa.
    pub yield_strength: f64,
    /// Rise of the yield strength per plastic strain, Pa; zero for perfect plasticity.
    pub plastic_modulus: f64,
}

/// What flow has left behind.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Flowed {
    /// Plastic strain, axial and hoop.
    pub strain: [f64; 2],
    /// Equivalent plastic strain, summed over all flow.
    pub equivalent: f64,
}

/// The answer to a strain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Answer {
    /// Axial and hoop stress, Pa.
    pub stress: [f64; 2],
    /// Change of stress with strain: axial by axial, either by the other, hoop by hoop, Pa.
    pub stiffness: [f64; 3],
    /// Flow so far.
    pub flowed: Flowed,
}

/// Equivalent (von Mises) stress of two principal stresses.
pub fn equivalent_stress([axial, hoop]: [f64; 2]) -> f64 {
    (axial * axial - axial * hoop + hoop * hoop).max(0.0).sqrt()
}

/// Sum and difference of a pair, turned by 45 degrees: in them both elasticity and flow stand apart.
fn turned([axial, hoop]: [f64; 2]) -> [f64; 2] {
    [
        (axial + hoop) * FRAC_1_SQRT_2,
        (hoop - axial) * FRAC_1_SQRT_2,
    ]
}

fn turned_back([sum, difference]: [f64; 2]) -> [f64; 2] {
    [
        (sum - difference) * FRAC_1_SQRT_2,
        (sum + difference) * FRAC_1_SQRT_2,
    ]
}

/// A symmetric matrix turned back, from its diagonal and its other entry: axial by axial, axial by hoop, hoop by
/// hoop.
fn matrix_back([sum, difference]: [f64; 2], other: f64) -> [f64; 3] {
    let mean = (sum + difference) * 0.5;
    [mean - other, (sum - difference) * 0.5, mean + other]
}

/// Shares of sum and difference in the flow.
const FLOW: [f64; 2] = [1.0 / 3.0, 1.0];

impl FlowLaw {
    /// Yield strength after flow, Pa.
    pub fn yield_after(&self, equivalent: f64) -> f64 {
        self.yield_strength + self.plastic_modulus * equivalent
    }

    /// The same metal, never yielding.
    pub fn without_flow(&self) -> Self {
        Self {
            yield_strength: f64::INFINITY,
            ..*self
        }
    }

    /// Stiffness against sum and difference of the strains, Pa.
    fn stiffness(&self) -> [f64; 2] {
        let (modulus, nu) = (self.elastic_modulus, self.poisson_ratio);
        [modulus / (1.0 - nu), modulus / (1.0 + nu)]
    }

    /// Stress while nothing flows, Pa, of axial and hoop strain.
    pub fn elastic_stress(&self, strain: [f64; 2], before: &Flowed) -> [f64; 2] {
        let elastic = [0, 1].map(|i| strain[i] - before.strain[i]);
        let [sum, difference] = turned(elastic);
        let [bulk, shear] = self.stiffness();
        turned_back([bulk * sum, shear * difference])
    }

    /// Stress, stiffness and flow at a strain (axial, hoop), after the flow before.
    pub fn answer(&self, strain: [f64; 2], before: &Flowed) -> Answer {
        let tried = self.elastic_stress(strain, before);
        let stiffness = self.stiffness();
        let limit = self.yield_after(before.equivalent);
        if equivalent_stress(tried) <= limit * (1.0 + ON_SURFACE) {
            return Answer {
                stress: tried,
                stiffness: matrix_back(stiffness, 0.0),
                flowed: *before,
            };
        }
        let tried = turned(tried);
        // Stresses shrink with the amount of flow, `g`, by 1 / (1 + C P g) each.
        let soften = [0, 1].map(|i| stiffness[i] * FLOW[i]);
        let weight = [0.5, 1.5];
        let mut g = 0.0;
        let mut reached = limit;
        let mut stress = tried;
        for _ in 0..MOST {
            stress = [0, 1].map(|i| tried[i] / (1.0 + soften[i] * g));
            let squares = [0, 1].map(|i| weight[i] * stress[i] * stress[i]);
            reached = (squares[0] + squares[1]).sqrt();
            let yields = self.yield_after(before.equivalent + g * reached * (2.0 / 3.0));
            let miss = reached - yields;
            if miss.abs() <= CLOSE * yields {
                break;
            }
            let falls = (0..2)
                .map(|i| squares[i] * soften[i] / (1.0 + soften[i] * g))
                .sum::<f64>()
                / reached;
            let hardens = self.plastic_modulus * (2.0 / 3.0) * (reached - g * falls);
            // Newton's rule on the inverse of the stresses, which is all but straight in the amount of flow.
            g += miss / (falls * yields / reached + hardens * reached / yields);
        }
        let softened = [0, 1].map(|i| stiffness[i] / (1.0 + soften[i] * g));
        let normal = [0, 1].map(|i| softened[i] * FLOW[i] * stress[i]);
        let along: f64 = (0..2).map(|i| normal[i] * FLOW[i] * stress[i]).sum();
        // Of the consistent tangent: hardening against the flow's own give.
        let squared = reached * reached * (2.0 / 3.0);
        let hardening = (2.0 / 3.0) * self.plastic_modulus * squared
            / (1.0 - (2.0 / 3.0) * self.plastic_modulus * g);
        let give = 1.0 / (along + hardening);
        let diagonal = [0, 1].map(|i| softened[i] - normal[i] * normal[i] * give);
        let flow = turned_back([0, 1].map(|i| g * FLOW[i] * stress[i]));
        Answer {
            stress: turned_back(stress),
            stiffness: matrix_back(diagonal, -normal[0] * normal[1] * give),
            flowed: Flowed {
                strain: [0, 1].map(|i| before.strain[i] + flow[i]),
                equivalent: before.equivalent + g * reached * (2.0 / 3.0),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METAL: FlowLaw = FlowLaw {
        elastic_modulus: 70e9,
        poisson_ratio: 0.33,
        yield_strength: 240e6,
        plastic_modulus: 1.4e9,
    };

    /// Axial stress is what it should be where hoop stress is kept at zero.
    fn pulled(strain: f64) -> Answer {
        let mut across = -0.33 * strain;
        for _ in 0..50 {
            let answer = METAL.answer([strain, across], &Flowed::default());
            across -= answer.stress[1] / answer.stiffness[2];
        }
        METAL.answer([strain, across], &Flowed::default())
    }

    /// One bar: stress above yield rises with the plastic strain times the plastic modulus.
    #[test]
    fn a_bar_follows_its_own_curve() {
        let answer = pulled(0.02);
        let plastic = 0.02 - answer.stress[0] / 70e9;
        approx::assert_relative_eq!(
            answer.stress[0],
            240e6 + 1.4e9 * plastic,
            max_relative = 1e-12
        );
        approx::assert_relative_eq!(answer.flowed.equivalent, plastic, max_relative = 1e-12);
        approx::assert_relative_eq!(answer.flowed.strain[1], -0.5 * plastic, max_relative = 1e-9);
    }

    #[test]
    fn stiffness_is_the_change_of_stress() {
        let before = Flowed {
            strain: [1e-3, 2e-3],
            equivalent: 3e-3,
        };
        for strain in [[2e-3, 3e-3], [4e-3, 9e-3], [-5e-3, 4e-3], [1e-2, 1e-2]] {
            let [aa, ah, hh] = METAL.answer(strain, &before).stiffness;
            let h = 1e-7;
            let slope = |i: usize, j: usize| {
                let at = |by: f64| {
                    let mut moved = strain;
                    moved[j] += by;
                    METAL.answer(moved, &before).stress[i]
                };
                (at(h) - at(-h)) / (2.0 * h)
            };
            for (got, expected) in [
                (aa, slope(0, 0)),
                (ah, slope(0, 1)),
                (ah, slope(1, 0)),
                (hh, slope(1, 1)),
            ] {
                approx::assert_relative_eq!(got, expected, max_relative = 1e-5, epsilon = 1e4);
            }
        }
    }

    #[test]
    fn unloading_is_elastic_and_comes_back() {
        let flowed = METAL.answer([3e-3, 8e-3], &Flowed::default());
        let lower = METAL.answer([2e-3, 6.5e-3], &flowed.flowed);
        assert_eq!(lower.flowed, flowed.flowed);
        let again = METAL.answer([3e-3, 8e-3], &lower.flowed);
        for i in 0..2 {
            approx::assert_relative_eq!(again.stress[i], flowed.stress[i], max_relative = 1e-9);
        }
    }
}

//! Stress in a closure.

use super::sheet::{GEOMETRY, Sheet};
use crate::quantity::Quantity as Q;
use crate::vessel::{ClosureKind, TankForm, closure_stress};

const SHELL: &str = "membrane theory of a shell of revolution";
const CODE: &str = "ASME Boiler and Pressure Vessel Code, section VIII division 1, appendix 1-4(d)";
const PLATE: &str =
    "\"Mechanical Engineer's Data Handbook\", section 1.10.1 \"Loaded flat plates\", page 53";

impl Sheet<'_> {
    /// Largest stress in a closure under a pressure, by symbol and value.
    pub(super) fn closure(&mut self, form: &TankForm, side: &str, pressure: (&str, f64)) {
        let kind = Self::kind(form, side);
        let closure = self.closure_of(side);
        let diameter = self.result("inner_diameter", "geometry.liner_inner_diameter");
        let t = self.minimum_thickness(side);
        let p = pressure.0;
        let dome_radius = format!("(inner_diameter + {t}) / 2");
        let (formula, doc, source) = match kind {
            ClosureKind::Hemisphere => {
                self.step(
                    "dome_radius",
                    dome_radius,
                    Q::Length,
                    "mean radius of the dome",
                    GEOMETRY,
                );
                (
                    format!("{p} * dome_radius / (2 * {t})"),
                    "membrane stress of the hemisphere",
                    SHELL,
                )
            }
            ClosureKind::Ellipsoid => {
                self.step(
                    "dome_radius",
                    dome_radius,
                    Q::Length,
                    "mean radius of the dome",
                    GEOMETRY,
                );
                (
                    format!("{p} * dome_radius / {t}"),
                    "membrane stress of the 2:1 ellipsoid, at the crown and, compressive, at the equator",
                    SHELL,
                )
            }
            ClosureKind::Torisphere => {
                self.crown(side);
                (
                    format!("{p} * (crown_radius * torisphere_factor + 0.2 * {t}) / (2 * {t})"),
                    "stress of the torisphere: the code's thickness formula solved for it",
                    CODE,
                )
            }
            ClosureKind::Isotensoid => {
                let k = self.turning(side);
                self.step(
                    "neck_radius",
                    format!(
                        "sqrt(2) * inner_diameter / (6 * {k} * sqrt(1 - {k} ** 2)) + {t} / 2"
                    ),
                    Q::Length,
                    "radius of curvature across the meridian where the curve meets its cap, at mid-thickness",
                    GEOMETRY,
                );
                (
                    format!("{p} * neck_radius / {t}"),
                    "membrane hoop stress of the isotensoid beside its cap, where its meridian is straight",
                    SHELL,
                )
            }
            ClosureKind::FlatClamped => (
                format!("0.75 * {p} * (inner_diameter / (2 * {t})) ** 2"),
                "bending stress of the plate at its clamped edge",
                PLATE,
            ),
            ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
                self.input("poisson_ratio", "tank.liner.metal.poisson_ratio");
                (
                    format!(
                        "3 * (3 + poisson_ratio) / 8 * {p} * (inner_diameter / (2 * {t})) ** 2"
                    ),
                    "bending stress of the plate at its centre, edge free to turn",
                    PLATE,
                )
            }
        };
        self.step("closure_stress", formula, Q::Stress, doc, source);
        let nu = self.point.tank.liner.metal.poisson_ratio;
        self.as_computed(closure_stress(kind, &closure, pressure.1, diameter, nu));
    }

    /// Crown radius of a torisphere and the code's factor for its knuckle.
    fn crown(&mut self, side: &str) {
        for name in ["crown_radius_ratio", "knuckle_radius_ratio"] {
            self.input(name, &format!("tank.{side}_closure.{name}"));
        }
        self.step(
            "crown_radius",
            "inner_diameter * crown_radius_ratio",
            Q::Length,
            "inside radius of the crown",
            GEOMETRY,
        );
        self.step(
            "torisphere_factor",
            "(3 + sqrt(crown_radius_ratio / knuckle_radius_ratio)) / 4",
            Q::Ratio,
            "factor M for crown and knuckle",
            CODE,
        );
    }

    /// Equivalent stress where a closure yields first; gives its symbol.
    pub(super) fn closure_yield(&mut self, form: &TankForm, side: &str) -> &'static str {
        match Self::kind(form, side) {
            ClosureKind::Ellipsoid => {}
            ClosureKind::Isotensoid => {
                self.step(
                    "closure_equivalent_stress",
                    "closure_stress * sqrt(3) / 2",
                    Q::Stress,
                    "equivalent stress beside the cap, where the meridian stress is half the hoop stress",
                    "von Mises' condition of yield",
                );
                return "closure_equivalent_stress";
            }
            _ => return "closure_stress",
        }
        self.step(
            "closure_equivalent_stress",
            "closure_stress * sqrt(7) / 2",
            Q::Stress,
            "equivalent stress at the equator, where a meridian stress of half the hoop stress meets it \
             with the other sign",
            "von Mises' condition of yield",
        );
        "closure_equivalent_stress"
    }
}

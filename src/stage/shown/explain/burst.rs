//! Burst: pressure at which the strength of liner and fibres in the cylinder is spent.

use super::seams::Strength;
use super::sheet::{DEFINITION, Sheet};
use super::wall::HALF_RING;
use crate::quantity::Quantity as Q;
use crate::vessel::{PlyKind, SeamBasis, TankForm};

const LIMIT: &str = "equilibrium of liner and fibre line loads; for metal alone p = 2 t Su / Dm, the limit \
    load by Tresca's condition (X.-K. Zhu and others, ASME Journal of Pressure Vessel Technology 145(4), \
    041303, 2023)";
const BALANCE: &str = "equilibrium: a helical ply counts only as far as the load across it balances (for \
    fibres alone: netting)";

/// Direction in which strength is spent.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Direction {
    Around,
    Along,
}

impl Direction {
    /// Symbols of line loads per pressure: with and across the direction.
    fn loads(self) -> [&'static str; 2] {
        match self {
            Self::Around => ["hoop_load_per_pressure", "axial_load_per_pressure"],
            Self::Along => ["axial_load_per_pressure", "hoop_load_per_pressure"],
        }
    }

    /// Symbols of the helical plies' strength: with and across the direction.
    fn helical(self) -> [&'static str; 2] {
        match self {
            Self::Around => ["helical_strength_around", "helical_strength_along"],
            Self::Along => ["helical_strength_along", "helical_strength_around"],
        }
    }
}

impl Sheet<'_> {
    /// Whether fibres carry in a direction: then the metal counts with its yield strength only.
    fn carried(form: &TankForm, direction: Direction) -> bool {
        match direction {
            Direction::Around => form.plies > 0,
            Direction::Along => form.has_helical(),
        }
    }

    /// Strength of the metal that counts at burst, parent or across a seam; gives its symbol.
    pub(super) fn burst_metal(
        &mut self,
        form: &TankForm,
        direction: Direction,
        seam: Option<(&str, SeamBasis)>,
    ) -> String {
        let strength = if Self::carried(form, direction) {
            Strength::Yield
        } else {
            Strength::Ultimate
        };
        match seam {
            None => self.parent(strength),
            Some((seam, basis)) => self.seam(seam, basis, strength),
        }
    }

    /// Strength of the plies as line loads, and whether any is helical.
    fn fibre_strength(&mut self, form: &TankForm, direction: Direction) -> (bool, bool) {
        let (mut hoop, mut around, mut along) = (Vec::new(), Vec::new(), Vec::new());
        for ply in 0..form.plies {
            let helical = form.ply_kinds[ply] == PlyKind::Helical;
            if !helical && direction == Direction::Along {
                continue;
            }
            let path = format!("tank.overwrap.ply[{ply}]");
            self.input("fibre_strength", "tank.overwrap.fibre.strength");
            for leaf in ["angle", "fibre_thickness", "translation_efficiency"] {
                self.input(&format!("{leaf}_{ply}"), &format!("{path}.{leaf}"));
            }
            self.step(
                &format!("ply_strength_{ply}"),
                format!("fibre_strength * translation_efficiency_{ply} * fibre_thickness_{ply}"),
                Q::LineLoad,
                &format!("strength of ply {ply} along its fibres, as a line load"),
                DEFINITION,
            );
            let part =
                |function: &str| format!("ply_strength_{ply} * {function}(angle_{ply}) ** 2");
            if helical {
                around.push(part("sin"));
                along.push(part("cos"));
            } else {
                hoop.push(part("sin"));
            }
        }
        let (any_hoop, any_helical) = (!hoop.is_empty(), !along.is_empty());
        for (symbol, parts, doc) in [
            (
                "hoop_ply_strength",
                hoop,
                "strength of the hoop plies around the axis",
            ),
            (
                "helical_strength_around",
                around,
                "strength of the helical plies around the axis",
            ),
            (
                "helical_strength_along",
                along,
                "strength of the helical plies along the axis",
            ),
        ] {
            if !parts.is_empty() {
                self.step(symbol, parts.join(" + "), Q::LineLoad, doc, BALANCE);
            }
        }
        (any_hoop, any_helical)
    }

    /// Pressure at which wall and fibres are spent in a direction.
    pub(super) fn spent(&mut self, form: &TankForm, direction: Direction, metal: &str, wall: &str) {
        let [along, beside] = direction.loads();
        self.loads_per_pressure();
        let (hoop, helical) = self.fibre_strength(form, direction);
        let mut strength = format!("{metal} * {wall}");
        if hoop {
            strength += " + hoop_ply_strength";
        }
        self.step(
            "wall_strength",
            strength,
            Q::LineLoad,
            "strength of metal and hoop plies as a line load; beside fibres the metal counts at yield",
            LIMIT,
        );
        let pressure = "pressure at which wall and fibres are spent";
        if !helical {
            let formula = format!("wall_strength / {along}");
            self.step("spent_pressure", formula, Q::GaugePressure, pressure, LIMIT);
            return;
        }
        let [with, across] = direction.helical();
        self.step(
            "all_spent",
            format!("(wall_strength + {with}) / {along}"),
            Q::GaugePressure,
            "pressure if all of the helical plies' strength counts",
            HALF_RING,
        );
        let relief = self.step(
            "unbalanced_load",
            format!("{along} - {with} / max({across}, 1e-9) * {beside}"),
            Q::Length,
            "line load per pressure that is left where the helical plies are balanced across",
            BALANCE,
        );
        let formula = if relief > 0.0 {
            self.step(
                "balanced",
                "wall_strength / unbalanced_load",
                Q::GaugePressure,
                "pressure up to which the helical plies are balanced across",
                BALANCE,
            );
            "min(all_spent, balanced)"
        } else {
            "all_spent"
        };
        self.step(
            "spent_pressure",
            formula,
            Q::GaugePressure,
            pressure,
            BALANCE,
        );
    }
}

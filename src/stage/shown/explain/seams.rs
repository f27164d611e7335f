//! Strength and thickness of the welded seams.

use super::sheet::{DEFINITION, Sheet};
use crate::quantity::Quantity as Q;
use crate::vessel::{Closure, ClosureKind, SeamBasis, TankForm, seam_strength};

const BASIS: &str = "weld-zone strength and joint efficiency are two things; the basis is stated";

/// Which of the two strengths of a metal.
#[derive(Clone, Copy)]
pub(super) enum Strength {
    Yield,
    Ultimate,
}

impl Strength {
    fn word(self) -> &'static str {
        match self {
            Self::Yield => "yield",
            Self::Ultimate => "ultimate",
        }
    }
}

impl Sheet<'_> {
    /// Strength of the parent metal; gives its symbol.
    pub(super) fn parent(&mut self, strength: Strength) -> String {
        let word = strength.word();
        let symbol = format!("{word}_strength");
        self.input(&symbol, &format!("tank.liner.metal.{word}_strength"));
        symbol
    }

    /// Strength across a seam, "girth" or "longitudinal"; gives its symbol.
    pub(super) fn seam(&mut self, seam: &str, basis: SeamBasis, strength: Strength) -> String {
        let word = strength.word();
        let metal = &self.point.tank.liner.metal;
        let (parent, zone) = match strength {
            Strength::Yield => (metal.yield_strength, metal.weld_zone_yield_strength),
            Strength::Ultimate => (metal.ultimate_strength, metal.weld_zone_ultimate_strength),
        };
        let liner = &self.point.tank.liner;
        let efficiency = match seam {
            "girth" => liner.girth_seam.joint_efficiency,
            _ => liner.longitudinal_seam.joint_efficiency,
        };
        let mut formula = if basis.uses_weld_zone() {
            let symbol = format!("weld_zone_{word}_strength");
            self.input(&symbol, &format!("tank.liner.metal.{symbol}"));
            symbol
        } else {
            self.parent(strength)
        };
        if basis.uses_efficiency() {
            self.input(
                "joint_efficiency",
                &format!("tank.liner.{seam}_seam.joint_efficiency"),
            );
            formula += " * joint_efficiency";
        }
        let doc = format!("{word} strength across the {seam} seam");
        self.step("seam_strength", formula, Q::Stress, &doc, BASIS);
        self.as_computed(seam_strength(basis, parent, zone, efficiency));
        "seam_strength".to_owned()
    }

    /// Thickness at the girth seam: the thinner of cylinder and domed closure beside it.
    pub(super) fn seam_wall(&mut self, form: &TankForm) {
        self.result("minimum_wall", "geometry.liner_minimum_wall");
        let mut thicknesses = vec!["minimum_wall".to_owned()];
        for (side, kind) in [("fore", form.fore_closure), ("aft", form.aft_closure)] {
            if kind.is_domed() {
                thicknesses.push(self.minimum_thickness(side));
            }
        }
        let mut formula = match &thicknesses[..] {
            [wall] => wall.clone(),
            several => format!("min({})", several.join(", ")),
        };
        if self.point.tank.liner.girth_seam.lack_of_penetration > 0.0 {
            self.input(
                "lack_of_penetration",
                "tank.liner.girth_seam.lack_of_penetration",
            );
            formula = format!("max({formula} - lack_of_penetration, 0)");
        }
        self.step(
            "seam_wall",
            formula,
            Q::Length,
            "throat of the girth seam: the thinner of cylinder and domed closure beside it, less what lacks \
             penetration",
            DEFINITION,
        );
    }

    /// Least thickness of a closure that its tolerance leaves; gives its symbol.
    pub(super) fn minimum_thickness(&mut self, side: &str) -> String {
        let (thickness, share) = (
            format!("{side}_thickness"),
            format!("{side}_under_tolerance"),
        );
        self.input(&thickness, &format!("tank.{side}_closure.thickness"));
        self.input(
            &share,
            &format!("tank.{side}_closure.thickness_under_tolerance"),
        );
        let symbol = format!("{side}_minimum_thickness");
        self.step(
            &symbol,
            format!("{thickness} * (1 - {share})"),
            Q::Length,
            &format!("least thickness of the {side} closure that its tolerance leaves"),
            DEFINITION,
        );
        self.as_computed(self.closure_of(side).minimum_thickness());
        symbol
    }

    /// The closure of a side.
    pub(super) fn closure_of(&self, side: &str) -> Closure<f64> {
        match side {
            "fore" => self.point.tank.fore_closure,
            _ => self.point.tank.aft_closure,
        }
    }

    /// Kind of a closure.
    pub(super) fn kind(form: &TankForm, side: &str) -> ClosureKind {
        match side {
            "fore" => form.fore_closure,
            _ => form.aft_closure,
        }
    }
}

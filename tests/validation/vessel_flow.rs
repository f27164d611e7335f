//! Tank: liner and wrap beyond yield.

use crate::Outside;
use crate::vessel::{form, tank};
use hoopline::vessel::{FlowLaw, PlyKind, SharedWall};

const SPHERE: Outside = Outside {
    room: "vessel",
    source: "sphere of a perfectly plastic liner under a wrap, closed form derived: K = Ef tf (1 - nu) / (E t), \
             yield pressure 2 S t (1 + K) / R, residual liner stress S - p R / (2 t (1 + K))",
};

/// Both directions alike, so that the liner's stress stays where it reached its yield strength: fibres of the same
/// thickness one way and the other, line loads p R / 2 both.
#[test]
fn a_sphere_keeps_what_autofrettage_leaves() {
    let law = FlowLaw {
        elastic_modulus: 70e9,
        poisson_ratio: 0.33,
        yield_strength: 240e6,
        plastic_modulus: 0.0,
    };
    let (thickness, radius) = (2e-3, 0.1);
    let mut form = form(2);
    let mut tank = tank(70e9, 0.33, 240e6);
    form.ply_kinds[..2].copy_from_slice(&[PlyKind::Helical, PlyKind::Hoop]);
    let wrap = &mut tank.overwrap;
    (wrap.winding_stress, wrap.gap) = (0.0, 0.0);
    wrap.fibre.elastic_modulus = 230e9;
    wrap.fibre.strength = 4000e6;
    for (ply, degrees) in wrap.ply.iter_mut().zip([0.0_f64, 90.0]) {
        ply.angle = degrees.to_radians();
        ply.fibre_thickness = 0.8e-3;
        ply.translation_efficiency = 0.8;
    }
    let wall = SharedWall::new(&form, &tank, law, thickness, 0.0);
    let ratio = 230e9 * 0.8e-3 * (1.0 - 0.33) / (70e9 * thickness);
    let loads = |pressure: f64| [pressure * radius * 0.5; 2];
    let yields = 2.0 * 240e6 * thickness * (1.0 + ratio) / radius;
    let start = wall.unstrained();
    let reach = |pressure: f64| {
        let reached = wall.under(loads(pressure), &start, start.strain);
        reached.expect("a wrap that holds")
    };
    let before = reach(yields * (1.0 - 1e-6)).liner;
    let after = reach(yields * (1.0 + 1e-6)).liner;
    assert!(before.flowed.equivalent <= 0.0 && after.flowed.equivalent > 0.0);
    SPHERE.relative(
        "liner stress at the yield pressure",
        before.stress[0],
        240e6,
        2e-6,
    );
    let pressure = 1.4 * yields;
    let high = reach(pressure);
    SPHERE.relative("liner stress above it", high.liner.stress[1], 240e6, 1e-9);
    let empty = wall.under([0.0; 2], &high, high.strain);
    let empty = empty.expect("a wall without load");
    let residual = 240e6 - pressure * radius / (2.0 * thickness * (1.0 + ratio));
    SPHERE.relative(
        "residual liner stress",
        empty.liner.stress[0],
        residual,
        1e-9,
    );
}

//! The wall under one rising pressure, by total strains, beside the steps of the load history.

use crate::{example, with};
use hoopline::stage::Stage;
use hoopline::vessel::{Risen, WallChoice, dimensions, largest_zone_strain, risen};

fn at(stage: &Stage, pressure: f64) -> [Risen<f64>; 2] {
    let (form, point) = (stage.form(), stage.point());
    let side = form.tank.as_ref().expect("a tank");
    let size = dimensions(&side.tank, side.shape, &point.tank);
    risen(&side.tank, &point.tank, &size, pressure)
}

fn variants() -> Vec<Stage> {
    let slim = example("petrel_slim.toml");
    let thin = with(&slim, "tank.liner.wall", "1.7 mm");
    let wound = with(&slim, "tank.overwrap.winding_stress", "60 MPa");
    let hardening = |stage: &Stage| with(stage, "tank.liner.plastic_modulus", "900 MPa");
    vec![
        hardening(&slim),
        hardening(&thin),
        hardening(&wound),
        slim,
        thin,
    ]
}

/// Before anything flows both are the same to rounding; beyond they differ by what the stresses turn on the way.
#[test]
fn total_strains_stay_near_the_steps_of_the_history() {
    let mut far: f64 = 0.0;
    for stage in variants() {
        let history = stage
            .load_history(WallChoice::Minimum)
            .expect("a tank")
            .history;
        for held in history
            .held
            .iter()
            .filter(|held| held.change == 0 && held.pressure > 0.0)
        {
            let [wall, zone] = at(&stage, held.pressure);
            let stepped = held.zones[0].expect("a girth seam");
            let pairs = [(wall, &held.wall), (zone, &stepped)];
            for (risen, stepped) in pairs {
                let largest = stepped.strain[0].abs().max(stepped.strain[1].abs());
                for k in 0..2 {
                    let off = (risen.strain[k] - stepped.strain[k]).abs() / largest;
                    if stepped.liner.flowed.equivalent > 0.0 {
                        far = far.max(off);
                    } else if held.zones[0].is_some_and(|zone| zone.liner.flowed.equivalent <= 0.0)
                    {
                        assert!(off < 1e-9, "{off} at {} Pa", held.pressure);
                    }
                }
            }
        }
    }
    println!("total strains off by {far:.4} of the largest strain, at most");
    assert!(far < 0.06, "{far}");
}

/// The flow found is the one at which the metal bears what it has hardened to.
#[test]
fn the_flow_found_is_on_the_yield_surface() {
    for stage in variants() {
        let metal = stage.point().tank.liner.metal;
        let hardens = stage.point().tank.liner.plastic_modulus;
        for bar in [80.0, 120.0, 180.0, 230.0] {
            let [wall, _] = at(&stage, bar * 1e5);
            if wall.flow <= 0.0 {
                continue;
            }
            let half = |modulus: f64, share: f64| modulus / (1.0 + modulus * share * wall.flow);
            let sum = half(
                metal.elastic_modulus / (1.0 - metal.poisson_ratio),
                1.0 / 3.0,
            );
            let difference = half(metal.elastic_modulus / (1.0 + metal.poisson_ratio), 1.0);
            let [a, h] = wall.strain;
            let (even, odd) = (0.5 * sum * (a + h), 0.5 * difference * (h - a));
            let (axial, hoop) = (even - odd, even + odd);
            let equivalent = (axial * axial - axial * hoop + hoop * hoop).sqrt();
            let plastic = wall.flow * equivalent * 2.0 / 3.0;
            let yields = metal.yield_strength + hardens * plastic;
            approx::assert_relative_eq!(equivalent, yields, max_relative = 1e-10);
        }
    }
}

#[test]
fn the_margin_of_the_zone_is_what_it_bears_over_its_strain() {
    let slim = example("petrel_slim.toml");
    let path = "tank.liner.girth_seam.allowable_strain";
    let judged = with(&slim, path, "2 %");
    let strain = largest_zone_strain(&at(&slim, slim.outcome().pressures.burst));
    let margin = judged.outcome().margins.girth_zone_strain_burst;
    approx::assert_relative_eq!(margin, 0.02 / strain - 1.0, max_relative = 1e-12);
    assert!(
        with(&slim, path, "4 %")
            .outcome()
            .margins
            .girth_zone_strain_burst
            > margin
    );
}

/// The strain of a zone that bears is positive whatever the wrap, so that its margin has no pole.
#[test]
fn the_margin_of_the_zone_has_no_pole() {
    let slim = example("petrel_slim.toml");
    let path = "tank.liner.girth_seam.allowable_strain";
    let judged = with(&slim, path, "5 %");
    for fibre in ["0 mm", "0.02 mm", "0.04 mm", "0.05 mm", "0.1 mm"] {
        let stage = with(&judged, "tank.overwrap.ply[1].fibre_thickness", fibre);
        let margin = stage.outcome().margins.girth_zone_strain_burst;
        assert!(margin > -1.0 && margin < 10.0, "{fibre}: {margin}");
    }
}

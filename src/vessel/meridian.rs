//! The middle surface of a dome along its meridian, from the edge at the cylinder to the apex, cut into
//! cells.

use super::form::ClosureKind;
use super::isotensoid;
use super::tank::Closure;
use crate::numerics::Real;
use std::sync::LazyLock;

/// Cells from edge to apex. Own choice: against seventy times as many, surface stresses at the junction change
/// by less than 0.5 % of p R / t at walls of 1 to 7 % of the radius and 1 % at 0.4 %.
pub(super) const CELLS: usize = 20;
/// Cells of a torisphere's knuckle; the rest is its crown.
const KNUCKLE: usize = 8;

/// Cells of an isotensoid's curve; the rest is its cap. Against seventy times as many, the largest stress at the
/// junction changes by less than 0.1 %, for ratios of 0.05 to 0.7 and walls of 0.4 to 7 % of the radius.
const CURVE: usize = 14;

/// Least by which crown and knuckle radius, over the diameter, differ from a half, so that both have an
/// extent; without it a crown of half the diameter, a hemisphere, would have cells of no length.
const LEAST: f64 = 1e-6;

/// A place on the meridian.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node<R> {
    /// Distance from the axis, m.
    pub radius: R,
    /// Sine of the angle between normal and axis.
    pub sin: R,
    /// Its cosine.
    pub cos: R,
}

/// A piece of the meridian between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cell<R> {
    /// Length along the meridian, m.
    pub length: R,
    /// Distance of its middle from the axis, m.
    pub radius: R,
    /// Angle by which the normal turns.
    pub turn: R,
}

/// A dome's middle surface: nodes from the edge to the apex, and the cells between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Meridian<R> {
    pub nodes: [Node<R>; CELLS + 1],
    pub cells: [Cell<R>; CELLS],
}

/// A meridian of a dome of inside `diameter` and the thickness given, m.
///
/// Middle surface: of a hemisphere half a thickness outside its inside; of an ellipsoid the ellipse whose
/// semi-axes are half a thickness longer; of a torisphere the arcs of radii half a thickness longer; of an
/// isotensoid the parallel half a thickness outside. Cells are short at the edge, where stresses change fast.
pub(super) fn meridian<R: Real>(
    kind: ClosureKind,
    closure: &Closure<R>,
    diameter: R,
    thickness: R,
) -> Meridian<R> {
    let half = thickness * 0.5;
    let radius = diameter * 0.5 + half;
    match kind {
        ClosureKind::Torisphere => torisphere(closure, diameter, half),
        ClosureKind::Isotensoid => curve(closure.turning_radius_ratio, diameter * 0.5, half),
        ClosureKind::Ellipsoid => ellipsoid(radius, diameter * 0.25 + half),
        _ => ellipsoid(radius, radius),
    }
}

/// Tangent of half the angle of a graded arc of 90 degrees, after a share of its cells.
fn graded(share: f64) -> f64 {
    share * share
}

/// Cosine and sine of the eccentric angle at the nodes and in the middle of the cells of an ellipse, and the angle of
/// each cell. With `q` the tangent of half that angle from the edge, its cosine is `(1 - q^2) / (1 + q^2)`, its sine
/// `2 q / (1 + q^2)`.
struct Places {
    nodes: [[f64; 2]; CELLS + 1],
    middles: [[f64; 2]; CELLS],
    angles: [f64; CELLS],
}

static PLACES: LazyLock<Places> = LazyLock::new(|| {
    let q = |step: usize| graded(step as f64 / CELLS as f64);
    let middle = |cell: usize| 0.5 * (q(cell) + q(cell + 1));
    let turned = |q: f64| [(1.0 - q * q) / (1.0 + q * q), 2.0 * q / (1.0 + q * q)];
    Places {
        nodes: std::array::from_fn(|node| turned(q(node))),
        middles: std::array::from_fn(|cell| turned(middle(cell))),
        angles: std::array::from_fn(|cell| {
            2.0 * (q(cell + 1) - q(cell)) / (1.0 + middle(cell) * middle(cell))
        }),
    }
});

/// Half an ellipse of semi-axes `a` across and `b` along the axis.
fn ellipsoid<R: Real>(a: R, b: R) -> Meridian<R> {
    let places = &*PLACES;
    // Squared length per eccentric angle.
    let (aa, bb) = (a.squared(), b.squared());
    let pace = |[cos, sin]: [f64; 2]| aa * (sin * sin) + bb * (cos * cos);
    let area = a * b;
    Meridian {
        nodes: places.nodes.map(|place| {
            let [cos, sin] = place;
            let slowness = R::splat(1.0) / pace(place).sqrt();
            Node {
                radius: a * cos,
                sin: b * slowness * cos,
                cos: a * slowness * sin,
            }
        }),
        cells: std::array::from_fn(|cell| {
            let (place, angle) = (places.middles[cell], places.angles[cell]);
            let pace = pace(place);
            Cell {
                length: pace.sqrt() * angle,
                radius: a * place[0],
                turn: area / pace * angle,
            }
        }),
    }
}

/// An isotensoid's curve from the edge to its inflection, and its cap to the apex: `radius` is the rim's inside,
/// `half` the distance of the parallel. The curve's parameter is graded by the tangent of its half.
fn curve<R: Real>(ratio: R, radius: R, half: R) -> Meridian<R> {
    let cap = isotensoid::cap(ratio);
    let last = ((-cap.edge.squared() + 1.0).sqrt()) / (cap.edge + 1.0);
    let rotated = |q: R| {
        let one = q.squared() + 1.0;
        [(-q.squared() + 1.0) / one, q * 2.0 / one]
    };
    let sphere = radius * cap.sphere + half;
    let step = |cell: usize| last * graded(cell as f64 / CURVE as f64);
    let left = |cell: usize| cap.half_tan * ((CELLS - cell) as f64 / (CELLS - CURVE) as f64);
    let mut nodes: [Node<R>; CELLS + 1] = std::array::from_fn(|node| {
        if node <= CURVE {
            let place = isotensoid::place(ratio, rotated(step(node)));
            Node {
                radius: radius * place.radius + half * place.sin,
                sin: place.sin,
                cos: place.cos,
            }
        } else {
            let [cos, sin] = rotated(left(node));
            Node {
                radius: sphere * sin,
                sin,
                cos,
            }
        }
    });
    nodes[CELLS].radius = R::splat(0.0);
    Meridian {
        nodes,
        cells: std::array::from_fn(|cell| {
            if cell < CURVE {
                let (before, after) = (step(cell), step(cell + 1));
                let middle = (before + after) * 0.5;
                let place = isotensoid::place(ratio, rotated(middle));
                let inside = place.pace * (after - before) * 2.0 / (middle.squared() + 1.0);
                let turn = turn_between(&nodes[cell], &nodes[cell + 1]);
                Cell {
                    length: radius * inside + half * turn,
                    radius: radius * place.radius + half * place.sin,
                    turn,
                }
            } else {
                let (before, after) = (left(cell), left(cell + 1));
                let middle = (before + after) * 0.5;
                let turn = (before - after) * 2.0 / (middle.squared() + 1.0);
                Cell {
                    length: sphere * turn,
                    radius: sphere * rotated(middle)[1],
                    turn,
                }
            }
        }),
    }
}

/// Angle between the normals of two nodes, the first nearer to the edge, up to a third of a right angle: twice the
/// arc tangent of `(sin a - sin b) / (cos a + cos b)`, by its series.
fn turn_between<R: Real>(before: &Node<R>, after: &Node<R>) -> R {
    let tan = (before.sin - after.sin) / (before.cos + after.cos);
    let square = tan.squared();
    tan * (square * (square * 0.2 - 1.0 / 3.0) + 1.0) * 2.0
}

/// A knuckle's arc from the edge, and a crown's from the knuckle to the apex.
fn torisphere<R: Real>(closure: &Closure<R>, diameter: R, half: R) -> Meridian<R> {
    let knuckle = closure.knuckle_radius_ratio.min(R::splat(0.5 - LEAST)) * diameter + half;
    let crown = closure.crown_radius_ratio.max(R::splat(0.5 + LEAST)) * diameter + half;
    let centre = diameter * 0.5 + half - knuckle;
    let apart = crown - knuckle;
    // Where both meet: sine and cosine of the angle between normal and axis.
    let sin = centre / apart;
    let cos = ((apart - centre) * (apart + centre)).sqrt() / apart;
    // Tangents of half the angles of knuckle and crown.
    let (bend, cap) = (cos / (sin + 1.0), sin / (cos + 1.0));
    let rotated = |q: R| {
        let one = q.squared() + 1.0;
        ((-q.squared() + 1.0) / one, q * 2.0 / one)
    };
    let on_knuckle = |q: R| {
        let (along, across) = rotated(q);
        Node {
            radius: centre + knuckle * along,
            sin: along,
            cos: across,
        }
    };
    let on_crown = |q: R| {
        let (along, across) = rotated(q);
        let (sine, cosine) = (sin * along - cos * across, cos * along + sin * across);
        Node {
            radius: crown * sine,
            sin: sine,
            cos: cosine,
        }
    };
    let crowned = (CELLS - KNUCKLE) as f64;
    let on = |place: f64| {
        if place <= KNUCKLE as f64 {
            (bend * (place / KNUCKLE as f64), true)
        } else {
            (cap * graded((place - KNUCKLE as f64) / crowned), false)
        }
    };
    let node = |place: f64| match on(place) {
        (q, true) => on_knuckle(q),
        (q, false) => on_crown(q),
    };
    let mut nodes: [Node<R>; CELLS + 1] = std::array::from_fn(|place| node(place as f64));
    nodes[CELLS].radius = R::splat(0.0);
    Meridian {
        nodes,
        cells: std::array::from_fn(|cell| {
            let bent = cell < KNUCKLE;
            let place = |step: usize| match on(step as f64) {
                (q, true) if bent => q,
                (_, true) => R::splat(0.0),
                (q, false) => q,
            };
            let (before, after) = (place(cell), place(cell + 1));
            let middle = (before + after) * 0.5;
            let turn = (after - before) * 2.0 / (middle.squared() + 1.0);
            let (radius, node) = if bent {
                (knuckle, on_knuckle(middle))
            } else {
                (crown, on_crown(middle))
            };
            Cell {
                length: radius * turn,
                radius: node.radius,
                turn,
            }
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Slots;
    use crate::vessel::closure_depth;

    /// Area of the middle surface is 2 pi times the sum of radius by length; that of a closure of a
    /// vanishing thickness is known in closed form. The nodes end at the apex.
    #[test]
    fn cells_cover_the_surface() {
        for (kind, crown, knuckle, turning) in [
            (ClosureKind::Hemisphere, 0.0, 0.0, 0.0),
            (ClosureKind::Ellipsoid, 0.0, 0.0, 0.0),
            (ClosureKind::Torisphere, 1.0, 0.1, 0.0),
            (ClosureKind::Torisphere, 0.8, 0.154, 0.0),
            (ClosureKind::Isotensoid, 0.0, 0.0, 0.01),
            (ClosureKind::Isotensoid, 0.0, 0.0, 0.3),
            (ClosureKind::Isotensoid, 0.0, 0.0, 0.7),
        ] {
            let closure = Closure {
                crown_radius_ratio: crown,
                knuckle_radius_ratio: knuckle,
                turning_radius_ratio: turning,
                ..Closure::uniform(0.0)
            };
            let dome = meridian(kind, &closure, 0.15, 0.0);
            let turn: f64 = dome.cells.iter().map(|cell| cell.turn).sum();
            assert!((turn - std::f64::consts::FRAC_PI_2).abs() < 2e-3, "{turn}");
            let area: f64 = dome
                .cells
                .iter()
                .map(|cell| cell.radius * cell.length)
                .sum();
            let exact = crate::vessel::closure_area(kind, &closure, 0.15);
            let off = area * std::f64::consts::TAU / exact - 1.0;
            assert!(off.abs() < 2e-3, "{kind:?}: {off}");
            let depth: f64 = (0..CELLS)
                .map(|cell| {
                    let [a, b] = [dome.nodes[cell].sin, dome.nodes[cell + 1].sin];
                    0.5 * (a + b) * dome.cells[cell].length
                })
                .sum();
            let known = closure_depth(kind, &closure, 0.15);
            assert!(
                (depth / known - 1.0).abs() < 4e-3,
                "{kind:?}: {depth} {known}"
            );
            assert_eq!(dome.nodes[CELLS].radius, 0.0);
            assert_eq!(dome.nodes[0].radius, 0.075);
        }
    }
}

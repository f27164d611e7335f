//! Moments of inertia, and the root-sum-square roll-up.

use crate::Outside;
use hoopline::mass::{Group, Inertia, Line, Spread, Statement, inertia};

fn line(mass: f64, station: f64, spread: Spread<f64>) -> Line<f64> {
    Line {
        name: "part",
        group: Group::Item,
        basic: mass,
        growth_share: 0.0,
        station,
        spread,
    }
}

/// Moments of inertia of a mass of one kilogram about its own centre.
fn own(spread: Spread<f64>) -> Inertia<f64> {
    line(1.0, 0.0, spread).own_inertia()
}

/// J. A. Myers, "Handbook of Equations for Mass and Area Properties of Various Geometrical Shapes",
/// NAVWEPS report 7827, U.S. Naval Ordnance Test Station, 1962, page 10. Right circular cylinder: radii
/// of gyration 0.289 sqrt(3 R^2 + H^2) and 0.707 R; hollow: moments W / 12 (3 (R^2 + r^2) + H^2) and
/// W / 2 (R^2 + r^2).
#[test]
fn cylinders_of_the_handbook() {
    let handbook = Outside {
        room: "mass",
        source: "J. A. Myers, NAVWEPS report 7827, 1962, page 10",
    };
    let (length, outer, inner) = (1.3f64, 0.09f64, 0.07f64);
    let solid = own(Spread::solid_cylinder(length, outer));
    let across = (3.0 * outer * outer + length * length).sqrt();
    handbook.printed(
        "solid, k over its root",
        solid.pitch.sqrt() / across,
        0.289,
        1e-3,
    );
    handbook.printed("solid, k over R", solid.roll.sqrt() / outer, 0.707, 1e-3);
    let hollow = own(Spread::hollow_cylinder(length, inner, outer));
    let squares = outer * outer + inner * inner;
    let pitch = (3.0 * squares + length * length) / 12.0;
    handbook.relative("hollow, pitch, kg m2", hollow.pitch, pitch, 1e-14);
    handbook.relative("hollow, roll, kg m2", hollow.roll, squares / 2.0, 1e-14);
}

/// A table "Center of Gravity and Mass Moment of Inertia of Homogeneous Solids" as reprinted (that of R. C.
/// Hibbeler, "Engineering Mechanics", from memory): thin ring m r^2 / 2 and m r^2, thin disc m r^2 / 4 and
/// m r^2 / 2, slender rod m l^2 / 12 and 0.
#[test]
fn ring_disc_and_rod() {
    let table = Outside {
        room: "mass",
        source: "\"Center of Gravity and Mass Moment of Inertia of Homogeneous Solids\", reprinted table",
    };
    let zero = 0.0f64;
    for (name, spread, pitch, roll) in [
        (
            "ring",
            Spread::hollow_cylinder(zero, 1.0, 1.0),
            1.0 / 2.0,
            1.0,
        ),
        ("disc", Spread::cap(zero, 1.0), 1.0 / 4.0, 1.0 / 2.0),
        ("rod", Spread::solid_cylinder(1.0, zero), 1.0 / 12.0, 0.0),
    ] {
        let found = own(spread);
        table.within(&format!("{name}, across"), found.pitch, pitch, 1e-15);
        table.within(&format!("{name}, along"), found.roll, roll, 1e-15);
    }
}

/// A spherical shell has 2/3 M a^2 about every diameter (table of moments of inertia, mathmos.net/data/moi2.html):
/// two hemispheres base to base, each with its centre at half its radius, are one.
#[test]
fn two_half_shells_are_a_sphere() {
    let table = Outside {
        room: "mass",
        source: "\"Spherical Shell\", 2/3 M a^2, table of moments of inertia, mathmos.net/data/moi2.html",
    };
    let radius = 0.075f64;
    let half = |station| line(0.5, station, Spread::cap(radius, radius));
    let whole = inertia(
        &[&[half(1.0 - radius / 2.0), half(1.0 + radius / 2.0)]],
        1.0,
    );
    let printed = 2.0 / 3.0 * radius * radius;
    table.relative("across, kg m2", whole.pitch, printed, 1e-14);
    table.relative("along, kg m2", whole.roll, printed, 1e-14);
}

/// The documentation of the R package massProps rolls up an example: a body of 5 kg at the origin, with 80
/// about x and y, and eight of 2 kg with 4 each, at the corners of a cube of edge 2 around it. Four of them
/// are 8 kg at x = 1 with 32 about x and 24 about y; all are 21 kg with 144 about x and about y. Uncertainties
/// of mass of 0.5 and eight times 0.2 make 0.7549834.
#[test]
fn a_published_roll_up() {
    let package = Outside {
        room: "mass",
        source: "\"massProps\" (R package after Zimmerman and Nakai, SAWE paper 3360, 2005), README, \
                 test_table and test_unc_table",
    };
    // Corners at the same station are a ring of radius sqrt(2) with their own 4 kg m2 about each axis.
    let corners = Spread {
        shape: "four balls",
        along: (4.0 - 0.5 * 4.0) / 2.0,
        across: 4.0 / 2.0 + 2.0,
    };
    let hub = Spread {
        shape: "hub",
        along: 80.0 / 5.0 / 2.0,
        across: 80.0 / 5.0,
    };
    let fore = [line(8.0, 6.0, corners)];
    let four = inertia(&[&fore], 6.0);
    package.printed("four, about x", four.roll, 32.0, 1e-9);
    package.printed("four, about y", four.pitch, 24.0, 1e-9);
    let rest = [line(5.0, 5.0, hub), line(8.0, 4.0, corners)];
    let all = inertia(&[&fore, &rest], 5.0);
    package.printed("all, about x", all.roll, 144.0, 1e-9);
    package.printed("all, about y", all.pitch, 144.0, 1e-9);

    let allowances = [0.5, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2];
    let mut statement = Statement::new();
    for allowance in allowances {
        statement.push(
            "part",
            Group::Item,
            2.0,
            allowance / 2.0,
            0.0,
            Spread::point(),
        );
    }
    let root = statement.growth_root_sum_square();
    package.printed("root sum square", root, 0.7549834, 1e-7);
}

/// R. L. Zimmerman and J. H. Nakai, "Are You Sure? Uncertainty in Mass Properties Engineering", Society of
/// Allied Weight Engineers, paper 3360, 2005, numbers as reprinted in the data of the R package massProps:
/// 57.83 with 8607.02 about y at x = 121.20, z = -0.16 and 16.80 with 1124.65 at x = 70.90, z = 0.46 are 74.63
/// at 109.8657 with 42739.26; 1.2416 and 1.7308 make 2.1301. The package notes that the paper's sums
/// hold within about 0.2 % only.
#[test]
fn the_papers_example() {
    let paper = Outside {
        room: "mass",
        source: "R. L. Zimmerman and J. H. Nakai, SAWE paper 3360, 2005, reprinted in massProps",
    };
    let part = |mass: f64, about_y: f64, x: f64, z: f64| {
        let spread = Spread {
            shape: "part",
            along: about_y / mass + (z + 0.0204) * (z + 0.0204),
            across: 0.0,
        };
        line(mass, x, spread)
    };
    let parts = [
        part(57.83, 8607.02, 121.20, -0.16),
        part(16.80, 1124.65, 70.90, 0.46),
    ];
    let mass: f64 = parts.iter().map(|part| part.basic).sum();
    let centre = parts
        .iter()
        .map(|part| part.basic * part.station)
        .sum::<f64>()
        / mass;
    paper.relative("centre of gravity", centre, 109.8657, 2e-3);
    let whole = inertia(&[&parts], centre);
    paper.relative("about y", whole.pitch, 42739.26, 2e-3);
    let mut statement = Statement::new();
    for (mass, scatter) in [(57.83, 1.2416), (16.80, 1.7308)] {
        let share = scatter / mass;
        statement.push("part", Group::Item, mass, share, 0.0, Spread::point());
    }
    let root = statement.growth_root_sum_square();
    paper.printed("root sum square", root, 2.1301, 1e-4);
}

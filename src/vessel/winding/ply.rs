//! One ply as it is wound: path, build-up, pattern, amounts.

use super::build_up::banded_thickness;
use super::dome::Dome;
use super::geodesic::{geodesic_angle, turning_length};
use super::path::{DomePath, PathPlace, dome_path};
use super::pattern::{Pattern, bands_for_cover, closing_pattern};
use super::slip::needed_slippage;
use crate::numerics::Real;
use std::f64::consts::PI;

/// Places of the build-up from where the band's middle turns to the opening (own choice).
const BESIDE_OPENING: usize = 48;
/// Winding angle up to which a helical ply gets along the tank at all, rad (own choice, 89.9 degrees).
const STEEPEST: f64 = std::f64::consts::FRAC_PI_2 - 1.7e-3;
/// Change of the winding angle by which the sweep's derivative is taken, rad (own choice).
const SMALL: f64 = 1e-5;

/// What all plies are wound with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Band {
    /// Width, m.
    pub width: f64,
    /// Section of fibre alone, m2.
    pub fibre_section: f64,
    /// Allowable slippage coefficient.
    pub slippage_coefficient: f64,
    /// Height of the weld bead under the wrap, m.
    pub bead_height: f64,
    /// Laminate over fibre-only thickness.
    pub laminate_per_fibre: f64,
}

/// What is wound: the cylinder at the ply's middle, and the thickness asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    /// Radius of the ply's middle, m.
    pub radius: f64,
    /// Length of the cylinder, m.
    pub cylinder_length: f64,
    /// Winding angle on the cylinder, rad.
    pub angle: f64,
    /// Thickness of fibre alone that is asked for, m.
    pub fibre_thickness: f64,
}

/// A place of the build-up on a dome.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BuildUpPlace {
    /// Distance along the axis from the cylinder's end, m.
    pub axial: f64,
    /// Distance from the axis, m.
    pub radius: f64,
    /// Thickness of the laminate, m.
    pub thickness: f64,
}

/// A helical ply on one closure.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// Radius at which the band's middle turns, m: half a band outside the opening.
    pub turning_radius: f64,
    /// Angle on the cylinder at which it would do so on a geodesic, rad.
    pub geodesic_angle: f64,
    /// Even slippage coefficient of the band's middle, with its sign: positive to turn earlier than a geodesic.
    pub coefficient: f64,
    /// The path.
    pub path: DomePath,
    /// Laminate thickness from the rim to the opening.
    pub build_up: Vec<BuildUpPlace>,
}

impl Turn {
    /// Where the band's worse edge needs most friction; the first of places that need alike.
    pub fn worst(&self) -> PathPlace {
        let mut worst = self.path.places[0];
        for place in &self.path.places {
            if place.edge_slippage > worst.edge_slippage * (1.0 + 1e-9) {
                worst = *place;
            }
        }
        worst
    }

    /// Where the ply is thickest.
    pub fn thickest(&self) -> BuildUpPlace {
        let mut thickest = self.build_up[0];
        for place in &self.build_up {
            if place.thickness > thickest.thickness {
                thickest = *place;
            }
        }
        thickest
    }

    /// Path and build-up on a dome; none where friction cannot turn the band at that radius.
    fn on(dome: &Dome, place: &Place, band: &Band, turning_radius: f64) -> Option<Self> {
        if place.angle > STEEPEST {
            return None;
        }
        let coefficient = needed_slippage(dome, place.angle, turning_radius)?;
        let path = dome_path(dome, place.angle, coefficient, band.width)?;
        let cos: f64 = Real::cos(place.angle);
        let flux = place.radius * place.fibre_thickness * cos;
        let told = |axial: f64, radius: f64, clairaut: f64| BuildUpPlace {
            axial,
            radius,
            thickness: band.laminate_per_fibre
                * banded_thickness(radius, clairaut, band.width, flux),
        };
        let along = path.places.iter().map(|at| {
            let sine: f64 = Real::sin(at.angle);
            told(at.axial, at.radius, at.radius * sine)
        });
        let opening = turning_radius - 0.5 * band.width;
        let from = dome.parameter(turning_radius);
        let inside = (1..=BESIDE_OPENING).map(|count| {
            let share = count as f64 / BESIDE_OPENING as f64;
            let at = from + (dome.parameter(opening) - from) * share;
            told(dome.axial(at), dome.at(at).radius, turning_radius)
        });
        Some(Self {
            turning_radius,
            geodesic_angle: geodesic_angle(place.radius, turning_radius),
            coefficient,
            build_up: along.chain(inside).collect(),
            path,
        })
    }
}

/// A helical ply.
#[derive(Debug, Clone, PartialEq)]
pub struct HelicalPly {
    /// The fore closure, or nothing where the band cannot turn there.
    pub fore: Option<Turn>,
    /// The aft closure, or nothing where the band cannot turn there.
    pub aft: Option<Turn>,
    /// Turns of the mandrel in one circuit as it lies by itself; none if it cannot turn.
    pub sweep: Option<f64>,
    /// Bands that cover the cylinder.
    pub bands: f64,
    /// Pattern that closes; none if it cannot turn.
    pub pattern: Option<Pattern>,
    /// Change of the winding angle that would close the pattern without dwell, rad.
    pub angle_change: Option<f64>,
    /// Length along the fibre that the weld bead lifts off the cylinder on its side, m.
    pub bridged_length: f64,
}

/// A ply as it is wound.
#[derive(Debug, Clone, PartialEq)]
pub struct WoundPly {
    /// Radius of the ply's middle on the cylinder, m.
    pub radius: f64,
    /// Winding angle on the cylinder, rad.
    pub angle: f64,
    /// What a helical ply has beyond a hoop ply.
    pub helical: Option<HelicalPly>,
    /// Covers: each a whole pattern of circuits of a helical ply, one pass of a hoop ply.
    pub covers: f64,
    /// Circuits of a helical ply in all; passes of a hoop ply.
    pub circuits: f64,
    /// Turns of the mandrel in all; none if the band cannot turn.
    pub mandrel_turns: Option<f64>,
    /// Thickness of fibre alone that so many covers lay on the cylinder, m; NaN if the band cannot turn.
    pub wound_fibre_thickness: f64,
    /// Length of band, m; none if it cannot turn.
    pub band_length: Option<f64>,
    /// Length of cylinder that would turn the band without a dome, m.
    pub turning_length: f64,
}

/// Turns of the mandrel in one circuit with a winding angle, as it lies by itself: twice over the cylinder, where
/// the azimuth is `L tan a / R`, and twice over each dome.
fn sweep_at(
    place: &Place,
    band: &Band,
    domes: &[Dome; 2],
    turning: [f64; 2],
    angle: f64,
) -> Option<f64> {
    let over = |end: usize| {
        let coefficient = needed_slippage(&domes[end], angle, turning[end])?;
        let path = dome_path(&domes[end], angle, coefficient, band.width)?;
        Some(path.turning().azimuth)
    };
    let (sine, cos): (f64, f64) = (Real::sin(angle), Real::cos(angle));
    let cylinder = place.cylinder_length * sine / (cos * place.radius);
    Some((cylinder + over(0)? + over(1)?) / PI)
}

/// A helical ply over two domes that turns at two radii, fore and aft.
pub(super) fn helical(place: &Place, band: &Band, domes: [Dome; 2], turning: [f64; 2]) -> WoundPly {
    let cos: f64 = Real::cos(place.angle);
    let sine: f64 = Real::sin(place.angle);
    let [fore, aft] = [0, 1].map(|end| Turn::on(&domes[end], place, band, turning[end]));
    let both = fore.as_ref().zip(aft.as_ref());
    let sweep = both.map(|(fore, aft)| {
        let domes = fore.path.turning().azimuth + aft.path.turning().azimuth;
        (place.cylinder_length * sine / (cos * place.radius) + domes) / PI
    });
    let bands = bands_for_cover(place.radius, place.angle, band.width);
    let pattern = sweep.map(|sweep| closing_pattern(sweep, bands));
    let per_cover = pattern.map_or(bands, |pattern| pattern.circuits as f64);
    let of_circuit = band.fibre_section / (PI * place.radius * cos);
    let covers = (place.fibre_thickness / (per_cover * of_circuit))
        .round()
        .max(1.0);
    let circuits = covers * per_cover;
    let length = both.map(|(fore, aft)| {
        let domes = fore.path.turning().length + aft.path.turning().length;
        2.0 * (place.cylinder_length / cos + domes) * circuits
    });
    let beside = sweep_at(place, band, &domes, turning, place.angle + SMALL);
    let per_angle = sweep.zip(beside).map(|(at, beside)| (beside - at) / SMALL);
    WoundPly {
        radius: place.radius,
        angle: place.angle,
        covers,
        circuits,
        mandrel_turns: pattern.map(|pattern| covers * pattern.turns as f64),
        wound_fibre_thickness: sweep.map_or(f64::NAN, |_| circuits * of_circuit),
        band_length: length,
        turning_length: turning_length(place.radius, place.angle, band.slippage_coefficient),
        helical: Some(HelicalPly {
            angle_change: pattern
                .zip(per_angle)
                .map(|(pattern, per_angle)| pattern.nudge / per_angle),
            bridged_length: (2.0 * band.bead_height * place.radius).sqrt() / sine,
            fore,
            aft,
            sweep,
            bands,
            pattern,
        }),
    }
}

/// A hoop ply over the cylinder: passes of one band's thickness each, as many as come nearest to what is asked
/// for. The length of band is that of its fibre, at the radius of its middle; the slope of the turns is left
/// out, as in the mass statement.
pub(super) fn hoop(place: &Place, band: &Band) -> WoundPly {
    let of_pass = band.fibre_section / band.width;
    let covers = (place.fibre_thickness / of_pass).round().max(1.0);
    let turns = covers * place.cylinder_length / band.width;
    WoundPly {
        radius: place.radius,
        angle: place.angle,
        helical: None,
        covers,
        circuits: covers,
        mandrel_turns: Some(turns),
        wound_fibre_thickness: covers * of_pass,
        band_length: Some(turns * 2.0 * PI * place.radius),
        turning_length: turning_length(place.radius, place.angle, band.slippage_coefficient),
    }
}

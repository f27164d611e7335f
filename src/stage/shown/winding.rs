//! The overwrap as it is wound: a row per ply, the path and build-up of each helical one, totals, cautions.

use super::cautions::winding::winding_cautions;
use super::sheet;
use crate::error::{Error, Result};
use crate::numerics::Real;
use crate::quantity::{Applies, Choice, Field, Slots, fields, slots};
use crate::stage::chain::settle;
use crate::stage::given::{Stage, openings};
use crate::vessel::winding::{HelicalPly, PathPlace, Turn, WoundPly, isotensoid_contour, wind};
use crate::vessel::{ClosureKind, PlyKind, TankForm, closure_contour};
use serde_json::{Map, Value, json};
use std::sync::LazyLock;

slots! {
    /// A ply as it is wound.
    pub struct WoundPlyRow<R> {
        /// Winding angle on the cylinder, from the vessel's axis.
        angle: Angle, Winding;
        /// Radius of the ply's middle on the cylinder.
        radius: Length, Winding;
        /// Covers: whole patterns of a helical ply, passes over the cylinder of a hoop ply; the whole number that
        /// comes nearest to the thickness asked for.
        covers: Ratio, Winding;
        /// Thickness of fibre alone that the ply is given with.
        stated_fibre_thickness: Length, Winding;
        /// Thickness of fibre alone on the cylinder that so many covers lay.
        wound_fibre_thickness: Length, Winding;
        /// Turns of the mandrel.
        mandrel_turns: Ratio, Winding;
        /// Length of tow, all tows of the band counted.
        tow_length: Altitude, Winding;
        /// Mass of fibre wound.
        fibre_mass: Mass, Winding;
        /// Mass of resin with it, at the fibre volume fraction.
        resin_mass: Mass, Winding;
        /// Time to wind it at the winding speed.
        winding_time: Time, Winding;
        /// Length of cylinder that would turn the band without a dome at the allowable slippage coefficient.
        turning_length: Length, Winding;
        /// Bands side by side that cover the cylinder, the least.
        bands_for_cover: Ratio, HelicalWinding;
        /// Circuits of one cover in a pattern that closes.
        circuits_per_cover: Ratio, HelicalWinding;
        /// Turns of the mandrel in one cover of that pattern.
        turns_per_cover: Ratio, HelicalWinding;
        /// Which circuit after the first lies beside it.
        neighbour: Ratio, HelicalWinding;
        /// Share of a band that lies over its neighbours on the cylinder.
        overlap: Share, HelicalWinding;
        /// Angle around the axis of one circuit as it lies by itself.
        circuit_sweep: Angle, HelicalWinding;
        /// Angle by which the mandrel has to turn farther in each circuit for the pattern to close, negative for
        /// less far: the dwell.
        closing_dwell: Angle, HelicalWinding;
        /// Change of the winding angle that would close the pattern instead.
        closing_angle_change: Angle, HelicalWinding;
        /// Length along the fibre that the girth seam's bead lifts off the cylinder on its side.
        bridged_length: Length, HelicalWinding;
    } groups {
        /// On the fore closure.
        fore: TurnRow<R>,
        /// On the aft closure.
        aft: TurnRow<R>,
    }
}

slots! {
    /// A helical ply on one closure.
    pub struct TurnRow<R> {
        /// Radius at which the band's middle turns back, half a band outside the polar opening.
        turning_radius: Length, HelicalWinding;
        /// Winding angle on the cylinder with which it would turn there on a geodesic.
        geodesic_angle: Angle, HelicalWinding;
        /// Slippage coefficient that the band's middle needs, even along the dome; the least that does it.
        slippage: Ratio, HelicalWinding;
        /// Slippage coefficient that the band's worse edge needs, where it needs most.
        edge_slippage: Ratio, HelicalWinding;
        /// Radius where it needs most.
        worst_radius: Length, HelicalWinding;
        /// Angle around the axis from the cylinder to the turning point.
        sweep: Angle, HelicalWinding;
        /// Largest thickness of the laminate.
        peak_thickness: Length, HelicalWinding;
        /// Radius where it is thickest.
        peak_radius: Length, HelicalWinding;
    }
}

slots! {
    /// The wrap as it is wound.
    pub struct WindingTotals<R> {
        /// Length of tow of all plies.
        tow_length: Altitude, Winding;
        /// Mass of fibre wound.
        fibre_mass: Mass, Winding;
        /// Mass of fibre in the mass statement, from the thicknesses the plies are given with.
        stated_fibre_mass: Mass, Winding;
        /// Mass of resin with the fibre wound.
        resin_mass: Mass, Winding;
        /// Time to wind all plies, without stops.
        winding_time: Time, Winding;
        /// Spools of fibre, waste included; at least one to a tow of the band.
        spools: Ratio, Winding;
        /// Length of consolidation tape for one layer.
        tape_length: Altitude, Winding;
        /// Pressure of the winding tension on a liner that does not give.
        tension_pressure: PressureDifference, Winding;
        /// Pressure from outside at which the bare liner collapses while it is elastic, as a long tube.
        collapse_pressure: PressureDifference, Winding;
        /// Length over which the girth seam's bead has to run out for hoop bands to hold on it.
        bead_run_out: Length, Winding;
        /// Slippage coefficient that is allowed.
        slippage_coefficient: Ratio, Winding;
    }
}

slots! {
    /// A place on the path of a helical ply, from where it turns at the fore closure to where it turns aft.
    pub struct WindingPathRow<R> {
        /// Distance along the axis, aft of the cylinder's fore end.
        axial_position: Length, HelicalWinding;
        /// Distance of the band's middle from the axis.
        radius: Length, HelicalWinding;
        /// Winding angle from the meridian.
        winding_angle: Angle, HelicalWinding;
        /// Angle around the axis since the fore turning point.
        azimuth: Angle, HelicalWinding;
        /// Length of path since the fore turning point.
        path_length: Length, HelicalWinding;
        /// Slippage coefficient that the band's middle needs.
        slippage: Ratio, HelicalWinding;
        /// Slippage coefficient that the band's worse edge needs.
        edge_slippage: Ratio, HelicalWinding;
        /// Thickness of the ply's laminate there.
        thickness: Length, HelicalWinding;
    }
}

slots! {
    /// Thickness of a helical ply, from the fore polar opening to the aft one.
    pub struct BuildUpRow<R> {
        /// Distance along the axis, aft of the cylinder's fore end.
        axial_position: Length, HelicalWinding;
        /// Distance of the ply's middle from the axis.
        radius: Length, HelicalWinding;
        /// Thickness of the ply's laminate.
        thickness: Length, HelicalWinding;
    }
}

/// Turning radius over the rim's up to which an isotensoid dome is drawn; its meridian ends at `sqrt(2/3)`.
const LARGEST_OPENING: f64 = 0.8;

static PLY: LazyLock<Vec<Field>> = LazyLock::new(fields::<WoundPlyRow<f64>>);
static TOTALS: LazyLock<Vec<Field>> = LazyLock::new(fields::<WindingTotals<f64>>);
static PATH: LazyLock<Vec<Field>> = LazyLock::new(fields::<WindingPathRow<f64>>);
static BUILD_UP: LazyLock<Vec<Field>> = LazyLock::new(fields::<BuildUpRow<f64>>);

/// The overwrap of a stage as it is wound.
#[derive(Debug, Clone, PartialEq)]
pub struct StageWinding {
    /// Kind of each ply.
    pub kinds: Vec<PlyKind>,
    /// A row for each ply, from the liner outwards; NaN for what a ply does not have.
    pub plies: Vec<WoundPlyRow<f64>>,
    /// The whole wrap.
    pub totals: WindingTotals<f64>,
    /// Path of each ply; empty for a hoop ply and for one that cannot turn.
    pub paths: Vec<Vec<WindingPathRow<f64>>>,
    /// Build-up of each ply; empty likewise.
    pub build_ups: Vec<Vec<BuildUpRow<f64>>>,
    /// Cautions, in words.
    pub cautions: Vec<String>,
}

impl Stage {
    /// The overwrap as it is wound: path, slip, build-up, pattern and amounts of each ply.
    ///
    /// Errors: no overwrap, no `[tank.overwrap.winding]`, or a design with a fault.
    ///
    /// ```
    /// use hoopline::stage::Stage;
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let winding = stage.winding()?;
    /// assert!(winding.plies[0].fore.slippage < winding.totals.slippage_coefficient);
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn winding(&self) -> Result<StageWinding> {
        let form = self.form();
        let side = form
            .tank
            .as_ref()
            .filter(|_| form.applies(Applies::Winding, 0));
        let Some(side) = side else {
            return Err(Error::Inconsistent(
                "a winding needs an overwrap and how it is wound; give the stage a \
                 [[tank.overwrap.ply]] and a [tank.overwrap.winding]"
                    .to_owned(),
            ));
        };
        let outcome = self.outcome();
        outcome.status.refuse_fault()?;
        openings::check(self)?;
        let point = self.point();
        let Some(size) = settle(form, &point).size else {
            unreachable!("a tank has a size")
        };
        let wrap = &point.tank.overwrap;
        let wound = wind(&side.tank, &point.tank, &size);
        let amounts = |ply: &WoundPly| {
            let tows = ply.band_length.unwrap_or(f64::NAN) * wrap.winding.tows_per_band;
            let fibre = tows * wrap.winding.tow_linear_density;
            let resin = fibre / wrap.fibre.density
                * (1.0 / wrap.fibre_volume_fraction - 1.0)
                * wrap.resin_density;
            [tows, fibre, resin]
        };
        let given = side.tank.wound(wrap).map(|(ply, _)| ply.fibre_thickness);
        let plies = wound.plies.iter().zip(given);
        let plies: Vec<_> = plies
            .map(|(ply, stated)| {
                let time = ply.band_length.unwrap_or(f64::NAN) / wrap.winding.winding_speed;
                ply_row(ply, stated, wrap.winding.band_width, amounts(ply), time)
            })
            .collect();
        let sum = |of: fn(&WoundPlyRow<f64>) -> f64| plies.iter().map(of).sum::<f64>();
        let fibre = sum(|row| row.fibre_mass);
        let spools = fibre / (1.0 - wrap.winding.waste) / wrap.winding.spool_mass;
        let totals = WindingTotals {
            tow_length: sum(|row| row.tow_length),
            fibre_mass: fibre,
            stated_fibre_mass: outcome.tank.fibre_mass,
            resin_mass: sum(|row| row.resin_mass),
            winding_time: sum(|row| row.winding_time),
            // NaN has no ceiling, and max() would hide it.
            spools: if spools.is_nan() {
                spools
            } else {
                spools.ceil().max(wrap.winding.tows_per_band)
            },
            tape_length: wound.tape_length,
            tension_pressure: wound.tension_pressure,
            collapse_pressure: wound.collapse_pressure,
            bead_run_out: wound.bead_run_out,
            slippage_coefficient: wrap.winding.slippage_coefficient,
        };
        let each = |ply: &WoundPly| drawn(ply, size.cylinder_length);
        let (paths, build_ups) = wound.plies.iter().map(each).unzip();
        Ok(StageWinding {
            cautions: winding_cautions(&side.tank, &point.tank, &wound),
            kinds: side.tank.ply_kinds[..side.tank.plies].to_vec(),
            plies,
            totals,
            paths,
            build_ups,
        })
    }

    /// The winding as JSON: fields with units, rows of plies, totals, columns of path and build-up, outlines of
    /// the liner, cautions.
    pub fn winding_json(&self) -> Result<String> {
        let winding = self.winding()?;
        let listed = |fields: &[Field]| fields.iter().map(Field::json).collect::<Vec<_>>();
        let rows = winding.plies.iter().zip(&winding.kinds);
        let rows: Vec<Value> = rows
            .map(|(row, kind)| json!({"kind": kind.word(), "values": values(row, &PLY)}))
            .collect();
        let tables = winding.paths.iter().zip(&winding.build_ups);
        let tables: Vec<Value> = tables
            .map(|(path, build_up)| {
                json!({
                    "path": sheet::columns(self, &PATH, path),
                    "build_up": sheet::columns(self, &BUILD_UP, build_up),
                })
            })
            .collect();
        Ok(json!({
            "ply_fields": listed(&PLY),
            "total_fields": listed(&TOTALS),
            "plies": rows,
            "totals": values(&winding.totals, &TOTALS),
            "tables": tables,
            "liner": self.liner_outline(),
            "cautions": winding.cautions,
        })
        .to_string())
    }

    /// Outlines for the drawing: end of the cylinder, wall and laminate, domes inside and outside.
    fn liner_outline(&self) -> Value {
        let point = self.point();
        let settled = settle(self.form(), &point);
        let (Some(side), Some(size)) = (&self.form().tank, &settled.size) else {
            return Value::Null;
        };
        let domes = |form: &TankForm| {
            [
                (form.fore_closure, &point.tank.fore_closure, 0.0, -1.0),
                (
                    form.aft_closure,
                    &point.tank.aft_closure,
                    size.cylinder_length,
                    1.0,
                ),
            ]
            .map(|(kind, closure, end, sign): (ClosureKind, _, f64, f64)| {
                let bore = size.inner_diameter;
                [0.0, closure.thickness].map(|offset| {
                    let contour = closure_contour(kind, closure, bore, offset);
                    let placed = contour.into_iter();
                    placed
                        .map(|[along, radius]| [end + sign * along, radius])
                        .collect::<Vec<_>>()
                })
            })
        };
        let given = &point.tank.overwrap.winding;
        let wound = wind(&side.tank, &point.tank, size);
        let plies = wound.plies.iter();
        let helical = plies.filter_map(|ply| Some((ply.radius, ply.helical.as_ref()?)));
        let isotensoid = |which: fn(&HelicalPly) -> &Option<Turn>, end: f64, sign: f64| {
            let mut turns = helical
                .clone()
                .filter_map(|(radius, ply)| Some((radius, which(ply).as_ref()?.turning_radius)));
            let turn = turns.find(|(radius, turning)| *turning < LARGEST_OPENING * radius);
            let contour = turn.map(|(radius, turning)| isotensoid_contour(radius, turning));
            let placed = contour.unwrap_or_default().into_iter();
            placed
                .map(|[along, radius]| [end + sign * along, radius])
                .collect::<Vec<_>>()
        };
        json!({
            "isotensoids": [
                isotensoid(|helical| &helical.fore, 0.0, -1.0),
                isotensoid(|helical| &helical.aft, size.cylinder_length, 1.0),
            ],
            "cylinder_length": size.cylinder_length,
            "inner_radius": 0.5 * size.inner_diameter,
            "outer_radius": 0.5 * size.liner_outer_diameter,
            "wrap": size.wrap,
            "domes": domes(&side.tank),
            "openings": [given.fore_polar_opening_radius, given.aft_polar_opening_radius],
        })
    }
}

/// Values of a row by path; null for what it does not have.
fn values<T: Slots<f64>>(row: &T, fields: &[Field]) -> Map<String, Value> {
    let mut slots = vec![0.0; fields.len()];
    row.write(&mut slots, &mut 0);
    let named = fields.iter().zip(slots);
    named
        .map(|(field, value)| (field.path.clone(), json!(value)))
        .collect()
}

fn ply_row(
    ply: &WoundPly,
    stated: f64,
    band_width: f64,
    [tow_length, fibre_mass, resin_mass]: [f64; 3],
    winding_time: f64,
) -> WoundPlyRow<f64> {
    const TURN: f64 = 2.0 * std::f64::consts::PI;
    let nothing = f64::NAN;
    let of = |value: Option<f64>| value.unwrap_or(nothing);
    let helical = ply.helical.as_ref();
    let pattern = helical.and_then(|helical| helical.pattern);
    let circuits = of(pattern.map(|pattern| pattern.circuits as f64));
    let around = TURN * ply.radius * Real::cos(ply.angle);
    let turn = |which: fn(&HelicalPly) -> &Option<Turn>| {
        let turn = helical.and_then(|helical| which(helical).as_ref());
        turn.map_or_else(|| TurnRow::uniform(nothing), turn_row)
    };
    WoundPlyRow {
        angle: ply.angle,
        radius: ply.radius,
        covers: ply.covers,
        stated_fibre_thickness: stated,
        wound_fibre_thickness: ply.wound_fibre_thickness,
        mandrel_turns: of(ply.mandrel_turns),
        tow_length,
        fibre_mass,
        resin_mass,
        winding_time,
        turning_length: ply.turning_length,
        bands_for_cover: of(helical.map(|helical| helical.bands)),
        circuits_per_cover: circuits,
        turns_per_cover: of(pattern.map(|pattern| pattern.turns as f64)),
        neighbour: of(pattern.map(|pattern| pattern.neighbour as f64)),
        overlap: circuits * band_width / around - 1.0,
        circuit_sweep: of(helical.and_then(|helical| helical.sweep)) * TURN,
        closing_dwell: of(pattern.map(|pattern| pattern.nudge)) * TURN,
        closing_angle_change: of(helical.and_then(|helical| helical.angle_change)),
        bridged_length: of(helical.map(|helical| helical.bridged_length)),
        fore: turn(|helical| &helical.fore),
        aft: turn(|helical| &helical.aft),
    }
}

fn turn_row(turn: &Turn) -> TurnRow<f64> {
    let (worst, thickest) = (turn.worst(), turn.thickest());
    TurnRow {
        turning_radius: turn.turning_radius,
        geodesic_angle: turn.geodesic_angle,
        slippage: turn.coefficient.abs(),
        edge_slippage: worst.edge_slippage,
        worst_radius: worst.radius,
        sweep: turn.path.turning().azimuth,
        peak_thickness: thickest.thickness,
        peak_radius: thickest.radius,
    }
}

/// Path and build-up of a helical ply over both closures and the cylinder between.
fn drawn(ply: &WoundPly, cylinder_length: f64) -> (Vec<WindingPathRow<f64>>, Vec<BuildUpRow<f64>>) {
    let helical = ply.helical.as_ref();
    let both = helical.and_then(|helical| helical.fore.as_ref().zip(helical.aft.as_ref()));
    let Some((fore, aft)) = both else {
        return (Vec::new(), Vec::new());
    };
    let row =
        |place: &PathPlace, at: f64, azimuth: f64, length: f64, thickness: f64| WindingPathRow {
            axial_position: at,
            radius: place.radius,
            winding_angle: place.angle,
            azimuth,
            path_length: length,
            slippage: place.slippage,
            edge_slippage: place.edge_slippage,
            thickness,
        };
    let (sin, cos): (f64, f64) = (Real::sin(ply.angle), Real::cos(ply.angle));
    let first = fore.path.turning();
    let across = cylinder_length / cos;
    let turned = cylinder_length * sin / (cos * ply.radius);
    let mut path = Vec::new();
    for (place, built) in fore.path.places.iter().zip(&fore.build_up).rev() {
        let (azimuth, length) = (first.azimuth - place.azimuth, first.length - place.length);
        path.push(row(place, -place.axial, azimuth, length, built.thickness));
    }
    // On the cylinder the band lies on a geodesic.
    for (end, share) in [(fore, 0.0), (aft, 1.0)] {
        let free = PathPlace {
            slippage: 0.0,
            edge_slippage: 0.0,
            ..end.path.places[0]
        };
        let azimuth = first.azimuth + turned * share;
        let length = first.length + across * share;
        let at = cylinder_length * share;
        path.push(row(&free, at, azimuth, length, end.build_up[0].thickness));
    }
    for (place, built) in aft.path.places.iter().zip(&aft.build_up) {
        let azimuth = first.azimuth + turned + place.azimuth;
        let length = first.length + across + place.length;
        let at = cylinder_length + place.axial;
        path.push(row(place, at, azimuth, length, built.thickness));
    }
    let built = |at: f64, radius: f64, thickness: f64| BuildUpRow {
        axial_position: at,
        radius,
        thickness,
    };
    let before = fore.build_up.iter().rev();
    let before = before.map(|at| built(-at.axial, at.radius, at.thickness));
    let after = aft.build_up.iter();
    let after = after.map(|at| built(cylinder_length + at.axial, at.radius, at.thickness));
    (path, before.chain(after).collect())
}

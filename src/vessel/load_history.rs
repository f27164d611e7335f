//! The cylinder through a row of pressures: what flows, what stays, what breaks.
//!
//! Liner and fibres strain together ([`SharedWall`]); the liner flows where its equivalent stress reaches its
//! yield strength and keeps what has flowed, so that after a pressure above yield it is left pressed by
//! the wrap. A weld zone at the girth seam has the hoop strain of its neighbours and carries the whole axial
//! line load under the same wrap: in series, so that a weak zone strains more than the wall beside it.
//!
//! Small strains: the growth of the radius, which adds its share to the hoop load (1 % at 1 % of strain), is left
//! out. Resin is left out, as in the elastic margins. The vessel is its cylinder away from closures.

use super::dimensions::Dimensions;
use super::flow::FlowLaw;
use super::form::TankForm;
use super::membrane::{axial_line_load, hoop_line_load};
use super::seam::seam_strength;
use super::shared_wall::{SharedWall, Strained};
use super::tank::Tank;

/// Steps of a change of pressure in which all is elastic, and of one in which something flows: up to where the
/// liner does, and from there. Own choice: strains are within two thousandths of rates integrated by another
/// solver (tests/python).
const STEPS: usize = 16;
const FLOWING: usize = 64;
/// Halvings by which a pressure is found at which something begins.
const HALVINGS: usize = 48;
/// The rise to burst ends at this many times the pressure it was asked to reach, if nothing breaks (own
/// choice).
const FARTHEST: f64 = 8.0;

/// One pressure of the history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Number of the change of pressure it belongs to.
    pub change: usize,
    /// Pa gauge.
    pub pressure: f64,
    /// The cylinder away from seams.
    pub wall: Strained,
    /// The girth seam's weld zone, if there is a girth seam.
    pub zone: Option<Strained>,
    /// Largest fibre strain away from seams over the one at which it breaks; zero without fibre.
    pub utilisation: f64,
}

/// Which wall the history is told of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WallChoice {
    /// The least that the tolerance leaves: what strength is judged by.
    Minimum,
    /// The nominal one: what gauges on a sound vessel should show.
    Nominal,
}

/// What begins on the way from one pressure to the next, Pa gauge.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Begins {
    /// The liner flows from here on.
    pub liner_flow: Option<f64>,
    /// The girth seam's weld zone flows from here on.
    pub zone_flow: Option<f64>,
}

/// How the rise to burst ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ending {
    /// The fibre of a ply breaks, counted from the liner.
    Fibre(usize),
    /// The liner flows without limit.
    Collapse,
    /// The liner has hardened up to its ultimate strength.
    Rupture,
    /// The girth seam's weld zone flows without limit.
    Zone,
    /// The girth seam's weld zone has hardened up to its ultimate strength.
    ZoneRupture,
    /// The fibre of a ply breaks over the girth seam's weld zone.
    ZoneFibre(usize),
    /// Nothing does up to the farthest pressure tried.
    Holds,
}

/// A history of pressures.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadHistory {
    /// Every pressure held, from the first, at rest.
    pub held: Vec<Held>,
    /// What begins in each change of pressure.
    pub begins: Vec<Begins>,
    /// How the last rise ends, and the pressure, Pa gauge.
    pub ending: (Ending, f64),
}

/// The walls that a history is told of, and their line loads.
#[derive(Debug, Clone, PartialEq)]
struct Subject {
    wall: SharedWall,
    zone: Option<SharedWall>,
    /// Ultimate strengths of the two, Pa.
    breaks: [f64; 2],
    /// Axial and hoop line load per pressure, m.
    loads: [f64; 2],
}

#[derive(Debug, Clone, Copy)]
struct State {
    wall: Strained,
    zone: Option<Strained>,
}

/// Follows the cylinder through pressures, Pa gauge, and then up from the last of them until it breaks.
///
/// The thicknesses, m, are those of the liner and of the girth seam's weld zone. Where the liner begins to
/// flow, that pressure is found and the steps after it are counted anew.
pub fn load_history(
    form: &TankForm,
    tank: &Tank<f64>,
    size: &Dimensions<f64>,
    thicknesses: [f64; 2],
    pressures: &[f64],
) -> LoadHistory {
    let subject = Subject::new(form, tank, size, thicknesses);
    let mut history = LoadHistory {
        held: Vec::with_capacity(2 * FLOWING * (pressures.len() + 1)),
        begins: Vec::with_capacity(pressures.len() + 1),
        ending: (Ending::Holds, 0.0),
    };
    let Some(mut state) = subject.at_rest() else {
        history.ending = (Ending::Collapse, 0.0);
        return history;
    };
    let mut from = 0.0;
    subject.keep(&mut history, 0, from, &state);
    for (change, to) in pressures.iter().enumerate() {
        match subject.lead(&mut history, change, state, [from, *to]) {
            Ok(reached) => (state, from) = (reached, *to),
            Err(ending) => {
                history.ending = ending;
                return history;
            }
        }
    }
    history.ending = subject.lead_to_break(&mut history, pressures.len(), state, from);
    history
}

impl Subject {
    fn keep(&self, history: &mut LoadHistory, change: usize, pressure: f64, state: &State) {
        let worst = self.wall.nearest_to_break(state.wall.strain);
        history.held.push(Held {
            change,
            pressure,
            wall: state.wall,
            zone: state.zone,
            utilisation: worst.map_or(0.0, |(_, share)| share),
        });
    }

    fn new(
        form: &TankForm,
        tank: &Tank<f64>,
        size: &Dimensions<f64>,
        [thickness, seam_thickness]: [f64; 2],
    ) -> Self {
        let liner = &tank.liner;
        let metal = &liner.metal;
        let law = FlowLaw {
            elastic_modulus: metal.elastic_modulus,
            poisson_ratio: metal.poisson_ratio,
            yield_strength: metal.yield_strength,
            plastic_modulus: liner.plastic_modulus,
        };
        let inner = size.inner_diameter * 0.5;
        let radius = inner + thickness * 0.5;
        let gap = tank.overwrap.gap / (inner + size.wall);
        let across = |parent: f64, weld_zone: f64| {
            let efficiency = liner.girth_seam.joint_efficiency;
            seam_strength(form.girth_seam, parent, weld_zone, efficiency)
        };
        let zone = form.has_girth_seam().then(|| {
            let law = FlowLaw {
                yield_strength: across(metal.yield_strength, metal.weld_zone_yield_strength),
                ..law
            };
            SharedWall::new(form, tank, law, seam_thickness, gap)
        });
        Self {
            wall: SharedWall::new(form, tank, law, thickness, gap),
            zone,
            breaks: [
                metal.ultimate_strength,
                across(metal.ultimate_strength, metal.weld_zone_ultimate_strength),
            ],
            loads: [
                axial_line_load(1.0, inner, radius),
                hoop_line_load(1.0, radius),
            ],
        }
    }

    fn at_rest(&self) -> Option<State> {
        let start = State {
            wall: self.wall.unstrained(),
            zone: self.zone.as_ref().map(SharedWall::unstrained),
        };
        self.next(&start, 0.0).ok()
    }

    /// The state at a pressure, from the one before.
    fn next(&self, before: &State, pressure: f64) -> Result<State, Ending> {
        let loads = self.loads.map(|load| load * pressure);
        let wall = self.wall.under(loads, &before.wall);
        let wall = wall.ok_or(Ending::Collapse)?;
        let zone = match (&self.zone, &before.zone) {
            (Some(zone), Some(before)) => {
                let held = zone.held(loads[0], wall.strain[1], before);
                Some(held.ok_or(Ending::Zone)?)
            }
            _ => None,
        };
        Ok(State { wall, zone })
    }

    /// From one pressure to the next.
    fn lead(
        &self,
        history: &mut LoadHistory,
        change: usize,
        mut state: State,
        [from, to]: [f64; 2],
    ) -> Result<State, (Ending, f64)> {
        let begins = self.begins(&state, [from, to]);
        history.begins.push(begins);
        let flows = begins.liner_flow.is_some() || begins.zone_flow.is_some();
        let steps = if flows { FLOWING } else { STEPS };
        let mut at = from;
        for end in begins.liner_flow.into_iter().chain([to]) {
            let start = at;
            for step in 1..=steps {
                let pressure = start + (end - start) * step as f64 / steps as f64;
                let reached = self.next(&state, pressure);
                state = match reached {
                    Ok(next) if self.broken(&next).is_none() => next,
                    _ => return Err(self.end_between(history, change, &state, [at, pressure])),
                };
                self.keep(history, change, pressure, &state);
                at = pressure;
            }
        }
        Ok(state)
    }

    /// What begins between two pressures, from a state at the first.
    fn begins(&self, start: &State, between: [f64; 2]) -> Begins {
        let begins = |flown: &dyn Fn(&State) -> f64| {
            let flows = |pressure: f64| {
                self.next(start, pressure)
                    .map_or(true, |next| flown(&next) > flown(start))
            };
            flows(between[1]).then(|| first(between, flows))
        };
        Begins {
            liner_flow: begins(&|state| state.wall.liner.flowed.equivalent),
            zone_flow: begins(&|state| state.zone.map_or(0.0, |zone| zone.liner.flowed.equivalent)),
        }
    }

    /// How and where between two pressures it ends, from a state at the first; keeps the last moment.
    fn end_between(
        &self,
        history: &mut LoadHistory,
        change: usize,
        state: &State,
        between: [f64; 2],
    ) -> (Ending, f64) {
        let broken = |pressure: f64| match self.next(state, pressure) {
            Err(ending) => Some(ending),
            Ok(next) => self.broken(&next),
        };
        let end = first(between, |pressure| broken(pressure).is_some());
        if let Ok(last) = self.next(state, end) {
            self.keep(history, change, end, &last);
        }
        (broken(end).unwrap_or(Ending::Holds), end)
    }

    /// From a pressure up until something breaks.
    fn lead_to_break(
        &self,
        history: &mut LoadHistory,
        change: usize,
        mut state: State,
        from: f64,
    ) -> (Ending, f64) {
        let highest = history.held.iter().map(|held| held.pressure);
        let asked = highest.fold(0.0, f64::max).max(from);
        let step = asked / FLOWING as f64;
        let mut at = from;
        let begins = self.begins(&state, [from, FARTHEST * asked]);
        history.begins.push(begins);
        while at < FARTHEST * asked {
            let pressure = at + step;
            state = match self.next(&state, pressure) {
                Ok(next) if self.broken(&next).is_none() => next,
                _ => return self.end_between(history, change, &state, [at, pressure]),
            };
            self.keep(history, change, pressure, &state);
            at = pressure;
        }
        (Ending::Holds, at)
    }

    /// What has broken, if anything.
    fn broken(&self, state: &State) -> Option<Ending> {
        let over = |wall: &SharedWall, strain: [f64; 2]| {
            let worst = wall.nearest_to_break(strain);
            worst.filter(|(_, share)| *share >= 1.0)
        };
        if let Some((ply, _)) = over(&self.wall, state.wall.strain) {
            return Some(Ending::Fibre(ply));
        }
        if self.wall.hardened_to(self.breaks[0], &state.wall) {
            return Some(Ending::Rupture);
        }
        let (wall, zone) = (self.zone.as_ref()?, state.zone.as_ref()?);
        if wall.hardened_to(self.breaks[1], zone) {
            return Some(Ending::ZoneRupture);
        }
        over(wall, zone.strain).map(|(ply, _)| Ending::ZoneFibre(ply))
    }
}

/// The end nearer to the second of two pressures between which something begins.
fn first([mut before, mut after]: [f64; 2], begun: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (before + after);
        if begun(middle) {
            after = middle;
        } else {
            before = middle;
        }
    }
    after
}

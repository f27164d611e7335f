//! The cylinder through a row of pressures: what flows, what stays, what breaks.
//!
//! Liner and fibres strain together ([`super::shared_wall`]); the liner flows where its equivalent stress
//! reaches its yield strength and keeps what has flowed, so that after a pressure above yield it is left
//! pressed by the wrap. Weld zones stand in series with it ([`super::walls`]).
//!
//! Small strains: the growth of the radius, which adds its share to the hoop load (1 % at 1 % of strain), is left
//! out. Resin is left out, as in the elastic margins. The vessel is its cylinder away from closures.

use super::dimensions::Dimensions;
use super::form::TankForm;
use super::shared_wall::Strained;
use super::tank::Tank;
use super::walls::{Ahead, Ending, Pressed, Seam, Walls};

/// Steps of a stretch of pressure in which all is elastic, and of one in which something flows. Own choice: strains
/// of the cylinder are within half a per cent of rates integrated by another solver (tests/python).
const STEPS: usize = 8;
const FLOWING: usize = 32;
/// Corrections by which a pressure is found at which something begins, and part of it by which it may miss.
const CORRECTIONS: usize = 40;
const CLOSE: f64 = 1e-10;
/// Part of a change of pressure after which it is seen whether the wall goes on flowing or leaves its yield strength.
const OFF: f64 = 1e-6;
/// The rise to burst ends at this many times the highest pressure asked for, if nothing breaks (own choice).
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
    /// The weld zones of girth and longitudinal seam, where there is one.
    pub zones: [Option<Strained>; 2],
    /// Largest fibre strain away from seams over the one at which it breaks; zero without fibre.
    pub utilisation: f64,
    /// Largest strain across the fibre of any ply.
    pub across_fibre: f64,
    /// How near the liner, pressed by its wrap, is to buckling inwards: one at the pressure of a tight fit.
    pub buckling: f64,
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
    /// The weld zones of girth and longitudinal seam flow from here on.
    pub zone_flow: [Option<f64>; 2],
    /// The resin of a ply first cracks along its fibres; the fibres go on carrying, and this is no burst.
    pub first_crack: Option<f64>,
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

/// A history as it grows.
struct Course<'a> {
    walls: &'a Walls,
    history: LoadHistory,
    state: Pressed,
    pressure: f64,
    ahead: Ahead,
    cracked: bool,
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
    let walls = Walls::new(form, tank, size, thicknesses);
    let mut history = LoadHistory {
        held: Vec::with_capacity(2 * FLOWING * (pressures.len() + 1)),
        begins: Vec::with_capacity(pressures.len() + 1),
        ending: (Ending::Collapse, 0.0),
    };
    let Some(state) = walls.at_rest() else {
        return history;
    };
    history.ending = (Ending::Holds, 0.0);
    let mut course = Course {
        walls: &walls,
        history,
        state,
        pressure: 0.0,
        ahead: Ahead::default(),
        cracked: false,
    };
    course.keep();
    let broke = pressures.iter().find_map(|to| course.lead(*to));
    let ending = broke.unwrap_or_else(|| course.lead_to_break());
    // The liner's first flow is looked for beyond where the tank may break.
    let last = course.begins();
    last.liner_flow = last.liner_flow.filter(|flow| *flow <= ending.1);
    course.history.ending = ending;
    course.history
}

impl Course<'_> {
    /// Number of the change of pressure under way.
    fn change(&self) -> usize {
        self.history.begins.len().saturating_sub(1)
    }

    fn keep(&mut self) {
        let (walls, state) = (self.walls, &self.state);
        let worst = walls.wall.nearest_to_break(state.wall.strain);
        self.history.held.push(Held {
            change: self.change(),
            pressure: self.pressure,
            wall: state.wall,
            zones: state.zones,
            utilisation: worst.map_or(0.0, |(_, share)| share),
            across_fibre: walls.wall.across_fibre(state.wall.strain),
            buckling: walls.buckling_share(state),
        });
    }

    /// A new change of pressure, and the pressure on its way at which the liner begins to flow.
    fn set_out(&mut self, to: f64) -> Option<f64> {
        let liner_flow = self.liner_flow(to);
        self.history.begins.push(Begins {
            liner_flow,
            ..Begins::default()
        });
        liner_flow
    }

    /// To the next pressure; how and where it ends on the way, if it does.
    fn lead(&mut self, to: f64) -> Option<(Ending, f64)> {
        let liner_flow = self.set_out(to);
        let ends = liner_flow.into_iter().chain([to]);
        let mut ends = ends.filter_map(|end| self.stretch(end));
        ends.next()
    }

    /// Up from the last pressure until something breaks.
    fn lead_to_break(&mut self) -> (Ending, f64) {
        let seen = self.history.held.iter().map(|held| held.pressure);
        let highest = seen.fold(self.pressure, f64::max);
        let step = highest / FLOWING as f64;
        let liner_flow = self.set_out(FARTHEST * highest);
        if let Some(ended) = liner_flow.and_then(|end| self.stretch(end)) {
            return ended;
        }
        self.ahead = Ahead::default();
        while self.pressure < FARTHEST * highest {
            if let Some(ended) = self.step(self.pressure + step) {
                return ended;
            }
        }
        (Ending::Holds, self.pressure)
    }

    /// Pressure on the way to another at which the liner begins to flow.
    fn liner_flow(&self, to: f64) -> Option<f64> {
        let excess = |pressure| self.walls.liner_excess(&self.state, pressure);
        // A wall that has just flowed stands at its yield strength; on the way back it leaves it first.
        let off = self.pressure + OFF * (to - self.pressure);
        let from = if excess(off) < 0.0 {
            off
        } else {
            self.pressure
        };
        (excess(to) > CLOSE).then(|| crossing([from, to], excess))
    }

    /// In even steps to a pressure.
    fn stretch(&mut self, end: f64) -> Option<(Ending, f64)> {
        let flown = |state: &Pressed| {
            let zones = state.zones.iter().flatten().map(|zone| zone.liner.flowed);
            zones.fold(state.wall.liner.flowed.equivalent, |sum, flowed| {
                sum + flowed.equivalent
            })
        };
        self.ahead = Ahead::default();
        let reached = self.walls.next(&self.state, end, &self.ahead);
        let flows = reached.map_or(true, |reached| flown(&reached) > flown(&self.state));
        let steps = if flows { FLOWING } else { STEPS };
        let start = self.pressure;
        (1..=steps).find_map(|step| self.step(start + (end - start) * step as f64 / steps as f64))
    }

    /// One step; how and where it ends, if it does.
    fn step(&mut self, to: f64) -> Option<(Ending, f64)> {
        let next = match self.walls.next(&self.state, to, &self.ahead) {
            Ok(next) if self.walls.nearest_to_break(&next).1 < 1.0 => next,
            _ => return Some(self.end(to)),
        };
        for seam in Seam::ALL {
            let at = seam as usize;
            let grown = next.zones[at].zip(self.state.zones[at]);
            let flows = grown.is_some_and(|(next, last)| next.liner.flowed != last.liner.flowed);
            if flows && self.begins().zone_flow[at].is_none() {
                let excess = |pressure| self.walls.zone_excess(seam, &self.state, pressure);
                let found = crossing([self.pressure, to], excess);
                self.begins().zone_flow[at] = Some(found);
            }
        }
        if !self.cracked && self.walls.crack_excess(&next) > 0.0 {
            let excess = |pressure| {
                let reached = self.walls.next(&self.state, pressure, &Ahead::default());
                reached.map_or(f64::INFINITY, |reached| self.walls.crack_excess(&reached))
            };
            let found = crossing([self.pressure, to], excess);
            self.begins().first_crack = Some(found);
            self.cracked = true;
        }
        self.ahead = self.ahead.after(&self.state, &next);
        (self.state, self.pressure) = (next, to);
        self.keep();
        None
    }

    /// What has begun in the change of pressure under way.
    fn begins(&mut self) -> &mut Begins {
        let at = self.change();
        &mut self.history.begins[at]
    }

    /// How and where between the last pressure and another it ends; keeps the last moment.
    fn end(&mut self, to: f64) -> (Ending, f64) {
        let (walls, state) = (self.walls, self.state);
        let next = |pressure| walls.next(&state, pressure, &Ahead::default());
        let excess = |pressure: f64| match next(pressure) {
            Ok(next) => walls.nearest_to_break(&next).1 - 1.0,
            Err(_) => f64::INFINITY,
        };
        let pressure = crossing([self.pressure, to], excess);
        match next(pressure) {
            Err(ending) => (ending, pressure),
            Ok(last) => {
                (self.state, self.pressure) = (last, pressure);
                self.keep();
                (walls.nearest_to_break(&last).0, pressure)
            }
        }
    }
}

/// Where between two numbers a function rises above zero, from the side above: by secants whose standing end is
/// halved (the Illinois rule), by halving where it is not finite.
fn crossing([mut before, mut after]: [f64; 2], excess: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (excess(before), excess(after));
    if low >= 0.0 {
        return before;
    }
    let width = CLOSE * (before.abs() + after.abs());
    let mut kept = 0;
    for _ in 0..CORRECTIONS {
        if (after - before).abs() <= width {
            break;
        }
        let middle = if high.is_finite() {
            (before * high - after * low) / (high - low)
        } else {
            0.5 * (before + after)
        };
        let value = excess(middle);
        if value.abs() <= CLOSE {
            return middle;
        }
        if value > 0.0 {
            (after, high) = (middle, value);
            low *= if kept > 0 { 0.5 } else { 1.0 };
            kept = 1;
        } else {
            (before, low) = (middle, value);
            high *= if kept < 0 { 0.5 } else { 1.0 };
            kept = -1;
        }
    }
    after
}

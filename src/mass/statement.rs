//! Lines of mass, summed.

use super::inertia::Inertia;
use super::spread::Spread;
use crate::numerics::Real;
use crate::quantity::{choice, slots};

/// Most items a user may list.
pub const MAX_ITEMS: usize = 16;
/// Most lines a statement may hold: computed ones and the user's items.
pub const MAX_LINES: usize = 16 + MAX_ITEMS;

choice! {
    /// Where an item sits; its centre of gravity moves with that section.
    pub enum Place {
        /// Middle of the nose's length.
        Nose = "nose",
        /// Middle of the payload bay.
        PayloadBay = "payload_bay",
        /// Middle of the recovery bay.
        RecoveryBay = "recovery_bay",
        /// Middle of the tank.
        Tank = "tank",
        /// Middle of the motor section.
        Motor = "motor",
        /// At a station of its own.
        Station = "station",
    }
}

choice! {
    /// The part of the vehicle that a line belongs to.
    pub enum Group {
        /// Tank: liner, closures, overwrap, fittings.
        Tank = "tank",
        /// Airframe: nose, bays, skin, fins.
        Airframe = "airframe",
        /// Motor without propellant.
        Motor = "motor",
        /// Items listed by the user.
        Item = "item",
        /// Propellant on board, and what is left of it.
        Propellant = "propellant",
    }
}

slots! {
    /// Growth allowance of each group, as a share of basic mass: the mass expected to be added until
    /// the part is built and weighed.
    pub struct Growth<R> {
        /// Growth allowance of tank parts.
        tank: Share [0.0, 2.0], Tank;
        /// Growth allowance of airframe parts.
        airframe: Share [0.0, 2.0], Body;
        /// Growth allowance of the motor.
        motor: Share [0.0, 2.0], Body;
    }
}

slots! {
    /// A mass listed by the user.
    pub struct Item<R> {
        /// Basic mass of the item.
        mass: Mass [0.0, 1000000.0], Item;
        /// Growth allowance of the item, as a share of its basic mass.
        growth_allowance: Share [0.0, 2.0], Item;
        /// Station of the item from the nose tip.
        station: Length [0.0, 200.0], Station;
    }
}

/// One line of the statement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line<R> {
    /// What the line is; the user's items are named in the stage.
    pub name: &'static str,
    /// The part of the vehicle it belongs to.
    pub group: Group,
    /// Basic mass, kg.
    pub basic: R,
    /// Growth allowance as a share of basic mass.
    pub growth_share: R,
    /// Station of its centre of gravity from the nose tip, m.
    pub station: R,
    /// How far its mass spreads about that.
    pub spread: Spread<R>,
}

impl<R: Real> Line<R> {
    /// Growth allowance, kg.
    pub fn growth(&self) -> R {
        self.basic * self.growth_share
    }

    /// Predicted mass, kg: basic mass and growth allowance.
    pub fn predicted(&self) -> R {
        self.basic * (self.growth_share + 1.0)
    }

    /// Moments of inertia of its predicted mass about its own centre of gravity, kg m2.
    pub fn own_inertia(&self) -> Inertia<R> {
        let Spread { along, across, .. } = self.spread;
        let mass = self.predicted();
        Inertia {
            pitch: mass * (along + across * 0.5),
            roll: mass * across,
        }
    }
}

/// Lines of mass in a fixed array.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statement<R> {
    lines: [Line<R>; MAX_LINES],
    count: usize,
}

impl<R: Real> Statement<R> {
    /// A statement without lines.
    pub fn new() -> Self {
        let empty = Line {
            name: "",
            group: Group::Item,
            basic: R::splat(0.0),
            growth_share: R::splat(0.0),
            station: R::splat(0.0),
            spread: Spread::point(),
        };
        Self {
            lines: [empty; MAX_LINES],
            count: 0,
        }
    }

    /// Appends a line. The chain writes at most [`MAX_LINES`] of them.
    pub fn push(
        &mut self,
        name: &'static str,
        group: Group,
        basic: R,
        growth_share: R,
        station: R,
        spread: Spread<R>,
    ) {
        self.lines[self.count] = Line {
            name,
            group,
            basic,
            growth_share,
            station,
            spread,
        };
        self.count += 1;
    }

    /// The lines, in the order written.
    pub fn lines(&self) -> &[Line<R>] {
        &self.lines[..self.count]
    }

    fn sum(&self, term: impl Fn(&Line<R>) -> R) -> R {
        self.lines()
            .iter()
            .fold(R::splat(0.0), |sum, line| sum + term(line))
    }

    /// Basic mass, kg.
    pub fn basic(&self) -> R {
        self.sum(|line| line.basic)
    }

    /// Growth allowance, kg: the sum over lines.
    pub fn growth(&self) -> R {
        self.sum(Line::growth)
    }

    /// Root of the sum of the lines' squared growth allowances, kg: by how much they would scatter in all
    /// if the allowance of each were the scatter of its mass and independent of the others.
    ///
    /// An allowance is growth that is expected, and lines of one class grow together: for that the sum
    /// counts, and this is too little. It stands beside the sum and nothing is computed from it.
    ///
    /// Source: W. H. Ahl, "Predicting the Accuracy of Mass Property Calculations", Society of Aeronautical
    /// Weight Engineers, paper 305, 1962 (abstract), for variations of masses; that growth and variation
    /// are two things: "Mass Properties Uncertainty Analysis of Aerospace Vehicle Hardware", Society of
    /// Allied Weight Engineers, paper 694, 1968 (abstract).
    pub fn growth_root_sum_square(&self) -> R {
        self.sum(|line| line.growth().squared()).sqrt()
    }

    /// First moment of the predicted mass, kg m from the nose tip.
    pub fn moment(&self) -> R {
        self.sum(|line| line.predicted() * line.station)
    }
}

impl<R: Real> Default for Statement<R> {
    fn default() -> Self {
        Self::new()
    }
}

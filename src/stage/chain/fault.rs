//! Why a design has no results.

use crate::airframe::CHORD_RANGE;
use crate::error::{Error, Result};
use crate::numerics::Real;
use crate::quantity::{Choice, choice, slots};

slots! {
    /// Status of a design.
    pub struct Status<R> {
        /// Zero, or the number of the fault.
        code: Ratio, Always;
        /// The number that tells how far off the design is.
        value: Ratio, Always;
    }
}

impl<R: Real> Status<R> {
    /// No fault so far.
    pub fn sound() -> Self {
        Self {
            code: R::splat(0.0),
            value: R::splat(0.0),
        }
    }

    /// Records a fault where `mask` is true and none was recorded before.
    pub fn flag(&mut self, mask: R::Mask, fault: Fault, value: R) {
        let fresh = mask & !self.code.above(0.0);
        self.code = R::splat(fault.code()).select(self.code, fresh);
        self.value = value.select(self.value, fresh);
    }
}

impl Status<f64> {
    /// That the design has no fault, or an error that says what to change.
    pub fn refuse_fault(&self) -> Result<()> {
        match Fault::from_code(self.code) {
            Some(fault) => Err(Error::Infeasible(fault.sentence(self.value))),
            None => Ok(()),
        }
    }
}

choice! {
    /// Why a design has no results. A status holds the fault's place in this list, from one; results that
    /// were saved hold it too, so that a new fault comes last.
    #[non_exhaustive]
    pub enum Fault {
        /// Wall and wrap leave no bore.
        NoBore = "no_bore",
        /// The closures alone are larger than the tank.
        TankTooShort = "tank_too_short",
        /// The tank cannot hold the load.
        LoadDoesNotFit = "load_does_not_fit",
        /// The tank's MEOP is not above ambient pressure.
        NoPressure = "no_pressure",
        /// No fins of these proportions give the static margin.
        NoFins = "no_fins",
        /// Thrust never exceeds weight.
        ThrustBelowWeight = "thrust_below_weight",
        /// The vehicle comes to a stop before the end of thrust.
        StopsInBurn = "stops_in_burn",
        /// Nothing burns.
        NothingToBurn = "nothing_to_burn",
        /// The vehicle without propellant has no mass left.
        NoMass = "no_mass",
        /// A result is not a finite number.
        NotFinite = "not_finite",
        /// The skin fills the body.
        SkinFillsBody = "skin_fills_body",
        /// A combination of choices cannot be built.
        CannotBeBuilt = "cannot_be_built",
        /// The vehicle does not leave an inclined rail before the end of thrust.
        HeldByRail = "held_by_rail",
        /// The vehicle is too fast at burnout for an apogee.
        Lost = "lost",
        /// The girth seam's lack of penetration goes through the wall.
        NoSeam = "no_seam",
        /// The tank bursts in its autofrettage.
        BreaksInAutofrettage = "breaks_in_autofrettage",
        /// A row of bolts counts a part of a bolt.
        PartOfABolt = "part_of_a_bolt",
        /// The holes of a row of bolts run into each other.
        HolesOverlap = "holes_overlap",
        /// The holes of a row of bolts reach the end of the tube.
        HolesAtEnd = "holes_at_end",
        /// A bolted bulkhead's rim is too short for its bolts or its plate.
        RimTooShort = "rim_too_short",
        /// A band counts a part of a tow.
        PartOfATow = "part_of_a_tow",
        /// No band can turn on a closure: polar opening and half a band reach beyond the liner.
        NoRoomToTurn = "no_room_to_turn",
        /// The holes of a row of bolts are narrower than their bolts.
        HolesTooNarrow = "holes_too_narrow",
        /// The rim of a bolted bulkhead is thicker than the bore's radius.
        RimTooThick = "rim_too_thick",
        /// A strength against yield lies above the one against rupture.
        StrengthsSwapped = "strengths_swapped",
        /// A fitting counts a part of a fastener.
        PartOfAFastener = "part_of_a_fastener",
        /// The pad of a fitting is longer than the tank's cylinder, or goes too far around it.
        PadTooLarge = "pad_too_large",
    }
}

impl Fault {
    /// The number of the fault in a status.
    pub fn code(self) -> f64 {
        (self.position() + 1) as f64
    }

    /// The fault of that number.
    pub fn from_code(code: f64) -> Option<Self> {
        Self::ALL.iter().copied().find(|fault| fault.code() == code)
    }

    /// The sentence for a reader, with the number that tells how far off the design is.
    pub fn sentence(self, value: f64) -> String {
        let millimetres = value * 1e3;
        match self {
            Self::NoBore => format!(
                "wall and wrap leave an inside diameter of {millimetres:.1} mm; reduce tank.liner.wall \
                 or the plies, or enlarge the diameter"
            ),
            Self::TankTooShort => format!(
                "the closures alone are too large: the cylinder between them would be {millimetres:.1} \
                 mm long; enlarge tank.volume or tank.length, or reduce the diameter"
            ),
            Self::LoadDoesNotFit => format!(
                "the tank cannot hold the load: at the fill temperature its ullage would be {:.1} %; \
                 enlarge the tank, or reduce propellant.oxidiser_mass",
                value * 100.0
            ),
            Self::NoPressure => format!(
                "MEOP is {:.3} bar gauge, not above ambient pressure; check soak and fill temperature",
                value / 1e5
            ),
            Self::NoFins => format!(
                "no fins of these proportions with a root chord of {} to {} body diameters give a \
                 static margin of {value:.2} body diameters; change fins.static_margin, their \
                 proportions, or move mass",
                CHORD_RANGE.0, CHORD_RANGE.1
            ),
            Self::ThrustBelowWeight => format!(
                "thrust never exceeds weight: mean thrust over weight is {value:.2}; raise \
                 motor.thrust or reduce mass"
            ),
            Self::StopsInBurn => {
                "the vehicle stops, or gravity turns it level, before the end of thrust; raise thrust or \
                 rail.elevation, or shorten the burn"
                    .to_owned()
            }
            Self::Lost => format!(
                "burnout at {:.2} km/s is at orbital speed or beyond, where this ascent has no apogee; \
                 check thrust, exit area, specific impulse and masses",
                value / 1e3
            ),
            Self::HeldByRail => format!(
                "the vehicle is still on the rail at the end of thrust, at {value:.1} m/s; raise thrust \
                 or shorten rail.length"
            ),
            Self::NoSeam => format!(
                "tank.liner.girth_seam.lack_of_penetration = {millimetres:.2} mm goes through the whole wall \
                 there and leaves no seam; it has to be less than the minimum wall of cylinder and domes"
            ),
            Self::BreaksInAutofrettage => format!(
                "the tank bursts at {:.1} bar gauge, before it reaches its tank.autofrettage_pressure; lower \
                 that, or strengthen the tank",
                value / 1e5
            ),
            Self::NothingToBurn => {
                "no propellant is burned; check load and residual shares".to_owned()
            }
            Self::NoMass => format!(
                "the vehicle without propellant would have {value:.2} kg, less than a thousandth of \
                 its propellant; raise mass.added"
            ),
            Self::SkinFillsBody => format!(
                "the skin leaves an inside diameter of {millimetres:.1} mm in the bays; reduce \
                 skin.thickness"
            ),
            Self::CannotBeBuilt => {
                "this combination of choices cannot be built; replace it on the \
                 stage alone to read why"
                    .to_owned()
            }
            Self::NotFinite => {
                "a result is not a finite number: the inputs lie outside what the models can do"
                    .to_owned()
            }
            _ => self.of_what_is_made(value),
        }
    }

    /// The same of bolts, bands and fittings that cannot be made.
    fn of_what_is_made(self, value: f64) -> String {
        let millimetres = value * 1e3;
        match self {
            Self::HolesTooNarrow => format!(
                "the holes of a row of bolts are narrower than the bolts by {millimetres:.2} mm; \
                 bolts.hole_diameter has to be at least bolts.diameter"
            ),
            Self::RimTooThick => format!(
                "the rim of a bolted bulkhead is {millimetres:.1} mm thick, more than the bore's radius; write the \
                 radial thickness of the ring beside the plate as bolts.rim_thickness"
            ),
            Self::StrengthsSwapped => format!(
                "a bearing yield strength lies {:.0} MPa above the bearing ultimate strength; write the smaller one \
                 as yield",
                value / 1e6
            ),
            Self::PartOfAFastener => format!(
                "a fitting with {value} fasteners has no whole number of them; write how many hold the part to the pad"
            ),
            Self::PadTooLarge => format!(
                "a fitting's pad of {millimetres:.0} mm is longer than the tank's cylinder, or goes more than a \
                 quarter of the way around the liner; give a smaller pad, or several fittings"
            ),
            Self::PartOfATow => format!(
                "a band of {value} tows is no whole number of them; write how many lie side by side as \
                 tank.overwrap.winding.tows_per_band"
            ),
            Self::NoRoomToTurn => format!(
                "a polar opening and half a band reach {millimetres:.1} mm from the axis, beyond the liner: no \
                 band can turn there; give a smaller opening, a narrower band or a wider tank"
            ),
            Self::PartOfABolt => format!(
                "a row of {value} bolts is no whole number of them; write how many bolts hold the closure as \
                 bolts.count"
            ),
            Self::HolesOverlap => format!(
                "the holes of a row of bolts do not fit around the wall: {millimetres:.2} mm would be left \
                 between them; give fewer bolts.count or a smaller bolts.hole_diameter"
            ),
            Self::HolesAtEnd => format!(
                "the holes of a row of bolts leave {millimetres:.2} mm of wall to the end of the tube; \
                 bolts.edge_distance has to be more than half of bolts.hole_diameter"
            ),
            Self::RimTooShort => format!(
                "the rim of a bolted bulkhead is too short by {:.2} mm: bolts.rim_length has to cover \
                 bolts.edge_distance and half a hole, with room for the seal, and the bulkhead's thickness",
                -millimetres
            ),
            _ => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_fault_has_a_sentence() {
        for fault in Fault::ALL {
            assert!(fault.sentence(1.0).len() > 20, "{fault:?}");
        }
    }
}

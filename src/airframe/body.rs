//! The body, from the tank outwards: nose, payload bay, recovery bay, tank, motor, in this order
//! from the tip.

use super::fins::FinForm;
use super::nose::{Nose, NoseRule, NoseShape, nose_skin_centroid, nose_wetted_area};
use crate::numerics::Real;
use crate::quantity::{choice, slots};
use std::f64::consts::PI;

choice! {
    /// Which measure of a bay stays when the body's diameter changes.
    pub enum BayRule {
        /// The inside volume stays; the length follows.
        Volume = "volume",
        /// The length stays.
        Length = "length",
    }
}

choice! {
    /// What forms the outer surface along the tank.
    pub enum SkinRule {
        /// The tank is the airframe.
        TankIsAirframe = "tank_is_airframe",
        /// A skin passes over the tank with a gap.
        OverTank = "skin_over_tank",
    }
}

slots! {
    /// A bay of the body.
    pub struct Bay<R> {
        /// Inside volume of the bay.
        volume: Volume [0.0, 50.0], Body;
        /// Length of the bay.
        length: Length [0.0, 20.0], Body;
    }
}

slots! {
    /// The skin of nose and bays, and of the tank section where a skin passes over it.
    pub struct Skin<R> {
        /// Thickness of the skin.
        thickness: Length [1e-5, 0.1], Body;
        /// Density of the skin.
        density: Density [10.0, 25000.0], Body;
        /// Equivalent sand-grain roughness of the outer surface.
        sand_grain_roughness: Length [0.0, 0.005], Body;
        /// Gap between the tank and a skin over it.
        gap: Length [0.0, 0.5], SkinOverTank;
    }
}

/// What cannot vary continuously about the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct BodyForm {
    /// Shape of the nose.
    pub nose: NoseShape,
    /// Follow rule of the nose.
    pub nose_rule: NoseRule,
    /// Follow rule of the bays.
    pub bay_rule: BayRule,
    /// What forms the surface along the tank.
    pub skin_rule: SkinRule,
    /// The fins.
    pub fins: FinForm,
}

/// The body without its fins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body<R> {
    /// Diameter of nose, bays and tank section, m.
    pub diameter: R,
    /// Largest diameter anywhere, m: it sets the frontal area.
    pub frontal_diameter: R,
    /// Length of the nose, m.
    pub nose_length: R,
    /// Length of the payload bay, m.
    pub payload_bay_length: R,
    /// Length of the recovery bay, m.
    pub recovery_bay_length: R,
    /// Station where the tank begins, m from the tip.
    pub tank_station: R,
    /// Station where the motor section begins, m from the tip.
    pub motor_station: R,
    /// Overall length, m.
    pub length: R,
    /// Wetted area without fins and base, m2.
    pub wetted_area: R,
    /// Wetted area of the nose, m2.
    pub nose_area: R,
    /// Station of the centroid of the nose's skin, m.
    pub nose_centroid: R,
}

/// Builds the body around a tank of `tank_diameter` and `tank_length`.
#[allow(clippy::too_many_arguments)]
pub fn body<R: Real>(
    form: &BodyForm,
    nose: &Nose<R>,
    bays: [&Bay<R>; 2],
    skin: &Skin<R>,
    tank_diameter: R,
    tank_length: R,
    motor_length: R,
    motor_diameters: [R; 2],
) -> Body<R> {
    let diameter = match form.skin_rule {
        SkinRule::TankIsAirframe => tank_diameter,
        SkinRule::OverTank => tank_diameter + (skin.gap + skin.thickness) * 2.0,
    };
    let frontal = motor_diameters.into_iter().fold(diameter, Real::max);
    let nose_length = match form.nose_rule {
        NoseRule::Fineness => nose.fineness_ratio * diameter,
        NoseRule::Length => nose.length,
    };
    let bore = bay_section(diameter, skin);
    let [payload_bay_length, recovery_bay_length] = bays.map(|bay| match form.bay_rule {
        BayRule::Volume => bay.volume / bore,
        BayRule::Length => bay.length,
    });
    let tank_station = nose_length + payload_bay_length + recovery_bay_length;
    let motor_station = tank_station + tank_length;
    let length = motor_station + motor_length;
    let nose_area = nose_wetted_area(form.nose, diameter, nose_length);
    let forward = diameter * (payload_bay_length + recovery_bay_length + tank_length);
    Body {
        diameter,
        frontal_diameter: frontal,
        nose_length,
        payload_bay_length,
        recovery_bay_length,
        tank_station,
        motor_station,
        length,
        wetted_area: nose_area + (forward + frontal * motor_length) * PI,
        nose_area,
        nose_centroid: nose_skin_centroid(form.nose, nose_length),
    }
}

/// Frontal area of a body of the given largest diameter, m2: what every drag coefficient refers to.
///
/// ```
/// let area: f64 = hoopline::airframe::frontal_area(0.16);
/// assert!((area - 0.020106).abs() < 5e-7);
/// ```
pub fn frontal_area<R: Real>(diameter: R) -> R {
    diameter.squared() * (PI / 4.0)
}

/// Cross-section inside the skin of a bay, m2.
fn bay_section<R: Real>(diameter: R, skin: &Skin<R>) -> R {
    (diameter - skin.thickness * 2.0).squared() * (PI / 4.0)
}

/// Bay volume or length, whichever follows, so that the follow rule can be changed later.
pub(crate) fn bay_equivalents<R: Real>(
    rule: BayRule,
    bay: &Bay<R>,
    body: &Body<R>,
    skin: &Skin<R>,
) -> Bay<R> {
    let bore = bay_section(body.diameter, skin);
    match rule {
        BayRule::Volume => Bay {
            volume: bay.volume,
            length: bay.volume / bore,
        },
        BayRule::Length => Bay {
            volume: bay.length * bore,
            length: bay.length,
        },
    }
}

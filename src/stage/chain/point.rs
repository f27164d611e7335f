//! [`Point`]: every number of a stage that can vary, in SI.

use crate::airframe::{Bay, Fins, GivenDrag, Nose, Skin};
use crate::atmosphere::{Day, Exponential};
use crate::mass::{Growth, Item, MAX_ITEMS};
use crate::motor::Motor;
use crate::quantity::{Field, Slots, slots};
use crate::vessel::{Tank, rule_set::RuleSet};

slots! {
    /// Every number that can vary. Which of them apply, and which of several equivalent ones is the
    /// input, is the form's business.
    pub struct Point<R> {} groups {
        /// Launch site.
        site: Site<R>,
        /// Launch rail.
        rail: Rail<R>,
        /// The atmosphere as given.
        atmosphere: GivenAir<R>,
        /// Propellant load.
        propellant: Propellant<R>,
        /// Tank pressures as given.
        pressure: GivenPressure<R>,
        /// Factors of the rule set.
        rule_set: RuleSet<R>,
        /// The tank.
        tank: Tank<R>,
        /// The nose.
        nose: Nose<R>,
        /// The payload bay.
        payload_bay: Bay<R>,
        /// The recovery bay.
        recovery_bay: Bay<R>,
        /// The skin.
        skin: Skin<R>,
        /// The fins.
        fins: Fins<R>,
        /// The motor.
        motor: Motor<R>,
        /// What is given about the drag.
        drag: GivenDrag<R>,
        /// Masses.
        mass: GivenMass<R>,
    }
}

/// What each atmosphere that needs numbers is given; all of them stand under one prefix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivenAir<R> {
    /// Exponential atmosphere of textbook cases.
    pub exponential: Exponential<R>,
    /// The day at the site.
    pub day: Day<R>,
}

impl<R: Copy> Slots<R> for GivenAir<R> {
    const COUNT: usize = Exponential::<R>::COUNT + Day::<R>::COUNT;

    fn table(prefix: &str, index: usize, fields: &mut Vec<Field>) {
        Exponential::<R>::table(prefix, index, fields);
        Day::<R>::table(prefix, index, fields);
    }

    fn write(&self, slots: &mut [R], at: &mut usize) {
        self.exponential.write(slots, at);
        self.day.write(slots, at);
    }

    fn read(slots: &[R], at: &mut usize) -> Self {
        Self {
            exponential: Exponential::read(slots, at),
            day: Day::read(slots, at),
        }
    }

    fn uniform(value: R) -> Self {
        Self {
            exponential: Exponential::uniform(value),
            day: Day::uniform(value),
        }
    }
}

slots! {
    /// The launch site.
    pub struct Site<R> {
        /// Altitude of the launch site above sea level.
        altitude: Altitude [-430.0, 6000.0], Always;
    }
}

slots! {
    /// The launch rail.
    pub struct Rail<R> {
        /// Length of rail that guides the vehicle.
        length: Length [0.1, 100.0], Rail;
        /// Angle of the rail above the horizon.
        elevation: Angle [std::f64::consts::FRAC_PI_6, std::f64::consts::FRAC_PI_2], InclinedRail;
    }
}

slots! {
    /// The propellant: nitrous oxide and fuel, or a stated mass.
    pub struct Propellant<R> {
        /// Temperature of the oxidiser when the tank is closed.
        fill_temperature: Temperature [183.0, 309.0], Tank;
        /// Vapour's share of the tank's volume at the fill temperature.
        ullage: Share [0.0, 0.99], Tank;
        /// Mass of oxidiser loaded, liquid and vapour.
        oxidiser_mass: Mass [1e-4, 100000.0], Tank;
        /// Mass of oxidiser burned over mass of fuel burned.
        oxidiser_to_fuel_ratio: Ratio [0.1, 50.0], Tank;
        /// Share of the oxidiser that is left at burnout.
        oxidiser_residual: Share [0.0, 0.9], Tank;
        /// Share of the fuel that is left at burnout.
        fuel_residual: Share [0.0, 0.9], Tank;
        /// Mass of propellant.
        mass: Mass [1e-4, 10000000.0], StatedPropellant;
        /// Share of the propellant that is left at burnout.
        residual: Share [0.0, 0.9], StatedPropellant;
    }
}

slots! {
    /// What is given about the tank's pressure.
    pub struct GivenPressure<R> {
        /// MEOP as stated by the user.
        stated: GaugePressure [1e5, 1e8], StatedPressure;
        /// Pressure at which the relief opens.
        relief_setting: GaugePressure [1e5, 1e8], Relief;
        /// Rise above the setting until the relief passes its full flow, as a share of the setting.
        relief_accumulation: Share [0.0, 1.0], Relief;
        /// Highest temperature of the closed tank on the pad.
        soak_temperature: Temperature [183.0, 350.0], Tank;
    }
}

slots! {
    /// Masses as given.
    pub struct GivenMass<R> {
        /// What-if mass added at the centre of gravity; negative takes away.
        added: Mass [-100000.0, 100000.0], Always;
    } groups {
        /// Growth allowances.
        growth: Growth<R>,
        /// Masses stated in place of computed ones.
        stated: StatedMass<R>,
        /// The user's items.
        item: [Item<R>; MAX_ITEMS],
    }
}

slots! {
    /// Masses stated in place of computed ones.
    pub struct StatedMass<R> {
        /// Mass of the tank as a what-if, growth included, in place of the computed one.
        tank: Mass [1e-3, 100000.0], StatedTankMass;
    }
}

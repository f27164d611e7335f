//! Units accepted at the border.

/// What kind of number a field holds. Gauge and absolute pressure are different quantities; stress
/// is neither.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Quantity {
    /// A pure number.
    Ratio,
    /// A share of a whole.
    Share,
    /// Length, m.
    Length,
    /// Height above a level, or another length of that order, m.
    Altitude,
    /// Area, m2.
    Area,
    /// Volume, m3.
    Volume,
    /// Mass, kg.
    Mass,
    /// Mass per volume, kg/m3.
    Density,
    /// Pressure above the ambient pressure of the site, Pa.
    GaugePressure,
    /// Pressure above vacuum, Pa.
    AbsolutePressure,
    /// Pressure difference without a basis, such as dynamic pressure, Pa.
    PressureDifference,
    /// Stress, strength or elastic modulus, Pa.
    Stress,
    /// Temperature, K.
    Temperature,
    /// Difference of two temperatures, K.
    TemperatureDifference,
    /// Angle, rad.
    Angle,
    /// Force, N.
    Force,
    /// Time, s.
    Time,
    /// Speed, m/s.
    Speed,
    /// Acceleration, m/s2.
    Acceleration,
    /// Impulse, N s.
    Impulse,
    /// Force per width, N/m.
    LineLoad,
    /// Mass per length of a tow or yarn, kg/m.
    LinearDensity,
    /// Mass moment of inertia, kg m2.
    MomentOfInertia,
    /// A long time, s.
    Duration,
    /// Strain per change of temperature, 1/K.
    ThermalExpansion,
    /// Heat per mass and change of temperature, J/(kg K).
    SpecificHeat,
    /// Heat flow per width and change of temperature, W/(m K).
    ThermalConductivity,
    /// Heat flow per area and difference of temperature, W/(m2 K).
    HeatTransfer,
}

/// A unit: its symbol, and `SI = number * factor + offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Symbol as written behind a number.
    pub symbol: &'static str,
    /// Multiplier to SI.
    pub factor: f64,
    /// Added after the multiplication.
    pub offset: f64,
}

const fn unit(symbol: &'static str, factor: f64) -> Unit {
    Unit {
        symbol,
        factor,
        offset: 0.0,
    }
}

macro_rules! units {
    ($($unit:expr),* $(,)?) => {
        const { &[$($unit),*] }
    };
}

/// Other signs for a symbol as it is listed. Degree, litre (both letters) and prefix micro: International
/// Bureau of Weights and Measures, "The International System of Units", 9th edition, 2019, tables 4, 7
/// and 8 (numbers of the tables from memory; the litre's two letters and the degree read in table 6 of the
/// 8th edition). Unicode holds micro twice, as a sign and as a Greek letter.
pub const OTHER_SIGNS: [(&str, &str); 6] = [
    ("\u{b0}C", "degC"),
    ("\u{b0}", "deg"),
    ("l", "L"),
    ("ml", "mL"),
    ("\u{b5}m", "um"),
    ("\u{3bc}m", "um"),
];

/// Exact conversions: International Bureau of Weights and Measures, "The International System of
/// Units", 9th edition, 2019 (prefixes, bar, litre, degree Celsius); inch and pound exact by the
/// international yard and pound agreement of 1959; standard gravity 9.806 65 m/s2.
const POUND: f64 = 0.45359237;
const INCH: f64 = 0.0254;
const POUND_FORCE: f64 = POUND * 9.80665;
const PSI: f64 = POUND_FORCE / (INCH * INCH);

impl Quantity {
    /// Every quantity.
    pub const ALL: &'static [Self] = &[
        Self::Ratio,
        Self::Share,
        Self::Length,
        Self::Altitude,
        Self::Area,
        Self::Volume,
        Self::Mass,
        Self::Density,
        Self::GaugePressure,
        Self::AbsolutePressure,
        Self::PressureDifference,
        Self::Stress,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Angle,
        Self::Force,
        Self::Time,
        Self::Speed,
        Self::Acceleration,
        Self::Impulse,
        Self::LineLoad,
        Self::LinearDensity,
        Self::MomentOfInertia,
        Self::Duration,
        Self::ThermalExpansion,
        Self::SpecificHeat,
        Self::ThermalConductivity,
        Self::HeatTransfer,
    ];

    /// Units accepted for this quantity; the first is the SI unit, the last the one printed.
    pub const fn units(self) -> &'static [Unit] {
        match self {
            Self::Ratio => units![unit("", 1.0), unit("%", 0.01), unit("", 1.0)],
            Self::Share => units![unit("", 1.0), unit("%", 0.01)],
            Self::Length => units![
                unit("m", 1.0),
                unit("km", 1000.0),
                unit("cm", 0.01),
                unit("um", 1e-6),
                unit("in", INCH),
                unit("ft", 12.0 * INCH),
                unit("mm", 1e-3),
            ],
            Self::Altitude => units![
                unit("m", 1.0),
                unit("km", 1000.0),
                unit("ft", 12.0 * INCH),
                unit("m", 1.0)
            ],
            Self::Area => units![unit("m2", 1.0), unit("mm2", 1e-6), unit("cm2", 1e-4)],
            Self::Volume => units![
                unit("m3", 1.0),
                unit("cm3", 1e-6),
                unit("mL", 1e-6),
                unit("L", 1e-3),
            ],
            Self::Mass => units![
                unit("kg", 1.0),
                unit("g", 1e-3),
                unit("lb", POUND),
                unit("kg", 1.0)
            ],
            Self::Density => units![
                unit("kg/m3", 1.0),
                unit("g/cm3", 1000.0),
                unit("kg/m3", 1.0)
            ],
            Self::GaugePressure => units![
                unit("Pa gauge", 1.0),
                unit("kPa gauge", 1e3),
                unit("MPa gauge", 1e6),
                unit("psi gauge", PSI),
                unit("bar gauge", 1e5),
            ],
            Self::AbsolutePressure => units![
                unit("Pa absolute", 1.0),
                unit("hPa absolute", 100.0),
                unit("kPa absolute", 1e3),
                unit("MPa absolute", 1e6),
                unit("psi absolute", PSI),
                unit("bar absolute", 1e5),
            ],
            Self::PressureDifference => units![unit("Pa", 1.0), unit("bar", 1e5), unit("kPa", 1e3)],
            Self::Stress => units![
                unit("Pa", 1.0),
                unit("GPa", 1e9),
                unit("psi", PSI),
                unit("ksi", 1e3 * PSI),
                unit("MPa", 1e6),
            ],
            Self::Temperature => units![
                unit("K", 1.0),
                Unit {
                    symbol: "degC",
                    factor: 1.0,
                    offset: 273.15,
                },
            ],
            Self::TemperatureDifference => units![unit("K", 1.0)],
            Self::Angle => units![unit("rad", 1.0), unit("deg", std::f64::consts::PI / 180.0)],
            Self::Force => units![
                unit("N", 1.0),
                unit("kN", 1e3),
                unit("lbf", POUND_FORCE),
                unit("N", 1.0)
            ],
            Self::Time => units![
                unit("s", 1.0),
                unit("ms", 1e-3),
                unit("min", 60.0),
                unit("s", 1.0)
            ],
            Self::Speed => units![
                unit("m/s", 1.0),
                unit("ft/s", 12.0 * INCH),
                unit("m/s", 1.0)
            ],
            Self::Acceleration => units![unit("m/s2", 1.0)],
            Self::Impulse => units![unit("N s", 1.0), unit("kN s", 1e3)],
            Self::LineLoad => units![unit("N/m", 1.0), unit("N/mm", 1e3)],
            // 1 tex is 1 g/km: ISO 1144, "Textiles - Universal system for designating linear density".
            Self::LinearDensity => units![unit("kg/m", 1.0), unit("g/m", 1e-3), unit("tex", 1e-6)],
            Self::MomentOfInertia => units![
                unit("kg m2", 1.0),
                unit("kg cm2", 1e-4),
                unit("g cm2", 1e-7),
                unit("lb in2", POUND * INCH * INCH),
                unit("kg m2", 1.0),
            ],
            Self::Duration => units![unit("s", 1.0), unit("d", 86_400.0), unit("h", 3600.0)],
            _ => self.units_of_heat(),
        }
    }

    const fn units_of_heat(self) -> &'static [Unit] {
        match self {
            // A text's unit begins with a letter, so that a number by itself can be told from it.
            Self::ThermalExpansion => units![unit("m/(m K)", 1.0), unit("um/(m K)", 1e-6)],
            Self::SpecificHeat => units![unit("J/(kg K)", 1.0)],
            Self::ThermalConductivity => units![unit("W/(m K)", 1.0)],
            Self::HeatTransfer => units![unit("W/(m2 K)", 1.0)],
            _ => units![],
        }
    }

    /// The unit of a symbol, or of another sign that the SI has for it.
    pub fn unit(self, symbol: &str) -> Option<Unit> {
        let listed = OTHER_SIGNS.iter().find(|(other, _)| *other == symbol);
        let symbol = listed.map_or(symbol, |(_, listed)| *listed);
        let mut units = self.units().iter();
        units.find(|unit| unit.symbol == symbol).copied()
    }

    /// The SI unit's symbol.
    pub const fn si(self) -> &'static str {
        self.units()[0].symbol
    }

    /// The unit results are printed in.
    pub fn printed(self) -> Unit {
        self.units()[self.units().len() - 1]
    }

    /// The quantity in words with its article: "an angle".
    pub fn with_article(self) -> String {
        let name = self.name();
        let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) {
            "an"
        } else {
            "a"
        };
        format!("{article} {name}")
    }

    /// The quantity in words, for messages.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ratio => "number",
            Self::Share => "share",
            Self::Length => "length",
            Self::Altitude => "altitude",
            Self::Area => "area",
            Self::Volume => "volume",
            Self::Mass => "mass",
            Self::Density => "density",
            Self::GaugePressure => "gauge pressure",
            Self::AbsolutePressure => "absolute pressure",
            Self::PressureDifference => "pressure difference",
            Self::Stress => "stress",
            Self::Temperature => "temperature",
            Self::TemperatureDifference => "temperature difference",
            Self::Angle => "angle",
            Self::Force => "force",
            Self::Time => "time",
            Self::Speed => "speed",
            Self::Acceleration => "acceleration",
            Self::Impulse => "impulse",
            Self::LineLoad => "line load",
            Self::LinearDensity => "linear density",
            Self::MomentOfInertia => "moment of inertia",
            Self::Duration => "duration",
            Self::ThermalExpansion => "thermal expansion",
            Self::SpecificHeat => "specific heat",
            Self::ThermalConductivity => "thermal conductivity",
            Self::HeatTransfer => "heat transfer coefficient",
        }
    }
}

//! The lines of the mass statement, each from what it is made of.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::mass::{Group, Line, Spread};
use crate::quantity::Quantity as Q;

/// A line as written: symbol of its basic mass, of its growth allowance if it has one, its station, and
/// how it spreads about that.
pub(super) struct Written {
    pub mass: String,
    pub growth: Option<String>,
    pub name: String,
    pub station: f64,
    pub spread: Spread<f64>,
}

impl Written {
    /// Formula of its predicted mass.
    pub(super) fn predicted(&self) -> String {
        match &self.growth {
            Some(growth) => format!("{} * (1 + {growth})", self.mass),
            None => self.mass.clone(),
        }
    }
}

impl Sheet<'_> {
    /// Every line without propellant.
    pub(super) fn lines(&mut self) -> Vec<Written> {
        let mut item = 0;
        let lines = self.settled.vehicle.statement.lines().to_vec();
        let mut written = Vec::with_capacity(lines.len());
        for line in &lines {
            let mut name = line.name.to_owned();
            let (mass, growth) = match line.group {
                Group::Tank => self.tank_line(line),
                Group::Airframe => (self.airframe_line(line), Some("airframe")),
                Group::Motor => {
                    self.input("motor_mass", "motor.mass");
                    ("motor_mass".to_owned(), Some("motor"))
                }
                Group::Item | Group::Propellant => {
                    let (mass, growth) = (format!("item_{item}"), format!("item_{item}_growth"));
                    self.input(&mass, &format!("mass.item[{item}].mass"));
                    self.input(&growth, &format!("mass.item[{item}].growth_allowance"));
                    name = self
                        .stage
                        .labels()
                        .items
                        .get(item)
                        .cloned()
                        .unwrap_or_default();
                    item += 1;
                    written.push(Written {
                        mass,
                        growth: Some(growth),
                        name,
                        station: line.station,
                        spread: line.spread,
                    });
                    continue;
                }
            };
            let growth = growth.map(|part| {
                let symbol = format!("{part}_growth");
                self.input(&symbol, &format!("mass.growth.{part}"));
                symbol
            });
            written.push(Written {
                mass,
                growth,
                name,
                station: line.station,
                spread: line.spread,
            });
        }
        written
    }

    fn tank_line(&mut self, line: &Line<f64>) -> (String, Option<&'static str>) {
        let symbol = match line.name {
            "tank, stated" => {
                self.input("stated_tank_mass", "mass.stated.tank");
                return ("stated_tank_mass".to_owned(), None);
            }
            "fore closure" | "aft closure" => {
                let side = line.name.split(' ').next().unwrap_or_default();
                match self.tank() {
                    Some((form, _)) => self.closure_mass(&form, side),
                    None => String::new(),
                }
            }
            "fore bolts" | "aft bolts" => {
                self.bolt_mass(line.name.split(' ').next().unwrap_or_default())
            }
            "tank fittings" => {
                self.input("fittings_mass", "tank.fittings_mass");
                "fittings_mass".to_owned()
            }
            part => {
                let symbol = match part {
                    "overwrap fibre" => "fibre_mass",
                    "overwrap resin" => "resin_mass",
                    _ => "liner_mass",
                };
                self.result(symbol, &format!("tank.{symbol}"));
                symbol.to_owned()
            }
        };
        (symbol, Some("tank"))
    }

    fn airframe_line(&mut self, line: &Line<f64>) -> String {
        if line.name == "fins" {
            self.fin();
            self.input("fin_thickness", "fins.thickness");
            self.input("fin_density", "fins.density");
            self.step(
                "fins_mass",
                "fin_count * fin_area * fin_thickness * fin_density",
                Q::Mass,
                "basic mass of all fins",
                GEOMETRY,
            );
            self.as_computed(line.basic);
            return "fins_mass".to_owned();
        }
        self.body_diameter();
        self.input("skin_thickness", "skin.thickness");
        self.input("skin_density", "skin.density");
        self.step(
            "girth",
            "pi * (body_diameter - skin_thickness)",
            Q::Length,
            "circumference of the skin at mid-thickness",
            GEOMETRY,
        );
        let (symbol, area) = match line.name {
            "nose skin" => {
                self.nose_area();
                ("nose_skin_mass", "nose_area")
            }
            "payload bay skin" => {
                self.bays();
                ("payload_skin_mass", "girth * payload_length")
            }
            "recovery bay skin" => {
                self.bays();
                ("recovery_skin_mass", "girth * recovery_length")
            }
            "skin over the tank" => {
                self.result("tank_length", "geometry.tank_length");
                ("tank_skin_mass", "girth * tank_length")
            }
            _ if line.basic == 0.0 => ("motor_skin_mass", "0"),
            _ => {
                self.input("motor_length", "motor.length");
                ("motor_skin_mass", "girth * motor_length")
            }
        };
        self.step(
            symbol,
            format!("{area} * skin_thickness * skin_density"),
            Q::Mass,
            &format!("basic mass of the {}", line.name),
            GEOMETRY,
        );
        self.as_computed(line.basic);
        symbol.to_owned()
    }

    /// First moment of a list of predicted masses, by symbol of the mass and station.
    pub(super) fn moment(&mut self, symbol: &str, doc: &str, lines: &[Written]) {
        let parts: Vec<String> = lines
            .iter()
            .enumerate()
            .map(|(place, line)| {
                let station = format!("{symbol}_station_{place}");
                let what = format!("station of {}, from the nose tip", line.name);
                self.term(
                    &station,
                    Q::Length,
                    &what,
                    "line of the mass statement",
                    line.station,
                );
                format!("{} * {station}", line.predicted())
            })
            .collect();
        self.step(
            symbol,
            parts.join(" + "),
            super::Unit::Si("kg m"),
            doc,
            DEFINITION,
        );
    }
}

//! What is stated about service. Each table is asked for whole when any of it is given.

use crate::quantity::slots;

/// A matter of service, judged where its table is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ServiceMatter {
    /// Cool-down after cure.
    CoolDown,
    /// Cold liner under a warm wrap.
    DrawOff,
    /// Proof test at another temperature.
    ProofTest,
    /// The wrap on the pad and in flight.
    HotWall,
    /// Pressure cycles.
    Cycles,
    /// Time under pressure.
    Hold,
    /// Damage to the wrap.
    Damage,
}

/// Tables of the matters, in their order.
const TABLES: [&str; 7] = [
    "cool_down",
    "draw_off",
    "proof_test",
    "hot_wall",
    "cycles",
    "hold",
    "damage",
];

/// Which matters of service are given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct ServiceForm([bool; TABLES.len()]);

impl ServiceForm {
    /// Those whose table is given.
    pub fn of(is_given: impl Fn(&str) -> bool) -> Self {
        Self(TABLES.map(|table| is_given(&format!("tank.service.{table}"))))
    }

    /// Those of either.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        Self(std::array::from_fn(|matter| {
            self.0[matter] || other.0[matter]
        }))
    }

    /// Whether a matter is given.
    pub fn judges(self, matter: ServiceMatter) -> bool {
        self.0[matter as usize]
    }
}

slots! {
    /// What service asks of the tank.
    pub struct Service<R> {
        /// Temperature at which liner and wrap are free of thermal stress: that at which the resin sets.
        stress_free_temperature: Temperature [200.0, 700.0], ThermalStrain;
    } groups {
        /// Cool-down after cure.
        cool_down: CoolDown<R>,
        /// The end of the draw-off.
        draw_off: DrawOff<R>,
        /// Proof test.
        proof_test: ProofTest<R>,
        /// The wrap on the pad and in flight.
        hot_wall: HotWall<R>,
        /// Pressure cycles.
        cycles: Cycles<R>,
        /// Time under pressure.
        hold: Hold<R>,
        /// Damage to the wrap.
        damage: Damage<R>,
    }
}

slots! {
    /// The tank cooled down after its wrap has set.
    pub struct CoolDown<R> {
        /// Temperature of the whole tank at which it is judged: that of the proof test, or the coldest it is kept at.
        temperature: Temperature [100.0, 500.0], CoolDown;
    }
}

slots! {
    /// The tank at the end of the draw-off, its liner cold from boiling oxidiser.
    pub struct DrawOff<R> {
        /// Temperature of the liner: that of the coldest liquid in it, at whose saturation pressure the tank then stands.
        liner_temperature: Temperature [183.0, 309.0], DrawOff;
        /// Temperature of the wrap at that time: that of the fill where nothing has warmed or cooled it.
        wrap_temperature: Temperature [183.0, 400.0], DrawOff;
    }
}

slots! {
    /// The proof test as it is planned.
    pub struct ProofTest<R> {
        /// Pressure that the test is planned at.
        planned_pressure: GaugePressure [1e5, 1e9], ProofTest;
        /// Strength at the temperature of the test over strength at the hottest temperature of service, the lowest of
        /// metal, weld and wrap; one where service is no hotter.
        strength_ratio: Ratio [1.0, 20.0], ProofTest;
    }
}

slots! {
    /// The wrap on the pad and in flight.
    pub struct HotWall<R> {
        /// Temperature of the wrap at ignition: of its surface in the sun, or out of a heated tent.
        pad_temperature: Temperature [230.0, 450.0], HotWall;
        /// Glass transition temperature of the resin as it is in service, wet where it may be wet.
        glass_transition_temperature: Temperature [250.0, 700.0], HotWall;
        /// Specific heat of the laminate.
        specific_heat: SpecificHeat [200.0, 4000.0], HotWall;
        /// Thermal conductivity of the laminate through its thickness.
        thermal_conductivity: ThermalConductivity [0.05, 50.0], HotWall;
        /// Length of surface that the air has passed where the wrap is judged: from the nose tip to the wrap's fore end.
        running_length: Length [0.01, 50.0], HotWall;
    }
}

slots! {
    /// Pressure cycles of the metal.
    pub struct Cycles<R> {
        /// Cycles from no pressure to MEOP that the tank is to see, tests and fills without flight counted.
        pressure_cycles: Ratio [1.0, 1e6], Cycles;
        /// Factor by which the life computed has to be longer than the cycles; four in ANSI/AIAA S-081 for cracks.
        life_factor: Ratio [1.0, 100.0], Cycles;
        /// Reduction of area at fracture in the tensile test, of the weld where a weld flows.
        reduction_of_area: Share [0.01, 0.95], Cycles;
    }
}

slots! {
    /// Time of the fibre under pressure.
    pub struct Hold<R> {
        /// Time at MEOP that the tank is to see in all.
        time_at_meop: Duration [0.0, 3e9], Hold;
        /// Factor by which the time that the allowance is stated for has to be longer.
        life_factor: Ratio [1.0, 100.0], Hold;
        /// Time under load that the document of the stress ratio states it for.
        rated_time: Duration [1.0, 3e9], Hold;
        /// Least stress ratio for this fibre, stress at burst over stress at MEOP, by the document you follow.
        stress_ratio: Ratio [1.0, 20.0], Hold;
    }
}

slots! {
    /// Damage to the wrap.
    pub struct Damage<R> {
        /// Share of the burst pressure that the worst damage takes which your inspection may miss, from impact tests
        /// on such a wrap.
        knock_down: Share [0.0, 0.95], Damage;
    }
}

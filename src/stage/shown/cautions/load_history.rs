//! What the load history tells of the wall: what flows in the proof test, whether autofrettage and wrap do their
//! part, what breaks first.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Pressures;
use crate::stage::given::Stage;
use crate::stage::shown::load_history::{LoadRow, StageLoads, ending_text, zone_name};
use crate::vessel::{Begins, Ending, Seam, WallChoice};

/// Share of the hoop load that the wrap carries at MEOP below which it is taken to idle (own limit).
const IDLE: f64 = 1.0 / 3.0;
/// Part of the buckling stress of a tight, round liner above which it is told (own limit: what dents and a gap take
/// may be half).
const NEAR_BUCKLING: f64 = 0.5;

/// What the wall goes through, of a stage without a fault.
pub(super) fn load_history(stage: &Stage, pressures: &Pressures<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let Ok(loads) = stage.load_history(WallChoice::Minimum) else {
        return;
    };
    let seen = Seen {
        loads: &loads,
        pressures,
        autofrettage: stage.point().tank.autofrettage_pressure,
        judged: side.tank.judges_girth_zone(),
    };
    for seam in Seam::ALL {
        cautions.extend(seen.zone(seam));
    }
    cautions.extend(seen.proof());
    cautions.extend(seen.autofrettage());
    cautions.extend(seen.reverse_flow());
    if side.tank.plies > 0 {
        cautions.extend(seen.idle_wrap());
        cautions.extend(seen.pressed_liner());
        cautions.extend(seen.crack());
    }
    cautions.extend(seen.burst(stage.point().tank.liner.plastic_modulus));
}

struct Seen<'a> {
    loads: &'a StageLoads,
    pressures: &'a Pressures<f64>,
    /// Autofrettage pressure; zero without.
    autofrettage: f64,
    /// Whether the girth zone's strain has a margin.
    judged: bool,
}

fn bar(pressure: f64) -> String {
    show((pressure / 1e4).round() * 1e4, Quantity::GaugePressure)
}

/// In per cent, rounded up: what has flowed is never told as less.
fn percent(share: f64) -> String {
    format!("{:.2} %", (share * 1e4).ceil() / 100.0)
}

impl Seen<'_> {
    /// What begins in a change of pressure.
    fn begins(&self, name: &str) -> Begins {
        let changes = self.loads.changes.iter().zip(&self.loads.history.begins);
        let mut found = changes.filter(|(change, _)| **change == name);
        found
            .next()
            .map_or_else(Begins::default, |(_, begins)| *begins)
    }

    /// The last row of a change of pressure, if it is reached.
    fn after(&self, name: &str) -> Option<&LoadRow<f64>> {
        let change = self
            .loads
            .changes
            .iter()
            .rposition(|change| *change == name)?;
        let held = self.loads.history.held.iter();
        let row = held.rev().position(|held| held.change == change)?;
        self.loads.rows.iter().rev().nth(row)
    }

    /// A weld zone that flows before or in the proof test.
    fn zone(&self, seam: Seam) -> Option<String> {
        let flow = |name| self.begins(name).zone_flow[seam as usize];
        let from = flow("autofrettage").or(flow("proof"))?;
        let row = self.after("proof")?;
        let flowed = match seam {
            Seam::Girth => row.girth_zone_plastic_strain,
            Seam::Longitudinal => row.longitudinal_zone_plastic_strain,
        };
        let service = if from < self.pressures.meop {
            ", below MEOP"
        } else {
            ""
        };
        let when = if self.autofrettage > 0.0 {
            "autofrettage and the proof test"
        } else {
            "the proof test"
        };
        Some(format!(
            "{} flows from {} on{service}: it shares the strain of the wall beside it, and after {when} it \
             has {} of plastic strain, which the margin across the seam does not show; {}",
            zone_name(seam),
            bar(from),
            percent(flowed),
            if seam == Seam::Girth && !self.judged {
                "give tank.liner.girth_seam.allowable_strain, what your weld bears, for a margin of it at burst \
                 pressure"
            } else {
                "compare it with what your weld bears"
            },
        ))
    }

    /// A liner that flows in a proof test without autofrettage, or again after it.
    fn proof(&self) -> Option<String> {
        let from = self.begins("proof").liner_flow?;
        let grown = percent(self.after("unloading")?.volume_growth.max(0.0));
        Some(if self.autofrettage > 0.0 {
            format!(
                "the liner flows again in the proof test, from {} on: autofrettage at {} lies below the proof \
                 pressure",
                bar(from),
                bar(self.autofrettage)
            )
        } else {
            format!(
                "the liner flows in the proof test, from {} on, and there is no autofrettage: the test leaves \
                 the cylinder's volume {grown} larger, and a check of permanent growth will show it",
                bar(from)
            )
        })
    }

    /// An autofrettage that does nothing.
    fn autofrettage(&self) -> Option<String> {
        let reached = self.begins("autofrettage").liner_flow.is_some();
        (self.autofrettage > 0.0 && !reached).then(|| {
            format!(
                "autofrettage at {} does nothing to the liner, which {}",
                bar(self.autofrettage),
                self.flows_later()
            )
        })
    }

    /// When an elastic liner flows on the way to burst.
    fn flows_later(&self) -> String {
        let flow = self.begins("to burst").liner_flow;
        flow.map_or_else(
            || "does not flow before the tank breaks".to_owned(),
            |flow| format!("flows from {} on", bar(flow)),
        )
    }

    /// A liner that flows backwards under its wrap when it is emptied.
    fn reverse_flow(&self) -> Option<String> {
        let from = self.begins("unloading").liner_flow?;
        Some(format!(
            "emptied, the liner flows backwards under its wrap, from {} down: it flows again below the pressure it has \
             seen, in every cycle, and the margins of its yield do not tell",
            bar(from)
        ))
    }

    /// A wrap that the liner leaves idle.
    fn idle_wrap(&self) -> Option<String> {
        let row = self.after("MEOP")?;
        let wrap = 1.0 - row.liner_hoop_share;
        (wrap < IDLE).then(|| {
            format!(
                "at MEOP the wrap carries {:.0} % of the hoop load and its fibres bear {:.0} % of what they \
                 break at: it idles behind the liner, which {} (own limit: a third)",
                (100.0 * wrap).max(0.0),
                (100.0 * row.fibre_utilisation).ceil(),
                self.flows_later()
            )
        })
    }

    /// A liner that its wrap presses hard when the tank is empty.
    fn pressed_liner(&self) -> Option<String> {
        let empty = self.loads.rows.iter().zip(&self.loads.history.held);
        let pressed = empty.map(|(row, _)| row.liner_buckling).fold(0.0, f64::max);
        (pressed > NEAR_BUCKLING).then(|| {
            format!(
                "without pressure the wrap presses the liner to {pressed:.1} times the stress at which a tightly \
                 fitting, round liner buckles inwards; dents, ovality and a liner that has come off its wrap \
                 lower it (own limit: {NEAR_BUCKLING})"
            )
        })
    }

    /// Resin that cracks in service or in proof.
    fn crack(&self) -> Option<String> {
        let names = ["autofrettage", "proof", "MEOP"];
        let cracks = names
            .into_iter()
            .find_map(|name| self.begins(name).first_crack)?;
        Some(format!(
            "the resin of a ply cracks along its fibres from {} on: no burst, but a way in for water and a loss \
             of stiffness that is not followed (strains of cure and cold, which bring it on earlier, are not \
             in it)",
            bar(cracks)
        ))
    }

    /// A tank that breaks below the burst pressure required.
    fn burst(&self, plastic_modulus: f64) -> Option<String> {
        let (ending, pressure) = self.loads.history.ending;
        let short = ending != Ending::Holds && pressure < self.pressures.burst;
        let flows = matches!(ending, Ending::Collapse | Ending::Zone(_));
        let metal = if flows && plastic_modulus <= 0.0 {
            " (a metal that does not harden; give tank.liner.plastic_modulus if yours does)"
        } else {
            ""
        };
        let change = self.loads.changes[self.loads.history.begins.len().saturating_sub(1)];
        let when = match change {
            "to burst" => String::new(),
            name => format!("in its {name} already, "),
        };
        short.then(|| {
            format!(
                "followed through its pressures, {when}{} at {}, below the required {}{metal}",
                ending_text(ending),
                bar(pressure),
                bar(self.pressures.burst),
            )
        })
    }
}

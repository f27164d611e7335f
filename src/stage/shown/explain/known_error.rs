//! What each model leaves out, in a sentence of the model table.

use crate::stage::chain::form::Form;

const SEAMS: (&str, &str) = (
    "Seams",
    "Edge bending is the junctions'; yield of the weld zone in hoop, held by its neighbours, is a caution \
     and not a margin. The stress across a seam is that of liner and wrap: resin and thermal strain \
     neglected.",
);
const WALL: (&str, &str) = (
    "Liner and wrap, elastic",
    "Exact when bare; under a wrap up to 0.4 % low at a wall of 3 % of the radius, 1.5 % at 10 %; resin \
     neglected; thermal strain not included; bending at the closures has margins of its own.",
);
const CLOSURES: (&str, &str) = (
    "Closures",
    "Bending at the junctions has margins of its own; a hemisphere's bore yields earlier than the thin formula says, by about \
     1.5 t/R; an isotensoid's stress is its membrane's, 10 to 27 % high beside the cap, where the wall evens it out; wrap over a \
     dome not credited.",
);
const JUNCTIONS: (&str, &str) = (
    "Junctions of cylinder and closure",
    "Thin shells, sharp edges: against solid finite elements off by about the thickness over the radius, \
     elsewhere than within a thickness of a step or corner; the wrap over a dome, fillets, lands and tapers \
     not counted; the head of the liquid at the aft end not counted.",
);
const BOLTS: (&str, &str) = (
    "Bolted bulkhead",
    "Every bolt carries the same share times the fitting factor; no friction, no bending of bolts or wall by the \
     offset of their load, no stress raised at holes, nothing of the rim's own holes and threads; the seal's gap takes \
     the wall's whole elastic growth and none of the bulkhead's, nor a gap under the wrap.",
);
const BURST: (&str, &str) = (
    "Burst",
    "Low in the liner's hardening, high in that all plies break together (5 % in one incremental \
     comparison); the translation efficiency is your input and the largest unknown.",
);
const BARE_BURST: (&str, &str) = (
    "Burst of bare metal",
    "The lowest of five published estimates to a hardening exponent of about 0.12; for annealed stainless \
     one of them is 10 to 20 % lower.",
);
const FITTINGS: (&str, &str) = (
    "Fittings",
    "Pads stiff in bending, friction alone under the wrap, no cool-down unless it is given, glue elastic and one-dimensional in each direction; \
     bending of the wall, eccentric peel, bearing, preload and what an edge takes from the fibre are not in it.",
);
const LOADS: (&str, &str) = (
    "Loads in flight",
    "Quasi-steady: no ignition transient, water hammer, slosh or recovery load; contents as at ignition \
     under the largest acceleration, and all drag taken ahead of the aft end, both too high.",
);
const FLUID: (&str, &str) = (
    "Nitrous oxide",
    "The equation of state itself: about 0.1 % in density and 0.2 % in vapour pressure (from memory); pure, \
     evenly warm nitrous oxide in a rigid tank.",
);
const STATED: (&str, &str) = (
    "",
    "Nothing is computed: the number is as good as its reason or the relief's certificate; transients are \
     not in it.",
);
const FIBRE: (&str, &str) = (
    "Winding on domes",
    "Exact on a hemisphere; on an ellipsoid 1 % too much fibre at 10 degrees, 3 % at 20, 8 % at 30; exact \
     on an isotensoid for a ply that turns at the closure's own turning radius.",
);
const GROWTH: (&str, &str) = (
    "Growth allowance",
    "The allowances are yours, or a document's upper limits; what is not listed is not in the sum.",
);
const ROOT_SUM_SQUARE: (&str, &str) = (
    "Growth allowance",
    "Assumes that the lines grow independently of each other and that an allowance is scatter. It is \
     growth to be expected, and lines of one class grow together: the sum counts in flight, this is less \
     than what a review should keep.",
);
const INERTIA: (&str, &str) = (
    "Moments of inertia",
    "Each line as a simple shape at its station, items and fittings as points on the axis; the motor as a \
     shell of its case, fuel without its port, the wrap along the cylinder alone. Liquid turns and pitches \
     as if it were rigid, which is the most it can add: in roll it mostly stays behind.",
);
const DRAG: (&str, &str) = (
    "Friction, Nose, Base drag, Fins",
    "Base drag about 25 %, friction 4 % low at Mach 2; blunt fin edges and interference are not included, \
     which understates drag by 0.03 to 0.1 of the coefficient, most near Mach 1.",
);
const ZONE: (&str, &str) = (
    "Strain of the weld zone",
    "Loaded once from rest: within 6 % of the largest strain against the steps of the load history, without \
     what autofrettage leaves; membrane of the cylinder, no bending; the metal's hardening is yours to give.",
);
const TABLE: (&str, &str) = (
    "",
    "The table's error is its author's; it does not tell power on from power off.",
);
const STABILITY: (&str, &str) = (
    "Fins",
    "Low speed and small angles only; body lift is not included, which moves the centre of pressure forward \
     on slender bodies.",
);
const ASCENT: (&str, &str) = (
    "Ascent",
    "No wind, no lift, no rail friction; one flown rocket reached 9 to 14 % less than predicted. The bands of \
     the assessment say what the drag models' errors mean for the apogee.",
);
const ESTIMATE: (&str, &str) = (
    "Closed-form estimate",
    "Constant drag at mean mass; on the examples speed 3 % low, altitude 5 % high; from a rail at 60 degrees \
     37 % high.",
);
const AIR: (&str, &str) = (
    "Atmosphere",
    "The model of the atmosphere chosen, not the weather of the day, unless that is given.",
);
const EXACT: (&str, &str) = (
    "",
    "Geometry or a definition: exact for the inputs, bosses and bores left out.",
);

/// Row of the model table (empty if the README has none), and what the result leaves out.
pub(super) fn of(path: &str, form: &Form) -> (&'static str, &'static str) {
    let (group, leaf) = path.split_once('.').unwrap_or((path, ""));
    let tank = form.tank.as_ref();
    match group {
        "margins" if leaf.starts_with("fitting") => FITTINGS,
        "margins" if super::bolts::is_of_row(leaf) => BOLTS,
        "margins" if leaf.contains("junction") => JUNCTIONS,
        "margins" if leaf.contains("closure") => CLOSURES,
        "margins" if leaf.contains("zone") => ZONE,
        "margins" if leaf.contains("seam") => SEAMS,
        "margins" if leaf.contains("burst") => {
            let fibre = if leaf == "hoop_burst" {
                tank.is_some_and(|side| side.tank.plies > 0)
            } else {
                tank.is_some_and(|side| side.tank.has_helical())
            };
            if fibre { BURST } else { BARE_BURST }
        }
        "margins" => WALL,
        "pressures" => match leaf {
            "site" => AIR,
            "fill" | "meop_closed" => FLUID,
            "meop_stated" | "meop_vented" => STATED,
            _ if tank.is_some_and(|side| {
                side.basis == crate::stage::chain::form::PressureBasis::Closed
            }) =>
            {
                FLUID
            }
            _ => STATED,
        },
        "load" if tank.is_some() => FLUID,
        "tank" if leaf.contains("share") => WALL,
        "tank"
            if matches!(leaf, "mass" | "fibre_mass" | "resin_mass")
                && tank.is_some_and(|side| side.tank.plies > 0) =>
        {
            FIBRE
        }
        "mass" if leaf.ends_with("inertia") => INERTIA,
        "mass" if leaf == "growth_root_sum_square" => ROOT_SUM_SQUARE,
        "mass" => GROWTH,
        "drag" if form.body().is_none() => TABLE,
        "drag" => DRAG,
        "airframe" if leaf.contains("static_margin") || leaf == "centre_of_pressure" => STABILITY,
        "geometry" if leaf.starts_with("fin_") => STABILITY,
        "ascent" => ASCENT,
        "estimate" => ESTIMATE,
        "flight_loads" => LOADS,
        _ => EXACT,
    }
}

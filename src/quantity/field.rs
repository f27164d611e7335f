//! The table behind every number of the chain. One declaration yields the struct a room computes
//! with and the entry {path, quantity, limits, when it applies, meaning}: the dotted path is the key
//! in files, the column header and the lane slot.

use super::unit::Quantity;
use serde_json::{Value, json};

/// When an entry exists at all. A vehicle without a nitrous tank has no entries for one, instead of
/// zeros.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Applies {
    /// Every stage has it.
    Always,
    /// Stages with a nitrous tank.
    Tank,
    /// Stages whose propellant is a stated mass.
    StatedPropellant,
    /// A stated MEOP is given.
    StatedPressure,
    /// A relief setting is given.
    Relief,
    /// The required burst pressure is counted on MEOP.
    BurstFactor,
    /// The required burst pressure is counted on the proof pressure.
    BurstRatio,
    /// The girth seam's basis takes a joint efficiency.
    GirthEfficiency,
    /// The longitudinal seam's basis takes a joint efficiency.
    LongitudinalEfficiency,
    /// A seam's basis takes the weld zone's strength.
    WeldZone,
    /// The liner has a girth seam.
    GirthSeam,
    /// The liner has a longitudinal seam.
    LongitudinalSeam,
    /// The tank is overwrapped.
    Overwrap,
    /// The closure of that index, fore or aft, is a torisphere.
    Torisphere,
    /// The closure of that index, fore or aft, is an isotensoid.
    Isotensoid,
    /// The closure of that index, fore or aft, is held by bolts.
    BoltedClosure,
    /// Bolts hold the fore closure.
    ForeBolts,
    /// Bolts hold the aft closure.
    AftBolts,
    /// Something else than bolts joins the fore closure to the cylinder.
    ForeJunction,
    /// Something else than bolts joins the aft closure to the cylinder.
    AftJunction,
    /// The ply of that index exists.
    Ply,
    /// The winding of an overwrap is given.
    Winding,
    /// The winding of an overwrap with a helical ply is given.
    HelicalWinding,
    /// Thermal strain between liner and wrap is judged: after cure or in the draw-off.
    ThermalStrain,
    /// The cool-down after cure is judged.
    CoolDown,
    /// A cold liner under a warm wrap is judged.
    DrawOff,
    /// A proof test at another temperature than service is judged.
    ProofTest,
    /// The wrap's temperature on the pad and in flight is judged.
    HotWall,
    /// Pressure cycles are judged.
    Cycles,
    /// Time under pressure is judged.
    Hold,
    /// Damage to the wrap is judged.
    Damage,
    /// The body is drawn from its parts.
    Body,
    /// The skin passes over the tank.
    SkinOverTank,
    /// The drag is a stated table on a stated diameter.
    StatedDrag,
    /// Fins are drawn.
    Fins,
    /// The thrust is given against a stand pressure.
    StandPressure,
    /// The launcher has a rail.
    Rail,
    /// The rail stands at an elevation.
    InclinedRail,
    /// The atmosphere is the standard one on a day read at the site.
    OffStandardDay,
    /// The atmosphere is exponential.
    ExponentialAtmosphere,
    /// The girth seam's weld zone has a strain that it bears.
    GirthAllowance,
    /// The tank has attachment fittings.
    Fittings,
    /// The tank has a fitting that the wrap holds.
    WoundInFittings,
    /// The tank has a fitting that glue holds.
    BondedFittings,
    /// The fitting of that index exists.
    Fitting,
    /// The fitting of that index is held by the wrap.
    WoundInFitting,
    /// The fitting of that index is held by glue.
    BondedFitting,
    /// The tank's mass is stated as a what-if.
    StatedTankMass,
    /// The mass item of that index exists.
    Item,
    /// An item is placed by a station of its own.
    Station,
}

impl Applies {
    /// What a stage must have for it, for messages.
    pub const fn needs(self) -> &'static str {
        match self {
            Self::Always => "nothing else",
            Self::Tank => "a [tank]",
            Self::StatedPropellant => "no [tank], but a stated mass of propellant",
            Self::StatedPressure => "pressure.stated",
            Self::Relief => "pressure.relief_setting",
            Self::BurstFactor => {
                "a [tank] whose burst pressure is not counted by rule_set.burst_ratio"
            }
            Self::BurstRatio => "a [tank] whose burst pressure is counted by rule_set.burst_ratio",
            Self::GirthEfficiency => "tank.liner.girth_seam.basis = \"joint_efficiency\"",
            Self::LongitudinalEfficiency => {
                "tank.liner.longitudinal_seam.basis = \"joint_efficiency\""
            }
            Self::WeldZone => "a seam with basis = \"weld_zone_strength\"",
            Self::GirthSeam => "a girth seam, whose basis is not \"none\"",
            Self::LongitudinalSeam => "a longitudinal seam, whose basis is not \"none\"",
            Self::Overwrap => "a ply as [[tank.overwrap.ply]]",
            Self::Torisphere => "a closure there of kind = \"torisphere\"",
            Self::Isotensoid => "a closure there of kind = \"isotensoid\"",
            Self::BoltedClosure => "a closure there of kind = \"flat_bolted\"",
            Self::ForeBolts => "tank.fore_closure.kind = \"flat_bolted\"",
            Self::AftBolts => "tank.aft_closure.kind = \"flat_bolted\"",
            Self::ForeJunction => "a fore closure that no bolts hold",
            Self::AftJunction => "an aft closure that no bolts hold",
            Self::Ply => "that ply as [[tank.overwrap.ply]]",
            Self::Winding => "a ply as [[tank.overwrap.ply]], and a [tank.overwrap.winding]",
            Self::HelicalWinding => "a helical ply, and a [tank.overwrap.winding]",
            Self::ThermalStrain => {
                "a ply as [[tank.overwrap.ply]], and a [tank.service.cool_down] or \
                 [tank.service.draw_off]"
            }
            Self::CoolDown => "a ply as [[tank.overwrap.ply]], and a [tank.service.cool_down]",
            Self::DrawOff => "a ply as [[tank.overwrap.ply]], and a [tank.service.draw_off]",
            Self::ProofTest => "a [tank.service.proof_test]",
            Self::HotWall => "a ply as [[tank.overwrap.ply]], and a [tank.service.hot_wall]",
            Self::Cycles => "a [tank.service.cycles]",
            Self::Hold => "a ply as [[tank.overwrap.ply]], and a [tank.service.hold]",
            Self::Damage => "a ply as [[tank.overwrap.ply]], and a [tank.service.damage]",
            Self::Body => "a drawn body: [nose], bays, [skin] and [fins]",
            Self::SkinOverTank => "follow.skin = \"skin_over_tank\"",
            Self::StatedDrag => "a stated drag: drag.table and drag.reference_diameter",
            Self::Fins => "fins: fins.count of 3 or 4",
            Self::StandPressure => "motor.thrust_basis = \"stand_pressure\"",
            Self::Rail => "a [rail] with its direction",
            Self::InclinedRail => "rail.direction = \"inclined\"",
            Self::OffStandardDay => "atmosphere.model = \"off_standard_day\"",
            Self::ExponentialAtmosphere => "atmosphere.model = \"exponential\"",
            Self::GirthAllowance => "tank.liner.girth_seam.allowable_strain",
            Self::Fittings => "a fitting as [[tank.fitting]]",
            Self::WoundInFittings => "a [[tank.fitting]] of kind = \"wound_in\"",
            Self::BondedFittings => "a [[tank.fitting]] of kind = \"bonded\"",
            Self::Fitting => "that fitting as [[tank.fitting]]",
            Self::WoundInFitting => "kind = \"wound_in\" for that fitting",
            Self::BondedFitting => "kind = \"bonded\" for that fitting",
            Self::StatedTankMass => "mass.stated.tank",
            Self::Item => "that item as [[mass.item]]",
            Self::Station => "place = \"station\" for that item",
        }
    }
}

/// One entry of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Dotted path.
    pub path: String,
    /// Kind of number.
    pub quantity: Quantity,
    /// Smallest value allowed, SI.
    pub lower: f64,
    /// Largest value allowed, SI.
    pub upper: f64,
    /// When the entry exists.
    pub applies: Applies,
    /// Index within a list of plies, fittings or items, or of the closures (0 fore, 1 aft).
    pub index: usize,
    /// What it means.
    pub doc: &'static str,
}

impl Field {
    /// The entry for other programs; limits that are not there are null.
    pub fn json(&self) -> Value {
        let printed = self.quantity.printed();
        let limit = |value: f64| {
            if value.is_finite() {
                json!(value)
            } else {
                Value::Null
            }
        };
        json!({
            "path": self.path,
            "quantity": self.quantity.name(),
            "unit": self.quantity.si(),
            "printed_unit": printed.symbol,
            "printed_factor": printed.factor,
            "printed_offset": printed.offset,
            "lower": limit(self.lower),
            "upper": limit(self.upper),
            "doc": self.doc,
        })
    }
}

/// A group of entries that can be laid out in a row of slots.
pub trait Slots<R>: Sized {
    /// How many slots the group takes.
    const COUNT: usize;
    /// Appends the group's entries below `prefix`.
    fn table(prefix: &str, index: usize, fields: &mut Vec<Field>);
    /// Writes the values in slot order, advancing `at`.
    fn write(&self, slots: &mut [R], at: &mut usize);
    /// Reads the values in slot order, advancing `at`.
    fn read(slots: &[R], at: &mut usize) -> Self;
    /// The group with one value everywhere.
    fn uniform(value: R) -> Self;
}

impl<R: Copy, T: Slots<R>, const N: usize> Slots<R> for [T; N] {
    const COUNT: usize = N * T::COUNT;
    fn table(prefix: &str, _index: usize, fields: &mut Vec<Field>) {
        for index in 0..N {
            T::table(&format!("{prefix}[{index}]"), index, fields);
        }
    }
    fn write(&self, slots: &mut [R], at: &mut usize) {
        for member in self {
            member.write(slots, at);
        }
    }
    fn read(slots: &[R], at: &mut usize) -> Self {
        std::array::from_fn(|_| T::read(slots, at))
    }
    fn uniform(value: R) -> Self {
        std::array::from_fn(|_| T::uniform(value))
    }
}

/// The entries of a group that stands by itself.
pub(crate) fn fields<T: Slots<f64>>() -> Vec<Field> {
    let mut fields = Vec::with_capacity(T::COUNT);
    T::table("", 0, &mut fields);
    fields
}

/// Declares a group: its numbers with quantity, limits (results have none) and when they apply, then
/// its sub-groups. `= 1` after a sub-group numbers it, for entries that apply by index.
macro_rules! slots {
    ($(#[$meta:meta])* $visibility:vis struct $name:ident<R> {
        $($(#[doc = $doc:literal])+ $leaf:ident: $quantity:ident $([$lower:expr, $upper:expr])?, $applies:ident;)*
    } $(groups { $($(#[doc = $group_doc:literal])+ $group:ident: $type:ty $(= $number:literal)?,)* })?) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        $visibility struct $name<R> {
            $($(#[doc = $doc])+ pub $leaf: R,)*
            $($($(#[doc = $group_doc])+ pub $group: $type,)*)?
        }

        impl<R: Copy> $crate::quantity::Slots<R> for $name<R> {
            const COUNT: usize = <[&str]>::len(&[$(stringify!($leaf)),*])
                $($(+ <$type as $crate::quantity::Slots<R>>::COUNT)*)?;

            fn table(prefix: &str, index: usize, fields: &mut Vec<$crate::quantity::Field>) {
                let _ = (prefix, index);
                $(
                    #[allow(unused_assignments, unused_mut)]
                    {
                        let (mut lower, mut upper) = (f64::NEG_INFINITY, f64::INFINITY);
                        $((lower, upper) = ($lower, $upper);)?
                        fields.push($crate::quantity::Field {
                            path: $crate::quantity::field::join(prefix, stringify!($leaf)),
                            quantity: $crate::quantity::Quantity::$quantity,
                            lower,
                            upper,
                            applies: $crate::quantity::Applies::$applies,
                            index,
                            doc: concat!($($doc),+).trim_ascii(),
                        });
                    }
                )*
                $($({
                    $(let index = $number;)?
                    let path = $crate::quantity::field::join(prefix, stringify!($group));
                    <$type as $crate::quantity::Slots<R>>::table(&path, index, fields);
                })*)?
            }

            fn write(&self, slots: &mut [R], at: &mut usize) {
                let _ = (&slots, &at);
                $(slots[*at] = self.$leaf; *at += 1;)*
                $($($crate::quantity::Slots::write(&self.$group, slots, at);)*)?
            }

            fn read(slots: &[R], at: &mut usize) -> Self {
                let _ = (&slots, &at);
                Self {
                    $($leaf: { let value = slots[*at]; *at += 1; value },)*
                    $($($group: $crate::quantity::Slots::read(slots, at),)*)?
                }
            }

            fn uniform(value: R) -> Self {
                Self {
                    $($leaf: value,)*
                    $($($group: $crate::quantity::Slots::uniform(value),)*)?
                }
            }
        }
    };
}
pub(crate) use slots;

/// Whether a path lies below a table.
pub(crate) fn is_below(table: &str, path: &str) -> bool {
    let rest = path.strip_prefix(table);
    rest.is_some_and(|rest| rest.starts_with('.'))
}

/// A path below a prefix.
pub(crate) fn join(prefix: &str, name: &str) -> String {
    if prefix.is_empty() {
        name.to_owned()
    } else {
        format!("{prefix}.{name}")
    }
}

//! What drag takes from the Mach number alone, the same for every design, and the Mach knots of the
//! columns that differ from design to design.

use super::friction::compressibility;
use super::pressure_drag::{base_drag, subsonic_share};
use crate::numerics::{Column, EvenTable, Knots, Real, sampled_cell};
use std::sync::LazyLock;

/// Mach knots of a computed drag, all on one even grid so that they are found without a search; dense
/// through the transonic range, but not denser than the ascent's steps can follow.
pub(super) const MACH: [f64; 34] = [
    0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1.0, 1.05, 1.1, 1.15, 1.2,
    1.25, 1.3, 1.4, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.6, 2.8, 3.0, 3.5, 4.0, 4.5, 5.0,
];
pub(super) static KNOTS: LazyLock<Knots> = LazyLock::new(|| Knots::new(MACH.to_vec()));

/// Below this Mach number the Reynolds number is held: friction there matters to no ascent.
const LEAST_MACH: f64 = 0.1;
/// Last knot: above it drag coefficients are held.
const MOST_MACH: f64 = MACH[MACH.len() - 1];

/// Width of a cell. It divides the distances of the knots and puts the Mach numbers at which the
/// functions have their kinks on edges of cells.
const CELL: f64 = 0.025;
const CELLS: usize = 256;

/// The functions of the Mach number.
struct Table {
    /// Logarithm of the Mach number held below, compressibility, base drag, and how far the Mach number
    /// reaches into its cell of the knots, which within a cell of this table is a straight line.
    functions: EvenTable<CELLS>,
    /// The cell of the knots that each cell of the table lies in.
    knots: [u8; CELLS],
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let mut base = [0.0; MACH.len()];
    for (knot, mach) in MACH.into_iter().enumerate() {
        base[knot] = base_drag(mach);
    }
    // As the columns of a design have it between the knots.
    let base: Column<f64, { MACH.len() }> = KNOTS.column(&base);
    let base_drag = |mach: f64| base.at(&KNOTS.place(mach));
    let start = |cell: usize| CELL * cell as f64;
    let knot = |cell: usize| {
        let middle = start(cell) + 0.5 * CELL;
        MACH[1..MACH.len() - 1].partition_point(|knot| *knot <= middle)
    };
    Table {
        functions: EvenTable::new(0.0, CELL, |cell| {
            let sampled = |function: &dyn Fn(f64) -> f64| sampled_cell(start(cell), CELL, function);
            let (left, right) = (MACH[knot(cell)], MACH[knot(cell) + 1]);
            let [reach, rise] = [start(cell) - left, CELL].map(|part| part / (right - left));
            [
                sampled(&log_mach),
                sampled(&compressibility),
                sampled(&base_drag),
                [reach, rise, 0.0, 0.0],
            ]
        }),
        knots: std::array::from_fn(|cell| knot(cell) as u8),
    }
});

/// Decimal logarithm of a Mach number, held below.
pub(super) fn log_mach(mach: f64) -> f64 {
    libm::log10(mach.max(LEAST_MACH))
}

/// What drag takes from a Mach number.
#[derive(Clone, Copy)]
pub(super) struct ByMach<R: Real> {
    /// Decimal logarithm of the Mach number, held below.
    pub log_mach: R,
    /// Compressible over incompressible friction.
    pub compressibility: R,
    /// Share of the subsonic form factor that stands.
    pub subsonic: R,
    /// Base drag coefficient, power off.
    pub base_drag: R,
    cell: R::Cell,
    /// How far it reaches into its cell of the knots.
    reach: R,
}

impl<R: Real> ByMach<R> {
    /// From the table; above the last knot that one counts.
    #[inline(always)]
    pub fn new(mach: R) -> Self {
        let held = mach.clamp(0.0, MOST_MACH);
        let place = TABLE.functions.place(held);
        let [log_mach, compressibility, base_drag, reach] = TABLE.functions.values(&place);
        Self {
            log_mach,
            compressibility,
            subsonic: subsonic_share(mach),
            base_drag,
            cell: place.cell,
            reach,
        }
    }

    /// The value of a column over [`KNOTS`].
    #[inline(always)]
    pub fn read<const N: usize>(&self, column: &Column<R, N>) -> R {
        let knots = &TABLE.knots;
        column.within(self.cell, self.reach, |cell| {
            usize::from(knots[cell & (CELLS - 1)])
        })
    }
}

//! What is asked of the search, and its steps.

use super::flown::fly;
use super::found::{LightestTank, Verdict};
use super::held::Holding;
use super::screen::screen;
use crate::error::{Error, Result};
use crate::stage::{MARGINS, Stage};
use crate::study::optimise::Constraint;
use crate::study::plan::{Axis, Plan};
use crate::study::pool::pool;
use crate::study::progress::Progress;
use serde_json::{Value, json};

/// Most options kept as winner and runners-up.
pub const MAX_KEPT: usize = 10_000;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct TankSearch {
    /// What may vary; every combination of the values is an option, the first axis slowest. Their order
    /// settles ties of mass.
    pub axes: Vec<Axis>,
    /// What must hold beside the margins, none of which may be negative in any case.
    pub subject_to: Vec<Constraint>,
    /// How many options are ranked: the winner and its runners-up.
    pub keep: usize,
    /// Threads; as many as there are if not given. The outcome does not depend on it.
    pub threads: Option<usize>,
}

/// Finds the options with the smallest `tank.mass` of which no margin is negative and that meet what else
/// is asked. The requirements of the stage are not held unless they are asked for here.
///
/// Three steps. Every option is screened by conditions without which it cannot do, computed from the tank
/// alone ([`at_rest`](crate::stage::at_rest)): that it can be built and filled, the margins that no flight
/// touches, those that a flight can but lower, bounds on the tank's mass and size. What is left is put in
/// order of tank mass, and flown in that order, by the whole chain, until enough options meet
/// everything; what is heavier need not be flown. The answer is that of the whole chain for every option,
/// in every bit, whatever the number of threads.
///
/// Masses are basic masses, `tank.mass`; a stated tank mass changes the vehicle's only.
///
/// ```
/// use hoopline::stage::Stage;
/// use hoopline::study::{Axis, Progress, TankSearch, lightest_tank};
/// # let file = concat!(env!("CARGO_MANIFEST_DIR"), "/python/hoopline/examples/petrel_stock.toml");
/// let stage = Stage::load(file.as_ref())?;
/// let tubes = ["tube 180 x 6", "tube 160 x 5", "tube 200 x 6.5"];
/// let search = TankSearch {
///     axes: vec![Axis { path: "tank.liner.tube".to_owned(), values: tubes.map(Into::into).to_vec() }],
///     subject_to: Vec::new(),
///     keep: 5,
///     threads: None,
/// };
/// let found = lightest_tank(&stage, &search, &Progress::default())?;
/// assert_eq!(found.ranked[0].option, 1);
/// # Ok::<(), hoopline::Error>(())
/// ```
pub fn lightest_tank(
    stage: &Stage,
    search: &TankSearch,
    progress: &Progress,
) -> Result<LightestTank> {
    if stage.form().tank.is_none() {
        return Err(Error::Inconsistent(
            "this stage has no tank, and so none to make lighter".to_owned(),
        ));
    }
    if search.axes.is_empty() {
        return Err(Error::Inconsistent("there is nothing to vary".to_owned()));
    }
    if !(1..=MAX_KEPT).contains(&search.keep) {
        return Err(Error::Inconsistent(format!(
            "keep = {}: between 1 and {MAX_KEPT} options are kept",
            search.keep
        )));
    }
    let constraints = constraints(&search.subject_to)?;
    pool(search.threads)?.install(|| {
        let plan = Plan::new(stage, &search.axes, progress)?;
        let holding = Holding::new(&plan, &constraints)?;
        let mut found = LightestTank::new(&plan, &holding);
        let mut left = screen(&plan, &holding, &mut found, progress)?;
        left.sort_unstable_by(|a, b| a.mass.total_cmp(&b.mass).then(a.option.cmp(&b.option)));
        fly(&plan, &holding, &left, search.keep, &mut found, progress)?;
        debug_assert!(!found.verdicts.contains(&Verdict::Open));
        Ok(found)
    })
}

/// What must hold: no margin negative, and what is asked for.
fn constraints(subject_to: &[Constraint]) -> Result<Vec<Constraint>> {
    let lowers = |held: &Constraint| {
        let below = held.at_least.as_ref().and_then(Value::as_f64);
        held.path.starts_with(MARGINS) && below.is_some_and(|least| least < 0.0)
    };
    if let Some(held) = subject_to.iter().find(|held| lowers(held)) {
        return Err(Error::Inconsistent(format!(
            "{} is asked to be at least {}, but a tank with a negative margin is none to choose: no \
             margin may be negative here; to look at such a design assess it",
            held.path,
            held.at_least.clone().unwrap_or_default()
        )));
    }
    let all = Constraint {
        path: MARGINS.to_owned(),
        at_least: Some(json!(0.0)),
        at_most: None,
    };
    // A limit that is written as a text is held beside it: here it is not read yet.
    let more = |held: &Constraint| {
        let least = held.at_least.as_ref().and_then(Value::as_f64);
        held.path == MARGINS && least.is_some_and(|least| least >= 0.0)
    };
    let mut constraints = subject_to.to_vec();
    if !subject_to.iter().any(more) {
        constraints.insert(0, all);
    }
    Ok(constraints)
}

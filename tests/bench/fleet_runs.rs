//! Large batches of ascents, and the same problem as numbers; `side_by_side.py` calls both.
//!
//! `problem COUNT` prints the first designs as JSON. `run DESIGNS LANES THREADS COURSE GRID [SHOWN]`
//! flies that many and prints times, peak memory and the first rows. Without a command both courses
//! and both grids are flown once.

#![allow(missing_docs)]

mod batch;
mod fleet;
mod problem;

use batch::{KEPT, Plan, fly};
use hoopline::ascent::{Course, Grid};
use hoopline::quantity::Choice;
use problem::problem;
use serde_json::{Value, json};
use std::process::ExitCode;

fn main() -> ExitCode {
    // Cargo adds a flag of its own.
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| word != "--bench")
        .collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let printed = match words[..] {
        [] => glance(),
        ["problem", count] => whole(count).map(problem),
        ["run", designs, lanes, threads, course, grid] => {
            run(&[designs, lanes, threads], course, grid, "0")
        }
        ["run", designs, lanes, threads, course, grid, shown] => {
            run(&[designs, lanes, threads], course, grid, shown)
        }
        _ => Err(
            "write `problem COUNT` or `run DESIGNS LANES THREADS COURSE GRID [SHOWN]`".to_owned(),
        ),
    };
    match printed {
        Ok(value) => {
            println!("{value}");
            ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("fleet_runs: {problem}");
            ExitCode::from(2)
        }
    }
}

fn whole(word: &str) -> Result<usize, String> {
    match word.parse() {
        Ok(number) if number > 0 => Ok(number),
        _ => Err(format!("{word} is no whole number above zero")),
    }
}

fn run(numbers: &[&str; 3], course: &str, grid: &str, shown: &str) -> Result<Value, String> {
    let [designs, lanes, threads] = numbers.map(whole);
    let plan = Plan {
        designs: designs?,
        lanes: lanes?,
        threads: threads?,
        course: Course::from_word(course).ok_or(format!("{course} is no course"))?,
        grid: Grid::from_word(grid).ok_or(format!("{grid} is no grid"))?,
    };
    let shown = shown
        .parse()
        .map_err(|_| format!("{shown} is no whole number"))?;
    report(&plan, shown)
}

/// Both courses and both grids, on one thread.
fn glance() -> Result<Value, String> {
    let mut all = Vec::new();
    for course in Course::ALL {
        for grid in Grid::ALL {
            let plan = Plan {
                designs: 10_000,
                lanes: 16,
                threads: 1,
                course: *course,
                grid: *grid,
            };
            all.push(report(&plan, 0)?);
        }
    }
    Ok(Value::Array(all))
}

fn report(plan: &Plan, shown: usize) -> Result<Value, String> {
    let flown = fly(plan)?;
    let seconds = flown.elapsed.as_secs_f64();
    Ok(json!({
        "designs": plan.designs,
        "lanes": plan.lanes,
        "threads": plan.threads,
        "course": plan.course.word(),
        "grid": plan.grid.word(),
        "seconds": seconds,
        "ascents_per_second": plan.designs as f64 / seconds,
        "thread_seconds_making_inputs": flown.making.as_secs_f64(),
        "thread_seconds_flying": flown.flying.as_secs_f64(),
        "peak_resident_bytes": peak_resident_bytes(),
        "columns": KEPT,
        "rows": flown.rows.iter().take(shown).collect::<Vec<_>>(),
    }))
}

/// Most memory this process ever held; none where the system does not tell.
fn peak_resident_bytes() -> Option<usize> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kibibytes: usize = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kibibytes * 1024)
}

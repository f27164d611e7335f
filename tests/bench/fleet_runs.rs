//! Large batches of ascents, and the same problem as numbers; `side_by_side.py` calls both.
//!
//! `problem COUNT` prints the first designs as JSON. `run DESIGNS LANES THREADS COURSE GRID [SHOWN]`
//! flies that many and prints times, peak memory and the first rows. `digest SET DESIGNS LANES THREADS
//! COURSE GRID` prints a digest of the bits of all outputs, `fallen SET DESIGNS` which designs are flown
//! again, and why, and how all end. Without a command both courses and both grids are flown once.

#![allow(missing_docs)]

mod batch;
mod digest;
mod fallen;
#[allow(dead_code)] // What flies one design is for other benchmarks.
mod fleet;
mod outputs;
mod problem;
mod rows;
mod vehicles;

use batch::{Order, Plan, fly};
use digest::digest;
use fallen::fallen;
use hoopline::ascent::{Course, Grid};
use hoopline::quantity::Choice;
use problem::problem;
use rows::{COLUMNS, Main};
use serde_json::{Value, json};
use std::process::ExitCode;
use vehicles::Set;

const USAGE: &str = "write `problem COUNT`, `run DESIGNS LANES THREADS COURSE GRID [SHOWN]`, `digest SET DESIGNS \
     LANES THREADS COURSE GRID` or `fallen SET DESIGNS`; a SET is fleet, wide or walled";

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
        ["digest", set, designs, lanes, threads, course, grid] => {
            planned(set, &[designs, lanes, threads], course, grid).and_then(|plan| digest(&plan))
        }
        ["fallen", set, designs] => {
            set_of(set).and_then(|set| whole(designs).and_then(|designs| fallen(set, designs)))
        }
        _ => Err(USAGE.to_owned()),
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

fn set_of(word: &str) -> Result<Set, String> {
    Set::from_word(word).ok_or(format!("{word} is no set"))
}

fn planned(set: &str, numbers: &[&str; 3], course: &str, grid: &str) -> Result<Plan, String> {
    let [designs, lanes, threads] = numbers.map(whole);
    Ok(Plan {
        set: set_of(set)?,
        designs: designs?,
        order: Order::PLAIN,
        lanes: lanes?,
        threads: threads?,
        course: Course::from_word(course).ok_or(format!("{course} is no course"))?,
        grid: Grid::from_word(grid).ok_or(format!("{grid} is no grid"))?,
    })
}

fn run(numbers: &[&str; 3], course: &str, grid: &str, shown: &str) -> Result<Value, String> {
    let plan = planned("fleet", numbers, course, grid)?;
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
                set: Set::Fleet,
                designs: 10_000,
                order: Order::PLAIN,
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
    let flown = fly::<Main, _>(plan)?;
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
        "columns": COLUMNS,
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

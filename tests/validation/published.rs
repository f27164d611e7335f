//! A published vehicle through the same chain as any other.

use hoopline::stage::Stage;
use std::path::Path;

/// K. E. Niemeyer, "Rocket Propulsion" (open course book), vertical launch example, printed output:
/// burnout 1956.11 m/s at 44.54 km. The print carries the error of its integrator's default tolerance:
/// converged, its own model gives 1951.00 m/s and 44.332 km (computed independently with SciPy 1.17.1,
/// RK45, relative tolerance 1e-10).
#[test]
fn textbook_ascent() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("python/hoopline/examples/published/v2_textbook.toml");
    let ascent = Stage::load(&file)
        .expect("a readable stage")
        .outcome()
        .ascent;
    approx::assert_relative_eq!(ascent.burnout_speed, 1956.11, max_relative = 0.005);
    approx::assert_relative_eq!(ascent.burnout_altitude, 44_540.0, max_relative = 0.005);
    // The drag table is thinned from 101 to 25 points, hence not closer.
    approx::assert_relative_eq!(ascent.burnout_speed, 1951.00, max_relative = 5e-4);
    approx::assert_relative_eq!(ascent.burnout_altitude, 44_332.0, max_relative = 5e-4);
}

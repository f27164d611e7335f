//! The Python surface: thin wrappers, one file per room. Private behind `python/hoopline`.

mod errors;
mod lightest;
mod optimise;
mod schema;
mod stage;
mod study;
mod sweep;
mod textbook;
mod watched;

/// Compiled core of `hoopline`; use the package, not this module.
#[pyo3::pymodule]
mod _core {
    #[pymodule_export]
    use super::lightest::lightest_tank;
    #[pymodule_export]
    use super::optimise::optimise;
    #[pymodule_export]
    use super::schema::{fault_word, meant, read, reason, schema, show, si};
    #[pymodule_export]
    use super::stage::Stage;
    #[pymodule_export]
    use super::study::{check_file, read_study, rows_on_record};
    #[pymodule_export]
    use super::sweep::sweep;
    #[pymodule_export]
    use super::textbook::{
        air, axial_line_load, axial_stress, bands_for_cover, base_drag, bolt_row, burn_distance,
        burn_speed, burst_by_faupel, burst_by_mean_diameter, burst_by_svensson,
        burst_by_von_mises_limit, burst_by_zhu_leis, clamped_end_stress, closure, coast_height,
        compressibility, cylinder_thickness_by_axial_stress, cylinder_thickness_by_hoop_stress,
        drag_factor, drag_free_coast, drag_free_distance, drag_free_speed,
        elastic_collapse_pressure, ellipsoid_factor, ellipsoid_thickness, fin_wave_drag,
        flat_head_thickness, frontal_area, geodesic_angle, hemisphere_edge_stress, hoop_line_load,
        hoop_stress, isotensoid_area, isotensoid_depth, log_cut_off_reynolds, needed_slippage,
        netting_thickness, nitrous_oxide_liquid_full_temperature, nitrous_oxide_pressure,
        nitrous_oxide_range, nitrous_oxide_saturation, nose_wave_drag, offset_factor,
        sphere_thickness, thick_cylinder_stress, torisphere_factor, torisphere_thickness,
        transport_cylinder_stress, turbulent_plate, turning_length, van_driest,
    };

    /// Version of the library.
    #[pymodule_export]
    #[allow(non_upper_case_globals)]
    const version: &str = env!("CARGO_PKG_VERSION");
}

//! Other words of the trade for what a name here means. Common practice, no source: they only
//! serve a hint, and nothing is read by them.

/// A word as someone may write it, and the names that mean it here: a last name, a path or a word of
/// a choice.
const SYNONYMS: &[(&str, &[&str])] = &[
    ("isp", &["specific_impulse"]),
    ("of_ratio", &["oxidiser_to_fuel_ratio"]),
    ("o_f", &["oxidiser_to_fuel_ratio"]),
    ("o_f_ratio", &["oxidiser_to_fuel_ratio"]),
    ("of", &["oxidiser_to_fuel_ratio"]),
    ("mixture_ratio", &["oxidiser_to_fuel_ratio"]),
    ("oxidizer_to_fuel_ratio", &["oxidiser_to_fuel_ratio"]),
    ("oxidizer_mass", &["oxidiser_mass"]),
    ("angle", &["elevation"]),
    ("launch_angle", &["elevation"]),
    ("inclination", &["elevation"]),
    ("roughness", &["sand_grain_roughness"]),
    ("surface_roughness", &["sand_grain_roughness"]),
    ("diameter", &["outer_diameter"]),
    ("outside_diameter", &["outer_diameter"]),
    ("inside_diameter", &["inner_diameter"]),
    ("wall_thickness", &["wall", "thickness"]),
    ("weight", &["mass"]),
    ("youngs_modulus", &["elastic_modulus"]),
    ("tensile_strength", &["ultimate_strength"]),
    ("yield_stress", &["yield_strength"]),
    ("winding_angle", &["angle"]),
    ("payload", &["mass.item", "mass.item[].mass"]),
    ("payload_mass", &["mass.item", "mass.item[].mass"]),
    ("elliptical", &["ellipsoid_2_1"]),
    ("ellipsoidal", &["ellipsoid_2_1"]),
    ("elliptic", &["ellipsoid_2_1"]),
    ("ellipse", &["ellipsoid_2_1"]),
    ("hemispherical", &["hemisphere"]),
    ("spherical", &["hemisphere"]),
    ("sphere", &["hemisphere"]),
    ("torispherical", &["torisphere"]),
    ("dished", &["torisphere"]),
    ("isotensoid_dome", &["isotensoid"]),
    ("isotensoidal", &["isotensoid"]),
    ("geodesic", &["isotensoid"]),
    ("geodesic_dome", &["isotensoid"]),
    ("geodesic_isotensoid", &["isotensoid"]),
    ("flat", &["flat_clamped", "flat_supported", "flat_bolted"]),
    ("bolted", &["flat_bolted"]),
    ("bolted_bulkhead", &["flat_bolted"]),
    ("bolt_count", &["count"]),
    ("stress_area", &["shear_area"]),
    ("end_distance", &["edge_distance"]),
    ("extrusion_gap", &["seal_gap", "largest_seal_gap"]),
    ("conical", &["cone"]),
    ("ld_haack", &["von_karman"]),
    ("fiber", &["fibre"]),
    ("max_q", &["max_dynamic_pressure"]),
    ("max_altitude", &["apogee"]),
    ("peak_altitude", &["apogee"]),
    ("stability_margin", &["static_margin"]),
];

/// The names that a word of the trade means here, or none.
pub(crate) fn meant(word: &str) -> &'static [&'static str] {
    let found = SYNONYMS.iter().find(|(known, _)| *known == word);
    found.map_or(&[], |(_, names)| *names)
}

#[cfg(test)]
mod tests {
    use super::SYNONYMS;
    use crate::stage::{CHOICES, INPUTS, KINDS, LISTS, RESULTS};

    #[test]
    fn whatever_a_word_means_is_there_and_no_word_stands_twice() {
        let fields = INPUTS.fields.iter().chain(&RESULTS.fields);
        let mut known: Vec<&str> = fields.flat_map(|field| field.path.split('.')).collect();
        known.extend(
            CHOICES
                .iter()
                .flat_map(|one| one.options)
                .map(|(word, _)| *word),
        );
        known.extend(LISTS.iter().map(|(path, _)| *path));
        known.push("mass.item[].mass");
        assert!(INPUTS.slot("mass.item[0].mass").is_some());
        known.extend(KINDS.iter().map(|kind| kind.word));
        for (at, (word, names)) in SYNONYMS.iter().enumerate() {
            assert!(names.iter().all(|name| known.contains(name)), "{word}");
            assert!(
                SYNONYMS[..at].iter().all(|(other, _)| other != word),
                "{word}"
            );
        }
    }
}

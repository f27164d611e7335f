//! Sand-grain heights of surfaces, as a handbook prints them.

/// Surface, in the source's words, and its equivalent sand-grain height, m. Aircraft surfaces, new
/// and clean; no published value for a surface as wound or peeled was found.
///
/// Source: D. P. Raymer, "Aircraft Design: A Conceptual Approach", 6th edition, AIAA 2018, table 12.5
/// "Skin Roughness Value k", page 421.
///
/// ```
/// use hoopline::airframe::SAND_GRAIN_HEIGHTS;
/// assert_eq!(SAND_GRAIN_HEIGHTS[1], ("Smooth paint", 0.634e-5));
/// ```
pub const SAND_GRAIN_HEIGHTS: [(&str, f64); 5] = [
    ("Camouflage paint on aluminum", 1.015e-5),
    ("Smooth paint", 0.634e-5),
    ("Production sheet metal", 0.405e-5),
    ("Polished sheet metal", 0.152e-5),
    ("Smooth molded composite", 0.052e-5),
];

//! How thick bands pile up towards an opening: no fibre begins or ends on a dome.

use super::geodesic::arc_sine;

/// Thickness, m, at `radius` of a ply whose band's middle has `clairaut = r sin a` there; `flux` is `R t cos a` at
/// the rim, m2, the section that crosses any parallel circle over 2 pi.
///
/// A fibre at a distance d from the band's middle has `r sin a = clairaut + d`, and its section over the
/// circle is spread by `1 / cos a`; the mean over the band is `flux / b (asin((u + b/2) / r) - asin((u - b/2) /
/// r))`, where a fibre that has turned before counts no more. On geodesics this is the count of plies over a
/// point, `(m n / pi) (acos(rp / r) - acos((rp + b) / r))` with `rp = r0 - b/2`; every fibre that leaves the
/// rim comes back to it, whatever the band's width. At the rim it is the ply's thickness to second order in
/// band width over radius. Known error: bands slide and pile up beside the opening, where the real peak is
/// higher and farther out (abstract of Polymers 14(5), 902, 2022).
///
/// ```
/// // Bands of 10 mm on 75 mm turning at an opening of 20 mm, two plies of 1 mm to a cover: 2.59879 mm at 60 mm.
/// let flux = 0.075 * 0.002 * (1.0 - (25.0f64 / 75.0).powi(2)).sqrt();
/// let thickness = hoopline::vessel::winding::banded_thickness(0.060, 0.025, 0.010, flux);
/// assert!((thickness - 2.59879e-3).abs() < 1e-8);
/// ```
pub fn banded_thickness(radius: f64, clairaut: f64, band_width: f64, flux: f64) -> f64 {
    let half = 0.5 * band_width;
    let edge = |offset: f64| arc_sine((clairaut + offset) / radius);
    flux / band_width * (edge(half) - edge(-half))
}

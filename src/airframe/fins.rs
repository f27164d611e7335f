//! Fins: a trapezoidal planform of fixed proportions and one size.

use crate::numerics::Real;
use crate::quantity::{choice, slots};

choice! {
    /// Which measure of the fins stays when the rest changes.
    pub enum FinRule {
        /// The static margin at lift-off mass and low speed stays; the fins are sized for it.
        StaticMargin = "static_margin",
        /// The root chord in body diameters stays.
        Calibres = "calibres",
        /// The root chord stays.
        Size = "size",
    }
}

slots! {
    /// Numbers of the fins. Of static margin, root chord in calibres and root chord one is the
    /// input, by the follow rule; the planform keeps its proportions.
    pub struct Fins<R> {
        /// Distance from centre of gravity to centre of pressure at lift-off, in body diameters.
        static_margin: Ratio [0.05, 20.0], Fins;
        /// Root chord in body diameters.
        root_chord_calibres: Ratio [0.02, 8.0], Fins;
        /// Root chord.
        root_chord: Length [0.001, 10.0], Fins;
        /// Tip chord over root chord.
        taper_ratio: Ratio [0.0, 1.0], Fins;
        /// Exposed span of one fin over root chord.
        span_ratio: Ratio [0.05, 5.0], Fins;
        /// Distance that the tip's leading edge lies behind the root's, over root chord.
        sweep_ratio: Ratio [0.0, 5.0], Fins;
        /// Thickness of the fin, a sheet of even thickness.
        thickness: Length [1e-4, 0.1], Fins;
        /// Density of the fin.
        density: Density [10.0, 25000.0], Fins;
    }
}

/// What cannot vary continuously about the fins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct FinForm {
    /// Number of fins; zero for none, else three or four.
    pub count: usize,
    /// Follow rule.
    pub rule: FinRule,
}

/// One fin's planform in metres; the trailing edge of the root stands at the end of the body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planform<R> {
    /// Root chord, m.
    pub root_chord: R,
    /// Tip chord, m.
    pub tip_chord: R,
    /// Exposed span of one fin, m.
    pub span: R,
    /// Offset of the tip's leading edge, m.
    pub sweep: R,
    /// Area of one side of one fin, m2.
    pub area: R,
    /// Mean chord (area over span), m.
    pub mean_chord: R,
    /// Mass of one fin, kg.
    pub mass: R,
    /// Distance of the centroid behind the root's leading edge, m.
    pub centroid: R,
}

/// The planform for a root chord.
pub fn planform<R: Real>(fins: &Fins<R>, root_chord: R) -> Planform<R> {
    let tip_chord = root_chord * fins.taper_ratio;
    let span = root_chord * fins.span_ratio;
    let sweep = root_chord * fins.sweep_ratio;
    let mean_chord = (root_chord + tip_chord) * 0.5;
    let area = mean_chord * span;
    let centroid = (root_chord.squared()
        + root_chord * tip_chord
        + tip_chord.squared()
        + sweep * (root_chord + tip_chord * 2.0))
        / ((root_chord + tip_chord) * 3.0);
    Planform {
        root_chord,
        tip_chord,
        span,
        sweep,
        area,
        mean_chord,
        mass: area * fins.thickness * fins.density,
        centroid,
    }
}

impl<R: Real> Planform<R> {
    /// Variance of the fin's area along the body's axis, m2. With root and tip chord a and b and the tip's
    /// leading edge swept back by s, the second moment from the root's leading edge over the span is
    /// `s^2 (a + 3 b) / 12 + s (a^2 + 2 a b + 3 b^2) / 12 + (a + b) (a^2 + b^2) / 12`, less the centroid's
    /// square times the mean chord (geometry; exact for a thin sheet).
    pub fn variance_along(&self) -> R {
        let (a, b, s) = (self.root_chord, self.tip_chord, self.sweep);
        let (aa, bb) = (a.squared(), b.squared());
        let swept = s * (s * (a + b * 3.0) + aa + a * b * 2.0 + bb * 3.0);
        let second = (swept + (a + b) * (aa + bb)) / 12.0;
        second / self.mean_chord - self.centroid.squared()
    }

    /// Mean squared distance of the fin's area from the body's axis, m2: it stands on the radius r and
    /// spans l, so `r^2 + 2 r l (a + 2 b) / (3 (a + b)) + l^2 (a + 3 b) / (6 (a + b))` (geometry; exact for
    /// a thin sheet that stands radially).
    pub fn mean_squared_radius(&self, radius: R) -> R {
        let (a, b) = (self.root_chord, self.tip_chord);
        let both = a + b;
        let mean = self.span * (a + b * 2.0) / (both * 3.0);
        let square = self.span.squared() * (a + b * 3.0) / (both * 6.0);
        radius.squared() + radius * mean * 2.0 + square
    }
}

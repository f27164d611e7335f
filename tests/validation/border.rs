//! Units and interpolation against published conversions and a general-purpose library.

use crate::Outside;
use hoopline::numerics::Knots;
use hoopline::quantity::{Quantity, read};

const GUIDE: Outside = Outside {
    room: "quantity",
    source: "B. N. Taylor and A. Thompson, \"Guide for the Use of the International System of Units \
             (SI)\", NIST Special Publication 811, 2008, appendix B (values from memory)",
};
const BAROMETER: Outside = Outside {
    room: "quantity",
    source: "\"U.S. Standard Atmosphere, 1976\", NOAA-S/T 76-1562: sea-level pressure 1013.25 mb, \
             101325 Pa",
};

const INERTIA: Outside = Outside {
    room: "quantity",
    source: "\"Inertia Conversion Tables\", omega.nl/prodinfo/tableinertia.html: 1 lb in2 is 2.926 kg cm2, \
             1 kg cm2 is 1000 g cm2",
};

#[test]
fn conversion_factors() {
    let si = |text: &str, quantity| read(text, quantity).expect("readable");
    GUIDE.printed("psi, Pa", si("1 psi", Quantity::Stress), 6894.757, 1e-3);
    GUIDE.printed("pound, kg", si("1 lb", Quantity::Mass), 0.4535924, 1e-7);
    GUIDE.printed(
        "pound-force, N",
        si("1 lbf", Quantity::Force),
        4.448222,
        1e-6,
    );
    GUIDE.printed("foot, m", si("1 ft", Quantity::Length), 0.3048, 1e-4);
    let inertia = |text| si(text, Quantity::MomentOfInertia);
    let pound_inch = inertia("1 lb in2") / inertia("1 kg cm2");
    INERTIA.printed("pound inch squared, kg cm2", pound_inch, 2.926, 1e-3);
    let gram = inertia("1 kg cm2") / inertia("1 g cm2");
    INERTIA.relative("kilogram centimetre squared, g cm2", gram, 1000.0, 1e-15);
    let read = si("1013.25 hPa absolute", Quantity::AbsolutePressure);
    BAROMETER.relative("hectopascal, Pa", read, 101_325.0, 1e-15);
}

const SPLINE: Outside = Outside {
    room: "numerics",
    source: "scipy.interpolate.CubicSpline(x, y, bc_type=\"natural\") of SciPy 1.17.1",
};

#[test]
fn natural_cubic_spline() {
    let knots = Knots::new(vec![0.0, 0.4, 1.0, 1.1, 2.5, 3.0]);
    let column = knots.column(&[0.15, 0.12, 0.31, 0.40, 0.22, 0.25]);
    for (x, reference) in [
        (0.2, 0.1308000077160878),
        (0.7, 0.14892495949053905),
        (1.05, 0.3551479346708716),
        (1.8, 0.4865497961459384),
        (2.9, 0.23350286490872613),
    ] {
        let case = format!("natural cubic at {x}");
        SPLINE.relative(&case, column.at(&knots.place(x)), reference, 1e-13);
    }
}

const MONOTONE: Outside = Outside {
    room: "numerics",
    source: "scipy.interpolate.PchipInterpolator of SciPy 1.17.1",
};

#[test]
fn monotone_cubic() {
    let knots = Knots::new(vec![0.0, 0.4, 1.0, 1.1, 2.5, 3.0]);
    let column = knots.monotone::<f64, 6>(&[0.15, 0.12, 0.31, 0.40, 0.22, 0.25]);
    for (x, reference) in [
        (0.2, 0.12375),
        (0.7, 0.17533505154639173),
        (1.05, 0.361610824742268),
        (1.8, 0.31),
        (2.9, 0.23986406015037595),
    ] {
        let case = format!("monotone cubic at {x}");
        MONOTONE.relative(&case, column.at(&knots.place(x)), reference, 1e-13);
    }
}

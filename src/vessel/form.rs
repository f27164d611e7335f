//! What cannot vary continuously about a tank: kinds, counts, which numbers are given.

use super::fitting::{Fitting, FittingHold};
use super::overwrap::{Overwrap, Ply};
use super::seam::SeamBasis;
use super::service::ServiceForm;
use super::tank::{Closure, Tank};
use crate::quantity::choice;

/// Most plies an overwrap may have.
pub const MAX_PLIES: usize = 8;
/// Most fittings a tank may have.
pub const MAX_FITTINGS: usize = 4;

choice! {
    /// Kind of closure.
    pub enum ClosureKind {
        /// Half a sphere.
        Hemisphere = "hemisphere",
        /// Half an ellipsoid of revolution whose depth is a quarter of its diameter.
        Ellipsoid = "ellipsoid_2_1",
        /// Spherical crown that runs into the cylinder by a knuckle of smaller radius.
        Torisphere = "torisphere",
        /// Curve of geodesic fibres that all pull alike, from the cylinder to where it would bend outwards,
        /// and a spherical cap.
        Isotensoid = "isotensoid",
        /// Flat bulkhead whose edge cannot turn.
        FlatClamped = "flat_clamped",
        /// Flat bulkhead whose edge is free to turn.
        FlatSupported = "flat_supported",
        /// Flat bulkhead within the bore, held by radial bolts through the cylinder's wall; its edge is free to turn.
        FlatBolted = "flat_bolted",
    }
}

impl ClosureKind {
    /// Whether it is a shell, as thick as a wall, and not a plate.
    pub fn is_domed(self) -> bool {
        matches!(
            self,
            Self::Hemisphere | Self::Ellipsoid | Self::Torisphere | Self::Isotensoid
        )
    }

    /// Whether fibre can be wound over it and held there. A torisphere's knuckle is under hoop
    /// compression, and a fibre under tension alone does not keep to it.
    pub fn anchors_fibre(self) -> bool {
        matches!(self, Self::Hemisphere | Self::Ellipsoid | Self::Isotensoid)
    }

    /// Whether bolts hold it: then no seam joins it to the cylinder, and its edge slides and turns in the bore.
    pub fn is_bolted(self) -> bool {
        self == Self::FlatBolted
    }
}

choice! {
    /// Which two of the tank's diameters and the liner's wall are given; the wrap's build-up closes
    /// the set.
    pub enum DiameterPair {
        /// Outside of the wrap, and wall.
        OuterAndWall = "outer_and_wall",
        /// Outside of the wrap, and inside of the liner.
        OuterAndInner = "outer_and_inner",
        /// Outside of the liner, and wall.
        LinerOuterAndWall = "liner_outer_and_wall",
        /// Outside and inside of the liner.
        LinerOuterAndInner = "liner_outer_and_inner",
        /// Inside of the liner, and wall.
        InnerAndWall = "inner_and_wall",
    }
}

choice! {
    /// Which measure of the tank's size stays when something else changes.
    pub enum Shape {
        /// The volume stays; the length follows.
        Volume = "volume",
        /// The length stays; the volume follows.
        Length = "length",
        /// The fineness ratio stays; length and volume follow.
        Fineness = "fineness",
    }
}

choice! {
    /// Kind of ply.
    pub enum PlyKind {
        /// Wound at an angle over the cylinder and over both closures, which hold it.
        Helical = "helical",
        /// Wound over the cylinder only, close to 90 degrees; it carries no axial load.
        Hoop = "hoop",
    }
}

/// What cannot vary continuously about a tank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct TankForm {
    /// Which two of diameters and wall are given.
    pub diameters: DiameterPair,
    /// Kind of the fore closure.
    pub fore_closure: ClosureKind,
    /// Kind of the aft closure.
    pub aft_closure: ClosureKind,
    /// How the girth seam's strength is taken.
    pub girth_seam: SeamBasis,
    /// How the longitudinal seam's strength is taken.
    pub longitudinal_seam: SeamBasis,
    /// Number of plies.
    pub plies: usize,
    /// Kind of each ply.
    pub ply_kinds: [PlyKind; MAX_PLIES],
    /// Whether it is stated how the plies are wound.
    pub winding: bool,
    /// Whether the strain that the girth seam's weld zone bears is given.
    pub girth_allowance: bool,
    /// Which matters of service are given.
    pub service: ServiceForm,
    /// Number of fittings.
    pub fittings: usize,
    /// What holds each fitting.
    pub fitting_kinds: [FittingHold; MAX_FITTINGS],
}

impl TankForm {
    /// Whether any ply is helical.
    pub fn has_helical(&self) -> bool {
        self.ply_kinds[..self.plies].contains(&PlyKind::Helical)
    }

    /// Whether there is a girth seam.
    pub fn has_girth_seam(&self) -> bool {
        self.girth_seam != SeamBasis::None
    }

    /// Whether there is a longitudinal seam.
    pub fn has_longitudinal_seam(&self) -> bool {
        self.longitudinal_seam != SeamBasis::None
    }

    /// Whether the girth seam's weld zone is judged by its strain.
    pub fn judges_girth_zone(&self) -> bool {
        self.girth_allowance && self.has_girth_seam()
    }

    /// The closures, fore and aft, each with its kind.
    pub fn closures<'a, R>(&self, tank: &'a Tank<R>) -> [(ClosureKind, &'a Closure<R>); 2] {
        [
            (self.fore_closure, &tank.fore_closure),
            (self.aft_closure, &tank.aft_closure),
        ]
    }

    /// The plies wound, from the liner outwards, each with its kind.
    pub fn wound<'a, R>(
        &'a self,
        overwrap: &'a Overwrap<R>,
    ) -> impl Iterator<Item = (&'a Ply<R>, PlyKind)> {
        let plies = overwrap.ply[..self.plies].iter();
        plies.zip(self.ply_kinds)
    }

    /// The fittings, each with what holds it.
    pub fn fittings<'a, R>(
        &'a self,
        tank: &'a Tank<R>,
    ) -> impl Iterator<Item = (FittingHold, &'a Fitting<R>)> {
        let kinds = self.fitting_kinds[..self.fittings].iter().copied();
        kinds.zip(&tank.fitting)
    }

    /// What holds the fitting of an index, if there is one.
    pub fn fitting_kind(&self, index: usize) -> Option<FittingHold> {
        self.fitting_kinds[..self.fittings].get(index).copied()
    }

    /// Whether any fitting is held in this way.
    pub fn has_fitting(&self, kind: FittingHold) -> bool {
        self.fitting_kinds[..self.fittings].contains(&kind)
    }

    /// Whether any hoop ply is wound, for pads to lie under.
    pub fn has_hoop(&self) -> bool {
        self.ply_kinds[..self.plies].contains(&PlyKind::Hoop)
    }

    /// Whether any weld-zone strength is needed.
    pub fn needs_weld_zone(&self) -> bool {
        self.girth_seam.uses_weld_zone() || self.longitudinal_seam.uses_weld_zone()
    }
}

//! What can be drawn: instruments at their mark, a tank with its fill, a bottle, a curve with its band, a strip of film, a
//! difference, bars.

/// A drawing, as numbers; how it looks is the view's affair.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// A syringe with its plunger at the mark.
    Syringe {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Capacity, in the user's unit of volume.
        capacity: f64,
        /// From mark to mark.
        graduation: f64,
        /// Where the plunger stands.
        level: f64,
        /// The level as text.
        shown: String,
    },
    /// A cylinder, pipette or jug with its meniscus.
    Cylinder {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Capacity, in the user's unit of volume.
        capacity: f64,
        /// From mark to mark.
        graduation: f64,
        /// Where the lowest point of the meniscus stands.
        level: f64,
        /// The level as text.
        shown: String,
    },
    /// A tank with its fill, the volume that covers the film, and the brim.
    Tank {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Fill, as a share of the brim.
        fill: f64,
        /// Cover, as a share of the brim; `None` if nothing is loaded.
        cover: Option<f64>,
        /// The fill, the cover and the brim as text.
        shown: [String; 3],
    },
    /// A bottle with its liquid, and the air above it up to the brim.
    Bottle {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Liquid, as a share of the brim.
        fill: f64,
        /// The liquid, the headspace and the brim as text.
        shown: [String; 3],
    },
    /// A curve with its band, and one point of it.
    Curve {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Names of the axes, across and up.
        axes: [String; 2],
        /// Across, low, middle, high.
        points: Vec<[f64; 4]>,
        /// The point that is used.
        mark: (f64, f64),
        /// The ends of the axes as text: left, right, bottom, top.
        ends: [String; 4],
        /// Points that were given.
        given: Vec<(f64, f64)>,
    },
    /// Several curves with their bands, told apart by name.
    Curves {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Names of the axes, across and up.
        axes: [String; 2],
        /// The curves, over one and the same stretch.
        curves: Vec<NamedCurve>,
        /// The ends of the axes as text: left, right, bottom, top.
        ends: [String; 4],
    },
    /// A strip of film against the light: patches side by side.
    Strip {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// The patches, from left to right; at least one.
        patches: Vec<Patch>,
        /// Density of the maker's marks along the edge; `None` where they are not to be looked at.
        edge: Option<f64>,
    },
    /// A difference with its interval, over the band of what does not matter.
    Interval {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// The difference.
        value: f64,
        /// From where to where it may be.
        interval: [f64; 2],
        /// As much to either side of 0 does not matter.
        band: f64,
        /// What lies to the left of the band, and to the right.
        names: [String; 2],
        /// The difference and the ends of the band as text.
        shown: [String; 3],
    },
    /// A series of values, with the levels that it is held against.
    Chart {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// Name of the axis across.
        across: String,
        /// The values, across and up, in order.
        values: Vec<(f64, f64)>,
        /// The smoothed line, across and up.
        smoothed: Vec<(f64, f64)>,
        /// The levels.
        levels: Vec<Level>,
        /// The ends of the axis across as text.
        ends: [String; 2],
    },
    /// Shares of a whole.
    Bars {
        /// What it says under it, and to those who cannot see it.
        caption: String,
        /// The bars, in order.
        bars: Vec<Bar>,
    },
}

/// One curve among others.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedCurve {
    /// Its name, short enough to stand at its end.
    pub label: String,
    /// Across, low, middle, high; at least two points, the first at the left end.
    pub points: Vec<[f64; 4]>,
    /// Points that were given, across and up.
    pub given: Vec<(f64, f64)>,
}

/// One patch of a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// What it is.
    pub label: String,
    /// Density over the clear film.
    pub density: f64,
    /// The density, or how it looks, as text.
    pub shown: String,
}

/// A level that values are held against.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Its name and its value, short enough to stand at its end.
    pub label: String,
    /// Where it is.
    pub at: f64,
    /// What it is.
    pub kind: LevelKind,
}

/// What a level is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LevelKind {
    /// Where values should be.
    Target,
    /// How far chance alone brings them.
    Chance,
    /// What they must not pass.
    Limit,
}

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What it is.
    pub label: String,
    /// Share of the whole, 0 to 1.
    pub share: f64,
    /// The share as text.
    pub shown: String,
}

impl Picture {
    /// What the drawing says, for those who cannot see it.
    pub fn caption(&self) -> &str {
        match self {
            Self::Syringe { caption, .. }
            | Self::Cylinder { caption, .. }
            | Self::Tank { caption, .. }
            | Self::Bottle { caption, .. }
            | Self::Curve { caption, .. }
            | Self::Curves { caption, .. }
            | Self::Strip { caption, .. }
            | Self::Interval { caption, .. }
            | Self::Chart { caption, .. }
            | Self::Bars { caption, .. } => caption,
        }
    }
}

//! What the invented darkroom holds and what happened in it, by how many days ago.

use super::sittings::{CHILDREN, CHOIR, PORTRAITS, STREET, Sitting};
use crate::chemistry::Class;
use crate::kit::{Climate, Colour, Light, Material};
use crate::proof::TestKind;
use crate::quantity::Temperature;

/// What a label says; 0 or empty where it says nothing.
pub(super) struct Label {
    /// The name of its bottle, without the beginning that all have.
    pub id: &'static str,
    pub product: &'static str,
    pub class: Class,
    pub dilution: &'static str,
    /// What it is sold as, in ml, and its wall.
    pub vessel: Option<(f64, Material, Colour)>,
    pub cents: u32,
    /// In days: unopened, full, half full.
    pub lives: [u16; 3],
    pub films_per_litre: u32,
    /// Least concentrate for one film, in millilitres, by the data sheet; 0 where it says nothing.
    pub least_per_film: f64,
    /// Developing times of the data sheet, one a line.
    pub times: &'static str,
}

/// What happened; volumes in millilitres.
pub(super) enum Deed {
    /// A place is like this.
    Place(&'static str, Climate, Light),
    /// A bottle came with so much in it (0 where nobody knows), opened so many days ago: 0 for never, `None` where nobody knows.
    Came(&'static Label, f64, Option<i32>),
    Moved(&'static str, &'static str),
    /// So much for a bath of so much, and what for.
    Drew(&'static str, f64, f64, &'static str),
    /// From a bottle so much, and water; the dilution, what for, and film units.
    Used(&'static str, f64, f64, &'static str, &'static str, u32),
    /// From a bottle so much, and water, kept as a bottle of its own.
    Kept(&'static str, f64, f64, &'static Label),
    /// From a bottle into these, so much into each.
    Decanted(&'static str, &'static [&'static str], f64, &'static Label),
    Squeezed(&'static str),
    /// By a test, whether it passed, and what was seen.
    Tested(&'static str, TestKind, bool, &'static str),
    /// By a test, the strength in thousandths of fresh, its standard uncertainty, and what was seen.
    Measured(&'static str, TestKind, u32, u32, &'static str),
    Films(&'static str, u32),
    Discarded(&'static str, &'static str),
    Note(&'static str, &'static str),
    /// What was mixed and used for it are deeds of their own.
    Developed(&'static Sitting),
    /// The event before.
    TookBack,
}

use Deed::{
    Came, Decanted, Developed, Discarded, Drew, Films, Kept, Measured, Moved, Note, Place, Squeezed, Tested, TookBack,
    Used,
};

const CELLAR: &str = "cellar (example)";
const KITCHEN: &str = "kitchen shelf (example)";
const CUPBOARD: &str = "cupboard (example)";

const BROWN: Colour = Colour::Amber;

const BLUE: Label = Label {
    id: "blue",
    product: "Blue Syrup",
    class: Class::Syrup,
    dilution: "1+31",
    vessel: Some((500.0, Material::Glass, BROWN)),
    cents: 2350,
    lives: [730, 365, 180],
    films_per_litre: 0,
    least_per_film: 6.0,
    times: "8:45 at 18 C 1+31\n7:30 at 20 C 1+31\n6:30 at 22 C 1+31",
};
const SPARE: Label = Label {
    id: "blue-spare",
    cents: 2490,
    ..BLUE
};
const BLUE_BATH: Label = Label {
    id: "blue-bath",
    product: "Blue bath 1+49",
    class: Class::WorkingDeveloper,
    dilution: "1+49",
    cents: 0,
    lives: [0, 14, 5],
    least_per_film: 0.0,
    times: "",
    ..BLUE
};
const HONEY: Label = Label {
    id: "honey",
    product: "Honey Syrup",
    dilution: "1+19",
    cents: 1980,
    lives: [1095, 730, 365],
    least_per_film: 10.0,
    times: "10:30 at 18 C 1+19\n9:00 at 20 C 1+19\n7:45 at 22 C 1+19",
    ..BLUE
};
/// The vessels that it is decanted into.
const SMALL: Label = Label {
    vessel: Some((100.0, Material::Glass, BROWN)),
    ..HONEY
};
const GREY: Label = Label {
    id: "grey",
    product: "Grey Stock",
    class: Class::PowderStock,
    dilution: "1+1",
    vessel: Some((1000.0, Material::Pet, Colour::Clear)),
    cents: 890,
    lives: [0, 180, 60],
    films_per_litre: 10,
    least_per_film: 0.0,
    times: "9:30 at 20 C 1+1\n7:00 at 24 C 1+1",
};
const EARLIER_GREY: Label = Label { id: "grey-old", ..GREY };
const FIX: Label = Label {
    id: "fix",
    product: "Clear Fix",
    class: Class::Fixer,
    dilution: "1+4",
    vessel: Some((1000.0, Material::Hdpe, Colour::Opaque)),
    cents: 1450,
    lives: [730, 730, 365],
    films_per_litre: 0,
    least_per_film: 0.0,
    times: "",
};
const FIX_BATH: Label = Label {
    id: "fix-bath",
    product: "Clear Fix bath 1+4",
    vessel: Some((1000.0, Material::Glass, BROWN)),
    cents: 0,
    lives: [0, 60, 40],
    films_per_litre: 16,
    ..FIX
};
const EARLIER_FIX_BATH: Label = Label {
    id: "fix-bath-old",
    ..FIX_BATH
};
const STOP: Label = Label {
    id: "stop",
    product: "Sour Stop",
    class: Class::StopBath,
    dilution: "1+19",
    vessel: Some((500.0, Material::Glass, Colour::Clear)),
    cents: 720,
    lives: [1825, 1095, 1095],
    films_per_litre: 0,
    least_per_film: 0.0,
    times: "",
};
const NAMELESS: Label = Label {
    id: "nameless",
    product: "Brown bottle, no label",
    class: Class::Other,
    dilution: "",
    vessel: None,
    cents: 0,
    lives: [0; 3],
    films_per_litre: 0,
    least_per_film: 0.0,
    times: "",
};

/// The warmest day of the cellar, some weeks after that of the street.
const LATE_SUMMER: u32 = 225;

const fn celsius(degrees: f64) -> Temperature {
    Temperature::from_celsius(degrees)
}

/// How many days ago, and what. Of one day in this order.
pub(super) const DEEDS: &[(i32, Deed)] = &[
    (
        740,
        Place(
            CELLAR,
            Climate::Seasonal {
                low: celsius(9.0),
                high: celsius(17.0),
                warmest: LATE_SUMMER,
            },
            Light::Dark,
        ),
    ),
    (
        740,
        Place(KITCHEN, Climate::Between(celsius(18.0), celsius(27.0)), Light::Lit),
    ),
    (740, Place(CUPBOARD, Climate::Steady(celsius(19.0)), Light::Dark)),
    // A syrup that nobody tested for long.
    (735, Came(&BLUE, 430.0, Some(1460))),
    (735, Moved("blue", KITCHEN)),
    (730, Tested("blue", TestKind::Clip, true, "leader black, rest clear")),
    (520, Used("blue", 18.75, 581.25, "1+31", "street, two films", 2)),
    (470, Used("blue", 18.75, 581.25, "1+31", "garden, two films", 2)),
    (425, Used("blue", 18.75, 581.25, "1+31", "the market", 2)),
    (380, Used("blue", 9.375, 290.625, "1+31", "one film, pushed a stop", 1)),
    (310, Used("blue", 18.75, 581.25, "1+31", "fog at the harbour", 2)),
    (300, Moved("blue", CELLAR)),
    (250, Used("blue", 18.75, 581.25, "1+31", "portraits", 2)),
    (190, Used("blue", 18.75, 581.25, "1+31", "street, two films", 2)),
    (120, Used("blue", 18.75, 581.25, "1+31", "the choir", 2)),
    (75, Drew("blue", 187.5, 600.0, "the choir once more")),
    (75, TookBack),
    (75, Used("blue", 18.75, 581.25, "1+31", "the choir once more", 2)),
    (
        60,
        Note("blue", "The cap sticks; a brown rim on the neck, the syrup is clear."),
    ),
    (33, Used("blue", 9.375, 290.625, "1+31", "one film of the children", 1)),
    // Its bath, used twice too often.
    (24, Kept("blue", 10.0, 490.0, &BLUE_BATH)),
    (24, Moved("blue-bath", KITCHEN)),
    (24, Films("blue-bath", 2)),
    (17, Films("blue-bath", 2)),
    (5, Tested("blue-bath", TestKind::Clip, false, "leader only grey")),
    // The next bottle of it.
    (200, Came(&SPARE, 500.0, Some(0))),
    (200, Moved("blue-spare", CELLAR)),
    // A syrup in small bottles, full to the brim.
    (420, Came(&HONEY, 500.0, Some(0))),
    (420, Moved("honey", CELLAR)),
    (410, Used("honey", 30.0, 570.0, "1+19", "portraits", 2)),
    (405, Measured("honey", TestKind::Clip, 1010, 30, "by the watch")),
    (365, Used("honey", 30.0, 570.0, "1+19", "portraits", 2)),
    (360, Measured("honey", TestKind::Clip, 990, 30, "by the watch")),
    (330, Used("honey", 30.0, 570.0, "1+19", "four sheets", 1)),
    (300, Measured("honey", TestKind::Clip, 1000, 30, "by the watch")),
    (280, Used("honey", 30.0, 570.0, "1+19", "portraits", 2)),
    (230, Used("honey", 30.0, 570.0, "1+19", "a wedding", 2)),
    (229, Measured("honey", TestKind::Clip, 970, 30, "by the watch")),
    (175, Used("honey", 30.0, 570.0, "1+19", "portraits", 2)),
    (
        150,
        Decanted("honey", &["honey-1", "honey-2", "honey-3"], 106.0, &SMALL),
    ),
    (150, Discarded("honey", "only drops left in it")),
    (140, Used("honey-1", 30.0, 570.0, "1+19", "portraits", 2)),
    (139, Measured("honey-1", TestKind::Clip, 990, 30, "by the watch")),
    (101, Used("honey-1", 30.0, 570.0, "1+19", "four sheets", 1)),
    (100, Measured("honey-1", TestKind::Clip, 980, 30, "by the watch")),
    (66, Used("honey-1", 30.0, 570.0, "1+19", "portraits", 2)),
    (48, Used("honey-1", 16.0, 304.0, "1+19", "one film", 1)),
    // A stock from powder, and the one before.
    (400, Came(&EARLIER_GREY, 1000.0, Some(400))),
    (400, Moved("grey-old", KITCHEN)),
    (390, Used("grey-old", 125.0, 125.0, "1+1", "one film", 1)),
    (350, Used("grey-old", 250.0, 250.0, "1+1", "the lake", 2)),
    (300, Used("grey-old", 125.0, 125.0, "1+1", "one film", 1)),
    (240, Used("grey-old", 125.0, 125.0, "1+1", "one film", 1)),
    (140, Discarded("grey-old", "brown as tea")),
    (130, Came(&GREY, 1000.0, Some(130))),
    (130, Moved("grey", KITCHEN)),
    (128, Used("grey", 125.0, 125.0, "1+1", "one film", 1)),
    (110, Used("grey", 250.0, 250.0, "1+1", "the lake again", 2)),
    (62, Used("grey", 125.0, 125.0, "1+1", "one film", 1)),
    (62, Squeezed("grey")),
    // The fixer and its baths.
    (300, Came(&FIX, 1000.0, Some(0))),
    (300, Moved("fix", CUPBOARD)),
    (200, Kept("fix", 200.0, 800.0, &EARLIER_FIX_BATH)),
    (200, Moved("fix-bath-old", CUPBOARD)),
    (198, Measured("fix-bath-old", TestKind::Clearing, 1000, 50, "40 s")),
    (190, Films("fix-bath-old", 2)),
    (175, Films("fix-bath-old", 2)),
    (172, Measured("fix-bath-old", TestKind::Clearing, 952, 48, "42 s")),
    (140, Films("fix-bath-old", 2)),
    (138, Measured("fix-bath-old", TestKind::Clearing, 889, 45, "45 s")),
    (128, Films("fix-bath-old", 1)),
    (120, Films("fix-bath-old", 2)),
    (118, Measured("fix-bath-old", TestKind::Clearing, 833, 42, "48 s")),
    (110, Films("fix-bath-old", 2)),
    (101, Films("fix-bath-old", 1)),
    (99, Measured("fix-bath-old", TestKind::Clearing, 741, 37, "54 s")),
    (75, Films("fix-bath-old", 2)),
    (74, Measured("fix-bath-old", TestKind::Clearing, 667, 33, "60 s")),
    (66, Films("fix-bath-old", 2)),
    (62, Films("fix-bath-old", 1)),
    (55, Measured("fix-bath-old", TestKind::Clearing, 571, 29, "70 s")),
    (50, Discarded("fix-bath-old", "clears slowly; handed in for its silver")),
    (45, Kept("fix", 200.0, 800.0, &FIX_BATH)),
    (45, Moved("fix-bath", CUPBOARD)),
    (33, Films("fix-bath", 1)),
    (24, Films("fix-bath", 2)),
    (17, Films("fix-bath", 2)),
    (40, Measured("fix-bath", TestKind::Clearing, 1000, 50, "40 s, as fresh")),
    (
        7,
        Measured("fix-bath", TestKind::Clearing, 889, 45, "45 s, fresh it was 40 s"),
    ),
    // A stop bath, and a bottle of which nothing is known.
    (300, Came(&STOP, 500.0, Some(0))),
    (300, Moved("stop", CUPBOARD)),
    (200, Used("stop", 50.0, 950.0, "1+19", "stop bath", 0)),
    (120, Used("stop", 50.0, 950.0, "1+19", "stop bath", 0)),
    (45, Used("stop", 50.0, 950.0, "1+19", "stop bath", 0)),
    (520, Came(&NAMELESS, 0.0, None)),
    (520, Note("nameless", "It came with the enlarger.")),
    // What came to it later stands last, so that the names of all before it stay.
    (120, Developed(&CHOIR)),
    (66, Developed(&PORTRAITS)),
    (33, Developed(&CHILDREN)),
    (17, Developed(&STREET)),
];

//! The forms of what is done to a bottle: named text to what the ledger writes down.

use crate::fields::{
    AnyField, Choice, Climates, Containers, Counts, Fault, Field, Form, LIGHTS, Named, Names, Notes, Percents, Volumes,
};
use crate::kit::{Colour, Light, Treatment};
use crate::ledger::{BottleId, ContainerNote, Filled, TestResult, Thousandths, What};
use crate::proof::TestKind;
use crate::quantity::{Units, Volume, bounds};

/// A form of this kind: its name and its fields.
pub struct Deed {
    /// Name of its form.
    pub name: &'static str,
    /// Its fields, in the order of the form.
    pub fields: &'static [&'static dyn AnyField],
    read: fn(&mut Form, Doing) -> Option<Vec<What>>,
}

/// What it is done to, and with.
pub struct Doing<'a> {
    /// The bottle.
    pub bottle: BottleId,
    /// What is left in it; `None` where nobody knows.
    pub left: Option<Volume>,
    /// Whether it happened today: nobody knows what was left on an earlier day.
    pub today: bool,
    /// Gives a fresh name for each bottle that begins.
    pub fresh: &'a mut dyn FnMut() -> BottleId,
}

/// What is done about the air, as the form asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Air {
    Squeezed,
    Beads,
    Gas,
    Nothing,
}

/// What a test showed, as the form asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Showed {
    Passed,
    Failed,
    Measured,
}

const DRAWN: Field<Volumes> = Field::volume("volume", "Taken", &bounds::DRAWN).needed();
const PURPOSE: Field<Names> = Field::new("purpose", "For", Names);
const POURED_IN: Field<Volumes> = Field::volume("volume", "Poured in", &bounds::DRAWN).needed();
const LEFT: Field<Volumes> = Field::volume("left", "So much is left", &bounds::IN_BOTTLE).needed();
const AIR: Field<Choice<Air>> = Field::new(
    "air",
    "The air in it was",
    Choice(&[
        ("squeezed", "squeezed out", Air::Squeezed),
        ("beads", "displaced by beads", Air::Beads),
        ("gas", "driven out by gas", Air::Gas),
        ("nothing", "left as it was", Air::Nothing),
    ]),
)
.initial("squeezed");
const BEADS: Field<Volumes> = Field::volume("beads", "Beads, their own volume", &bounds::DRAWN);
const CONTAINERS: Field<Containers> =
    Field::new("containers", "Filled to the brim, in this order", Containers).needed();
const PLACE: Field<Names> = Field::new("place", "Stands now in", Names).needed();
const NAME: Field<Names> = Field::new("name", "Place", Names).needed();
const CLIMATE: Field<Climates> = Field::new("climate", "How warm it is there", Climates);
const LIGHT: Field<Choice<Light>> = Field::new("light", "Light there", Choice(&LIGHTS));
const TEST: Field<Choice<TestKind>> = Field::new(
    "test",
    "Which test",
    Choice(&[
        ("clip", "clip of film", TestKind::Clip),
        ("clearing", "clearing time", TestKind::Clearing),
        ("indicator", "indicator", TestKind::Indicator),
        ("silver", "residual silver", TestKind::ResidualSilver),
        ("thiosulfate", "residual thiosulfate", TestKind::ResidualThiosulfate),
        ("comparison", "two negatives", TestKind::Comparison),
        ("other", "another", TestKind::Other),
    ]),
)
.initial("clip");
const SHOWED: Field<Choice<Showed>> = Field::new(
    "result",
    "It came out",
    Choice(&[
        ("passed", "as with fresh", Showed::Passed),
        ("failed", "not as with fresh", Showed::Failed),
        ("measured", "measured, as below", Showed::Measured),
    ]),
)
.initial("passed");
const STRENGTH: Field<Percents> = Field::percent("strength", "Strength against fresh", &bounds::STRENGTH);
const REMARK: Field<Names> = Field::new("note", "Remark", Names);
const FILMS: Field<Counts> = Field::count("films", "Film units through it", &bounds::FILMS_THROUGH).needed();
const WHICH: Field<Names> = Field::new("which", "Which film", Names);
const NOTE: Field<Notes> = Field::new("text", "Note", Notes).needed();
const REASON: Field<Names> = Field::new("reason", "Why", Names);

/// The form of a place.
pub const PLACE_FORM: &str = "place";
/// Its fields, in the order of the form.
pub const PLACE_FIELDS: &[&dyn AnyField] = &[&NAME, &CLIMATE, &LIGHT];

/// The names of the forms, for a page that has not loaded them.
pub const DEED_NAMES: [&str; 10] = [
    "drawn",
    "treated",
    "decanted",
    "moved",
    "left",
    "topped-up",
    "tested",
    "films",
    "noted",
    "discarded",
];

/// Every form, in the order of the page.
pub const DEEDS: [Deed; 10] = [
    Deed {
        name: "drawn",
        fields: &[&DRAWN, &PURPOSE],
        read: draw,
    },
    Deed {
        name: "treated",
        fields: &[&AIR, &BEADS],
        read: treat,
    },
    Deed {
        name: "decanted",
        fields: &[&CONTAINERS],
        read: decant,
    },
    Deed {
        name: "moved",
        fields: &[&PLACE, &CLIMATE, &LIGHT],
        read: place,
    },
    Deed {
        name: "left",
        fields: &[&LEFT],
        read: look_in,
    },
    Deed {
        name: "topped-up",
        fields: &[&POURED_IN],
        read: pour_in,
    },
    Deed {
        name: "tested",
        fields: &[&TEST, &SHOWED, &STRENGTH, &REMARK],
        read: test,
    },
    Deed {
        name: "films",
        fields: &[&FILMS, &WHICH],
        read: films,
    },
    Deed {
        name: "noted",
        fields: &[&NOTE],
        read: note,
    },
    Deed {
        name: "discarded",
        fields: &[&REASON],
        read: discard,
    },
];

impl Deed {
    /// What is to be written down of that bottle.
    ///
    /// ```
    /// use meniscus::entries::{DEEDS, Doing};
    /// use meniscus::fields::Named;
    /// use meniscus::ledger::{BottleId, What};
    /// use meniscus::quantity::Units;
    ///
    /// let bottle = BottleId::new("blue-1")?;
    /// let typed = Named::from([("volume".to_owned(), "18.75".to_owned())]);
    /// let fresh = &mut || BottleId::new("blue-2").expect("a name");
    /// let doing = Doing { bottle, left: None, today: true, fresh };
    /// let what = DEEDS[0].read(&typed, Units::default(), doing);
    /// assert!(matches!(what.as_deref(), Ok([What::Drawn { .. }])));
    /// # Ok::<(), meniscus::ledger::IdError>(())
    /// ```
    ///
    /// # Errors
    /// All faults, each tied to its field.
    pub fn read(&self, named: &Named, units: Units, doing: Doing) -> Result<Vec<What>, Vec<Fault>> {
        let mut form = Form::new(named, units);
        form.refuse_unknown(self.fields);
        let what = (self.read)(&mut form, doing);
        match (what, form.into_faults()) {
            (Some(what), faults) if faults.is_empty() => Ok(what),
            (_, faults) => Err(faults),
        }
    }
}

/// What is said of a place.
///
/// # Errors
/// All faults, each tied to its field.
pub fn read_place(named: &Named, units: Units) -> Result<What, Vec<Fault>> {
    let mut form = Form::new(named, units);
    form.refuse_unknown(PLACE_FIELDS);
    let (place, climate, light) = (form.read(&NAME), form.read(&CLIMATE), form.read(&LIGHT));
    if climate.is_none() && light.is_none() && !form.at_fault("climate") {
        form.fault("climate", "say how warm it is there, or how light");
    }
    match (place, form.into_faults()) {
        (Some(place), faults) if faults.is_empty() => Ok(What::PlaceNoted { place, climate, light }),
        (_, faults) => Err(faults),
    }
}

fn draw(form: &mut Form, doing: Doing) -> Option<Vec<What>> {
    let (volume, purpose) = (form.read(&DRAWN), form.read(&PURPOSE));
    let bottle = doing.bottle;
    let left = doing.left.filter(|_| doing.today);
    let volume = within(volume?, left, form.units());
    let volume = volume.map_err(|clause| form.fault("volume", &clause)).ok();
    Some(vec![What::Drawn {
        bottle,
        volume: volume?,
        bath: None,
        dilution: None,
        purpose: purpose.unwrap_or_default(),
    }])
}

/// What can be drawn where so much is left: the rest of it, too, as it is shown.
///
/// # Errors
/// A clause that says how much is left.
pub fn within(volume: Volume, left: Option<Volume>, units: Units) -> Result<Volume, String> {
    match left {
        Some(left) if volume > left.max(units.shown_volume(left)) => Err(format!(
            "by its record {} is left in it; if there was more, first write down how much",
            units.volume(left)
        )),
        Some(left) => Ok(volume.min(left)),
        None => Ok(volume),
    }
}

fn treat(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let (air, beads) = (form.read(&AIR), form.read(&BEADS));
    if beads.is_some() && air.is_some_and(|air| air != Air::Beads) {
        form.fault("beads", "this volume belongs to beads; choose them above, or clear it");
    }
    let how = match air? {
        Air::Squeezed => Treatment::Squeezed,
        Air::Beads => Treatment::Beads(beads),
        Air::Gas => Treatment::InertGas,
        Air::Nothing => Treatment::Plain,
    };
    Some(vec![What::Treated { bottle, how }])
}

/// Containers that one entry of the ledger takes.
const MOST_AT_ONCE: usize = 40;

/// Each container is filled to its brim, the last as far as it goes.
fn decant(form: &mut Form, doing: Doing) -> Option<Vec<What>> {
    let containers = form.read(&CONTAINERS)?;
    if containers.len() > MOST_AT_ONCE {
        form.fault(
            "containers",
            &format!("one entry takes {MOST_AT_ONCE} containers; write the rest down after it"),
        );
        return None;
    }
    let mut left = doing.left;
    let mut into = Vec::new();
    for container in containers {
        let volume = left.map_or(container.brimful, |left| left.min(container.brimful));
        if volume <= Volume::ZERO {
            form.fault("containers", "there is less in the bottle than these hold; list fewer");
            return None;
        }
        left = left.map(|left| left - volume);
        into.push(Filled {
            bottle: (doing.fresh)(),
            container: ContainerNote {
                name: container.name,
                brimful: Some(container.brimful),
                nominal: container.nominal,
                material: Some(container.material),
                // Where no colour is written nobody said that light comes in.
                colour: (container.colour != Colour::Clear).then_some(container.colour),
                ..ContainerNote::default()
            },
            volume,
        });
    }
    let from = doing.bottle;
    Some(vec![What::Decanted { from, into }])
}

fn place(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let (place, climate, light) = (form.read(&PLACE), form.read(&CLIMATE), form.read(&LIGHT));
    let place = place?;
    let noted = (climate.is_some() || light.is_some()).then(|| What::PlaceNoted {
        place: place.clone(),
        climate,
        light,
    });
    let mut all: Vec<What> = noted.into_iter().collect();
    all.push(What::Moved { bottle, place });
    Some(all)
}

fn look_in(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let left = form.read(&LEFT)?;
    Some(vec![What::ContentNoted { bottle, left }])
}

fn pour_in(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let volume = form.read(&POURED_IN)?;
    Some(vec![What::ToppedUp {
        bottle,
        volume,
        from: None,
    }])
}

fn test(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let (test, showed) = (form.read(&TEST), form.read(&SHOWED));
    let (strength, note) = (form.read(&STRENGTH), form.read(&REMARK));
    if strength.is_some() && showed.is_some_and(|showed| showed != Showed::Measured) {
        form.fault(
            "strength",
            "this belongs to a measured strength; choose that above, or clear it",
        );
    }
    let result = match showed? {
        Showed::Passed => TestResult::Passed,
        Showed::Failed => TestResult::Failed,
        Showed::Measured => {
            if strength.is_none() && !form.at_fault("strength") {
                form.fault("strength", "say how strong it is against fresh, such as 95 %");
            }
            TestResult::Strength {
                strength: Thousandths::nearest(strength? / 100.0),
                uncertainty: None,
            }
        }
    };
    Some(vec![What::Tested {
        bottle,
        test: test?,
        result,
        note: note.unwrap_or_default(),
    }])
}

fn films(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let (films, which) = (form.read(&FILMS), form.read(&WHICH));
    Some(vec![What::FilmsThrough {
        bottle,
        units: Thousandths::nearest(f64::from(films?)),
        films: which.unwrap_or_default(),
    }])
}

fn note(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let text = form.read(&NOTE)?;
    Some(vec![What::Note {
        bottle: Some(bottle),
        text,
    }])
}

fn discard(form: &mut Form, Doing { bottle, .. }: Doing) -> Option<Vec<What>> {
    let reason = form.read(&REASON);
    Some(vec![What::Discarded {
        bottle,
        reason: reason.unwrap_or_default(),
    }])
}

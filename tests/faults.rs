//! Every bad input that a user can type, with the sentence that the user sees: each field of each form with each of a dozen
//! texts, one file a form, for people to read through; and what is still computed. Where a field takes a text, the file says
//! so.
#![cfg(not(target_arch = "wasm32"))]

use std::fmt::Write;

use meniscus::calculators::{self, Answer, Calculator, calculate};
use meniscus::entries::{self, DEEDS, Deed, Doing, Entry, Newcomer, PLACE_FIELDS, PLACE_FORM};
use meniscus::fields::{AnyField, Fault, Named};
use meniscus::kit::{Balance, House, Instrument, Kept, Kit, Tank};
use meniscus::ledger::{BottleId, What};
use meniscus::quantity::{Units, Volume};
use meniscus::view;

use golden::Golden;

#[path = "common/darkroom.rs"]
mod darkroom;
#[path = "common/golden.rs"]
mod golden;
#[path = "faults/markup.rs"]
mod markup;

/// What is typed into every field, and what to call it.
const TEXTS: &[(&str, &str)] = &[
    ("nothing", ""),
    ("blanks", "   "),
    ("words", "plenty"),
    ("negative", "-1"),
    ("zero", "0"),
    ("absurd", "999999999"),
    ("exponent", "1e30"),
    ("infinite", "inf"),
    ("not a number", "NaN"),
    ("wrong unit", "5 yards"),
    ("too many digits", "1234567890123.5"),
    ("two numbers", "6 45"),
    ("other digits", "٣٫٥"),
    ("script", "<script>alert(1)</script>"),
    ("quotes", "\"><img src=x onerror=alert(1)>"),
    ("very long", LONG),
];

/// Fields with what is typed into them.
type Pairs<'a> = &'a [(&'a str, &'a str)];

/// Longer than any field takes.
const LONG: &str =
    "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa";

fn named(pairs: Pairs) -> Named {
    pairs
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect()
}

/// What is said of one field, or that it is taken; faults of other fields are named.
fn said(faults: &[Fault], field: &str) -> String {
    let sentences: Vec<_> = faults
        .iter()
        .map(|fault| match fault.field == field {
            true => fault.sentence.clone(),
            false => format!("[{}] {}", fault.field, fault.sentence),
        })
        .collect();
    match sentences.is_empty() {
        true => "taken".to_owned(),
        false => sentences.join(" "),
    }
}

/// Every field with every text.
fn every_field(fields: &[&dyn AnyField], faults_of: impl Fn(&str, &str) -> Vec<Fault>) -> String {
    let mut text = String::new();
    for field in fields {
        let takes = field.takes(Units::default());
        writeln!(text, "{} ({}), takes {takes}", field.name(), field.label()).expect("text");
        for (what, typed) in TEXTS {
            let faults = faults_of(field.name(), typed);
            writeln!(text, "  {what:<16} {}", said(&faults, field.name())).expect("text");
        }
        text.push('\n');
    }
    text
}

/// Every field with the same text at once: all faults together.
fn all_at_once(fields: &[&dyn AnyField], faults_of: impl Fn(&Named) -> Vec<Fault>) -> String {
    let named: Named = fields
        .iter()
        .map(|field| (field.name().to_owned(), "<b>no</b>".to_owned()))
        .collect();
    let faults = faults_of(&named);
    let mut text = "every field with <b>no</b> in it\n".to_owned();
    for fault in &faults {
        writeln!(text, "  {:<16} {}", fault.field, fault.sentence).expect("text");
    }
    text
}

#[test]
fn every_field_of_every_form() {
    let mut golden = Golden::new("faults");
    for calculator in calculators::ALL {
        let answer = |named: &Named| calculator.answer(named, &darkroom::starter()).faults;
        let mut text = every_field(calculator.fields, |field, typed| {
            let mut fields = where_it_counts(calculator, field);
            fields.insert(field.to_owned(), typed.to_owned());
            answer(&fields)
        });
        text += &all_at_once(calculator.fields, answer);
        golden.check(calculator.name, &text);
    }
    entry::<Instrument>(
        &mut golden,
        &[("name", "syringe"), ("capacity", "10 ml"), ("graduation", "0.5 ml")],
    );
    entry::<Balance>(
        &mut golden,
        &[("name", "balance"), ("readability", "0.1 g"), ("most", "500 g")],
    );
    entry::<Tank>(
        &mut golden,
        &[("name", "tank"), ("brim", "650 ml"), ("per_135", "290 ml")],
    );
    entry::<Newcomer>(&mut golden, &[("product", "my syrup")]);
    entry::<House>(&mut golden, &[]);
    for deed in &DEEDS {
        golden.check(deed.name, &deed_faults(deed));
    }
    let place = |named: &Named| entries::read_place(named, Units::default()).err().unwrap_or_default();
    let mut text = every_field(PLACE_FIELDS, |field, typed| {
        let mut fields = named(&[("name", "cellar"), ("climate", "12 C")]);
        fields.insert(field.to_owned(), typed.to_owned());
        place(&fields)
    });
    text += &all_at_once(PLACE_FIELDS, place);
    golden.check(PLACE_FORM, &text);
    golden.check("fills-that-cannot-work", &fills());
    golden.check("kits-that-cannot-be", &kits());
    golden.finish();
}

/// Choices on which it hangs which of the other fields count.
const CHOICES: [(&str, &str, &[&str]); 4] = [
    ("clip", "judged", &["time", "meter"]),
    ("calibrate", "what", &["thermometer"]),
    ("spots", "spot", &["silver", "thiosulfate"]),
    ("weigh", "formula", &["own"]),
];

/// Nothing, or the choice with which a field counts that otherwise plays no part.
fn where_it_counts(calculator: &Calculator, field: &str) -> Named {
    let counts = |fields: &Named| {
        !calculator
            .answer(fields, &darkroom::starter())
            .passed_over
            .contains(&field)
    };
    let Some((_, choice, words)) = CHOICES.iter().find(|(name, ..)| *name == calculator.name) else {
        return Named::new();
    };
    let chosen = words.iter().map(|word| named(&[(*choice, *word)]));
    let mut all = std::iter::once(Named::new()).chain(chosen);
    all.find(counts).unwrap_or_default()
}

/// Every field of a Kit form, the others filled as they should be.
fn entry<T: Entry>(golden: &mut Golden, base: Pairs) {
    let faults = |named: &Named| entries::read::<T>(named, Units::default()).err().unwrap_or_default();
    assert_eq!(faults(&named(base)), [], "{}: the base is sound", T::FORM);
    let mut text = every_field(T::FIELDS, |field, typed| {
        let mut fields = named(base);
        fields.insert(field.to_owned(), typed.to_owned());
        faults(&fields)
    });
    text += &all_at_once(T::FIELDS, faults);
    golden.check(T::FORM, &text);
}

/// Every field of a form of what is done to a bottle, those that it needs filled as they should be.
fn deed_faults(deed: &Deed) -> String {
    let sound = named(&[
        ("volume", "20 ml"),
        ("left", "200 ml"),
        ("place", "cellar"),
        ("films", "2"),
        ("text", "new cap"),
        ("containers", "100 ml glass"),
    ]);
    let bottle = BottleId::new("own").expect("a name");
    let faults = |named: &Named| {
        let doing = Doing {
            bottle: bottle.clone(),
            left: Some(Volume::from_millilitres(480.0)),
            today: true,
            fresh: &mut || BottleId::new("fresh").expect("a name"),
        };
        deed.read(named, Units::default(), doing).err().unwrap_or_default()
    };
    let names: Vec<&str> = deed.fields.iter().map(|field| field.name()).collect();
    let base: Named = sound
        .into_iter()
        .filter(|(name, _)| names.contains(&name.as_str()))
        .collect();
    assert_eq!(faults(&base), [], "{}: the base is sound", deed.name);
    let text = every_field(deed.fields, |field, typed| {
        let mut fields = base.clone();
        fields.insert(field.to_owned(), typed.to_owned());
        faults(&fields)
    });
    let mut text = text + &all_at_once(deed.fields, faults);
    if deed.name == "drawn" {
        let said = faults(&named(&[("volume", "480.1 ml")]));
        writeln!(text, "more than the 480 ml that are left\n  {}", said[0].sentence).expect("text");
        // What is shown can be drawn, and no more than there is.
        for left in [480_004, 479_996].map(Volume::from_microlitres) {
            let doing = Doing {
                bottle: bottle.clone(),
                left: Some(left),
                today: true,
                fresh: &mut || BottleId::new("fresh").expect("a name"),
            };
            let whats = deed.read(&named(&[("volume", "480 ml")]), Units::default(), doing);
            let drawn = |what: &What| matches!(what, What::Drawn { volume, .. } if *volume <= left);
            assert!(whats.is_ok_and(|whats| whats.iter().all(drawn)), "{left:?}");
        }
    }
    text
}

/// What `fill` and `mix` say of fills that cannot work: only their cautions and faults, and whether the volumes still stand.
fn fills() -> String {
    let cases: &[(&str, &str, Pairs)] = &[
        ("does not cover", "fill", &[("total", "500 ml")]),
        ("exceeds the brim", "fill", &[("total", "700 ml")]),
        ("exceeds the brim by far", "fill", &[("total", "5 l")]),
        ("too many reels", "fill", &[("films_135", "5"), ("total", "650 ml")]),
        (
            "too many of two kinds",
            "fill",
            &[("films_135", "2"), ("films_120", "1")],
        ),
        ("film that the tank does not take", "fill", &[("sheets_4x5", "2")]),
        ("no such tank", "fill", &[("tank", "bathtub")]),
        ("no such bottle", "fill", &[("bottle", "gone")]),
        (
            "short of concentrate",
            "fill",
            &[("dilution", "1+50"), ("least_per_film", "6 ml")],
        ),
        (
            "short even undiluted",
            "fill",
            &[("dilution", "1+50"), ("least_per_film", "400 ml")],
        ),
        (
            "short, and a larger total does not fit",
            "fill",
            &[("dilution", "1+100"), ("least_per_film", "6 ml")],
        ),
        (
            "less than the kit can measure",
            "mix",
            &[("total", "10 ml"), ("dilution", "1+200")],
        ),
        (
            "more than the kit can measure",
            "mix",
            &[("total", "20 l"), ("dilution", "1+1")],
        ),
        (
            "too heavy for the balance",
            "mix",
            &[("dilution", "700 g/l"), ("total", "2 l")],
        ),
        (
            "too light for the balance",
            "mix",
            &[("dilution", "0.1 g/l"), ("total", "100 ml")],
        ),
        (
            "times that contradict each other",
            "mix",
            &[("times", "6 at 20 C; 9 at 24 C")],
        ),
        (
            "times too close together",
            "time",
            &[("times", "9 at 20 C; 6 at 20.1 C")],
        ),
        (
            "a line that is no time",
            "time",
            &[("times", "6:45 at 20 C\n5 min 30 s 72 F")],
        ),
        ("forty-one times", "time", &[("times", FORTY_ONE)]),
        (
            "a temperature that warms the tank",
            "mix",
            &[("temperature", "warm"), ("times", "6:45 at 20 C")],
        ),
    ];
    let mut text = String::new();
    for (what, calculator, fields) in cases {
        let answer = calculate(calculator, &named(fields), &darkroom::starter()).expect("a calculator");
        writeln!(text, "{what}: {calculator} {}", shown(fields)).expect("text");
        for fault in &answer.faults {
            writeln!(text, "  ! {}: {}", fault.field, fault.sentence).expect("text");
        }
        for figure in &answer.sheet.headline {
            writeln!(text, "  {}: {}", figure.label, figure.text()).expect("text");
        }
        let part = |title: &str| title.starts_with("Does it") || title.starts_with("Is it") || title == "Measure it";
        let data = view::data(&answer);
        for caution in data.cautions.iter().filter(|caution| !is_care(caution)) {
            writeln!(text, "  - {caution}").expect("text");
        }
        assert!(
            answer.sheet.parts.iter().any(|found| part(&found.title)) || !answer.faults.is_empty(),
            "{what}: nothing is said at all"
        );
        text.push('\n');
    }
    text
}

const FORTY_ONE: &str = "8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;\
    8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;\
    8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20;8 at 20";

fn shown(fields: Pairs) -> String {
    let pairs = fields.iter().map(|(name, text)| {
        let text = text.replace('\n', " / ");
        match text.len() > 40 {
            true => format!("{name}={}…", &text[..40]),
            false => format!("{name}={text}"),
        }
    });
    pairs.collect::<Vec<_>>().join(", ")
}

/// The usual cautions, which stand under every bath.
fn is_care(caution: &str) -> bool {
    [
        "Gloves on",
        "Label every bottle",
        "The product's safety",
        "Do not breathe",
    ]
    .iter()
    .any(|start| caution.starts_with(start))
}

/// What the Kit forms say of things that cannot be, though every field by itself is sound.
fn kits() -> String {
    let instruments: &[(&str, Pairs)] = &[
        ("steps wider than the whole", &[("graduation", "20 ml")]),
        ("more marks than any scale", &[("graduation", "0.001 ml")]),
        (
            "a single mark needs no step",
            &[("kind", "single_mark_pipette"), ("graduation", "")],
        ),
        ("a syringe needs a step", &[("graduation", "")]),
        ("a jug by a standard", &[("kind", "jug")]),
        ("a syringe by the cylinders' standard", &[("limits", "astm_a")]),
        ("an own figure that is missing", &[("limits", "own")]),
        ("a calibration that is missing", &[("limits", "calibrated")]),
        (
            "a calibration half there",
            &[("limits", "calibrated"), ("bias", "0.1 ml"), ("repeatability", "much")],
        ),
    ];
    let tanks: &[(&str, Pairs)] = &[
        ("a reel that needs more than the tank holds", &[("per_135", "700 ml")]),
        ("film of no kind at all", &[("per_135", "")]),
    ];
    let mut text = String::new();
    let mut write = |form: &str, what: &str, fields: Pairs, faults: Vec<Fault>| {
        writeln!(text, "{form}, {what}: {}", shown(fields)).expect("text");
        for fault in &faults {
            writeln!(text, "  ! {}: {}", fault.field, fault.sentence).expect("text");
        }
        if faults.is_empty() {
            writeln!(text, "  taken").expect("text");
        }
    };
    for (what, fields) in instruments {
        let mut all = named(&[("name", "it"), ("capacity", "10 ml"), ("graduation", "0.5 ml")]);
        all.extend(named(fields));
        write(
            "instrument",
            what,
            fields,
            entries::read::<Instrument>(&all, Units::default())
                .err()
                .unwrap_or_default(),
        );
    }
    for (what, fields) in tanks {
        let mut all = named(&[("name", "it"), ("brim", "650 ml"), ("per_135", "290 ml")]);
        all.extend(named(fields));
        write(
            "tank",
            what,
            fields,
            entries::read::<Tank>(&all, Units::default()).err().unwrap_or_default(),
        );
    }
    text
}

/// With any one field of `mix` spoilt but those that the volumes need, the volumes still stand.
#[test]
fn one_bad_field_leaves_the_rest() {
    let mix = calculators::find("mix").expect("mix");
    for field in mix.fields {
        for (what, typed) in TEXTS {
            let answer = mix.answer(&named(&[(field.name(), typed)]), &darkroom::starter());
            if ["total", "dilution"].contains(&field.name()) {
                continue;
            }
            let concentrate = answer
                .sheet
                .figure("concentrate")
                .unwrap_or_else(|| panic!("{}: {what}", field.name()));
            assert_eq!(concentrate.shown, "18.75 ml", "{}: {what}", field.name());
        }
    }
    // Of the two that the volumes need, the other is still told.
    let no_total = mix.answer(
        &named(&[("total", "some"), ("times", "6:45 at 20")]),
        &darkroom::starter(),
    );
    assert_eq!(no_total.sheet.figure("time").expect("a time").shown, "6:45");
    let no_dilution = mix.answer(&named(&[("dilution", "some")]), &darkroom::starter());
    assert_eq!(no_dilution.sheet.figure("total").expect("a total").shown, "600 ml");
}

/// A kit whose every name is hostile.
fn hostile_kit() -> Kit {
    let mut kit = Kit::starter();
    let name = |what: &str| format!("{what}\"><img src=x onerror=alert(1)><script>alert('1')</script>&amp;");
    kit.instruments.iter_mut().for_each(|kept| kept.item.name = name("i"));
    kit.balances.iter_mut().for_each(|kept| kept.item.name = name("b"));
    kit.tanks.iter_mut().for_each(|kept| kept.item.name = name("t"));
    let product = entries::read::<Newcomer>(
        &named(&[("product", "p"), ("density", "1.3"), ("times", "6 at 20; 5 at 22")]),
        Units::default(),
    );
    let mut bottle = product.expect("a bottle").is.label;
    bottle.product = name("p");
    kit.bottles.push(Kept {
        id: "own".to_owned(),
        item: bottle,
    });
    kit
}

/// Nothing that is typed, kept or named becomes markup.
#[test]
fn nothing_is_executed() {
    let darkroom = darkroom::with(hostile_kit());
    for calculator in calculators::ALL {
        for field in calculator.fields {
            for (_, typed) in TEXTS {
                let answer = calculator.answer(&named(&[(field.name(), typed)]), &darkroom);
                sound(&answer);
            }
        }
        let with_bottle = named(&[("bottle", "own")]);
        let known = calculator.fields.iter().any(|field| field.name() == "bottle");
        sound(&calculator.answer(if known { &with_bottle } else { const { &Named::new() } }, &darkroom));
    }
}

fn sound(answer: &Answer) {
    markup::check(&view::sheet(answer));
}

/// The lists and notices of the page, with hostile names, keys and records.
#[test]
fn nothing_is_executed_around_the_sheets() {
    use meniscus::store::{RecordError, Unread};
    let bad = "\"><img src=x onerror=alert(1)><script>alert('1')</script>&amp;";
    let thing = view::Thing {
        id: bad.to_owned(),
        name: bad.to_owned(),
        summary: bad.to_owned(),
        has_form: true,
    };
    let unread = Unread {
        key: bad.to_owned(),
        text: bad.to_owned(),
        why: RecordError::Content(bad.to_owned()),
    };
    markup::check(&view::things(&[thing], bad).into_string());
    markup::check(&view::things(&[], bad).into_string());
    markup::check(&view::options(&[(bad.to_owned(), bad.to_owned())]).into_string());
    markup::check(&view::trouble(&[bad.to_owned()], &[unread]).into_string());
    markup::check(&view::undo(bad, bad, bad).into_string());
}

//! Developings as they went: their written form, what the shelf gives of them, and that they cost the rest nothing.

use meniscus::development::drift::Onward;
use meniscus::ledger::{
    self, Event, Shelf, What, recipe_from_text, recipe_to_text, session_from_text, session_to_text,
};
use meniscus::quantity::{Dilution, Span, Temperature, Units, Volume};
use meniscus::session::{Agitation, Bath, Made, Rate, Recipe, Session, Step, StepKind, Went};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

use crate::generator::{day, event};
use crate::short::{FIRST, added, fold, undo};

const DEVELOPED_1: &str = include_str!("developed-1.txt");

fn seconds(seconds: f64) -> Span {
    Span::from_seconds(seconds)
}

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius)
}

/// A session with everything that can be said of one.
fn whole() -> Session {
    let step = |kind, time| Step {
        kind,
        name: String::new(),
        time: seconds(time),
        temperature: None,
        agitation: None,
    };
    let mut steps: Vec<Step> = StepKind::ALL.into_iter().map(|kind| step(kind, 30.0)).collect();
    steps[1] = Step {
        kind: StepKind::Develop,
        name: "First bath, “slow”".to_owned(),
        time: seconds(405.5),
        temperature: Some(celsius(20.25)),
        agitation: Some(Agitation {
            first: seconds(30.0),
            each: seconds(10.0),
            every: seconds(60.0),
        }),
    };
    let bath = |kind, bottle: &str, words: &str, made| Bath {
        kind,
        bottle: bottle.to_owned(),
        words: words.to_owned(),
        made,
    };
    let mixed = |concentrate, water, dilution: &str| Made::Mixed {
        concentrate: Volume::from_millilitres(concentrate),
        water: Volume::from_millilitres(water),
        dilution: dilution.parse().expect("a dilution"),
    };
    let went = |step, began, lasted, due| Went {
        step,
        began: seconds(began),
        lasted: seconds(lasted),
        due: seconds(due),
        paused: Span::ZERO,
        readings: Vec::new(),
    };
    let pairs = |pairs: &[(&str, &str)]| {
        let owned = pairs
            .iter()
            .map(|(one, other)| ((*one).to_owned(), (*other).to_owned()));
        owned.collect()
    };
    Session {
        recipe: Recipe {
            title: "Harbour, two films".to_owned(),
            films: "two of 135, box speed".to_owned(),
            units: 2.25,
            steps,
            baths: vec![
                bath(
                    StepKind::Develop,
                    "blue-1",
                    "Blue Syrup 1+31",
                    mixed(18.75, 581.25, "1+31"),
                ),
                bath(StepKind::Stop, "", "water", mixed(0.0, 600.0, "stock")),
                bath(StepKind::Fix, "fix-bath", "Clear Fix bath", Made::Reused),
                bath(StepKind::Other, "", "", mixed(12.0, 588.0, "20 g/l")),
            ],
            rate: Some(Rate {
                activation: 79_500.0,
                is_assumed: None,
                at: celsius(20.0),
                onward: Onward::Held,
            }),
            figures: pairs(&[("Concentrate", "18.75 ml ± 0.3 ml"), ("Total", "600 ml")]),
            form: pairs(&[("total", "600 ml"), ("dilution", "1:31"), ("note", "a\n\"b\"\\c")]),
        },
        began: 1_772_355_600_123,
        steps: vec![
            went(0, 0.0, 61.0, 30.0),
            Went {
                paused: seconds(4.5),
                readings: vec![(seconds(0.0), celsius(20.4)), (seconds(200.125), celsius(-0.001))],
                ..went(1, 70.0, 398.75, 400.0)
            },
            went(1, 480.0, 10.0, 0.0),
            went(8, 500.0, 0.0, 30.0),
        ],
        doubts: vec!["The device slept for 0:12 in step 2.".to_owned(), String::new()],
        note: "Leader dense; the rest\tas it should.\n— tap 11 °C".to_owned(),
    }
}

/// The least that is one.
fn bare() -> Session {
    Session {
        recipe: Recipe {
            title: String::new(),
            films: String::new(),
            units: 0.0,
            steps: vec![Step {
                kind: StepKind::Develop,
                name: String::new(),
                time: seconds(0.001),
                temperature: None,
                agitation: None,
            }],
            baths: Vec::new(),
            rate: None,
            figures: Vec::new(),
            form: Vec::new(),
        },
        began: 0,
        steps: Vec::new(),
        doubts: Vec::new(),
        note: String::new(),
    }
}

fn developed(session: &Session) -> What {
    What::Developed {
        text: session_to_text(session),
    }
}

/// What the file holds: two sessions, one that nobody can read, and one that is taken back.
fn written() -> Vec<Event> {
    let at = |number: u128, what| event(number, day(FIRST) + number as i32, 0, what);
    let mut events = vec![
        at(1, developed(&whole())),
        at(2, developed(&bare())),
        at(
            3,
            What::Developed {
                text: r#"{"recipe":{"title":"from tomorrow","units_thousandths":1000,"steps":[{"kind":"develop","time_ms":60000}],"smell":"strong"},"began_ms":0,"steps":[]}"#
                    .to_owned(),
            },
        ),
        at(4, developed(&bare())),
    ];
    events.push(at(5, undo(&events[3])));
    events
}

#[test]
fn the_file_reads_as_what_was_written_and_is_written_as_it_was() {
    let import = ledger::import(DEVELOPED_1);
    assert_eq!((import.complaints.len(), import.rejections), (0, 0));
    assert_eq!(import.ledger.events, written());
    assert_eq!(ledger::export(&import.ledger, day("2026-03-10")), DEVELOPED_1);
    let shelf = Shelf::fold(import.ledger.events, day("2026-03-10"));
    let sessions: Vec<_> = shelf.sessions().map(|(event, session)| (event.id, session)).collect();
    let events = written();
    let damaged = Err("it says something of “smell”".to_owned());
    assert_eq!(
        sessions,
        [
            (events[2].id, damaged.map(|()| bare())),
            (events[1].id, Ok(bare())),
            (events[0].id, Ok(whole()))
        ]
    );
}

#[test]
fn it_is_said_in_words() {
    let shelf = Shelf::fold(written(), day("2026-03-10"));
    let words: Vec<String> = shelf
        .events
        .iter()
        .map(|event| shelf.words(event, None, Units::default()))
        .collect();
    assert_eq!(
        words,
        [
            "developed: Harbour, two films",
            "developed",
            "developed; how cannot be read: it says something of “smell”",
            "developed",
            "took back: developed (2026-03-05)",
        ]
    );
}

#[test]
fn it_changes_no_bottle_and_is_taken_back_like_anything_else() {
    let alone = fold(vec![added("blue-1", Some(500.0))]);
    let mut whats = vec![added("blue-1", Some(500.0)), developed(&whole())];
    let with = fold(whats.clone());
    assert_eq!((&with.bottles, &with.problems), (&alone.bottles, &alone.problems));
    assert_eq!(with.sessions().count(), 1);
    whats.push(undo(&with.events[1]));
    let undone = fold(whats.clone());
    assert_eq!((&undone.bottles, undone.sessions().count()), (&alone.bottles, 0));
    whats.push(undo(&undone.events[2]));
    assert_eq!(fold(whats).sessions().count(), 1);
}

/// What is wrong with a text, in the words that stand in the log.
#[track_caller]
fn refused(damage: (&str, &str), sentence: &str) {
    let text = session_to_text(&whole());
    assert!(text.contains(damage.0), "{text} has no {}", damage.0);
    let damaged = text.replacen(damage.0, damage.1, 1);
    assert_eq!(session_from_text(&damaged), Err(sentence.to_owned()), "{damaged}");
}

#[test]
fn every_damage_has_a_sentence() {
    let no_time = |ms: &str| format!("{ms} ms is no time for this");
    let long = |count: usize| format!(r#""title":"{}""#, "x".repeat(count));
    let title = r#""title":"Harbour, two films""#;
    let cases: &[((&str, &str), &str)] = &[
        (("{\"recipe\"", "\"recipe\""), "it has no parts with names"),
        (("\"began_ms\":1772355600123,", ""), "“began_ms” is missing"),
        (("1772355600123", "-1"), "-1 ms is no moment since 1970"),
        (("1772355600123", "1.5"), "“began_ms” is no whole number"),
        ((title, r#""title":7"#), "“title” is no text"),
        ((title, r#""title":"x","mood":"good""#), "it says something of “mood”"),
        ((title, &long(201)), "a text is longer than 200 characters"),
        (("\"prewet\"", "\"toning\""), "there is no “toning”"),
        (("\"kind\":\"prewet\",", ""), "“kind” is missing"),
        (("\"time_ms\":30000", "\"time_ms\":0"), &no_time("0")),
        (("\"time_ms\":30000", "\"time_ms\":604800001"), &no_time("604800001")),
        (("\"lasted_ms\":61000", "\"lasted_ms\":-61000"), &no_time("-61000")),
        (("\"paused_ms\":4500", "\"paused_ms\":-1"), &no_time("-1")),
        (
            ("\"temperature_mc\":20250", "\"temperature_mc\":202500"),
            "the temperature is out of range: 202500",
        ),
        (("\"mc\":20400", "\"mc\":\"20\""), "“mc” is no whole number"),
        (
            ("\"every_ms\":60000", "\"every_ms\":9999"),
            "it is agitated again before it was",
        ),
        (("\"each_ms\":10000,", ""), "“each_ms” is missing"),
        (
            ("\"units_thousandths\":2250", "\"units_thousandths\":-1"),
            "-1 thousandths is no amount of film",
        ),
        (("2250", "1000001"), "1000001 thousandths is no amount of film"),
        (("79500", "0"), "0 J/mol is no activation energy"),
        (("79500", "1000001"), "1000001 J/mol is no activation energy"),
        (("\"at_mc\":20000", "\"at_mf\":20000"), "“at_mc” is missing"),
        (("\"step\":8", "\"step\":9"), "its recipe has no step 9"),
        (("\"step\":8", "\"step\":-1"), "its recipe has no step -1"),
        (
            ("\"made\":\"reused\"", "\"made\":\"borrowed\""),
            "there is no “borrowed”",
        ),
        (("\"made\":\"reused\"", "\"make\":\"reused\""), "“made” is missing"),
        (
            ("\"concentrate_ul\":18750", "\"concentrate_ul\":-1"),
            "-1 µl is no volume for this",
        ),
        (
            ("\"dilution\":\"1+31\"", "\"dilution\":\"1/31\""),
            &"1/31".parse::<Dilution>().expect_err("two readings").to_string(),
        ),
        ((",\"dilution\":\"1+31\"", ""), "“dilution” is missing"),
        (
            ("\"bottle\":\"blue-1\"", "\"bottle\":\" \""),
            &meniscus::ledger::IdError::Bottle.to_string(),
        ),
        (("\"says\":\"\"", "\"say\":\"\""), "“says” is missing"),
        (("\"dilution\":\"1:31\"", "\"total\":\"1:31\""), "“total” stands twice"),
        (("\"form\":{", "\"form\":[{"), "it has no parts with names"),
        (("\"shown\":\"600 ml\"", "\"shown\":600"), "“shown” is no text"),
    ];
    for (damage, sentence) in cases {
        refused(*damage, sentence);
    }
    let nothing_to_do = session_to_text(&Session {
        recipe: Recipe {
            steps: Vec::new(),
            ..bare().recipe
        },
        ..bare()
    });
    assert_eq!(
        session_from_text(&nothing_to_do),
        Err("“steps” has no parts".to_owned())
    );
}

/// Cut anywhere, it is none: never half a session.
#[test]
fn half_a_text_is_no_session() {
    let text = session_to_text(&whole());
    for (end, _) in text.char_indices() {
        let why = session_from_text(&text[..end]).expect_err("half of it");
        assert!(!why.is_empty() && !why.ends_with('.'), "{why}");
    }
    assert_eq!(session_from_text(&text), Ok(whole()));
}

#[test]
fn counts_and_lengths_are_bounded() {
    let many = |count: usize| {
        let mut session = whole();
        session.steps = vec![session.steps[0].clone(); count];
        session_from_text(&session_to_text(&session)).err()
    };
    assert_eq!(many(100), None);
    assert_eq!(many(101).as_deref(), Some("“steps” has more than 100 parts"));
    let steps = |count: usize| {
        let mut recipe = whole().recipe;
        recipe.steps = vec![recipe.steps[0].clone(); count];
        recipe_from_text(&recipe_to_text(&recipe)).err()
    };
    assert_eq!(steps(40), None);
    assert_eq!(steps(41).as_deref(), Some("“steps” has more than 40 parts"));
    let fields = |count: usize| {
        let mut recipe = whole().recipe;
        recipe.form = (0..count).map(|field| (field.to_string(), String::new())).collect();
        recipe_from_text(&recipe_to_text(&recipe)).err()
    };
    assert_eq!(fields(200), None);
    assert_eq!(fields(201).as_deref(), Some("“form” has more than 200 parts"));
    let noted = |count: usize| {
        let note = "é".repeat(count);
        session_from_text(&session_to_text(&Session { note, ..bare() })).err()
    };
    assert_eq!(noted(4_000), None);
    assert_eq!(noted(4_001).as_deref(), Some("a text is longer than 4000 characters"));
    let all = |count: usize| {
        let mut session = bare();
        session.doubts = vec!["\"".repeat(1_000); count];
        session_to_text(&session)
    };
    assert_eq!(session_from_text(&all(23)).err(), None);
    assert_eq!(
        session_from_text(&all(25)).err().as_deref(),
        Some("it is longer than any session")
    );
    // The longest is still an event with all its marks escaped twice; what is longer is refused before it is kept.
    for (count, kept) in [(23, true), (25, false)] {
        let text = all(count);
        let whole = event(1, day(FIRST), 0, What::Developed { text });
        assert_eq!(
            ledger::append(&meniscus::store::Memory::default(), &whole).is_ok(),
            kept
        );
    }
}

fn a_span(least: i64) -> impl Strategy<Value = Span> {
    (least..=604_800_000_i64).prop_map(|ms| seconds(ms as f64 / 1e3))
}

fn a_temperature() -> impl Strategy<Value = Temperature> {
    (-50_000..=150_000_i64).prop_map(|mc| celsius(mc as f64 / 1e3))
}

fn a_kind() -> impl Strategy<Value = StepKind> {
    select(&StepKind::ALL[..])
}

fn words() -> impl Strategy<Value = String> {
    prop_oneof![
        "[a-z]{0,12}",
        "\\PC{0,40}",
        any::<String>().prop_map(|text| text.chars().take(200).collect())
    ]
}

fn an_agitation() -> impl Strategy<Value = Agitation> {
    (a_span(0), a_span(0), a_span(0)).prop_map(|(first, one, other)| Agitation {
        first,
        each: one.min(other),
        every: one.max(other),
    })
}

fn a_step() -> impl Strategy<Value = Step> {
    (
        a_kind(),
        words(),
        a_span(1),
        option::of(a_temperature()),
        option::of(an_agitation()),
    )
        .prop_map(|(kind, name, time, temperature, agitation)| Step {
            kind,
            name,
            time,
            temperature,
            agitation,
        })
}

fn a_bath() -> impl Strategy<Value = Bath> {
    let volume = || (0..=1_000_000_000_i64).prop_map(Volume::from_microlitres);
    let dilution = select(&["1+31", "1+1+100", "stock", "1+3 then 1+7", "20 g/l", "1+0.5"][..]);
    let made = prop_oneof![
        Just(Made::Reused),
        (volume(), volume(), dilution).prop_map(|(concentrate, water, dilution)| Made::Mixed {
            concentrate,
            water,
            dilution: dilution.parse().expect("a dilution"),
        })
    ];
    (a_kind(), "[a-z0-9 -]{0,30}[a-z]|", words(), made).prop_map(|(kind, bottle, words, made)| Bath {
        kind,
        bottle,
        words,
        made,
    })
}

fn a_recipe() -> impl Strategy<Value = Recipe> {
    let onward = option::of((a_temperature(), 1_000..=86_400_000_i64));
    let rate = option::of((1..=1_000_000_i64, option::of(any::<bool>()), a_temperature(), onward));
    let form = proptest::collection::btree_map(words(), words(), 0..6);
    (
        (words(), words(), 0..=1_000_000_i64),
        vec(a_step(), 1..6),
        vec(a_bath(), 0..4),
        rate,
        vec((words(), words()), 0..6),
        form,
    )
        .prop_map(|((title, films, units), steps, baths, rate, figures, form)| Recipe {
            title,
            films,
            units: units as f64 / 1e3,
            steps,
            baths,
            rate: rate.map(|(activation, is_assumed, at, onward)| Rate {
                activation: activation as f64,
                is_assumed,
                at,
                onward: onward.map_or(Onward::Held, |(room, tau)| Onward::Towards {
                    room,
                    tau: Span::from_milliseconds(tau),
                }),
            }),
            figures,
            form: form.into_iter().collect(),
        })
}

fn a_session() -> impl Strategy<Value = Session> {
    let went = (
        any::<usize>(),
        (a_span(0), a_span(0), a_span(0), a_span(0)),
        vec((a_span(0), a_temperature()), 0..5),
    );
    let began = 0..=(1_i64 << 48) - 1;
    (a_recipe(), began, vec(went, 0..8), vec(words(), 0..4), words()).prop_map(
        |(recipe, began, steps, doubts, note)| Session {
            steps: steps
                .into_iter()
                .map(|(step, (began, lasted, due, paused), readings)| Went {
                    step: step % recipe.steps.len(),
                    began,
                    lasted,
                    due,
                    paused,
                    readings,
                })
                .collect(),
            recipe,
            began,
            doubts,
            note,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_written_is_read(session in a_session()) {
        let text = session_to_text(&session);
        prop_assert_eq!(session_from_text(&text), Ok(session.clone()));
        prop_assert_eq!(recipe_from_text(&recipe_to_text(&session.recipe)), Ok(session.recipe.clone()));
        // In an event, and by a second reader of JSON.
        let kept = event(1, day(FIRST), 0, What::Developed { text: text.clone() });
        prop_assert_eq!(Event::from_text(&kept.to_text()), Ok(kept));
        let value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        prop_assert_eq!(value["recipe"]["title"].as_str(), Some(session.recipe.title.as_str()));
        prop_assert_eq!(value["recipe"]["steps"].as_array().map(Vec::len), Some(session.recipe.steps.len()));
    }

    #[test]
    fn any_text_is_read_or_refused_in_words(text in ".{0,200}", cut in 0..400_usize) {
        let sound = session_to_text(&whole());
        let at = sound.char_indices().map(|(at, _)| at).nth(cut).unwrap_or(0);
        for text in [text.clone(), format!("{}{text}{}", &sound[..at], &sound[at..])] {
            match session_from_text(&text) {
                Ok(session) => prop_assert_eq!(session_from_text(&session_to_text(&session)), Ok(session)),
                Err(why) => prop_assert!(!why.is_empty()),
            }
        }
    }
}

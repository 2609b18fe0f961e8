//! A day's steps: a line is read as it is shown, a blank line changes nothing, the whole is its parts, and what is said of more
//! film never makes a bath better.

use meniscus::calculators::calculate;
use meniscus::fields::Named;
use meniscus::kit::Kit;
use meniscus::ledger::{recipe_from_text, recipe_to_text};
use meniscus::proof::Longer;
use meniscus::quantity::{Span, Temperature, Units};
use meniscus::session::{Agitation, Line, Made, Recipe, StepKind, read_lines};
use meniscus::sheet::{Item, Onward, Sheet};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample;

use super::things::{all_units, units};
use super::{close, darkroom, tries};

const NAMES: [&str; 12] = [
    "prewet",
    "Developer",
    "stop bath",
    "fix",
    "second fix",
    "rinse 2",
    "wash-aid",
    "final wash",
    "wetting agent",
    "tone in sulfide",
    "Entwickeln",
    "stop it, please",
];

fn seconds(least: u32, most: u32) -> impl Strategy<Value = Span> {
    (least * 4..most * 4).prop_map(|quarters| Span::from_seconds(f64::from(quarters) / 4.0))
}

fn agitation() -> impl Strategy<Value = Agitation> {
    let nothing = Span::from_seconds(0.0);
    let first = option::of(seconds(1, 60)).prop_map(move |first| first.unwrap_or(nothing));
    let pulse = option::of((seconds(1, 60), seconds(60, 600)));
    (first, pulse).prop_filter_map("agitation at all", move |(first, pulse)| {
        let (each, every) = pulse.unwrap_or((nothing, nothing));
        (first > nothing || each > nothing).then_some(Agitation { first, each, every })
    })
}

/// Any line that a user may write: its time is not shorter than its first agitation.
fn line() -> impl Strategy<Value = Line> {
    let name = sample::select(NAMES[..11].to_vec());
    let warm = option::of((2_000i32..55_000).prop_map(|milli| Temperature::from_celsius(f64::from(milli) / 1e3)));
    (name, seconds(60, 40_000), any::<bool>(), warm, option::of(agitation())).prop_map(
        |(name, time, has_time, temperature, agitation)| Line {
            kind: StepKind::of_name(name),
            name: name.to_owned(),
            // A name that ends with a number wants its time behind it.
            time: (has_time || name.ends_with('2')).then_some(time),
            temperature,
            agitation,
        },
    )
}

fn same_span(one: Span, other: Span) -> bool {
    close(one.seconds(), other.seconds(), 1e-3)
}

fn same_agitation(one: Agitation, other: Agitation) -> bool {
    same_span(one.first, other.first) && same_span(one.each, other.each) && same_span(one.every, other.every)
}

fn same(one: &Line, other: &Line) -> bool {
    let warm = |line: &Line| line.temperature.map(Temperature::millidegrees);
    (one.kind, &one.name, warm(one)) == (other.kind, &other.name, warm(other))
        && one.time.is_some() == other.time.is_some()
        && one
            .time
            .zip(other.time)
            .is_none_or(|(one, other)| same_span(one, other))
        && one.agitation.is_some() == other.agitation.is_some()
        && one
            .agitation
            .zip(other.agitation)
            .is_none_or(|(one, other)| same_agitation(one, other))
}

fn answer(pairs: &[(&str, &str)]) -> (Sheet, usize) {
    let named: Named = pairs
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect();
    let answer = calculate("steps", &named, &with_a_fixer(4_000)).expect("steps");
    (answer.sheet, answer.faults.len())
}

/// A litre of fixer through which so many thousandths of film units went, and that takes 16 of them.
fn with_a_fixer(thousandths: u32) -> meniscus::darkroom::Darkroom {
    let mut events = vec![
        r#"{"day":"2026-02-01","what":"added","bottle":"fix-1","is":{"product":"Clear bath","class":"fixer","container":{"brimful_ul":1040000,"material":"glass"},"films_per_litre_thousandths":16000,"full_days":90},"filled_ul":1000000,"opened":{"on":"2026-02-01"}}"#.to_owned(),
    ];
    if thousandths > 0 {
        events.push(format!(
            r#"{{"day":"2026-02-10","what":"films_through","bottle":"fix-1","units_thousandths":{thousandths}}}"#
        ));
    }
    darkroom::with_events(Kit::starter(), &events)
}

fn fixed(thousandths: u32, longer: &str) -> f64 {
    let pairs = [
        ("recipe", "develop 8:00; stop 0:30; fix 5:00; wash 10:00"),
        ("fixer", "fix-1"),
        ("longer", longer),
    ];
    let named: Named = pairs.map(|(name, text)| (name.to_owned(), text.to_owned())).into();
    let answer = calculate("steps", &named, &with_a_fixer(thousandths)).expect("steps");
    assert_eq!(answer.faults, []);
    answer.sheet.figure("fix").expect("a time").value
}

/// The recipe with times to the millisecond, as it is written.
fn to_the_millisecond(recipe: &Recipe) -> Recipe {
    let round = |span: Span| Span::from_seconds((span.seconds() * 1e3).round() / 1e3);
    let mut recipe = recipe.clone();
    for step in &mut recipe.steps {
        step.time = round(step.time);
        step.temperature = step
            .temperature
            .map(|warm| Temperature::from_celsius(warm.millidegrees() as f64 / 1e3));
    }
    recipe
}

proptest! {
    #![proptest_config(tries(500))]

    #[test]
    fn a_line_is_read_as_it_is_shown(line in line(), units in units()) {
        let text = line.text(units);
        let read = Line::read(&text, units);
        prop_assert!(read.as_ref().is_ok_and(|read| same(read, &line)), "{text}: {read:?}");
        // As it is shown again, too: showing says all of it.
        prop_assert_eq!(read.expect("a line").text(units), text);
    }

    #[test]
    fn a_blank_line_changes_nothing(lines in vec(line(), 1..8), at in 0usize..8, blank in sample::select(vec!["", "  ", "\t"])) {
        let units = Units::default();
        let mut texts: Vec<String> = lines.iter().map(|line| line.text(units)).collect();
        let before = read_lines(&texts.join("\n"), units);
        texts.insert(at.min(texts.len()), blank.to_owned());
        prop_assert_eq!(read_lines(&texts.join("\n"), units), before);
    }

    #[test]
    fn the_whole_is_the_sum_of_its_steps(lines in vec(line(), 1..10)) {
        let units = Units::default();
        let lines: Vec<Line> = lines.into_iter().map(|line| Line { time: line.time.or(Some(Span::from_minutes(2.0))), ..line }).collect();
        let texts: Vec<String> = lines.iter().map(|line| line.text(units)).collect();
        let (sheet, faults) = answer(&[("recipe", &texts.join("\n"))]);
        prop_assert_eq!(faults, 0, "{:?}", texts);
        let sum: f64 = lines.iter().filter_map(|line| line.time).map(Span::seconds).sum();
        prop_assert!(close(sheet.figure("length").expect("length").value, sum, 1e-2));
        let recipe = sheet.recipe.expect("nothing is missing");
        prop_assert!(close(recipe.length().seconds(), sum, 1e-2));
        prop_assert_eq!(recipe.steps.len(), lines.len());
        for (step, line) in recipe.steps.iter().zip(&lines) {
            prop_assert_eq!((step.kind, &step.name), (line.kind, &line.name));
        }
    }

    /// Whatever is kept of it is read back.
    #[test]
    fn a_recipe_outlives_the_day(lines in vec(line(), 1..10), own in any::<bool>()) {
        let units = Units::default();
        let texts: Vec<String> = lines
            .into_iter()
            .map(|line| {
                let time = line.time.or(Some(Span::from_minutes(2.0))).filter(|_| own || line.kind != StepKind::Develop);
                Line { time, agitation: line.agitation.filter(|_| time.is_some()), ..line }.text(units)
            })
            .collect();
        let (sheet, _) = answer(&[
            ("recipe", &texts.join("\n")),
            ("times", "10 at 20 C; 8:15 at 22 C"),
            ("fixer", "fix-1"),
            ("films_120", "1"),
        ]);
        if let Some(recipe) = sheet.recipe {
            let again = recipe_from_text(&recipe_to_text(&recipe));
            let again = again.map_err(TestCaseError::fail)?;
            let close_to = to_the_millisecond(&recipe);
            prop_assert_eq!(&again.steps.len(), &close_to.steps.len());
            prop_assert_eq!((&again.title, &again.films, &again.baths, &again.figures, &again.form),
                (&close_to.title, &close_to.films, &close_to.baths, &close_to.figures, &close_to.form));
            prop_assert_eq!(again.rate.is_some(), close_to.rate.is_some());
        } else {
            prop_assert!(!own);
        }
    }

    #[test]
    fn longer_never_shortens(films in 0.0f64..100.0, more in 0.0f64..50.0, each in 0.0f64..1.0, steps in vec((1u32..20, 0u32..20), 1..6)) {
        let (mut from, mut share) = (0, 0);
        let mut text = Vec::new();
        for (films, percent) in steps {
            (from, share) = (from + films, (share + percent).min(100));
            text.push(format!("{from}: {share} %"));
        }
        let in_steps = Longer::read(&text.join("; "), Units::default()).expect("steps");
        prop_assert_eq!(Longer::read(&in_steps.to_string(), Units::default()), Ok(in_steps.clone()));
        for longer in [Longer::Each(each), in_steps] {
            prop_assert!(longer.share(films) >= 0.0);
            prop_assert!(longer.share(films + more) >= longer.share(films));
        }
    }
}

proptest! {
    #![proptest_config(tries(60))]

    /// The same on the sheet: more film before never makes the fixing shorter than the line says.
    #[test]
    fn more_film_before_fixes_no_shorter(films in 0u32..30_000, more in 0u32..5_000, percent in 0u32..40) {
        let longer = format!("{percent} %");
        let (fewer, many) = (fixed(films, &longer), fixed(films + more, &longer));
        prop_assert!(fewer >= 300.0 && many >= fewer, "{fewer} {many}");
    }
}

/// By hand: 600/32 = 18.75 ml; 5 % for each of 4 films on 5:00 are 6:00.
#[test]
fn the_recipe_of_a_day() {
    let pairs = [
        (
            "recipe",
            "develop 8:00 at 22 C, first 30 s, 10 s every 1:00\nstop 0:30\nfix 5:00\nwash 10:00",
        ),
        ("fixer", "fix-1"),
        ("longer", "5 %"),
        ("times", "10 at 20 C; 8:15 at 22 C"),
        ("temperature", "20 C"),
    ];
    let (sheet, faults) = answer(&pairs);
    assert_eq!(faults, 0);
    let recipe = sheet.recipe.expect("nothing is missing");
    assert_eq!(
        (&recipe.title[..], &recipe.films[..], recipe.units),
        ("2 × 135 in developer 1+31", "2 × 135", 2.0)
    );
    let seconds: Vec<f64> = recipe.steps.iter().map(|step| step.time.seconds()).collect();
    assert_eq!(seconds, [480.0, 30.0, 360.0, 600.0]);
    let kinds: Vec<StepKind> = recipe.steps.iter().map(|step| step.kind).collect();
    assert_eq!(
        kinds,
        [StepKind::Develop, StepKind::Stop, StepKind::Fix, StepKind::Wash]
    );
    assert_eq!(recipe.steps[0].temperature, Some(Temperature::from_celsius(22.0)));
    assert_eq!(recipe.steps[1].temperature, None);
    let agitation = recipe.steps[0].agitation.expect("agitation");
    assert_eq!(
        [agitation.first, agitation.each, agitation.every].map(Span::seconds),
        [30.0, 10.0, 60.0]
    );
    let [developer, fixer] = &recipe.baths[..] else {
        panic!("{:?}", recipe.baths);
    };
    assert_eq!(
        (developer.kind, &developer.bottle[..], &developer.words[..]),
        (StepKind::Develop, "", "developer 1+31")
    );
    let Made::Mixed {
        concentrate,
        water,
        dilution,
    } = &developer.made
    else {
        panic!("{developer:?}");
    };
    assert!(close(concentrate.millilitres(), 18.75, 1e-9) && close(water.millilitres(), 581.25, 1e-9));
    assert_eq!(dilution.to_string(), "1+31");
    assert_eq!(
        (fixer.kind, &fixer.bottle[..], &fixer.made),
        (StepKind::Fix, "fix-1", &Made::Reused)
    );
    let rate = recipe.rate.expect("two times say it");
    assert_eq!(rate.at, Temperature::from_celsius(22.0));
    // ln(600/495) / (1/293.15 - 1/295.15) R
    assert!(close(rate.activation, 69_195.6, 1.0), "{}", rate.activation);
    let shown = |label: &str| {
        recipe
            .figures
            .iter()
            .find(|(is, _)| is == label)
            .map(|(_, shown)| &shown[..])
    };
    assert_eq!(shown("Dilution"), Some("1+31"));
    assert_eq!(shown("Fix for"), Some("6:00"));
    assert_eq!(shown("Clear bath: film units before"), Some("4"));
    assert_eq!(shown("Clear bath: used after today"), Some("38 %"));
    assert!(shown("Concentrate").is_some_and(|shown| shown.starts_with("18.75 ml ± ")));
    for (name, text) in pairs {
        assert!(recipe.form.contains(&(name.to_owned(), text.to_owned())), "{name}");
    }
}

/// What is missing or at fault leaves no recipe; a bath that nobody can pour is none of it.
#[test]
fn no_recipe_that_cannot_be_worked_by() {
    let whole = "develop 8:00; stop 0:30; fix 5:00; wash 10:00";
    assert!(answer(&[("recipe", whole)]).0.recipe.is_some());
    for (name, text) in [
        ("recipe", "develop; stop 0:30; fix 5:00; wash 10:00"),
        ("recipe", "develop 8:00; stop 0:30; fix; wash 10:00"),
        ("recipe", "develop 8:00; stop; fix 5:00; wash 10:00"),
        ("recipe", "develop 8:00; stop 0:30 or so; fix 5:00; wash 10:00"),
        ("recipe", " "),
        ("films_135", "0"),
        ("fixer", "nowhere"),
        ("temperature", "warm"),
        ("nonsense", "1"),
    ] {
        let mut pairs = vec![("recipe", whole)];
        pairs.retain(|(other, _)| *other != name);
        pairs.push((name, text));
        assert_eq!(answer(&pairs).0.recipe, None, "{name} {text}");
    }
    assert!(
        answer(&[("recipe", "fix 5:00; wash 10:00")])
            .0
            .recipe
            .is_some_and(|recipe| recipe.rate.is_none())
    );
}

/// What nobody told of the law is assumed, and the recipe says so.
#[test]
fn a_recipe_tells_an_assumed_law_from_a_told_one() {
    let assumed = |pairs: &[(&str, &str)]| {
        let recipe = answer(pairs).0.recipe.expect("a recipe");
        recipe.rate.and_then(|rate| rate.is_assumed)
    };
    let whole = ("recipe", "develop 8:00; stop 0:30; fix 5:00; wash 10:00");
    assert_eq!(assumed(&[whole]), Some(true));
    assert_eq!(assumed(&[whole, ("times", "8:00 at 20 C")]), Some(true));
    assert_eq!(assumed(&[whole, ("q10", "2.5")]), Some(false));
    assert_eq!(assumed(&[whole, ("times", "8:00 at 20 C; 6:30 at 22 C")]), Some(false));
}

/// Steps and Drift come to one time and one band, and the timer holds to it until a temperature is read.
#[test]
fn one_time_in_a_cold_or_a_warm_room() {
    for [temperature, room, times] in [
        ["20 C", "15 C", "10 at 20 C; 8:15 at 22 C"],
        ["18 C", "24 C", "10 at 20 C"],
        ["22 C", "16 C", "10 at 20 C"],
    ] {
        one_time(&[("temperature", temperature), ("room", room), ("times", times)]);
    }
}

fn one_time(told: &[(&str, &str)]) {
    let fields = |more: &[(&str, &str)]| -> Named {
        let pairs = told.iter().chain(more);
        pairs
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect()
    };
    let found = |name: &str, more: &[(&str, &str)]| {
        let answer = calculate(name, &fields(more), &with_a_fixer(0)).expect("a calculator");
        assert!(answer.faults.is_empty(), "{:?}", answer.faults);
        answer.sheet
    };
    let steps = found("steps", &[]);
    let drift = found("drift", &[("time", "10:00"), ("time_at", "20 C"), ("total", "600 ml")]);
    let [by_steps, by_drift] = [&steps, &drift].map(|sheet| sheet.figure("time").expect("a time").clone());
    assert!((by_steps.value - by_drift.value).abs() < 1e-6);
    assert_eq!(by_steps.band, by_drift.band);
    let recipe = steps.recipe.expect("a recipe");
    let time = recipe
        .steps
        .iter()
        .find(|step| step.kind == StepKind::Develop)
        .expect("it develops")
        .time;
    let rate = recipe.rate.expect("a rate");
    let course = rate.course([].into_iter()).expect("a course");
    let ends = rate.plan(time).ends(&course);
    assert!((ends - time).seconds().abs() < 1e-6);
}

/// A name with a comma is none, since what follows the comma is a clause of its own.
#[test]
fn a_comma_ends_a_name() {
    assert!(Line::read(NAMES[11], Units::default()).is_err());
}

/// What Plan and Drift hand on, Steps take without a fault, in every unit, and come to the same fill and time.
#[test]
fn what_is_handed_on_is_taken() {
    let onward = |sheet: &Sheet| -> Vec<Onward> {
        let items = sheet.parts.iter().flat_map(|part| &part.items);
        let is_one = |item: &Item| match item {
            Item::Onward(onward) => Some(onward.clone()),
            _ => None,
        };
        items.filter_map(is_one).collect()
    };
    for units in all_units() {
        let mut darkroom = with_a_fixer(0);
        darkroom.kit.house.units = units;
        let taken = |onward: &Onward| {
            let named: Named = onward
                .fields
                .iter()
                .map(|(name, text)| ((*name).to_owned(), text.clone()))
                .collect();
            let answer = calculate(onward.to, &named, &darkroom).expect("a calculator");
            assert!(answer.faults.is_empty(), "{units:?}: {:?}", answer.faults);
            answer.sheet
        };
        let asked = |name: &str, pairs: &[(&str, &str)]| {
            let named: Named = pairs
                .iter()
                .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
                .collect();
            calculate(name, &named, &darkroom).expect("a calculator").sheet
        };
        let plan = asked("plan", &[("films", "3 x 135 8:30 harbour; 1 x 120 11:00 portrait")]);
        let fills = onward(&plan);
        assert_eq!(fills.len(), 3, "{units:?}: three fills, none like another");
        let figures = plan.figures();
        let of_fills = |name: &str| {
            figures
                .iter()
                .filter(|figure| figure.name == name)
                .map(|figure| figure.value)
                .collect::<Vec<_>>()
        };
        for (at, fill) in fills.iter().enumerate() {
            let steps = taken(fill);
            let figure = |name: &str| steps.figure(name).unwrap_or_else(|| panic!("{name} of {fill:?}")).value;
            assert!((figure("time") - of_fills("fill_time")[at]).abs() < 1e-6, "{units:?}");
            assert!(
                (figure("concentrate") - of_fills("fill_concentrate")[at]).abs() < 1e-3,
                "{units:?}"
            );
            assert!(steps.recipe.is_some());
        }
        let drift = asked(
            "drift",
            &[
                ("first", "38 C"),
                ("second", "35 C"),
                ("between", "30:00"),
                ("times", "10:00 at 20 C; 8:15 at 22 C"),
            ],
        );
        let steps = taken(&onward(&drift)[0]);
        let [time, steady] = [&drift, &steps].map(|sheet| sheet.figure("time").expect("a time").value);
        // To the second, as it is handed on.
        assert!((time - steady).abs() <= 0.51, "{units:?}: {time} {steady}");
        let own = asked("drift", &[]);
        let steps = taken(&onward(&own)[0]);
        let [time, steady] = [&own, &steps].map(|sheet| sheet.figure("time").expect("a time").value);
        assert!((time - steady).abs() < 1e-3, "{units:?}: {time} {steady}");
    }
}

//! Times, for a look.
#![cfg(target_arch = "wasm32")]
#[path = "ledgers/generator.rs"]
#[allow(dead_code)]
mod generator;
use meniscus::chemistry::Class;
use meniscus::keeping::{Assumptions, Case, Life, Limits, Pace, Seal, Stretch, Trusted, forecast};
use meniscus::kit::{Climate, Colour, Container, Material, Treatment};
use meniscus::ledger::{self, Event, Ledger, Shelf};
use meniscus::page;
use meniscus::quantity::{Day, Temperature, Volume};
use meniscus::uncertainty::Random;
use wasm_bindgen::prelude::*;
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};
wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = performance, js_name = now)]
    fn clock() -> f64;
}

fn time<R>(name: &str, mut run: impl FnMut() -> R) {
    let mut times: Vec<f64> = (0..25)
        .map(|_| {
            let t = clock();
            let r = run();
            let t = clock() - t;
            drop(r);
            t
        })
        .collect();
    times.sort_by(f64::total_cmp);
    console_log!("{name}: first-best {:.2} median {:.2}", times[0], times[12]);
    std::hint::black_box(&times);
}

#[wasm_bindgen_test]
fn times() {
    let (door, _) = page::door();
    let events = generator::darkroom(1, 60, 10_000);
    let today = events.last().unwrap().day;
    let texts: Vec<String> = events.iter().map(Event::to_text).collect();
    let t = clock();
    for (e, t) in events.iter().zip(&texts) {
        door.set(&e.key(), t).unwrap();
    }
    console_log!("write all {:.1}", clock() - t);
    let keys = door.keys().unwrap();
    time("keys", || door.keys());
    time("entries", || door.entries());

    let ids: Vec<String> = events.iter().map(|e| e.id.to_string()).collect();
    time("id parse", || {
        ids.iter()
            .map(|t| t.parse::<ledger::EventId>().unwrap())
            .collect::<Vec<_>>()
    });
    time("id show", || {
        events.iter().map(|e| e.id.to_string()).collect::<Vec<_>>()
    });
    time("bottle id", || {
        ids.iter()
            .map(|t| ledger::BottleId::new(t.as_str()).unwrap())
            .collect::<Vec<_>>()
    });
    let days: Vec<String> = events.iter().map(|e| e.day.to_string()).collect();
    time("day parse", || {
        days.iter().map(|t| t.parse::<Day>().unwrap()).collect::<Vec<_>>()
    });
    time("tidied", || all_of(&events).tidied());
    time("all_of", || all_of(&events));
    for kind in meniscus::ledger::KINDS {
        let of: Vec<&String> = texts
            .iter()
            .filter(|t| t.contains(&format!("\"what\":\"{kind}\"")) || t.contains(&format!("\"what\":{{\"{kind}\"")))
            .collect();
        let n = of.len().max(1);
        let bytes: usize = of.iter().map(|t| t.len()).sum();
        let t = clock();
        for _ in 0..10 {
            std::hint::black_box(of.iter().map(|t| Event::from_text(t)).collect::<Vec<_>>());
        }
        console_log!(
            "{kind}: {n} of {} bytes, {:.2} us each",
            bytes / n,
            (clock() - t) * 100.0 / n as f64
        );
    }
    time("json value", || {
        texts
            .iter()
            .map(|t| serde_json::from_str::<serde_json::Value>(&t[11..]).unwrap())
            .collect::<Vec<_>>()
    });
    time("json ignored", || {
        texts
            .iter()
            .map(|t| serde_json::from_str::<serde::de::IgnoredAny>(&t[11..]).unwrap())
            .collect::<Vec<_>>()
    });
    console_log!("bytes {}", texts.iter().map(String::len).sum::<usize>());
    time("get each", || keys.iter().map(|k| door.get(k)).collect::<Vec<_>>());
    time("from_text", || {
        texts.iter().map(|t| Event::from_text(t)).collect::<Vec<_>>()
    });
    let entries = door.entries().unwrap();
    time("clone entries", || entries.clone());
    time("read_all with clone", || ledger::read_all(entries.clone()));
    time("load_all", || ledger::load_all(&*door));
    let all = ledger::load_all(&*door).ledger;
    time("clone", || all.events.clone());
    time("fold with clone", || Shelf::fold(all.events.clone(), today));
    time("merge", || {
        all.clone().merge(Ledger {
            events: vec![events[9_999].clone()],
            unread: vec![],
        })
    });
    time("lost", || all.lost().len());
    let _ = meniscus::store::load(&*door);
    time("store::load", || meniscus::store::load(&*door));
    time("load_all+fold", || {
        Shelf::fold(ledger::load_all(&*door).ledger.events, today)
    });

    let day: Day = "2026-03-01".parse().unwrap();
    let ml = Volume::from_millilitres;
    let bottle = Container {
        name: "b".into(),
        brimful: ml(1040.0),
        nominal: None,
        material: Material::Glass,
        wall_area: None,
        thickness: None,
        colour: Colour::Amber,
    };
    let opened = Stretch {
        from: day + -1461,
        to: day,
        content: ml(1000.0),
        seal: Seal::Opened,
        treatment: Treatment::Plain,
        container: &bottle,
        climate: Climate::Steady(Temperature::from_celsius(18.0)),
    };
    let life = Life::used_evenly(opened, ml(500.0), 20).unwrap();
    let draws: Vec<(Day, Volume)> = (1..=20).map(|k| (day + 14 * (k - 20), ml(25.0))).collect();
    let pace = Pace::from_draws(&draws, day + -300, day, ml(25.0));
    for class in [Class::Syrup, Class::PowderStock] {
        let case = Case {
            life: &life,
            assumptions: &Assumptions::of_class(class),
            tests: &[],
            trusted: Trusted::STATED,
            limits: &Limits::default(),
        };
        time("forecast", || forecast(&case, Some(&pace), &mut Random::new(3)).draws);
    }
    console_log!(
        "draws {}",
        forecast(
            &Case {
                life: &life,
                assumptions: &Assumptions::of_class(Class::PowderStock),
                tests: &[],
                trusted: Trusted::STATED,
                limits: &Limits::default()
            },
            Some(&pace),
            &mut Random::new(3)
        )
        .draws
    );
}

fn all_of(events: &[Event]) -> Ledger {
    Ledger {
        events: events.to_vec(),
        unread: vec![],
    }
}

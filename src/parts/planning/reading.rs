//! A day read from its form: films, tanks, baths and hands.

use super::super::Picked;
use super::super::bath::{dilution_needed, least_per_film, own_dilution};
use super::{Planning, Pool};
use crate::chemistry::Guess;
use crate::darkroom::Darkroom;
use crate::development::Parameter;
use crate::fields::{self, Field, FilmLine, Form, Spans};
use crate::kit::{Kit, Limits, Tank};
use crate::quantity::read::short;
use crate::quantity::show::VolumeUnit;
use crate::quantity::sorted::sort;
use crate::quantity::{Dilution, Span, Units, Volume};

const LOADING: Guess = Guess {
    value: 5.0,
    least: 2.0,
    most: 10.0,
    why: "in the dark, by practised hands or not (common practice, no source)",
};
const OTHER_STEPS: Guess = Guess {
    value: 35.0,
    least: 20.0,
    most: 60.0,
    why: "mixing, stop bath, fixer, a wash of 20 min, hanging up and rinsing (common practice, no source)",
};
const REELS_DRY: Guess = Guess {
    value: 30.0,
    least: 10.0,
    most: 120.0,
    why: "wiped and in warm air, or left to drip (common practice, no source)",
};
const MOST_4X5: Guess = Guess {
    value: 6.0,
    least: 2.0,
    most: 12.0,
    why: "as many holders take (common practice, no source)",
};
const MOST_8X10: Guess = Guess {
    value: 1.0,
    least: 1.0,
    most: 4.0,
    why: "one in a tray or drum, so that none scratches another (common practice, no source)",
};

impl<'a> Planning<'a> {
    /// What the form says, and the shelf of the bottle that is picked.
    pub fn read(form: &mut Form, darkroom: &'a Darkroom) -> Self {
        let units = form.units();
        let mut lines = form.read(&fields::PLAN_FILMS).unwrap_or_default();
        let key = |line: &FilmLine| (line.time.map(Span::seconds), line.film as usize);
        sort(&mut lines, |one, other| {
            (key(one), &one.name) < (key(other), &other.name)
        });
        let tanks = tanks(form, &darkroom.kit);
        let id = |tank: &&Tank| {
            let mut kept = darkroom.kit.tanks.iter();
            kept.find(|kept| std::ptr::eq(&kept.item, *tank))
                .map_or("", |kept| kept.id.as_str())
        };
        let tank_ids = tanks.iter().map(id).collect();
        let picked = Picked::read(form, darkroom);
        if let Some(label) = picked.label.filter(|label| !label.class.is_developer()) {
            form.fault(
                "bottle",
                &format!("{} is no developer; pick another bottle", label.product),
            );
        }
        if picked.bottle.is_some_and(|bottle| bottle.discarded.is_some()) {
            form.fault("bottle", "that bottle is gone; pick another");
        }
        let dilution = dilution(form, &picked);
        let least = least_per_film(form, picked.label).filter(|_| !form.at_fault("least_per_film"));
        let typed = form.read(&fields::DEVELOPER_LEFT);
        let recorded = picked.bottle.and_then(|bottle| bottle.left());
        form.pass_over_known(&[("left", recorded.is_some())]);
        let spare = form.read(&fields::SPARE).unwrap_or(1);
        let fixer = Pool {
            name: "fixer",
            volume: form.read(&fields::FIXER_AT_HAND),
            films: form.read(&fields::FIXER_TAKES),
        };
        let stop = Pool {
            name: "stop bath",
            volume: form.read(&fields::STOP_AT_HAND),
            films: form.read(&fields::STOP_TAKES),
        };
        let within = form.read(&fields::WITHIN).unwrap_or_default();
        let step = form.read(&fields::STEP).unwrap_or(usual_step(units));
        let mut sheets = |field, guess| Parameter::given_or(form.read(field).map(f64::from), guess);
        let most_4x5 = sheets(&fields::MOST_4X5, MOST_4X5);
        let most_8x10 = sheets(&fields::MOST_8X10, MOST_8X10);
        let mut minutes = |field: &Field<Spans>, guess| Parameter::given_or(form.read(field).map(Span::minutes), guess);
        let share = dilution.as_ref().and_then(Dilution::first_share);
        Self {
            loading: minutes(&fields::LOADING, LOADING),
            other_steps: minutes(&fields::OTHER_STEPS, OTHER_STEPS),
            reels_dry: minutes(&fields::REELS_DRY, REELS_DRY),
            limits: Limits {
                tanks,
                per_unit: least.zip(share).map_or(Volume::ZERO, |(least, share)| least / share),
                step,
                within,
                most_4x5: most_4x5.value as u32,
                most_8x10: most_8x10.value as u32,
            },
            tank_ids,
            bottle: form.sent().get("bottle").cloned().unwrap_or_default(),
            lines,
            name: picked
                .label
                .map_or("developer".to_owned(), |label| label.product.clone()),
            dilution,
            least,
            left: recorded.or(typed),
            spare,
            fixer,
            stop,
            most_4x5,
            most_8x10,
        }
    }
}

/// What totals go up to where nobody says: 10 ml, or half an ounce.
fn usual_step(units: Units) -> Volume {
    match units.volume {
        VolumeUnit::Millilitre => Volume::from_millilitres(10.0),
        VolumeUnit::UsFluidOunce => Volume::US_FLUID_OUNCE / 2.0,
    }
}

/// The tanks of the kit whose names were typed, or have what was typed in them; all of them where nothing was.
fn tanks<'a>(form: &mut Form, kit: &'a Kit) -> Vec<&'a Tank> {
    let all: Vec<&Tank> = kit.tanks.iter().map(|kept| &kept.item).collect();
    let Some(names) = form.read(&fields::ONLY_TANKS).filter(|names| !names.is_empty()) else {
        return if form.at_fault("tanks") { Vec::new() } else { all };
    };
    let has = |tank: &Tank, name: &str| tank.name.to_lowercase().contains(&name.to_lowercase());
    for name in &names {
        if !all.iter().any(|tank| has(tank, name)) {
            let there: Vec<&str> = all.iter().map(|tank| tank.name.as_str()).collect();
            let there = match there.is_empty() {
                true => "there is none yet".to_owned(),
                false => format!("there are: {}", there.join("; ")),
            };
            form.fault(
                "tanks",
                &format!("no tank of the kit is called “{}”; {there}", short(name)),
            );
            return Vec::new();
        }
    }
    let named = |tank: &&Tank| names.iter().any(|name| has(tank, name));
    all.into_iter().filter(named).collect()
}

/// How the developer is diluted: as typed, or as its label says; what is ready to use is poured as it is.
fn dilution(form: &mut Form, picked: &Picked) -> Option<Dilution> {
    if picked.is_ready_to_use() {
        form.pass_over(&["dilution"]);
        return Some(Dilution::Stock);
    }
    let dilution = own_dilution(form, picked.label);
    dilution_needed(form, dilution.as_ref());
    dilution
}

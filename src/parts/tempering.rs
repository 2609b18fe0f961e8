//! Tempering as a sheet: what to pour from which tap, in which order, how exactly it comes out, and what to do where it cannot.

mod words;

use super::thermometer::{degrees, readings};
use super::timing::one_degree;
use super::{assumption_of, text};
use crate::development::Parameter;
use crate::development::tempering::{CONCENTRATE_HEAT, ICE, Poured, Short, Tempering, VESSEL_MASS, VesselKind};
use crate::fields::{self, Form};
use crate::kit::{Kit, ways};
use crate::quantity::{Day, Mass, Span, Temperature, TemperatureDifference, Units, Volume};
use crate::sheet::{Bar, Figure, Item, Picture, Sheet, Table};
use crate::uncertainty::{Distribution, Estimate, Input};

/// What is to be tempered, as it was read.
pub struct Tempered {
    bath: Tempering,
    /// The concentrates, one or two; none in plain water or with powder.
    concentrates: Vec<Volume>,
    is_powder: bool,
    heat: Parameter,
    ice: Parameter,
    /// What it is made of, its mass in grams, and the heat of a gram.
    vessel: Option<(VesselKind, [Parameter; 2])>,
    /// What the thermometer showed at the taps.
    shown: [Temperature; 2],
}

/// The water of a tap that scalds within seconds (from memory: five seconds at 60 °C).
const SCALDS: Temperature = Temperature::from_celsius(60.0);
/// So long a bath stands in its jug until it is used.
const STANDS: Span = Span::from_minutes(5.0);
/// Concentrate and vessel this close to the bath, in kelvins, move it by less than is shown.
const MATTERS: f64 = 0.05;
/// How far the hot tap may be from what was typed, in kelvins.
const OTHERWISE: [f64; 5] = [-10.0, -5.0, 0.0, 5.0, 10.0];

impl Tempered {
    /// Reads the form. What cannot be is a fault; `None` where too little could be read.
    pub fn read(form: &mut Form, kit: &Kit) -> Option<Self> {
        let total = form.read(&fields::TOTAL);
        let wanted = form.read(&fields::WANTED);
        let taps = form.read(&fields::COLD_TAP).zip(form.read(&fields::HOT_TAP));
        let dilution = form.read(&fields::DILUTION);
        let room = form.read(&fields::ROOM);
        let ice_at_hand = form.read(&fields::ICE_AT_HAND);
        let ice = Parameter::given_or(form.read(&fields::ICE).map(|ice| ice.celsius()), ICE);
        let kind = form.read(&fields::VESSEL).flatten();
        let mass = form.read(&fields::VESSEL_MASS).map(|mass| mass.grams());
        let heat = form.read(&fields::CONCENTRATE_HEAT).map(|percent| percent / 100.0);
        let heat = Parameter::given_or(heat, CONCENTRATE_HEAT);
        if taps.is_some_and(|(cold, hot)| hot < cold) {
            form.fault("hot", "the hot tap is colder than the cold one; exchange the two");
            return None;
        }
        // What is typed wrongly is not silently left out.
        if form.at_fault("dilution") {
            return None;
        }
        let (total, (cold, hot)) = (total?, taps?);
        let vessel = kind.map(|kind| {
            let mass = Parameter::given_or(mass, VESSEL_MASS);
            (kind, [mass, Parameter::given_or(None, kind.heat())])
        });
        let concentrates = dilution
            .as_ref()
            .map_or(Vec::new(), |dilution| dilution.concentrates(total));
        Some(Self {
            bath: Tempering {
                total,
                wanted: wanted?,
                hot: kit.corrected(hot),
                cold: kit.corrected(cold),
                room: kit.corrected(room?),
                concentrate: concentrates.iter().copied().sum::<Volume>().min(total),
                concentrate_heat: heat.value,
                vessel: vessel.map_or(0.0, |(_, [mass, heat])| mass.value * heat.value),
                ice: Temperature::from_celsius(ice.value),
                ice_at_hand,
            },
            concentrates,
            is_powder: dilution.is_some_and(|dilution| dilution.is_weighed()),
            heat,
            ice,
            vessel,
            shown: [cold, hot],
        })
    }

    /// The bath with each assumption at either end.
    fn corners(&self) -> Vec<Tempering> {
        let ends = |parameter: Parameter| [parameter.least, parameter.most];
        let vessel = self.vessel.map_or([0.0; 2], |(_, [mass, heat])| {
            [mass.least * heat.least, mass.most * heat.most]
        });
        let mut corners = Vec::new();
        for concentrate_heat in ends(self.heat) {
            for ice in ends(self.ice) {
                for vessel in vessel {
                    corners.push(Tempering {
                        concentrate_heat,
                        vessel,
                        ice: Temperature::from_celsius(ice),
                        ..self.bath
                    });
                }
            }
        }
        corners
    }

    /// The least and the most of something over all corners.
    fn ends(&self, of: &dyn Fn(&Tempering) -> f64) -> [f64; 2] {
        let all = self.corners().into_iter().map(|corner| of(&corner));
        all.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], one| {
            [least.min(one), most.max(one)]
        })
    }

    /// Standard uncertainty in kelvins of what the bath comes to: the thermometer at the taps and in the room, which errs alike there,
    /// and the measuring of both waters.
    fn uncertainty(&self, poured: &Poured, kit: &Kit) -> Option<f64> {
        let bath = self.bath;
        let measured = |name: &str, volume: Volume, at: Temperature| {
            let ways = ways(kit, volume, None, at - Temperature::from_celsius(20.0));
            let sigma = ways
                .first()
                .map_or(0.0, |best| best.standard_uncertainty().millilitres());
            Input::new(name, volume.millilitres(), Distribution::Normal { sigma })
        };
        let inputs = [
            degrees("the hot tap", bath.hot, kit),
            degrees("the cold tap", bath.cold, kit),
            degrees("the room", bath.room, kit),
            measured("the hot water", poured.hot, bath.hot),
            measured("the cold water", poured.cold, bath.cold),
        ];
        let model = |x: &[f64]| {
            let [hot, cold, room] = [x[0], x[1], x[2]].map(Temperature::from_celsius);
            let bath = Tempering {
                hot,
                cold,
                room,
                ..bath
            };
            let [hot, cold] = [x[3], x[4]].map(Volume::from_millilitres);
            bath.comes_to(hot, cold, poured.ice).celsius()
        };
        Estimate::uncertainty_of(&inputs, model)
    }

    /// By how much the bath changes if the same is poured but something is otherwise.
    fn moved(&self, poured: &Poured, by: &dyn Fn(&mut Tempering)) -> TemperatureDifference {
        let mut bath = self.bath;
        by(&mut bath);
        bath.comes_to(poured.hot, poured.cold, poured.ice) - poured.comes_to
    }
}

/// The sheet of what to pour.
pub fn tempering(sheet: &mut Sheet, tempered: &Tempered, kit: &Kit, today: Day) {
    let units = kit.house.units;
    let bath = &tempered.bath;
    sheet.title = format!("{} at {}", units.volume(bath.total), units.temperature(bath.wanted));
    let poured = bath.pour();
    let cannot = words::cannot(tempered, &poured, units);
    sheet.alert(&cannot);
    if poured.short == Some(Short::NoWater) {
        sheet.part("What to do", cannot);
        return;
    }
    sheet.headline = headline(tempered, &poured, kit);
    sheet.part("What then", cannot);
    let mut order = vec![Item::Way(words::order(tempered, &poured, kit))];
    order.extend(words::cautions(tempered, &poured, kit));
    sheet.part("In this order", order);
    sheet.part("How exactly", exactly(tempered, &poured, units));
    sheet.part(
        "What it is made of",
        vec![Item::Picture(shares(tempered, &poured, units))],
    );
    sheet.background("Your thermometer", readings(&tempered.shown, kit, today));
    sheet.background(
        "If the hot tap gives something else",
        otherwise(tempered, &poured, units),
    );
    sheet.background("What the room does", words::room(tempered, &poured, units));
    sheet.background("Nobody measured this", assumptions(tempered, &poured, units));
}

fn headline(tempered: &Tempered, poured: &Poured, kit: &Kit) -> Vec<Figure> {
    let units = kit.house.units;
    let show = |ml: f64| units.volume_about(Volume::from_millilitres(ml));
    let water = |name: &'static str, label: &'static str, volume: Volume, of: &dyn Fn(&Poured) -> Volume| {
        let [least, most] = tempered.ends(&|bath| of(&bath.pour()).millilitres());
        let figure = Figure {
            shown: show(volume.millilitres()),
            ..Figure::volume(name, label, volume, units)
        };
        figure.banded(&show(least), &show(most))
    };
    let mut figures = Vec::new();
    if poured.hot > Volume::ZERO {
        figures.push(water("hot", "Hot water", poured.hot, &|poured| poured.hot));
    }
    if poured.cold > Volume::ZERO {
        figures.push(water("cold", "Cold water", poured.cold, &|poured| poured.cold));
    }
    if poured.ice > Mass::ZERO {
        let show = |grams: f64| units.mass_about(Mass::from_grams(grams));
        let [least, most] = tempered.ends(&|bath| bath.pour().ice.grams());
        let figure = Figure {
            shown: show(poured.ice.grams()),
            ..Figure::mass("ice", "Ice", poured.ice, units)
        };
        figures.push(figure.banded(&show(least), &show(most)));
    }
    let names = [("concentrate", "Concentrate"), ("concentrate_b", "Second concentrate")];
    for (volume, (name, label)) in tempered.concentrates.iter().zip(names) {
        figures.push(Figure::volume(name, label, *volume, units));
    }
    let [least, most] = tempered.ends(&|bath| bath.comes_to(poured.hot, poured.cold, poured.ice).celsius());
    let figure = Figure::temperature("comes_to", "The bath comes to", poured.comes_to, units);
    let figure = match tempered.uncertainty(poured, kit) {
        Some(u) => figure.uncertain(u, |spread| {
            units.temperature_difference(TemperatureDifference::from_kelvins(spread))
        }),
        None => figure,
    };
    let [least, most] = [least, most].map(|celsius| units.temperature(Temperature::from_celsius(celsius)));
    figures.push(figure.banded(&least, &most));
    figures
}

fn exactly(tempered: &Tempered, poured: &Poured, units: Units) -> Vec<Item> {
    let (degree, name_of_degree) = one_degree(units);
    let bath = &tempered.bath;
    let mut items = Vec::new();
    let mut by = |name: &'static str, place: &str, change: &dyn Fn(&mut Tempering)| {
        let label = format!("{name_of_degree} more {place} makes the bath warmer by");
        let moved = tempered.moved(poured, change);
        items.push(Item::Figure(Figure::temperature_difference(name, label, moved, units)));
    };
    if poured.hot > Volume::ZERO {
        by("by_hot", "at the hot tap", &|bath| bath.hot = bath.hot + degree);
    }
    if poured.cold > Volume::ZERO {
        by("by_cold", "at the cold tap", &|bath| bath.cold = bath.cold + degree);
    }
    if bath.concentrate > Volume::ZERO || bath.vessel > 0.0 {
        by("by_room", "in the room", &|bath| bath.room = bath.room + degree);
    }
    let swap = |name: &'static str, is: &str, with: &str, tap: Temperature| {
        let volume = bath.swap(tap)? * degree.kelvins();
        let label = format!("Too {is} by one degree: pour off, and fill up with {with} water");
        Some(Item::Figure(Figure {
            shown: units.volume_error(volume),
            ..Figure::volume(name, label, volume, units)
        }))
    };
    if poured.short.is_none() && poured.ice == Mass::ZERO {
        items.extend(swap("swap_hot", "cold", "hot", bath.hot).filter(|_| bath.hot > bath.wanted));
        items.extend(swap("swap_cold", "warm", "cold", bath.cold).filter(|_| bath.cold < bath.wanted));
        if bath.concentrate > Volume::ZERO {
            items.push(text(
                "Do that before the concentrate is in: later it would thin the bath.",
            ));
        }
    }
    items
}

/// What the bath is made of, as shares of it.
fn shares(tempered: &Tempered, poured: &Poured, units: Units) -> Picture {
    let bath = &tempered.bath;
    let bar = |label: String, volume: Volume, shown: String| Bar {
        label,
        share: volume / bath.total,
        shown,
    };
    let tap = |name: &str, volume: Volume, at: Temperature| {
        let label = format!("{name}, {}", units.temperature(at));
        bar(label, volume, units.volume_about(volume))
    };
    let taps = [("hot", poured.hot, bath.hot), ("cold", poured.cold, bath.cold)];
    let poured_from = taps.into_iter().filter(|(_, volume, _)| *volume > Volume::ZERO);
    let mut bars: Vec<Bar> = poured_from.map(|(name, volume, at)| tap(name, volume, at)).collect();
    if poured.ice > Mass::ZERO {
        let shown = units.mass_about(poured.ice);
        bars.push(bar(
            "ice".to_owned(),
            Volume::from_millilitres(poured.ice.grams()),
            shown,
        ));
    }
    if bath.concentrate > Volume::ZERO {
        bars.push(tap("concentrate", bath.concentrate, bath.room));
    }
    Picture::Bars {
        caption: format!("What makes {}", units.volume(bath.total)),
        bars,
    }
}

/// Both waters for other temperatures of the hot tap; nothing where hot water plays no part.
fn otherwise(tempered: &Tempered, poured: &Poured, units: Units) -> Vec<Item> {
    let bath = &tempered.bath;
    if poured.hot <= Volume::ZERO || poured.short.is_some() {
        return Vec::new();
    }
    let rows = OTHERWISE.into_iter().filter_map(|kelvins| {
        let hot = bath.hot + TemperatureDifference::from_kelvins(kelvins);
        let other = Tempering { hot, ..*bath };
        let poured = other.pour();
        if hot < bath.cold || hot.celsius() > 99.0 || poured.short.is_some() {
            return None;
        }
        let figure = |name: &'static str, label: &'static str, volume: Volume| Figure {
            shown: units.volume_about(volume),
            ..Figure::volume(name, label, volume, units)
        };
        let figures = vec![
            figure("row_hot", "Hot water", poured.hot),
            figure("row_cold", "Cold water", poured.cold),
        ];
        Some((units.temperature(hot), figures))
    });
    vec![Item::Table(Table {
        heads: ["Hot tap", "Hot water", "Cold water"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
    })]
}

fn assumptions(tempered: &Tempered, poured: &Poured, units: Units) -> Vec<Item> {
    let mut items = Vec::new();
    // What is as warm as the bath becomes neither gives nor takes heat.
    let away = (tempered.bath.room - poured.comes_to).kelvins().abs();
    if tempered.bath.concentrate > Volume::ZERO && away > MATTERS {
        let share = tempered.heat;
        let figure = Figure::percent(
            "assumed_concentrate_heat",
            "Heat of concentrate, of water's",
            share.value,
            units,
        );
        items.extend(assumption_of(figure, share, "concentrate_heat", &|share| {
            units.percent(share)
        }));
    }
    if poured.ice > Mass::ZERO {
        let show = |celsius| units.temperature(Temperature::from_celsius(celsius));
        let at = Temperature::from_celsius(tempered.ice.value);
        let figure = Figure::temperature("assumed_ice", "Ice is at", at, units);
        items.extend(assumption_of(figure, tempered.ice, "ice", &show));
    }
    if let Some((_, [mass, heat])) = tempered.vessel.filter(|_| away > MATTERS) {
        let grams = |grams| units.mass(Mass::from_grams(grams));
        let figure = Figure::mass(
            "assumed_vessel_mass",
            "The vessel weighs",
            Mass::from_grams(mass.value),
            units,
        );
        items.extend(assumption_of(figure, mass, "vessel_mass", &grams));
        let label = "A gram of it takes, joules for a kelvin";
        let figure = Figure::number("assumed_vessel_heat", label, heat.value, 2, units);
        items.extend(assumption_of(figure, heat, "vessel", &|heat| units.number(heat, 2)));
    }
    items
}

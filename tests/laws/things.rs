//! Any thing of the kit, within what its form takes, in whole units of what is kept.

use meniscus::chemistry::Class;
use meniscus::development::SheetTime;
use meniscus::entries::Newcomer;
use meniscus::keeping::SheetLives;
use meniscus::kit::{
    Balance, Bottle, Colour, Grade, House, Instrument, InstrumentKind, Material, Reading, Tank, Thermometer, Tolerance,
    Turning,
};
use meniscus::ledger::{ContainerNote, Description, Opened, Price, Thousandths};
use meniscus::quantity::{
    Day, DecimalMark, Dilution, Mass, MassDensity, Span, Temperature, TemperatureDifference, TemperatureUnit, Units,
    Volume, VolumeUnit,
};
use proptest::prelude::*;
use proptest::{option, sample};

/// Every choice of units and decimal mark.
pub fn units() -> impl Strategy<Value = Units> {
    sample::select(all_units())
}

pub fn all_units() -> Vec<Units> {
    let mut all = Vec::new();
    for volume in [VolumeUnit::Millilitre, VolumeUnit::UsFluidOunce] {
        for temperature in [TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit] {
            for decimal in [DecimalMark::Point, DecimalMark::Comma] {
                all.push(Units {
                    volume,
                    temperature,
                    decimal,
                });
            }
        }
    }
    all
}

fn name() -> impl Strategy<Value = String> {
    "[a-zé×µ<&\"'][a-z0-9 é×<>&\"',.]{0,40}[a-z0-9]"
}

/// Microlitres, thinly at the ends; often in round numbers, as things are made.
fn microlitres(least: i64, most: i64) -> impl Strategy<Value = Volume> {
    let round = (
        1i64..100,
        sample::select(vec![1i64, 10, 100, 1_000, 10_000, 100_000, 1_000_000]),
    );
    prop_oneof![
        (least..=most).boxed(),
        round
            .prop_map(move |(count, step)| (count * step).clamp(least, most))
            .boxed(),
        Just(least).boxed(),
        Just(most).boxed(),
    ]
    .prop_map(Volume::from_microlitres)
}

fn grade() -> impl Strategy<Value = Grade> {
    sample::select(vec![Grade::A, Grade::B])
}

fn tolerance(kind: InstrumentKind) -> BoxedStrategy<Tolerance> {
    let standard = match kind {
        InstrumentKind::Syringe => Just(Tolerance::SyringeIso7886).boxed(),
        InstrumentKind::Cylinder => prop_oneof![
            grade().prop_map(Tolerance::CylinderIso4788),
            grade().prop_map(Tolerance::CylinderAstmE1272),
        ]
        .boxed(),
        InstrumentKind::GraduatedPipette => grade().prop_map(Tolerance::GraduatedPipetteIso835).boxed(),
        InstrumentKind::SingleMarkPipette => grade().prop_map(Tolerance::SingleMarkPipetteIso648).boxed(),
        InstrumentKind::Jug => Just(Tolerance::Share(0.05)).boxed(),
    };
    let calibrated = (
        microlitres(-100_000, 100_000),
        microlitres(1, 500_000),
        microlitres(1, 500_000),
    )
        .prop_map(|(bias, uncertainty, repeatability)| Tolerance::Calibrated {
            bias,
            uncertainty,
            repeatability,
        });
    prop_oneof![
        standard,
        Just(Tolerance::Share(0.05)),
        microlitres(1, 500_000).prop_map(Tolerance::Own),
        calibrated,
    ]
    .boxed()
}

/// An instrument with a scale of at most so many marks.
pub fn instrument(marks: i64) -> impl Strategy<Value = Instrument> {
    let kind = sample::select(vec![
        InstrumentKind::Syringe,
        InstrumentKind::Cylinder,
        InstrumentKind::GraduatedPipette,
        InstrumentKind::SingleMarkPipette,
        InstrumentKind::Jug,
    ]);
    (kind, microlitres(200, 5_000_000)).prop_flat_map(move |(kind, capacity)| {
        let least = (capacity.microlitres() / marks + 1).clamp(1, 500_000);
        let most = capacity.microlitres().min(500_000);
        let reading = sample::select(vec![Reading::Marks, Reading::HalfMarks, Reading::Fifths]);
        let parts = (
            name(),
            microlitres(least, most),
            reading,
            tolerance(kind),
            microlitres(0, 2_000),
            option::of(day()),
        );
        parts.prop_map(
            move |(name, graduation, reading, tolerance, dead_space, day)| Instrument {
                name,
                kind,
                capacity,
                graduation: match kind {
                    InstrumentKind::SingleMarkPipette => capacity,
                    _ => graduation,
                },
                reading,
                tolerance,
                dead_space,
                calibrated_on: day.filter(|_| matches!(tolerance, Tolerance::Calibrated { .. })),
            },
        )
    })
}

fn day() -> impl Strategy<Value = Day> {
    (0i32..=60_000).prop_map(Day::from_days)
}

/// A thermometer put right by any line that a comparison may give.
pub fn thermometer() -> impl Strategy<Value = Thermometer> {
    let difference = |least, most| (least..=most).prop_map(TemperatureDifference::from_millidegrees);
    let millionths = |least: i64, most| (least..=most).prop_map(|n| n as f64 / 1e6);
    let parts = (
        (10_000i64..=40_000).prop_map(|n| Temperature::from_celsius(n as f64 / 1000.0)),
        difference(-5_000i64, 5_000),
        millionths(-100_000, 100_000),
        difference(1, 5_000),
        millionths(1, 100_000),
        day(),
    );
    parts.prop_map(
        |(at, correction, slope, uncertainty, slope_uncertainty, on)| Thermometer {
            at,
            correction,
            slope,
            uncertainty,
            slope_uncertainty,
            on,
        },
    )
}

pub fn balance() -> impl Strategy<Value = Balance> {
    (name(), 1i64..=100_000, 10_000i64..=500_000_000).prop_map(|(name, readability, capacity)| Balance {
        name,
        // tenths of milligrams
        readability: Mass::from_grams(readability as f64 * 100.0 / 1e6),
        capacity: Mass::from_grams(capacity as f64 * 100.0 / 1e6),
    })
}

pub fn tank() -> impl Strategy<Value = Tank> {
    let turning = sample::select(vec![Turning::Inversion, Turning::Rotary]);
    (
        name(),
        turning,
        microlitres(10_000, 20_000_000),
        [1u8..4, 0..4, 0..4, 0..4],
    )
        .prop_map(|(name, turning, brim, quarters)| {
            let [per_135, per_120, sheets_4x5, sheets_8x10] =
                quarters.map(|quarters| Volume::from_microlitres(brim.microlitres() * i64::from(quarters) / 4));
            Tank {
                name,
                turning,
                brim,
                per_135,
                per_120,
                sheets_4x5,
                sheets_8x10,
            }
        })
}

/// A dilution as it is kept: every kind, to two decimals of a part.
pub fn dilution() -> impl Strategy<Value = Dilution> {
    let parts = (0u32..=200_000).prop_map(|water| format!("1+{}", f64::from(water) / 100.0));
    let two = (1u32..500, 1u32..500, 0u32..20_000).prop_map(|(a, b, water)| format!("{a}+{b}+{water}"));
    let percent = (1u32..=1_000).prop_map(|tenths| format!("{} %", f64::from(tenths) / 10.0));
    let weighed = (1u32..=70_000).prop_map(|hundredths| format!("{} g/l", f64::from(hundredths) / 100.0));
    let steps = (1u32..50, 1u32..50).prop_map(|(stock, bath)| format!("1+{stock} then 1+{bath}"));
    prop_oneof![Just("stock".to_owned()), parts, two, percent, weighed, steps]
        .prop_filter_map("as thin as a bath may be", |text| text.parse().ok())
}

fn sheet_time() -> impl Strategy<Value = SheetTime> {
    (10_000i64..=86_400_000, 10_000i64..=40_000, option::of(dilution())).prop_map(|(time, temperature, dilution)| {
        SheetTime {
            time: Span::from_seconds(time as f64 / 1000.0),
            temperature: Temperature::from_celsius(temperature as f64 / 1000.0),
            dilution,
        }
    })
}

pub fn bottle() -> impl Strategy<Value = Bottle> {
    let class = sample::select(Class::ALL.map(|(_, _, class)| class).to_vec());
    let density = option::of(
        (700_000i64..=2_500_000).prop_map(|density| MassDensity::from_grams_per_millilitre(density as f64 / 1e6)),
    );
    let least = option::of(microlitres(1, 1_000_000));
    let exponent = option::of((100i64..=1_500).prop_map(|n| n as f64 / 1000.0));
    let times = prop::collection::vec(sheet_time(), 0..5);
    (
        name(),
        class,
        density,
        prop::collection::vec(dilution(), 0..3),
        least,
        times,
        exponent,
    )
        .prop_map(
            |(product, class, density, dilutions, least_per_film, times, exponent)| Bottle {
                product,
                class,
                density,
                dilutions,
                least_per_film,
                times,
                exponent,
            },
        )
}

/// A bottle as it comes to the shelf: whatever the form can say of one.
pub fn newcomer() -> impl Strategy<Value = Newcomer> {
    let container = (
        option::of(microlitres(5_000, 20_000_000)),
        option::of(0i64..=200_000),
        option::of(0..Material::ALL.len()),
        option::of(prop_oneof![
            Just(Colour::Opaque),
            Just(Colour::Amber),
            Just(Colour::Clear)
        ]),
    );
    let opened = prop_oneof![
        Just(Opened::Never),
        Just(Opened::SomeDay),
        Just(Opened::NotKnown),
        (10_000..20_000).prop_map(|days| Opened::On(Day::from_days(days))),
    ];
    let life = || option::of((1u32..=36_500).prop_map(f64::from));
    let price = option::of((0u32..=9_999_999, prop_oneof![Just(String::new()), name()]));
    let rest = (
        (life(), life(), life()),
        option::of(1u32..=1_000),
        price,
        prop_oneof![Just(String::new()), name()],
    );
    (bottle(), container, 0.0..=1.0f64, opened, rest).prop_map(|(label, container, share, opened, rest)| {
        let (nominal, above, material, colour) = container;
        let (lives, films, price, place) = rest;
        let brimful =
            above.map(|above| nominal.unwrap_or(Volume::from_millilitres(5.0)) + Volume::from_microlitres(above));
        let filled = brimful
            .or(nominal)
            .map(|holds| Volume::from_microlitres((holds * share).microlitres()));
        Newcomer {
            is: Description {
                label,
                container: ContainerNote {
                    nominal,
                    brimful,
                    material: material.map(|index| Material::ALL[index].2),
                    colour,
                    ..ContainerNote::default()
                },
                price: price.map(|(cents, currency)| Price { cents, currency }),
                lives: SheetLives {
                    unopened: lives.0,
                    full: lives.1,
                    half_full: lives.2,
                },
                films_per_litre: films.map(|films| Thousandths(films * 1000)),
            },
            filled,
            opened,
            place,
        }
    })
}

pub fn house() -> impl Strategy<Value = House> {
    (units(), 10i64..=5_000, 100i64..=120_000, 100i64..=20_000).prop_map(|(units, thermometer, timing, hand)| House {
        units,
        thermometer: TemperatureDifference::from_millidegrees(thermometer),
        timing: Span::from_seconds(timing as f64 / 1000.0),
        hand: hand as f64 / 1000.0,
    })
}

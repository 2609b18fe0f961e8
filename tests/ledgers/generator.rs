//! Invented ledgers: a darkroom in which everything fits together, and a heap of events in which little does.

use meniscus::chemistry::Class;
use meniscus::keeping::SheetLives;
use meniscus::kit::{Bottle, Climate, Colour, Light, Material, Treatment};
use meniscus::ledger::{
    Bath, BottleId, ContainerNote, Description, Event, EventId, Filled, Moment, Opened, Portion, Price, TestResult,
    Thousandths, What, session_to_text,
};
use meniscus::proof::TestKind;
use meniscus::quantity::{Day, Dilution, MassDensity, Span, Temperature, Volume};
use meniscus::session::{self, Agitation, Made, Recipe, Session, Step, StepKind, Went};
use meniscus::uncertainty::Random;

const PRODUCTS: [(&str, Class); 6] = [
    ("Blue Syrup", Class::Syrup),
    ("Northlight Concentrate", Class::LiquidConcentrate),
    ("Kitchen Stock No. 3", Class::PowderStock),
    ("Harbour Developer, ready", Class::WorkingDeveloper),
    ("Sour Stop", Class::StopBath),
    ("Clear Fix", Class::Fixer),
];
const PLACES: [&str; 4] = ["cellar", "kitchen shelf", "fridge", "darkroom cupboard"];
const WALLS: [Material; 3] = [Material::Glass, Material::Pet, Material::Hdpe];

/// So many millilitres, to the microlitre.
pub fn ml(millilitres: f64) -> Volume {
    Volume::from_microlitres((millilitres * 1000.0).round() as i64)
}

pub fn day(text: &str) -> Day {
    text.parse().expect("a day")
}

/// The event number `number` of a ledger, so many milliseconds after the noon of a day.
pub fn event(number: u128, day: Day, later: i64, what: What) -> Event {
    let at = Moment::from_milliseconds(Moment::noon(day).milliseconds() + later).expect("a moment");
    Event {
        id: EventId::new(at, number),
        at,
        day,
        what,
    }
}

pub fn bottle(name: &str) -> BottleId {
    BottleId::new(name).expect("a name")
}

/// What a bottle of a product is, as far as a label of the invented kind tells it.
pub fn description(product: &str, class: Class, capacity: Option<f64>, wall: Material) -> Description {
    Description {
        label: Bottle {
            product: product.to_owned(),
            class,
            density: (class == Class::Syrup).then(|| MassDensity::from_grams_per_millilitre(1.28)),
            dilutions: Dilution::read_list(if class.is_developer() { "1+31; 1+63" } else { "" }).expect("dilutions"),
            least_per_film: class.is_developer().then(|| ml(6.0)),
            times: vec![],
            exponent: None,
        },
        container: ContainerNote {
            brimful: capacity.map(|capacity| ml(capacity * 1.05)),
            nominal: capacity.map(ml),
            material: capacity.map(|_| wall),
            colour: capacity.map(|_| Colour::Amber),
            ..ContainerNote::default()
        },
        price: capacity.map(|capacity| Price {
            cents: 990 + capacity as u32,
            currency: "EUR".to_owned(),
        }),
        lives: SheetLives {
            unopened: Some(1460.0),
            full: Some(365.0),
            half_full: Some(120.0),
        },
        films_per_litre: (class == Class::Fixer).then_some(Thousandths(20_000)),
    }
}

struct Standing {
    id: BottleId,
    class: Class,
    left: f64,
    brimful: f64,
}

struct Darkroom {
    random: Random,
    standing: Vec<Standing>,
    begun: usize,
}

/// Ten years of a darkroom in which nothing is drawn that is not there: `events` events, `bottles` bottles.
pub fn darkroom(seed: u64, bottles: usize, events: usize) -> Vec<Event> {
    let mut room = Darkroom {
        random: Random::new(seed),
        standing: Vec::new(),
        begun: 0,
    };
    let first = day("2016-01-04");
    let mut all: Vec<Event> = Vec::with_capacity(events);
    for number in 0..events {
        let minutes = number as i64 * (10 * 365 * 24 * 60) / events as i64;
        let today = first + (minutes / (24 * 60)) as i32;
        let what = match all.last() {
            // A tap on the wrong line, and undo.
            Some(last) if room.chance(0.004) && matches!(last.what, What::Note { .. } | What::Tested { .. }) => {
                What::Corrected { event: last.id }
            }
            _ => room.next(number, bottles, events),
        };
        all.push(event(
            number as u128,
            today,
            (minutes % (24 * 60) - 12 * 60) * 60_000,
            what,
        ));
    }
    all
}

impl Darkroom {
    fn chance(&mut self, probability: f64) -> bool {
        self.random.uniform() < probability
    }

    fn below(&mut self, count: usize) -> usize {
        (self.random.uniform() * count as f64) as usize
    }

    fn begin(&mut self, class: Class, left: f64, brimful: f64) -> BottleId {
        let id = bottle(&format!("0190a0b0-0000-7000-8000-{:012x}", self.begun));
        self.begun += 1;
        self.standing.push(Standing {
            id: id.clone(),
            class,
            left,
            brimful,
        });
        id
    }

    fn next(&mut self, number: usize, bottles: usize, events: usize) -> What {
        // Bottles come evenly over the years.
        let due = self.begun < bottles && self.begun * events <= number * bottles;
        if self.standing.is_empty() || due {
            return self.new_bottle(bottles);
        }
        let which = self.below(self.standing.len());
        let (id, left, class) = {
            let one = &self.standing[which];
            (one.id.clone(), one.left, one.class)
        };
        let step = (left / 30.0).clamp(0.0, 40.0);
        if step < 0.4 && self.standing.len() > 1 {
            self.standing.remove(which);
            let reason = "hardly any left".to_owned();
            return What::Discarded { bottle: id, reason };
        }
        match self.below(100) {
            0..55 if step >= 0.05 => self.draw(which, step),
            55..60 => What::Opened { bottle: id },
            60..64 => What::Moved {
                bottle: id,
                place: PLACES[self.below(4)].to_owned(),
            },
            64..68 => self.treat(id),
            68..74 => self.test(id, class),
            74..80 => What::FilmsThrough {
                bottle: id,
                units: Thousandths(1000 * (1 + self.below(4) as u32)),
                films: "135".to_owned(),
            },
            80..83 if self.standing[which].brimful - left >= 2.0 => self.top_up(which),
            83 => What::PlaceDropped {
                place: PLACES[self.below(4)].to_owned(),
            },
            84..86 => self.place(),
            86..88 => What::ContentNoted {
                bottle: id,
                left: ml(left),
            },
            89..91 => What::Developed {
                text: session_to_text(&self.session()),
            },
            88..89 => What::BottleNoted {
                bottle: id,
                is: Box::new(description("Blue Syrup", class, Some(1000.0), Material::Glass)),
            },
            _ => What::Note {
                bottle: Some(id),
                text: "looks as it did".to_owned(),
            },
        }
    }

    fn new_bottle(&mut self, bottles: usize) -> What {
        let full = self.standing.iter().position(|one| one.left > 300.0);
        match (full, self.below(4)) {
            (Some(which), 0) if self.begun + 2 <= bottles => {
                let (from, class) = (self.standing[which].id.clone(), self.standing[which].class);
                self.standing[which].left -= 150.0;
                let mut filled = |size: f64| Filled {
                    bottle: self.begin(class, size, size),
                    container: ContainerNote {
                        brimful: Some(ml(size)),
                        nominal: Some(ml(size)),
                        material: Some(Material::Glass),
                        ..ContainerNote::default()
                    },
                    volume: ml(size),
                };
                let into = vec![filled(100.0), filled(50.0)];
                What::Decanted { from, into }
            }
            (Some(which), 1) => {
                let from = vec![Portion {
                    bottle: self.standing[which].id.clone(),
                    volume: ml(100.0),
                }];
                self.standing[which].left -= 100.0;
                let (product, class) = PRODUCTS[3];
                What::Mixed {
                    from,
                    water: ml(900.0),
                    dilution: "1+9".parse().ok(),
                    into: Bath::Kept {
                        bottle: self.begin(class, 1000.0, 1050.0),
                        is: Box::new(description(product, class, Some(1000.0), Material::Pet)),
                    },
                }
            }
            _ => {
                let (product, class) = PRODUCTS[self.below(6)];
                let capacity = [250.0, 500.0, 1000.0][self.below(3)];
                let wall = WALLS[self.below(3)];
                What::Added {
                    bottle: self.begin(class, capacity, capacity * 1.05),
                    is: Box::new(description(product, class, Some(capacity), wall)),
                    filled: Some(ml(capacity)),
                    opened: Opened::Never,
                }
            }
        }
    }

    fn draw(&mut self, which: usize, step: f64) -> What {
        // Drawn in whole marks of a syringe, 0.05 ml apart.
        let volume = (step * (0.5 + self.random.uniform()) / 0.05).round().max(1.0) * 0.05;
        let one = &mut self.standing[which];
        one.left -= volume;
        let bottle = one.id.clone();
        if self.chance(0.3) {
            return What::Mixed {
                from: vec![Portion {
                    bottle,
                    volume: ml(volume),
                }],
                water: ml(volume * 31.0),
                dilution: "1+31".parse().ok(),
                into: Bath::Used {
                    purpose: "two rolls".to_owned(),
                },
            };
        }
        What::Drawn {
            bottle,
            volume: ml(volume),
            bath: Some(ml(volume * 32.0)),
            dilution: "1+31".parse().ok(),
            purpose: String::new(),
        }
    }

    fn top_up(&mut self, which: usize) -> What {
        let one = &mut self.standing[which];
        let room = ((one.brimful - one.left) / 2.0).floor();
        one.left += room;
        What::ToppedUp {
            bottle: one.id.clone(),
            volume: ml(room),
            from: None,
        }
    }

    /// A developing with one to four films, as long as most are.
    fn session(&mut self) -> Session {
        let step = |kind, name: &str, seconds| Step {
            kind,
            name: name.to_owned(),
            time: Span::from_seconds(seconds),
            temperature: Some(Temperature::from_celsius(20.0)),
            agitation: (kind == StepKind::Develop).then_some(Agitation {
                first: Span::from_seconds(30.0),
                each: Span::from_seconds(10.0),
                every: Span::from_seconds(60.0),
            }),
        };
        let recipe = Recipe {
            title: "Film 2 in Blue Syrup 1+31".to_owned(),
            films: "135".to_owned(),
            units: 1.0 + self.below(4) as f64,
            steps: vec![
                step(StepKind::Develop, "Develop", 405.0),
                step(StepKind::Stop, "Stop bath", 60.0),
                step(StepKind::Fix, "Fix", 300.0),
                step(StepKind::Wash, "Wash", 600.0),
            ],
            baths: vec![session::Bath {
                kind: StepKind::Develop,
                bottle: "01956a00-0000-7000-8000-00000000000a".to_owned(),
                words: "Blue Syrup 1+31".to_owned(),
                made: Made::Mixed {
                    concentrate: ml(18.75),
                    water: ml(581.25),
                    dilution: "1+31".parse().expect("a dilution"),
                },
            }],
            rate: None,
            figures: vec![("Concentrate".to_owned(), "18.75 ml".to_owned())],
            form: vec![("dilution".to_owned(), "1+31".to_owned())],
        };
        let mut began = Span::ZERO;
        let steps = (0..recipe.steps.len()).map(|step| {
            let due = recipe.steps[step].time;
            let went = Went {
                step,
                began,
                lasted: due + Span::from_seconds(self.below(8) as f64),
                due,
                paused: Span::ZERO,
                readings: vec![(Span::from_seconds(60.0), Temperature::from_celsius(20.1))],
            };
            began = began + went.lasted + Span::from_seconds(12.0);
            went
        });
        Session {
            began: 1_700_000_000_000,
            steps: steps.collect(),
            doubts: Vec::new(),
            note: "even light".to_owned(),
            recipe,
        }
    }

    fn treat(&mut self, bottle: BottleId) -> What {
        let how = match self.below(3) {
            0 => Treatment::Squeezed,
            1 => Treatment::Beads(Some(ml(self.below(40) as f64))),
            _ => Treatment::InertGas,
        };
        What::Treated { bottle, how }
    }

    fn test(&mut self, bottle: BottleId, class: Class) -> What {
        What::Tested {
            bottle,
            test: match class {
                Class::Fixer => TestKind::Clearing,
                Class::StopBath => TestKind::Indicator,
                _ => TestKind::Clip,
            },
            result: match self.below(4) {
                0 => TestResult::Passed,
                1 => TestResult::Failed,
                2 => TestResult::Seen,
                _ => TestResult::Strength {
                    strength: Thousandths(900 + self.below(100) as u32),
                    uncertainty: Some(Thousandths(30)),
                },
            },
            note: String::new(),
        }
    }

    fn place(&mut self) -> What {
        let degrees = |value: f64| Temperature::from_celsius(value);
        What::PlaceNoted {
            place: PLACES[self.below(4)].to_owned(),
            climate: Some(match self.below(3) {
                0 => Climate::Steady(degrees(14.0)),
                1 => Climate::Between(degrees(17.5), degrees(24.0)),
                _ => Climate::Seasonal {
                    low: degrees(11.0),
                    high: degrees(23.0),
                    warmest: 205,
                },
            }),
            light: Some([Light::Dark, Light::Lit][self.below(2)]),
        }
    }
}

/// Events of every kind about a handful of bottles, in no order, many of them nonsense; names may come twice.
pub fn heap(seed: u64, count: usize) -> Vec<Event> {
    let mut room = Darkroom {
        random: Random::new(seed),
        standing: Vec::new(),
        begun: 0,
    };
    let first = day("2025-12-29");
    let ids: Vec<EventId> = (0..count as u128)
        .map(|number| EventId::new(Moment::noon(first), number))
        .collect();
    let mut all: Vec<Event> = Vec::new();
    for number in 0..count {
        let id = match room.chance(0.05) {
            true => ids[room.below(count)],
            false => ids[number],
        };
        let later = room.below(8);
        all.push(Event {
            id,
            at: Moment::from_milliseconds(room.below(12) as i64 * 1_000_000).expect("a moment"),
            day: first + later as i32,
            what: room.nonsense(&ids),
        });
    }
    all
}

impl Darkroom {
    fn name(&mut self) -> BottleId {
        bottle(&format!("bottle {}", self.below(6)))
    }

    fn volume(&mut self) -> Volume {
        Volume::from_microlitres(1 + self.below(200_000) as i64)
    }

    fn anything(&mut self) -> Box<Description> {
        let (product, class) = PRODUCTS[self.below(6)];
        let capacity = self.chance(0.7).then_some(250.0);
        Box::new(description(product, class, capacity, Material::Glass))
    }

    fn nonsense(&mut self, ids: &[EventId]) -> What {
        let bottle = self.name();
        match self.below(20) {
            0..3 => What::Added {
                is: self.anything(),
                filled: self.chance(0.8).then(|| ml(200.0)),
                opened: [
                    Opened::Never,
                    Opened::On(day("2025-06-01")),
                    Opened::SomeDay,
                    Opened::NotKnown,
                ][self.below(4)],
                bottle,
            },
            3 => What::Decanted {
                from: bottle,
                into: (0..1 + self.below(2))
                    .map(|_| Filled {
                        bottle: self.name(),
                        container: ContainerNote::default(),
                        volume: self.volume(),
                    })
                    .collect(),
            },
            4 => What::Mixed {
                from: (0..1 + self.below(2))
                    .map(|_| Portion {
                        bottle: self.name(),
                        volume: self.volume(),
                    })
                    .collect(),
                water: self.volume(),
                dilution: None,
                into: match self.chance(0.5) {
                    true => Bath::Kept {
                        bottle,
                        is: self.anything(),
                    },
                    false => Bath::Used { purpose: String::new() },
                },
            },
            5..8 => What::Drawn {
                volume: self.volume(),
                bottle,
                bath: None,
                dilution: None,
                purpose: String::new(),
            },
            8 => What::ToppedUp {
                volume: self.volume(),
                from: self.chance(0.5).then(|| self.name()),
                bottle,
            },
            9 => What::Discarded {
                bottle,
                reason: String::new(),
            },
            10..13 => What::Corrected {
                event: ids[self.below(ids.len())],
            },
            13 => What::ContentNoted {
                left: self.volume(),
                bottle,
            },
            14 => What::BottleNoted {
                is: self.anything(),
                bottle,
            },
            15 => What::Opened { bottle },
            16 => self.treat(bottle),
            17 => What::Moved {
                bottle,
                place: PLACES[self.below(4)].to_owned(),
            },
            18 if self.below(4) == 0 => What::PlaceDropped {
                place: PLACES[self.below(4)].to_owned(),
            },
            18 => self.place(),
            _ => match self.below(4) {
                0 => self.test(bottle, Class::Fixer),
                1 => What::FilmsThrough {
                    bottle,
                    units: Thousandths(1500),
                    films: String::new(),
                },
                2 => What::Developed {
                    text: match self.chance(0.5) {
                        true => session_to_text(&self.session()),
                        false => "no session".to_owned(),
                    },
                },
                _ => What::Note {
                    bottle: self.chance(0.5).then_some(bottle),
                    text: "hm".to_owned(),
                },
            },
        }
    }
}

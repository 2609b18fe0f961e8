//! What a film costs, by playing out many bottles draw by draw; and what was spent, by adding up the ledger's own text.

use super::cases::{self, Cases};
use super::{near, value};

/// Numbers of chance by the minimal standard generator (Park and Miller, CACM 31, 1988; from memory).
struct Chance(u64);

impl Chance {
    /// Above 0 and below 1.
    fn next(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }

    fn exponential(&mut self) -> f64 {
        -self.next().ln()
    }

    /// The sum of twelve uniforms, less six: near enough to a normal deviate.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.next()).sum::<f64>() - 6.0
    }
}

/// Bottles that are played out.
const BOTTLES: u32 = 6_000;

/// Millilitres of a bottle that are used within `life` days of the opening, in the mean: a film at a time, at a pace as well known
/// as twelve films tell it, the usual film as well as thirteen films that scatter by a half tell it.
fn used_in_time(size: f64, per_film: f64, interval: f64, life: f64) -> f64 {
    let mut chance = Chance(20_260_301);
    let mut all = 0.0;
    for _ in 0..BOTTLES {
        let twelve: f64 = (0..12).map(|_| chance.exponential()).sum();
        let own_interval = interval * 12.0 / twelve;
        let film = per_film * (1.0 + 0.5 / 13_f64.sqrt() * chance.normal()).max(0.2);
        let mut emptied = 0.0;
        let films = size / film;
        for _ in 0..films.floor() as u32 {
            emptied += own_interval * chance.exponential();
        }
        // At an even pace between the opening and the day on which it is empty.
        all += size * (life / emptied.max(1.0)).min(1.0);
    }
    all / f64::from(BOTTLES)
}

/// Every case with a life that does not depend on the headspace, at 20 °C.
#[test]
fn films_played_out() {
    let mut played = 0;
    for case in cases::load::<Cases>("buy").case {
        let sheet = case.answer("buy").sheet;
        let field = |name: &str| case.fields.get(name).map(String::as_str);
        let life = match (field("life_full"), field("life_half")) {
            (Some("6 months"), Some("6 months")) => 365.2425 / 2.0,
            (Some("100 years"), Some("100 years")) => 36_524.25,
            _ => continue,
        };
        let life = life * field("trusted").map_or(1.0, |text| text.parse::<f64>().expect("a number"));
        let Some(cost) = sheet.figure("costs") else { continue };
        let size = value(&sheet, "buy");
        let price = value(&sheet, "price");
        let wanted = price * 9.4 / used_in_time(size, 9.4, 365.2425 / 12.0 / 4.0, life);
        near(&case.name, cost.value, wanted, 0.02 * wanted);
        played += 1;
    }
    assert!(played >= 4, "only {played} were played out");
}

/// Every draw and every mixing between the days, times what its bottle cost, over what was in it when it came.
#[test]
fn the_ledger_added_up() {
    let mut added = 0;
    for case in cases::load::<Cases>("spend").case {
        let sheet = case.answer("spend").sheet;
        let Some(used) = sheet.figure("money_used").filter(|_| !case.events.is_empty()) else {
            continue;
        };
        let as_json = |event| serde_json::to_value(event).expect("an event");
        let events: Vec<serde_json::Value> = case.events.iter().map(as_json).collect();
        let microlitres = |value: &serde_json::Value| value.as_f64().expect("microlitres");
        let price = |bottle: &serde_json::Value| {
            let came = events
                .iter()
                .find(|event| event["what"] == "added" && event["bottle"] == *bottle);
            let came = came.expect("a bottle that came");
            let cents = came["is"]["price_cents"].as_f64();
            cents.map_or(0.0, |cents| cents / 100.0 / microlitres(&came["filled_ul"]))
        };
        let first = case.fields.get("from").map_or("2025-03-01", String::as_str);
        let last = case.fields.get("to").map_or("2026-03-01", String::as_str);
        let mut sum = 0.0;
        for event in &events {
            // Days in this form stand in the order of the alphabet.
            let day = event["day"].as_str().expect("a day");
            if day < first || day > last {
                continue;
            }
            if event["what"] == "drawn" {
                sum += microlitres(&event["volume_ul"]) * price(&event["bottle"]);
            }
            for portion in event["from"].as_array().into_iter().flatten() {
                sum += microlitres(&portion["volume_ul"]) * price(&portion["bottle"]);
            }
        }
        near(&case.name, used.value, sum, 1e-9);
        added += 1;
    }
    assert!(added >= 3, "only {added} were added up");
}

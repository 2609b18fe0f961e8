//! A day's fills a second way: every case of the vectors divided again, film by film, by deepening search over the fills, and its
//! volumes by counting parts.

use super::cases::{self, Cases};
use super::{near, parts, value};

/// A film: film units, which of a tank's volumes it takes, its time in seconds (none: -1).
type Film = (f64, usize, f64);
/// Brim, and what a 135 reel, a 120 reel, all 4 x 5 in sheets, all 8 x 10 in sheets take.
type Vessel = [f64; 5];

/// Millilitres of a text in ml or l.
fn millilitres(text: &str) -> f64 {
    let number = |unit: &str| {
        text.strip_suffix(unit)
            .map(|number| number.trim().parse::<f64>().expect("a volume"))
    };
    number("ml")
        .or_else(|| number("l").map(|litres| litres * 1000.0))
        .unwrap_or_else(|| text.parse().expect("a volume"))
}

/// Lines in the plain form `2 x 135 8:30 name`; `None` where a case is written in another way.
fn films(text: &str) -> Option<Vec<Film>> {
    let mut all = Vec::new();
    for line in text.split(';') {
        let mut words = line.split_whitespace().peekable();
        let mut first = words.next()?;
        let mut count = 1;
        if words.peek() == Some(&"x") {
            count = first.parse().ok()?;
            words.next();
            first = words.next()?;
        }
        let (units, place) = match first {
            "135" => (1.0, 1),
            "120" => (1.0, 2),
            "220" => (2.0, 2),
            "4x5" => (20.0 / 80.0, 3),
            "8x10" => (1.0, 4),
            _ => return None,
        };
        let time = match words.next() {
            None => -1.0,
            Some(word) => match word.split_once(':') {
                Some((minutes, seconds)) => minutes.parse::<f64>().ok()? * 60.0 + seconds.parse::<f64>().ok()?,
                None => word.parse::<f64>().ok()? * 60.0,
            },
        };
        all.extend(std::iter::repeat_n((units, place, time), count));
    }
    Some(all)
}

struct Day {
    tanks: Vec<Vessel>,
    per_unit: f64,
    step: f64,
    within: f64,
}

impl Day {
    /// The least bath for these films together.
    fn bath(&self, films: &[Film]) -> Option<f64> {
        let times = films.iter().map(|film| film.2);
        if times.clone().fold(f64::MIN, f64::max) - times.fold(f64::MAX, f64::min) > self.within {
            return None;
        }
        let count = |place: usize| films.iter().filter(|film| film.1 == place).count() as f64;
        // Six sheets of 4 x 5 in, one of 8 x 10 in (common practice, no source).
        if count(3) > 6.0 || count(4) > 1.0 {
            return None;
        }
        let mut least: Option<f64> = None;
        for tank in &self.tanks {
            if (1..5).any(|place| count(place) > 0.0 && tank[place] == 0.0) {
                continue;
            }
            let rolls = count(1) * tank[1] + count(2) * tank[2];
            let cover = rolls + count(3).min(1.0) * tank[3] + count(4).min(1.0) * tank[4];
            let units: f64 = films.iter().map(|film| film.0).sum();
            let wanted = cover.max(units * self.per_unit);
            if wanted <= tank[0] + 1e-9 {
                let whole = if self.step > 0.0 {
                    ((wanted - 1e-9) / self.step).ceil() * self.step
                } else {
                    wanted
                };
                let total = whole.min(tank[0]);
                least = Some(least.map_or(total, |least| least.min(total)));
            }
        }
        least
    }

    /// The least bath in all with no more than so many fills.
    fn divided(&self, films: &[Film], most: usize, groups: &mut Vec<Vec<Film>>) -> Option<f64> {
        let Some((&film, rest)) = films.split_first() else {
            return groups.iter().map(|group| self.bath(group)).sum();
        };
        let mut best: Option<f64> = None;
        for at in 0..=groups.len().min(most - 1) {
            if at == groups.len() {
                groups.push(Vec::new());
            }
            // Of fills that hold the same, the first will do.
            if !groups[..at].contains(&groups[at]) {
                groups[at].push(film);
                if self.bath(&groups[at]).is_some()
                    && let Some(bath) = self.divided(rest, most, groups)
                {
                    best = Some(best.map_or(bath, |best| best.min(bath)));
                }
                groups[at].pop();
            }
            if groups.last().is_some_and(Vec::is_empty) {
                groups.pop();
            }
        }
        best
    }
}

#[test]
fn days_divided_film_by_film() {
    let mut divided = 0;
    for case in cases::load::<Cases>("plan").case {
        let field = |name: &str| case.fields.get(name).map(String::as_str);
        let text = field("films").unwrap_or("3 x 135 8:30 harbour; 2 x 120 11:00 portraits");
        let plain = ["tanks", "most_4x5", "most_8x10", "bottle"]
            .iter()
            .all(|name| field(name).is_none());
        let (Some(mut films), true, true) = (films(text), plain, case.faults.is_empty()) else {
            continue;
        };
        let own: Vec<Vessel> = case
            .kit
            .iter()
            .filter(|entry| entry["form"] == "tank")
            .map(|entry| {
                ["brim", "per_135", "per_120", "sheets_4x5", "sheets_8x10"]
                    .map(|name| entry.get(name).map_or(0.0, |text| millilitres(text)))
            })
            .collect();
        let written = field("dilution").unwrap_or("1+31");
        let Some((a, b, water)) = parts(written) else { continue };
        let day = Day {
            tanks: if own.is_empty() {
                vec![[650.0, 290.0, 500.0, 0.0, 0.0]]
            } else {
                own
            },
            per_unit: field("least_per_film").map_or(0.0, millilitres) * (a + b + water) / a,
            step: field("step").map_or(10.0, millilitres),
            within: field("within").map_or(0.0, |text| text.trim_start_matches("0:").parse().expect("seconds")),
        };
        films.retain(|film| day.bath(&[*film]).is_some());
        let sheet = case.answer("plan").sheet;
        if films.is_empty() {
            assert!(sheet.figure("fills").is_none(), "{}", case.name);
            continue;
        }
        let (fills, bath) = (1..=films.len())
            .find_map(|most| day.divided(&films, most, &mut Vec::new()).map(|bath| (most, bath)))
            .expect("one film a fill goes");
        near(&case.name, value(&sheet, "fills"), fills as f64, 0.0);
        near(
            &case.name,
            value(&sheet, "concentrate"),
            bath * a / (a + b + water),
            1e-6,
        );
        near(&case.name, value(&sheet, "water"), bath * water / (a + b + water), 1e-6);
        divided += 1;
    }
    assert!(divided > 15, "only {divided} days were divided");
}

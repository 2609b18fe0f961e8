//! A strip: the areas that are drawn on its picture, and what was found in them.

/// A part of a picture, as it is typed: from the left, from the top, width and height, each in hundredths of the picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spot {
    /// What stands in the four fields.
    pub typed: [String; 4],
    /// What was found in it.
    pub found: Option<Found>,
}

/// What was found in an area.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// A reading, as it goes into the form; of the clear base, that it is measured.
    Reading(String),
    /// Why there is none.
    Fault(String),
}

/// What a field takes.
const NUMBER: &str = "Give a number from 0 to 100.";
const BEYOND: &str = "It reaches beyond the picture: make it smaller, or start earlier.";

impl Spot {
    /// From two corners, in hundredths of the picture.
    pub fn between(one: (f64, f64), other: (f64, f64)) -> Self {
        let from = (one.0.min(other.0), one.1.min(other.1));
        let to = (one.0.max(other.0), one.1.max(other.1));
        let typed = [from.0, from.1, to.0 - from.0, to.1 - from.1];
        Self {
            typed: typed.map(|percent| crate::quantity::show::trimmed(percent, 2)),
            found: None,
        }
    }

    /// The four numbers, once they are a part of the picture.
    pub fn percent(&self) -> Option<[f64; 4]> {
        let is_fine = self.faults().iter().all(Option::is_none);
        let numbers = self.typed.each_ref().map(|text| number(text));
        match numbers {
            [Some(left), Some(top), Some(width), Some(height)] if is_fine => Some([left, top, width, height]),
            _ => None,
        }
    }

    /// What is wrong at each of the four fields. What is empty is not wrong.
    pub fn faults(&self) -> [Option<&'static str>; 4] {
        let numbers = self.typed.each_ref().map(|text| number(text));
        let mut faults = [0, 1, 2, 3].map(|field| {
            let is_number = matches!(numbers[field], Some(number) if (0.0..=100.0).contains(&number));
            (!is_number && !self.typed[field].trim().is_empty()).then_some(NUMBER)
        });
        for (start, length) in [(0, 2), (1, 3)] {
            if let (Some(from), Some(long), None) = (numbers[start], numbers[length], faults[length])
                // Two decimals of each.
                && from + long > 100.0 + 0.02
            {
                faults[length] = Some(BEYOND);
            }
        }
        faults
    }
}

fn number(text: &str) -> Option<f64> {
    text.trim()
        .trim_end_matches('%')
        .trim_end()
        .replace(',', ".")
        .parse()
        .ok()
}

/// A strip of film.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The clear base first, then the patches.
    pub areas: Vec<Spot>,
    /// Which of them is drawn and typed.
    pub chosen: usize,
}

impl Default for Strip {
    /// The base and one patch, neither drawn.
    fn default() -> Self {
        Self {
            areas: vec![Spot::default(); 2],
            chosen: 0,
        }
    }
}

impl Strip {
    /// What an area is called.
    pub fn name(area: usize) -> String {
        match area {
            0 => "Clear base".to_owned(),
            patch => format!("Patch {patch}"),
        }
    }

    /// The area that is drawn and typed.
    pub fn chosen(&mut self) -> &mut Spot {
        &mut self.areas[self.chosen]
    }

    /// Adds a patch and chooses it.
    pub fn add(&mut self) {
        self.areas.push(Spot::default());
        self.chosen = self.areas.len() - 1;
    }

    /// Takes a patch away; the base stays.
    pub fn remove(&mut self, area: usize) {
        if area > 0 && area < self.areas.len() {
            self.areas.remove(area);
            if self.chosen >= area {
                self.chosen -= 1;
            }
        }
    }

    /// After one is drawn, the next that is not, if there is one.
    pub fn choose_next(&mut self) {
        let is_empty = |spot: &Spot| spot.typed.iter().all(String::is_empty);
        if let Some(next) = self.areas.iter().position(is_empty) {
            self.chosen = next;
        }
    }

    /// The readings of the patches as a form takes them, one a line; patches that are not drawn are passed over.
    ///
    /// # Errors
    ///
    /// The name of the first area that is drawn and has no reading: without it, the patches of two strips would not be in step.
    pub fn readings(&self) -> Result<String, String> {
        let mut lines = Vec::new();
        for (area, spot) in self.areas.iter().enumerate() {
            match &spot.found {
                Some(Found::Reading(reading)) if area > 0 => lines.push(reading.as_str()),
                Some(Found::Reading(_)) => {}
                None if spot.typed.iter().all(String::is_empty) => {}
                _ => return Err(Self::name(area)),
            }
        }
        Ok(lines.join("\n"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spot(typed: [&str; 4]) -> Spot {
        Spot {
            typed: typed.map(str::to_owned),
            found: None,
        }
    }

    /// No outside source: our own rules.
    #[test]
    fn what_is_typed_is_read_or_has_a_fault() {
        assert_eq!(
            spot(["10", "2,5", " 20 %", "90"]).percent(),
            Some([10.0, 2.5, 20.0, 90.0])
        );
        for (typed, faults) in [
            (["", "", "", ""], [None; 4]),
            (["10", "", "20", ""], [None; 4]),
            (["x", "-1", "101", "NaN"], [Some(NUMBER); 4]),
            (["50", "50", "51", "50"], [None, None, Some(BEYOND), None]),
            (["50", "50", "1", "60"], [None, None, None, Some(BEYOND)]),
        ] {
            assert_eq!(spot(typed).faults(), faults, "{typed:?}");
            assert_eq!(spot(typed).percent(), None);
        }
        let drawn = Spot::between((60.0, 10.0), (20.0, 100.0 / 3.0));
        assert_eq!(drawn.typed, ["20", "10", "40", "23.33"]);
    }

    #[test]
    fn readings_are_in_step_or_not_given() {
        let mut strip = Strip::default();
        assert_eq!(strip.readings().as_deref(), Ok(""));
        strip.add();
        let drawn = |found| Spot {
            found,
            ..spot(["1", "1", "9", "9"])
        };
        let reading = |text: &str| Some(Found::Reading(text.to_owned()));
        strip.areas[0] = drawn(reading("measured"));
        strip.areas[1] = drawn(reading("0.301 ± 0.004"));
        strip.areas[2] = drawn(reading("0.602 ± 0.005"));
        assert_eq!(strip.readings().as_deref(), Ok("0.301 ± 0.004\n0.602 ± 0.005"));
        strip.areas[1].found = Some(Found::Fault("It is too small.".to_owned()));
        assert_eq!(strip.readings(), Err("Patch 1".to_owned()));
        strip.remove(1);
        assert_eq!((strip.readings().as_deref(), strip.chosen), (Ok("0.602 ± 0.005"), 1));
        strip.areas[1].found = None;
        assert_eq!(strip.readings(), Err("Patch 1".to_owned()));
        strip.remove(0);
        assert_eq!(strip.areas.len(), 2);
        strip.add();
        strip.add();
        strip.choose_next();
        assert_eq!(strip.chosen, 2);
    }
}

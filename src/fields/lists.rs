//! Kinds of field that take a list in one text: containers at hand, sizes on offer.

use super::Kind;
use crate::keeping::Size;
use crate::kit::container::BRIMFUL;
use crate::kit::{Colour, Container, Material};
use crate::quantity::{Units, bounds, read};

/// A field for the containers at hand, each with its capacity to the brim and its material.
///
/// ```
/// use meniscus::fields::{Containers, Kind};
/// use meniscus::quantity::Units;
///
/// let read = |text| Containers.read(text, Units::default());
/// let all = read("2 x 250 ml brown glass; 50 ml PET").expect("three containers");
/// assert_eq!(all.iter().map(|one| one.brimful.millilitres()).collect::<Vec<_>>(), [250.0, 250.0, 50.0]);
/// assert!(read("250 ml").unwrap_err().starts_with("“250 ml” does not end with a material"));
/// ```
#[derive(Clone, Copy)]
pub struct Containers;

/// Containers that one list may name.
const MOST_CONTAINERS: usize = 60;
/// Words for a colour that may stand before the material.
const COLOURS: [(&str, Colour); 5] = [
    ("brown", Colour::Amber),
    ("amber", Colour::Amber),
    ("dark", Colour::Amber),
    ("clear", Colour::Clear),
    ("opaque", Colour::Opaque),
];

impl Kind for Containers {
    type Value = Vec<Container>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<Container>, String> {
        let mut all = Vec::new();
        for piece in pieces(text) {
            let (count, container) = container(piece, units)?;
            if !(1..=MOST_CONTAINERS).contains(&count) || all.len() + count > MOST_CONTAINERS {
                return Err(format!("a list takes 1 to {MOST_CONTAINERS} containers"));
            }
            all.extend(std::iter::repeat_n(container, count));
        }
        Ok(all)
    }

    fn takes(&self, units: Units) -> String {
        let show = |size| read::show_volume(size, units);
        format!(
            "to the brim, parted by semicolons: 2 x {} glass; {} PET",
            show(250.0),
            show(50.0)
        )
    }
}

/// Containers as such a field takes them.
///
/// ```
/// use meniscus::fields::{Containers, Kind, containers_text};
/// use meniscus::quantity::Units;
///
/// let units = Units::default();
/// let text = "2 x 250 ml brown glass; 50 ml pet";
/// let all = Containers.read(text, units).expect("three containers");
/// assert_eq!(containers_text(&all, units), text);
/// ```
pub fn containers_text(all: &[Container], units: Units) -> String {
    let pieces = all.chunk_by(|one, other| one == other).map(|alike| {
        let one = &alike[0];
        let colour = COLOURS
            .iter()
            .find(|(_, colour)| *colour == one.colour && *colour != Colour::Clear);
        let material = Material::ALL.iter().find(|(_, _, material)| *material == one.material);
        let words = [
            units.volume(one.brimful),
            colour.map(|(word, _)| (*word).to_owned()).unwrap_or_default(),
            material.map(|(word, _, _)| (*word).to_owned()).unwrap_or_default(),
        ];
        let words: Vec<String> = words.into_iter().filter(|word| !word.is_empty()).collect();
        match alike.len() {
            1 => words.join(" "),
            many => format!("{many} x {}", words.join(" ")),
        }
    });
    pieces.collect::<Vec<_>>().join("; ")
}

/// One piece of a list: `2 x 250 ml brown glass`.
fn container(piece: &str, units: Units) -> Result<(usize, Container), String> {
    let counted = piece.split_once(['x', '×', '*']);
    let counted = counted.and_then(|(count, rest)| Some((count.trim().parse::<usize>().ok()?, rest.trim())));
    let (count, rest) = counted.unwrap_or((1, piece));
    let (size, word) = rest.rsplit_once(char::is_whitespace).unwrap_or(("", rest));
    let material = Material::ALL
        .iter()
        .find(|(known, _, _)| word.eq_ignore_ascii_case(known));
    let Some(&(_, _, material)) = material else {
        let words: Vec<&str> = Material::ALL.iter().map(|(word, _, _)| *word).collect();
        return Err(format!(
            "“{}” does not end with a material; write one of {}",
            short(piece),
            words.join(", ")
        ));
    };
    if size.trim().is_empty() {
        let example = read::show_volume(250.0, units);
        return Err(format!("“{}” lacks its capacity; write {example} {word}", short(piece)));
    }
    let (last_of_size, colour) = match size.trim().rsplit_once(char::is_whitespace) {
        Some((before, last)) => match COLOURS.iter().find(|(word, _)| last.eq_ignore_ascii_case(word)) {
            Some((_, colour)) => (before, *colour),
            None => (size, Colour::Clear),
        },
        None => (size, Colour::Clear),
    };
    let brimful = read::volume(last_of_size, &BRIMFUL, units).map_err(|error| error.to_string())?;
    let container = Container {
        name: String::new(),
        brimful,
        nominal: None,
        material,
        wall_area: None,
        thickness: None,
        colour,
    };
    Ok((count, container))
}

/// A field for the sizes on offer, each with its price.
///
/// ```
/// use meniscus::fields::{Kind, Offers};
/// use meniscus::quantity::Units;
///
/// let read = |text| Offers.read(text, Units::default());
/// let sizes = read("250 ml 12.50; 1 l 29,90 EUR").expect("two sizes");
/// assert_eq!((sizes[1].volume.millilitres(), sizes[1].price), (1000.0, 29.9));
/// assert_eq!(read("500 ml").unwrap_err(), "“500 ml” is not a size and its price; write 500 ml 19.50");
/// ```
#[derive(Clone, Copy)]
pub struct Offers;

/// Sizes that one list may name.
const MOST_SIZES: usize = 8;

impl Kind for Offers {
    type Value = Vec<Size>;

    fn read(&self, text: &str, units: Units) -> Result<Vec<Size>, String> {
        let sizes: Vec<Size> = pieces(text)
            .map(|piece| offer(piece, units))
            .collect::<Result<_, _>>()?;
        match sizes.len() {
            0 | 1..=MOST_SIZES => Ok(sizes),
            _ => Err(format!("a list takes up to {MOST_SIZES} sizes")),
        }
    }

    fn takes(&self, units: Units) -> String {
        let show = |size| read::show_volume(size, units);
        let price = |price| format!("{}0", units.number(price, 1));
        format!(
            "one a line: {} {}; {} {}",
            show(250.0),
            price(12.5),
            show(1000.0),
            price(29.9)
        )
    }
}

/// One piece of a list: `250 ml 12.50`, with the currency behind it or not.
fn offer(piece: &str, units: Units) -> Result<Size, String> {
    let Some((size, price)) = priced(piece).filter(|(size, _)| !size.is_empty()) else {
        let (size, price) = (read::show_volume(500.0, units), units.number(19.5, 1));
        let price = format!("{price}0");
        return Err(format!(
            "“{}” is not a size and its price; write {size} {price}",
            short(piece)
        ));
    };
    Ok(Size {
        volume: read::volume(size.trim_end_matches([':', '=']), &bounds::SIZE, units)
            .map_err(|error| error.to_string())?,
        price: read::number(price, &bounds::PRICE, units).map_err(|error| error.to_string())?,
    })
}

/// What something is and the number of its price, the currency before or behind it dropped; `None` where no word has a digit.
pub(super) fn priced(piece: &str) -> Option<(String, &str)> {
    let has_digit = |word: &&str| word.bytes().any(|byte| byte.is_ascii_digit());
    let words: Vec<&str> = piece.split_whitespace().collect();
    let last = words.iter().rposition(has_digit)?;
    let mut before = &words[..last];
    if let Some((&("for" | "at" | "="), rest)) = before.split_last() {
        before = rest;
    }
    let sign = |letter: char| !letter.is_ascii_digit() && !matches!(letter, '-' | '.' | ',');
    Some((before.join(" "), words[last].trim_matches(sign)))
}

/// Every piece of a list of at most so many, or what is wrong with the first that cannot be read.
pub(super) fn list<T>(text: &str, most: usize, read: impl Fn(&str) -> Result<T, String>) -> Result<Vec<T>, String> {
    let all: Vec<T> = pieces(text).map(read).collect::<Result<_, _>>()?;
    match all.len() <= most {
        true => Ok(all),
        false => Err(format!("a list takes up to {most} of them")),
    }
}

/// The pieces of a list, one a line or parted by semicolons.
pub(super) fn pieces(text: &str) -> impl Iterator<Item = &str> {
    let parts = text.split([';', '\n']).flat_map(|part| part.split(" and "));
    parts.map(str::trim).filter(|piece| !piece.is_empty())
}

/// So much of a text as a sentence can quote.
pub(super) fn short(text: &str) -> String {
    text.chars().take(24).collect()
}

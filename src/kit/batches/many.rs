//! Dividing whatever there is: exactly where the table is small enough, else by the relaxation and the table, else by plain filling.

use super::Packed;
use super::packing::{Cost, Kind, Packing, Pattern, exact};
use super::relaxation::relaxed;
use crate::kit::{Cover, Film, Load, Tank};
use crate::quantity::Volume;

/// So many numbers the table of the relaxation may have.
const MOST_ENTRIES: usize = 60_000;

/// As few fills as can be, then as little bath.
pub(super) fn solve(packing: &Packing) -> Packed {
    let counts = packing.counts();
    if let Some(all) = packing.pattern(&counts) {
        return Packed {
            fills: vec![all],
            at_least: 1,
            is_least_bath: true,
        };
    }
    let Some(patterns) = packing.patterns() else {
        return without_patterns(packing);
    };
    if let Some(fills) = exact(&counts, &patterns, &Cost::FEWEST_FILLS) {
        return Packed {
            at_least: fills.len(),
            fills,
            is_least_bath: true,
        };
    }
    let full: Vec<Pattern> = patterns.iter().filter(|one| is_full(packing, one)).cloned().collect();
    if full.len() * counts.len() > MOST_ENTRIES {
        return without_patterns(packing);
    }
    let packed = by_relaxation(packing, &patterns, &full);
    if packed.fills.len() == packed.at_least || packing.reach.len() == 1 {
        return packed;
    }
    let other = without_patterns(packing);
    Packed {
        at_least: packed.at_least.max(other.at_least),
        fills: match other.fills.len() < packed.fills.len() {
            true => other.fills,
            false => packed.fills,
        },
        is_least_bath: false,
    }
}

/// Whether no film more can be in that fill.
fn is_full(packing: &Packing, pattern: &Pattern) -> bool {
    let mut counts = pattern.counts.clone();
    (0..counts.len()).all(|kind| {
        let more = counts[kind] < packing.kinds[kind].count;
        counts[kind] += 1;
        let fits = more && packing.pattern(&counts).is_some();
        counts[kind] -= 1;
        !fits
    })
}

/// The whole parts of the relaxation's fills, then its largest parts, until the table takes the rest.
fn by_relaxation(packing: &Packing, patterns: &[Pattern], full: &[Pattern]) -> Packed {
    let mut left = packing.counts();
    let relaxed = relaxed(&left, full);
    let mut uses = relaxed.uses;
    let mut fills: Vec<Pattern> = Vec::new();
    let mut take = |pattern: &Pattern, left: &mut [u32]| {
        let counts: Vec<u32> = pattern
            .counts
            .iter()
            .zip(&*left)
            .map(|(&count, &left)| count.min(left))
            .collect();
        let fill = packing.pattern(&counts)?;
        left.iter_mut().zip(&counts).for_each(|(left, count)| *left -= count);
        fills.push(fill);
        Some(())
    };
    for (pattern, uses) in full.iter().zip(&mut uses) {
        let whole = (*uses + 1e-6).floor();
        *uses -= whole;
        for _ in 0..whole as usize {
            take(pattern, &mut left);
        }
    }
    loop {
        let goes = |one: &&Pattern| one.counts.iter().zip(&left).all(|(count, left)| count <= left);
        let rest: Vec<Pattern> = patterns.iter().filter(goes).cloned().collect();
        if let Some(chosen) = exact(&left, &rest, &Cost::FEWEST_FILLS) {
            fills.extend(chosen);
            break;
        }
        let largest = (0..full.len()).reduce(|best, other| if uses[other] > uses[best] { other } else { best });
        let Some(largest) = largest else { break };
        uses[largest] = -1.0;
        take(&full[largest], &mut left);
    }
    Packed {
        fills,
        at_least: relaxed.at_least,
        is_least_bath: false,
    }
}

/// Times that go together are put together from the shortest on, and each such group is divided by itself; one group is divided by
/// filling tank after tank.
fn without_patterns(packing: &Packing) -> Packed {
    if packing.reach.len() == 1 {
        return by_filling(packing);
    }
    let mut left = packing.counts();
    let mut fills = Vec::new();
    let mut from = 0;
    while let Some(&to) = packing.reach.get(from) {
        let inside = |kind: &Kind| (from..=to).contains(&kind.class);
        let group = one_class(packing, inside);
        for fill in solve(&group).fills {
            let mut counts = vec![0; left.len()];
            for (kind, &wanted) in group.kinds.iter().zip(&fill.counts) {
                let mut wanted = wanted;
                for (at, own) in packing.kinds.iter().enumerate() {
                    if own.film == kind.film && inside(own) {
                        let taken = wanted.min(left[at]);
                        (counts[at], left[at], wanted) = (taken, left[at] - taken, wanted - taken);
                    }
                }
            }
            fills.push(Pattern { counts, ..fill });
        }
        from = to + 1;
    }
    // All of the film wants so many fills whatever its times; and so do classes that never meet, each by itself.
    let whole = solve(&one_class(packing, |_| true)).at_least;
    let mut apart = vec![0; packing.reach.len() + 1];
    for (class, &reach) in packing.reach.iter().enumerate().rev() {
        let own = solve(&one_class(packing, |kind| kind.class == class)).at_least;
        apart[class] = apart[class + 1].max(own + apart[reach + 1]);
    }
    Packed {
        fills,
        at_least: whole.max(apart[0]),
        is_least_bath: false,
    }
}

/// The kinds inside as if their times were one.
fn one_class<'a>(packing: &Packing<'a>, inside: impl Fn(&Kind) -> bool) -> Packing<'a> {
    let kinds = Film::ALL.iter().map(|&film| {
        let own = packing.kinds.iter().filter(|kind| kind.film == film && inside(kind));
        Kind {
            film,
            class: 0,
            count: own.map(|kind| kind.count).sum(),
        }
    });
    Packing {
        kinds: kinds.filter(|kind| kind.count > 0).collect(),
        reach: vec![0],
        limits: packing.limits,
    }
}

/// Fill after fill as much as goes in, beginning with whichever format brings most in; films are weighed by how many of their kind fill
/// a tank.
fn by_filling(packing: &Packing) -> Packed {
    let kinds = packing.kinds.len();
    let mut left = packing.counts();
    // As many of one kind as go in, with what is in already.
    let top_up = |counts: &mut [u32], kind: usize, left: u32| {
        let (mut low, mut high) = (counts[kind], left);
        while low < high {
            counts[kind] = high - (high - low) / 2;
            match packing.pattern(counts) {
                Some(_) => low = counts[kind],
                None => high = counts[kind] - 1,
            }
        }
        counts[kind] = low;
    };
    let alone: Vec<f64> = (0..kinds)
        .map(|kind| {
            let mut counts = vec![0; kinds];
            top_up(&mut counts, kind, left[kind]);
            f64::from(counts[kind].max(1))
        })
        .collect();
    let worth = |counts: &[u32]| -> f64 {
        counts
            .iter()
            .zip(&alone)
            .map(|(&count, alone)| f64::from(count) / alone)
            .sum()
    };
    let mut fills = Vec::new();
    while left.iter().any(|&count| count > 0) {
        let from = |first: usize| {
            let mut counts = vec![0; kinds];
            for step in 0..kinds {
                let kind = (first + step) % kinds;
                top_up(&mut counts, kind, left[kind]);
            }
            packing.pattern(&counts)
        };
        let better = |best: Pattern, other: Pattern| match worth(&other.counts) > worth(&best.counts) {
            true => other,
            false => best,
        };
        let Some(fill) = (0..kinds).filter_map(from).reduce(better) else {
            break;
        };
        left.iter_mut()
            .zip(&fill.counts)
            .for_each(|(left, count)| *left -= count);
        fills.push(fill);
    }
    Packed {
        at_least: at_least(packing, &alone).min(fills.len()),
        fills,
        is_least_bath: false,
    }
}

/// So many fills there must be, whatever goes together: for each kind by itself, for all rolls by the room they take, and for all film by
/// the bath it wants.
fn at_least(packing: &Packing, alone: &[f64]) -> usize {
    let limits = packing.limits;
    let by_kind = packing
        .kinds
        .iter()
        .zip(alone)
        .map(|(kind, alone)| f64::from(kind.count) / alone);
    let room = |kind: &Kind| {
        let share = |tank: &&Tank| match tank.cover(&Load::of(kind.film, 1)) {
            _ if kind.film.is_sheet() => Some(0.0),
            Cover::From(cover) => Some(cover / tank.brim),
            _ => None,
        };
        let least = limits.tanks.iter().filter_map(share).reduce(f64::min);
        f64::from(kind.count) * least.unwrap_or(0.0)
    };
    let by_room = packing.kinds.iter().map(room).sum();
    let brim = limits
        .tanks
        .iter()
        .map(|tank| tank.brim)
        .fold(Volume::ZERO, Volume::max);
    let by_bath = limits.per_unit * packing.load(&packing.counts()).units() / brim;
    let most = by_kind.fold(f64::max(by_room, by_bath), f64::max);
    (most - 1e-6).ceil().max(1.0) as usize
}

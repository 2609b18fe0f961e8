//! Kinds of film, what of them can be in one fill, and the exact division by a table over all that may still be left.

use super::Limits;
use crate::kit::{Film, Load};

/// Films that are alike for dividing: of one format, and of times that go with the same others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Kind {
    pub film: Film,
    /// Class of their times.
    pub class: usize,
    pub count: u32,
}

/// What is to be divided over fills.
pub(super) struct Packing<'a> {
    pub kinds: Vec<Kind>,
    /// For each class of times, in rising order, the last one that still goes with it.
    pub reach: Vec<usize>,
    pub limits: &'a Limits<'a>,
}

/// What can be in one fill.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pattern {
    /// How many of each kind.
    pub counts: Vec<u32>,
    /// Its bath, in microlitres.
    pub bath: u64,
    pub tank: usize,
}

/// What a plan is to spare: a fill costs so much, and each microlitre of its bath so much.
pub(super) struct Cost {
    fill: u64,
    bath: u64,
}

impl Cost {
    /// One fill more is dearer than any baths.
    pub const FEWEST_FILLS: Self = Self { fill: 1 << 44, bath: 1 };
    /// A microlitre more is dearer than any fills.
    pub const LEAST_BATH: Self = Self { fill: 1, bath: 1 << 10 };

    fn of(&self, pattern: &Pattern) -> u64 {
        self.fill + self.bath * pattern.bath
    }
}

/// So many loads are tried in all tanks; more is left to rougher ways.
const MOST_TRIED: usize = 50_000;
/// So many steps the exact table may take: some milliseconds.
const MOST_STEPS: u64 = 5_000_000;
/// So many entries it may have.
const MOST_STATES: u64 = 1_000_000;

impl Packing<'_> {
    pub fn counts(&self) -> Vec<u32> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }

    pub fn load(&self, counts: &[u32]) -> Load {
        let kinds = self.kinds.iter().zip(counts);
        kinds.map(|(kind, &count)| (kind.film, count)).collect()
    }

    /// So many of each kind in one fill, in the tank that takes the least bath; `None` if they do not go together.
    pub fn pattern(&self, counts: &[u32]) -> Option<Pattern> {
        let classes = || {
            let there = self.kinds.iter().zip(counts).filter(|(_, count)| **count > 0);
            there.map(|(kind, _)| kind.class)
        };
        let (first, last) = (classes().min()?, classes().max()?);
        let (bath, tank) = self
            .limits
            .fit(&self.load(counts))
            .filter(|_| last <= self.reach[first])?;
        Some(Pattern {
            counts: counts.to_vec(),
            bath,
            tank,
        })
    }

    /// All that can be in one fill; `None` if that is too much to look through. Whatever is in a fill can be in it without any one
    /// of its films, so each is found from another by one film more.
    pub fn patterns(&self) -> Option<Vec<Pattern>> {
        let mut found: Vec<Pattern> = Vec::new();
        let mut tried = 0;
        let mut grown = 0;
        let mut counts = vec![0; self.kinds.len()];
        loop {
            let from = counts.iter().rposition(|&count| count > 0).unwrap_or(0);
            for kind in from..counts.len() {
                if counts[kind] == self.kinds[kind].count {
                    continue;
                }
                counts[kind] += 1;
                found.extend(self.pattern(&counts));
                counts[kind] -= 1;
                tried += self.limits.tanks.len();
            }
            if tried > MOST_TRIED {
                return None;
            }
            let Some(next) = found.get(grown) else {
                return Some(found);
            };
            counts.copy_from_slice(&next.counts);
            grown += 1;
        }
    }
}

/// The patterns that make up so many of each kind at the least cost; `None` if the table would be too large. Every single film must
/// be a pattern.
///
/// Some fill holds the first film that is left, so only patterns with one of its kind, and none of a kind before it, are tried.
pub(super) fn exact(counts: &[u32], patterns: &[Pattern], cost: &Cost) -> Option<Vec<Pattern>> {
    let first_of = |counts: &[u32]| counts.iter().position(|&count| count > 0);
    let mut tried = vec![0_u64; counts.len()];
    for pattern in patterns {
        tried[first_of(&pattern.counts)?] += 1;
    }
    // Numbers left, as one number twice: as the place in the table, the first kind in the largest units, and in fields of bits, each with
    // room for a bit that shows whether the pattern's number was the larger one. A table of so few states needs 60 bits at the most.
    let (mut units, mut shifts) = (vec![0_u64; counts.len()], vec![0_u32; counts.len()]);
    let (mut states, mut steps, mut bits) = (1_u64, 0_u64, 0);
    for kind in (0..counts.len()).rev() {
        let many = u64::from(counts[kind]);
        (units[kind], shifts[kind]) = (states, bits);
        steps = steps.saturating_add((many * states).saturating_mul(tried[kind]));
        states = states.checked_mul(many + 1).filter(|&states| states <= MOST_STATES)?;
        bits += u64::BITS - many.leading_zeros() + 1;
    }
    if steps > MOST_STEPS {
        return None;
    }
    let sum = |counts: &[u32], of: &dyn Fn(usize) -> u64| -> u64 {
        counts
            .iter()
            .enumerate()
            .map(|(kind, &count)| u64::from(count) * of(kind))
            .sum()
    };
    let in_bits = |counts: &[u32]| sum(counts, &|kind| 1 << shifts[kind]);
    let larger = |kind: usize| 1 << (shifts[kind] + u64::BITS - u64::from(counts[kind]).leading_zeros());
    let guard: u64 = (0..counts.len()).map(larger).sum();
    let mut starting: Vec<Vec<(u64, usize, u64, usize)>> = vec![Vec::new(); counts.len()];
    let offset = |pattern: &Pattern| sum(&pattern.counts, &|kind| units[kind]) as usize;
    let offsets: Vec<usize> = patterns.iter().map(offset).collect();
    for (at, (pattern, &offset)) in patterns.iter().zip(&offsets).enumerate() {
        starting[first_of(&pattern.counts)?].push((in_bits(&pattern.counts), offset, cost.of(pattern), at));
    }
    let mut best = vec![(0_u64, 0_usize)];
    let mut left = vec![0_u32; counts.len()];
    for state in 1..states as usize {
        for kind in (0..counts.len()).rev() {
            left[kind] += 1;
            if left[kind] <= counts[kind] {
                break;
            }
            left[kind] = 0;
        }
        let there = in_bits(&left) | guard;
        let mut least = (u64::MAX, 0);
        for &(bits, offset, cost, at) in &starting[first_of(&left)?] {
            if (there - bits) & guard == guard {
                least = least.min((best[state - offset].0 + cost, at));
            }
        }
        best.push(least);
    }
    let mut state = best.len() - 1;
    let mut chosen = Vec::new();
    while state > 0 {
        let at = best[state].1;
        chosen.push(patterns[at].clone());
        state -= offsets[at];
    }
    Some(chosen)
}

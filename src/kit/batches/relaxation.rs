//! How few fills there can be if parts of fills counted: the linear relaxation of the packing, by the simplex method.

use super::packing::Pattern;

/// The relaxation solved.
pub(super) struct Relaxed {
    /// So many fills there must be at the least.
    pub at_least: usize,
    /// How often each of the patterns is used.
    pub uses: Vec<f64>,
}

/// Pivots after which the simplex stops; what it has then is still a bound.
const MOST_PIVOTS: usize = 300;
/// How far the rooms of patterns are moved apart.
const APART: f64 = 1e-5;
/// What sums of this size may be off by.
const SLACK: f64 = 1e-9;

/// Least number of patterns, not whole ones, that cover so many of each kind: solved as its dual, the most that films can be
/// worth if no pattern is worth more than a fill.
///
/// With `y` the worth of a film of each kind: maximise `counts · y` where `pattern · y <= 1` for all patterns and `y >= 0`. At `y = 0`
/// every constraint holds, so the plain simplex can begin there. `at_least` is worked out from `y` by itself, and so does not rest on
/// the pivots.
pub(super) fn relaxed(counts: &[u32], patterns: &[Pattern]) -> Relaxed {
    let (rows, columns) = (patterns.len(), counts.len());
    let mut table: Vec<Vec<f64>> = patterns
        .iter()
        .map(|pattern| pattern.counts.iter().map(|&count| f64::from(count)).collect())
        .collect();
    // Rooms a little apart, so that no two pivots tie and go round in a circle: the larger the bath, the dearer the pattern.
    let largest = patterns.iter().map(|pattern| pattern.bath).max().unwrap_or(1) as f64;
    let apart =
        |(at, pattern): (usize, &Pattern)| 1.0 + APART * (pattern.bath as f64 / largest + at as f64 / rows as f64);
    let mut room: Vec<f64> = patterns.iter().enumerate().map(apart).collect();
    let mut gain: Vec<f64> = counts.iter().map(|&count| f64::from(count)).collect();
    // What each row and each column stands for: a kind's worth, or what a pattern has to spare.
    let mut row_is: Vec<usize> = (columns..columns + rows).collect();
    let mut column_is: Vec<usize> = (0..columns).collect();
    for _ in 0..MOST_PIVOTS {
        let Some(column) = (0..columns)
            .filter(|&column| gain[column] > SLACK)
            .reduce(|best, other| if gain[other] > gain[best] { other } else { best })
        else {
            break;
        };
        let bound = |row: usize| room[row] / table[row][column];
        let Some(row) = (0..rows)
            .filter(|&row| table[row][column] > SLACK)
            .reduce(|best, other| if bound(other) < bound(best) { other } else { best })
        else {
            break;
        };
        pivot(&mut table, &mut room, &mut gain, row, column);
        std::mem::swap(&mut row_is[row], &mut column_is[column]);
    }
    let mut worth = vec![0.0_f64; columns];
    for (row, &is) in row_is.iter().enumerate() {
        if is < columns {
            worth[is] = room[row].max(0.0);
        }
    }
    let mut uses = vec![0.0; rows];
    for (column, &is) in column_is.iter().enumerate() {
        if is >= columns {
            uses[is - columns] = (-gain[column]).max(0.0);
        }
    }
    let value = |of: &[u32]| -> f64 {
        of.iter()
            .zip(&worth)
            .map(|(&count, worth)| f64::from(count) * worth)
            .sum()
    };
    let dearest = patterns
        .iter()
        .map(|pattern| value(&pattern.counts))
        .fold(0.0, f64::max);
    let at_least = match dearest > 0.0 {
        true => (value(counts) / dearest - 1e-6).ceil().max(0.0) as usize,
        false => 0,
    };
    Relaxed { at_least, uses }
}

/// One exchange of a row with a column.
fn pivot(table: &mut [Vec<f64>], room: &mut [f64], gain: &mut [f64], row: usize, column: usize) {
    let by = table[row][column];
    let mut own = std::mem::take(&mut table[row]);
    own.iter_mut().for_each(|entry| *entry /= by);
    own[column] = 1.0 / by;
    room[row] /= by;
    let exchange = |entries: &mut [f64]| {
        let factor = entries[column];
        if factor == 0.0 {
            return 0.0;
        }
        for (entry, own) in entries.iter_mut().zip(&own) {
            *entry -= factor * own;
        }
        entries[column] = -factor / by;
        factor
    };
    for other in 0..table.len() {
        if other != row {
            room[other] -= exchange(&mut table[other]) * room[row];
        }
    }
    exchange(gain);
    table[row] = own;
}

//! Every plan there is: each set of containers filled to the brim, and each way to keep what is left over.

use super::cost::Prices;
use super::{Fill, Job, Plan, stay};
use crate::quantity::Volume;
use crate::quantity::sorted::sort;

/// The best plan for each number of containers to be filled.
pub(super) struct Found {
    pub best: Vec<Plan>,
    pub exhaustive: bool,
}

/// Plans that are weighed before the search is given up: more than eleven unlike containers have.
const MOST_PLANS: usize = 1 << 15;

/// Containers that are alike are interchangeable: only how many of each is asked.
pub(super) fn best_by_poured(job: &Job, prices: &Prices) -> Found {
    let mut search = Search {
        job,
        prices,
        kinds: kinds(job),
        best: vec![None; job.at_hand.len() + 1],
        looked_at: 0,
    };
    search.choose(0, job.content, &mut Vec::new());
    Found {
        exhaustive: search.looked_at <= MOST_PLANS,
        best: search.best.into_iter().flatten().collect(),
    }
}

struct Search<'a> {
    job: &'a Job<'a>,
    prices: &'a Prices,
    /// Places of those at hand that are alike, largest first.
    kinds: Vec<Vec<usize>>,
    best: Vec<Option<Plan>>,
    looked_at: usize,
}

impl Search<'_> {
    /// Takes as many of a kind as can be filled, then fewer, down to none, and goes on to the next kind each time; so that
    /// where not every plan can be looked at, the best filled ones are.
    fn choose(&mut self, kind: usize, rest: Volume, full: &mut Vec<usize>) {
        let Some(alike) = self.kinds.get(kind).cloned() else {
            return self.settle(rest, full);
        };
        let size = self.job.at_hand[alike[0]].brimful;
        let fit = (rest.microlitres() / size.microlitres()).max(0) as usize;
        let before = full.len();
        full.extend(alike.into_iter().take(fit));
        loop {
            let taken = full.len() - before;
            self.choose(kind + 1, rest - size * taken as f64, full);
            if taken == 0 || self.looked_at > MOST_PLANS {
                break;
            }
            full.pop();
        }
        full.truncate(before);
    }

    /// What is left over stays, or goes into one more container that is larger.
    fn settle(&mut self, rest: Volume, full: &[usize]) {
        let fills: Vec<Fill> = full
            .iter()
            .map(|&place| self.fill(place, self.job.at_hand[place].brimful))
            .collect();
        if rest.microlitres() <= 0 {
            return self.offer(fills);
        }
        if !full.is_empty() {
            self.offer(with(&fills, stay(self.job, rest)));
        }
        for kind in 0..self.kinds.len() {
            let free = self.kinds[kind].iter().find(|place| !full.contains(place));
            if let Some(&place) = free.filter(|&&place| self.job.at_hand[place].brimful > rest) {
                self.offer(with(&fills, self.fill(place, rest)));
            }
        }
    }

    fn fill(&self, place: usize, volume: Volume) -> Fill {
        Fill {
            container: Some(place),
            volume,
            brimful: volume >= self.job.at_hand[place].brimful,
        }
    }

    fn offer(&mut self, fills: Vec<Fill>) {
        self.looked_at += 1;
        let plan = self.prices.plan(fills);
        let best = &mut self.best[plan.poured()];
        if best.as_ref().is_none_or(|best| plan.oxygen < best.oxygen) {
            *best = Some(plan);
        }
    }
}

fn with(fills: &[Fill], one: Fill) -> Vec<Fill> {
    fills.iter().copied().chain([one]).collect()
}

/// Those at hand that are alike in all that matters, largest first.
fn kinds(job: &Job) -> Vec<Vec<usize>> {
    let mut kinds: Vec<Vec<usize>> = Vec::new();
    for (place, one) in job.at_hand.iter().enumerate() {
        let alike = kinds.iter_mut().find(|kind| {
            let other = &job.at_hand[kind[0]];
            one.brimful == other.brimful
                && one.material == other.material
                && one.wall_area == other.wall_area
                && one.thickness == other.thickness
        });
        match alike {
            Some(kind) => kind.push(place),
            None => kinds.push(vec![place]),
        }
    }
    let size = |kind: &Vec<usize>| job.at_hand[kind[0]].brimful.millilitres();
    sort(&mut kinds, |one, other| size(one) > size(other));
    kinds
}

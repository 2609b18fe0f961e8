//! Numbers for names, in the order in which they are met: a small table of hashes, since one name is asked for thousands of times.

/// The names met so far, each with its number.
#[derive(Default)]
pub(super) struct Index<'a> {
    names: Vec<&'a str>,
    /// One more than the number of a name, at the place of its hash or after it; 0 where there is none. A power of two of them,
    /// more than half of them 0.
    slots: Vec<u32>,
}

impl<'a> Index<'a> {
    /// The number of a name; the next one where it was not met before.
    pub(super) fn number(&mut self, name: &'a str) -> usize {
        if self.slots.len() <= 2 * self.names.len() {
            self.slots = vec![0; (4 * self.names.len()).next_power_of_two().max(16)];
            for number in 0..self.names.len() {
                let (at, _) = self.find(self.names[number]);
                self.slots[at] = number as u32 + 1;
            }
        }
        let (at, found) = self.find(name);
        found.unwrap_or_else(|| {
            self.names.push(name);
            self.slots[at] = self.names.len() as u32;
            self.names.len() - 1
        })
    }

    /// Where a name stands or would stand, and its number.
    fn find(&self, name: &str) -> (usize, Option<usize>) {
        let mut at = hash(name);
        loop {
            at &= self.slots.len() - 1;
            match self.slots[at].checked_sub(1) {
                None => return (at, None),
                Some(number) if self.names[number as usize] == name => return (at, Some(number as usize)),
                Some(_) => at += 1,
            }
        }
    }
}

/// FNV-1a with 32 bits (from memory), its upper half mixed into the lower one, which is what is used of it.
fn hash(name: &str) -> usize {
    let hash = name.bytes().fold(0x811c_9dc5_u32, |hash, byte| {
        (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    });
    (hash ^ hash >> 16) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_numbered_as_they_come() {
        let names: Vec<String> = (0..1000)
            .map(|number| format!("bottle {}", number * number % 701))
            .collect();
        let mut index = Index::default();
        let mut met: Vec<&str> = Vec::new();
        for name in &names {
            let number = met.iter().position(|other| other == name).unwrap_or_else(|| {
                met.push(name);
                met.len() - 1
            });
            assert_eq!(index.number(name), number, "{name}");
        }
        assert!(met.len() > 300);
    }
}

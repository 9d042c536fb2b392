//! Which file is what, before anything in it is marked: copies, earlier copies, faulty ones.

use super::{Slip, Standing};
use crate::class::returned::{Closing, Returned, read};
use crate::class::sitting::End;
use std::collections::BTreeMap;

/// A file, and what it is as far as can be seen; with what stands in it where that is whole and the only one of its sitting.
pub(super) struct Kept {
    pub name: String,
    pub standing: Standing,
    pub returned: Option<Returned>,
}

/// Every file, in the order of the names.
pub(super) fn sorted(slips: &[Slip<'_>]) -> Vec<Kept> {
    let mut slips = slips.to_vec();
    slips.sort_by(|a, b| (a.name, a.bytes).cmp(&(b.name, b.bytes)));
    let mut first: BTreeMap<[u8; 32], usize> = BTreeMap::new();
    let mut all: Vec<Kept> = Vec::with_capacity(slips.len());
    for (n, slip) in slips.iter().enumerate() {
        let hash = hash(slip.bytes);
        let (standing, returned) = if let Some(same) = first.get(&hash) {
            (Standing::Duplicate(slips[*same].name.to_owned()), None)
        } else {
            first.insert(hash, n);
            match read(slip.bytes) {
                Ok(returned) => (closing(&returned), Some(returned)),
                Err(faults) => (Standing::Faulty(faults.iter().map(ToString::to_string).collect()), None),
            }
        };
        all.push(Kept { name: slip.name.to_owned(), standing, returned });
    }
    compare(&slips, &mut all);
    all
}

fn hash(bytes: &[u8]) -> [u8; 32] {
    *blake3::hash(bytes).as_bytes()
}

fn closing(returned: &Returned) -> Standing {
    match returned.closing {
        Closing::Signed => Standing::Counted,
        Closing::Open => Standing::Open,
        Closing::CutShort => Standing::CutShort,
    }
}

/// Files of one sitting: those that are the beginning of another one, and those that contradict each other.
fn compare(slips: &[Slip<'_>], all: &mut [Kept]) {
    let mut by_sitting: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (n, kept) in all.iter().enumerate() {
        if let Some(returned) = &kept.returned {
            by_sitting.entry(returned.header.sitting.clone()).or_default().push(n);
        }
    }
    for files in by_sitting.values().filter(|files| files.len() > 1) {
        let begins = |short: usize, long: usize| {
            slips[short].bytes.len() < slips[long].bytes.len()
                && slips[long].bytes.starts_with(slips[short].bytes)
        };
        let whole = |n: usize| all[n].standing == Standing::Counted;
        let found: Vec<(usize, Standing)> = files
            .iter()
            .filter_map(|n| {
                let longest = files.iter().filter(|long| begins(*n, **long));
                let longest = longest.max_by_key(|long| slips[**long].bytes.len());
                if let Some(long) = longest {
                    return Some((*n, Standing::EarlierCopy(slips[*long].name.to_owned())));
                }
                let other =
                    files.iter().find(|m| *m != n && !begins(**m, *n) && (whole(**m) || !whole(*n)))?;
                Some((*n, Standing::Clash(slips[*other].name.to_owned())))
            })
            .collect();
        for (n, standing) in found {
            all[n].standing = standing;
        }
    }
    for kept in all {
        let counts = kept.standing == Standing::Counted
            && kept.returned.as_ref().is_some_and(|returned| returned.end != End::Open);
        if !counts {
            kept.returned = None;
        }
    }
}

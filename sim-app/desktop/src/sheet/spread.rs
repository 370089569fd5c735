//! Labels side by side: none on another, each as near to its mark as can be.
//!
//! In: places where labels would like to stand, sorted, and the room that each
//! needs. Out: places at least that far apart, within limits. Rule: labels that
//! touch form a block, the block stands where it is nearest to what its labels
//! want (pool adjacent violators).

/// A block of touching labels.
struct Block {
    /// Sum of what the labels want, each less its offset in the block.
    sum: f64,
    count: usize,
}

impl Block {
    fn start(&self) -> f64 {
        self.sum / self.count as f64
    }
}

/// Places at least `room` apart, all between `least` and `most` as long as they
/// fit there.
pub fn spread(wanted: &[f64], room: f64, least: f64, most: f64) -> Vec<f64> {
    let mut blocks: Vec<Block> = Vec::new();
    for place in wanted {
        blocks.push(Block {
            sum: *place,
            count: 1,
        });
        merge(&mut blocks, room);
    }
    let mut placed = Vec::with_capacity(wanted.len());
    for block in &blocks {
        let length = room * (block.count - 1) as f64;
        let start = block.start().min(most - length).max(least);
        for index in 0..block.count {
            let place = start + room * index as f64;
            let after = placed.last().map_or(place, |last: &f64| last + room);
            placed.push(place.max(after));
        }
    }
    push_back(&mut placed, room, most);
    placed
}

fn merge(blocks: &mut Vec<Block>, room: f64) {
    while let [.., before, last] = blocks.as_slice() {
        let offset = room * before.count as f64;
        if last.start() >= before.start() + offset {
            return;
        }
        let sum = before.sum + last.sum - offset * last.count as f64;
        let count = before.count + last.count;
        blocks.truncate(blocks.len() - 2);
        blocks.push(Block { sum, count });
    }
}

/// Pushes labels back that were held at the lower limit and ran over the upper.
fn push_back(placed: &mut [f64], room: f64, most: f64) {
    let mut limit = most;
    for place in placed.iter_mut().rev() {
        *place = place.min(limit);
        limit = *place - room;
    }
}

//! Turns: rows take turns, told by a binary that every station turns over.
//!
//! In: a model. Out: its constraints. Rule: `turn` at a point is 1 when the turn
//! row after it is top; a point without a station leaves it, a pair turns it
//! over, a single sets it to its row, a new single needs the other before it.

use super::model::Model;
use super::points::May;
use crate::judges::facts::Facts;
use boltbay_core::job::Pattern;

/// Adds the constraints.
pub(crate) fn take_turns(model: &mut Model, facts: &Facts) {
    if facts.pattern != Pattern::Staggered {
        return;
    }
    let mut before = model.problem.add_binary_var(0.0);
    for n in 0..model.points.len() {
        let turn = model.problem.add_binary_var(0.0);
        let station = model.station[n];
        model.at_most(vec![(turn, 1.0), (before, -1.0), (station, -1.0)], 0.0);
        model.at_most(vec![(before, 1.0), (turn, -1.0), (station, -1.0)], 0.0);
        let both = vec![(turn, 1.0), (before, 1.0)];
        let mut over = model.pair(n, -1.0);
        over.extend(both.clone());
        model.at_least(over, 0.0);
        let mut under = model.pair(n, 1.0);
        under.extend(both);
        model.at_most(under, 2.0);
        let [top, bot] = model.rows[n];
        if let Some(top) = top {
            let mut sum = model.pair(n, 1.0);
            sum.extend([(turn, 1.0), (top, -1.0)]);
            model.at_least(sum, 0.0);
            if model.points[n].rows[0] == Some(May::New) {
                let mut sum = model.pair(n, -1.0);
                sum.extend([(before, 1.0), (top, 1.0)]);
                model.at_most(sum, 1.0);
            }
        }
        if let Some(bot) = bot {
            let mut sum = model.pair(n, -1.0);
            sum.extend([(turn, 1.0), (bot, 1.0)]);
            model.at_most(sum, 1.0);
            if model.points[n].rows[1] == Some(May::New) {
                let mut sum = model.pair(n, 1.0);
                sum.extend([(before, 1.0), (bot, -1.0)]);
                model.at_least(sum, 0.0);
            }
        }
        before = turn;
    }
}

//! Survey: wall faces, positions, tape runs, joists, proofs of runs.
//! Jobs are invented; expected values are worked by hand from the readings.

mod asked;
mod bench;
mod crew;
mod frame;
mod jobs;
mod proof;
mod slips;
mod tape;
mod wild;

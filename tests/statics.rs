//! Tests of forces and of the beam: published diagrams, worked jobs, an
//! independent stiffness solution, lift, and jobs that make no sense.

mod agreement;
mod build;
mod cases;
mod chaos;
mod diagrams;
mod figures;
mod frames;
mod jobs;
mod lift;
mod limits;
mod metric;
mod stiffness;
mod units;

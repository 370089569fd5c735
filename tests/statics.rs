//! Tests of forces and of the beam: published diagrams, worked jobs, an
//! independent stiffness solution, lift, and jobs that make no sense.

mod agreement;
mod build;
mod cases;
mod diagrams;
mod figures;
mod jobs;
mod stiffness;
mod units;

//! Tests of forces and of the beam: published diagrams, worked jobs, an
//! independent stiffness solution, lift, and jobs that make no sense.

mod figures;
mod units;

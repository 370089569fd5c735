//! Milp.

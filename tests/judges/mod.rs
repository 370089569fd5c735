//! What the integration tests and the benchmark harness share: independent
//! references, a legality checker and generators of jobs. Nothing here calls
//! the code that it judges.

pub mod checker;
pub mod dice;
pub mod facts;
pub mod generator;
pub mod milp;
pub mod reference;
pub mod sticks;

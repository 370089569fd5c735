//! Tests of quantities: lengths and decimals as text.
//!
//! Expected counts follow from the definition of the inch (25.4 mm exactly) and
//! the count of 25 nm; they are worked out here, not read off our own output.

mod decimals;
mod forms;
mod refused;
mod survives;

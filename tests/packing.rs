//! Packing: published and hand-worked values, and every choice against a slow,
//! obvious twin.

mod brute;
mod cautions;
mod generated;
mod ripping;
mod shrinkage;
mod worked;

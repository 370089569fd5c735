//! The one integration binary of the workspace.

#[cfg(feature = "board")]
mod board;
mod card;
mod checks;
mod cutting;
mod handheld;
mod house;
// Some of it only benches use.
mod judges;
mod live;
mod packing;
mod papers;
mod placement;
mod program;
mod quantities;
mod report;
mod rule;
mod standards;
mod statics;
mod survey;

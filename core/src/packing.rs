//! Packing: which layers fill the pocket between web and flange tips.
//!
//! In: measured outstands and the layers on hand. Out: for each side the stack
//! from web to face, its error now and after drying, and rip heights.

use crate::length::Length;
use heapless::Vec;

/// Most layers in a stack.
pub const LAYERS_IN_STACK: usize = 4;

/// One layer of a stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StackLayer {
    /// Index into [`crate::Job::layers`].
    pub layer: u8,
    /// As measured.
    pub thickness: Length,
    /// Height to rip to; `None` where the shape is not known.
    pub rip: Option<Length>,
    /// Reaches the bottom flange; not so where ripped to the flat of the web.
    pub seats: bool,
    /// The inside arris is chamfered for the fillet.
    pub chamfered: bool,
}

/// The packing of one side.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Stack {
    /// Aim: middle of least and greatest outstand plus the keyed aim.
    pub target: Length,
    /// The total misses no window.
    pub feasible: bool,
    /// Web to face.
    pub layers: Vec<StackLayer, LAYERS_IN_STACK, u8>,
    /// Sum of the layers.
    pub total: Length,
    /// Greatest distance of the total from the windows; 0 = feasible.
    pub miss: Length,
    /// Total less aim.
    pub error: Length,
    /// The same after drying to service moisture.
    pub error_dry: Length,
}

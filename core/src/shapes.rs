//! The W-shape table.

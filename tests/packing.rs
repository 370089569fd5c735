//! Tests of packing.

//! Tests of cutting.

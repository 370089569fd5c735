//! Tests of standards.

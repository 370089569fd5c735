//! Tests of house.

//! Checker.

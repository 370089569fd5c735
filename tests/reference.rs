//! Reference.

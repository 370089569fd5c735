//! How much wood shrinks.

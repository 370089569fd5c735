//! The plan as text and CSV.

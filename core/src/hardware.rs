//! Bolts, nuts, washers and holes, with their standards.

//! Heights of the bolt rows.

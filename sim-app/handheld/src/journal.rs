//! The journal: an accepted key press is durable before the screen shows it.

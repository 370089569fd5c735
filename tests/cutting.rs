//! Cutting: published and hand-worked values, every generated list audited, and
//! its cost against a general solver and a slow, obvious twin.

mod families;
mod hostile;
mod opinions;
mod rods;
mod worked;

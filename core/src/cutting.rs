//! Cutting pieces from sticks with least bought length, and the proof of it.

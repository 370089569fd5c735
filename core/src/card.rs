//! Job cards: CSV in, job out, and back.

//! The desktop host of Boltbay.

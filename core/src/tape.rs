//! Tape runs: from raw readings to stations.

//! Values that stand in where the card says nothing, each with its source.

//! Tests of card.

//! What does not add up, tried on layouts broken in one way.

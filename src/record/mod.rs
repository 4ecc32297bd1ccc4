//! What is left when a run is closed.

//! The durable log of a run.

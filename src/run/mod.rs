//! The state machine of a run: pure and total.

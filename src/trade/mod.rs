//! What the trade computes: pure functions, one file a subject.

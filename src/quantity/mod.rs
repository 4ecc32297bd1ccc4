//! Exact numbers, units, quantities and limits.

//! Clock, disk, environment: the only door outside.

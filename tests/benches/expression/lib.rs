//! Nothing: the bench beside it is all.

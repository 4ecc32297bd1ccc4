//! Tests of `share`: what belongs together, as an archive; archives of others, sound and hostile; what came put into a
//! folder.

mod friend;
mod gathered;
mod hostile;
mod made;
mod packed;
mod placed;
mod taken;

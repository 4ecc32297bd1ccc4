//! The example, walked wholly at a terminal by a person who answers as its file of answers says: what that weighs, and what
//! each screen shows.

mod corpus;
mod keys;
mod person;
mod screens;
mod weight;

use self::person::walk;

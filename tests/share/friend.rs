//! A friend with an empty folder and one shared file.

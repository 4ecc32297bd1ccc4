//! From Markdown text to a checked procedure.

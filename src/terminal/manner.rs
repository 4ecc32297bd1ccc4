//! Which way of speaking is used. Decided once, from facts somebody else has read.

/// What a standard stream is connected to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stream {
    /// A terminal with a person in front of it.
    Terminal,
    /// A file, a pipe, nothing.
    Other,
}

/// What the person asked for on the command line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wish {
    /// Nothing in particular.
    Any,
    /// Linear text.
    Plain,
}

/// Whether a bell calls the person at the end of a wait, and when something is due or missed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bell {
    /// It rings.
    Rings,
    /// It does not.
    Silent,
}

impl Bell {
    /// What rings at a terminal.
    pub(super) const fn sound(self) -> &'static str {
        match self {
            Self::Rings => "\u{7}",
            Self::Silent => "",
        }
    }
}

/// What is known about the surroundings.
#[derive(Debug, Clone)]
pub struct Facts {
    /// Where answers come from.
    pub stdin: Stream,
    /// Where text goes to.
    pub stdout: Stream,
    /// Where error messages go to.
    pub stderr: Stream,
    /// The variable `TERM`.
    pub term: Option<String>,
    /// The variable `NO_COLOR`: any value but an empty one asks for no colour.
    pub no_color: Option<String>,
    /// What was asked for.
    pub wish: Wish,
}

/// The way of speaking.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Manner {
    /// Linear lines of words: no escape codes, no drawings.
    Lines,
    /// A capable terminal without colour: bold and dim only.
    Mono,
    /// A capable terminal with colour.
    Colour,
}

/// Chooses the way of speaking: the terminal's abilities are used only where all three streams are terminals
/// and nobody asked for plain text. Otherwise escape codes would end up in a pipe, or a prompt in a file.
pub fn choose(facts: &Facts) -> Manner {
    let streams = [facts.stdin, facts.stdout, facts.stderr];
    let everywhere = streams.iter().all(|stream| *stream == Stream::Terminal);
    if !everywhere || facts.wish == Wish::Plain || !is_capable(facts.term.as_deref()) {
        return Manner::Lines;
    }
    match facts.no_color.as_deref() {
        None | Some("") => Manner::Colour,
        Some(_) => Manner::Mono,
    }
}

/// Windows does not set `TERM`; elsewhere a terminal that does not name itself is not trusted.
fn is_capable(term: Option<&str>) -> bool {
    match term {
        None | Some("") => cfg!(windows),
        Some(name) => name != "dumb",
    }
}

//! Which way of speaking is used when.

use bayhand::terminal::{Facts, Manner, Stream, Wish, choose};

fn at_a_terminal() -> Facts {
    Facts {
        stdin: Stream::Terminal,
        stdout: Stream::Terminal,
        stderr: Stream::Terminal,
        term: Some("xterm-256color".into()),
        no_color: None,
        wish: Wish::Any,
    }
}

#[test]
fn a_terminal_on_all_sides_gets_colour() {
    assert_eq!(choose(&at_a_terminal()), Manner::Colour);
}

#[test]
fn one_stream_elsewhere_is_enough_for_lines() {
    let facts = at_a_terminal();
    assert_eq!(choose(&Facts { stdin: Stream::Other, ..facts.clone() }), Manner::Lines);
    assert_eq!(choose(&Facts { stdout: Stream::Other, ..facts.clone() }), Manner::Lines);
    assert_eq!(choose(&Facts { stderr: Stream::Other, ..facts }), Manner::Lines);
}

#[test]
fn plain_text_is_given_to_who_asks_for_it() {
    assert_eq!(choose(&Facts { wish: Wish::Plain, ..at_a_terminal() }), Manner::Lines);
}

/// Source: terminfo names the terminal without abilities `dumb`.
#[cfg(unix)]
#[test]
fn a_terminal_without_abilities_or_name_gets_lines() {
    for term in [Some("dumb"), Some(""), None] {
        let facts = Facts { term: term.map(Into::into), ..at_a_terminal() };
        assert_eq!(choose(&facts), Manner::Lines, "TERM is {term:?}");
    }
}

/// Source: the `NO_COLOR` convention (no-color.org), from memory: present and not an empty string, regardless
/// of its value, prevents colour.
#[test]
fn no_color_takes_the_colour_and_nothing_else() {
    for (value, manner) in [("1", Manner::Mono), ("0", Manner::Mono), ("", Manner::Colour)] {
        let facts = Facts { no_color: Some(value.into()), ..at_a_terminal() };
        assert_eq!(choose(&facts), manner, "NO_COLOR is {value:?}");
    }
}

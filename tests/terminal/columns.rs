//! Tables of words.

use bayhand::terminal::{Columns, Manner, Text, paint};

const TABLE: &str = "finding | rules in | \nstalls in both | converter | \nonly reverse | mounts, lamps | \n";

fn painted(width: usize, manner: Manner) -> String {
    let text = Text::new().columns(Columns::of(TABLE).expect("a table"));
    console::strip_ansi_codes(&paint(&text, width, manner)).into_owned()
}

#[test]
fn a_table_is_drawn_in_columns_where_it_fits() {
    let drawn = "finding         rules in\n─────────────────────────────\nstalls in both  converter\nonly reverse    mounts, lamps\n";
    assert_eq!(painted(80, Manner::Mono), drawn);
}

#[test]
fn where_it_does_not_fit_and_in_lines_it_is_told_row_by_row() {
    let told =
        "finding: stalls in both; rules in: converter\nfinding: only reverse; rules in: mounts, lamps\n";
    assert_eq!(painted(80, Manner::Lines), told);
    assert!(painted(24, Manner::Mono).starts_with("finding: stalls in"), "{}", painted(24, Manner::Mono));
}

#[test]
fn what_is_no_table_is_none() {
    for words in ["", "a | b | \n", "a | b | \nc | \n", "no table\nat all"] {
        assert_eq!(Columns::of(words), None, "{words}");
    }
}

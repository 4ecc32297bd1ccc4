//! Every outside check holds.

use super::case::{self, Case};

#[test]
fn every_case_holds() {
    let cases = case::all();
    assert!(cases.len() > 100, "the cases are found");
    let wrong: Vec<String> = cases.iter().filter_map(Case::failure).collect();
    let count = wrong.len();
    assert!(wrong.is_empty(), "{count} do not hold\n{}", wrong.join("\n"));
}

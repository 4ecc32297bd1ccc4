//! Grids of places and stages: the drawing and the sentences.

use bayhand::terminal::grid::Stage;
use bayhand::terminal::{Cell, Grid, Manner, Text, paint};
use proptest::prelude::*;
use textwrap::core::display_width;

fn places(count: usize) -> Vec<String> {
    (1..=count).map(|place| place.to_string()).collect()
}

fn stage(what: &str, cells: &[Cell]) -> Stage {
    Stage { what: what.to_owned(), cells: cells.to_vec() }
}

/// Eight places: the first stage done but for one left out, the second begun.
fn eight() -> Grid {
    use Cell::{Deviation, Done, Now, ToDo};
    let hand = [Done, Done, Deviation(2), Done, Done, Done, Done, Done];
    let half = [Done, Done, Deviation(2), Now, ToDo, ToDo, ToDo, ToDo];
    Grid { places: places(8), stages: vec![stage("by hand", &hand), stage("half", &half)] }
}

fn painted(grid: Grid, width: usize, manner: Manner) -> String {
    let painted = paint(&Text::new().grid(grid), width, manner);
    let rows = painted.lines().map(|row| console::strip_ansi_codes(row).trim_end().to_owned());
    rows.collect::<Vec<_>>().join("\n")
}

#[test]
fn places_across_and_stages_down() {
    assert_eq!(
        painted(eight(), 80, Manner::Mono),
        "        1     2     3     4     5     6     7     8\n\
         by hand done  done  dev 2 done  done  done  done  done\n\
         half    done  done  dev 2 now   -     -     -     -\n\
         now: this one; -: to do; dev: left out or off its target, by the deviation of\n  that number"
    );
}

#[test]
fn at_40_columns_it_goes_on_below() {
    assert_eq!(
        painted(eight(), 40, Manner::Mono),
        "        1     2     3     4     5\n\
         by hand done  done  dev 2 done  done\n\
         half    done  done  dev 2 now   -\n\
         \x20       6     7     8\n\
         by hand done  done  done\n\
         half    -     -     -\n\
         now: this one; -: to do; dev: left out\n  or off its target, by the deviation of\n  that number"
    );
}

#[test]
fn long_names_of_places_stand_down() {
    let places = ["left front cover bolt", "right front cover bolt"].map(str::to_owned).to_vec();
    let stages = vec![stage("half", &[Cell::Done, Cell::Fail]), stage("full", &[Cell::Now, Cell::ToDo])];
    assert_eq!(
        painted(Grid { places, stages }, 40, Manner::Mono),
        "                       half full\n\
         left front cover bolt  done now\n\
         right front cover bolt fail -\n\
         now: this one; -: to do; fail: not what\n  was wanted"
    );
}

#[test]
fn linear_output_tells_it_in_sentences() {
    assert_eq!(
        painted(eight(), 80, Manner::Lines),
        "Stage by hand: 1, 2, 4 to 8 done; 3 deviation 2.\n\
         Stage half: 1, 2 done; 3 deviation 2; 4 now; 5 to 8 to do."
    );
}

/// Between two names nobody knows what lies; where all stand alike none is named.
#[test]
fn names_are_told_one_by_one() {
    let places = ["top left", "top right", "bottom left", "bottom right"].map(str::to_owned).to_vec();
    let stages = vec![
        stage("half", &[Cell::Done, Cell::Done, Cell::Done, Cell::Now]),
        stage("full", &[Cell::ToDo, Cell::ToDo, Cell::ToDo, Cell::ToDo]),
    ];
    assert_eq!(
        painted(Grid { places, stages }, 80, Manner::Lines),
        "Stage half: top left, top right, bottom left done; bottom right now.\nStage full: all to do."
    );
}

/// What differs in colour differs in words.
#[test]
fn each_state_has_its_own_mark() {
    use Cell::{Deviation, Done, Fail, Now, ToDo};
    let grid =
        Grid { places: places(5), stages: vec![stage("full", &[Done, Now, ToDo, Fail, Deviation(12)])] };
    let row = painted(grid, 80, Manner::Mono).lines().nth(1).unwrap().to_owned();
    assert_eq!(row.split_whitespace().collect::<Vec<_>>(), ["full", "done", "now", "-", "fail", "dev", "12"]);
}

fn cells() -> impl Strategy<Value = Cell> {
    prop_oneof![
        Just(Cell::Done),
        Just(Cell::Now),
        Just(Cell::ToDo),
        Just(Cell::Fail),
        (1_usize..500).prop_map(Cell::Deviation)
    ]
}

proptest! {
    /// Whatever the group: no row is wider than the screen, and no cell is lost.
    #[test]
    fn it_fits_and_is_whole(rows in prop::collection::vec(prop::collection::vec(cells(), 30), 1..4), width in 32_usize..100) {
        let stages: Vec<Stage> = rows.iter().zip(["by hand", "half", "full"]).map(|(cells, what)| stage(what, cells)).collect();
        let drawn = painted(Grid { places: places(30), stages }, width, Manner::Colour);
        for row in drawn.lines() {
            prop_assert!(display_width(row) <= width, "{row}");
        }
        let done = rows.iter().flatten().filter(|cell| **cell == Cell::Done).count();
        prop_assert_eq!(drawn.split_whitespace().filter(|word| *word == "done").count(), done);
    }
}

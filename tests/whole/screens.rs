//! What each screen of the example shows, at three sizes: golden files.

use std::fmt::Write;

use super::walk;

#[test]
fn each_screen_is_as_it_was_looked_at() {
    for (name, size) in [("80x24", (80, 24)), ("40x24", (40, 24)), ("40x14", (40, 14))] {
        let mut found = String::new();
        for (place, shown) in walk(size, false).iter().enumerate() {
            let plain: Vec<&str> = shown.screen.split('\u{1b}').collect();
            let words = plain.iter().enumerate().map(|(at, part)| match (at, part.split_once('m')) {
                (0, _) | (_, None) => *part,
                (_, Some((_, rest))) => rest,
            });
            writeln!(found, "=== {}\n{}", place + 1, words.collect::<String>()).expect("a text");
        }
        let path = format!("tests/cases/whole/{name}.txt");
        if std::env::var_os("BAYHAND_UPDATE").is_some() {
            std::fs::create_dir_all("tests/cases/whole").expect("a folder");
            std::fs::write(&path, &found).expect("a golden file");
        }
        let expected = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(expected == found, "{path} is not what is shown; BAYHAND_UPDATE=1 writes it anew");
    }
}

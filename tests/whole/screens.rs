//! What each screen of the example shows, at three sizes: golden files.

use std::fmt::Write;

use super::walk;

#[test]
fn each_screen_is_as_it_was_looked_at() {
    for (name, size) in [("80x24", (80, 24)), ("40x24", (40, 24)), ("40x14", (40, 14))] {
        let mut found = String::new();
        for (place, shown) in walk(size, false).iter().enumerate() {
            let plain = console::strip_ansi_codes(&shown.screen);
            writeln!(found, "=== {}\n{plain}", place + 1).expect("a text");
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

//! What belongs to a file: everything that it leads to, with its place kept.

use std::collections::BTreeMap;

use bayhand::share::{Bundle, NotGathered, SharedPath, Start, gather};

fn gathered(folders: &[&str], files: &[(&str, &str)]) -> Result<(SharedPath, Bundle), NotGathered> {
    let files: BTreeMap<&str, &str> = files.iter().copied().collect();
    let find = |address: &str| {
        files.get(address).map(|text| text.as_bytes().to_vec()).ok_or_else(|| "there is nothing".to_owned())
    };
    let folders: Vec<String> = folders.iter().map(|&name| name.to_owned()).collect();
    gather(&Start { name: "first.md", folders: &folders }, &find)
}

fn paths(found: &Bundle) -> Vec<&str> {
    found.files().map(|(path, _)| path.as_str()).collect()
}

#[test]
fn links_pictures_and_what_those_link_to_are_followed_once_and_in_circles() {
    let files = [
        (
            "first.md",
            "+++\n+++\n# A\n\n1. [B](lines/b.md)\n\n![c](c%20d.png) [web](https://example.org/x.md) [here](#a)\n",
        ),
        ("lines/b.md", "See [the first](../first.md), ![d](d.png \"title\").\n\n> Or [e][].\n\n[e]: e.pdf\n"),
        ("c d.png", "picture"),
        ("lines/d.png", "[no text](nowhere.md)"),
        ("lines/e.pdf", "pages"),
    ];
    let (start, found) = gathered(&["home"], &files).unwrap();
    assert_eq!(start.as_str(), "first.md");
    assert_eq!(paths(&found), ["c d.png", "first.md", "lines/b.md", "lines/d.png", "lines/e.pdf"]);
}

/// A link that leads up begins the archive further up, so that it leads to the same file there.
#[test]
fn what_lies_further_up_keeps_its_place() {
    let files = [
        ("first.md", "1. [B](../lines/b.md)\n2. [C](../now/c.md)\n3. [D](d.md)\n"),
        ("../lines/b.md", "[D](../now/d.md)\n"),
        ("../now/c.md", "c"),
        ("d.md", "d"),
        ("../now/d.md", "d"),
    ];
    let (start, found) = gathered(&["home", "jobs", "now"], &files).unwrap();
    assert_eq!(start.as_str(), "now/first.md");
    assert_eq!(paths(&found), ["lines/b.md", "now/c.md", "now/d.md", "now/first.md"]);
}

#[test]
fn what_cannot_be_passed_on_is_named_with_the_file_that_links_to_it() {
    let gone = gathered(&["home"], &[("first.md", "[B](b.md)")]).unwrap_err();
    let said = "`first.md` links to `b.md`: there is nothing; mend the link, or take it out";
    assert_eq!(gone.to_string(), said);
    for link in ["/etc/b.md", "../../b.md"] {
        let far = gathered(&["home"], &[("first.md", &format!("[B]({link})"))]).unwrap_err();
        assert!(matches!(far, NotGathered::OutOfReach { .. }), "{far}");
    }
    let named = gathered(&["home"], &[("first.md", "[B](<a\\|b.md>)"), ("a|b.md", "")]).unwrap_err();
    assert!(matches!(named, NotGathered::Name { .. }), "{named}");
    let large = "x".repeat(40 << 20);
    let files = [("first.md", "[B](b) [C](c)"), ("b", large.as_str()), ("c", large.as_str())];
    let large = gathered(&["home"], &files).unwrap_err();
    assert_eq!(
        large.to_string(),
        "the files cannot be passed on together: the files are larger than 64 MiB together"
    );
}

//! What the bench checks: folders of procedures, and single files that have very much of one thing.

use std::io;
use std::path::Path;

/// What a front matter has to say before its tables.
const HEADER: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a bench\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\ntools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\n\
close_up = \"none\"\nhazards = \"none\"\n";

/// What a file has much of, and a file with so many.
type Kind = (&'static str, fn(usize) -> String);

/// Very much of one thing in one file.
pub const KINDS: &[Kind] = &[
    ("sections", sections),
    ("names, each mentioned", names),
    ("unknown mentions", unknown),
    ("keys written twice", doubled),
    ("links that lead nowhere", links),
    ("tables with a slip", slips),
];

/// So many procedures in folders of twenty-odd: those that are inside the program, over and over. Links between them stay
/// within a folder.
pub fn folder(root: &Path, files: usize) -> io::Result<()> {
    let shipped = shipped()?;
    for (number, (name, text)) in shipped.iter().cycle().take(files).enumerate() {
        let folder = root.join(format!("shop-{:04}", number / shipped.len()));
        std::fs::create_dir_all(&folder)?;
        std::fs::write(folder.join(name), text)?;
    }
    Ok(())
}

/// The procedures that are inside the program, by name; not the job, which reads all of them again.
fn shipped() -> io::Result<Vec<(String, String)>> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/procedures"))? {
        let path = entry?.path();
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        if path.extension().is_some_and(|ending| ending == "md")
            && text.starts_with("+++")
            && !text.contains("\njob =")
        {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            found.push((name, text));
        }
    }
    found.sort();
    Ok(found)
}

fn file(tables: &str, body: &str) -> String {
    format!("{HEADER}[roles]\nlead = \"works\"\n{tables}+++\n# Many\n\n{body}")
}

fn each(count: usize, one: impl Fn(usize) -> String) -> String {
    (0..count).map(one).collect::<Vec<_>>().concat()
}

fn sections(count: usize) -> String {
    file("", &each(count, |number| format!("## Section {number}\n\n1. Wipe it.\n\n")))
}

fn names(count: usize) -> String {
    let tables = each(count, |number| {
        format!("[readings.r{number}]\nwhat = \"gap\"\nunit = \"mm\"\ninstrument = \"gauge\"\nmin = 1\n")
    });
    let body = each(count, |number| format!("1. Gap [r{number}].\n"));
    file(&tables, &format!("## Read\n\n{body}"))
}

fn unknown(count: usize) -> String {
    let tables =
        each(count, |number| format!("[conditions.c{number}]\nwhat = \"so\"\nif = '1 < {number}'\n"));
    let body = each(count, |number| format!("1. Gap [u{number}x].\n"));
    file(&tables, &format!("## Read\n\n{body}"))
}

fn doubled(count: usize) -> String {
    let tables = each(count, |number| {
        format!("[readings.r{number}]\nwhat = \"gap\"\nwhat = \"gap\"\nunit = \"mm\"\n")
    });
    file(&tables, "## Read\n\n1. Wipe it.\n")
}

fn links(count: usize) -> String {
    let body = each(count, |number| format!("1. [Wipe it](f{number}.md).\n"));
    file("", &format!("## Run\n\n{body}"))
}

fn slips(count: usize) -> String {
    let tables = each(count, |number| format!("[readings.r{number}]\nwhat = gap\nunit = \"mm\"\n"));
    file(&tables, "## Read\n\n1. Wipe it.\n")
}

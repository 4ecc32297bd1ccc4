//! What belongs to a procedure or a job: every file that it links to, and what those link to.

use std::collections::{BTreeMap, VecDeque};
use std::fmt;

use pulldown_cmark::{Event, Options, Parser, Tag};

use super::bundle::{Bundle, BundleProblem};
use super::path::{PathProblem, SharedPath};
use crate::procedure::document::split;
use crate::procedure::{is_file, resolve};

/// Where gathering begins.
pub struct Start<'s> {
    /// The name of the file, without folders.
    pub name: &'s str,
    /// The names of the folders it lies in, the outermost first.
    pub folders: &'s [String],
}

/// Why files could not be gathered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotGathered {
    /// A file that is linked to cannot be read.
    Unreadable {
        /// Its address, seen from the folder of the first file.
        address: String,
        /// The file that links to it; none for the first.
        from: Option<String>,
        /// Why it cannot be read.
        why: String,
    },
    /// A link begins at the top of a disk, or leads further up than there are folders.
    OutOfReach {
        /// Its address.
        address: String,
        /// The file that links to it.
        from: String,
    },
    /// A file has a name that not every system takes.
    Name {
        /// Its path.
        path: String,
        /// What is wrong with it.
        why: PathProblem,
    },
    /// The files do not go together.
    Bundle(BundleProblem),
}

/// Gathers a file and all that it leads to. Paths keep their order to each other: what links with `../` begins further up.
/// The path of the first file comes along.
pub fn gather(
    start: &Start<'_>,
    find: &dyn Fn(&str) -> Result<Vec<u8>, String>,
) -> Result<(SharedPath, Bundle), NotGathered> {
    let mut found: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    let mut open = VecDeque::from([(start.name.to_owned(), None)]);
    while let Some((address, from)) = open.pop_front() {
        if found.contains_key(&address) {
            continue;
        }
        if let Some(from) =
            from.as_ref().filter(|_| address.starts_with('/') || above(&address) > start.folders.len())
        {
            return Err(NotGathered::OutOfReach { address, from: String::clone(from) });
        }
        let bytes = match find(&address) {
            Ok(bytes) => bytes,
            Err(why) => return Err(NotGathered::Unreadable { address, from, why }),
        };
        open.extend(links(&address, &bytes).into_iter().map(|next| (next, Some(address.clone()))));
        found.insert(address, bytes);
    }
    put_together(start, found)
}

fn put_together(
    start: &Start<'_>,
    found: BTreeMap<String, Vec<u8>>,
) -> Result<(SharedPath, Bundle), NotGathered> {
    let up = found.keys().map(|address| above(address)).max().unwrap_or_default();
    let folders = start.folders.get(start.folders.len().saturating_sub(up)..).unwrap_or_default();
    let mut bundle = Bundle::default();
    let place = |address: &str| {
        let path = from_the_top(folders, address);
        SharedPath::parse(&path).map_err(|why| NotGathered::Name { path, why })
    };
    for (address, bytes) in found {
        let path = place(&address)?;
        // Two ways to one file: `tap.md` and `../lines/tap.md`.
        if !bundle.has(&path) {
            bundle.add(path, bytes).map_err(NotGathered::Bundle)?;
        }
    }
    Ok((place(start.name)?, bundle))
}

/// How many folders up an address leads.
fn above(address: &str) -> usize {
    address.split('/').take_while(|name| *name == "..").count()
}

/// The path of an address, seen from the outermost of these folders, in the innermost of which it begins.
fn from_the_top(folders: &[String], address: &str) -> String {
    let up = above(address);
    let kept = folders.iter().take(folders.len().saturating_sub(up)).map(String::as_str);
    kept.chain(address.split('/').skip(up)).collect::<Vec<_>>().join("/")
}

/// The addresses of the files that a Markdown text leads to: its links and its pictures. Of another file none.
pub fn links(address: &str, bytes: &[u8]) -> Vec<String> {
    let is_markdown = address.len() > 3 && address.to_ascii_lowercase().ends_with(".md");
    let Some(text) = std::str::from_utf8(bytes).ok().filter(|_| is_markdown) else { return Vec::new() };
    let body = split(text).value.body;
    let body = text.get(body.start..body.end).unwrap_or_default();
    let found = Parser::new_ext(body, Options::ENABLE_TABLES).filter_map(|event| match event {
        Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => {
            Some(dest_url.into_string())
        }
        _ => None,
    });
    found.filter(|link| is_file(link)).map(|link| resolve(address, &link)).collect()
}

impl fmt::Display for NotGathered {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { from: None, why, .. } => out.write_str(why),
            Self::Unreadable { address, from: Some(from), why } => {
                write!(out, "`{from}` links to `{address}`: {why}; mend the link, or take it out")
            }
            Self::OutOfReach { address, from } => write!(
                out,
                "`{from}` links to `{address}`, which lies on this machine alone; put that file beside it and link to it there"
            ),
            Self::Name { path, why } => {
                write!(out, "`{path}` cannot be passed on: {why}; give the file another name")
            }
            Self::Bundle(problem) => write!(out, "the files cannot be passed on together: {problem}"),
        }
    }
}

impl std::error::Error for NotGathered {}

//! Addresses of procedures: paths with `/` between the folders, seen from the folder of the first procedure.

const ENDING: &str = ".md";

/// Whether a link leads to a procedure: a path to a Markdown file, not an address on a network.
pub(in crate::procedure) fn is_procedure(link: &str) -> bool {
    let path = path_of(link);
    let ends = path.len() > ENDING.len()
        && path.get(path.len() - ENDING.len()..).is_some_and(|end| end.eq_ignore_ascii_case(ENDING));
    ends && is_file(link)
}

/// Whether a link leads to a file: a path, not an address on a network, nor a place in the same text.
///
/// ```
/// use bayhand::procedure::is_file;
///
/// assert!(is_file("pictures/plug.png") && !is_file("https://example.org/plug.png") && !is_file("#drain"));
/// ```
pub fn is_file(link: &str) -> bool {
    !path_of(link).is_empty() && !has_scheme(link) && !link.starts_with("//")
}

/// The part of a file that a link leads to, where it names one: `drain` of `flush.md#drain`.
pub(super) fn part_of_file(link: &str) -> Option<&str> {
    link.split_once('#').map(|(_, part)| part).filter(|part| !part.is_empty())
}

/// The address of what the text at `from` links to: `../` and `./` in it are followed, `%20` and its like are read.
///
/// ```
/// use bayhand::procedure::resolve;
///
/// assert_eq!(resolve("lines/flush.md", "../pictures/plug%20in.png#top"), "pictures/plug in.png");
/// assert_eq!(resolve("flush.md", "../tap.md"), "../tap.md");
/// ```
pub fn resolve(from: &str, link: &str) -> String {
    let path = decoded(path_of(link));
    let folder = from.rsplit_once('/').map_or("", |(folder, _)| folder);
    let whole = if path.starts_with('/') || folder.is_empty() { path } else { format!("{folder}/{path}") };
    let mut folders: Vec<&str> = Vec::new();
    for name in whole.split('/') {
        match (name, folders.last()) {
            (".", _) | ("", Some(_)) => {}
            ("..", Some(&last)) if last != ".." && !last.is_empty() => drop(folders.pop()),
            _ => folders.push(name),
        }
    }
    folders.join("/")
}

/// What others call the procedure at an address: its file's name without the ending.
pub(super) fn id_of(address: &str) -> &str {
    let file = address.rsplit_once('/').map_or(address, |(_, file)| file);
    file.rsplit_once('.').map_or(file, |(stem, _)| stem)
}

fn path_of(link: &str) -> &str {
    link.split(['#', '?']).next().unwrap_or_default()
}

/// `https:`, `mailto:`, also `C:`: a letter, then letters, digits and `+.-` up to a colon (RFC 3986, 3.1).
fn has_scheme(link: &str) -> bool {
    let Some((scheme, _)) = link.split_once(':') else {
        return false;
    };
    scheme.starts_with(|first: char| first.is_ascii_alphabetic())
        && scheme.chars().all(|letter| letter.is_ascii_alphanumeric() || "+.-".contains(letter))
}

/// `%20` is a space (RFC 3986, 2.1); what is no such code, or gives no text, stays as it is.
fn decoded(path: &str) -> String {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let [first, more @ ..] = rest {
        let code =
            more.get(..2).filter(|_| *first == b'%').and_then(|digits| std::str::from_utf8(digits).ok());
        let byte = code.and_then(|digits| u8::from_str_radix(digits, 16).ok());
        bytes.push(byte.unwrap_or(*first));
        rest = if byte.is_some() { &more[2..] } else { more };
    }
    String::from_utf8(bytes).unwrap_or_else(|_| path.to_owned())
}

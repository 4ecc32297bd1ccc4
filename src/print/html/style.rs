//! How the page looks, and the policy that lets nothing else in.

use sha2::{Digest, Sha256};

use crate::source::base64;

/// Black on white; boxes and lines, no colour that says anything. A row is not parted from itself on paper.
pub(super) const CSS: &str = r#"
:root { color: #000; background: #fff; font: 100%/1.4 Georgia, "Times New Roman", serif; }
body { margin: 0; }
main { max-width: 60rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 1rem; }
h2 { font-size: 1.25rem; margin: 2rem 0 .5rem; padding-top: .3rem; border-top: 2px solid #000; }
h3 { font-size: 1.05rem; margin: 1.2rem 0 .3rem; }
header p { margin: 0; letter-spacing: .05em; }
header .warned { border: 2px solid #000; padding: .4rem .6rem; margin: .5rem 0; font-weight: bold; letter-spacing: 0; }
p, li, dd, td, th { white-space: pre-line; overflow-wrap: anywhere; }
ul { margin: .3rem 0; padding-left: 1.2rem; }
td[data-column=""] { white-space: normal; }
td ul { padding-left: 1rem; margin: 0; font-size: .9rem; white-space: normal; min-width: 6rem; }
dl { margin: .3rem 0; display: grid; grid-template-columns: minmax(7rem, max-content) minmax(0, 1fr); gap: .1rem 1rem; }
dt { font-weight: bold; }
dd { margin: 0; }
.hazard { border: 2px solid #000; padding: .3rem .6rem; margin: .5rem 0 .2rem; }
.keep { margin: .6rem 0; }
.ticks { list-style: none; padding: 0; margin: .2rem 0; }
.ticks li { padding: .15rem 0; }
.ticks .within { padding-left: 1.6rem; }
.blank::after { content: ""; display: inline-block; width: 7rem; border-bottom: 1px solid #000; margin-left: .3rem; }
.blank, .choice { white-space: nowrap; }
.choice { margin-left: .8rem; }
.choice svg.box { margin-right: .2em; }
figure { margin: .8rem 0; }
figcaption { font-size: .9rem; }
img { display: block; max-width: 100%; max-height: 9cm; }
svg { display: block; max-width: 100%; height: auto; }
svg.box { display: inline-block; vertical-align: -.15em; margin-right: .4em; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0 1rem; }
caption { text-align: left; font-style: italic; padding: .2rem 0; }
caption.heard { clip-path: inset(50%); height: 1px; line-height: 1px; padding: 0; font-size: 1px; overflow: hidden; }
th, td { text-align: left; vertical-align: top; border-bottom: 1px solid #777; padding: .25rem .6rem .25rem 0; }
thead th { border-bottom: 2px solid #000; overflow-wrap: normal; }
tbody th { white-space: pre-line; min-width: 3.2rem; overflow-wrap: normal; }
@media screen and (max-width: 40rem) {
  main { padding: .6rem; }
  dl { display: block; }
  table, tbody, tr, th, td, caption { display: block; }
  thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  caption.heard { position: absolute; }
  tr { border-bottom: 2px solid #777; padding: .4rem 0; }
  tbody th, td { border: 0; padding: .1rem 0; }
  td:empty { display: none; }
  td[data-column]:not([data-column=""])::before { content: attr(data-column) ": "; font-style: italic; }
}
@page { margin: 16mm 14mm; }
@media print {
  :root { font-size: 9.5pt; }
  main { max-width: none; padding: 0; }
  h1, h2, h3, caption, .hazard, .keep p { break-after: avoid; }
  tr, li, figure, dd, .keep { break-inside: avoid; }
  thead { display: table-header-group; }
  section.first + section:not(.first) { break-before: page; }
}
"#;

/// The policy: nothing is loaded, nothing runs, nothing is sent; the one style is the one named here. A page that pictures
/// stand in shows those that are in it, and no others.
pub(super) fn policy(has_picture: bool) -> String {
    let hash = base64::encode(&Sha256::digest(CSS.as_bytes()));
    let pictures = if has_picture { " img-src data:;" } else { "" };
    format!("default-src 'none'; style-src 'sha256-{hash}';{pictures} base-uri 'none'; form-action 'none'")
}

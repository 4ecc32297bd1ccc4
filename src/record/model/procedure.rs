//! What the work was done by, word for word.

use serde::{Deserialize, Serialize};

/// The procedure, word for word.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Procedure {
    /// What it is called by others.
    pub id: String,
    /// The title.
    pub title: String,
    /// The revision.
    pub revision: String,
    /// The date of the revision.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// Which vehicles it is for.
    pub scope: String,
    /// How strictly it is followed.
    pub level_of_use: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// Its text.
    pub text: String,
    /// The procedures that its steps link to, word for word.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub linked: Vec<LinkedProcedure>,
}

/// A procedure that steps of another link to, word for word.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LinkedProcedure {
    /// Where it was found, seen from the folder of the first procedure.
    pub address: String,
    /// The title.
    pub title: String,
    /// The revision.
    pub revision: String,
    /// The date of the revision.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// Its text.
    pub text: String,
}

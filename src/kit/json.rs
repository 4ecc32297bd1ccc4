//! A kit as JSON: the fields of the model, amounts as they are shown.

use super::model::Kit;

/// A kit as one JSON object.
pub fn json(kit: Kit<'_>) -> serde_json::Result<String> {
    let json = match kit {
        Kit::Procedure(kit) => serde_json::to_string_pretty(kit),
        Kit::Job(kit) => serde_json::to_string_pretty(kit),
    };
    json.map(|json| json + "\n")
}

//! The published schema of the record: made from the types of the format, so that it says what they say.
//! `BAYHAND_UPDATE=1` writes it anew.

use std::path::Path;

use bayhand::record::model::Record;
use bayhand::record::{SCHEMA, to_json};
use serde_json::{Map, Value, json};

use super::support::{eventful, smooth};

/// Every type of the format as a definition, read from its source.
fn definitions() -> Map<String, Value> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/record/model");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    let mut all = Map::new();
    for file in files {
        read_types(&std::fs::read_to_string(file).unwrap(), &mut all);
    }
    all
}

fn read_types(source: &str, all: &mut Map<String, Value>) {
    let mut lines = source.lines();
    let mut said = Vec::new();
    while let Some(line) = lines.next() {
        let words = line.trim();
        if let Some(doc) = words.strip_prefix("/// ") {
            said.push(doc.to_owned());
        } else if let Some(rest) = words.strip_prefix("pub struct ") {
            let name = rest.split([' ', ';']).next().unwrap();
            all.insert(name.to_owned(), structure(&mut lines, &said.join(" ")));
            said.clear();
        } else if let Some(rest) = words.strip_prefix("pub enum ") {
            let name = rest.split(' ').next().unwrap();
            all.insert(name.to_owned(), choice(&mut lines, &said.join(" ")));
            said.clear();
        } else if !words.starts_with('#') {
            said.clear();
        }
    }
}

fn structure<'a>(lines: &mut impl Iterator<Item = &'a str>, said: &str) -> Value {
    let (mut properties, mut required) = (Map::new(), Vec::new());
    let (mut doc, mut may_be_left_out) = (Vec::new(), false);
    for line in lines.map(str::trim).take_while(|line| *line != "}") {
        if let Some(words) = line.strip_prefix("/// ") {
            doc.push(words.to_owned());
        } else if line.starts_with("#[serde(default") {
            may_be_left_out = true;
        } else if let Some((name, kind)) = line.strip_prefix("pub ").and_then(|rest| rest.split_once(": ")) {
            let mut schema = schema_of(kind.trim_end_matches(','));
            schema["description"] = json!(doc.join(" "));
            properties.insert(name.to_owned(), schema);
            if !may_be_left_out {
                required.push(name.to_owned());
            }
            (doc, may_be_left_out) = (Vec::new(), false);
        }
    }
    json!({
        "description": said, "type": "object", "properties": properties, "required": required,
        "additionalProperties": false
    })
}

/// An enumeration is written as an object with one key, in snake case.
fn choice<'a>(lines: &mut impl Iterator<Item = &'a str>, said: &str) -> Value {
    let mut ways = Vec::new();
    for line in lines.map(str::trim).take_while(|line| *line != "}") {
        if let Some((name, kind)) = line.trim_end_matches("),").split_once('(')
            && !line.starts_with(['/', '#'])
        {
            let name = name.to_lowercase();
            ways.push(json!({
                "type": "object", "properties": { &name: schema_of(kind) }, "required": [name],
                "additionalProperties": false
            }));
        }
    }
    json!({ "description": said, "oneOf": ways })
}

fn schema_of(kind: &str) -> Value {
    let inner = |outer: &str| kind.strip_prefix(outer).and_then(|rest| rest.strip_suffix('>'));
    if let Some(of) = inner("Option<") {
        return json!({ "anyOf": [schema_of(of), { "type": "null" }] });
    }
    if let Some(of) = inner("Vec<") {
        return json!({ "type": "array", "items": schema_of(of) });
    }
    match kind {
        "String" => json!({ "type": "string" }),
        "u32" | "u64" | "usize" => json!({ "type": "integer", "minimum": 0 }),
        "bool" => json!({ "type": "boolean" }),
        other => json!({ "$ref": format!("#/$defs/{other}") }),
    }
}

/// A line for each type.
fn expected() -> String {
    let types: Vec<String> =
        definitions().iter().map(|(name, schema)| format!("{}: {schema}", json!(name))).collect();
    format!(
        "{{\n\"$schema\": \"https://json-schema.org/draft/2020-12/schema\",\n\"title\": \"Record of a bayhand run, format 1\",\n\
         \"$ref\": \"#/$defs/Record\",\n\"$defs\": {{\n{}\n}}\n}}\n",
        types.join(",\n")
    )
}

#[test]
fn the_schema_is_what_the_types_say() {
    let expected = expected();
    if std::env::var_os("BAYHAND_UPDATE").is_some() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/record/record.schema.json");
        std::fs::write(path, &expected).unwrap();
        return;
    }
    assert!(SCHEMA == expected, "write it anew with BAYHAND_UPDATE=1");
}

/// Whether a value is as a schema says: the keywords that ours uses.
fn fits(schema: &Value, value: &Value, root: &Value) -> bool {
    if let Some(name) = schema["$ref"].as_str() {
        return fits(root.pointer(name.trim_start_matches('#')).unwrap(), value, root);
    }
    if let Some(any) = schema["anyOf"].as_array() {
        return any.iter().any(|one| fits(one, value, root));
    }
    if let Some(one) = schema["oneOf"].as_array() {
        return one.iter().filter(|one| fits(one, value, root)).count() == 1;
    }
    match (schema["type"].as_str().unwrap(), value) {
        ("null", Value::Null) | ("string", Value::String(_)) | ("boolean", Value::Bool(_)) => true,
        ("integer", Value::Number(number)) => number.is_u64(),
        ("array", Value::Array(items)) => items.iter().all(|item| fits(&schema["items"], item, root)),
        ("object", Value::Object(map)) => {
            let required = schema["required"].as_array().unwrap();
            required.iter().all(|name| map.contains_key(name.as_str().unwrap()))
                && map.iter().all(|(name, value)| {
                    schema["properties"].get(name).is_some_and(|schema| fits(schema, value, root))
                })
        }
        _ => false,
    }
}

fn as_data(record: &Record) -> Value {
    serde_json::from_str(&to_json(record)).unwrap()
}

#[test]
fn records_are_as_the_schema_says() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    assert!(fits(&schema, &as_data(&smooth()), &schema));
    assert!(fits(&schema, &as_data(&eventful()), &schema));
}

#[test]
fn what_is_no_record_is_not_as_the_schema_says() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    let good = as_data(&smooth());
    let changed = |change: fn(&mut Value)| {
        let mut data = good.clone();
        change(&mut data);
        data
    };
    for bad in [
        changed(|data| data["format"] = json!("1")),
        changed(|data| data["more"] = json!(1)),
        changed(|data| data["readings"][0]["attempts"][0]["answer"] = json!({ "guess": "x" })),
        changed(|data| drop(data.as_object_mut().unwrap().remove("result"))),
    ] {
        assert!(!fits(&schema, &bad, &schema), "{bad}");
    }
}

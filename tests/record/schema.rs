//! The published schemas, of the record and of what is printed over several: made from the types, so that they say what these say.
//! `BAYHAND_UPDATE=1` writes it anew.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use bayhand::record::compare::COMPARE_SCHEMA;
use bayhand::record::history::HISTORY_SCHEMA;
use bayhand::record::impact::IMPACT_SCHEMA;
use bayhand::record::model::Record;
use bayhand::record::{SCHEMA, to_json};
use serde_json::{Map, Value, json};

use super::support::{eventful, smooth};

/// A schema: its file in `src/record`, its title, what its JSON is, further sources of types beside those of the record.
struct Published {
    file: &'static str,
    text: &'static str,
    title: &'static str,
    root: &'static [&'static str],
    sources: &'static [&'static str],
}

const ALL: [Published; 4] = [
    Published {
        file: "record.schema.json",
        text: SCHEMA,
        title: "Record of a bayhand run, format 1",
        root: &["Record"],
        sources: &[],
    },
    Published {
        file: "compare/compare.schema.json",
        text: COMPARE_SCHEMA,
        title: "Two records of bayhand side by side",
        root: &["Comparison"],
        sources: &["compare/model.rs"],
    },
    Published {
        file: "history/history.schema.json",
        text: HISTORY_SCHEMA,
        title: "A reading, a computed value or a count over all runs of bayhand",
        root: &["History"],
        sources: &["history/model.rs"],
    },
    // Without an error a list of what was taken with the instrument, with one what that comes to.
    Published {
        file: "impact.schema.json",
        text: IMPACT_SCHEMA,
        title: "What was read with an instrument, over all runs of bayhand",
        root: &["Vec<TakenWith>", "Impact"],
        sources: &["impact.rs", "rejudged.rs", "history/model.rs"],
    },
];

/// Where a schema names the type whose fields are its own, until they are put there.
const FLATTENED: &str = "$flattened";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src/record")
}

/// Every type that a schema speaks of as a definition, read from its source.
fn definitions(published: &Published) -> Map<String, Value> {
    let model = std::fs::read_dir(folder().join("model")).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> = model.collect();
    files.sort();
    let mut all = Map::new();
    // What is called the same in the record gives way.
    for file in files.into_iter().chain(published.sources.iter().map(|file| folder().join(file))) {
        read_types(&std::fs::read_to_string(file).unwrap(), &mut all);
    }
    flatten(&mut all);
    let mut spoken_of: BTreeSet<String> = BTreeSet::new();
    let mut open: Vec<Value> = published.root.iter().map(|root| schema_of(root)).collect();
    while let Some(schema) = open.pop() {
        for (name, definition) in &all {
            let is_named = schema.to_string().contains(&format!("\"#/$defs/{name}\""));
            if is_named && spoken_of.insert(name.clone()) {
                open.push(definition.clone());
            }
        }
    }
    all.into_iter().filter(|(name, _)| spoken_of.contains(name)).collect()
}

/// Puts the fields of a type in the place of the field that is flattened into them.
fn flatten(all: &mut Map<String, Value>) {
    let types = all.clone();
    for schema in all.values_mut() {
        let Some(inner) = schema.as_object_mut().and_then(|schema| schema.remove(FLATTENED)) else {
            continue;
        };
        let inner = &types[inner.as_str().unwrap()];
        let fields = inner["properties"].as_object().unwrap().clone();
        schema["properties"].as_object_mut().unwrap().extend(fields);
        let required = inner["required"].as_array().unwrap().clone();
        schema["required"].as_array_mut().unwrap().extend(required);
    }
}

fn read_types(source: &str, all: &mut Map<String, Value>) {
    let mut lines = source.lines();
    let (mut said, mut tag) = (Vec::new(), None);
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
            all.insert(name.to_owned(), choice(&mut lines, &said.join(" "), tag.take()));
            said.clear();
        } else if let Some(rest) = words.strip_prefix("#[serde(tag = \"") {
            tag = rest.split('"').next();
        } else if !words.starts_with('#') {
            said.clear();
        }
    }
}

fn structure<'a>(lines: &mut impl Iterator<Item = &'a str>, said: &str) -> Value {
    let (mut properties, mut required) = (Map::new(), Vec::new());
    let (mut doc, mut may_be_left_out, mut is_skipped) = (Vec::new(), false, false);
    let (mut is_flattened, mut flattened) = (false, None);
    for line in lines.map(str::trim).take_while(|line| *line != "}") {
        if let Some(words) = line.strip_prefix("/// ") {
            doc.push(words.to_owned());
        } else if line.starts_with("#[serde(") {
            may_be_left_out |= line.contains("default") || line.contains("skip_serializing_if");
            is_skipped |= line == "#[serde(skip)]";
            is_flattened |= line == "#[serde(flatten)]";
        } else if let Some((name, kind)) = line.strip_prefix("pub ").and_then(|rest| rest.split_once(": ")) {
            if std::mem::take(&mut is_flattened) {
                flattened = Some(kind.trim_end_matches(',').to_owned());
                doc.clear();
                continue;
            }
            let mut schema = schema_of(kind.trim_end_matches(','));
            schema["description"] = json!(doc.join(" "));
            if !is_skipped {
                properties.insert(name.to_owned(), schema);
            }
            if !may_be_left_out && !is_skipped {
                required.push(name.to_owned());
            }
            (doc, may_be_left_out, is_skipped) = (Vec::new(), false, false);
        }
    }
    let mut schema = json!({
        "description": said, "type": "object", "properties": properties, "required": required,
        "additionalProperties": false
    });
    if let Some(inner) = flattened {
        schema[FLATTENED] = inner.into();
    }
    schema
}

/// An enumeration is written as an object with one key, in snake case; with a tag, as an object with that word under it
/// and the fields of the variant.
fn choice<'a>(lines: &mut impl Iterator<Item = &'a str>, said: &str, tag: Option<&str>) -> Value {
    let mut ways = Vec::new();
    for line in lines.map(str::trim).take_while(|line| *line != "}") {
        if line.starts_with(['/', '#', '}']) {
            continue;
        }
        if let Some(tag) = tag {
            tagged(&mut ways, tag, line);
        } else if let Some((name, kind)) = line.trim_end_matches("),").split_once('(') {
            let name = name.to_lowercase();
            ways.push(json!({
                "type": "object", "properties": { &name: schema_of(kind) }, "required": [name],
                "additionalProperties": false
            }));
        }
    }
    json!({ "description": said, "oneOf": ways })
}

/// A variant, or a field of the last one.
fn tagged(ways: &mut Vec<Value>, tag: &str, line: &str) {
    if let Some((name, kind)) = line.trim_end_matches(',').split_once(": ") {
        let way = ways.last_mut().unwrap();
        way["properties"][name] = schema_of(kind);
        way["required"].as_array_mut().unwrap().push(json!(name));
        return;
    }
    let name = line.trim_end_matches([',', '{', ' ']);
    let snake: String = name
        .chars()
        .map(
            |letter| {
                if letter.is_uppercase() { format!("_{}", letter.to_lowercase()) } else { letter.into() }
            },
        )
        .collect();
    ways.push(json!({
        "type": "object", "properties": { tag: { "const": snake.trim_start_matches('_') } }, "required": [tag],
        "additionalProperties": false
    }));
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
fn expected(published: &Published) -> String {
    let types: Vec<String> =
        definitions(published).iter().map(|(name, schema)| format!("{}: {schema}", json!(name))).collect();
    let roots: Vec<Value> = published.root.iter().map(|root| schema_of(root)).collect();
    let root = match roots.as_slice() {
        [root] => format!("\"$ref\": {}", root["$ref"]),
        roots => format!("\"oneOf\": {}", json!(roots)),
    };
    format!(
        "{{\n\"$schema\": \"https://json-schema.org/draft/2020-12/schema\",\n\"title\": {},\n{root},\n\"$defs\": {{\n{}\n}}\n}}\n",
        json!(published.title),
        types.join(",\n")
    )
}

#[test]
fn the_schema_is_what_the_types_say() {
    for published in &ALL {
        let expected = expected(published);
        if std::env::var_os("BAYHAND_UPDATE").is_some() {
            std::fs::write(folder().join(published.file), &expected).unwrap();
        } else {
            assert!(published.text == expected, "write {} anew with BAYHAND_UPDATE=1", published.file);
        }
    }
}

/// Whether a value is as a schema says: the keywords that ours use.
pub fn fits(schema: &Value, value: &Value, root: &Value) -> bool {
    if let Some(name) = schema["$ref"].as_str() {
        return fits(root.pointer(name.trim_start_matches('#')).unwrap(), value, root);
    }
    if let Some(any) = schema["anyOf"].as_array() {
        return any.iter().any(|one| fits(one, value, root));
    }
    if let Some(one) = schema["oneOf"].as_array() {
        return one.iter().filter(|one| fits(one, value, root)).count() == 1;
    }
    if let Some(word) = schema.get("const") {
        return word == value;
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

//! What the heading of a section says: its title, its conditions and hazards, how strictly it is followed.

use std::collections::BTreeMap;

use super::Names;
use crate::procedure::document::{Heading, Part};
use crate::procedure::{Declarations, LevelOfUse, Name, Piece, Rare, Section, Table};

/// How strictly sections are followed: those that say so, and all others.
pub(super) struct Levels {
    usual: LevelOfUse,
    named: BTreeMap<Name, LevelOfUse>,
}

impl Levels {
    pub(super) fn of(declarations: &Declarations) -> Self {
        let usual = declarations.header.as_ref().map_or(LevelOfUse::Continuous, |header| header.level_of_use);
        let named = declarations.levels.iter();
        Self {
            usual,
            named: named
                .filter_map(|entry| Some((entry.name.value.clone(), *entry.thing.as_deref()?)))
                .collect(),
        }
    }
}

/// A section as the run sees it: the conditions and hazards taken out of its heading.
pub(super) fn section(part: &Part, names: &Names, levels: &Levels) -> Section {
    let pieces = part.heading.as_ref().map(|heading| heading.text.as_slice()).unwrap_or_default();
    Section {
        title: part.heading.as_ref().map(|heading| title(heading, names)).unwrap_or_default(),
        conditions: mentioned(pieces, names, Table::Conditions),
        hazards: mentioned(pieces, names, Table::Hazards),
        repeat: mentioned(pieces, names, Table::Repeats).into_iter().next(),
        level: mentioned(pieces, names, Table::Levels)
            .first()
            .and_then(|name| levels.named.get(name))
            .copied()
            .unwrap_or(levels.usual),
        groups: part.groups.clone(),
        after: part.after.clone(),
        span: part.span,
    }
}

/// The words of a heading, without the conditions and hazards in it.
pub(super) fn title(heading: &Heading, names: &Names) -> String {
    let words = heading.text.iter().map(|piece| match piece {
        Piece::Text(words) => words.as_str(),
        Piece::Mention(name) if guards(&name.value, names) => "",
        Piece::Mention(name) => name.value.as_str(),
    });
    let joined: String = words.collect();
    let words: Vec<_> = joined.split_whitespace().collect();
    words.join(" ").trim_matches([' ', ',', ':']).to_owned()
}

fn guards(name: &Name, names: &Names) -> bool {
    matches!(names.table(name), Some(Table::Conditions | Table::Hazards | Table::Repeats | Table::Levels))
}

fn mentioned(pieces: &[Piece], names: &Names, table: Table) -> Rare<Name> {
    let mut found = Rare::default();
    for piece in pieces {
        if let Piece::Mention(name) = piece
            && names.table(&name.value) == Some(table)
            && !found.contains(&name.value)
        {
            found.push(name.value.clone());
        }
    }
    found
}

//! Things found by name that keep the order in which they are declared.

use std::collections::HashMap;

use super::Name;

/// Things by name, in the order in which the file declares them.
#[derive(Clone, Debug)]
pub struct Named<T> {
    things: Vec<(Name, T)>,
    places: HashMap<Name, usize>,
}

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self { things: Vec::new(), places: HashMap::new() }
    }
}

impl<T> Named<T> {
    /// The thing of that name.
    pub fn get(&self, name: &Name) -> Option<&T> {
        self.things.get(*self.places.get(name)?).map(|(_, thing)| thing)
    }

    /// Whether something has that name.
    pub fn contains(&self, name: &Name) -> bool {
        self.places.contains_key(name)
    }

    /// Names and things, in the order of their declaration.
    pub fn iter(&self) -> impl Iterator<Item = (&Name, &T)> {
        self.things.iter().map(|(name, thing)| (name, thing))
    }

    /// The names, in the order of their declaration.
    pub fn names(&self) -> impl Iterator<Item = &Name> {
        self.things.iter().map(|(name, _)| name)
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.things.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.things.is_empty()
    }

    /// Names and things, in the order of their declaration.
    pub(crate) fn into_pairs(self) -> impl Iterator<Item = (Name, T)> {
        self.things.into_iter()
    }

    /// The thing of that name, to be changed.
    pub(crate) fn get_mut(&mut self, name: &Name) -> Option<&mut T> {
        self.things.get_mut(*self.places.get(name)?).map(|(_, thing)| thing)
    }

    /// Adds a thing at the end; one of the same name keeps its place and is replaced.
    pub(crate) fn add(&mut self, name: Name, thing: T) {
        if let Some(there) = self.get_mut(&name) {
            *there = thing;
        } else {
            self.places.insert(name.clone(), self.things.len());
            self.things.push((name, thing));
        }
    }
}

impl<T> FromIterator<(Name, T)> for Named<T> {
    fn from_iter<I: IntoIterator<Item = (Name, T)>>(pairs: I) -> Self {
        let pairs = pairs.into_iter();
        let places = HashMap::with_capacity(pairs.size_hint().1.unwrap_or_default());
        let mut named = Self { things: Vec::new(), places };
        pairs.for_each(|(name, thing)| named.add(name, thing));
        named
    }
}

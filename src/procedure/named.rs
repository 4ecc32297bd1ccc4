//! Things found by name that keep the order in which they are declared.

use std::collections::BTreeMap;

use super::Name;

/// Things by name, in the order in which the file declares them.
#[derive(Clone, Debug)]
pub struct Named<T> {
    order: Vec<Name>,
    things: BTreeMap<Name, T>,
}

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self { order: Vec::new(), things: BTreeMap::new() }
    }
}

impl<T> Named<T> {
    /// The thing of that name.
    pub fn get(&self, name: &Name) -> Option<&T> {
        self.things.get(name)
    }

    /// Whether something has that name.
    pub fn contains(&self, name: &Name) -> bool {
        self.things.contains_key(name)
    }

    /// Names and things, in the order of their declaration.
    pub fn iter(&self) -> impl Iterator<Item = (&Name, &T)> {
        self.order.iter().filter_map(|name| Some((name, self.things.get(name)?)))
    }

    /// The names, in the order of their declaration.
    pub fn names(&self) -> impl Iterator<Item = &Name> {
        self.order.iter()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.order.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.order.is_empty()
    }

    /// Names and things, in the order of their declaration.
    pub(crate) fn into_pairs(mut self) -> impl Iterator<Item = (Name, T)> {
        self.order.into_iter().filter_map(move |name| self.things.remove_entry(&name))
    }

    /// The thing of that name, to be changed.
    pub(crate) fn get_mut(&mut self, name: &Name) -> Option<&mut T> {
        self.things.get_mut(name)
    }

    /// Adds a thing at the end; one of the same name keeps its place and is replaced.
    pub(crate) fn add(&mut self, name: Name, thing: T) {
        if self.things.insert(name.clone(), thing).is_none() {
            self.order.push(name);
        }
    }
}

impl<T> FromIterator<(Name, T)> for Named<T> {
    fn from_iter<I: IntoIterator<Item = (Name, T)>>(pairs: I) -> Self {
        let mut named = Self::default();
        for (name, thing) in pairs {
            named.add(name, thing);
        }
        named
    }
}

//! Lists that are mostly empty.

/// A list that most things of its kind have nothing in: it takes one word where it is empty. It is read as a slice.
///
/// ```
/// use bayhand::procedure::Rare;
///
/// let mut list = Rare::default();
/// assert!(list.is_empty() && size_of_val(&list) == size_of::<usize>());
/// list.push("lead");
/// assert_eq!(*list, ["lead"]);
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
#[expect(clippy::box_collection, reason = "one word where there is nothing is what it is for")]
pub struct Rare<T>(Option<Box<Vec<T>>>);

impl<T> Rare<T> {
    /// All of them.
    pub fn as_slice(&self) -> &[T] {
        self.0.as_ref().map(|things| things.as_slice()).unwrap_or_default()
    }

    /// Adds one more.
    pub fn push(&mut self, thing: T) {
        self.things(1).push(thing);
    }

    /// Puts others in front of what is there.
    pub(super) fn put_before(&mut self, others: Vec<T>) {
        if !others.is_empty() {
            self.things(others.len()).splice(0..0, others);
        }
    }

    /// Keeps those of which this holds.
    pub(super) fn retain(&mut self, keep: impl FnMut(&T) -> bool) {
        if let Some(things) = &mut self.0 {
            things.retain(keep);
        }
        self.0.take_if(|things| things.is_empty());
    }

    /// The list itself; at first it has room for so many.
    fn things(&mut self, room: usize) -> &mut Vec<T> {
        self.0.get_or_insert_with(|| Box::new(Vec::with_capacity(room)))
    }
}

impl<T> Default for Rare<T> {
    fn default() -> Self {
        Self(None)
    }
}

impl<T> std::ops::Deref for Rare<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        self.as_slice()
    }
}

impl<T> std::ops::DerefMut for Rare<T> {
    fn deref_mut(&mut self) -> &mut [T] {
        self.0.as_mut().map(|things| things.as_mut_slice()).unwrap_or_default()
    }
}

impl<T> From<Vec<T>> for Rare<T> {
    fn from(things: Vec<T>) -> Self {
        Self((!things.is_empty()).then(|| Box::new(things)))
    }
}

impl<T> FromIterator<T> for Rare<T> {
    fn from_iter<I: IntoIterator<Item = T>>(things: I) -> Self {
        Vec::from_iter(things).into()
    }
}

impl<T> Extend<T> for Rare<T> {
    fn extend<I: IntoIterator<Item = T>>(&mut self, things: I) {
        things.into_iter().for_each(|thing| self.push(thing));
    }
}

impl<T> IntoIterator for Rare<T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.map(|things| *things).unwrap_or_default().into_iter()
    }
}

impl<'r, T> IntoIterator for &'r Rare<T> {
    type Item = &'r T;
    type IntoIter = std::slice::Iter<'r, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

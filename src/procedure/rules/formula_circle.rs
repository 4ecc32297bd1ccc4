//! No formula needs its own result.

use crate::procedure::Name;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic, Spanned};

/// A value that needs itself.
pub static FORMULA_CIRCLE: Code = Code {
    name: "formula-circle",
    summary: "a formula needs its own result",
    teaching: "\
A value that is computed from another one, which is computed from the first, can never be known.

Wrong: `[values.a]` with `formula = 'b + 1 L'` and `[values.b]` with `formula = 'a - 1 L'`

Right: one of them computed from a reading
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let graph = Graph::of(draft);
    let circles = graph.circles();
    let circular = |place: &usize| {
        let is_alone = circles.get(*place).is_none_or(|circle| circle.is_alone);
        !is_alone || graph.inputs.get(*place).is_some_and(|inputs| inputs.contains(place))
    };
    (0..graph.names.len())
        .filter(circular)
        .filter_map(|place| report(draft, &graph, &circles, place))
        .collect()
}

fn report(draft: &Draft<'_>, graph: &Graph<'_>, circles: &[Circle], place: usize) -> Option<Diagnostic> {
    let name = graph.names.get(place)?;
    let leads_back = |input: &&Spanned<Name>| {
        let input = graph.place(&input.value).and_then(|place| circles.get(place));
        input.is_some_and(|input| Some(input) == circles.get(place))
    };
    let guilty = draft.inputs().get(name.as_str())?.iter().find(leads_back)?;
    let diagnostic = Diagnostic::error(&FORMULA_CIRCLE, format!("`{name}` needs its own result"));
    let diagnostic = diagnostic.at(guilty.span, format!("this leads back to `{name}`"));
    let diagnostic = diagnostic.also(draft.names.get(name)?.span, "declared here");
    Some(diagnostic.help("compute one of them from readings and vehicle values"))
}

/// What needs what.
struct Graph<'d> {
    /// Everything that has a formula, by name.
    names: Vec<&'d Name>,
    /// What each needs of them, by place.
    inputs: Vec<Vec<usize>>,
}

/// What needs each other belongs to one circle; the number tells circles apart.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Circle {
    number: usize,
    is_alone: bool,
}

impl<'d> Graph<'d> {
    fn of(draft: &'d Draft<'_>) -> Self {
        let mut graph = Self { names: draft.inputs().keys().collect(), inputs: Vec::new() };
        let needs =
            |inputs: &[Spanned<Name>]| inputs.iter().filter_map(|input| graph.place(&input.value)).collect();
        graph.inputs = draft.inputs().values().map(|inputs| needs(inputs)).collect();
        graph
    }

    fn place(&self, name: &Name) -> Option<usize> {
        self.names.binary_search(&name).ok()
    }

    /// The circle of each, in time that grows with the number of inputs: what is finished last in one direction reaches,
    /// in the other direction, only what lies in its circle and what is taken already (Kosaraju and Sharir).
    fn circles(&self) -> Vec<Circle> {
        let mut users: Vec<Vec<usize>> = vec![Vec::new(); self.names.len()];
        for (user, inputs) in self.inputs.iter().enumerate() {
            for input in inputs {
                users[*input].push(user);
            }
        }
        let mut finished = Vec::new();
        let mut seen = vec![false; self.names.len()];
        (0..self.names.len()).for_each(|from| walk(&self.inputs, from, &mut seen, &mut finished));
        let mut circles = vec![Circle { number: 0, is_alone: true }; self.names.len()];
        let mut taken = vec![false; self.names.len()];
        for (number, from) in finished.into_iter().rev().enumerate() {
            let mut members = Vec::new();
            walk(&users, from, &mut taken, &mut members);
            let circle = Circle { number, is_alone: members.len() < 2 };
            for member in members {
                circles[member] = circle;
            }
        }
        circles
    }
}

/// Notes down everything that is reached from a place and not seen yet, each after what it reaches.
fn walk(next: &[Vec<usize>], from: usize, seen: &mut [bool], finished: &mut Vec<usize>) {
    let mut open = if std::mem::replace(&mut seen[from], true) { Vec::new() } else { vec![(from, 0)] };
    while let Some((place, at)) = open.last_mut() {
        let (here, step) = (*place, *at);
        *at += 1;
        match next[here].get(step) {
            Some(&to) if !std::mem::replace(&mut seen[to], true) => open.push((to, 0)),
            Some(_) => {}
            None => {
                finished.push(here);
                open.pop();
            }
        }
    }
}

//! Links to other procedures: what is taken in, where it stands, what it is called.

use bayhand::procedure::{FoundAll, LevelOfUse, Name, Shelf, read_linked};
use bayhand::source::SourceText;

use super::support::{file, found};

fn shelf(texts: &[(&str, String)]) -> Shelf {
    let texts = texts.iter().map(|(address, text)| {
        ((*address).to_owned(), SourceText::new(format!("shop/{address}"), text.as_str()))
    });
    texts.collect()
}

fn linked(body: &str, texts: &[(&str, String)]) -> FoundAll {
    read_linked(&SourceText::new("shop/job.md", file("", body)), "job", &shelf(texts))
}

fn numbers(found: &FoundAll) -> Vec<String> {
    let procedure = found.value.as_ref().unwrap_or_else(|| panic!("{:#?}", found.diagnostics));
    let text = |step: &bayhand::procedure::Step| match step.text.first() {
        Some(bayhand::procedure::Piece::Text(words)) => words.clone(),
        _ => String::new(),
    };
    procedure.steps().iter().map(|step| format!("{} {}", step.number, text(step))).collect()
}

fn codes_of(found: &FoundAll) -> Vec<&'static str> {
    found.diagnostics.iter().map(|diagnostic| diagnostic.code.name).collect()
}

fn bleed() -> String {
    let tables = "[readings.turns]\nwhat = \"turns\"\nunit = \"mm\"\nmax = 'least'\nfails = \"Stop.\"\n\
                  [vehicle.least]\nwhat = \"turns allowed\"\nunit = \"mm\"\nfind = \"manual\"\n";
    file(
        tables,
        "# Bleed\n\nOf the line.\n\n1. Loosen.\n\n## Tap\n\nSlowly.\n\n1. Open.\n   - Wait.\n   - Look.\n2. Read [turns].\n",
    )
}

#[test]
fn sections_become_parts_and_everything_is_numbered_anew() {
    let found = linked(
        "# Job\n\n1. Begin.\n2. [Bleed](bleed.md) it.\n   1. Wipe.\n3. End.\n",
        &[("bleed.md", bleed())],
    );
    assert_eq!(
        numbers(&found),
        [
            "1.1 Begin.",
            "1.2 Bleed (bleed.md) it.",
            "1.2.1 Loosen.",
            "1.2.2 Tap",
            "1.2.2.1 Open.",
            "1.2.2.1.1 Wait.",
            "1.2.2.1.2 Look.",
            "1.2.2.2 Read ",
            "1.2.3 Wipe.",
            "1.3 End.",
        ]
    );
    let procedure = found.value.unwrap();
    for (place, step) in procedure.steps().iter().enumerate() {
        assert_eq!(step.id.0, place);
        let parts = step.groups.iter().flat_map(|group| &group.steps);
        assert!(parts.into_iter().all(|part| procedure.step(*part).unwrap().parent == Some(step.id)));
    }
    let loosen = procedure.step_numbered("1.2.1").unwrap();
    assert_eq!(
        (loosen.source, loosen.before.len()),
        (1, 1),
        "the introduction is read before the first step"
    );
    assert_eq!(procedure.step_numbered("1.2.2.1").unwrap().before.len(), 1);
    assert_eq!(procedure.step_numbered("1.2").unwrap().link.as_ref().unwrap().title, "Bleed");
}

#[test]
fn a_span_points_into_the_text_it_came_from() {
    let found = linked("# Job\n\n1. Begin.\n2. [Bleed](bleed.md)\n", &[("bleed.md", bleed())]).value.unwrap();
    let at = |number: &str| {
        let step = found.step_numbered(number).unwrap();
        found.source(step.source).unwrap().slice(step.span)
    };
    assert_eq!(
        [at("1.1"), at("1.2"), at("1.2.1"), at("1.2.2.2")],
        ["1. Begin.", "2. [Bleed](bleed.md)", "1. Loosen.", "2. Read [turns]."]
    );
    let limit = found.criterion(&Name::from("bleed/turns")).unwrap();
    let bayhand::procedure::Criterion::Limits { upper: Some(upper), .. } = limit else { panic!("{limit:?}") };
    let place = found.place(&Name::from("bleed/turns")).unwrap();
    assert_eq!(found.source(place.source).unwrap().slice(upper.formula.span()), "least");
    assert_eq!(upper.formula.names()[0].value, "least", "vehicle values are shared");
}

#[test]
fn the_same_procedure_run_twice_has_names_of_its_own_each_time() {
    let body = "# Job\n\n1. [Bleed](bleed.md)\n2. [Bleed again](./bleed.md)\n3. [Another](rear/bleed.md)\n";
    let found = linked(body, &[("bleed.md", bleed()), ("rear/bleed.md", bleed())]).value.unwrap();
    let names: Vec<_> = found.readings().names().map(Name::as_str).collect();
    assert_eq!(names, ["bleed/turns", "bleed#2/turns", "bleed#3/turns"]);
    let addresses: Vec<_> = found.linked().iter().map(|linked| linked.address.as_str()).collect();
    assert_eq!(addresses, ["bleed.md", "rear/bleed.md"]);
    assert_eq!(found.vehicle().len(), 1);
    assert_eq!(found.step_numbered("1.3.1").unwrap().source, 2);
}

#[test]
fn an_address_is_seen_from_its_file() {
    let tap = file("", "# Tap\n\n1. Open.\n");
    let flush = file("", "# Flush\n\n1. [Tap](../the%20tap.md)\n2. [Tap](../lines/./tap.MD?raw)\n");
    let texts = [("lines/flush.md", flush), ("the tap.md", tap.clone()), ("lines/tap.MD", tap)];
    let found = linked("# Job\n\n1. [Flush](<lines/flush.md>)\n", &texts);
    let procedure = found.value.unwrap_or_else(|| panic!("{:#?}", found.linked));
    let ids: Vec<_> =
        procedure.steps().iter().filter_map(|step| step.link.as_ref()).map(|link| &link.id).collect();
    assert_eq!(ids, ["flush", "flush/the tap", "flush/tap"]);
}

#[test]
fn a_link_that_leads_elsewhere_is_only_words() {
    let body = "# Job [there](none.md)\n\nSee [it](none.md).\n\n## Go on, [then](none.md)\n\n1. See [a](https://x.org/a.md), [b](mailto:b.md), \
                [c](c.pdf), [d](#d.md), [e](//x.org/e.md), ![f](f.md), [g](C:/g.md), [h](.md).\n\n   > Also [i](none.md).\n";
    let found = linked(body, &[]);
    assert!(found.value.is_some() && found.linked.is_empty(), "{:#?}", found.diagnostics);
    assert_eq!(
        linked("# Job\n\n1. Go on.\n\n   See [it](none.md).\n", &[]).diagnostics[0].code.name,
        "link-missing"
    );
    assert_eq!(
        linked("# Job\n\n1. Go [on][it].\n\n[it]: none.md\n", &[]).diagnostics[0].code.name,
        "link-missing"
    );
}

#[test]
fn what_is_wrong_with_a_linked_text_is_said_of_that_text() {
    let texts = [("a.md", file("", "# A\n\n1. [B](b.md)\n")), ("b.md", file("", "# B\n\n1. Read [none].\n"))];
    let found = linked("# Job\n\n1. [A](a.md)\n2. [B](b.md)\n", &texts);
    assert!(found.value.is_none());
    assert_eq!(codes_of(&found), ["link-broken", "link-broken"]);
    let said: Vec<_> = found
        .linked
        .iter()
        .map(|linked| (linked.text.name(), linked.diagnostics[0].code.name, linked.diagnostics.len()))
        .collect();
    assert_eq!(said, [("shop/a.md", "link-broken", 1), ("shop/b.md", "mention-unknown", 1)]);
    assert!(found.diagnostics[1].notes[0].starts_with("`shop/b.md`, line "), "{:?}", found.diagnostics[1]);
}

#[test]
fn a_warning_in_a_linked_text_stops_nothing() {
    let unused = file("[readings.x]\nwhat = \"x\"\nkind = \"text\"\n", "# A\n\n1. Go.\n");
    let found = linked("# Job\n\n1. Go through [A](a.md).\n", &[("a.md", unused)]);
    assert!(found.value.is_some() && found.diagnostics.is_empty());
    assert_eq!(found.linked[0].diagnostics[0].code.name, "name-unused");
}

#[test]
fn a_circle_is_found_wherever_it_closes() {
    let texts = [
        ("a.md", file("", "# A\n\n1. [B](b.md)\n")),
        ("b.md", file("", "# B\n\n1. [C](c.md)\n")),
        ("c.md", file("", "# C\n\n1. [A](a.md)\n")),
    ];
    let found = linked("# Job\n\n1. [A](a.md)\n", &texts);
    let circle = &found.linked[2].diagnostics[0];
    assert_eq!((circle.code.name, circle.notes[0].as_str()), ("link-circle", "a.md → b.md → c.md → a.md"));
    assert_eq!(codes_of(&linked("# Job\n\n1. [Job](job.md)\n", &[])), ["link-circle"]);
}

#[test]
fn a_chain_of_links_has_an_end() {
    let texts: Vec<(String, String)> = (1..40)
        .map(|at| (format!("a{at}.md"), file("", &format!("# A\n\n1. [On](a{}.md)\n", at + 1))))
        .collect();
    let texts: Vec<(&str, String)> =
        texts.iter().map(|(address, text)| (address.as_str(), text.clone())).collect();
    let found = linked("# Job\n\n1. [On](a1.md)\n", &texts);
    let last = found.linked.last().unwrap();
    assert_eq!((found.linked.len(), last.diagnostics[0].code.name), (15, "link-too-deep"));
}

#[test]
fn doubling_links_do_not_grow_without_end() {
    let texts: Vec<(String, String)> = (1..15)
        .map(|at| {
            let next = if at == 14 {
                "1. Do.\n".to_owned()
            } else {
                format!("1. [On](a{0}.md)\n2. [On](a{0}.md)\n", at + 1)
            };
            (format!("a{at}.md"), file("", &format!("# A\n\n{next}")))
        })
        .collect();
    let texts: Vec<(&str, String)> =
        texts.iter().map(|(address, text)| (address.as_str(), text.clone())).collect();
    let found = linked("# Job\n\n1. [On](a1.md)\n", &texts);
    assert!(found.value.is_none());
    assert!(
        found
            .linked
            .iter()
            .any(|linked| linked.diagnostics.iter().any(|said| said.code.name == "link-too-deep"))
    );
}

#[test]
fn two_linked_procedures_must_share_names_in_one_meaning() {
    let value = |unit: &str| {
        let table = format!("[vehicle.supply]\nwhat = \"supply\"\nunit = \"{unit}\"\nfind = \"manual\"\n");
        file(&table, "# A\n\n1. Set [supply].\n")
    };
    let body = "# Job\n\n1. [A](a.md)\n2. [B](b.md)\n";
    assert!(linked(body, &[("a.md", value("L/min")), ("b.md", value("qt/min"))]).value.is_some());
    let found = linked(body, &[("a.md", value("°C")), ("b.md", value("K"))]);
    assert_eq!(codes_of(&found), ["link-name"]);
    assert_eq!(found.diagnostics[0].notes.len(), 2, "{:?}", found.diagnostics[0]);
}

#[test]
fn a_section_is_followed_as_strictly_as_what_is_run_in_it() {
    let level = |procedure: &str, level: &str| procedure.replace("\"continuous\"", level);
    let job = level(&file("", "# Job\n\n1. [A](a.md)\n\n## Two\n\n1. Go.\n"), "\"information\"");
    let child = level(&file("", "# A\n\n1. Go.\n"), "\"reference\"");
    let shelf = shelf(&[("a.md", child)]);
    let found = read_linked(&SourceText::new("job.md", job), "job", &shelf).value.unwrap();
    let levels: Vec<_> = found.sections().iter().map(|section| section.level).collect();
    assert_eq!(levels, [LevelOfUse::Reference, LevelOfUse::Information]);
}

#[test]
fn what_must_be_true_before_and_after_is_confirmed_where_it_is_run() {
    let child = file("", "# A\n\n## One\n\n1. Go.\n")
        .replace("required = \"none\"", "required = [\"the line is cold\", \"the jug is dry\"]")
        .replace("close_up = \"none\"", "close_up = [\"the jug is empty\"]")
        .replace("any vehicle", "vehicles with a jug");
    let found = linked("# Job\n\n1. [A](a.md)\n2. End.\n", &[("a.md", child)]);
    assert_eq!(
        numbers(&found),
        [
            "1.1 A (a.md)",
            "1.1.1 Preliminary requirements",
            "1.1.1.1 It is for this vehicle: vehicles with a jug",
            "1.1.1.2 the line is cold",
            "1.1.1.3 the jug is dry",
            "1.1.2 One",
            "1.1.2.1 Go.",
            "1.1.3 Close-up requirements",
            "1.1.3.1 the jug is empty",
            "1.2 End.",
        ]
    );
    let procedure = found.value.unwrap();
    for step in procedure.steps() {
        let parent = step.parent.and_then(|parent| procedure.step(parent));
        assert!(
            parent.is_none_or(|parent| step.number.starts_with(&format!("{}.", parent.number))),
            "{}",
            step.number
        );
    }
}

#[test]
fn without_a_library_nothing_is_found() {
    let said = found(&file("", "# Job\n\n1. [A](a.md)\n"));
    assert_eq!(said.diagnostics[0].code.name, "link-missing");
}

/// A mention of a named step is right in the procedure that runs it, each time it is run.
#[test]
fn named_steps_have_the_numbers_of_their_place() {
    let refill = || {
        let tables = "[steps]\nrefill = \"fill in a part\"\n";
        file(tables, "# Fill\n\n1. Wipe.\n2. [refill] Fill in.\n3. If it leaked, go back to [refill].\n")
    };
    let body = "# Job\n\n1. Begin.\n2. [Fill](fill.md) it.\n3. [Fill](fill.md) the other.\n";
    let procedure = linked(body, &[("fill.md", refill())]).value.unwrap();
    let shown = |name: &str| procedure.called(&Name::from(name)).to_owned();
    assert_eq!(shown("fill/refill"), "step 1.2.2 (fill in a part)");
    assert_eq!(shown("fill#2/refill"), "step 1.3.2 (fill in a part)");
    let back = procedure.step_numbered("1.3.3").unwrap();
    assert!(
        matches!(&back.text[1], bayhand::procedure::Piece::Mention(name) if name.value.as_str() == "fill#2/refill")
    );
}

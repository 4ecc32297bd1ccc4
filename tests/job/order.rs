//! The order of a job is a graph.

use bayhand::job::{Job, is_job, read};
use bayhand::source::{Diagnostic, SourceText};

fn text(front: &str, list: &str) -> SourceText {
    SourceText::new(
        "job.md",
        format!(
            "+++\nformat = 1\njob = \"it stalls\"\n{front}+++\n# Stall\n\nRead [this](page.md).\n\n{list}"
        ),
    )
}

const LIST: &str = "1. [Strip](strip.md)\n2. [Mend](sub/mend.md)\n3. [Refit](refit.md)\n";

fn sound(front: &str) -> Job {
    let found = read(&text(front, LIST), "job");
    let wrong: Vec<&str> = found.diagnostics.iter().map(|found| found.message.as_str()).collect();
    found.value.unwrap_or_else(|| panic!("{wrong:?}"))
}

fn wrong(front: &str, list: &str) -> Vec<Diagnostic> {
    let found = read(&text(front, list), "job");
    assert!(found.value.is_none());
    found.diagnostics
}

#[test]
fn each_procedure_comes_after_the_one_before_it_unless_it_says_otherwise() {
    let job = sound("[procedures.refit]\nafter = [\"strip\"]\nalone = \"2 h\"\naway = \"1 wk\"\n");
    let order: Vec<(&str, &str, &[usize])> = job
        .procedures
        .iter()
        .map(|one| (one.id.as_str(), one.address.as_str(), one.after.as_slice()))
        .collect();
    assert_eq!(
        order,
        [("strip", "strip.md", &[][..]), ("mend", "sub/mend.md", &[0]), ("refit", "refit.md", &[0])]
    );
    assert_eq!((job.title.as_str(), job.what.as_str()), ("Stall", "it stalls"));
    assert_eq!(job.procedures[2].away.as_ref().unwrap().to_string(), "1 wk");
    assert!(is_job(text("", LIST).text()) && !is_job("+++\nformat = 1\n[jobs]\njob = 1\n+++\n"));
}

#[test]
fn a_circle_is_shown_whole() {
    let found = wrong("[procedures.strip]\nafter = [\"refit\"]\n", LIST);
    assert_eq!(found[0].code.name, "job-circle");
    assert!(found[0].message.ends_with("strip after refit after mend after strip"), "{}", found[0].message);
    let itself = wrong("[procedures.mend]\nafter = [\"mend\"]\n", LIST);
    assert!(itself[0].message.ends_with("mend after mend"), "{}", itself[0].message);
}

#[test]
fn what_is_not_in_the_list_is_named_with_what_is() {
    for front in ["[procedures.paint]\nalone = \"1 h\"\n", "[procedures.mend]\nafter = [\"paint\"]\n"] {
        let found = wrong(front, LIST);
        assert_eq!(found[0].code.name, "job-unknown");
        assert!(found[0].message.contains("`paint`"));
    }
    assert_eq!(wrong("", "Nothing.\n")[0].code.name, "job-empty");
    assert_eq!(wrong("", &format!("{LIST}4. [Again](strip.md)\n"))[0].code.name, "job-twice");
}

//! The README's commands, run as they stand there.

use std::fs;
use std::process::Command;

use super::files::root;

/// The shell commands in the README, in order.
fn commands() -> Vec<String> {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let blocks = readme.split("```sh\n").skip(1);
    blocks.map(|block| block.split("```").next().unwrap().trim().to_owned()).collect()
}

#[test]
fn the_first_command_walks_the_example_to_its_record() {
    let folder = tempfile::tempdir().unwrap();
    let command = commands().remove(0);
    let arguments = command.strip_prefix("cargo run --locked -- ").unwrap();
    let arguments: Vec<&str> = arguments.split(' ').collect();
    let place = arguments.iter().position(|argument| *argument == "target/example").unwrap();
    let mut run = Command::new(env!("CARGO_BIN_EXE_bayhand"));
    run.current_dir(root()).args(&arguments[..place]).arg(folder.path()).args(&arguments[place + 1..]);
    let output = run.env_clear().env("TZ", "UTC").output().unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success(), "{said}\n{}", String::from_utf8_lossy(&output.stderr));
    for shown in ["Deviations: 0", "(mean(took) - took_blank) = 1 L / ", "hold point", "Seal"] {
        assert!(said.to_lowercase().contains(&shown.to_lowercase()), "`{shown}` is not in:\n{said}");
    }
}

#[test]
fn ci_takes_the_two_commands_from_the_readme() {
    let ci = fs::read_to_string(root().join(".ci/run")).unwrap();
    assert!(ci.contains("README.md"));
    assert_eq!(commands().len(), 2);
    for command in commands() {
        let start: Vec<&str> = command.split(' ').take(2).collect();
        assert!(!ci.contains(&start.join(" ")), "`{}` stands in .ci/run a second time", start.join(" "));
    }
}

#[test]
fn the_readme_opens_with_the_job() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let mut paragraphs = readme.split("\n\n");
    assert_eq!(paragraphs.next(), Some("# bayhand"));
    assert!(paragraphs.next().unwrap().starts_with("bayhand guides a person through work on a vehicle"));
    assert!(paragraphs.next().unwrap().starts_with("## "));
}

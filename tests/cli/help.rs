//! Help, usage, completions.

use std::process::Command;

use crate::session::stage::Stage;

/// Every command, by its file: `cli/mod.rs` matches them all, one line each.
fn commands() -> Vec<&'static str> {
    let matched = include_str!("../../src/cli/mod.rs").lines().filter(|line| line.contains("Command::"));
    let called = matched.filter_map(|line| line.split_once(" => ")?.1.split_once("::"));
    called.map(|(file, _)| file).collect()
}

#[test]
fn help_names_every_command_and_every_exit_code() {
    assert!(commands().contains(&"rehearse"), "the commands are found");
    let stage = Stage::bare();
    let help = stage.bayhand(&["--help"]);
    assert_eq!((help.code, help.err.as_str()), (Some(0), ""));
    for command in commands() {
        assert!(help.out.contains(&format!("  {command} ")), "{command}\n{}", help.out);
        let own = stage.bayhand(&[command, "--help"]);
        assert_eq!((own.code, own.err.as_str()), (Some(0), ""));
        assert!(own.out.contains("Usage: bayhand"), "{}", own.out);
    }
    for code in ["0 ", "1 ", "2 ", "3 ", "4 ", "5 ", "129, 130, 143", "134 "] {
        assert!(help.out.contains(&format!("\n  {code}")), "{code}\n{}", help.out);
    }
}

#[test]
fn the_version_is_the_one_of_the_package() {
    let version = Stage::bare().bayhand(&["--version"]);
    assert_eq!(version.out, format!("bayhand {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn a_command_line_that_is_not_right_is_told_so_on_standard_error() {
    let stage = Stage::bare();
    let wrong: [&[&str]; 6] =
        [&[], &["chekc", "x.md"], &["check"], &["run"], &["status", "--yaml"], &["completions", "horn"]];
    for arguments in wrong {
        let ended = stage.bayhand(arguments);
        assert_eq!((ended.code, ended.out.as_str()), (Some(2), ""), "{arguments:?}");
        assert!(ended.err.contains("Usage: bayhand") || ended.err.contains("--help"), "{}", ended.err);
    }
    assert!(stage.bayhand(&["chekc"]).err.contains("'check'"), "the nearest command is named");
}

#[test]
fn completions_name_every_command() {
    for shell in ["bash", "zsh", "fish"] {
        let ended = Stage::bare().bayhand(&["completions", shell]);
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
        for command in commands() {
            assert!(ended.out.contains(command), "{shell}: {command}");
        }
        assert!(ended.out.contains("--answers") || ended.out.contains("answers"), "{shell}");
    }
}

/// The shell itself reads its completions without a complaint.
#[test]
fn bash_reads_its_completions() {
    let stage = Stage::bare();
    let script = stage.file("completions.bash", &stage.bayhand(&["completions", "bash"]).out);
    let Ok(checked) = Command::new("bash").arg("-n").arg(script).output() else {
        return;
    };
    assert!(checked.status.success(), "{}", String::from_utf8_lossy(&checked.stderr));
}

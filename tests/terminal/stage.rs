//! The driver program, built and started.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use super::pty::Pty;

/// A scene of the driver at a terminal of 80 by 24, with colour.
pub fn scene(name: &str) -> Pty {
    scene_at(name, 80, &[])
}

/// A scene of the driver at a terminal of this width.
pub fn scene_at(name: &str, columns: u16, env: &[(&str, &str)]) -> Pty {
    Pty::start((driver(), &[name]), columns, 24, env)
}

/// A scene of the driver with pipes in place of a terminal.
pub fn piped(name: &str, input: &str) -> Output {
    let mut command = Command::new(driver());
    command.arg(name).env_clear().env("TERM", "xterm-256color");
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the driver starts");
    // The driver may end before it has read everything.
    let _ = child.stdin.take().expect("its input").write_all(input.as_bytes());
    child.wait_with_output().expect("the driver ends")
}

/// The driver. A test run of one test target alone does not build it, so it is built here.
pub fn driver() -> &'static Path {
    static DRIVER: OnceLock<PathBuf> = OnceLock::new();
    DRIVER.get_or_init(build)
}

fn build() -> PathBuf {
    let this = std::env::current_exe().expect("the path of this test");
    let profile = this.ancestors().nth(2).expect("target/PROFILE/deps/TEST");
    let target = profile.parent().expect("target/PROFILE");
    let mut cargo = Command::new(env!("CARGO"));
    cargo.args(["build", "--quiet", "--offline", "--example", "terminal_driver", "--target-dir"]).arg(target);
    cargo.arg("--manifest-path").arg(concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.toml"));
    if profile.ends_with("release") {
        cargo.arg("--release");
    }
    assert!(cargo.status().expect("cargo runs").success(), "the driver is built");
    profile.join("examples").join("terminal_driver")
}

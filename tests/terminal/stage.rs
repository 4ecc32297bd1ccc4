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

/// The driver, which `cargo test` builds before the tests run, as it does every example.
pub fn driver() -> &'static Path {
    static DRIVER: OnceLock<PathBuf> = OnceLock::new();
    DRIVER.get_or_init(find)
}

fn find() -> PathBuf {
    let this = std::env::current_exe().expect("the path of this test");
    let profile = this.ancestors().nth(2).expect("target/PROFILE/deps/TEST");
    let driver = profile.join("examples").join("terminal_driver");
    let fresh = driver.exists() && is_of_the_same_texts(&driver, &this);
    assert!(
        fresh,
        "the driver is not there or older than what is tested: `cargo build --example terminal_driver`"
    );
    driver
}

/// Whether no text that the driver is made of was changed between its build and that of this test. `--test bayhand`
/// alone does not build the driver, and an old one would be tested in silence.
fn is_of_the_same_texts(driver: &Path, this: &Path) -> bool {
    let changed = |path: &Path| path.metadata().and_then(|data| data.modified()).expect("a time of change");
    let (built, tested) = (changed(driver), changed(this));
    // What cargo writes beside each program: `PROGRAM: TEXT TEXT ...`, a space in a path as `\ `.
    let made_of = std::fs::read_to_string(driver.with_extension("d")).expect("what the driver is made of");
    let texts = made_of.trim_end().split_once(": ").expect("a program and its texts").1.replace("\\ ", "\0");
    let mut texts = texts.split(' ').map(|text| changed(Path::new(&text.replace('\0', " "))));
    texts.all(|text| text <= built || text > tested)
}

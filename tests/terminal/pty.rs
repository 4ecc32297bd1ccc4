//! A program at a pseudo-terminal, and the screen it draws.

use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use nix::sys::signal::{Signal, kill};
use nix::unistd::Pid;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, SlavePty, native_pty_system};

/// How long a test waits for what must come. Long, because it only matters when the test fails.
const BOUND: Duration = Duration::from_secs(60);

/// A running program. Its environment is empty but for `TERM` and what the test gives.
pub struct Pty {
    shared: Arc<Shared>,
    writer: Mutex<Option<Box<dyn Write + Send>>>,
    master: Option<Box<dyn MasterPty + Send>>,
    /// Held open, so that the terminal and its settings outlive the program.
    _slave: Box<dyn SlavePty + Send>,
    child: Box<dyn Child + Send + Sync>,
}

struct Shared {
    seen: Mutex<Seen>,
    changed: Condvar,
}

impl Shared {
    /// What was seen, even after a test has failed while it looked at it.
    fn lock(&self) -> MutexGuard<'_, Seen> {
        self.seen.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

struct Seen {
    screen: vt100::Parser,
    bytes: Vec<u8>,
    /// The reader lets go of the terminal at the next output.
    leaving: bool,
    left: bool,
}

impl Pty {
    /// Starts the command (program and arguments) at a terminal of this size.
    pub fn start(command: (&Path, &[&str]), columns: u16, rows: u16, env: &[(&str, &str)]) -> Self {
        let size = PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).expect("a pseudo-terminal");
        let child = pair.slave.spawn_command(builder(command, env)).expect("the program starts");
        let size = |n| NonZeroU16::new(n).expect("a size above zero");
        let screen = vt100::Parser::new(size(rows), size(columns), 0);
        let seen = Mutex::new(Seen { screen, bytes: Vec::new(), leaving: false, left: false });
        let shared = Arc::new(Shared { seen, changed: Condvar::new() });
        let reader = pair.master.try_clone_reader().expect("the output");
        thread::spawn({
            let shared = Arc::clone(&shared);
            move || follow(reader, &shared)
        });
        let writer = Mutex::new(pair.master.take_writer().ok());
        Self { shared, writer, master: Some(pair.master), _slave: pair.slave, child }
    }

    /// Types these keys, as bytes.
    pub fn type_keys(&mut self, keys: &str) {
        self.write(keys.as_bytes());
    }

    /// Types these bytes, whatever they are.
    pub fn type_bytes(&mut self, bytes: &[u8]) {
        self.write(bytes);
    }

    /// Turns a page: nothing is answered by it.
    pub fn turn_page(&self) {
        self.write(b"\r");
    }

    fn write(&self, keys: &[u8]) {
        let mut writer = self.writer.lock().unwrap_or_else(PoisonError::into_inner);
        let writer = writer.as_mut().expect("the terminal is there");
        writer.write_all(keys).and_then(|()| writer.flush()).expect("the keys arrive");
    }

    /// Holds a key down, as a keyboard does that repeats it. Nothing where the machine was too slow for it: a break as long
    /// as that is what tells a key pressed anew.
    pub fn hold(&mut self, key: &str) -> Option<()> {
        const BETWEEN: Duration = Duration::from_millis(25);
        const BREAK: Duration = Duration::from_millis(50);
        for _ in 0..40 {
            let before = Instant::now();
            self.type_keys(key);
            thread::sleep(BETWEEN);
            if before.elapsed() > BREAK {
                return None;
            }
        }
        Some(())
    }

    /// Waits until the screen shows what is asked for.
    pub fn until(&self, shows: impl Fn(&vt100::Screen) -> bool) {
        self.until_seen(|seen| shows(seen.screen.screen()));
    }

    /// Waits until these words stand somewhere on the screen, within one row.
    pub fn until_text(&self, words: &str) {
        self.until(|screen| screen.contents().contains(words));
    }

    /// Waits until the bytes that were written to the terminal are what is asked for.
    pub fn until_bytes(&self, are_so: impl Fn(&[u8]) -> bool) {
        self.until_seen(|seen| are_so(&seen.bytes));
    }

    /// How many bytes were written to the terminal up to now.
    pub fn length(&self) -> usize {
        self.seen(|seen| seen.bytes.len())
    }

    /// The bytes that were written to the terminal from this one on.
    pub fn written_since(&self, byte: usize) -> Vec<u8> {
        self.seen(|seen| seen.bytes[byte..].to_vec())
    }

    /// What stands on the screen, a row a line.
    pub fn screen_text(&self) -> String {
        self.seen(|seen| seen.screen.screen().contents())
    }

    /// Everything that was written to the terminal.
    pub fn written(&self) -> String {
        self.seen(|seen| String::from_utf8_lossy(&seen.bytes).into_owned())
    }

    /// Looks at the screen itself: cells, colours, cursor.
    pub fn screen<T>(&self, look: impl FnOnce(&vt100::Screen) -> T) -> T {
        self.seen(|seen| look(seen.screen.screen()))
    }

    /// The settings of the terminal, to be compared.
    pub fn settings(&self) -> String {
        let settings = self.master.as_ref().and_then(|master| master.get_termios());
        format!("{:?}", settings.expect("the settings of the terminal"))
    }

    /// Sends a signal to the program.
    pub fn signal(&self, signal: Signal) {
        let id = self.child.process_id().and_then(|id| i32::try_from(id).ok()).expect("a process id");
        kill(Pid::from_raw(id), signal).expect("the signal is sent");
    }

    /// Takes the terminal away. The key must make the program write something, so that the reader wakes up.
    pub fn hang_up(&mut self, key: &str) {
        self.seen_mut(|seen| seen.leaving = true);
        self.type_keys(key);
        self.until_seen(|seen| seen.left);
        *self.writer.lock().unwrap_or_else(PoisonError::into_inner) = None;
        self.master = None;
    }

    /// Kills the program on the spot, as a power failure would.
    pub fn kill(&mut self) {
        self.signal(Signal::SIGKILL);
        self.child.wait().expect("it is gone");
    }

    /// Waits for the end of the program: its exit code.
    pub fn exit_code(&mut self) -> u32 {
        let turn = Duration::from_millis(5);
        for _ in 0..BOUND.as_millis() / turn.as_millis() {
            if let Some(status) = self.child.try_wait().expect("the state of the program") {
                assert_eq!(status.signal(), None, "the program was killed by a signal");
                return status.exit_code();
            }
            thread::sleep(turn);
        }
        panic!("the program does not end; the screen shows:\n{}", self.screen_text());
    }

    fn until_seen(&self, is_so: impl Fn(&Seen) -> bool) {
        let seen = self.shared.lock();
        let waited = self.shared.changed.wait_timeout_while(seen, BOUND, |seen| !is_so(seen));
        let (seen, result) = waited.unwrap_or_else(PoisonError::into_inner);
        assert!(
            !result.timed_out(),
            "it does not come; the screen shows:\n{}",
            seen.screen.screen().contents()
        );
    }

    fn seen<T>(&self, look: impl FnOnce(&Seen) -> T) -> T {
        look(&self.shared.lock())
    }

    fn seen_mut(&self, change: impl FnOnce(&mut Seen)) {
        change(&mut self.shared.lock());
    }
}

impl Drop for Pty {
    fn drop(&mut self) {
        // A test that failed must not leave its program behind.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn builder((program, arguments): (&Path, &[&str]), env: &[(&str, &str)]) -> CommandBuilder {
    let mut builder = CommandBuilder::new(program);
    builder.env_clear();
    builder.env("TERM", "xterm-256color");
    builder.args(arguments);
    for (name, value) in env {
        builder.env(name, value);
    }
    builder
}

/// Draws what comes onto the screen until nothing comes any more or it has to let go.
fn follow(mut reader: Box<dyn Read + Send>, shared: &Shared) {
    let mut buffer = [0; 4096];
    let mut leaving = false;
    while !leaving {
        let Ok(length @ 1..) = reader.read(&mut buffer) else {
            break;
        };
        let mut seen = shared.lock();
        seen.screen.process(&buffer[..length]);
        seen.bytes.extend_from_slice(&buffer[..length]);
        leaving = seen.leaving;
        drop(seen);
        shared.changed.notify_all();
    }
    drop(reader);
    shared.lock().left = true;
    shared.changed.notify_all();
}

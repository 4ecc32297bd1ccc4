//! The system as a whole: clock, disk and environment, handed on together.

use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use jiff::ZonedDateTime;

use super::{Clock, Disk, Environment, NoDataFolder, RealClock, RealDisk, agent, data_folder};

/// Everything outside the process. Cheap to clone; every clone is the same outside.
#[derive(Clone, Debug)]
pub struct System {
    clock: Arc<dyn Clock>,
    disk: Arc<dyn Disk>,
    environment: Arc<Environment>,
}

impl System {
    /// The machine as it is.
    pub fn real() -> Self {
        Self::new(Arc::new(RealClock), Arc::new(RealDisk), Environment::of_process())
    }

    /// A system of parts.
    pub fn new(clock: Arc<dyn Clock>, disk: Arc<dyn Disk>, environment: Environment) -> Self {
        Self { clock, disk, environment: Arc::new(environment) }
    }

    /// The time now, with offset.
    pub fn now(&self) -> ZonedDateTime {
        self.clock.now()
    }

    /// The time since some fixed moment, by a clock that only goes on and that nobody can set.
    pub fn ticks(&self) -> Duration {
        self.clock.ticks()
    }

    /// A sentence for the person when the machine does not know its time zone, so that times are shown in UTC.
    pub fn zone_notice(&self) -> Option<&'static str> {
        self.now().time_zone().is_unknown().then_some(
            "the time zone of this machine is not known, so times are in UTC; \
             set it in the system's settings or with TZ, for example TZ=Europe/Lisbon",
        )
    }

    /// The disk.
    pub fn disk(&self) -> &dyn Disk {
        &*self.disk
    }

    /// The disk, to be kept by something that outlives the borrow.
    pub fn shared_disk(&self) -> Arc<dyn Disk> {
        Arc::clone(&self.disk)
    }

    /// What the surroundings say.
    pub fn environment(&self) -> &Environment {
        &self.environment
    }

    /// The names of the folders that a file lies in, the outermost first, as they are written: no link is followed.
    pub fn folders_of(&self, file: &Path) -> Vec<String> {
        let whole = std::path::absolute(file).unwrap_or_else(|_| file.to_path_buf());
        let folders = whole.parent().into_iter().flat_map(Path::components);
        let names = folders.filter_map(|part| match part {
            Component::Normal(name) => Some(name.to_string_lossy().into_owned()),
            _ => None,
        });
        names.collect()
    }

    /// What the agent that `SSH_AUTH_SOCK` names answers to this; nothing where none is named.
    pub fn ask_agent(&self, request: &[u8]) -> Option<std::io::Result<Vec<u8>>> {
        let socket = self.environment.variable("SSH_AUTH_SOCK")?;
        Some(agent::ask(Path::new(socket), request))
    }

    /// How many cores this process may use.
    pub fn cores(&self) -> usize {
        std::thread::available_parallelism().map_or(1, std::num::NonZero::get)
    }

    /// The number of this process.
    pub fn process_id(&self) -> u32 {
        std::process::id()
    }

    /// The folder that runs are kept in: the one given, else `BAYHAND_DATA`, else the platform's own.
    pub fn data_folder(&self, given: Option<&Path>) -> Result<PathBuf, NoDataFolder> {
        data_folder::choose(given, &self.environment)
    }
}

//! The fuzzer's end of the targets: libFuzzer chooses the bytes, `BAYHAND_FUZZ` says for which of them.

#![no_main]
#![allow(dead_code, unused_imports, reason = "what the tests share has more than a target needs")]

use std::sync::LazyLock;

use libfuzzer_sys::fuzz_target;

#[path = "../campaign.rs"]
mod campaign;
#[path = "../formula"]
mod formula {
    pub mod world;
}
#[path = "mod.rs"]
mod fuzz;
#[path = "../run"]
mod run {
    pub mod commands;
    pub mod drive;
    pub mod invariants;
}

static TRIES: LazyLock<fn(&[u8])> = LazyLock::new(|| {
    let name = std::env::var("BAYHAND_FUZZ").expect("BAYHAND_FUZZ names a target");
    let target = fuzz::TARGETS.into_iter().find(|target| target.name == name);
    target.expect("BAYHAND_FUZZ names a target").tries
});

fuzz_target!(|bytes: &[u8]| TRIES(bytes));

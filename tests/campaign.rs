//! How many cases a property tries: few in everyday use, as many as somebody asks for with `PROPTEST_CASES`.

use proptest::test_runner::Config;

/// So many cases, unless `PROPTEST_CASES` asks for another number. Nothing is written where a case fails: what is worth
/// keeping becomes a test of its own.
pub fn cases(usual: u32) -> Config {
    let asked = std::env::var_os("PROPTEST_CASES").is_some();
    let own = Config::default();
    let cases = if asked { own.cases } else { usual };
    Config { cases, failure_persistence: None, ..own }
}

//! What is surely known when: the rules about order, against hand-made lists.

use super::support::{codes, file};

const FLOW: &str = "\
[readings.caught]
what = \"caught\"
unit = \"L\"
information_only = true
[readings.took]
what = \"time\"
unit = \"s\"
information_only = true
[values.flow]
what = \"flow\"
formula = 'caught / took'
unit = \"L/min\"
";

fn flow(steps: &str) -> Vec<&'static str> {
    codes(&file(FLOW, &format!("# Flow\n\n{steps}")))
}

#[test]
fn readings_of_the_same_step_come_before_its_values() {
    assert!(flow("1. Work out [flow] from [caught] and [took].\n").is_empty());
}

#[test]
fn parts_in_any_order_are_all_done_before_the_next_step() {
    assert!(flow("1. Measure:\n   - catch [caught]\n   - time [took]\n2. Work out [flow].\n").is_empty());
}

#[test]
fn a_step_comes_before_its_parts() {
    assert!(flow("1. Catch [caught] in [took]:\n   - work out [flow]\n").is_empty());
    let early = flow("1. Work out [flow]:\n   - catch [caught]\n   - time [took]\n");
    assert_eq!(early, ["needed-early", "needed-early"]);
}

#[test]
fn neighbours_in_a_bullet_list_know_nothing_of_each_other() {
    let early = flow("- Measure:\n  1. catch [caught]\n  2. time [took]\n- Work out [flow].\n");
    assert_eq!(early, ["needed-early", "needed-early"]);
}

#[test]
fn two_lists_follow_each_other() {
    assert!(flow("- Catch [caught].\n- Time [took].\n\nThen:\n\n- Work out [flow].\n").is_empty());
    assert!(flow("- Catch [caught].\n- Time [took].\n\n## Next\n\n- Work out [flow].\n").is_empty());
}

#[test]
fn a_limit_may_use_a_reading_that_stands_before_it_in_the_step() {
    let tables = "[readings.supply]\nwhat = \"supply\"\nunit = \"psi\"\ninformation_only = true\n\
                  [readings.line]\nwhat = \"line\"\nunit = \"psi\"\nmin = '0.6 * supply'\nfails = \"Mend it.\"\n";
    assert!(codes(&file(tables, "# P\n\n1. Read [supply], then [line].\n")).is_empty());
    assert_eq!(codes(&file(tables, "# P\n\n1. Read [line], then [supply].\n")), ["needed-early"]);
}

#[test]
fn a_condition_needs_its_readings_in_an_earlier_step() {
    let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"clear\", \"cloudy\"]\ninformation_only = true\n\
                  [conditions.cloudy]\nif = 'look == \"cloudy\"'\n";
    assert!(codes(&file(tables, "# P\n\n1. See its [look].\n2. [cloudy] Filter it.\n")).is_empty());
    assert_eq!(codes(&file(tables, "# P\n\n1. [cloudy] See its [look].\n")), ["needed-early"]);
    assert!(codes(&file(tables, "# P\n\n1. See its [look].\n\n## Filter [cloudy]\n\n1. Do.\n")).is_empty());
    assert_eq!(codes(&file(tables, "# P\n\n## Filter [cloudy]\n\n1. See its [look].\n")), ["needed-early"]);
}

#[test]
fn a_value_of_a_guarded_step_is_known_under_the_same_condition() {
    let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"clear\", \"cloudy\"]\ninformation_only = true\n\
                  [conditions.cloudy]\nif = 'look == \"cloudy\"'\n\
                  [readings.depth]\nwhat = \"depth\"\nunit = \"mm\"\ninformation_only = true\n\
                  [values.double]\nwhat = \"double\"\nformula = '2 * depth'\nunit = \"mm\"\n";
    let guarded = "# P\n\n1. See its [look].\n2. [cloudy] Read [depth].\n3. [cloudy] Work out [double].\n";
    assert!(codes(&file(tables, guarded)).is_empty());
    let open = "# P\n\n1. See its [look].\n2. [cloudy] Read [depth].\n3. Work out [double].\n";
    assert_eq!(codes(&file(tables, open)), ["needed-perhaps"]);
}

#[test]
fn a_temperature_difference_may_be_shown_in_degrees() {
    let tables = "[readings.hot]\nwhat = \"hot\"\nunit = \"°C\"\ninformation_only = true\n\
                  [readings.cold]\nwhat = \"cold\"\nunit = \"°C\"\ninformation_only = true\n\
                  [values.drop]\nwhat = \"drop\"\nformula = 'hot - cold'\nunit = \"°C\"\nmax = 9\nfails = \"Cool it.\"\n";
    assert!(codes(&file(tables, "# P\n\n1. Read [hot] and [cold]; the [drop].\n")).is_empty());
}

/// `and`, `or` and `if` work out from left to right what they need: who asks first whether the reading was taken at all
/// never needs it in vain.
#[test]
fn a_formula_that_asks_for_the_condition_first_may_use_what_stands_under_it() {
    let used_by = |formula: &str| {
        let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"clear\", \"dark\"]\ninformation_only = true\n\
                      [conditions.dark]\nif = 'look == \"dark\"'\n\
                      [readings.caught]\nwhat = \"caught\"\nunit = \"L\"\ninformation_only = true\n\
                      [values.total]\nwhat = \"total\"\nunit = \"L\"\n";
        let tables = format!("{tables}formula = '{formula}'\n");
        codes(&file(&tables, "# P\n\n1. Read [look].\n2. [dark] Catch [caught].\n3. Work out [total].\n"))
    };
    assert!(used_by("if dark then caught else 0 L").is_empty());
    assert_eq!(used_by("caught + 1 L"), ["needed-perhaps"]);
    assert_eq!(used_by("if caught > 1 L and dark then 1 L else 0 L"), ["needed-perhaps"], "asked too late");
}

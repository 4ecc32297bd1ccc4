//! Materials and parts summed over the procedures of a job, and what has to be bought.

use serde_json::{Value, json};

use super::stage::{kit, stage};

fn sums(arguments: &[&str]) -> Value {
    serde_json::from_str(&kit(&stage(), &[arguments, &["--json"]].concat())).expect("JSON")
}

fn of<'v>(list: &'v Value, what: &str) -> &'v Value {
    list.as_array().expect("a list").iter().find(|one| one["what"] == what).expect("in the list")
}

/// 1 L and 2 US quarts of 0.946352946 L (NIST SP 811, appendix B.8) are 2.892705892 L: four packs of a quart.
#[test]
fn amounts_in_two_units_are_one_amount_and_packs_are_rounded_up_once() {
    let kit = sums(&["--vehicle", "sheet.toml"]);
    let oil = of(&kit["materials"], "fresh oil");
    assert_eq!(oil["amounts"], json!(["2.8927 L"]));
    let buy = json!({ "pack": "1 qt", "count": "4", "price": "14.5 money", "cost": "58 money", "lead_time": "3 d" });
    assert_eq!((&oil["buy"], &oil["procedures"]), (&buy, &json!([1, 2])));
    let washer = of(&kit["parts"], "washer");
    assert_eq!((&washer["amounts"], &washer["buy"]["cost"]), (&json!(["5"]), &json!("2.5 money")));
    assert_eq!(washer["buy"]["lead_time"], "2 wk", "the longest");
    assert_eq!((&kit["cost"], &kit["without_cost"]), (&json!("60.5 money"), &json!(2)));
}

#[test]
fn half_a_pack_in_each_of_two_procedures_is_one_pack() {
    let stage = stage();
    let halves =
        stage.text("drain.md").replace("amount = '1 L'\npack = '1 qt'", "amount = '0.4 L'\npack = '1 L'");
    stage.file("drain.md", &halves);
    stage.file("fill.md", &stage.text("fill.md").replace("amount = '2 qt'", "amount = '0.5 L'"));
    let kit: Value = serde_json::from_str(&kit(&stage, &["--json"])).expect("JSON");
    assert_eq!(of(&kit["materials"], "fresh oil")["buy"]["count"], "1");
}

#[test]
fn what_rests_on_the_vehicle_stands_in_words_and_has_no_cost() {
    let grease = |arguments| of(&sums(arguments)["materials"], "grease").clone();
    assert_eq!(grease(&["--vehicle", "sheet.toml"])["amounts"], json!(["0.3 L"]));
    let unknown = grease(&[]);
    assert_eq!((&unknown["amounts"], &unknown["more"]), (&json!([]), &json!(["[what it takes] * 0.1"])));
}

/// Another pack or another price is another thing to buy; what cannot be added stands beside.
#[test]
fn what_differs_is_not_thrown_together() {
    let stage = stage();
    let text = stage.text("fill.md");
    stage.file("fill.md", &text.replace("amount = '2 qt'\n", "amount = '2 qt'\npack = '5 L'\n"));
    let kit = |stage| -> Value { serde_json::from_str(&kit(stage, &["--json"])).expect("JSON") };
    let materials = kit(&stage)["materials"].clone();
    let oils = materials.as_array().expect("a list").iter().filter(|one| one["what"] == "fresh oil");
    let packs: Vec<&Value> = oils.map(|oil| &oil["buy"]["pack"]).collect();
    assert_eq!(packs, ["1 qt", "5 L"]);
    stage.file("fill.md", &text.replace("amount = '2 qt'\n", "amount = '2 kg'\n"));
    let oil = of(&kit(&stage)["materials"], "fresh oil").clone();
    assert_eq!((&oil["amounts"], &oil["buy"]["count"]), (&json!(["1 L", "2 kg"]), &Value::Null));
}

#[test]
fn hours_alone_and_for_two() {
    let time = sums(&[])["time"].clone();
    assert_eq!(time, json!({ "alone": "2 h 00 min", "two": "0 h 50 min", "not_said": 0 }));
}

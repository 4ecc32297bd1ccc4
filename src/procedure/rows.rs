//! The tables of the front matter whose entries have names: one row each.
//!
//! Everything that is done with all of them is made from these rows, in `table.rs`, `tables.rs` and `access.rs`; what is
//! particular to one stands in its own file in `written/`.

/// Hands the rows to a macro.
macro_rules! rows {
    ($made:ident) => {
        $made! {
            //  all of them      one of them     table           its key            an entry in words     its type
                roles            role            Roles           "roles"            "role"                Role;
                tools            tool            Tools           "tools"            "tool"                Tool;
                materials        material        Materials       "materials"        "material"            Supply;
                parts            part            Parts           "parts"            "part"                Supply;
                vehicle          vehicle_value   Vehicle         "vehicle"          "vehicle value"       VehicleValue;
                hazards          hazard          Hazards         "hazards"          "hazard"              Hazard;
                holds            hold            Holds           "holds"            "hold point"          Hold;
                readings         reading         Readings        "readings"         "reading"             Reading;
                values           value           Values          "values"           "computed value"      Value;
                conditions       condition       Conditions      "conditions"       "condition"           Condition;
                waits            wait            Waits           "waits"            "wait"                Wait;
                repeats          repeat          Repeats         "repeats"          "repeat"              Repeat;
                alternatives     ways            Alternatives    "alternatives"     "choice of ways"      Alternatives;
                levels           level           Levels          "levels"           "level of use"        LevelOfUse;
                fasteners        fastener_group  Fasteners       "fasteners"        "group of fasteners"  Fasteners;
                checks           check           Checks          "checks"           "check"               Check;
                witnesses        witness         Witnesses       "witnesses"        "witness point"       Witness;
                critical         critical_act    Critical        "critical"         "critical act"        Critical;
                watches          watch           Watches         "watches"          "limit in force"      Watch;
                dues             due             Dues            "dues"             "due date"            Due;
                stopping_points  stopping_point  StoppingPoints  "stopping_points"  "stopping point"      StoppingPoint;
                loose_ends       loose_end       LooseEnds        "loose_ends"       "loose end"           LooseEnd;
                named_steps      named_step      Steps           "steps"            "step"                NamedStep;
        }
    };
}

pub(super) use rows;

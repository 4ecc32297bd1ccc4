//! Why an answer among people is not taken, and the way forward.

use std::fmt;

/// Why an answer among people is not taken.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleRefusal {
    /// Somebody else answers this.
    NotThatPerson { said: String, person: String, role: String },
    /// Nobody looks at their own work; `alone` is the break after which that is allowed here.
    OwnWork { person: String, role: String, alone: Option<String> },
    /// The procedure allows no re-inspection.
    NeverAlone { role: String },
    /// Only one who did the step looks at it again.
    NotAPerformer { said: String, performers: Vec<String> },
    /// The break before a re-inspection is not over.
    TooSoon { after: String, from: String },
    /// Somebody who has a role is not at the pre-job brief.
    NotPresent { missing: Vec<String> },
    /// Whoever takes over has not accepted yet.
    TurnoverFirst { person: String, role: String },
    /// This person has the role already.
    SameRole { person: String, role: String },
}

impl fmt::Display for PeopleRefusal {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotThatPerson { said, person, role } => write!(
                formatter,
                "`{said}` is not {person} ({role}), who answers this with name or initials; `other` hands the role to somebody else"
            ),
            Self::OwnWork { person, role, alone } => {
                write!(
                    formatter,
                    "{person} has had a hand in it, and nobody looks at their own work; another person does: `other` hands the role {role} over"
                )?;
                match alone {
                    Some(alone) => write!(
                        formatter,
                        ", or {person} re-inspects it after a break of {alone}, with a reason"
                    ),
                    None => Ok(()),
                }
            }
            Self::NeverAlone { role } => write!(
                formatter,
                "the procedure wants another person here, and no re-inspection; `other` hands the role {role} to somebody who is here"
            ),
            Self::NotAPerformer { said, performers } => write!(
                formatter,
                "`{said}` did not do this step; a re-inspection is by one who did ({}), with name or initials",
                performers.join(", ")
            ),
            Self::TooSoon { after, from } => {
                write!(formatter, "a re-inspection comes after a break of {after}; look again from {from} on")
            }
            Self::NotPresent { missing } => write!(
                formatter,
                "{} must hear the brief too; call them, or hand the role over with `other`",
                missing.join(" and ")
            ),
            Self::TurnoverFirst { person, role } => write!(
                formatter,
                "{person} takes over as {role} and has not accepted yet; the turnover is accepted with name or initials first"
            ),
            Self::SameRole { person, role } => {
                write!(formatter, "{person} is the {role} already; name whoever takes over")
            }
        }
    }
}

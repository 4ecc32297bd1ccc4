//! Whose key it is: the file of allowed signers, in OpenSSH's own form.
//!
//! A line is `PRINCIPALS [OPTIONS] KEY-TYPE BASE64 [COMMENT]`. Of the options `namespaces=`, `valid-after=` and
//! `valid-before=` are understood, and a line with any other is refused: what it would narrow must not be passed over.

use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};

use super::pattern::matches_list;
use super::{NAMESPACE, PublicKey, Unfit, armour};

/// A file of allowed signers.
#[derive(Clone, Debug, Default)]
pub struct Allowed {
    signers: Vec<Signer>,
}

/// One line of it.
#[derive(Clone, Debug)]
pub struct Signer {
    /// Who: one or more, between commas, as they stand there.
    pub principals: String,
    key: Vec<u8>,
    namespaces: Option<String>,
    after: Option<Timestamp>,
    before: Option<Timestamp>,
    line: usize,
}

impl Allowed {
    /// Reads the file; times without `Z` are in this zone.
    pub fn parse(text: &str, zone: &TimeZone) -> Result<Self, Unfit> {
        let lines = text.lines().enumerate().filter(|(_, line)| {
            let line = line.trim();
            !line.is_empty() && !line.starts_with('#')
        });
        let signers = lines.map(|(at, line)| {
            signer(line, at + 1, zone).map_err(|error| Unfit::because(format!("line {}: {error}", at + 1)))
        });
        Ok(Self { signers: signers.collect::<Result<_, _>>()? })
    }

    /// Who this key belongs to at this time, or why it does not count.
    pub fn signer(&self, key: &PublicKey, at: &ZonedDateTime) -> Result<&Signer, Unfit> {
        let mut why = Unfit::because(format!("its key {key} is not one of the allowed signers"));
        for signer in self.signers.iter().filter(|signer| signer.key == key.blob) {
            match signer.counts(at.timestamp()) {
                Ok(()) => return Ok(signer),
                Err(error) => why = error,
            }
        }
        Err(why)
    }
}

impl Signer {
    fn counts(&self, at: Timestamp) -> Result<(), Unfit> {
        let Self { line, principals, .. } = self;
        let why = |words: &str| Err(Unfit::because(format!("the key of {principals} (line {line}) {words}")));
        match self {
            Self { namespaces: Some(list), .. } if !matches_list(list, NAMESPACE) => {
                why(&format!("is not allowed for `{NAMESPACE}`"))
            }
            Self { after: Some(after), .. } if at < *after => why("was not valid yet when it was signed"),
            Self { before: Some(before), .. } if at >= *before => {
                why("was not valid any more when it was signed")
            }
            _ => Ok(()),
        }
    }
}

fn signer(line: &str, number: usize, zone: &TimeZone) -> Result<Signer, Unfit> {
    let words = words(line)?;
    let mut words = words.iter().map(String::as_str);
    let mut next = |what: &str| words.next().ok_or_else(|| Unfit::because(format!("{what} is missing")));
    let principals = next("who the key belongs to")?.replace(QUOTED_COMMA, ",");
    let mut signer =
        Signer { principals, key: Vec::new(), namespaces: None, after: None, before: None, line: number };
    let mut word = next("the type of the key")?;
    if !is_key_type(word) {
        for option in options(word) {
            take_option(&mut signer, &option, zone)?;
        }
        word = next("the type of the key")?;
    }
    if !is_key_type(word) {
        return Err(Unfit::because(format!("`{word}` is not a type of key")));
    }
    signer.key = armour::decode(next("the key")?)?;
    Ok(signer)
}

fn is_key_type(word: &str) -> bool {
    ["ssh-", "sk-", "ecdsa-"].iter().any(|start| word.starts_with(start))
}

fn take_option(signer: &mut Signer, option: &str, zone: &TimeZone) -> Result<(), Unfit> {
    let (name, value) = option.split_once('=').unwrap_or((option, ""));
    match name.to_ascii_lowercase().as_str() {
        "namespaces" => signer.namespaces = Some(value.to_owned()),
        "valid-after" => signer.after = Some(moment(value, zone)?),
        "valid-before" => signer.before = Some(moment(value, zone)?),
        "cert-authority" => {
            return Err(Unfit::because(
                "keys that are vouched for by certificates are not taken; give the keys themselves",
            ));
        }
        _ => return Err(Unfit::because(format!("the option `{name}` is not known"))),
    }
    Ok(())
}

/// Words between blanks; what stands in quotes is one word with its blanks.
fn words(line: &str) -> Result<Vec<String>, Unfit> {
    let (mut words, mut word, mut quoted) = (Vec::new(), String::new(), false);
    for letter in line.trim().chars() {
        match letter {
            '"' => quoted = !quoted,
            ' ' | '\t' if !quoted => words.push(std::mem::take(&mut word)),
            // A comma inside quotes parts no options: it is told apart by a mark that no line has.
            ',' if quoted => word.push(QUOTED_COMMA),
            other => word.push(other),
        }
    }
    words.push(word);
    words.retain(|word| !word.is_empty());
    if quoted { Err(Unfit::because("a quote is not closed")) } else { Ok(words) }
}

const QUOTED_COMMA: char = '\u{0}';

fn options(word: &str) -> Vec<String> {
    word.split(',').map(|option| option.replace(QUOTED_COMMA, ",")).collect()
}

/// `YYYYMMDD`, `YYYYMMDDHHMM` or `YYYYMMDDHHMMSS`, with `Z` behind it in UTC.
fn moment(text: &str, zone: &TimeZone) -> Result<Timestamp, Unfit> {
    let unread = || Unfit::because(format!("`{text}` is not a time such as 20261121 or 202611211830Z"));
    let digits = text.strip_suffix(['Z', 'z']).unwrap_or(text);
    let zone = if digits.len() == text.len() { zone.clone() } else { TimeZone::UTC };
    if !digits.bytes().all(|byte| byte.is_ascii_digit()) || ![8, 12, 14].contains(&digits.len()) {
        return Err(unread());
    }
    let padded = format!("{digits:0<14}");
    let part = |from: usize, to: usize| {
        padded.get(from..to).and_then(|part| part.parse::<i16>().ok()).ok_or_else(unread)
    };
    let small =
        |from: usize| part(from, from + 2).and_then(|number| i8::try_from(number).map_err(|_| unread()));
    let date = Date::new(part(0, 4)?, small(4)?, small(6)?).map_err(|_| unread())?;
    let time = Time::new(small(8)?, small(10)?, small(12)?, 0).map_err(|_| unread())?;
    let at = DateTime::from_parts(date, time).to_zoned_datetime(zone).map_err(|_| unread())?;
    Ok(at.timestamp())
}

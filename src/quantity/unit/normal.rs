//! One spelling for the products and powers of a unit, however they were typed.

/// One spelling for what is typed in several: products as `·`, powers raised, no blanks around operators.
///
/// `N.m`, `N*m` and `N-m` become `N·m`; `mm^2` and `mm2` become `mm²`; `min-1` becomes `min⁻¹`. A digit within a
/// name stays, as in `mmH2O`.
pub(super) fn normal(text: &str) -> String {
    let chars: Vec<char> = tidied(text).chars().collect();
    let mut out = String::with_capacity(text.len());
    let mut raised = false;
    for (place, &char) in chars.iter().enumerate() {
        let before = place.checked_sub(1).and_then(|before| chars.get(before)).copied().unwrap_or(' ');
        let after = &chars[place + 1..];
        match char {
            '^' if matches!(after, ['0'..='9', ..] | ['-' | '−', '0'..='9', ..]) => raised = true,
            '-' | '−' if starts_power(before, after) => {
                raised = true;
                out.push('⁻');
            }
            '0'..='9' if raised || (before.is_alphabetic() && ends_name(after)) => {
                raised = true;
                out.push(raise(char));
            }
            _ => {
                raised = false;
                out.push(if joins(char, before, after) { '·' } else { char });
            }
        }
    }
    out
}

/// Blanks as single spaces, none around operators.
fn tidied(text: &str) -> String {
    let mut out = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for operator in ["·", "*", "×", "⋅", "∙", "/", "(", ")"] {
        if out.contains(operator) {
            let parts: Vec<_> = out.split(operator).map(str::trim).collect();
            out = parts.join(operator);
        }
    }
    out
}

fn starts_power(before: char, after: &[char]) -> bool {
    (before.is_alphabetic() || before == '^') && after.first().is_some_and(char::is_ascii_digit)
}

fn ends_name(after: &[char]) -> bool {
    let next = after.iter().find(|char| !char.is_ascii_digit());
    !next.is_some_and(|char| char.is_alphabetic())
}

fn joins(char: char, before: char, after: &[char]) -> bool {
    match char {
        '*' | '×' | '⋅' | '∙' => true,
        '.' | '-' => before.is_alphabetic() && after.first().is_some_and(|char| char.is_alphabetic()),
        _ => false,
    }
}

const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];

fn raise(digit: char) -> char {
    let place = digit.to_digit(10).and_then(|digit| usize::try_from(digit).ok());
    place.and_then(|place| RAISED.get(place)).copied().unwrap_or(digit)
}

/// The power as it is written above the line; nothing for one.
pub(super) fn raised(power: i32) -> String {
    if power == 1 {
        return String::new();
    }
    power.to_string().chars().map(|char| if char == '-' { '⁻' } else { raise(char) }).collect()
}

/// The largest power of a unit that is read.
pub(super) const MOST_POWER: i32 = 99;

/// A name and the power written above the line after it; one when there is none. `None` when the power is zero
/// or larger than any that measures something.
pub(super) fn split_power(text: &str) -> Option<(&str, i32)> {
    let name = text.trim_end_matches(|char| char == '⁻' || RAISED.contains(&char));
    let power = &text[name.len()..];
    if power.is_empty() {
        return Some((name, 1));
    }
    let digits: String = power.chars().map(lower).collect();
    digits
        .parse()
        .ok()
        .filter(|power: &i32| *power != 0 && power.abs() <= MOST_POWER)
        .map(|power| (name, power))
}

fn lower(raised: char) -> char {
    let digit = RAISED.iter().position(|char| *char == raised).and_then(|digit| u32::try_from(digit).ok());
    digit.and_then(|digit| char::from_digit(digit, 10)).unwrap_or('-')
}

/// The names in a product or quotient of units, each with its power: `kg·m/s²` is kg¹ m¹ s⁻².
pub(super) fn pieces(normal: &str) -> Option<Vec<(&str, i32)>> {
    let mut pieces = Vec::new();
    let (mut sign, mut group) = (1, None);
    let mut rest = normal;
    loop {
        if let Some(inside) = rest.strip_prefix('(').filter(|_| group.is_none()) {
            group = Some(sign);
            sign = 1;
            rest = inside;
        }
        let end = rest.find(['·', '/', '(', ')']).unwrap_or(rest.len());
        let (name, power) = split_power(&rest[..end])?;
        rest = &rest[end..];
        let stands_for_nothing = name == "1" && pieces.is_empty() && rest.starts_with('/');
        if !stands_for_nothing {
            pieces.push((Some(name).filter(|name| !name.is_empty())?, power * sign * group.unwrap_or(1)));
        }
        if let Some(outside) = rest.strip_prefix(')') {
            group.take()?;
            rest = outside;
        }
        let Some(operator) = rest.chars().next() else {
            return group.is_none().then_some(pieces);
        };
        sign = sign_after(operator)?;
        rest = &rest[operator.len_utf8()..];
    }
}

fn sign_after(operator: char) -> Option<i32> {
    match operator {
        '·' => Some(1),
        '/' => Some(-1),
        _ => None,
    }
}

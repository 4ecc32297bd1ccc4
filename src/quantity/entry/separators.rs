//! Points, commas and blanks in a number: which stands before the decimals, which parts thousands.

use super::trouble::Trouble;

const NO_DIGIT: Trouble = Trouble::Why("a digit is missing beside the point or comma");
const GROUPS: Trouble =
    Trouble::Why("thousands are parted in threes, like `1,234,567.8`; or leave the marks out");

/// Rewrites digits with points, commas and blanks to digits with at most one point.
///
/// A blank parts thousands. Of points and commas the last kind stands before the decimals if both occur, and a
/// kind that occurs twice parts thousands. A lone point stands before decimals. So does a lone comma, unless
/// what it parts could be thousands: `0,5` and `0,123` are decimals, `1,234` is asked back.
pub(super) fn with_point(run: &str) -> Result<String, Trouble> {
    if run.ends_with(['.', ',']) {
        return Err(NO_DIGIT);
    }
    if run.contains(' ') {
        return blanks(run);
    }
    match (run.matches('.').count(), run.matches(',').count()) {
        (0 | 1, 0) => Ok(run.to_owned()),
        (0, 1) => lone_comma(run),
        (_, 0) => grouped(run, '.'),
        (0, _) => grouped(run, ','),
        (points, commas) => both(run, points, commas),
    }
}

fn blanks(run: &str) -> Result<String, Trouble> {
    let (whole, decimals) = match run.split_once(['.', ',']) {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (run, None),
    };
    let decimals = match decimals {
        Some(decimals) if !decimals.bytes().all(|byte| byte.is_ascii_digit()) => return Err(GROUPS),
        Some(decimals) => format!(".{decimals}"),
        None => String::new(),
    };
    Ok(format!("{}{decimals}", grouped(whole, ' ')?))
}

fn lone_comma(run: &str) -> Result<String, Trouble> {
    let (whole, decimals) = run.split_once(',').unwrap_or((run, ""));
    let first = format!("{whole}.{decimals}");
    let may_be_thousands = decimals.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
    if may_be_thousands {
        return Err(Trouble::WhichMeant { first, second: format!("{whole}{decimals}") });
    }
    Ok(first)
}

fn both(run: &str, points: usize, commas: usize) -> Result<String, Trouble> {
    let (decimal, group) = if run.rfind('.') > run.rfind(',') { ('.', ',') } else { (',', '.') };
    let decimals_marks = if decimal == '.' { points } else { commas };
    match run.rsplit_once(decimal) {
        Some((whole, decimals)) if decimals_marks == 1 => {
            Ok(format!("{}.{decimals}", grouped(whole, group)?))
        }
        _ => Err(GROUPS),
    }
}

/// Without the marks between thousands, which must be where they belong.
fn grouped(whole: &str, mark: char) -> Result<String, Trouble> {
    let mut groups = whole.split(mark);
    let first = groups.next().unwrap_or("");
    let in_place = (1..=3).contains(&first.len()) && groups.all(|group| group.len() == 3);
    let digits = whole.replace(mark, "");
    if in_place && digits.bytes().all(|byte| byte.is_ascii_digit()) { Ok(digits) } else { Err(GROUPS) }
}

//! What may stand in the files that go to and fro: codes, numbers, times, hashes. Anything else in them is a fault.

use std::fmt::Write as _;

/// The longest code of a learner.
const CODE: usize = 16;
/// Names that Windows keeps for devices: no folder can be called so.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];

/// True for a learner's short code: up to 16 small letters, digits and hyphens, no hyphen first. It is the name of a folder on
/// every system, so no device's name either.
pub fn is_code(text: &str) -> bool {
    let known = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    let numbered = |device: &str| {
        text.strip_prefix(device)
            .is_some_and(|rest| matches!(rest.as_bytes(), [digit] if digit.is_ascii_digit()))
    };
    (1..=CODE).contains(&text.len())
        && text.bytes().all(known)
        && !text.starts_with('-')
        && !DEVICES.contains(&text)
        && !numbered("com")
        && !numbered("lpt")
}

/// True for the id of a set.
pub fn is_set(text: &str) -> bool {
    let known = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    (1..=64).contains(&text.len()) && text.bytes().all(known)
}

/// True for the number of a card or the id of a sitting: 16 hexadecimal digits.
pub fn is_number(text: &str) -> bool {
    text.len() == 16 && is_hex(text)
}

/// True for hexadecimal digits as they are written here: small letters.
pub fn is_hex(text: &str) -> bool {
    text.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'))
}

/// True for a date: `2026-12-04`.
pub fn is_day(text: &str) -> bool {
    let place = |(n, byte): (usize, u8)| if n == 4 || n == 7 { byte == b'-' } else { byte.is_ascii_digit() };
    text.len() == 10
        && text.bytes().enumerate().all(place)
        && ("01"..="12").contains(&&text[5..7])
        && ("01"..="31").contains(&&text[8..])
}

/// True for a time in UTC as RFC 3339: `2026-12-04T07:30:00Z`, also with parts of a second. Such texts sort as the times do, but for
/// parts of one second.
pub fn is_time(text: &str) -> bool {
    let Some((day, rest)) = text.split_at_checked(10) else { return false };
    let Some((clock, end)) = rest.split_at_checked(9) else { return false };
    let place = |(n, byte): (usize, u8)| match n {
        0 => byte == b'T',
        3 | 6 => byte == b':',
        _ => byte.is_ascii_digit(),
    };
    let parts = |text: &str| (1..=9).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    is_day(day)
        && clock.bytes().enumerate().all(place)
        && (end == "Z" || end.strip_prefix('.').and_then(|end| end.strip_suffix('Z')).is_some_and(parts))
}

/// Bytes in hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        // Writing into a text cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// So many bytes from hexadecimal digits; none for anything else.
pub fn bytes<const N: usize>(text: &str) -> Option<[u8; N]> {
    if text.len() != 2 * N || !is_hex(text) {
        return None;
    }
    let mut bytes = [0; N];
    for (byte, digits) in bytes.iter_mut().zip(text.as_bytes().chunks(2)) {
        *byte = u8::from_str_radix(std::str::from_utf8(digits).ok()?, 16).ok()?;
    }
    Some(bytes)
}

/// True for a character that a terminal obeys, or that hides or turns round others.
pub fn is_obeyed(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}')
        || matches!(c, '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_stand_in_a_file() {
        assert!(["k7", "a", "3b-12", "con7", "com"].into_iter().all(is_code));
        assert!(
            !["", "K7", "-a", "k 7", "../k7", "con", "com1", "lpt9", "seventeen-letters", "k\u{e9}"]
                .into_iter()
                .any(is_code)
        );
        assert!(
            is_day("2026-12-04")
                && !is_day("2026-13-04")
                && !is_day("2026-1-004")
                && !is_day("2026-12-0\u{e9}")
        );
        for time in ["2026-12-04T07:30:00Z", "2026-12-04T07:30:00.123Z"] {
            assert!(is_time(time), "{time}");
        }
        for time in [
            "2026-12-04",
            "2026-12-04T07:30:00",
            "2026-12-04 07:30:00Z",
            "2026-12-04T07:30:00.Z",
            "2026-12-04T07:30:0\u{e9}",
        ] {
            assert!(!is_time(time), "{time}");
        }
        assert_eq!(bytes::<2>(&hex(&[0, 254])), Some([0, 254]));
        assert_eq!((bytes::<2>("00FE"), bytes::<2>("00f"), bytes::<1>("\u{e9}")), (None, None, None));
    }
}

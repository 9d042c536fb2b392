//! Sentences broken into lines.

/// Breaks a sentence into lines of at most `width` characters.
pub fn wrap(text: &str, width: u16) -> Vec<String> {
    let width = usize::from(width);
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.last_mut().expect("there is always a line");
        let joined = last.chars().count() + 1 + word.chars().count();
        if last.is_empty() {
            last.push_str(word);
        } else if joined <= width {
            last.push(' ');
            last.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

//! Text parted at words. The standard library's search for them is made for long texts, and takes much room on the page.

/// What stands before the first such word and after it.
pub(crate) fn split_at_word<'a>(text: &'a str, word: &str) -> Option<(&'a str, &'a str)> {
    let at = text
        .as_bytes()
        .windows(word.len())
        .position(|piece| piece == word.as_bytes())?;
    Some((text.get(..at)?, text.get(at + word.len()..)?))
}

/// The letters that a text begins with as long as they are such ones, and the rest. An index into a text could panic, and what it
/// would say then takes 4 kB of the page.
pub(crate) fn split_while(text: &str, such: fn(char) -> bool) -> (&str, &str) {
    let rest = text.trim_start_matches(such);
    text.split_at_checked(text.len() - rest.len()).unwrap_or((text, ""))
}

/// The parts in a row, with something between each two. The standard library has this once for each kind of text, at a kilobyte each.
pub(crate) fn joined(parts: &[&str], between: &str) -> String {
    let mut all = String::new();
    for (index, part) in parts.iter().enumerate() {
        if index > 0 {
            all.push_str(between);
        }
        all.push_str(part);
    }
    all
}

/// As it begins a sentence.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library.
    #[test]
    fn parts_are_joined_as_the_standard_library_does() {
        for parts in [&[][..], &[""], &["a"], &["a", "", "b"], &["é", "ü"]] {
            assert_eq!(joined(parts, ", "), parts.join(", "));
        }
    }

    /// Against the standard library.
    #[test]
    fn it_parts_as_the_standard_library_does() {
        for text in [
            "",
            "a",
            " to ",
            "1 to 3",
            "1 to  to 3",
            "1 to to 3",
            "½ to °é to",
            "to",
            "stock then 1+3",
        ] {
            for word in [" to ", "then", "°é", "to"] {
                assert_eq!(split_at_word(text, word), text.split_once(word), "{text} at {word}");
            }
        }
    }
}

//! Names as they stand in messages.

/// Names between the backticks that keep them apart from the words of a message.
pub fn in_backticks(names: impl IntoIterator<Item = impl AsRef<str>>) -> Vec<String> {
    let names = names.into_iter();
    names.map(|name| format!("`{}`", name.as_ref())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_stands_in_its_own() {
        assert_eq!(
            in_backticks(["VK 56461", "5"]).join(", "),
            "`VK 56461`, `5`"
        );
        assert!(in_backticks(Vec::<String>::new()).is_empty());
    }
}

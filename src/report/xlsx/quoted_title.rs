//! How links and formulas name a sheet.

/// The title of a sheet in the quotes in which links and formulas name it.
pub(super) fn quoted_title(title: &str) -> String {
    format!("'{}'", title.replace('\'', "''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_apostrophe_in_a_title_is_doubled() {
        // ECMA-376 part 1, 18.17.2.2: a sheet name in apostrophes doubles those inside.
        assert_eq!(quoted_title("What it costs"), "'What it costs'");
        assert_eq!(quoted_title("Miller's"), "'Miller''s'");
    }
}

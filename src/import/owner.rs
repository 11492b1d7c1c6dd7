//! Whose number a header means: "our no." of a supplier's list is not that of the shop's own table.

use super::fold::fold;

/// Whose number a header with a possessive names, seen from the writer of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Owner {
    /// The writer's: `our no.`, `unsere Nr.`
    Writer,
    /// The reader's: `your no.`, `Ihre Nr.`
    Reader,
}

impl Owner {
    /// The owner that a header's first word names.
    pub fn of_header(printed: &str) -> Option<Self> {
        let folded = fold(printed);
        Self::of_word(folded.split(' ').next().unwrap_or_default())
    }

    /// The owner that a folded word names.
    pub fn of_word(word: &str) -> Option<Self> {
        match word {
            "our" | "unsere" | "unser" | "notre" | "nos" | "nuestra" | "nuestro" | "nostro"
            | "nostra" | "ns" | "nasz" | "nossa" | "nosso" => Some(Self::Writer),
            "your" | "ihre" | "ihr" | "votre" | "vos" | "vuestra" | "vuestro" | "su" | "vostro"
            | "vostra" | "vs" | "panstwa" | "wasz" | "vossa" | "vosso" => Some(Self::Reader),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn possessives_are_seen_from_the_writer() {
        for (text, owner) in [
            ("Unsere Teilenr.", Some(Owner::Writer)),
            ("Our P/N", Some(Owner::Writer)),
            ("Nostro codice", Some(Owner::Writer)),
            ("Votre référence", Some(Owner::Reader)),
            ("Ihre Artikel-Nr.", Some(Owner::Reader)),
            ("Part no.", None),
            ("", None),
        ] {
            assert_eq!(Owner::of_header(text), owner, "{text}");
        }
    }
}

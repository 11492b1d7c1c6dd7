//! Header words that mean something else in one kind of table, by `data/import/headers_of_kinds.csv`: a list of parts has
//! no least quantity to order, and machines are counted, not stocked.

use super::field::Field;
use super::fold::fold;
use super::header::How;
use super::shipped::lines;
use super::table::Column;
use super::table_kind::code_of;
use crate::record::TableKind;

/// The table as shipped.
const HEADERS_OF_KINDS_CSV: &str = include_str!("../../data/import/headers_of_kinds.csv");

/// Gives columns the fields that their words name in this kind of table, where no other column has that field.
pub fn settle_by_kind(kind: TableKind, columns: &mut [Column]) {
    let of_kind = lines(HEADERS_OF_KINDS_CSV).filter(|(of, _, _)| *of == code_of(kind));
    for (_, field, words) in of_kind {
        let Some(field) = Field::from_code(field) else {
            continue;
        };
        if columns.iter().any(|column| column.header.field == field) {
            continue;
        }
        let is_meant = |column: &&mut Column| {
            let printed = fold(&column.printed);
            column.header.how != How::Given && words.split('|').any(|word| word == printed)
        };
        if let Some(column) = columns.iter_mut().find(is_meant) {
            column.header.field = field;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;

    fn field_of(text: &str, printed: &str) -> Option<Field> {
        let table = only_table(text);
        let mut columns = table.columns.iter();
        let column = columns.find(|column| column.printed == printed);
        column.map(|column| column.header.field)
    }

    #[test]
    fn every_line_names_a_kind_a_field_and_folded_words() {
        let mut count = 0;
        for (kind, field, words) in lines(HEADERS_OF_KINDS_CSV) {
            assert!(
                TableKind::ALL.into_iter().any(|of| code_of(of) == kind),
                "{kind}"
            );
            assert!(Field::from_code(field).is_some(), "{field}");
            assert!(words.split('|').all(|word| fold(word) == word), "{words}");
            count += 1;
        }
        assert!(count > 1);
    }

    /// Common practice, no source: what the words mean in a shop's own lists.
    #[test]
    fn a_word_means_what_its_table_is_about() {
        let parts = "Part number;Designation;Minimum\nP1;6205;4\nP2;6206;2\n";
        assert_eq!(field_of(parts, "Minimum"), Some(Field::MinStock));
        let ordered = "Part number;Designation;MOQ\nP1;6205;4\nP2;6206;2\n";
        assert_eq!(field_of(ordered, "MOQ"), Some(Field::MinimumQuantity));
        let both = "Part number;Designation;Min stock;Minimum qty\nP1;6205;4;10\n";
        assert_eq!(field_of(both, "Min stock"), Some(Field::MinStock));
        assert_eq!(field_of(both, "Minimum qty"), Some(Field::MinimumQuantity));
        let offers = "Supplier;Part number;Price;Minimum qty\nAlpha;P1;4.00;10\n";
        assert_eq!(
            field_of(offers, "Minimum qty"),
            Some(Field::MinimumQuantity)
        );
        for word in ["Count", "Quantity", "Anzahl"] {
            let machines = format!("Machine;Downtime cost per hour;{word}\nMixer;50;2\n");
            assert_eq!(field_of(&machines, word), Some(Field::Installed), "{word}");
        }
        let stock = "Part number;Bin;Count\nP1;A1;2\n";
        assert_eq!(field_of(stock, "Count"), Some(Field::OnHand));
    }
}

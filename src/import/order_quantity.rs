//! Columns of a list of orders that say how many are ordered and how many are still to come: `Bestellmenge`, `Offen`.
//!
//! Outside of such a list the words mean other things, a least order or what is open in any sense.

use super::field::Field;
use super::fold::fold;
use super::header::{Header, How};
use super::header_rows::Headers;
use super::stated::Stated;
use super::table::Column;

/// Folded words for what is still to come, which is the quantity of an order that is open. Common practice, no source;
/// from memory.
const OPEN: [&str; 14] = [
    "offen",
    "offene menge",
    "restmenge",
    "noch offen",
    "open qty",
    "open quantity",
    "qty open",
    "outstanding",
    "outstanding qty",
    "outstanding quantity",
    "qty outstanding",
    "reste a livrer",
    "cantidad pendiente",
    "da consegnare",
];
/// Folded words for what was ordered. Common practice, no source; from memory.
const ORDERED: [&str; 10] = [
    "bestellmenge",
    "bestellte menge",
    "order qty",
    "order quantity",
    "ordered qty",
    "ordered quantity",
    "qty ordered",
    "quantite commandee",
    "cantidad pedida",
    "quantita ordinata",
];

/// Takes the column of what is still to come, else that of what was ordered, for the quantity of a list of orders without
/// another.
pub fn take(headers: &mut Headers) {
    let fields = headers.fields();
    let is_of_orders = fields.contains(&Field::Ordered)
        && [Field::Received, Field::Promised, Field::DueDate]
            .iter()
            .any(|field| fields.contains(field));
    if !is_of_orders || fields.contains(&Field::Quantity) {
        return;
    }
    for words in [&OPEN[..], &ORDERED[..]] {
        let is_one = |index: u32, printed: &str| {
            !headers.left_out.contains(&index) && words.contains(&fold(printed).as_str())
        };
        let found = (headers.unread.iter()).find(|(index, printed)| is_one(*index, printed));
        let known = (headers.columns.iter()).position(|column| {
            let is_open = match column.header.how {
                How::Given => false,
                How::Close { .. } => true,
                _ => column.header.field == Field::OnOrder,
            };
            is_open && is_one(column.index, &column.printed)
        });
        if let Some(at) = known {
            headers.columns[at].header.field = Field::Quantity;
            headers.columns[at].header.how = How::Known;
            return;
        }
        let Some((index, printed)) = found.cloned() else {
            continue;
        };
        headers.unread.retain(|(at, _)| *at != index);
        headers.columns.push(Column {
            index,
            header: Header {
                field: Field::Quantity,
                how: How::Known,
                states: Stated::read(&printed),
            },
            printed,
        });
        headers.columns.sort_by_key(|column| column.index);
        headers.known += 1;
        return;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;

    fn quantity(text: &str) -> Option<String> {
        let table = only_table(text);
        let columns = table.columns.iter();
        let mut of_quantity = columns.filter(|column| column.header.field == Field::Quantity);
        of_quantity.next().map(|column| column.printed.clone())
    }

    #[test]
    fn words_are_folded() {
        for word in OPEN.into_iter().chain(ORDERED) {
            assert_eq!(fold(word), word);
        }
    }

    #[test]
    fn what_is_open_comes_before_what_was_ordered() {
        for (columns, expected) in [
            ("Bestellmenge;Offen", Some("Offen")),
            ("Bestellmenge;Bemerkung", Some("Bestellmenge")),
            ("Bestellte Menge;Bemerkung", Some("Bestellte Menge")),
            ("Order qty;Open qty", Some("Open qty")),
            ("Menge;Offen", Some("Menge")),
        ] {
            let text = format!(
                "Lieferant;Artikel;{columns};Bestelldatum;Liefertermin;Wareneingang\nHagedorn;T-001;40;15;02.03.2026;16.03.2026;\n"
            );
            assert_eq!(quantity(&text).as_deref(), expected, "{columns}");
        }
        // What a shop orders at a time is no stock.
        let stock = "Artikel;Lagerort;Bestand;Bestellmenge\nT-001;A1;4;20\n";
        assert_eq!(quantity(stock), None);
    }
}

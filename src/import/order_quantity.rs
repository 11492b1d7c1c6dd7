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

/// Folded words for what has come. Common practice, no source; from memory.
const RECEIVED: [&str; 19] = [
    "liefermenge",
    "gelieferte menge",
    "menge geliefert",
    "erhaltene menge",
    "menge erhalten",
    "eingangsmenge",
    "wareneingangsmenge",
    "we menge",
    "qty received",
    "quantity received",
    "received qty",
    "received quantity",
    "qty delivered",
    "quantity delivered",
    "delivered qty",
    "delivered quantity",
    "quantite recue",
    "cantidad recibida",
    "quantita ricevuta",
];

/// Takes the columns of a list of orders that say how many have come and how many are still to come, and that of what was
/// ordered where no other is the quantity.
pub fn take(headers: &mut Headers) {
    let fields = headers.fields();
    let is_of_orders = fields.contains(&Field::Ordered)
        && [Field::Received, Field::Promised, Field::DueDate]
            .iter()
            .any(|field| fields.contains(field));
    if !is_of_orders {
        return;
    }
    for (field, words) in [
        (Field::OpenQuantity, &OPEN[..]),
        (Field::ReceivedQuantity, &RECEIVED[..]),
        (Field::Quantity, &ORDERED[..]),
    ] {
        if !fields.contains(&field) {
            take_one(headers, field, words);
        }
    }
}

/// Gives the first column of such a word a field.
fn take_one(headers: &mut Headers, field: Field, words: &[&str]) {
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
        headers.columns[at].header.field = field;
        headers.columns[at].header.how = How::Known;
        return;
    }
    let Some((index, printed)) = found.cloned() else {
        return;
    };
    headers.unread.retain(|(at, _)| *at != index);
    headers.columns.push(Column {
        index,
        header: Header {
            field,
            how: How::Known,
            states: Stated::read(&printed),
        },
        printed,
    });
    headers.columns.sort_by_key(|column| column.index);
    headers.known += 1;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;

    fn printed(text: &str, field: Field) -> Option<String> {
        let table = only_table(text);
        let columns = table.columns.iter();
        let mut of_field = columns.filter(|column| column.header.field == field);
        of_field.next().map(|column| column.printed.clone())
    }

    #[test]
    fn words_are_folded() {
        for word in OPEN.into_iter().chain(ORDERED).chain(RECEIVED) {
            assert_eq!(fold(word), word);
        }
    }

    #[test]
    fn what_was_ordered_has_come_and_is_open_are_told_apart() {
        for (columns, ordered, received, open) in [
            (
                "Bestellmenge;Offen",
                Some("Bestellmenge"),
                None,
                Some("Offen"),
            ),
            ("Bestellmenge;Bemerkung", Some("Bestellmenge"), None, None),
            (
                "Bestellte Menge;Bemerkung",
                Some("Bestellte Menge"),
                None,
                None,
            ),
            (
                "Order qty;Open qty",
                Some("Order qty"),
                None,
                Some("Open qty"),
            ),
            ("Menge;Offen", Some("Menge"), None, Some("Offen")),
            ("Qty;Qty received", Some("Qty"), Some("Qty received"), None),
            (
                "Bestellmenge;Liefermenge",
                Some("Bestellmenge"),
                Some("Liefermenge"),
                None,
            ),
            ("Bemerkung;Offene Menge", None, None, Some("Offene Menge")),
        ] {
            let text = format!(
                "Lieferant;Artikel;{columns};Bestelldatum;Liefertermin;Wareneingang\nHagedorn;T-001;40;15;02.03.2026;16.03.2026;\n"
            );
            for (field, expected) in [
                (Field::Quantity, ordered),
                (Field::ReceivedQuantity, received),
                (Field::OpenQuantity, open),
            ] {
                assert_eq!(printed(&text, field).as_deref(), expected, "{columns}");
            }
        }
        // What a shop orders at a time is no stock.
        let stock = "Artikel;Lagerort;Bestand;Bestellmenge\nT-001;A1;4;20\n";
        assert_eq!(printed(stock, Field::Quantity), None);
    }
}

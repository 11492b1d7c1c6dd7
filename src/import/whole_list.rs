//! One list for everything, as small shops keep it: what a part is, how many lie where, who sells it for how much.
//!
//! Such a table is read twice, each time with the columns of one kind: rows of stock (or of parts, where nothing is counted),
//! and rows of offers.

use super::field::Field;
use super::table::Table;
use crate::record::TableKind;

/// Columns that say what lies on the shelf or what a planner set; an offer with them would be taken for the supplier's stock.
const OF_STOCK: [Field; 13] = [
    Field::Bin,
    Field::Lot,
    Field::CureDate,
    Field::UsableUntil,
    Field::OnHand,
    Field::Reserved,
    Field::OnOrder,
    Field::DueDate,
    Field::CountedOn,
    Field::MinStock,
    Field::MinStockReason,
    Field::MinStockDate,
    Field::ShelfLife,
];

/// Columns that say who sells a part, for how much and how soon.
const OF_OFFERS: [Field; 20] = [
    Field::Supplier,
    Field::SupplierNumber,
    Field::Price,
    Field::ListPrice,
    Field::Discount,
    Field::PricePer,
    Field::VatRate,
    Field::PriceFrom,
    Field::HoldsFrom,
    Field::Currency,
    Field::MinimumQuantity,
    Field::PackQuantity,
    Field::Available,
    Field::LeadTime,
    Field::ExpediteLeadTime,
    Field::ExpediteSurcharge,
    Field::CancellationCharge,
    Field::QuoteDate,
    Field::ValidUntil,
    Field::Condition,
];

/// What makes an offer; a row without any of these has none.
pub const MAKES_AN_OFFER: [Field; 4] = [
    Field::Supplier,
    Field::Price,
    Field::ListPrice,
    Field::LeadTime,
];

/// True for what lies on the shelf or what a planner set, which the reading of offers leaves to the other one.
pub fn is_of_stock(field: Field) -> bool {
    OF_STOCK.contains(&field)
}

/// The readings of a table: itself, or two where it is a shop's own list of everything.
///
/// A count alone may be the supplier's; a bin or a minimum beside it is the shop's. Common practice, no source.
pub fn readings(table: Table) -> Vec<Table> {
    let has = |field: Field| (table.columns.iter()).any(|column| column.header.field == field);
    let is_kind = matches!(
        table.kind,
        TableKind::Parts | TableKind::Stock | TableKind::Offers
    );
    let names = has(Field::OwnNumber) || has(Field::PartNumber);
    let sells = has(Field::Supplier)
        && [Field::Price, Field::ListPrice, Field::LeadTime]
            .into_iter()
            .any(has);
    let is_ours = has(Field::Bin) || has(Field::MinStock);
    if !(is_kind && names && sells && is_ours) {
        return vec![table];
    }
    let shops = if has(Field::OnHand) {
        TableKind::Stock
    } else {
        TableKind::Parts
    };
    vec![
        reading(&table, shops, &OF_OFFERS),
        reading(&table, TableKind::Offers, &OF_STOCK),
    ]
}

/// The table as one kind, without the columns of the other.
fn reading(table: &Table, kind: TableKind, others: &[Field]) -> Table {
    let mut read = table.clone();
    read.kind = kind;
    read.columns
        .retain(|column| !others.contains(&column.header.field));
    let beside = table
        .columns
        .iter()
        .filter(|column| others.contains(&column.header.field));
    read.read_beside = beside.map(|column| column.index).collect();
    read.why.push(format!(
        "one list for everything: these columns are read as {}, the others apart",
        kind.name()
    ));
    read
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::tables_of;

    fn kinds(text: &str) -> Vec<(TableKind, usize, usize)> {
        (tables_of(text).iter())
            .map(|table| (table.kind, table.columns.len(), table.read_beside.len()))
            .collect()
    }

    #[test]
    fn a_list_of_everything_is_read_as_stock_and_as_offers() {
        let text = "Part no;Description;Designation;Bin;On hand;Min;Supplier;Price EUR;Lead time\n\
                    A-1;bearing;6205;B1;2;1;North;4.20;3 days\n";
        assert_eq!(
            kinds(text),
            [(TableKind::Stock, 6, 3), (TableKind::Offers, 6, 3)]
        );
    }

    #[test]
    fn without_a_count_it_is_read_as_parts_and_as_offers() {
        let text =
            "Part no;Designation;Min;Supplier;Price EUR;Lead time\nA-1;6205;1;North;4.20;3 days\n";
        assert_eq!(
            kinds(text),
            [(TableKind::Parts, 3, 3), (TableKind::Offers, 5, 1)]
        );
    }

    #[test]
    fn lists_of_one_kind_stay_one() {
        for text in [
            // What a supplier has is not ours.
            "Part no;Designation;Stock;Supplier;Price EUR;Lead time\nA-1;6205;9;North;4.20;3 days\n",
            "Part no;Designation;Supplier;Price EUR;Lead time\nA-1;6205;North;4.20;3 days\n",
            "Part no;Bin;On hand;Min\nA-1;B1;2;1\n",
            "Part no;Designation;Min;Shelf life\nA-1;6205;1;24\n",
            // Where nobody sells, a price is what it cost.
            "Part no;Bin;On hand;Price EUR\nA-1;B1;2;4.20\n",
        ] {
            assert_eq!(kinds(text).len(), 1, "{text}");
            assert_eq!(kinds(text)[0].2, 0, "{text}");
        }
    }
}

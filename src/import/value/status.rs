//! Words of a status column: what lies on the shelf and may not be used, and orders that nothing comes of any more.

use crate::import::fold::fold;

/// Whether what a stock row counts may be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StockStatus {
    /// It may.
    Free,
    /// Blocked, kept back for inspection or for somebody else, or spoilt.
    Blocked,
}

/// How far an order is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderStatus {
    /// All of it, or what has not come yet, is still to come.
    Open,
    /// A part has come, the rest is still to come.
    InPart,
    /// All of it came, or the rest is not waited for.
    Closed,
    /// It was taken back.
    Cancelled,
}

/// Reads the status of stock; `None` for a word that is not sure. Common practice, no source; from memory.
pub fn read_stock_status(text: &str) -> Option<StockStatus> {
    Some(match fold(text).as_str() {
        "free" | "ok" | "good" | "available" | "released" | "unrestricted" | "usable"
        | "approved" | "passed" | "active" | "in stock" | "frei" | "gut" | "verfugbar"
        | "freigegeben" | "frei verwendbar" | "verwendbar" | "aktiv" | "auf lager" | "am lager"
        | "lagernd" | "i o" | "io" => StockStatus::Free,
        "blocked"
        | "block"
        | "locked"
        | "on hold"
        | "hold"
        | "quality hold"
        | "qc hold"
        | "quarantine"
        | "quarantined"
        | "in quarantine"
        | "in inspection"
        | "under inspection"
        | "quality inspection"
        | "in quality inspection"
        | "rejected"
        | "defective"
        | "faulty"
        | "damaged"
        | "scrap"
        | "scrapped"
        | "expired"
        | "reserved"
        | "do not use"
        | "gesperrt"
        | "gesperrter bestand"
        | "sperrbestand"
        | "sperre"
        | "sperrlager"
        | "quarantane"
        | "in quarantane"
        | "in prufung"
        | "prufung"
        | "qualitatsprufung"
        | "in qualitatsprufung"
        | "wareneingangsprufung"
        | "in wareneingangsprufung"
        | "abgelehnt"
        | "defekt"
        | "beschadigt"
        | "ausschuss"
        | "schrott"
        | "verschrottet"
        | "abgelaufen"
        | "verfallen"
        | "reserviert"
        | "nicht verwenden"
        | "n i o"
        | "nio" => StockStatus::Blocked,
        _ => return None,
    })
}

/// Reads the status of an order; `None` for a word that is not sure. Common practice, no source; from memory.
pub fn read_order_status(text: &str) -> Option<OrderStatus> {
    Some(match fold(text).as_str() {
        "open" | "ordered" | "placed" | "sent" | "pending" | "confirmed" | "acknowledged"
        | "in transit" | "shipped" | "dispatched" | "back order" | "backorder" | "overdue"
        | "offen" | "bestellt" | "bestatigt" | "unterwegs" | "versandt" | "versendet"
        | "im ruckstand" | "ruckstand" | "uberfallig" => OrderStatus::Open,
        "partial"
        | "partly delivered"
        | "partially delivered"
        | "part delivered"
        | "partly received"
        | "partially received"
        | "part received"
        | "partial delivery"
        | "part delivery"
        | "teilgeliefert"
        | "teilweise geliefert"
        | "teillieferung"
        | "teilweise erhalten" => OrderStatus::InPart,
        "closed"
        | "complete"
        | "completed"
        | "done"
        | "finished"
        | "delivered"
        | "received"
        | "fully received"
        | "fully delivered"
        | "geschlossen"
        | "abgeschlossen"
        | "erledigt"
        | "geliefert"
        | "komplett"
        | "vollstandig"
        | "komplett geliefert"
        | "vollstandig geliefert"
        | "eingegangen"
        | "erhalten" => OrderStatus::Closed,
        "cancelled" | "canceled" | "cancel" | "void" | "withdrawn" | "storniert" | "storno"
        | "stornierung" | "gestrichen" | "annulliert" | "abbestellt" => OrderStatus::Cancelled,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: words of both languages, as they are written and in capitals.
    #[test]
    fn words_that_are_sure_are_read_and_no_others() {
        for (text, expected) in [
            ("Blocked", Some(StockStatus::Blocked)),
            ("GESPERRT", Some(StockStatus::Blocked)),
            ("Quarantäne", Some(StockStatus::Blocked)),
            ("in Prüfung", Some(StockStatus::Blocked)),
            ("n.i.O.", Some(StockStatus::Blocked)),
            ("i.O.", Some(StockStatus::Free)),
            ("frei verwendbar", Some(StockStatus::Free)),
            ("not blocked", None),
            ("nicht gesperrt", None),
            ("3", None),
            ("Q", None),
        ] {
            assert_eq!(read_stock_status(text), expected, "{text}");
        }
        for (text, expected) in [
            ("cancelled", Some(OrderStatus::Cancelled)),
            ("storniert", Some(OrderStatus::Cancelled)),
            ("offen", Some(OrderStatus::Open)),
            ("teilweise geliefert", Some(OrderStatus::InPart)),
            ("Erledigt", Some(OrderStatus::Closed)),
            ("to be cancelled?", None),
            ("40", None),
        ] {
            assert_eq!(read_order_status(text), expected, "{text}");
        }
    }
}

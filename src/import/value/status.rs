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

/// Words for stock that may be used, folded, with strokes between. Common practice, no source; from memory.
const FREE: &str = "free|ok|good|available|released|unrestricted|usable|approved|passed|active|in stock|frei|gut|\
    verfugbar|freigegeben|frei verwendbar|verwendbar|aktiv|auf lager|am lager|lagernd|i o|io|libre|\
    disponible|utilisable|utilizable|libero|libera|disponibile|utilizzabile|vrij|beschikbaar|\
    goedgekeurd|wolne|wolny|wolna|dostepne|dostepny|dostepna|livre|disponivel";
/// Words for stock that may not be used, folded, with strokes between. Common practice, no source; from memory.
const BLOCKED: &str = "blocked|block|locked|on hold|hold|quality hold|qc hold|quarantine|quarantined|in quarantine|\
    in inspection|under inspection|quality inspection|in quality inspection|rejected|defective|faulty|\
    damaged|scrap|scrapped|expired|reserved|do not use|gesperrt|gesperrter bestand|sperrbestand|sperre|\
    sperrlager|quarantane|in quarantane|in prufung|prufung|qualitatsprufung|in qualitatsprufung|\
    wareneingangsprufung|in wareneingangsprufung|abgelehnt|defekt|beschadigt|ausschuss|schrott|\
    verschrottet|abgelaufen|verfallen|reserviert|nicht verwenden|n i o|nio|bloque|bloquee|reserve|\
    reservee|perime|perimee|defectueux|defectueuse|quarantaine|en quarantaine|controle qualite|rebut|\
    ne pas utiliser|non conforme|bloccato|bloccata|riservato|riservata|scaduto|scaduta|difettoso|\
    difettosa|quarantena|in quarantena|scarto|non usare|bloqueado|bloqueada|reservado|reservada|\
    caducado|caducada|defectuoso|defectuosa|rechazado|rechazada|cuarentena|en cuarentena|no usar|\
    geblokkeerd|in quarantaine|gereserveerd|defect|verlopen|afgekeurd|niet gebruiken|zablokowane|\
    zablokowany|zablokowana|zarezerwowane|zarezerwowany|zarezerwowana|uszkodzone|uszkodzony|uszkodzona|\
    przeterminowane|przeterminowany|przeterminowana|kwarantanna|w kwarantannie|quarentena|em quarentena|\
    defeituoso|defeituosa|vencido|vencida|rejeitado|rejeitada";
/// Words for orders that are still to come, folded, with strokes between. Common practice, no source; from memory.
const OPEN: &str = "open|ordered|placed|sent|pending|confirmed|acknowledged|in transit|shipped|dispatched|back order|\
    backorder|overdue|offen|bestellt|bestatigt|unterwegs|versandt|versendet|im ruckstand|ruckstand|\
    uberfallig|ouvert|ouverte|confirme|confirmee|expedie|expediee|en cours|en attente|commandee|aperto|\
    aperta|confermato|confermata|spedito|spedita|ordinato|ordinata|in corso|in attesa|abierto|abierta|\
    confirmado|confirmada|enviado|enviada|pendiente|en curso|en transito|besteld|bevestigd|verzonden|\
    onderweg|in behandeling|in bestelling|otwarte|otwarty|otwarta|potwierdzone|potwierdzony|\
    potwierdzona|zamowione|zamowiony|zamowiona|wyslane|wyslany|wyslana|w realizacji|w toku|w drodze|\
    aberto|aberta|em aberto|pendente|em transito";
/// Words for orders of which a part has come, folded, with strokes between. Common practice, no source; from memory.
const IN_PART: &str = "partial|partly delivered|partially delivered|part delivered|partly received|partially received|\
    part received|partial delivery|part delivery|teilgeliefert|teilweise geliefert|teillieferung|\
    teilweise erhalten|partiellement livre|partiellement livree|livre partiellement|livraison partielle|\
    reception partielle|partiellement recu|parzialmente consegnato|parzialmente evaso|\
    evaso parzialmente|consegna parziale|parcialmente entregado|entregado parcialmente|entrega parcial|\
    parcialmente recibido|recibido parcialmente|deels geleverd|gedeeltelijk geleverd|deellevering|\
    czesciowo dostarczone|czesciowo zrealizowane|dostawa czesciowa|parcialmente entregue|\
    entregue parcialmente";
/// Words for orders of which nothing comes any more, folded, with strokes between. Common practice, no source; from memory.
const CLOSED: &str = "closed|complete|completed|done|finished|delivered|received|fully received|fully delivered|\
    geschlossen|abgeschlossen|erledigt|geliefert|komplett|vollstandig|komplett geliefert|\
    vollstandig geliefert|eingegangen|erhalten|livre|livree|recu|recue|solde|soldee|cloture|cloturee|\
    termine|terminee|chiuso|chiusa|consegnato|consegnata|evaso|evasa|completato|completata|ricevuto|\
    ricevuta|cerrado|cerrada|entregado|entregada|recibido|recibida|completado|completada|finalizado|\
    finalizada|terminado|terminada|gesloten|geleverd|ontvangen|afgehandeld|voltooid|afgerond|zamkniete|\
    zamkniety|zamknieta|zrealizowane|zrealizowany|zrealizowana|dostarczone|dostarczony|dostarczona|\
    zakonczone|zakonczony|zakonczona|otrzymane|otrzymany|otrzymana|odebrane|odebrany|odebrana|fechado|\
    fechada|recebido|recebida|concluido|concluida|encerrado|encerrada|entregue";
/// Words for orders that were taken back, folded, with strokes between. Common practice, no source; from memory.
const CANCELLED: &str = "cancelled|canceled|cancel|void|withdrawn|storniert|storno|stornierung|gestrichen|annulliert|\
    abbestellt|annule|annulee|annullato|annullata|cancellato|cancellata|cancelado|cancelada|anulado|\
    anulada|geannuleerd|ingetrokken|anulowane|anulowany|anulowana";

/// Reads the status of stock; `None` for a word that is not sure.
pub fn read_stock_status(text: &str) -> Option<StockStatus> {
    let folded = fold(text);
    let is_of = |words: &str| words.split('|').any(|word| word == folded);
    if is_of(FREE) {
        Some(StockStatus::Free)
    } else if is_of(BLOCKED) {
        Some(StockStatus::Blocked)
    } else {
        None
    }
}

/// Reads the status of an order; `None` for a word that is not sure.
pub fn read_order_status(text: &str) -> Option<OrderStatus> {
    let folded = fold(text);
    let is_of = |words: &str| words.split('|').any(|word| word == folded);
    if is_of(OPEN) {
        Some(OrderStatus::Open)
    } else if is_of(IN_PART) {
        Some(OrderStatus::InPart)
    } else if is_of(CLOSED) {
        Some(OrderStatus::Closed)
    } else if is_of(CANCELLED) {
        Some(OrderStatus::Cancelled)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: words of seven languages, as they are written and in capitals.
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
            ("Bloqué", Some(StockStatus::Blocked)),
            ("en quarantaine", Some(StockStatus::Blocked)),
            ("bloccato", Some(StockStatus::Blocked)),
            ("Cuarentena", Some(StockStatus::Blocked)),
            ("geblokkeerd", Some(StockStatus::Blocked)),
            ("Zablokowane", Some(StockStatus::Blocked)),
            ("quarentena", Some(StockStatus::Blocked)),
            ("libre", Some(StockStatus::Free)),
            ("disponibile", Some(StockStatus::Free)),
            ("vrij", Some(StockStatus::Free)),
            ("dostępne", Some(StockStatus::Free)),
            ("disponível", Some(StockStatus::Free)),
            ("non libre", None),
            ("niet geblokkeerd", None),
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
            ("soldée", Some(OrderStatus::Closed)),
            ("livré", Some(OrderStatus::Closed)),
            ("annulé", Some(OrderStatus::Cancelled)),
            ("livraison partielle", Some(OrderStatus::InPart)),
            ("en cours", Some(OrderStatus::Open)),
            ("evaso", Some(OrderStatus::Closed)),
            ("annullato", Some(OrderStatus::Cancelled)),
            ("aperto", Some(OrderStatus::Open)),
            ("cerrado", Some(OrderStatus::Closed)),
            ("Cancelado", Some(OrderStatus::Cancelled)),
            ("pendiente", Some(OrderStatus::Open)),
            ("geleverd", Some(OrderStatus::Closed)),
            ("deels geleverd", Some(OrderStatus::InPart)),
            ("geannuleerd", Some(OrderStatus::Cancelled)),
            ("in behandeling", Some(OrderStatus::Open)),
            ("Zamknięte", Some(OrderStatus::Closed)),
            ("anulowane", Some(OrderStatus::Cancelled)),
            ("w realizacji", Some(OrderStatus::Open)),
            ("fechado", Some(OrderStatus::Closed)),
            ("em aberto", Some(OrderStatus::Open)),
            // French for a firm order, and for one that is closed.
            ("ferme", None),
            ("non livré", None),
            ("to be cancelled?", None),
            ("40", None),
        ] {
            assert_eq!(read_order_status(text), expected, "{text}");
        }
    }
}

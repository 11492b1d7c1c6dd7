//! The cautions that reports and answers carry. They defer to the machine's documentation and licensed persons.

/// Before a part that was chosen by size is fitted.
pub const FITTING: &[&str] = &[
    "equal dimensions do not prove equal load rating, speed, precision or material; compare the data of both parts",
    "isolate and lock off every energy source and let stored energy go (pressure, springs, raised loads, spinning masses) before work",
    "safety-critical machines, lifting gear and pressure parts follow the machine's documentation, local codes and a licensed person",
];

/// Before a report is acted on.
pub const REPORT: &[&str] = &[
    "dates and costs rest on quotes, receipts and stock lists of the ages shown; confirm price, stock and delivery before ordering",
    "a substitute is planned or bought only where it goes in as it is or a person approved it for that line of the kit",
];

/// Before anything on the machine is touched: first on the rebuild sheet.
pub const ISOLATION: &[&str] = &[
    "isolate and lock off every energy source by the machine's own procedure; try to start it before you trust it",
    "let pressure off, springs down, raised loads onto stands and spinning masses to rest; hot parts cool first",
    "lift with gear that is rated and inspected for the load; nobody stands beneath",
    "guards go back on before the machine turns, and it turns no faster than its documentation allows",
];

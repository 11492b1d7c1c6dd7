//! Reads single values as people write them: numbers, dates, lead times, prices, yes and no.
//!
//! Nothing here knows columns or rows; what a column proves about its values comes in as an argument.

mod calendar_week;
mod date;
mod date_evidence;
mod flag;
mod lead_time;
mod movement;
mod number;
mod price;
mod status;
mod sum;
mod word;
mod year_place;

pub use calendar_week::CalendarWeek;
pub use date::{
    DateError, first_of_quarter, last_of_quarter, read_date, read_last_day, read_month_or_date,
};
pub use date_evidence::{DateEvidence, leaves_year_open};
pub use flag::read_flag;
pub use lead_time::{LeadTimeError, LeadTimeUnit, read_lead_time, span_turned_into_date};
pub use movement::{movement_of, read_movement};
pub use number::{DecimalSign, NumberError, NumberEvidence, plain_number, read_number};
pub use price::{PriceError, ReadPrice, currency_of_sign, read_price};
pub use status::{OrderStatus, StockStatus, read_order_status, read_stock_status};
pub use sum::read_sum;
pub use word::{
    is_count_word, is_placeholder, is_total_word, is_unknown_word, read_condition, read_outcome,
    read_reason, read_way_kind,
};

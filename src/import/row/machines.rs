//! Rows of machine lists.

use crate::import::field::Field;
use crate::import::issue::Severity;
use crate::record::MachineRecord;

use super::reader::{Rejected, RowReader};

/// Hours of a leap year.
const MOST_HOURS: f64 = 8_784.0;

/// Hours that the machine runs in a year; a counter's reading is none.
fn running_hours(row: &mut RowReader<'_, '_>) -> Option<f64> {
    let hours = row.number_from_zero(Field::RunningHours)?;
    if hours > MOST_HOURS {
        let expected = "at most 8,784, the hours of a year";
        row.out_of_range(Severity::Doubtful, Field::RunningHours, hours, expected);
        return None;
    }
    Some(hours)
}

/// Reads one machine.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<MachineRecord, Rejected> {
    Ok(MachineRecord {
        machine: row.required_text(Field::Machine, "machine")?,
        description: row.text(Field::Description),
        downtime_cost_per_hour: row.money(Field::DowntimeCost),
        installed: row
            .number_above_zero(Field::Installed)
            .or_else(|| row.number_above_zero(Field::Quantity)),
        in_use_from: row.date(Field::InUseFrom),
        in_use_until: row.date(Field::InUseUntil),
        running_hours: running_hours(row),
        criticality: row.text(Field::Criticality),
        place: row.place.clone(),
    })
}

//! What an order to a supplier costs in freight, what a courier's run costs, and what is assumed where no table says it.
//!
//! Unknown freight is never nothing: choices reckon with one assumed figure for the whole shop, and what is chosen says so.

use std::collections::BTreeMap;
use std::fmt;

use chrono::NaiveDate;

use super::delivery::DeliveryKind;
use super::exchange::Exchange;
use super::middles::middles;
use crate::catalogue::Shop;
use crate::units::{Money, cents_of};

/// What an assumed freight rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FreightBasis {
    /// `freight_assumed` of the settings.
    Settings,
    /// The median of the suppliers whose freight is known.
    MedianOf {
        /// How many.
        suppliers: usize,
    },
    /// As much as placing an order costs by the settings: no supplier's freight is known.
    OrderCost,
}

/// Freight that is assumed for every supplier of whom no table says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AssumedFreight {
    /// Freight of one order.
    pub amount: Money,
    /// What it rests on.
    pub basis: FreightBasis,
}

/// Freight of one order to a supplier.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Freight {
    /// Cents an order costs, however many lines it has.
    pub cents: i64,
    /// Value of goods from which it is free.
    pub free_from_cents: Option<i64>,
}

/// What is paid once for all lines that come together: the freight of a supplier's consignment, or a run.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Carriage {
    /// Key of the supplier's name.
    pub supplier: String,
    /// The way of a run and the day on which it sets out; `None` for a consignment.
    pub run: Option<(DeliveryKind, NaiveDate)>,
}

impl Carriage {
    /// What an order of this day pays to come by a way; `None` for what is fetched.
    pub fn of(supplier: String, kind: DeliveryKind, ordered_on: NaiveDate) -> Option<Self> {
        let run = kind.is_one_run().then_some((kind, ordered_on));
        (run.is_some() || kind.bears_freight()).then_some(Self { supplier, run })
    }
}

/// Freight by supplier.
#[derive(Debug, Clone)]
pub struct Freights {
    known: BTreeMap<String, Freight>,
    /// Cents of one run, by supplier and way.
    runs: BTreeMap<(String, DeliveryKind), i64>,
    /// Order values from which freight that is not known is free.
    free_from_cents: BTreeMap<String, i64>,
    assumed: AssumedFreight,
}

impl Freight {
    /// Freight of an order of this value.
    pub fn of(&self, goods_cents: i64) -> i64 {
        match self.free_from_cents {
            Some(from) if goods_cents >= from => 0,
            _ => self.cents,
        }
    }
}

impl Freights {
    /// Takes the suppliers of a shop; amounts in a currency without a rate are not known.
    pub fn new(shop: &Shop) -> Self {
        let exchange = Exchange::new(&shop.settings);
        let own = |money| exchange.in_own_currency(money).map(|money| money.cents);
        let mut known = BTreeMap::new();
        let mut free_from = BTreeMap::new();
        let mut runs = BTreeMap::new();
        for (key, supplier) in &shop.suppliers {
            for kind in [DeliveryKind::Courier, DeliveryKind::SameDay] {
                let cents = kind.run_cost(supplier).and_then(own);
                runs.extend(cents.map(|cents| ((key.clone(), kind), cents.max(0))));
            }
            let free_from_cents = supplier
                .freight_free_from
                .and_then(own)
                .filter(|from| *from > 0);
            match supplier.freight.and_then(own) {
                Some(cents) => {
                    let cents = cents.max(0);
                    known.insert(
                        key.clone(),
                        Freight {
                            cents,
                            free_from_cents,
                        },
                    );
                }
                None => {
                    free_from.extend(free_from_cents.map(|from| (key.clone(), from)));
                }
            }
        }
        let planning = &shop.settings.planning;
        let amounts: Vec<i64> = known.values().map(|freight| freight.cents).collect();
        let (cents, basis) = match (planning.freight_assumed, median(amounts.clone())) {
            (Some(stated), _) => (cents_of(stated), FreightBasis::Settings),
            (None, Some(middle)) => {
                let suppliers = amounts.len();
                (middle, FreightBasis::MedianOf { suppliers })
            }
            (None, None) => (cents_of(planning.order_cost), FreightBasis::OrderCost),
        };
        Self {
            known,
            runs,
            free_from_cents: free_from,
            assumed: AssumedFreight {
                amount: Money {
                    cents,
                    currency: shop.settings.currency,
                },
                basis,
            },
        }
    }

    /// Freight of a supplier by the key of its name; `None` where no table says it.
    pub fn known(&self, key: &str) -> Option<Freight> {
        self.known.get(key).copied()
    }

    /// Freight to choose by: the known one, else the assumed.
    pub fn to_choose_by(&self, key: &str) -> Freight {
        self.known(key).unwrap_or(Freight {
            cents: self.assumed.amount.cents,
            free_from_cents: self.free_from_cents.get(key).copied(),
        })
    }

    /// What is paid for goods to come, to choose by: the freight of a consignment, known or assumed, or that of one run.
    pub fn of_carriage(&self, carriage: &Carriage) -> Freight {
        let Some((kind, _)) = carriage.run else {
            return self.to_choose_by(&carriage.supplier);
        };
        let of = (carriage.supplier.clone(), kind);
        Freight {
            cents: self.runs.get(&of).copied().unwrap_or(0),
            free_from_cents: None,
        }
    }

    /// What is assumed where freight is not known.
    pub const fn assumed(&self) -> AssumedFreight {
        self.assumed
    }
}

/// The middle, or halfway between the two middles; `None` of nothing.
fn median(cents: Vec<i64>) -> Option<i64> {
    middles(cents, i64::cmp).map(|(lower, upper)| (lower + upper) / 2)
}

impl fmt::Display for AssumedFreight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} assumed, ", self.amount)?;
        match self.basis {
            FreightBasis::Settings => f.write_str("by `freight_assumed` of the settings"),
            FreightBasis::MedianOf { suppliers: 1 } => {
                f.write_str("that of the one supplier whose freight is known")
            }
            FreightBasis::MedianOf { suppliers } => {
                write!(
                    f,
                    "the median of the {suppliers} suppliers whose freight is known"
                )
            }
            FreightBasis::OrderCost => {
                f.write_str("as much as placing an order costs, for no supplier's freight is known")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::lead_time::supplier_key;
    use crate::plan::sample::{Sample, euros};

    fn assumed(settings: &str, known: &[f64]) -> AssumedFreight {
        let mut sample = Sample::new(settings);
        sample.supplier("Unknown", |supplier| supplier.freight = None);
        for (at, amount) in known.iter().enumerate() {
            sample.supplier(&format!("S{at}"), |supplier| {
                supplier.freight = Some(euros(*amount));
            });
        }
        Freights::new(&sample.built()).assumed()
    }

    #[test]
    fn the_settings_come_first_then_the_median_then_the_cost_of_an_order() {
        for (settings, known, amount, words) in [
            (
                "[planning]\nfreight_assumed = 9.5",
                &[1.0, 2.0][..],
                9.5,
                "9.50 EUR assumed, by `freight_assumed` of the settings",
            ),
            (
                "",
                &[30.0, 5.0, 8.0],
                8.0,
                "8.00 EUR assumed, the median of the 3 suppliers whose freight is known",
            ),
            (
                "",
                &[30.0, 5.0, 8.0, 10.0],
                9.0,
                "9.00 EUR assumed, the median of the 4 suppliers whose freight is known",
            ),
            (
                "",
                &[30.0],
                30.0,
                "30.00 EUR assumed, that of the one supplier whose freight is known",
            ),
            (
                "[planning]\norder_cost = 28",
                &[],
                28.0,
                "28.00 EUR assumed, as much as placing an order costs, for no supplier's freight is known",
            ),
        ] {
            let found = assumed(settings, known);
            assert_eq!(found.amount, euros(amount), "{settings} {known:?}");
            assert_eq!(found.to_string(), words);
        }
    }

    #[test]
    fn a_known_freight_of_nothing_is_nothing_and_one_without_a_rate_is_not_known() {
        let mut sample = Sample::new("[planning]\nfreight_assumed = 12");
        sample.supplier("Free", |supplier| supplier.freight = Some(euros(0.0)));
        sample.supplier("Pounds", |supplier| {
            let pounds = crate::units::Currency::new("GBP").unwrap();
            supplier.freight = Money::from_units(7.0, pounds).ok();
            supplier.freight_free_from = Some(euros(100.0));
        });
        let freights = Freights::new(&sample.built());
        assert_eq!(
            freights
                .known(&supplier_key("Free"))
                .map(|freight| freight.cents),
            Some(0)
        );
        assert_eq!(freights.to_choose_by(&supplier_key("Free")).of(500), 0);
        assert_eq!(freights.known(&supplier_key("Pounds")), None);
        // The value from which it is free holds for what is assumed as well.
        let pounds = freights.to_choose_by(&supplier_key("Pounds"));
        assert_eq!((pounds.of(9_999), pounds.of(10_000)), (1_200, 0));
        assert_eq!(
            freights.to_choose_by(&supplier_key("Nobody")).of(1_000_000),
            1_200
        );
    }

    #[test]
    fn costs_without_a_rate_are_told_once_a_row_and_currency() {
        let mut sample = Sample::new("[planning]\nfreight_assumed = 12");
        let money =
            |code: &str| Money::from_units(7.0, crate::units::Currency::new(code).unwrap()).ok();
        sample.supplier("Pounds", |supplier| {
            supplier.freight = money("GBP");
            supplier.freight_free_from = money("GBP");
            supplier.courier_cost = money("CHF");
        });
        sample.supplier("Euros", |supplier| supplier.freight = money("EUR"));
        let part = sample.part("A");
        sample.machine("M1", Some(10.0), None);
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.way(crate::record::OtherWayKind::MakeInHouse, |way| {
            way.cost = money("USD");
        });
        let issues = sample.plan().issues;
        let told = issues.iter().filter_map(|issue| match issue {
            crate::plan::PlanIssue::NoExchangeRate { currency, .. } => Some(currency.code()),
            _ => None,
        });
        assert_eq!(told.collect::<Vec<_>>(), ["GBP", "CHF", "USD"]);
    }
}

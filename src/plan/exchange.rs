//! Money in the shop's own currency.

use super::issue::PlanIssue;
use crate::place::Place;
use crate::record::ShopSettings;
use crate::units::{Currency, Money, Price};

/// Exchange rates of the settings.
#[derive(Debug, Clone, Copy)]
pub struct Exchange<'a> {
    settings: &'a ShopSettings,
}

impl<'a> Exchange<'a> {
    /// Takes the rates of the settings.
    pub const fn new(settings: &'a ShopSettings) -> Self {
        Self { settings }
    }

    /// The shop's currency.
    pub const fn currency(&self) -> Currency {
        self.settings.currency
    }

    /// Units of the shop's currency for one unit of another; `None` where the settings have no rate.
    pub fn rate(&self, currency: Currency) -> Option<f64> {
        if currency == self.settings.currency {
            return Some(1.0);
        }
        self.settings
            .exchange_rates
            .iter()
            .find(|(code, _)| code.trim().eq_ignore_ascii_case(currency.code()))
            .map(|(_, rate)| *rate)
    }

    /// That these amounts of one row cannot be reckoned with: one issue for each currency without a rate.
    pub fn missing(
        &self,
        place: &Place,
        amounts: impl IntoIterator<Item = Option<Money>>,
    ) -> Vec<PlanIssue> {
        let mut issues = Vec::new();
        for Money { currency, .. } in amounts.into_iter().flatten() {
            let issue = PlanIssue::NoExchangeRate {
                place: place.clone(),
                currency,
            };
            if self.rate(currency).is_none() && !issues.contains(&issue) {
                issues.push(issue);
            }
        }
        issues
    }

    /// The same amount in the shop's currency, rounded to whole cents.
    pub fn in_own_currency(&self, money: Money) -> Option<Money> {
        let rate = self.rate(money.currency)?;
        Some(Money {
            cents: (money.cents as f64 * rate).round() as i64,
            currency: self.settings.currency,
        })
    }

    /// The same price in the shop's currency, to a hundredth of a cent for as many units as it is stated for.
    pub fn price_in_own_currency(&self, price: Price) -> Option<Price> {
        let rate = self.rate(price.currency)?;
        Some(Price {
            amount_cents_e2: (price.amount_cents_e2 as f64 * rate).round() as i64,
            per: price.per,
            currency: self.settings.currency,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_currency_without_a_rate_is_never_taken_at_par() {
        let settings = ShopSettings::from_toml("[exchange_rates]\nusd = 0.92").unwrap();
        let exchange = Exchange::new(&settings);
        let money = |code| Money {
            cents: 1000,
            currency: Currency::new(code).unwrap(),
        };
        assert_eq!(
            exchange.in_own_currency(money("USD")).map(|m| m.cents),
            Some(920)
        );
        assert_eq!(
            exchange.in_own_currency(money("EUR")).map(|m| m.cents),
            Some(1000)
        );
        assert_eq!(exchange.in_own_currency(money("CHF")), None);
    }
}

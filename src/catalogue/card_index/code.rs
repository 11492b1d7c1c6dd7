//! How the values of a card are written as bytes: counts as variable-length numbers, unknown as a byte of its own.

use chrono::{Datelike, NaiveDate};

use crate::part::{
    BoreForm, Clearance, Closure, ContactAngle, Family, LoadRatings, RibForm, SealForm,
    ToleranceClass, Traits,
};

/// Writes values one after the other.
#[derive(Debug, Default)]
pub(super) struct Out(pub(super) Vec<u8>);

impl Out {
    pub(super) fn byte(&mut self, value: u8) {
        self.0.push(value);
    }

    /// Seven bits a byte, the lowest first.
    pub(super) fn count(&mut self, mut value: usize) {
        while value >= 0x80 {
            self.0.push(value as u8 | 0x80);
            value >>= 7;
        }
        self.0.push(value as u8);
    }

    pub(super) fn text(&mut self, value: &str) {
        self.count(value.len());
        self.0.extend(value.bytes());
    }

    pub(super) fn maybe_text(&mut self, value: Option<&str>) {
        self.byte(u8::from(value.is_some()));
        if let Some(value) = value {
            self.text(value);
        }
    }

    pub(super) fn texts(&mut self, values: &[String]) {
        self.count(values.len());
        values.iter().for_each(|value| self.text(value));
    }

    pub(super) fn maybe_number(&mut self, value: Option<f64>) {
        self.byte(u8::from(value.is_some()));
        if let Some(value) = value {
            self.0.extend(value.to_le_bytes());
        }
    }

    /// Days of the common era, from 1; 0 for unknown.
    pub(super) fn maybe_date(&mut self, value: Option<NaiveDate>) {
        let days = value.map_or(0, |date| date.num_days_from_ce());
        self.count(usize::try_from(days).unwrap_or(0));
    }

    /// Position in the list of all values, from 1; 0 for unknown.
    pub(super) fn choice<T: PartialEq>(&mut self, value: Option<T>, all: &[T]) {
        let at = value.and_then(|value| all.iter().position(|one| *one == value));
        self.byte(at.map_or(0, |at| at as u8 + 1));
    }

    pub(super) fn family(&mut self, family: Option<Family>) {
        self.choice(family, &Family::ALL);
    }

    pub(super) fn ratings(&mut self, ratings: Option<&LoadRatings>) {
        self.byte(u8::from(ratings.is_some()));
        if let Some(ratings) = ratings {
            self.maybe_number(ratings.dynamic_kn);
            self.maybe_number(ratings.static_kn);
            self.maybe_text(ratings.source.as_deref());
        }
    }

    pub(super) fn traits(&mut self, traits: &Traits) {
        self.choice(traits.closure, Closure::ALL);
        self.choice(traits.clearance, Clearance::ALL);
        self.choice(traits.tolerance_class, ToleranceClass::ALL);
        self.choice(traits.rib_form, RibForm::ALL);
        self.choice(traits.bore_form, BoreForm::ALL);
        self.choice(traits.seal_form, SealForm::ALL);
        self.choice(traits.has_snap_ring_groove, &[false, true]);
        let numbers = [traits.contact_angle.map(|angle| angle.0), traits.rows];
        for number in numbers {
            self.byte(u8::from(number.is_some()));
            self.byte(number.unwrap_or(0));
        }
        let texts = [
            &traits.preload_class,
            &traits.arrangement,
            &traits.cage,
            &traits.material,
            &traits.hardness,
            &traits.variant,
        ];
        // Most parts have none of these: one byte says which there are.
        let there = texts
            .iter()
            .enumerate()
            .map(|(at, text)| u8::from(text.is_some()) << at);
        self.byte(there.sum());
        texts.into_iter().flatten().for_each(|text| self.text(text));
        self.texts(&traits.unknown_suffixes);
    }
}

/// Reads values one after the other; what is missing reads as unknown or empty, and is remembered.
#[derive(Debug, Clone)]
pub(super) struct In<'a> {
    bytes: &'a [u8],
    at: usize,
    pub(super) is_short: bool,
}

impl<'a> In<'a> {
    pub(super) const fn new(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            at: 0,
            is_short: false,
        }
    }

    pub(super) fn take(&mut self, count: usize) -> &'a [u8] {
        let found = self
            .at
            .checked_add(count)
            .and_then(|end| self.bytes.get(self.at..end));
        self.is_short |= found.is_none();
        let found = found.unwrap_or_default();
        self.at += found.len();
        found
    }

    pub(super) fn byte(&mut self) -> u8 {
        let found = self.bytes.get(self.at);
        self.is_short |= found.is_none();
        self.at += usize::from(found.is_some());
        found.copied().unwrap_or(0)
    }

    pub(super) fn u32(&mut self) -> u32 {
        u32::from_le_bytes(super::pages::array(self.take(4)))
    }

    pub(super) fn count(&mut self) -> usize {
        let mut value = 0usize;
        for shift in (0..35).step_by(7) {
            let byte = self.byte();
            value |= usize::from(byte & 0x7f) << shift;
            if byte < 0x80 {
                return value;
            }
        }
        self.is_short = true;
        0
    }

    /// A text where it stands.
    fn text_in_place(&mut self) -> &'a str {
        let count = self.count();
        let found = std::str::from_utf8(self.take(count));
        self.is_short |= found.is_err();
        found.unwrap_or_default()
    }

    pub(super) fn text(&mut self) -> String {
        self.text_in_place().to_owned()
    }

    pub(super) fn maybe_text(&mut self) -> Option<String> {
        (self.byte() == 1).then(|| self.text())
    }

    pub(super) fn texts(&mut self) -> Vec<String> {
        let count = self.count().min(self.bytes.len());
        (0..count).map(|_| self.text()).collect()
    }

    /// Goes by texts that nobody asks for; how many they were.
    pub(super) fn skip_texts(&mut self) -> usize {
        let texts = self.count().min(self.bytes.len());
        for _ in 0..texts {
            self.skip_text();
        }
        texts
    }

    fn skip_text(&mut self) {
        let count = self.count();
        self.take(count);
    }

    pub(super) fn skip_maybe_text(&mut self) {
        if self.byte() == 1 {
            self.skip_text();
        }
    }

    pub(super) fn maybe_number(&mut self) -> Option<f64> {
        (self.byte() == 1).then(|| f64::from_le_bytes(super::pages::array(self.take(8))))
    }

    pub(super) fn maybe_date(&mut self) -> Option<NaiveDate> {
        let days = i32::try_from(self.count()).ok().filter(|days| *days > 0)?;
        let date = NaiveDate::from_num_days_from_ce_opt(days);
        self.is_short |= date.is_none();
        date
    }

    pub(super) fn choice<T: Copy>(&mut self, all: &[T]) -> Option<T> {
        let at = usize::from(self.byte());
        self.is_short |= at > all.len();
        all.get(at.checked_sub(1)?).copied()
    }

    pub(super) fn family(&mut self) -> Option<Family> {
        self.choice(&Family::ALL)
    }

    pub(super) fn ratings(&mut self) -> Option<LoadRatings> {
        (self.byte() == 1).then(|| LoadRatings {
            dynamic_kn: self.maybe_number(),
            static_kn: self.maybe_number(),
            source: self.maybe_text(),
        })
    }

    pub(super) fn skip_ratings(&mut self) {
        if self.byte() == 1 {
            self.maybe_number();
            self.maybe_number();
            self.skip_maybe_text();
        }
    }

    pub(super) fn traits(&mut self) -> Traits {
        let mut traits = self.plain_traits();
        let texts = self.texts_of_traits();
        for (text, found) in [
            &mut traits.preload_class,
            &mut traits.arrangement,
            &mut traits.cage,
            &mut traits.material,
            &mut traits.hardness,
            &mut traits.variant,
        ]
        .into_iter()
        .zip(texts)
        {
            *text = found.map(str::to_owned);
        }
        traits.unknown_suffixes = self.texts();
        traits
    }

    /// The same without a copy of any text.
    pub(super) fn traits_in_place(&mut self) -> TraitsInPlace<'a> {
        let plain = self.plain_traits();
        let [_, arrangement, _, material, _, variant] = self.texts_of_traits();
        TraitsInPlace {
            plain,
            arrangement,
            material,
            variant,
            unknown_suffixes: self.skip_texts(),
        }
    }

    /// Traits but for those that are texts.
    fn plain_traits(&mut self) -> Traits {
        let traits = Traits {
            closure: self.choice(Closure::ALL),
            clearance: self.choice(Clearance::ALL),
            tolerance_class: self.choice(ToleranceClass::ALL),
            rib_form: self.choice(RibForm::ALL),
            bore_form: self.choice(BoreForm::ALL),
            seal_form: self.choice(SealForm::ALL),
            has_snap_ring_groove: self.choice(&[false, true]),
            ..Traits::default()
        };
        let mut number = || {
            let [is_there, value]: [u8; 2] = super::pages::array(self.take(2));
            (is_there == 1).then_some(value)
        };
        Traits {
            contact_angle: number().map(ContactAngle),
            rows: number(),
            ..traits
        }
    }

    /// Preload class, arrangement, cage, material, hardness and variant.
    fn texts_of_traits(&mut self) -> [Option<&'a str>; 6] {
        let there = self.byte();
        std::array::from_fn(|at| (there & (1 << at) != 0).then(|| self.text_in_place()))
    }
}

/// Traits that are looked at to see how well a part agrees with a question, texts where they stand.
#[derive(Debug)]
pub struct TraitsInPlace<'a> {
    /// Those that are no texts.
    pub plain: Traits,
    pub arrangement: Option<&'a str>,
    pub material: Option<&'a str>,
    pub variant: Option<&'a str>,
    /// How many suffixes no standard explains.
    pub unknown_suffixes: usize,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::designation::Designation;
    use crate::standard;

    #[test]
    fn what_was_written_is_read_again() {
        let suffixed = [
            "6205-2RS C3 XY9",
            "7208B DB",
            "NU205 C4 P5",
            "40x62x8 AS FKM",
            "6308 NR",
        ];
        let parsed = suffixed.iter().filter_map(|name| Designation::parse(name));
        let all = standard::parts()
            .iter()
            .map(|row| row.traits.clone())
            .chain(parsed.map(|d| d.traits));
        for traits in all {
            let ratings = LoadRatings {
                dynamic_kn: Some(19.5),
                static_kn: None,
                source: Some("Müller, 3rd edition".to_owned()),
            };
            let mut out = Out::default();
            out.traits(&traits);
            out.ratings(Some(&ratings));
            out.ratings(None);
            out.count(70_000);
            out.family(Some(Family::DowelPin));
            let mut read = In::new(&out.0);
            assert_eq!(read.traits(), traits);
            assert_eq!(read.ratings(), Some(ratings));
            assert_eq!(read.ratings(), None);
            assert_eq!(read.count(), 70_000);
            assert_eq!(read.family(), Some(Family::DowelPin));
            assert!(!read.is_short && read.take(1).is_empty());
            let mut read = In::new(&out.0);
            let seen = read.traits_in_place();
            read.skip_ratings();
            read.skip_ratings();
            assert_eq!((read.count(), read.is_short), (70_000, false));
            assert_eq!(
                [seen.arrangement, seen.material, seen.variant],
                [&traits.arrangement, &traits.material, &traits.variant].map(Option::as_deref)
            );
            assert_eq!(seen.unknown_suffixes, traits.unknown_suffixes.len());
            let without_texts = Traits {
                preload_class: None,
                arrangement: None,
                cage: None,
                material: None,
                hardness: None,
                variant: None,
                unknown_suffixes: Vec::new(),
                ..traits
            };
            assert_eq!(seen.plain, without_texts);
            for end in 0..out.0.len() {
                let mut cut = In::new(&out.0[..end]);
                cut.traits();
                cut.ratings();
                cut.ratings();
                cut.count();
                cut.family();
                assert!(cut.is_short, "cut at {end}");
            }
        }
    }
}

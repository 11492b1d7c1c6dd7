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
        let plain = self.plain_traits();
        let texts = self.texts_of_traits().map(|text| text.map(str::to_owned));
        let [
            preload_class,
            arrangement,
            cage,
            material,
            hardness,
            variant,
        ] = texts;
        Traits {
            closure: plain.closure,
            clearance: plain.clearance,
            tolerance_class: plain.tolerance_class,
            contact_angle: plain.contact_angle,
            rib_form: plain.rib_form,
            bore_form: plain.bore_form,
            has_snap_ring_groove: plain.has_snap_ring_groove,
            rows: plain.rows,
            preload_class,
            arrangement,
            cage,
            seal_form: plain.seal_form,
            material,
            hardness,
            variant,
            unknown_suffixes: self.texts(),
        }
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

    fn plain_traits(&mut self) -> PlainTraits {
        let (closure, clearance) = (self.choice(Closure::ALL), self.choice(Clearance::ALL));
        let tolerance_class = self.choice(ToleranceClass::ALL);
        let (rib_form, bore_form) = (self.choice(RibForm::ALL), self.choice(BoreForm::ALL));
        let seal_form = self.choice(SealForm::ALL);
        let has_snap_ring_groove = self.choice(&[false, true]);
        let mut number = || {
            let [is_there, value]: [u8; 2] = super::pages::array(self.take(2));
            (is_there == 1).then_some(value)
        };
        PlainTraits {
            closure,
            clearance,
            tolerance_class,
            rib_form,
            bore_form,
            seal_form,
            has_snap_ring_groove,
            contact_angle: number().map(ContactAngle),
            rows: number(),
        }
    }

    /// Preload class, arrangement, cage, material, hardness and variant.
    fn texts_of_traits(&mut self) -> [Option<&'a str>; 6] {
        let there = self.byte();
        std::array::from_fn(|at| (there & (1 << at) != 0).then(|| self.text_in_place()))
    }
}

/// Traits that are no texts, as [`Traits`] has them.
#[derive(Debug, Clone, Copy)]
pub struct PlainTraits {
    /// How it is closed.
    pub closure: Option<Closure>,
    /// Radial internal clearance.
    pub clearance: Option<Clearance>,
    /// Tolerance class.
    pub tolerance_class: Option<ToleranceClass>,
    /// Ribs of a cylindrical roller bearing.
    pub rib_form: Option<RibForm>,
    /// Cylindrical or tapered bore.
    pub bore_form: Option<BoreForm>,
    /// Form of a lip seal.
    pub seal_form: Option<SealForm>,
    /// Snap-ring groove in the outer ring.
    pub has_snap_ring_groove: Option<bool>,
    /// Contact angle.
    pub contact_angle: Option<ContactAngle>,
    /// Number of rows of rolling elements.
    pub rows: Option<u8>,
}

/// Traits that are looked at to see how well a part agrees with a question, texts where they stand.
#[derive(Debug, Clone, Copy)]
pub struct TraitsInPlace<'a> {
    /// Those that are no texts.
    pub plain: PlainTraits,
    /// Arrangement of a set.
    pub arrangement: Option<&'a str>,
    /// Elastomer or another material.
    pub material: Option<&'a str>,
    /// The part of a standard's series that a size alone does not tell.
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
            let PlainTraits {
                closure, clearance, ..
            } = seen.plain;
            assert_eq!((closure, clearance), (traits.closure, traits.clearance));
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

//! Any text into every reader of one value: an answer or a typed error, never a panic.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sparewright::import::family_in;
use sparewright::lookup::Question;
use sparewright::part::NameKey;
use sparewright::part::designation::Designation;
use sparewright::units::{LengthUnit, UnitOfCount, read_length, read_size};

fuzz_target!(|text: &str| {
    let _ = read_length(text, LengthUnit::Mm);
    let _ = read_size(text, LengthUnit::Inch);
    let _ = UnitOfCount::read(text);
    let _ = family_in(text);
    let _ = NameKey::new(text);
    if let Some(designation) = Designation::parse(text) {
        assert_eq!(designation.printed, text.trim(), "a designation keeps what was printed");
        let _ = sparewright::standard::resolve(&designation);
    }
    let _ = Question::read(text);
});

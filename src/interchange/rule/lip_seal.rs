//! Form of a rotary shaft lip seal: outside of rubber or metal, dust lip or none.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::SealForm;

const SOURCE: &str = "DIN 3760 and DIN 3761-2; common practice, no source, for the direction";

/// What a lip seal asks of its seats: public notes citing DIN 3760 and ISO 6194-1.
pub const LIP_SEAT: &str = "shaft under the lip h11, ground without lead, Ra 0.2 to 0.8 µm, 45 HRC or more, and housing bore H8 (DIN 3760, ISO 6194-1)";
/// What to do about the track of the old lip: common practice, no source.
pub const LIP_TRACK: &str = "track of the old lip on the shaft: set the new lip 1 to 2 mm beside it (another width or a spacer ring), or sleeve the shaft";
/// Least hardness of a shaft under a lip, HRC.
const LEAST_HRC: f64 = 45.0;

/// Looks at the hardness of the shaft under a lip, where it is given.
pub fn judge_shaft(want: &Subject, have: &Subject, findings: &mut Findings) {
    let Some(hrc) = want.needs.shaft_hrc else {
        return;
    };
    if !(have.family).is_some_and(|family| family.facts().exchange.has_lip()) {
        return;
    }
    findings.looks_at(Need::ShaftHardness);
    if hrc >= LEAST_HRC {
        findings.agrees(format!("shaft of {hrc} HRC is hard enough under a lip"));
        return;
    }
    let effect = "the lip wears a track into a soft shaft: harden or sleeve it";
    findings.differs(
        Bar::Check,
        Difference {
            what: "shaft hardness",
            have: format!("shaft of {hrc} HRC"),
            want: "45 HRC or more under a lip".to_owned(),
            effect: effect.to_owned(),
            source: "public notes citing DIN 3760 and ISO 6194-1",
        },
    );
    findings.check(effect);
}

/// Looks at the dust lip where nothing is known of the outside that was asked for.
fn judge_lip_alone(want: &Subject, have: &Subject, findings: &mut Findings) {
    let asked = want.needs.has_dust_lip;
    let (Some(wanted), Some(form)) = (asked, have.traits.seal_form) else {
        return;
    };
    let (bar, of, effect) = match (wanted, form.has_dust_lip()) {
        (true, false) => (
            Bar::Never,
            "a form with dust lip (AS, BS, CS)",
            "no dust lip where one kept the dirt from the sealing lip",
        ),
        (false, true) => (
            Bar::Check,
            "a form without dust lip (A, B, C)",
            "a dust lip adds friction and needs its own track and grease",
        ),
        _ => return,
    };
    findings.differs(
        bar,
        Difference {
            what: "seal form",
            have: form.to_string(),
            want: of.to_owned(),
            effect: effect.to_owned(),
            source: SOURCE,
        },
    );
}

/// Compares the forms of lip seals.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let has_forms = (want.family).is_some_and(|family| family.facts().marks.has_seal_forms);
    if !has_forms || have.family != want.family {
        return;
    }
    let (Some(wanted), Some(at_hand)) = (want.traits.seal_form, have.traits.seal_form) else {
        findings.unknown("seal form (A, B, C; S with dust lip)");
        judge_lip_alone(want, have, findings);
        return;
    };
    if wanted == at_hand {
        findings.agrees(format!("seal form: {wanted}"));
        return;
    }
    let difference = |effect: &str| Difference {
        what: "seal form",
        have: at_hand.to_string(),
        want: wanted.to_string(),
        effect: effect.to_owned(),
        source: SOURCE,
    };
    if wanted.has_dust_lip() && !at_hand.has_dust_lip() {
        findings.differs(
            Bar::Never,
            difference("no dust lip where one kept the dirt from the sealing lip"),
        );
        return;
    }
    if at_hand.has_dust_lip() && !wanted.has_dust_lip() {
        findings.differs(
            Bar::Check,
            difference("a dust lip adds friction and needs its own track and grease"),
        );
        findings.check("room, shaft speed and grease for the dust lip");
    }
    let is_rubber = |form: SealForm| matches!(form, SealForm::A | SealForm::As);
    if is_rubber(wanted) != is_rubber(at_hand) {
        let effect = if is_rubber(at_hand) {
            "rubber outside: forgives a worn bore, grips less in a hot housing"
        } else {
            "metal outside: needs a sound bore, leaks past scratches"
        };
        findings.differs(Bar::Check, difference(effect));
        findings.check("condition and finish of the housing bore");
    } else if wanted.has_dust_lip() == at_hand.has_dust_lip() {
        findings.differs(Bar::Check, difference("another metal case"));
        findings.check("depth of the housing bore for the other case");
    }
}

#[cfg(test)]
mod tests {
    use crate::interchange::{Subject, Verdict, judge};
    use crate::part::SealForm;
    use crate::standard;

    #[test]
    fn a_dust_lip_is_looked_at_where_the_outside_is_not_known() {
        // DIN 3760: S is the dust lip; that a seal without must not replace one with it: common practice, no source.
        let verdict = |has_lip, form| {
            let row = standard::find("40x62x8").unwrap();
            let (mut want, mut have) = (Subject::of_standard(row), Subject::of_standard(row));
            want.needs.has_dust_lip = Some(has_lip);
            have.traits.seal_form = Some(form);
            judge(&want, &have).verdict
        };
        for form in [SealForm::A, SealForm::B, SealForm::C] {
            assert_eq!(verdict(true, form), Verdict::MustNot, "{form}");
            assert_ne!(verdict(false, form), Verdict::MustNot, "{form}");
        }
        for form in [SealForm::As, SealForm::Bs, SealForm::Cs] {
            assert_ne!(verdict(true, form), Verdict::MustNot, "{form}");
            assert_ne!(verdict(false, form), Verdict::MustNot, "{form}");
        }
    }
}

//! The outside of a part, whatever its family calls its dimensions.

use super::size::SizeKey;
use crate::units::Length;

impl SizeKey {
    /// Inner and outer diameter; for O-rings the outer one is inside diameter plus two sections.
    pub fn diameters(&self) -> Option<(Length, Length)> {
        let shape = &self.family().facts().shape;
        let (inner, outer) = (self.length_at(0)?, self.length_at(shape.outer_place)?);
        if !shape.is_outer_section {
            return Some((inner, outer));
        }
        let outside_nm = inner.as_nm() + 2 * outer.as_nm();
        Some((inner, Length::from_nm(outside_nm).ok()?))
    }

    /// Inner and outer diameter and width, where the part has all three.
    pub fn envelope(&self) -> Option<(Length, Length, Length)> {
        let width = self.length_at(self.family().facts().shape.width_place?)?;
        let (inner, outer) = self.diameters()?;
        Some((inner, outer, width))
    }

    /// True where bore, outside diameter and width agree, whatever the families call them.
    pub fn has_envelope_of(&self, other: &Self) -> bool {
        self.envelope().is_some() && self.envelope() == other.envelope()
    }
}

#[cfg(test)]
mod tests {
    use super::super::family::{Dimension as D, Family};
    use super::*;

    #[test]
    fn places_are_those_of_the_dimensions_by_name() {
        const INNER: [D; 7] = [
            D::Bore,
            D::InnerRacewayDiameter,
            D::InsideDiameter,
            D::ShaftDiameter,
            D::ThreadDiameter,
            D::PinDiameter,
            D::HousingBore,
        ];
        const OUTER: [D; 5] = [
            D::OutsideDiameter,
            D::CageOutsideDiameter,
            D::OuterRacewayDiameter,
            D::HousingBore,
            D::Length,
        ];
        const WIDTH: [D; 3] = [D::Width, D::AssembledWidth, D::Height];
        for family in Family::ALL {
            let place = |names: &[D]| {
                let of = |name: &D| family.key_dimensions().iter().position(|one| one == name);
                names.iter().find_map(of)
            };
            assert_eq!(place(&INNER), Some(0), "{family}");
            assert_eq!(place(&WIDTH), family.facts().shape.width_place, "{family}");
            let section = place(&[D::Section]);
            assert_eq!(section.is_some(), family.facts().shape.is_outer_section);
            let outer = place(&OUTER).or(section).unwrap_or(0);
            assert_eq!(outer, family.facts().shape.outer_place, "{family}");
        }
    }

    #[test]
    fn an_o_ring_is_two_sections_wider_outside() {
        // Arithmetic: 31.34 + 2 * 3.53.
        let mm = |mm: f64| Length::from_mm(mm).unwrap();
        let ring = SizeKey::new(Family::ORing, &[mm(31.34), mm(3.53)]).unwrap();
        assert_eq!(ring.diameters(), Some((mm(31.34), mm(38.4))));
        assert_eq!(ring.envelope(), None);
    }
}

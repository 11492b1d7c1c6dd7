//! The outside of a part, whatever its family calls its dimensions.

use super::family::Dimension;
use super::size::SizeKey;
use crate::units::Length;

impl SizeKey {
    /// Inner and outer diameter; for O-rings the outer one is inside diameter plus two sections.
    pub fn diameters(&self) -> Option<(Length, Length)> {
        use Dimension as D;
        let first = |names: &[Dimension]| names.iter().find_map(|name| self.get(*name));
        if let (Some(inside), Some(section)) = (self.get(D::InsideDiameter), self.get(D::Section)) {
            let outside = Length::from_nm(inside.as_nm() + 2 * section.as_nm()).ok()?;
            return Some((inside, outside));
        }
        let inner = first(&[
            D::Bore,
            D::InnerRacewayDiameter,
            D::ShaftDiameter,
            D::ThreadDiameter,
            D::PinDiameter,
            D::HousingBore,
        ])?;
        let outer = first(&[
            D::OutsideDiameter,
            D::CageOutsideDiameter,
            D::OuterRacewayDiameter,
            D::HousingBore,
            D::Length,
        ])
        .unwrap_or(inner);
        Some((inner, outer))
    }

    /// Inner and outer diameter and width, where the part has all three.
    pub fn envelope(&self) -> Option<(Length, Length, Length)> {
        use Dimension as D;
        let (inner, outer) = self.diameters()?;
        let width = [D::Width, D::AssembledWidth, D::Height]
            .iter()
            .find_map(|name| self.get(*name))?;
        Some((inner, outer, width))
    }

    /// True where bore, outside diameter and width agree, whatever the families call them.
    pub fn has_envelope_of(&self, other: &Self) -> bool {
        self.envelope().is_some() && self.envelope() == other.envelope()
    }
}

//! Lines of rebuilds that ask for one part while one machine stands: it waits for all of them once.
//!
//! Two lines of a kit may ask for the same bearing, or two kits that are fitted on one day. Chosen for one after another,
//! each would be weighed with all of what the machine waits, and a dear quick offer taken for each where one slow order lets
//! it wait but once. So they are chosen for as one line of their sum.

use super::choice::OfferChoice;
use super::made_instead::MadeInstead;
use super::rebuild_need::RebuildNeed;
use super::tolerance::TOLERANCE;
use crate::record::OtherWay;
use crate::units::Money;

/// Needs that are chosen for as one.
#[derive(Debug)]
pub struct OneStop<'w> {
    /// Position of each in the plan's list of needs, with what it is short of.
    pub members: Vec<(usize, f64)>,
    /// The first of them, with the sum of what they need and are short of.
    pub need: RebuildNeed,
    /// Ways other than buying, the same for each.
    pub ways: Vec<&'w OtherWay>,
}

/// Needs that are short of something, those together that are of one stop, accept the same parts and know the same other ways.
pub fn by_stop<'w>(needs: &[RebuildNeed], ways: &[Vec<&'w OtherWay>]) -> Vec<OneStop<'w>> {
    let mut found: Vec<OneStop<'w>> = Vec::new();
    for (at, (need, ways)) in needs.iter().zip(ways).enumerate() {
        if need.short <= TOLERANCE {
            continue;
        }
        // Of one day, so that those of one stop are not far away.
        let of_day = found.iter_mut().rev();
        let mut of_day = of_day.take_while(|of| of.need.date == need.date);
        let member = (at, need.short);
        match of_day.find(|of| is_alike(of, need, ways)) {
            Some(of) => {
                of.members.push(member);
                of.need.needed += need.needed;
                of.need.short += need.short;
            }
            None => found.push(OneStop {
                members: vec![member],
                need: need.clone(),
                ways: ways.clone(),
            }),
        }
    }
    found
}

fn is_alike(of: &OneStop<'_>, need: &RebuildNeed, ways: &[&OtherWay]) -> bool {
    // What no table knows is never the same as something else.
    need.part.is_some()
        && of.need.part == need.part
        && of.need.stop == need.stop
        && of.need.accepted == need.accepted
        && of.need.unit == need.unit
        && of.ways.len() == ways.len()
        && of.ways.iter().zip(ways).all(|(a, b)| a.place == b.place)
}

/// Shares what is made for a stop among its members in their order, and takes it from what they are short of.
pub fn share(made: Vec<MadeInstead>, members: &mut [(usize, f64)]) -> Vec<MadeInstead> {
    let mut shared = Vec::new();
    for of in made {
        let mut left = of.quantity;
        for (need, short) in members.iter_mut() {
            let quantity = short.min(left);
            if quantity <= TOLERANCE {
                continue;
            }
            *short -= quantity;
            left -= quantity;
            let part = quantity / of.quantity;
            let instead_of = of.instead_of.as_ref();
            shared.push(MadeInstead {
                need: *need,
                quantity,
                cost: of.cost.map(|cost| part_of(cost, part)),
                instead_of: instead_of.map(|choice| share_of(choice, part)),
                ..of.clone()
            });
        }
    }
    shared
}

fn part_of(money: Money, part: f64) -> Money {
    Money {
        cents: (money.cents as f64 * part).round() as i64,
        ..money
    }
}

/// A part of what would have been ordered.
fn share_of(choice: &OfferChoice, part: f64) -> OfferChoice {
    OfferChoice {
        ordered: choice.ordered * part,
        gives: choice.gives * part,
        cost: choice.cost.map(|cost| part_of(cost, part)),
        surcharge: part_of(choice.surcharge, part),
        freight: part_of(choice.freight, part),
        waiting: choice.waiting.map(|waiting| part_of(waiting, part)),
        ..choice.clone()
    }
}

#[cfg(test)]
mod tests {
    use crate::plan::Plan;
    use crate::plan::order_worth::{OrderWorth, order_worths};
    use crate::plan::sample::{Sample, euros, price, workdays};
    use crate::record::OtherWayKind;

    /// A rebuild of M1 on Friday 6 March that needs four of a part, in kits of lines of so many: Alpha has it for 10.00 in
    /// five working days, Beta for 60.00 in one.
    fn rebuild(hour: f64, kits: &[&[f64]]) -> Sample {
        let mut sample = Sample::new("");
        sample.supplier("Alpha", |_| {});
        sample.supplier("Beta", |_| {});
        sample.machine("M1", Some(hour), None);
        let part = sample.part("A");
        for (name, days, each) in [("Alpha", 5.0, 10.0), ("Beta", 1.0, 60.0)] {
            sample.offer(part, name, workdays(days), |offer| {
                offer.price = price(each);
            });
        }
        for (at, lines) in kits.iter().enumerate() {
            sample.kit(&format!("K{at}"));
            for quantity in *lines {
                sample.line(Some(part), *quantity, &[], |_| {});
            }
            sample.planned("2026-03-06");
        }
        sample
    }

    fn worths(sample: &Sample, plan: &Plan) -> Vec<Option<OrderWorth>> {
        let lines: Vec<_> = plan.reorder.lines.iter().collect();
        order_worths(&sample.built(), plan, &lines)
    }

    /// By the meaning of a stop: one machine that waits for four pieces waits once, however the kit is written.
    #[test]
    fn four_lines_of_one_are_as_one_line_of_four() {
        let ways_to_write: [&[&[f64]]; 4] = [
            &[&[1.0, 1.0, 1.0, 1.0]],
            &[&[3.0, 1.0]],
            &[&[2.0], &[2.0]],
            &[&[1.0], &[1.0, 2.0]],
        ];
        // An hour at 3.00: five working days end on Wednesday 11 March, three shifts of eight hours from the 6th on, and
        // eight in the late case, the 18th: 72 to 192 in money. Four of Beta cost 200 more, one of them 50 more. By hand.
        for hour in [0.01, 3.0, 30.0] {
            let one_line = rebuild(hour, &[&[4.0]]);
            let once = one_line.plan();
            let worth = worths(&one_line, &once);
            let [line] = &once.reorder.lines[..] else {
                panic!("{:?}", once.reorder.lines);
            };
            for kits in ways_to_write {
                let sample = rebuild(hour, kits);
                let plan = sample.plan();
                let [found] = &plan.reorder.lines[..] else {
                    panic!("{hour} {kits:?}: {:?}", plan.reorder.lines);
                };
                let needs: f64 = found.needs.iter().map(|need| need.wanted).sum();
                assert!((needs - 4.0).abs() < 1e-9);
                assert_eq!(
                    found.needs.len(),
                    kits.iter().map(|of| of.len()).sum::<usize>()
                );
                assert_eq!(found.buy.supplier, line.buy.supplier, "{hour} {kits:?}");
                assert_eq!(found.buy.cost, line.buy.cost);
                assert_eq!(found.buy.waiting, line.buy.waiting);
                assert_eq!(worths(&sample, &plan), worth, "{hour} {kits:?}");
            }
        }
        let supplier = |hour: f64| {
            rebuild(hour, &[&[1.0; 4]]).plan().reorder.lines[0]
                .buy
                .clone()
        };
        assert_eq!(supplier(3.0).supplier, "Alpha");
        assert_eq!(supplier(30.0).supplier, "Beta");
        let worth = |hour: f64| {
            let sample = rebuild(hour, &[&[1.0; 4]]);
            worths(&sample, &sample.plan())[0].unwrap()
        };
        assert!(worth(30.0).waiting_h > 0.0);
    }

    #[test]
    fn two_machines_of_one_name_wait_each_for_itself() {
        let kits: &[&[f64]] = &[&[2.0], &[2.0]];
        let mut sample = rebuild(3.0, kits);
        assert_eq!(sample.plan().needs[1].stop, sample.plan().needs[0].stop);
        for machine in sample.shop.machines.values_mut() {
            machine.installed = Some(2.0);
        }
        let plan = sample.plan();
        assert_ne!(plan.needs[1].stop, plan.needs[0].stop);
        // So do rebuilds on two days.
        let mut sample = rebuild(3.0, &[&[2.0]]);
        sample.planned("2026-03-09");
        let plan = sample.plan();
        assert_ne!(plan.needs[1].stop, plan.needs[0].stop);
    }

    #[test]
    fn what_is_made_for_two_lines_is_shared_between_them() {
        let written = |lines: &[f64], quantity: Option<f64>| {
            let mut sample = rebuild(30.0, &[lines]);
            let part = sample.shop.kits[0].lines[0].part.unwrap();
            sample.way(OtherWayKind::MakeInHouse, |way| {
                way.hours = Some(1.0);
                way.cost = Some(euros(8.0));
                way.quantity = quantity;
            });
            // A way of the part, not of a line.
            let way = sample.shop.kits[0].lines.last_mut().unwrap();
            let way = way.other_ways.remove(0);
            sample.shop.other_ways.push((part, way));
            sample
        };
        for quantity in [None, Some(4.0)] {
            let plan = written(&[3.0, 1.0], quantity).plan();
            let made: Vec<(usize, f64, i64)> = plan
                .reorder
                .made
                .iter()
                .map(|of| (of.need, of.quantity, of.cost.unwrap().cents))
                .collect();
            // Three and one of the four for 8.00, as they are written.
            assert_eq!(made, [(0, 3.0, 600), (1, 1.0, 200)]);
            assert!(plan.reorder.lines.is_empty());
        }
        // One of four is made: the machine waits for the other three all the same, as it does for one line of four.
        let parted = written(&[1.0; 4], Some(1.0)).plan();
        let in_one = written(&[4.0], Some(1.0)).plan();
        let bought = |plan: &Plan| {
            let lines = plan.reorder.lines.iter();
            let each: Vec<(String, f64)> = lines
                .map(|line| (line.buy.supplier.clone(), line.buy.ordered))
                .collect();
            each
        };
        assert_eq!(bought(&parted), bought(&in_one));
        assert_eq!(parted.reorder.made.len(), in_one.reorder.made.len());
    }
}

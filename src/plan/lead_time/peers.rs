//! What suppliers tell of each other: each leans on its kind, and its kind on the shop.

use std::collections::BTreeMap;

use super::shrinkage::{Estimate, Pool, between};

/// Means of members (suppliers) and what the others say of each.
#[derive(Debug, Clone, Default)]
pub struct Peers {
    members: BTreeMap<String, Member>,
    groups: BTreeMap<String, Group>,
    /// Variance between the members of one group; `None` where there are no two.
    between_members: Option<f64>,
    /// Variance between groups; `None` where there is one group only.
    between_groups: Option<f64>,
    all_groups: Pool,
}

#[derive(Debug, Clone, Copy)]
struct Member {
    estimate: Estimate,
    observations: usize,
}

#[derive(Debug, Clone, Copy)]
struct Group {
    pool: Pool,
    estimate: Estimate,
    observations: usize,
}

/// What the others say of one member.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OthersSay {
    /// Mean to be expected of the member, scatter between members included.
    pub prior: Estimate,
    /// Observations of others behind it.
    pub observations: usize,
}

impl Peers {
    /// Takes the mean of each member with its observations, and the group of those that name one.
    pub fn new(
        estimates: &BTreeMap<String, (Estimate, usize)>,
        group_of: &BTreeMap<String, String>,
    ) -> Self {
        let group_name = |member: &str| group_of.get(member).map_or("", String::as_str);
        let mut families: BTreeMap<&str, Vec<(Estimate, usize)>> = BTreeMap::new();
        for (member, estimate) in estimates {
            families
                .entry(group_name(member))
                .or_default()
                .push(*estimate);
        }
        let lists: Vec<Vec<Estimate>> = families
            .values()
            .map(|family| family.iter().map(|(estimate, _)| *estimate).collect())
            .collect();
        let between_members = between(&lists);
        let scatter = between_members.unwrap_or(0.0);
        let mut groups = BTreeMap::new();
        for (name, family) in &families {
            let mut pool = Pool::default();
            for (estimate, _) in family {
                pool.add(*estimate, scatter);
            }
            let observations = family.iter().map(|(_, observations)| observations).sum();
            if let Some(estimate) = pool.estimate() {
                let group = Group {
                    pool,
                    estimate,
                    observations,
                };
                groups.insert((*name).to_owned(), group);
            }
        }
        let means: Vec<Estimate> = groups.values().map(|group| group.estimate).collect();
        let between_groups = between(&[means]);
        let mut all_groups = Pool::default();
        for group in groups.values() {
            all_groups.add(group.estimate, between_groups.unwrap_or(0.0));
        }
        Self {
            members: estimates
                .iter()
                .map(|(name, (estimate, observations))| {
                    let member = Member {
                        estimate: *estimate,
                        observations: *observations,
                    };
                    (name.clone(), member)
                })
                .collect(),
            groups,
            between_members,
            between_groups,
            all_groups,
        }
    }

    /// What the others say of a member, known or not, of a group; `None` where there is nobody to lean on.
    pub fn say_of(&self, member: &str, group: &str) -> Option<OthersSay> {
        let scatter = self.between_members?;
        let own = self.members.get(member);
        let of_group = self.groups.get(group).and_then(|group| {
            let observations = group.observations - own.map_or(0, |own| own.observations);
            let pool = match own {
                Some(own) => group.pool.without(own.estimate, scatter),
                None => group.pool,
            };
            (observations > 0)
                .then(|| Some((pool.estimate()?, observations)))
                .flatten()
        });
        let of_others = self.between_groups.and_then(|between_groups| {
            let (pool, own) = match self.groups.get(group) {
                Some(group) => (
                    self.all_groups.without(group.estimate, between_groups),
                    group.observations,
                ),
                None => (self.all_groups, 0),
            };
            let all: usize = self.groups.values().map(|group| group.observations).sum();
            Some((pool.estimate()?.for_member(between_groups), all - own))
        });
        let (mean, observations) = match (of_group, of_others) {
            (Some((near, close)), Some((far, others))) => (near.and(far), close + others),
            (Some(only), None) | (None, Some(only)) => only,
            (None, None) => return None,
        };
        Some(OthersSay {
            prior: mean.for_member(scatter),
            observations,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn peers(means: &[(&str, f64)], groups: &[(&str, &str)]) -> Peers {
        let estimates = means
            .iter()
            .map(|(name, mean)| {
                let estimate = Estimate {
                    mean: *mean,
                    variance: 0.01,
                };
                ((*name).to_owned(), (estimate, 3))
            })
            .collect();
        let groups = groups
            .iter()
            .map(|(member, group)| ((*member).to_owned(), (*group).to_owned()))
            .collect();
        Peers::new(&estimates, &groups)
    }

    #[test]
    fn a_supplier_is_expected_where_the_others_are_and_not_where_it_is_itself() {
        let peers = peers(&[("a", 1.0), ("b", 1.2), ("c", 3.0)], &[]);
        let of_c = peers.say_of("c", "").unwrap();
        assert!((of_c.prior.mean - 1.1).abs() < 1e-9);
        assert_eq!(of_c.observations, 6);
        let of_new = peers.say_of("new", "").unwrap();
        assert!(of_new.prior.mean > 1.5 && of_new.observations == 9);
    }

    #[test]
    fn one_supplier_alone_has_nobody_to_lean_on() {
        assert_eq!(peers(&[("a", 1.0)], &[]).say_of("a", ""), None);
        assert_eq!(peers(&[], &[]).say_of("a", ""), None);
    }

    #[test]
    fn a_supplier_leans_on_its_kind_more_than_on_other_kinds() {
        let groups = [
            ("a", "local"),
            ("b", "local"),
            ("c", "importer"),
            ("d", "importer"),
            ("e", "importer"),
        ];
        let means = [("a", 1.0), ("b", 1.1), ("c", 4.0), ("d", 4.1), ("e", 4.2)];
        let peers = peers(&means, &groups);
        let local = peers.say_of("new", "local").unwrap();
        let importer = peers.say_of("new", "importer").unwrap();
        assert!((local.prior.mean - 1.05).abs() < 0.1, "{local:?}");
        assert!((importer.prior.mean - 4.1).abs() < 0.1, "{importer:?}");
        let unknown = peers.say_of("new", "").unwrap();
        assert!(unknown.prior.variance > local.prior.variance * 10.0);
    }
}

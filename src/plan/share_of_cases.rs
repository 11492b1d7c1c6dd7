//! A share of cases in words, which never says that something holds in all of them.

/// From here on one decimal would say 100.0 %.
const NEARLY_ALL: f64 = 0.9995;

/// `99.1 %`, and `over 99.9 %` where that would round to all: a demand that is one of chance may always be more.
pub fn share_of_cases(share: f64) -> String {
    if share >= NEARLY_ALL {
        return "over 99.9 %".to_owned();
    }
    format!("{:.1} %", 100.0 * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nearly_all_cases_are_never_all() {
        for (share, words) in [
            (0.9, "90.0 %"),
            (0.9994, "99.9 %"),
            (0.99951, "over 99.9 %"),
            (0.999_999, "over 99.9 %"),
            (1.0, "over 99.9 %"),
        ] {
            assert_eq!(share_of_cases(share), words);
        }
    }
}

//! Lines of the tables of words that come with the program, `data/import`.

/// Lines of a shipped table of three columns, without comments and the heading.
pub fn lines(
    text: &'static str,
) -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    text.lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .skip(1)
        .filter_map(|line| {
            let (first, rest) = line.split_once(',')?;
            let (second, third) = rest.split_once(',')?;
            Some((first, second, third))
        })
}

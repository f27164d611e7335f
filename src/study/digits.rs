//! Numbers of combinations: which value each of several lists takes.

/// The digits of a number in places of given sizes, from the place that turns fastest on.
pub(super) fn digits(
    number: usize,
    sizes: impl Iterator<Item = usize>,
) -> impl Iterator<Item = usize> {
    let mut rest = number;
    sizes.map(move |size| {
        let digit = rest % size;
        rest /= size;
        digit
    })
}

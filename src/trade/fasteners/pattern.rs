//! The order in which the fasteners of a joint are tightened.

/// The places of a ring of `count` fasteners, numbered from 1 around it, in the order in which they are tightened
/// crosswise: each next one lies about opposite the one before, so that the joint closes evenly.
///
/// - An even ring: the order of its first half, each followed by the one opposite. Rings of 4, 8, 12 and so on: the
///   star pattern.
/// - An odd ring, which has no opposites: every one that lies (`count` - 1) / 2 further, the longest way there is.
///
/// No place is left out and none comes twice. From five fasteners on, no two neighbours follow each other.
///
/// Source: the legacy star pattern of ASME PCC-1 (from memory); odd rings and six: common practice.
///
/// ```
/// use bayhand::trade::fasteners::cross_order;
///
/// assert_eq!(cross_order(8), [1, 5, 3, 7, 2, 6, 4, 8]);
/// assert_eq!(cross_order(5), [1, 3, 5, 2, 4]);
/// ```
pub fn cross_order(count: usize) -> Vec<usize> {
    let mut ring = count;
    while ring > 0 && ring.is_multiple_of(2) {
        ring /= 2;
    }
    let mut order = odd_ring(ring);
    while ring < count {
        order = order.into_iter().flat_map(|place| [place, place + ring]).collect();
        ring *= 2;
    }
    order
}

/// Every place that lies (count - 1) / 2 further: this and an odd count have no common factor, so each comes once.
fn odd_ring(count: usize) -> Vec<usize> {
    let hop = count.saturating_sub(1) / 2;
    (0..count).map(|turn| turn * hop % count + 1).collect()
}

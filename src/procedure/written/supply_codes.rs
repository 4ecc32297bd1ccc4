//! What can be wrong with a material or a part.

use crate::source::Code;

/// A price of nobody knows how much.
pub static PRICE_UNCLEAR: Code = Code {
    name: "price-unclear",
    summary: "a price does not say of how much",
    teaching: "\
A price is that of one pack, or of one piece where pieces are counted. Of something that is measured, the price
alone says nothing: of a litre, of a can?

Wrong: `amount = '4 L'` with `price = 14.50` alone

Right: `amount = '4 L'`, `pack = \"1 L\"`, `price = 14.50`: four packs for 58 in the shop's currency
",
};

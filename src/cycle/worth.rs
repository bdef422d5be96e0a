//! What a piece has cost by the time it comes to an operation: its stock, and the machine time and edges put in.

use super::bar::bar_share;
use super::estimate::OperationEstimate;
use super::item::{Item, Making, Shop, Stock};
use crate::quantity::{Money, MoneyRate};

/// Price of the stock of a piece; nothing where no price is given.
#[must_use]
pub fn stock_worth(shop: &Shop, item: &Item) -> Money {
    let Making::Part { material, length, stock, .. } = &item.making else { return Money::ZERO };
    match stock {
        Stock::Each { price, .. } => price.unwrap_or(Money::ZERO),
        Stock::Bar(bar) => {
            let (Some(price), Some(length)) = (bar.price_per_kg, length) else { return Money::ZERO };
            let share = bar_share(bar, *length, shop.materials[*material].density.value);
            price * share.bar_mass.to_kg() / f64::from(share.pieces.max(1))
        }
    }
}

/// What an operation adds to the worth of a piece on the machine where that is least; machines without a rate add nothing.
#[must_use]
pub fn added_worth(shop: &Shop, machines: &[OperationEstimate]) -> Money {
    let added = |estimate: &OperationEstimate| {
        let rate = shop.machines[estimate.machine].rate.unwrap_or(MoneyRate::ZERO);
        rate.over(estimate.cycle) + estimate.tooling_cost().unwrap_or(Money::ZERO)
    };
    machines.iter().map(added).min_by(|a, b| a.amount().total_cmp(&b.amount())).unwrap_or(Money::ZERO)
}

//! An order in which to lay the belt round the wheels, so that all slack ends in the tensioner's run.
//!
//! Must not know: how long anything is.

use crate::drive::Drive;
use alloc::vec::Vec;

/// Indices of all wheels in the order to lay the belt on: the crank, then back along the belt from it,
/// against the travel, since that run must lie taut; then from the crank the other way, where sprockets
/// stand before the tensioner; then the smooth wheels of the tensioner's run; the tensioner last.
pub fn thread_order(drive: &Drive) -> Vec<usize> {
    let wheels = drive.wheels().len();
    let last = drive.tensioner().wheel;
    let sprocket = |i: &usize| drive.wheels()[*i].teeth().is_some();
    // The tensioner is never the crank, wheel 0, so there is one before it.
    let before = (0..last).rev().find(sprocket).unwrap_or(0);
    let after = (last + 1..wheels).find(sprocket).unwrap_or(wheels);
    let mut order = Vec::with_capacity(wheels);
    order.push(0);
    order.extend((after..wheels).rev());
    order.extend(1..=before);
    order.extend(before + 1..last);
    order.extend((last + 1..after).rev());
    order.push(last);
    order
}

//! Wherever a file names a wheel.
//!
//! Must not know: how wheels are laid out.

use super::steps::{entries, entry};
use crate::key::{Key, Kind, Presence};
use toml_edit::TableLike;

/// Whether `path` is a wheel's own id.
pub(super) fn is_wheel_id(path: &str) -> bool {
    path.starts_with("wheel[") && path.ends_with("].id")
}

/// How many wheels have this id.
pub(super) fn wheels_called(document: &mut dyn TableLike, id: &str) -> usize {
    let Some(wheels) = document.get_mut("wheel") else { return 0 };
    let count = entries(wheels);
    let called = |at: &usize| {
        let wheel = entry(wheels, *at);
        wheel.and_then(|wheel| wheel.get("id")).and_then(|item| item.as_str()) == Some(id)
    };
    (0..count).filter(called).count()
}

/// Names `new` wherever `old` is named.
pub(super) fn rename(table: &mut dyn TableLike, keys: &[Key], old: &str, new: &str) {
    for key in keys {
        let Some(item) = table.get_mut(key.name) else { continue };
        match key.kind {
            Kind::WheelId if item.as_str() == Some(old) => {
                super::put::put(table, key.name, new.into());
            }
            Kind::Table(below) => {
                if let Some(inner) = item.as_table_like_mut() {
                    rename(inner, below, old, new);
                }
            }
            Kind::Tables { keys: below, .. } => {
                for at in 0..entries(item) {
                    if let Some(inner) = entry(item, at) {
                        rename(inner, below, old, new);
                    }
                }
            }
            _ => {}
        }
    }
}

/// Takes away what cannot be without the wheel `id`: entries of lists that must name one, and keys that
/// may. A tensioner goes on naming it, so that reading tells.
pub(super) fn forget(table: &mut dyn TableLike, keys: &[Key], id: &str) {
    for key in keys {
        let Some(item) = table.get_mut(key.name) else { continue };
        match key.kind {
            Kind::WheelId if key.presence == Presence::Optional && item.as_str() == Some(id) => {
                table.remove(key.name);
            }
            Kind::Table(below) => {
                if let Some(inner) = item.as_table_like_mut() {
                    forget(inner, below, id);
                }
            }
            Kind::Tables { keys: below, .. } => {
                for at in (0..entries(item)).rev() {
                    let Some(inner) = table.get_mut(key.name).and_then(|item| entry(item, at))
                    else {
                        continue;
                    };
                    if must_name(inner, below, id) {
                        // It is there: nothing to be refused.
                        let _ = super::list::remove(table, key.name, at, key.name);
                    } else {
                        forget(inner, below, id);
                    }
                }
            }
            _ => {}
        }
    }
}

fn must_name(table: &dyn TableLike, keys: &[Key], id: &str) -> bool {
    let naming = |key: &&Key| key.kind == Kind::WheelId && key.presence == Presence::Required;
    keys.iter()
        .filter(naming)
        .any(|key| table.get(key.name).and_then(|item| item.as_str()) == Some(id))
}

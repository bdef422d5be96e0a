//! Catalog entries: found by key, laid over by the scenario's own, based on another by `like`.

use super::built_in::BuiltIn;
use super::tree::{Table, Value, merge};
use super::{Spanned, read};
use crate::diag::{Code, Diagnostic, Diagnostics, Span, nearest};

/// One kind of entries: the built-in ones and the scenario's own.
#[derive(Debug)]
pub(super) struct Shelf<'t> {
    /// What they are, for messages: `tool`.
    what: &'static str,
    built_in: &'t BuiltIn,
    own: Option<&'t Table>,
}

/// Longest chain of `like`.
const LONGEST_CHAIN: usize = 16;

impl<'t> Shelf<'t> {
    /// The shelf of a kind in the catalogs and in the scenario.
    pub(super) fn new(what: &'static str, built_in: &'t BuiltIn, scenario: &'t Table) -> Self {
        Self { what, built_in, own: sub_table(scenario, what) }
    }

    /// The shelf of a kind in the catalogs alone.
    pub(super) fn built_in(what: &'static str, built_in: &'t BuiltIn) -> Self {
        Self { what, built_in, own: None }
    }

    /// The scenario's own keys, in the order of the file.
    pub(super) fn own_keys(&self) -> Vec<Spanned<String>> {
        keys(self.own)
    }

    /// All keys: the built-in ones, then the scenario's own that are new.
    pub(super) fn all_keys(&self) -> Vec<Spanned<String>> {
        let mut all = self.built_in.keys(self.what);
        for own in keys(self.own) {
            if !all.iter().any(|known| known.value == own.value) {
                all.push(own);
            }
        }
        all
    }

    /// Whether another entry of the scenario is like this one.
    pub(super) fn is_base(&self, key: &str) -> bool {
        let own = self.own.map_or(&[][..], |own| &own.entries);
        own.iter().filter(|entry| entry.key != key).any(|entry| {
            matches!(&entry.node.value, Value::Table(table)
                if table.get("like").is_some_and(|like| matches!(&like.node.value, Value::Text(text) if text == key)))
        })
    }

    /// The entry of a key with all that it is based on, or `None` after a mistake is reported at the place that names it.
    pub(super) fn entry(&self, key: &str, named_at: Span, diagnostics: &mut Diagnostics) -> Option<Table> {
        let mut name = Spanned { value: key.to_owned(), span: named_at };
        let mut layers: Vec<Table> = Vec::new();
        for _ in 0..LONGEST_CHAIN {
            let own = self.own.and_then(|own| sub_table(own, &name.value)).cloned();
            let built_in = self.built_in.entry(self.what, &name.value, diagnostics);
            // An own entry lies over the built-in one of the same key.
            let (layer, below) = match (own, built_in) {
                (Some(own), below) => (own, below),
                (None, Some(built_in)) => (built_in, None),
                (None, None) => {
                    diagnostics.push(self.unknown(&name));
                    return None;
                }
            };
            let like = layer.get("like").map(|entry| (read::name(&entry.node), entry.node.span));
            layers.push(without_like(layer));
            match like {
                // Like the built-in one of the same key: nothing else than lying over it.
                Some((Ok(like), span)) if like != name.value || below.is_none() => {
                    name = Spanned { value: like, span };
                }
                Some((Err(mistakes), _)) => {
                    diagnostics.extend(mistakes);
                    return None;
                }
                Some((Ok(_), _)) | None => {
                    // The built-in entry that an own one lies over may itself be like another.
                    let further = below
                        .as_ref()
                        .and_then(|below| below.get("like"))
                        .and_then(|like| Some((read::name(&like.node).ok()?, like.node.span)));
                    layers.extend(below.map(without_like));
                    let Some((value, span)) = further else { return stack(layers) };
                    name = Spanned { value, span };
                }
            }
        }
        diagnostics.push(
            Diagnostic::new(Code::Route, format!("`like` of {} `{key}` leads round in a circle", self.what))
                .at(name.span, "based on this"),
        );
        None
    }

    fn unknown(&self, name: &Spanned<String>) -> Diagnostic {
        let all = self.all_keys();
        let near = nearest(&name.value, all.iter().map(|known| known.value.as_str()));
        let diagnostic =
            Diagnostic::new(Code::UnknownName, format!("no {} is called `{}`", self.what, name.value))
                .at(name.span, "not found");
        match near {
            Some(near) => diagnostic.did_you_mean(Some(near)),
            None if !self.built_in.keys(self.what).is_empty() => {
                diagnostic.help(format!("list what there is: wearland catalog {}", self.what))
            }
            None => diagnostic.help(format!("add a table [{}.{}]", self.what, name.value)),
        }
    }
}

/// A table of the root, if it is one; other values are reported where the root is read.
pub(super) fn sub_table<'t>(root: &'t Table, key: &str) -> Option<&'t Table> {
    match root.get(key).map(|entry| &entry.node.value) {
        Some(Value::Table(table)) => Some(table),
        _ => None,
    }
}

/// The keys of a table as names, with their places.
pub(super) fn keys(table: Option<&Table>) -> Vec<Spanned<String>> {
    table.map_or_else(Vec::new, |table| {
        table.entries.iter().map(|entry| Spanned { value: entry.key.clone(), span: entry.key_span }).collect()
    })
}

fn without_like(mut table: Table) -> Table {
    table.entries.retain(|entry| entry.key != "like");
    table
}

/// The first layer on top. A designation tells corner and edges: where a layer gives its own, the one below no longer holds.
fn stack(layers: Vec<Table>) -> Option<Table> {
    layers.into_iter().rev().reduce(|mut below, above| {
        let another = ["corner_radius", "edges"].iter().any(|key| above.get(key).is_some());
        if another && above.get("designation").is_none() {
            below.entries.retain(|entry| entry.key != "designation");
        }
        merge(&below, &above)
    })
}

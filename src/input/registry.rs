//! Names turned into places in the lists of the shop; each entry is read once, when it is first named.

use super::Purpose;
use super::built_in::BuiltIn;
use super::catalog::{Shelf, sub_table};
use super::firm;
use super::machine::{Around, ReadMachine, StandsFor, machine};
use super::tree::{Table, Value};
use super::{Spanned, material, replacement, tool};
use crate::cycle::Shop;
use crate::diag::Diagnostics;
use crate::tooling::{ChangePolicy, Condition};
use std::collections::BTreeMap;

/// Lists of the shop as they fill, and what names stand for; `None` for a name already reported as wrong.
pub(super) struct Registry<'t> {
    pub(super) shop: Shop,
    pub(super) currency: String,
    /// What the scenario is read for.
    pub(super) purpose: Purpose,
    /// What machines stand set up for at the start, by name.
    pub(super) set_ups: Vec<(usize, StandsFor)>,
    materials: (Shelf<'t>, BTreeMap<String, Option<usize>>),
    tools: (Shelf<'t>, BTreeMap<String, Option<usize>>),
    conditions: (Shelf<'t>, BTreeMap<String, Option<Condition>>),
    machines: BTreeMap<String, Option<usize>>,
    coolants: BTreeMap<String, Option<usize>>,
    firms: BTreeMap<String, Option<usize>>,
    /// The firms' tables, as they stand among `shop.firms`.
    firm_places: Vec<Spanned<String>>,
}

impl<'t> Registry<'t> {
    /// Shelves of the catalogs and the scenario; coolants are all read, since life tables name them too.
    pub(super) fn new(
        catalogs: &'t BuiltIn,
        root: &'t Table,
        read_for: (String, Purpose),
        diagnostics: &mut Diagnostics,
    ) -> Self {
        let (currency, purpose) = read_for;
        let shelf = |what| Shelf::new(what, catalogs, root);
        let mut registry = Self {
            shop: Shop {
                materials: Vec::new(),
                tools: Vec::new(),
                coolants: Vec::new(),
                machines: Vec::new(),
                firms: Vec::new(),
                families: Vec::new(),
                items: Vec::new(),
                scatter: Vec::new(),
                policy: ChangePolicy::default(),
            },
            currency,
            purpose,
            set_ups: Vec::new(),
            materials: (shelf("material"), BTreeMap::new()),
            tools: (shelf("tool"), BTreeMap::new()),
            conditions: (shelf("condition"), BTreeMap::new()),
            machines: BTreeMap::new(),
            coolants: BTreeMap::new(),
            firms: BTreeMap::new(),
            firm_places: Vec::new(),
        };
        if let Some(table) = sub_table(root, "replacement") {
            registry.shop.policy = replacement::policy(table, &registry.currency, diagnostics);
        }
        registry.read_coolants(&shelf("coolant"), diagnostics);
        registry.read_scatter(&shelf("scatter"), diagnostics);
        registry.read_firms(root, diagnostics);
        registry
    }

    fn read_coolants(&mut self, shelf: &Shelf<'_>, diagnostics: &mut Diagnostics) {
        for key in shelf.all_keys() {
            let read = shelf
                .entry(&key.value, key.span, diagnostics)
                .and_then(|table| material::coolant(&key.value, &table, diagnostics));
            let place = read.map(|coolant| {
                self.shop.coolants.push(coolant);
                self.shop.coolants.len() - 1
            });
            self.coolants.insert(key.value, place);
        }
    }

    /// The scenario's own entries come first, so that they count before the built-in ones.
    fn read_scatter(&mut self, shelf: &Shelf<'_>, diagnostics: &mut Diagnostics) {
        let own = shelf.own_keys();
        let all = shelf.all_keys();
        let built_in = all.iter().filter(|key| !own.iter().any(|own| own.value == key.value));
        for key in own.iter().chain(built_in) {
            let read = shelf
                .entry(&key.value, key.span, diagnostics)
                .and_then(|table| replacement::scatter_band(&key.value, &table, diagnostics));
            self.shop.scatter.extend(read);
        }
    }

    fn read_firms(&mut self, root: &Table, diagnostics: &mut Diagnostics) {
        for (name, table) in named_tables(root, "outside", diagnostics) {
            let place = firm::firm(&name.value, table, diagnostics).map(|firm| {
                self.shop.firms.push(firm);
                self.firm_places.push(name.clone());
                self.shop.firms.len() - 1
            });
            self.firms.insert(name.value, place);
        }
    }

    /// The firms outside, by place, and where they are written.
    pub(super) fn firm_places(&self) -> &[Spanned<String>] {
        &self.firm_places
    }

    /// A firm outside by name.
    pub(super) fn firm(&self, name: &Spanned<String>, diagnostics: &mut Diagnostics) -> Option<usize> {
        if let Some(place) = self.firms.get(&name.value) {
            return *place;
        }
        let near = crate::diag::nearest(&name.value, self.firms.keys().map(String::as_str));
        diagnostics.push(
            crate::diag::Diagnostic::new(
                crate::diag::Code::UnknownName,
                format!("no firm outside is called `{}`", name.value),
            )
            .at(name.span, "not found")
            .help(near.map_or_else(
                || format!("add a table [outside.{}]", name.value),
                |near| format!("did you mean `{near}`?"),
            )),
        );
        None
    }

    /// Place of a family of work that is set up alike, which its first mention founds.
    pub(super) fn family(&mut self, name: &str) -> usize {
        let families = &mut self.shop.families;
        families.iter().position(|known| known == name).unwrap_or_else(|| {
            families.push(name.to_owned());
            families.len() - 1
        })
    }

    /// All names of tools, materials and coolants, each with its kind.
    pub(super) fn known_names(&self) -> Vec<(&'static str, String)> {
        let named = |kind: &'static str, shelf: &Shelf<'_>| {
            shelf.all_keys().into_iter().map(move |key| (kind, key.value)).collect::<Vec<_>>()
        };
        let mut names = named("tool", &self.tools.0);
        names.extend(named("material", &self.materials.0));
        names.extend(self.coolants.keys().map(|key| ("coolant", key.clone())));
        names
    }

    /// Reads the scenario's own materials, tools and conditions even if nothing names them, so that all mistakes are found.
    pub(super) fn read_own(&mut self, diagnostics: &mut Diagnostics) {
        for key in self.materials.0.own_keys() {
            self.material(&key, diagnostics);
        }
        for key in self.tools.0.own_keys() {
            self.tool(&key, diagnostics);
        }
        for key in self.conditions.0.own_keys() {
            self.condition(&key, diagnostics);
        }
    }

    /// Reads every tool there is, so that one can be chosen.
    pub(super) fn read_all_tools(&mut self, diagnostics: &mut Diagnostics) {
        for key in self.tools.0.all_keys() {
            self.tool(&key, diagnostics);
        }
    }

    /// The scenario's own tools that could be read, and their places. One that another is `like` counts as used there.
    pub(super) fn own_tools(&self) -> Vec<(Spanned<String>, usize)> {
        own(&self.tools)
    }

    /// The scenario's own materials that could be read, and their places.
    pub(super) fn own_materials(&self) -> Vec<(Spanned<String>, usize)> {
        own(&self.materials)
    }

    /// A material by name.
    pub(super) fn material(
        &mut self,
        name: &Spanned<String>,
        diagnostics: &mut Diagnostics,
    ) -> Option<usize> {
        let (shelf, known) = &mut self.materials;
        let list = &mut self.shop.materials;
        *known.entry(name.value.clone()).or_insert_with(|| {
            let table = shelf.entry(&name.value, name.span, diagnostics)?;
            list.push(material::material(&name.value, &table, diagnostics)?);
            Some(list.len() - 1)
        })
    }

    /// A tool by name.
    pub(super) fn tool(&mut self, name: &Spanned<String>, diagnostics: &mut Diagnostics) -> Option<usize> {
        let (shelf, known) = &mut self.tools;
        let list = &mut self.shop.tools;
        let currency = &self.currency;
        *known.entry(name.value.clone()).or_insert_with(|| {
            let table = shelf.entry(&name.value, name.span, diagnostics)?;
            list.push(tool::tool(&name.value, &table, currency, diagnostics)?);
            Some(list.len() - 1)
        })
    }

    /// A condition by name.
    pub(super) fn condition(
        &mut self,
        name: &Spanned<String>,
        diagnostics: &mut Diagnostics,
    ) -> Option<Condition> {
        let (shelf, known) = &mut self.conditions;
        known
            .entry(name.value.clone())
            .or_insert_with(|| {
                let table = shelf.entry(&name.value, name.span, diagnostics)?;
                material::condition(&name.value, &table, diagnostics)
            })
            .clone()
    }

    /// A coolant by name.
    pub(super) fn coolant(&mut self, name: &Spanned<String>, diagnostics: &mut Diagnostics) -> Option<usize> {
        if let Some(place) = self.coolants.get(&name.value) {
            return *place;
        }
        let keys = self.coolants.keys().map(String::as_str);
        let near = crate::diag::nearest(&name.value, keys);
        diagnostics.push(
            crate::diag::Diagnostic::new(
                crate::diag::Code::UnknownName,
                format!("no coolant is called `{}`", name.value),
            )
            .at(name.span, "not found")
            .help(near.map_or_else(
                || "list what there is: wearland catalog coolant".to_owned(),
                |near| format!("did you mean `{near}`?"),
            )),
        );
        None
    }

    /// Reads all machines of the scenario.
    pub(super) fn read_machines(
        &mut self,
        shelf: &Shelf<'_>,
        around: &Around<'_>,
        diagnostics: &mut Diagnostics,
    ) -> Vec<crate::diag::Span> {
        let mut places = Vec::new();
        for key in shelf.own_keys() {
            let read = shelf
                .entry(&key.value, key.span, diagnostics)
                .and_then(|table| machine(&key.value, &table, around, diagnostics));
            let place = read.and_then(|ReadMachine { mut machine, coolant, set_up }| {
                if let Some(name) = coolant {
                    machine.coolant = Some(self.coolant(&name, diagnostics)?);
                }
                self.shop.machines.push(machine);
                places.push(key.span);
                self.set_ups.extend(set_up.map(|stands| (self.shop.machines.len() - 1, stands)));
                Some(self.shop.machines.len() - 1)
            });
            self.machines.insert(key.value, place);
        }
        places
    }

    /// A machine by name.
    pub(super) fn machine(&self, name: &Spanned<String>, diagnostics: &mut Diagnostics) -> Option<usize> {
        if let Some(place) = self.machines.get(&name.value) {
            return *place;
        }
        let near = crate::diag::nearest(&name.value, self.machines.keys().map(String::as_str));
        diagnostics.push(
            crate::diag::Diagnostic::new(
                crate::diag::Code::UnknownName,
                format!("no machine is called `{}`", name.value),
            )
            .at(name.span, "not found")
            .help(near.map_or_else(
                || format!("add a table [machine.{}]", name.value),
                |near| format!("did you mean `{near}`?"),
            )),
        );
        None
    }
}

/// Own entries of a shelf that could be read and that no other entry is based on.
fn own(shelf: &(Shelf<'_>, BTreeMap<String, Option<usize>>)) -> Vec<(Spanned<String>, usize)> {
    let (entries, known) = shelf;
    entries
        .own_keys()
        .into_iter()
        .filter(|key| !entries.is_base(&key.value))
        .filter_map(|key| known.get(&key.value).copied().flatten().map(|place| (key, place)))
        .collect()
}

/// The tables of an entry such as `[part.x]`, by name.
pub(super) fn named_tables<'t>(
    root: &'t Table,
    key: &str,
    diagnostics: &mut Diagnostics,
) -> Vec<(Spanned<String>, &'t Table)> {
    let Some(Value::Table(tables)) = root.get(key).map(|entry| &entry.node.value) else {
        return Vec::new();
    };
    let mut named = Vec::new();
    for entry in &tables.entries {
        if let Some(table) = super::read::entry(entry, super::read::table, diagnostics) {
            named.push((Spanned { value: entry.key.clone(), span: entry.key_span }, table.value));
        }
    }
    named
}

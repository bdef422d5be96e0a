//! A tool and a material by name, without working a scenario out: for logs that name them.

use super::built_in::BuiltIn;
use super::files::{DEMO, FileError, built_in, join, read_all};
use super::load::Origin;
use super::registry::Registry;
use super::tree::Table;
use super::{Purpose, Spanned};
use crate::diag::{Diagnostics, SourceMap, nearest};
use crate::tooling::{Coolant, Material, Tool};
use thiserror::Error;

/// What names stand for, with all that a scenario lays over the catalogs.
#[derive(Debug, Clone, PartialEq)]
pub struct Entries {
    /// The tool, if one was named.
    pub tool: Option<Tool>,
    /// The material, if one was named.
    pub material: Option<Material>,
    /// All coolants.
    pub coolants: Vec<Coolant>,
}

/// Why names stand for nothing.
#[derive(Debug, Error)]
pub enum EntriesError {
    /// A file that cannot be read.
    #[error(transparent)]
    File(#[from] FileError),
    /// A name that neither scenario nor catalogs know.
    #[error("no {what} is called `{name}`{help}")]
    Unknown {
        /// What it should be: `tool`.
        what: &'static str,
        /// The name.
        name: String,
        /// What would do.
        help: String,
    },
    /// Mistakes in the scenario.
    #[error("the scenario has mistakes")]
    Mistakes(Box<(Diagnostics, SourceMap)>),
}

/// Looks up tool, material and coolant, in this order.
///
/// # Errors
/// [`EntriesError`].
pub fn entries(scenario: &Origin, names: [Option<&str>; 3]) -> Result<Entries, EntriesError> {
    let mut sources = SourceMap::default();
    let mut diagnostics = Diagnostics::default();
    let root = match scenario {
        Origin::Demo => Some(built_in(&DEMO, &mut sources, &mut diagnostics)),
        Origin::Path(path) => join(read_all(path)?, &mut sources, &mut diagnostics),
        Origin::Text { name, bytes } => {
            join(vec![(name.clone(), bytes.clone())], &mut sources, &mut diagnostics)
        }
    };
    let Some(root) = root.filter(|_| !diagnostics.has_errors()) else {
        return Err(EntriesError::Mistakes(Box::new((diagnostics, sources))));
    };
    let catalogs = BuiltIn::open(&mut sources);
    let mut registry = Registry::new(&catalogs, &root, (currency(&root), Purpose::Run), &mut diagnostics);
    let [tool, material, coolant] =
        names.map(|name| name.map(|name| Spanned { value: name.to_owned(), span: root.span }));
    let known = registry.known_names();
    for (what, name) in [("tool", &tool), ("material", &material), ("coolant", &coolant)] {
        let Some(name) = name else { continue };
        let all = known.iter().filter(|(kind, _)| *kind == what).map(|(_, name)| name.as_str());
        if !all.clone().any(|known| known == name.value) {
            let help = nearest(&name.value, all).map_or_else(
                || {
                    format!(
                        ": list them with `wearland catalog {what}`, or name your scenario with --scenario"
                    )
                },
                |near| format!(": did you mean `{near}`?"),
            );
            return Err(EntriesError::Unknown { what, name: name.value.clone(), help });
        }
    }
    let tool = tool.and_then(|name| registry.tool(&name, &mut diagnostics));
    let material = material.and_then(|name| registry.material(&name, &mut diagnostics));
    if diagnostics.has_errors() {
        return Err(EntriesError::Mistakes(Box::new((diagnostics, sources))));
    }
    let shop = registry.shop;
    Ok(Entries {
        tool: tool.map(|id| shop.tools[id].clone()),
        material: material.map(|id| shop.materials[id].clone()),
        coolants: shop.coolants,
    })
}

/// Currency of a scenario, for its prices.
fn currency(root: &Table) -> String {
    let scenario = super::catalog::sub_table(root, "scenario");
    let currency = scenario.and_then(|scenario| scenario.get("currency"));
    currency.and_then(|entry| super::read::name(&entry.node).ok()).unwrap_or_default()
}

//! Inputs of a row, each to be used, and the answer with the unit it is read back in.

use std::cell::RefCell;
use std::collections::BTreeSet;

use wearland::cutting::hobbing::{Gear, Hand, Hob};
use wearland::quantity::{Angle, Length, Quantity, parse, parse_module};

pub(super) struct Inputs<'r> {
    table: &'r toml::Table,
    used: RefCell<BTreeSet<&'static str>>,
}

impl<'r> Inputs<'r> {
    pub(super) fn new(table: &'r toml::Table) -> Self {
        Self { table, used: RefCell::default() }
    }

    fn value(&self, name: &'static str) -> Option<&'r toml::Value> {
        self.used.borrow_mut().insert(name);
        self.table.get(name)
    }

    pub(super) fn word(&self, name: &'static str) -> Result<&'r str, String> {
        let value = self.value(name).ok_or(format!("input `{name}` is missing"))?;
        value.as_str().ok_or(format!("input `{name}` is no text"))
    }

    pub(super) fn get<Q: Quantity>(&self, name: &'static str) -> Result<Q, String> {
        parse(self.word(name)?).map_err(|error| format!("{name}: {error}"))
    }

    pub(super) fn find<Q: Quantity>(&self, name: &'static str) -> Result<Option<Q>, String> {
        if self.table.contains_key(name) { self.get(name).map(Some) } else { Ok(None) }
    }

    pub(super) fn count(&self, name: &'static str) -> Result<u32, String> {
        let value = self.value(name).and_then(toml::Value::as_integer);
        value.and_then(|count| u32::try_from(count).ok()).ok_or(format!("input `{name}` is no count"))
    }

    pub(super) fn number(&self, name: &'static str) -> Result<f64, String> {
        let value = self.value(name).and_then(toml::Value::as_float);
        value.ok_or(format!("input `{name}` is no number with a point"))
    }

    pub(super) fn find_number(&self, name: &'static str) -> Result<Option<f64>, String> {
        if self.table.contains_key(name) { self.number(name).map(Some) } else { Ok(None) }
    }

    pub(super) fn numbers(&self, name: &'static str) -> Result<Vec<f64>, String> {
        let list = self.value(name).and_then(toml::Value::as_array);
        let list = list.ok_or(format!("input `{name}` is no list"))?;
        list.iter()
            .map(|value| value.as_float().ok_or(format!("input `{name}` holds no numbers with a point")))
            .collect()
    }

    pub(super) fn gear_module(&self) -> Result<Length, String> {
        parse_module(self.word("module")?).map_err(|error| error.to_string())
    }

    pub(super) fn gear(&self) -> Result<Gear, String> {
        Ok(Gear {
            module: self.gear_module()?,
            teeth: self.count("teeth")?,
            helix: self.find("helix")?.unwrap_or(Angle::ZERO),
            face: self.find("face")?.unwrap_or(Length::ZERO),
            whole_depth: self.find("depth")?.unwrap_or(Length::ZERO),
        })
    }

    pub(super) fn hob(&self) -> Result<Hob, String> {
        Ok(Hob { diameter: self.get("hob")?, starts: self.count("starts")? })
    }

    pub(super) fn hand(&self) -> Result<Hand, String> {
        match self.word("hand")? {
            "same" => Ok(Hand::Same),
            "opposite" => Ok(Hand::Opposite),
            other => Err(format!("hand `{other}` is neither `same` nor `opposite`")),
        }
    }

    pub(super) fn all_used(&self) -> Result<(), String> {
        let used = self.used.borrow();
        match self.table.keys().find(|name| !used.contains(name.as_str())) {
            Some(idle) => Err(format!("input `{idle}` is not used")),
            None => Ok(()),
        }
    }
}

pub(super) struct Answer {
    pub(super) values: Vec<f64>,
    pub(super) unit: &'static str,
    reader: fn(&toml::Value) -> Result<f64, String>,
}

impl Answer {
    pub(super) fn list<Q: Quantity>(quantities: &[Q]) -> Self {
        Self {
            values: quantities.iter().map(|quantity| quantity.base()).collect(),
            unit: Q::KIND.units[0].symbol,
            reader: |value| {
                let text = value.as_str().ok_or("expected a text with a unit")?;
                parse::<Q>(text).map(Quantity::base).map_err(|error| error.to_string())
            },
        }
    }

    pub(super) fn one<Q: Quantity>(quantity: Q) -> Self {
        Self::list(&[quantity])
    }

    pub(super) fn plain(number: impl Into<f64>) -> Self {
        Self {
            values: vec![number.into()],
            unit: "",
            reader: |value| match value {
                toml::Value::Integer(number) => {
                    i32::try_from(*number).map(f64::from).map_err(|e| e.to_string())
                }
                toml::Value::Float(number) => Ok(*number),
                _ => Err("expected a number".to_owned()),
            },
        }
    }

    pub(super) fn plain_list(numbers: Vec<f64>) -> Self {
        Self { values: numbers, ..Self::plain(0.0) }
    }

    pub(super) fn read(&self, expect: &toml::Value) -> Result<Vec<f64>, String> {
        match expect {
            toml::Value::Array(values) => values.iter().map(self.reader).collect(),
            one => (self.reader)(one).map(|value| vec![value]),
        }
    }
}

//! Lists, tables, and entries whose keys are the user's own names.

use super::found::{Reading, wrong_kind};
use crate::diag::Diagnostics;
use crate::input::{Entry, Node, Spanned, Table, Value};

/// A table.
///
/// # Errors
/// For any other value.
pub fn table(node: &Node) -> Reading<&Table> {
    match &node.value {
        Value::Table(table) => Ok(table),
        _ => Err(vec![wrong_kind(node, "a table")]),
    }
}

/// A list, each item read in the same way; the mistakes of all items are found.
pub fn list<'t, T>(read: impl Fn(&'t Node) -> Reading<T>) -> impl Fn(&'t Node) -> Reading<Vec<Spanned<T>>> {
    move |node| match &node.value {
        Value::List(items) => all(items, &read),
        _ => Err(vec![wrong_kind(node, "a list in square brackets")]),
    }
}

/// A list, or one item without brackets.
pub fn one_or_list<'t, T>(
    read: impl Fn(&'t Node) -> Reading<T>,
) -> impl Fn(&'t Node) -> Reading<Vec<Spanned<T>>> {
    move |node| match &node.value {
        Value::List(items) => all(items, &read),
        _ => all(std::slice::from_ref(node), &read),
    }
}

/// The value of an entry whose key is a name of the user's own, as in `parts = { pinion = 1 }`; its mistakes go to the
/// collection.
pub fn entry<'t, T>(
    entry: &'t Entry,
    read: impl FnOnce(&'t Node) -> Reading<T>,
    diagnostics: &mut Diagnostics,
) -> Option<Spanned<T>> {
    match read(&entry.node) {
        Ok(value) => Some(Spanned { value, span: entry.node.span }),
        Err(mistakes) => {
            diagnostics.extend(mistakes);
            None
        }
    }
}

fn all<'t, T>(items: &'t [Node], read: &impl Fn(&'t Node) -> Reading<T>) -> Reading<Vec<Spanned<T>>> {
    let mut values = Vec::with_capacity(items.len());
    let mut mistakes = Vec::new();
    for item in items {
        match read(item) {
            Ok(value) => values.push(Spanned { value, span: item.span }),
            Err(found) => mistakes.extend(found),
        }
    }
    if mistakes.is_empty() { Ok(values) } else { Err(mistakes) }
}

#[cfg(test)]
mod tests {
    use super::{list, one_or_list, table};
    use crate::diag::Code;
    use crate::input::fields::sample::{code, node};
    use crate::input::read::{count, name};

    #[test]
    fn every_item_is_looked_at() {
        let names = node("[\"a\", \"b c\", 3, \"d\"]");
        assert_eq!(list(name)(&names).unwrap_err().len(), 2);
        let one = node("7");
        let counts = node("[1, 2]");
        let values: Vec<u32> = list(count)(&counts).unwrap().into_iter().map(|item| item.value).collect();
        assert_eq!(values, [1, 2]);
        assert_eq!(one_or_list(count)(&one).unwrap()[0].value, 7);
        assert_eq!(code(list(count)(&one)), Code::WrongKind);
        assert_eq!(code(table(&node("7"))), Code::WrongKind);
    }
}

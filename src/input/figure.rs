//! Figures: values that may carry their source.

use super::read::{self, Reading};
use super::{Fields, Node, Value};
use crate::diag::{Diagnostics, Span};
use crate::tooling::Standing;

/// A value and where it is from: bare, `"1500 N/mm2"`, or `{ value = ..., source = ..., standing = ... }`.
#[derive(Debug, Clone, PartialEq)]
pub struct Figured<T> {
    /// The value.
    pub value: T,
    /// Its place.
    pub span: Span,
    /// Key and place of its source; `None` if bare.
    pub source: Option<super::Spanned<String>>,
    /// Page, table or group in the source.
    pub at: Option<String>,
    /// How well it is known; `None` if bare.
    pub standing: Option<Standing>,
    /// A remark.
    pub note: Option<String>,
}

/// Reads a figure, its value by another reader.
pub(super) fn figure<'t, T>(
    read: impl FnOnce(&'t Node) -> Reading<T>,
) -> impl FnOnce(&'t Node) -> Reading<Figured<T>> {
    move |node| {
        let Value::Table(table) = &node.value else {
            let bare = |value| Figured {
                value,
                span: node.span,
                source: None,
                at: None,
                standing: None,
                note: None,
            };
            return read(node).map(bare);
        };
        let mut mistakes = Diagnostics::default();
        let mut fields = Fields::new(table, "figure", &mut mistakes);
        let value = fields.required("value", read);
        let source = fields.required("source", read::name);
        let standing = fields.required("standing", read::choice(&Standing::WORDS));
        let at = fields.optional("at", read::text).map(|text| text.value);
        let note = fields.optional("note", read::text).map(|text| text.value);
        fields.finish();
        match (value, mistakes.is_empty()) {
            (Some(value), true) => Ok(Figured {
                value: value.value,
                span: value.span,
                source,
                at,
                standing: standing.map(|word| word.value),
                note,
            }),
            _ => Err(mistakes.into_vec()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::figure;
    use crate::diag::Code;
    use crate::input::fields::sample::node;
    use crate::input::read::{Bounds, quantity};
    use crate::quantity::SpecificForce;
    use crate::tooling::Standing;

    #[test]
    fn bare_or_with_its_source() {
        let read = || figure(quantity::<SpecificForce>(Bounds::Positive));
        let bare = node("\"1500 N/mm2\"");
        assert!(read()(&bare).is_ok_and(|figure| figure.source.is_none()));
        let whole =
            node("{ value = \"1500 N/mm2\", source = \"vdi-3323\", at = \"group 2\", standing = \"read\" }");
        let figure = read()(&whole).unwrap();
        assert_eq!(figure.value, SpecificForce::n_per_mm2(1500.0));
        assert_eq!(figure.source.unwrap().value, "vdi-3323");
        assert_eq!((figure.at.as_deref(), figure.standing), (Some("group 2"), Some(Standing::Read)));
        for (word, standing) in Standing::WORDS {
            assert_eq!(standing.text(), word);
        }
    }

    #[test]
    fn all_mistakes_of_a_figure_are_found() {
        let bad = node("{ value = \"1500\", standing = \"red\", pages = 2 }");
        let mistakes = figure(quantity::<SpecificForce>(Bounds::Positive))(&bad).unwrap_err();
        let mut codes: Vec<_> = mistakes.iter().map(|mistake| mistake.code).collect();
        codes.sort();
        assert_eq!(codes, [Code::UnknownKey, Code::MissingKey, Code::WrongKind, Code::NotAQuantity]);
    }
}

//! Bills of materials: names resolved, items put in an order in which each comes after what goes into it.

use super::Spanned;
use super::part::ReadItem;
use crate::cycle::Making;
use crate::diag::{Code, Diagnostic, Diagnostics, nearest};

/// Resolves the bills and orders the items; a circle is a mistake that names its members.
pub(super) fn in_order(read: Vec<ReadItem>, diagnostics: &mut Diagnostics) -> Option<Vec<ReadItem>> {
    let names: Vec<String> = read.iter().map(|item| item.item.key.clone()).collect();
    let mut needs: Vec<Vec<usize>> = Vec::new();
    let mut whole = true;
    for item in &read {
        let found: Vec<Option<usize>> =
            item.parts.iter().map(|(name, _)| find(name, &names, diagnostics)).collect();
        whole &= found.iter().all(Option::is_some);
        needs.push(found.into_iter().flatten().collect());
    }
    if !whole {
        return None;
    }
    let order = sort(&needs).map_err(|circle| {
        let members: Vec<&str> = circle.iter().map(|id| names[*id].as_str()).collect();
        diagnostics.push(
            Diagnostic::new(
                Code::Route,
                format!("the bill of materials runs in a circle: {}", members.join(" needs ")),
            )
            .at(read[circle[0]].span, "part of the circle"),
        );
    });
    let order = order.ok()?;
    let mut place = vec![0; order.len()];
    for (new, old) in order.iter().enumerate() {
        place[*old] = new;
    }
    let mut items: Vec<(usize, ReadItem)> =
        read.into_iter().enumerate().map(|(old, item)| (place[old], item)).collect();
    for (new, item) in &mut items {
        if let Making::Product { parts } = &mut item.item.making {
            let old = order[*new];
            *parts = needs[old]
                .iter()
                .zip(&item.parts)
                .map(|(part, (_, pieces))| (place[*part], *pieces))
                .collect();
        }
    }
    items.sort_by_key(|(new, _)| *new);
    Some(items.into_iter().map(|(_, item)| item).collect())
}

fn find(name: &Spanned<String>, names: &[String], diagnostics: &mut Diagnostics) -> Option<usize> {
    let found = names.iter().position(|known| *known == name.value);
    if found.is_none() {
        let near = nearest(&name.value, names.iter().map(String::as_str));
        let diagnostic =
            Diagnostic::new(Code::UnknownName, format!("no part or product is called `{}`", name.value))
                .at(name.span, "not found");
        diagnostics.push(match near {
            Some(near) => diagnostic.did_you_mean(Some(near)),
            None => diagnostic.help(format!("add a table [part.{}]", name.value)),
        });
    }
    found
}

/// Places in an order in which needs come first; or the members of a circle, the first again at the end.
fn sort(needs: &[Vec<usize>]) -> Result<Vec<usize>, Vec<usize>> {
    let mut order = Vec::new();
    let mut done = vec![false; needs.len()];
    while order.len() < needs.len() {
        let ready = (0..needs.len()).find(|id| !done[*id] && needs[*id].iter().all(|need| done[*need]));
        match ready {
            Some(id) => {
                done[id] = true;
                order.push(id);
            }
            None => return Err(circle(needs, &done)),
        }
    }
    Ok(order)
}

/// Follows open needs until one comes round again.
fn circle(needs: &[Vec<usize>], done: &[bool]) -> Vec<usize> {
    let mut path: Vec<usize> = (0..needs.len()).filter(|id| !done[*id]).take(1).collect();
    while let Some(last) = path.last() {
        let Some(next) = needs[*last].iter().copied().find(|need| !done[*need]) else { break };
        if let Some(start) = path.iter().position(|known| *known == next) {
            path.push(next);
            return path.split_off(start);
        }
        path.push(next);
    }
    path
}

#[cfg(test)]
mod tests {
    use super::sort;

    #[test]
    fn needs_come_first_and_circles_are_named() {
        assert_eq!(sort(&[vec![1], vec![], vec![0, 1]]), Ok(vec![1, 0, 2]));
        assert_eq!(sort(&[vec![], vec![2], vec![1]]), Err(vec![1, 2, 1]));
        assert_eq!(sort(&[vec![0]]), Err(vec![0, 0]));
    }
}

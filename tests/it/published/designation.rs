//! Designations by what they tell.

use super::formulas::Found;
use super::inputs::{Answer, Inputs};
use wearland::tooling::{decode_grade, decode_insert};

pub(super) fn work(name: &str, i: &Inputs) -> Found {
    if name == "grade_number" {
        let positions = decode_grade(i.word("code")?).map_err(|error| error.to_string())?;
        let number = positions.last().and_then(|last| last.characters.parse::<u32>().ok());
        return Ok(Some(Answer::plain(number.ok_or("no number")?)));
    }
    let tells =
        ["insert_edges", "inscribed_circle", "insert_edge_length", "insert_thickness", "insert_corner"];
    if !tells.contains(&name) {
        return Ok(None);
    }
    let insert = decode_insert(i.word("code")?).map_err(|error| error.to_string())?;
    Ok(Some(match name {
        "insert_edges" => Answer::plain(insert.edges.ok_or("edges are not told")?),
        "inscribed_circle" => Answer::one(insert.inscribed_circle.ok_or("the circle is not told")?),
        "insert_edge_length" => Answer::one(insert.edge_length),
        "insert_thickness" => Answer::one(insert.thickness),
        _ => Answer::one(insert.corner_radius.ok_or("there is no corner radius")?),
    }))
}

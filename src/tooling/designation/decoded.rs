//! Known codes and wrong ones.

use super::{Insert, decode_insert};

fn characters(insert: &Insert) -> Vec<(u32, &str)> {
    insert.positions.iter().map(|position| (position.number, position.characters.as_str())).collect()
}

#[test]
fn known_codes() {
    // Edges, inscribed circle, thickness, corner radius, inch code.
    for (code, edges, circle, thickness, radius, inch) in [
        ("CNMG120408", Some(4), 12.7, 4.76, Some(0.8), Some("CNMG432")),
        ("DNMG150608", Some(4), 12.7, 6.35, Some(0.8), Some("DNMG442")),
        ("WNMG080412", Some(6), 12.7, 4.76, Some(1.2), Some("WNMG433")),
        ("SNMM190616", Some(4), 19.05, 6.35, Some(1.6), Some("SNMM644")),
        ("TNMG160404", Some(6), 9.525, 4.76, Some(0.4), Some("TNMG331")),
        ("CCGT 09 T3 04", Some(2), 9.525, 3.97, Some(0.4), Some("CCGT32.51")),
        ("VBMT160404", Some(2), 9.525, 4.76, Some(0.4), Some("VBMT331")),
        ("TPGN110304", Some(3), 6.35, 3.18, Some(0.4), Some("TPGN221")),
        ("RCMT1204M0", None, 12.0, 4.76, None, None),
        ("RCMT0803MO", None, 8.0, 3.18, None, None),
        ("CCGT040204", Some(2), 4.763, 2.38, Some(0.4), Some("CCGT631")),
        ("CCGT060201", Some(2), 6.35, 2.38, Some(0.1), None),
        ("CCGT060202", Some(2), 6.35, 2.38, Some(0.2), Some("CCGT21.50.5")),
    ] {
        let insert = decode_insert(code).unwrap();
        assert_eq!(insert.edges, edges, "{code}");
        assert!((insert.inscribed_circle.unwrap().to_mm() - circle).abs() < 1e-9, "{code}");
        assert!((insert.thickness.to_mm() - thickness).abs() < 1e-9, "{code}");
        assert_eq!(
            insert.corner_radius.map(|radius| (radius.to_mm() * 10.0).round() / 10.0),
            radius,
            "{code}"
        );
        assert_eq!(insert.inch_code.as_deref(), inch, "{code}");
    }
}

#[test]
fn an_edge_length_follows_from_the_circle() {
    for (code, edge) in
        [("CNMG120408", 12.896), ("DNMG150608", 15.504), ("VBMT160404", 16.606), ("TPGN110304", 10.999)]
    {
        assert!((decode_insert(code).unwrap().edge_length.to_mm() - edge).abs() < 0.0005, "{code}");
    }
}

#[test]
fn edge_and_hand_may_stand_apart() {
    for code in ["SEKN1203AFTN", "SEKN 12 03 AF TN", "SEKN 1203AF TN"] {
        let insert = decode_insert(code).unwrap();
        assert!((insert.edge_angle.unwrap().to_deg() - 45.0).abs() < 1e-9, "{code}");
        assert_eq!(characters(&insert)[6..], [(7, "AF"), (8, "T"), (9, "N")], "{code}");
    }
    assert_eq!(characters(&decode_insert("CNMG120408-PM").unwrap())[7..], [(10, "PM")]);
    assert_eq!(characters(&decode_insert("CNMG 12 04 08 PR").unwrap())[7..], [(10, "PR")]);
    assert_eq!(characters(&decode_insert("CNMG120408 E-GM").unwrap())[7..], [(8, "E"), (10, "GM")]);
}

#[test]
fn the_wrong_character_is_found() {
    for (code, at, number) in [
        ("XNMG120408", 0..1, 1),
        ("cnmg120408", 0..1, 1),
        ("CXMG120408", 1..2, 2),
        ("CNXG120408", 2..3, 3),
        ("CNMY120408", 3..4, 4),
        ("CNMGX20408", 4..5, 5),
        ("CNMG1X0408", 5..6, 5),
        ("CNMG 1\u{e9}0408", 6..8, 5),
        ("CNMG12X408", 6..7, 6),
        ("CNMG12T408", 7..8, 6),
        ("CNMG12040X", 9..10, 7),
        ("SEKN1203XF", 8..9, 7),
        ("CNMG1204M0", 8..9, 7),
        ("CNMG120499", 8..9, 7),
        ("CNMG120408Q", 10..11, 9),
        ("CNMG120408EQ", 11..12, 9),
        ("CNMG1204", 7..8, 7),
        ("CNMG1", 4..5, 5),
        ("", 0..0, 1),
    ] {
        let error = decode_insert(code).unwrap_err();
        assert_eq!((error.at, error.number), (at, number), "{code}");
        assert!(!error.expected.is_empty(), "{code}");
    }
}

#[test]
fn a_size_that_several_circles_have_names_none() {
    assert_eq!(decode_insert("ECMT040204").unwrap().inscribed_circle, None);
    assert_eq!(decode_insert("SEMT13T3AG").unwrap().inscribed_circle, None);
    assert!(decode_insert("SEMT13T3AG").unwrap().positions[4].meaning.contains("no single"));
}

#[test]
fn tolerances_are_those_of_the_size() {
    let meaning = |code: &str| decode_insert(code).unwrap().positions[2].meaning.clone();
    assert_eq!(meaning("CNMG120408"), "+/- mm: corner height m 0.13, inscribed circle 0.08, thickness 0.13");
    assert_eq!(meaning("CNUG120408"), "+/- mm: corner height m 0.2, inscribed circle 0.13, thickness 0.13");
    assert_eq!(
        meaning("SNKN120408"),
        "+/- mm: corner height m 0.013, inscribed circle 0.08, thickness 0.025"
    );
    assert!(meaning("VBMT160404").contains("m 0.08 to 0.2, inscribed circle 0.05"));
}

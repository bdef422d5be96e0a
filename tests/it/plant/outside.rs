//! Firms outside.

use super::pins::{PINS, Pins, column};
use crate::families::workshop::assert_near;
use wearland::schedule::ResourceKind;

const HARDENING: &str = "[outside.hardening]\ntitle = \"case hardening\"\naway = \"30 h\"\na_shift = 60\n";

#[test]
fn a_firm_is_a_resource_after_machines_and_people() {
    let sent = "outside = [{ firm = \"hardening\", price = \"0.85 EUR\" }]";
    let built = Pins { second: sent, end: HARDENING, ..PINS }.built();
    let problem = built.problem();
    let firm = problem.resources.last().unwrap();
    assert_eq!((firm.name.as_str(), firm.kind), ("hardening", ResourceKind::Outside));
    assert_eq!(firm.minutes, [60.0; 5]);
    // One estimate, on the lathe; the firm's work comes after it.
    assert_eq!((built.estimates.len(), problem.activities.len()), (1, 2));
    let hardening = &problem.activities[1];
    assert_eq!((hardening.step, hardening.away, hardening.machine), (1, 30 * 3600, Some(4)));
    assert_eq!(hardening.uses, [(4, 1.0)]);
    assert_near(hardening.cost, 0.85, 1e-12);
    assert_eq!(hardening.run.to_bits(), 0);
}

#[test]
fn a_firm_may_help_a_machine() {
    let both = format!("{}\noutside = [{{ firm = \"hardening\", price = \"0.85 EUR\" }}]", PINS.second);
    let unlimited = HARDENING.replace("a_shift = 60\n", "");
    let built = Pins { second: &both, end: &unlimited, ..PINS }.built();
    let makers: Vec<usize> = built.problem().makers(1).collect();
    assert_eq!(makers, [1, 2]);
    assert!(built.problem().resources[4].minutes.iter().all(|pieces| pieces.is_infinite()));
}

#[test]
fn what_is_sent_comes_back_so_many_hours_later() {
    let sent = "outside = [{ firm = \"hardening\", price = \"0.85 EUR\" }]";
    let pins = Pins { second: sent, end: HARDENING, ..PINS };
    let lots = pins.table("outside", "plan", "outside");
    let pieces: Vec<u32> = column(&lots, "sent_pieces").iter().map(|sent| sent.parse().unwrap()).collect();
    assert_eq!(pieces.iter().sum::<u32>(), 100);
    assert!(pieces.iter().all(|sent| *sent <= 60), "{pieces:?}");
    for (sent, back) in column(&lots, "sent_at").iter().zip(column(&lots, "back_at")) {
        // A day and six hours later.
        let hour =
            |stamp: &str| stamp[8..10].parse::<u32>().unwrap() * 24 + stamp[11..13].parse::<u32>().unwrap();
        assert_eq!(hour(&back) - hour(sent), 30, "{sent} {back}");
    }
}

#[test]
fn the_steady_state_knows_how_many_pieces_a_firm_takes() {
    let sent = "outside = [{ firm = \"hardening\", price = \"0.85 EUR\" }]";
    let pins = Pins { second: sent, end: HARDENING, ..PINS };
    let firms = pins.table("outside-steady", "capacity", "firms");
    assert_eq!(column(&firms, "firm"), ["hardening"]);
    assert_near(column(&firms, "sent_pieces_per_day")[0].parse().unwrap(), 60.0, 1e-3);
    let capacity = pins.table("outside-steady", "capacity", "capacity");
    assert_eq!(column(&capacity, "bottleneck"), ["hardening"]);
    let resources = pins.table("outside-steady", "capacity", "resources");
    assert!(!column(&resources, "resource").contains(&"hardening".to_owned()));
}

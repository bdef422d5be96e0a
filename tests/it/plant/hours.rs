//! Planned stops and overtime.

use super::pins::{PINS, Pins, column};
use crate::families::workshop::assert_near;
use wearland::plant::AtBreaks;

const DAY: i64 = 86_400;
const HOUR: i64 = 3600;

/// Saturday after the five days of the plan.
const SATURDAY: &str = "[[overtime]]\nfrom = \"2027-03-06 06:00\"\nto = \"2027-03-06 14:00\"\n\
    premium = \"20 EUR/h\"\nmachines = [\"lathe\"]\ncrew = { operator = 1 }";

#[test]
fn a_planned_stop_takes_its_minutes_and_its_windows() {
    let stop = "stops = [{ from = \"2027-03-02 05:00\", to = \"2027-03-02 10:00\" }]";
    let built = Pins { lathe: stop, ..PINS }.built();
    let lathe = &built.problem().resources[0];
    // Seven and a half hours, of which four are left on Tuesday: the break lies inside the stop.
    for (slot, hours) in [7.5, 4.0, 7.5, 7.5, 7.5].into_iter().enumerate() {
        assert_near(lathe.minutes[slot], hours * 60.0 * 0.8, 1e-9);
    }
    assert_eq!(lathe.windows[1], [(DAY + 10 * HOUR, DAY + 14 * HOUR)]);
    assert_eq!(lathe.windows[2].len(), 2);
    let press = &built.problem().resources[1];
    assert_near(press.minutes[1], 450.0, 1e-9);
}

#[test]
fn nothing_is_made_while_a_machine_is_stopped() {
    let stop = "stops = { from = \"2027-03-01 00:00\", to = \"2027-03-03 08:00\" }";
    let pins = Pins { lathe: stop, ..PINS };
    let board = pins.table("stopped", "plan", "board");
    let starts = column(&board, "start");
    assert!(!starts.is_empty());
    assert!(starts.iter().all(|start| start.as_str() >= "2027-03-03 08:00"), "{starts:?}");
}

#[test]
fn overtime_is_a_bucket_with_its_own_people_machines_and_price() {
    let built = Pins { end: SATURDAY, ..PINS }.built();
    let calendar = &built.scenario.calendar;
    let (last, bucket) = (5, &calendar.buckets[5]);
    assert_eq!(calendar.buckets.len(), 6);
    assert_eq!((bucket.start, bucket.end, bucket.day), (5 * DAY + 6 * HOUR, 5 * DAY + 14 * HOUR, 5));
    assert_eq!(calendar.shift_name(bucket), "overtime");
    assert_eq!(calendar.working_days(), 5);
    let [lathe, press, _, operator] = &built.problem().resources[..] else { panic!("four resources") };
    assert_near(lathe.minutes[last], 480.0 * 0.8, 1e-9);
    assert_near(lathe.cost[last], 80.0 / 60.0, 1e-9);
    assert_near(lathe.cost[0], 1.0, 1e-9);
    assert_eq!(press.minutes[last].to_bits(), 0);
    assert_near(operator.minutes[last], 480.0, 1e-9);
    assert_near(operator.minutes[0], 900.0, 1e-9);
}

#[test]
fn overtime_runs_past_midnight_has_breaks_and_stands_in_order_of_time() {
    let night = "[[overtime]]\nfrom = \"2027-03-02 22:00\"\nto = \"2027-03-03 02:00\"\n\
        breaks = [\"23:45-00:15\"]\n[[overtime]]\nfrom = \"2027-03-01 14:00\"\nto = \"2027-03-01 18:00\"";
    let built = Pins { end: night, ..PINS }.built();
    let buckets = &built.scenario.calendar.buckets;
    assert!(buckets.windows(2).all(|pair| pair[0].end <= pair[1].start));
    assert!(buckets[1].is_overtime() && buckets[3].is_overtime());
    assert_eq!((buckets[3].start, buckets[3].end), (DAY + 22 * HOUR, 2 * DAY + 2 * HOUR));
    assert_near(buckets[3].working_time(AtBreaks::Stop).to_min(), 210.0, 1e-9);
    // Nobody is named, so nobody comes.
    assert_eq!(built.problem().resources[3].minutes[3].to_bits(), 0);
}

#[test]
fn overtime_is_worked_only_where_it_is_worth_it() {
    let shifts = |pins: &Pins<'_>, name| column(&pins.table(name, "plan", "board"), "shift");
    let few = Pins { end: SATURDAY, ..PINS };
    assert!(shifts(&few, "overtime-few").iter().all(|shift| shift == "early"));
    // With the lathe down until Friday evening only Saturday is left.
    let down = "stops = { from = \"2027-03-01 00:00\", to = \"2027-03-05 20:00\" }";
    let second = "[[overtime]]\nfrom = \"2027-03-06 14:00\"\nto = \"2027-03-06 18:00\"";
    let late = Pins { end: &format!("{SATURDAY}\n{second}"), lathe: down, due: "2027-03-06 18:00", ..PINS };
    let worked = shifts(&late, "overtime-late");
    assert!(!worked.is_empty() && worked.iter().all(|shift| shift == "overtime"), "{worked:?}");
}

#[test]
fn the_steady_state_leaves_overtime_out() {
    let capacity = |pins: &Pins<'_>, name| pins.table(name, "capacity", "capacity");
    let with = capacity(&Pins { end: SATURDAY, ..PINS }, "steady-overtime");
    assert_eq!(with, capacity(&PINS, "steady"));
}

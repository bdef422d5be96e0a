//! What an hour is worth, why orders are late, what would bring them in time.

use crate::quantity::{Duration, Money};
use crate::report::{Cell, Column, Holds, Section, Table};
use crate::schedule::{
    BuiltProblem, ChainLink, LateOrder, Opened, Relaxation, ResourceKind, Scarce, Scenario, Suffices, Wait,
    WayOut, Worth,
};

const PIECE_HOURS: Holds = Holds::Number { unit: "piece h", key: "piece_h" };

/// A plan with what its places stand for.
pub(in crate::commands) struct Advised<'a> {
    pub(in crate::commands) scenario: &'a Scenario,
    pub(in crate::commands) built: &'a BuiltProblem,
}

impl Advised<'_> {
    /// One table, or none where nothing holds the plan back; then the chains of late orders and the ways out.
    pub(in crate::commands) fn sections(
        &self,
        worths: &[Worth],
        late: &[LateOrder],
        ways: &[WayOut],
    ) -> Vec<Section> {
        let mut sections = Vec::new();
        if !late.is_empty() {
            sections.push(self.late(late).into());
            sections.push(self.short(late).into());
        }
        if !ways.is_empty() {
            sections.push(self.ways_out(ways).into());
        }
        if !worths.is_empty() {
            sections.push(self.worth(worths).into());
        }
        sections
    }

    fn worth(&self, worths: &[Worth]) -> Table {
        let mut table = Table::new("worth", "What one more is worth, and one less")
            .remark(
                "From the program of this plan with its setups spread over its lots, solved anew each time; lateness counts \
                 before money, and a saving below nought is spent on what then comes in time. An hour is one in which the machine can run, \
                 put where it does most good on the day or in the plan, or taken where it does least harm. Where more saves \
                 less than one less costs, both figures are true, each for its side. `Holds to`: so many more each save as \
                 much as the first; looked for up to eight.",
            )
            .column(Column::text("one_more", "one more"))
            .column(Column::text("of", "of"))
            .column(Column::text("when", "when"))
            .column(Column::new("saves_late", "saves late", PIECE_HOURS).decimals(1))
            .column(Column::quantity::<Money>("saves", "saves").decimals(2))
            .column(Column::new("one_less_late", "one less: late", PIECE_HOURS).decimals(1))
            .column(Column::quantity::<Money>("one_less", "one less: costs").decimals(2))
            .column(Column::text("holds_to", "holds to"));
        for worth in worths {
            let (unit, of, when) = self.scarce(worth.of);
            let holds = match worth.holds {
                None | Some(0) => Cell::Missing,
                Some(8) => format!("8 {unit}s or more").into(),
                Some(1) => format!("1 {unit}").into(),
                Some(units) => format!("{units} {unit}s").into(),
            };
            table.row(vec![
                unit.into(),
                of.into(),
                when.into(),
                near(worth.more.lateness).into(),
                Money::of(near(worth.more.money)).into(),
                worth.less.map_or(Cell::Missing, |less| near(less.lateness).into()),
                worth.less.map_or(Cell::Missing, |less| Money::of(near(less.money)).into()),
                holds,
            ]);
        }
        table
    }

    fn scarce(&self, of: Scarce) -> (&'static str, String, String) {
        let problem = &self.built.problem;
        match of {
            Scarce::Resource { resource, day } => {
                let of = &problem.resources[resource];
                let unit = if of.kind == ResourceKind::Crew { "person-shift" } else { "hour" };
                let when = day.and_then(|day| usize::try_from(day).ok()).map_or_else(
                    || "at the best time".to_owned(),
                    |day| self.scenario.calendar.day_name(day),
                );
                (unit, of.name.clone(), when)
            }
            Scarce::Edge(stock) => {
                ("edge", problem.edge_stocks[stock].name.clone(), "from the start".to_owned())
            }
            Scarce::Grace(demand) => ("day", format!("grace for {}", self.order(demand)), String::new()),
        }
    }

    fn order(&self, demand: usize) -> &str {
        &self.built.problem.demands[demand].name
    }

    fn late(&self, late: &[LateOrder]) -> Table {
        let mut table = Table::new("late_because", "Why orders are late, from the last piece back")
            .remark(
                "Read down: the last piece waited for what the first line says, and that for what the next one says. Pieces of \
                 a step count to the orders in the order in which these ship.",
            )
            .column(Column::text("order", "order"))
            .column(Column::text("step", "step"))
            .column(Column::text("machine", "machine"))
            .column(Column::new("from", "from", Holds::Stamp))
            .column(Column::new("to", "to", Holds::Stamp))
            .column(Column::quantity::<Duration>("waited", "hours").in_unit("h").decimals(1))
            .column(Column::prose("waited_for", "waited for"));
        for late in late {
            for link in &late.links {
                let problem = &self.built.problem;
                let stamp = |at: i64| Cell::stamp(self.scenario.calendar.stamp(at));
                table.row(vec![
                    self.order(late.demand).into(),
                    problem.steps[link.step].name.as_str().into(),
                    link.machine.map_or(Cell::Missing, |at| problem.resources[at].name.as_str().into()),
                    stamp(link.from),
                    stamp(link.to),
                    Duration::min(link.hours * 60.0).into(),
                    self.wait(late.demand, link).into(),
                ]);
            }
        }
        table
    }

    fn wait(&self, demand: usize, link: &ChainLink) -> String {
        let problem = &self.built.problem;
        match link.waited_for {
            Wait::MachineBusy => {
                let of = |order: Option<usize>| match order {
                    Some(order) if order == demand => "this order".to_owned(),
                    Some(order) => self.order(order).to_owned(),
                    None => "stock".to_owned(),
                };
                let shares = link.behind.iter().filter(|(_, hours)| *hours >= 0.05);
                let shares: Vec<String> =
                    shares.map(|(order, hours)| format!("{} {hours:.1} h", of(*order))).collect();
                format!("machine busy: {}", shares.join(", "))
            }
            Wait::MachineClosed => "machine closed, or a break".to_owned(),
            Wait::Pieces => "pieces of the step before".to_owned(),
            Wait::People(crew) => format!("people: {}", problem.resources[crew].name),
            Wait::Edges(stock) => format!("edges: {}", problem.edge_stocks[stock].name),
            Wait::NextShift => "the next shift: pieces move on when it begins".to_owned(),
            Wait::Box => "a box on its way".to_owned(),
            Wait::Nothing => "nothing seen: the plan put the work later".to_owned(),
            Wait::PlanEnd => "the plan ends before all pieces are made".to_owned(),
        }
    }

    fn short(&self, late: &[LateOrder]) -> Table {
        let mut table = Table::new("hours_short", "Hours short")
            .remark(
                "Least hours to add at one machine or crew alone, in the shifts in which it works, so that the order comes in \
                 time and no other later; a dash: no hours of it alone would do. The program counts in shifts and asks a \
                 little more than the minute may need.",
            )
            .column(Column::text("order", "order"))
            .column(Column::text("resource", "machine or crew"))
            .column(Column::quantity::<Duration>("short", "short").in_unit("h").decimals(1));
        for late in late {
            let alone = late.short.alone.iter().filter(|short| short.hours.is_some());
            for short in alone {
                table.row(vec![
                    self.order(late.demand).into(),
                    self.built.problem.resources[short.resource].name.as_str().into(),
                    short.hours.map_or(Cell::Missing, |hours| Duration::min(hours * 60.0).into()),
                ]);
            }
            if late.short.alone.iter().all(|short| short.hours.is_none()) {
                let (what, hours) = match late.short.together {
                    Some(hours) if late.short.alone.is_empty() => {
                        ("none: setups, tool changes, whole pieces", Some(Duration::min(hours * 60.0)))
                    }
                    Some(hours) => ("all together, none alone", Some(Duration::min(hours * 60.0))),
                    None => ("the route itself takes too long", None),
                };
                table.row(vec![self.order(late.demand).into(), what.into(), hours.into()]);
            }
        }
        table
    }

    fn ways_out(&self, ways: &[WayOut]) -> Table {
        let mut table = Table::new("ways_out", "Ways out, each planned")
            .remark(
                "Every line is a plan, made anew and verified - or this one, where only a date or a part is asked for - and says what \
                 that plan shows. Of things needed together, leaving any one out was planned too, and the order was late again. \
                 Money is that of the plan against this one: machine hours with premium, edges, setups, holding; wages of \
                 people who come in addition, and what goodwill costs, are not in it.",
            )
            .column(Column::text("orders", "orders"))
            .column(Column::prose("way", "way out"))
            .column(Column::text("does", "does"))
            .column(Column::count("late", "late then", "orders"))
            .column(Column::new("lateness", "lateness then", PIECE_HOURS).decimals(1))
            .column(Column::new("finish", "finish then", Holds::Stamp))
            .column(Column::quantity::<Money>("money", "money more").decimals(0));
        for way in ways {
            let orders: Vec<&str> = way.demands.iter().map(|demand| self.order(*demand)).collect();
            let parts: Vec<String> = way.relaxations.iter().map(|part| self.relaxation(part)).collect();
            let does = match way.standing {
                Suffices::Alone => "alone",
                Suffices::Together => "together only",
                Suffices::InPart => "in part",
                Suffices::NotEnough => "not enough",
            };
            table.row(vec![
                orders.join(", ").into(),
                parts.join("; ").into(),
                does.into(),
                way.tried.late.into(),
                way.tried.lateness.into(),
                way.tried.finish.map_or(Cell::Missing, |at| Cell::stamp(self.scenario.calendar.stamp(at))),
                Money::of(if way.tried.money.abs() < 0.5 { 0.0 } else { way.tried.money }).into(),
            ]);
        }
        table
    }

    fn relaxation(&self, relaxation: &Relaxation) -> String {
        let problem = &self.built.problem;
        let name = |resource: usize| problem.resources[resource].name.as_str();
        match relaxation {
            Relaxation::Open { machine, spans, people, kind } => {
                let what = match kind {
                    Opened::StopCalledOff => "works although closed",
                    Opened::FurtherShift => "works a further shift",
                    Opened::Overtime => "works overtime",
                };
                let with: Vec<String> =
                    people.iter().map(|crew| format!("one more {}", name(*crew))).collect();
                let with = if with.is_empty() { String::new() } else { format!(" with {}", with.join(", ")) };
                format!("{} {what} {}{with}", name(*machine), self.spans(spans))
            }
            Relaxation::Person { crew, spans } => {
                format!("one more {} {}", name(*crew), self.spans(spans))
            }
            Relaxation::Edges { stock, edges } => {
                format!("{edges} edges more of {} from the start", problem.edge_stocks[*stock].name)
            }
            Relaxation::Date { demand, due } => {
                format!("{} promised for {}", self.order(*demand), self.scenario.calendar.stamp(*due))
            }
            Relaxation::Part { demand, pieces } => {
                format!("{pieces} pieces of {} by its date, the others after", self.order(*demand))
            }
        }
    }

    fn spans(&self, spans: &[(i64, i64)]) -> String {
        let calendar = &self.scenario.calendar;
        let one = |(from, to): &(i64, i64)| format!("{}-{}", calendar.stamp(*from), calendar.clock(*to));
        spans.iter().map(one).collect::<Vec<_>>().join(", ")
    }
}

/// What a solver's last digits leave is nothing.
fn near(value: f64) -> f64 {
    if value.abs() < 5e-3 { 0.0 } else { value }
}

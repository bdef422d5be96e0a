//! What each code means, why it is a mistake, and an example of each side.

use super::Code;
use std::fmt;

/// The long answer to "what is E105?".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Explanation {
    /// In a few words.
    pub title: &'static str,
    /// What was found.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// An example with the mistake.
    pub wrong: &'static str,
    /// The same without it.
    pub right: &'static str,
}

impl fmt::Display for Explanation {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let example = |text: &str| text.lines().map(|line| format!("    {line}\n")).collect::<String>();
        writeln!(out, "{}\n\n{}\n{}\n", self.title, self.what, self.why)?;
        write!(out, "Wrong:\n{}\nRight:\n{}", example(self.wrong), example(self.right))
    }
}

impl Code {
    /// What it means, why it matters, a wrong and a right example.
    #[must_use]
    pub fn explanation(self) -> &'static Explanation {
        &ALL[self as usize]
    }
}

/// In the order of the codes.
const ALL: [Explanation; 26] = [
    Explanation {
        title: "not TOML",
        what: "The file breaks a rule of TOML, the format of all input: a quote, bracket or `=` is missing or stray.",
        why: "Past the broken place nothing can be read for certain, so other mistakes are looked for once it is mended.",
        wrong: "speed = 220 m/min",
        right: "speed = \"220 m/min\"",
    },
    Explanation {
        title: "unknown key",
        what: "A table holds a key that means nothing there.",
        why: "A misspelt key would else be passed over in silence, and a default used in its place.",
        wrong: "[machine.lathe-1]\navailabilty = \"88 %\"",
        right: "[machine.lathe-1]\navailability = \"88 %\"",
    },
    Explanation {
        title: "missing key",
        what: "A table lacks a key without which it means nothing.",
        why: "No figure is guessed: a cut without a tool or an order without a quantity has no answer.",
        wrong: "[[order]]\nid = \"A-101\"\nitem = \"vent-drive\"",
        right: "[[order]]\nid = \"A-101\"\nitem = \"vent-drive\"\nquantity = 1200",
    },
    Explanation {
        title: "wrong kind of value",
        what: "A key holds a number where a text is due, a list where a table is due, or a word that is not in the list of choices.",
        why: "Values are never turned from one kind into another by guess.",
        wrong: "quantity = \"1200\"",
        right: "quantity = 1200",
    },
    Explanation {
        title: "not a quantity",
        what: "A text does not start with a number, has no unit, or has the unit of something else.",
        why: "A bare number may be millimetres or inches; the unit beside it leaves no doubt and is checked.",
        wrong: "feed = 0.25\nspeed = \"220 mm\"",
        right: "feed = \"0.25 mm/rev\"\nspeed = \"220 m/min\"",
    },
    Explanation {
        title: "out of range",
        what: "A value is of the right kind and yet cannot be: a negative length, no pieces at all, a share above one.",
        why: "Every figure computed from it would be wrong, some of them without showing it.",
        wrong: "yield = 98.5",
        right: "yield = \"98.5 %\"",
    },
    Explanation {
        title: "not a text file",
        what: "The file is empty, is not encoded as UTF-8, or holds NUL bytes.",
        why: "Input is plain text in UTF-8. Word processors and spreadsheets save other formats unless told otherwise.",
        wrong: "(a file saved as UTF-16, or a spreadsheet)",
        right: "(the same saved as plain text, UTF-8)",
    },
    Explanation {
        title: "nested too deep or too large",
        what: "The file is larger than 16 MiB, its brackets and dotted keys nest more than 64 deep, or it is a log of more than a million rows.",
        why: "No plan needs that; most likely a wrong file was named or a program wrote it in error.",
        wrong: "a = [[[[[[[[ ... ]]]]]]]]",
        right: "a = [1, 2, 3]",
    },
    Explanation {
        title: "designation does not decode",
        what: "A character of an ISO 1832 designation cannot stand where it does, or the tool's own figures contradict it.",
        why: "An insert that is not the one meant has another corner, thickness or number of edges.",
        wrong: "designation = \"CXMG120408\"",
        right: "designation = \"CNMG120408\"",
    },
    Explanation {
        title: "table of a log out of shape",
        what: "The head line of a log lacks a column, has one twice or one that means nothing, a row has more or fewer cells than the head, or most rows are wrong.",
        why: "A cell under the wrong name gives a wrong figure. Columns that are only remarks may be called `note` or begin with `x_`.",
        wrong: "speed,life,outcome\n220,14.5,worn",
        right: "speed_m_per_min,time_min,outcome\n220,14.5,worn",
    },
    Explanation {
        title: "an earlier report that cannot be read back",
        what: "A report given as --last or to `compare` is no JSON, or lacks a table or cell that a plan writes.",
        why: "What an earlier plan has made by now, and what has changed since, is reckoned from its tables.",
        wrong: "wearland plan --format json --table orders -o monday.json",
        right: "wearland plan --format json -o monday.json",
    },
    Explanation {
        title: "unknown name",
        what: "A name is used that no entry of the scenario or of the catalogs bears.",
        why: "Without the entry there is no tool, material or machine to reckon with.",
        wrong: "material = \"C54\"",
        right: "material = \"C45\"",
    },
    Explanation {
        title: "given twice",
        what: "Two entries bear one name, or a key stands twice in one table.",
        why: "Which of the two is meant cannot be told.",
        wrong: "[machine.lathe-1]\nlike = \"bar-lathe-42\"\n[machine.lathe-1]\nlike = \"bar-lathe-65\"",
        right: "[machine.lathe-1]\nlike = \"bar-lathe-42\"\n[machine.lathe-2]\nlike = \"bar-lathe-65\"",
    },
    Explanation {
        title: "calendar or shift does not make sense",
        what: "A date or time of day cannot be, shifts overlap, or a break lies outside its shift.",
        why: "Hours would be counted twice or not at all.",
        wrong: "[shift.early]\nfrom = \"06:00\"\nto = \"14:00\"\nbreaks = [\"14:30-15:00\"]",
        right: "[shift.early]\nfrom = \"06:00\"\nto = \"14:00\"\nbreaks = [\"11:30-12:00\"]",
    },
    Explanation {
        title: "geometry contradicts itself",
        what: "Lengths and diameters of a part or cut do not fit together.",
        why: "Such a cut takes metal that is not there, or leaves metal that should be gone.",
        wrong: "turn = { from = \"14 mm\", to = \"18 mm\", length = \"40 mm\" }",
        right: "turn = { from = \"18 mm\", to = \"14 mm\", length = \"40 mm\" }",
    },
    Explanation {
        title: "route or bill of materials leads in a circle or nowhere",
        what: "A product needs itself, directly or through its parts, or an item has nothing by which it is made.",
        why: "Work on it could never begin, or never end.",
        wrong: "[product.a]\nparts = { b = 1 }\n[product.b]\nparts = { a = 1 }",
        right: "[product.a]\nparts = { b = 1 }\n[part.b]\nmaterial = \"C45\"",
    },
    Explanation {
        title: "exactly one of several keys",
        what: "Of a group of keys that exclude each other, none or more than one is given.",
        why: "Each stands for another way to do or reckon the same, such as turning or drilling in one cut.",
        wrong: "tool = \"drill-8\"\ndrill = { depth = \"30 mm\" }\nream = { depth = \"30 mm\" }",
        right: "tool = \"drill-8\"\ndrill = { depth = \"30 mm\" }",
    },
    Explanation {
        title: "a limit of the machine is broken",
        what: "The cut needs more power, torque or feed rate than the machine has.",
        why: "The machine would stall, or run slower than reckoned.",
        wrong: "depth = \"6 mm\"   # needs 14 kW, the machine gives 9.4 kW",
        right: "depth = \"3 mm\"   # two passes, 7 kW each",
    },
    Explanation {
        title: "an edge does not last one piece",
        what: "The tool is worn out before the cut on a single piece is done.",
        why: "Edges are changed between pieces, so the cut cannot be made as it stands.",
        wrong: "speed = \"420 m/min\"   # edge worn after 3 min, the cut takes 4 min",
        right: "speed = \"260 m/min\"   # edge worn after 20 min",
    },
    Explanation {
        title: "no machine can run it",
        what: "None of the machines named for an operation can make it, or none has a shift to run on.",
        why: "The operation would wait for ever.",
        wrong: "machines = [\"washer\"]   # an operation with a turned cut",
        right: "machines = [\"lathe-1\"]",
    },
    Explanation {
        title: "no tool life data for this material",
        what: "The tool has no life figures for the ISO 513 group of the part's material.",
        why: "How long its edge lasts there is not known, and a figure for another group is not put in its place.",
        wrong: "material = \"X5CrNi18-10\"   # group M\ntool = \"turn-80-08-steel\"    # life.P alone",
        right: "[tool.turn-80-08-steel.life.M]\nspeed = \"150 m/min\"",
    },
    Explanation {
        title: "the log cannot tell",
        what: "The rows of a log do not determine what is asked: no edge used to its end, all at one speed, a block pasted twice.",
        why: "A number would come out, but another log of the same shop could give any other.",
        wrong: "speed_m_per_min,time_min,outcome\n200,14.2,worn\n200,11.9,worn",
        right: "speed_m_per_min,time_min,outcome\n200,14.2,worn\n250,6.1,worn",
    },
    Explanation {
        title: "outside the range of the law",
        what: "A speed or feed lies outside the range for which the tool life law or another formula was made.",
        why: "The figure is still given, but tests do not bear it out: prove it on the machine.",
        wrong: "speed = \"620 m/min\"   # the law is good for 120 .. 480 m/min",
        right: "speed = \"300 m/min\"",
    },
    Explanation {
        title: "a figure is missing",
        what: "Something could be reckoned further if a figure were given: a price, a rate, a power.",
        why: "It is left out of the result, not taken as zero.",
        wrong: "[tool.turn-80-08-steel]",
        right: "[tool.turn-80-08-steel]\nprice = \"9.80 EUR\"",
    },
    Explanation {
        title: "looks like a wrong unit",
        what: "The value can be read, but is far from what is usual for its key.",
        why: "A slip between m/min and ft/min, or mm and in, often shows so.",
        wrong: "feed = \"0.25 in/rev\"",
        right: "feed = \"0.25 mm/rev\"",
    },
    Explanation {
        title: "never used",
        what: "An entry is given and nothing refers to it.",
        why: "It does no harm, but may show that another name was meant elsewhere.",
        wrong: "[shift.night]   # no machine names it",
        right: "[machine.lathe-1]\nshifts = [\"early\", \"late\", \"night\"]",
    },
];

#[cfg(test)]
mod tests {
    use super::Code;

    #[test]
    fn each_code_has_its_own_explanation() {
        let mut titles: Vec<_> = Code::all().map(Code::title).collect();
        titles.sort_unstable();
        titles.dedup();
        assert_eq!(titles.len(), Code::all().count());
        for (code, word) in
            [(Code::UnknownName, "name"), (Code::ExactlyOne, "one"), (Code::NeverUsed, "used")]
        {
            assert!(code.title().contains(word), "{}", code.title());
        }
        let text = Code::NotToml.explanation().to_string();
        assert!(text.contains("Wrong:\n    speed = 220 m/min\n"), "{text}");
    }
}

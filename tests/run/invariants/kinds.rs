//! The kinds of sections that a random procedure is made of: a row each. `@` stands for the place of the section in the
//! procedure, `~` for the mark of a list whose order may be free. What [`super::procedures`] declares for all of them,
//! such as `first`, `helper`, `wrench` and `torque`, they can use.

/// A kind of section.
pub struct Kind {
    /// What its heading names.
    pub heading: &'static str,
    /// What the front matter declares for it: a line a name.
    pub tables: &'static str,
    /// Its steps.
    pub body: &'static str,
}

const fn kind(heading: &'static str, tables: &'static str, body: &'static str) -> Kind {
    Kind { heading, tables, body }
}

/// All of them.
pub static KINDS: &[Kind] = &[
    // What is read, computed, seen and said.
    kind("", "readings.r@ = { what = 'r', unit = 'mm', min = 'first / 2' }\n", "~ Read [r@].\n~ Wipe.\n"),
    kind(
        "",
        "readings.e@ = { what = 'e', unit = 'mm', nominal = 'first' }\nconditions.x@ = { failed = 'e@' }\n\
readings.f@ = { what = 'f', kind = 'count', nominal = 3 }\n",
        "1. Read [e@].\n2. [x@] Turn.\n3. Count [f@].\n",
    ),
    kind(
        "",
        "readings.a@ = { what = 'a', unit = 'mm', information_only = true }\n\
values.v@ = { what = 'v', unit = 'mm', formula = 'first + a@', max = '300 mm' }\n",
        "~ Read [a@]: [v@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.c@ = { what = 'c', choices = ['good', 'bad'], accept = ['good'] }\n",
        "~ See [c@].\n~ [helper] Wipe.\n",
    ),
    kind(
        "",
        "readings.s@ = { what = 's', kind = 'text' }\n\
readings.d@ = { what = 'd', kind = 'date', min = 2026-01-01 }\n\
readings.p@ = { what = 'p', kind = 'file' }\n",
        "~ Say [s@].\n~ Read [d@].\n~ Take [p@].\n",
    ),
    // Order, hazards, places to rest, levels of use.
    kind("", "", "~ Left:\n   - One.\n   - Two.\n~ Right.\n~ Top.\n"),
    kind("[fall]", "", "~ [fall] Do it.\n~ Wipe.\n"),
    kind("", "steps.b@ = 'do it'\n", "~ [b@] Do it.\n~ Wipe as in [b@].\n"),
    kind("", "stopping_points.z@ = { what = 'it can rest' }\n", "~ [z@] Do it.\n~ Wipe.\n"),
    kind("", "loose_ends.l@ = { what = 'l@ to do' }\n", "~ Do it: [l@] is left.\n~ Wipe.\n"),
    kind(
        "[routine]",
        "readings.r@ = { what = 'r', unit = 'mm', max = '220 mm' }\n",
        "~ Left:\n   - One.\n   - Two.\n~ Read [r@].\n",
    ),
    // Waits: too early, too late, with and without a path for that.
    kind(
        "",
        "waits.w@ = { what = 'w', at_least = '5 min', at_most = '1 h' }\n",
        "1. Start [w@].\n2. Wipe.\n3. End [w@].\n",
    ),
    kind(
        "",
        "waits.w@ = { what = 'w', at_most = '10 min' }\n",
        "1. Start [w@].\n2. Wipe.\n3. Press within [w@].\n",
    ),
    kind(
        "",
        "waits.w@ = { what = 'w', at_most = '10 min' }\nconditions.x@ = { missed = 'w@' }\n",
        "1. Start [w@].\n2. Press within [w@].\n3. [x@] Scrape it off.\n4. Wipe.\n",
    ),
    // A hold point that is verified again.
    kind("", "", "1. Wipe.\n2. [support] Again.\n3. Wipe.\n"),
    // One that tightens.
    kind(
        "",
        "holds.q@ = { what = 'q', confirm = ['seen'], readings = ['b@'], release = 'helper', lapses = ['disturbed'] }\n\
fasteners.b@ = { what = 'bolts', positions = ['1', '2'], \
stages = ['by hand', { what = 'full', unit = 'N·m', min = 20, max = 200, read = true }] }\n",
        "1. Wipe.\n2. [q@] Tighten [b@].\n3. Wipe.\n",
    ),
    // Repeats: so often, until, over a list, within each other, given up.
    kind(
        "[t@]",
        "readings.p@ = { what = 'p', unit = 'mm', information_only = true }\n\
values.m@ = { what = 'm', unit = 'mm', formula = 'mean(p@)', max = '250 mm' }\n\
repeats.t@ = { what = 'twice', times = 2 }\n",
        "~ Read [p@]: [m@].\n~ Wipe.\n",
    ),
    kind(
        "[t@]",
        "readings.u@ = { what = 'u', unit = 'mm', information_only = true }\n\
repeats.t@ = { what = 'until', until = 'u@ > 100 mm', at_most = 2, fails = 'Think.' }\n",
        "~ Read [u@].\n~ Wipe.\n",
    ),
    kind(
        "[t@]",
        "readings.q@ = { what = 'q', unit = 'mm', max = '180 mm' }\n\
repeats.t@ = { what = 'sides', each = ['left', 'right'] }\nrepeats.i@ = { what = 'places', times = 2 }\n",
        "~ [i@] On the [t@] read [q@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.l@ = { what = 'l', kind = 'list' }\nreadings.q@ = { what = 'q', unit = 'mm', max = '220 mm' }\n\
repeats.t@ = { what = 'faults', each = 'l@' }\n",
        "1. Write down [l@].\n2. [t@] Look up [t@]: [q@].\n3. Wipe.\n",
    ),
    kind(
        "",
        "readings.n@ = { what = 'n', kind = 'count', max = 3 }\nrepeats.t@ = { what = 'studs', times = 'n@', not_needed_after = 'each stud is looked at again' }\n",
        "1. Count [n@].\n2. [t@] Stud [t@]:\n   - Oil it.\n   - Turn it.\n3. Wipe.\n",
    ),
    kind(
        "",
        "readings.u@ = { what = 'u', unit = 'mm', information_only = true }\nconditions.x@ = { gave_up = 't@' }\n\
repeats.t@ = { what = 'adjust', until = 'u@ > 100 mm', at_most = 2 }\n",
        "1. [t@] Adjust:\n   1. Read [u@].\n   2. Turn.\n2. [x@] Call.\n3. Wipe.\n",
    ),
    kind("", "alternatives.o@ = { what = 'ways' }\n", "~ [o@] Pull:\n   - One.\n   - Two.\n~ Wipe.\n"),
    // Logs: a row every so many minutes.
    kind(
        "[t@]",
        "readings.g@ = { what = 'g', unit = 'mm', information_only = true }\n\
repeats.t@ = { what = 'log', times = 3, every = '5 min', late = '1 min' }\n",
        "~ Read [g@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.g@ = { what = 'g', unit = 'mm', max = '250 mm' }\n\
readings.h@ = { what = 'h', choices = ['no', 'yes'], information_only = true }\n\
repeats.t@ = { what = 'steady', until = 'spread(g@, last = 2) <= 50 mm', resets = 'h@ == \"yes\"', \
every = '5 min', late = '1 min', at_most = 4, fails = 'Think.' }\n",
        "1. Start it.\n2. [t@] A row:\n   1. Read [g@].\n   2. Turned: [h@].\n3. Wipe.\n",
    ),
    // How a reading is taken.
    kind(
        "",
        "readings.k@ = { what = 'k', unit = 's', stopwatch = true, max = '230 s' }\n\
repeats.t@ = { what = 'runs', times = 2 }\n",
        "~ [t@] Time it: [k@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', information_only = true }\n\
critical.e@ = { what = 'cut', type = 'cut it' }\ncritical.f@ = { what = 'bore', value = 'y@ / 3' }\n",
        "1. Read [y@].\n2. [e@] Cut it.\n3. [f@] Bore it.\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '250 mm' }\n\
watches.e@ = { what = 'e', unit = 'mm', below = '200 mm', readings = ['y@'] }\n",
        "1. Begin [e@].\n2. Read [y@].\n3. Let go [e@].\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '200 mm' }\n\
dues.d@ = { what = 'd', distance = '2 * y@', odometer = 'y@', months = 2, gone = '3 d' }\n",
        "1. Read [y@].\n2. Write down the [d@].\n3. Wipe.\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'N·m', max = '200 N·m', instrument = 'wrench', \
decision_rule = 'guard band' }\n",
        "~ Read [y@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '120 mm', as_found = true }\n\
readings.k@ = { what = 'k', unit = 'mm', max = '200 mm', as_left = 'y@' }\nconditions.x@ = { failed = 'y@' }\n",
        "1. Read [y@].\n2. [x@] Turn.\n3. Read [k@].\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '200 mm', never_above = '240 mm', opens = 'support' }\n",
        "~ Read [y@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '120 mm' }\nconditions.x@ = { failed = 'y@' }\n",
        "1. Read [y@].\n2. [x@] Turn.\n3. Wipe.\n",
    ),
    // Named outcomes in place of a value, and what rests on the number that they do not have.
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '200 mm', \
instead = { 'none there' = 'pass', 'no reading' = 'fail', 'not tried' = 'information only' } }\n\
values.v@ = { what = 'v', unit = 'mm', formula = 'first + y@', max = '300 mm' }\n\
readings.k@ = { what = 'k', unit = 'mm', max = 'y@' }\n\
conditions.x@ = { if = 'y@ == \"none there\" or y@ > 100 mm' }\nconditions.z@ = { if = 'y@ > 100 mm' }\n",
        "1. Read [y@]: [v@].\n2. [x@] Turn.\n3. [z@] Read [k@].\n4. Wipe.\n",
    ),
    kind(
        "",
        "readings.y@ = { what = 'y', choices = ['good', 'bad'], accept = ['good'], instead = { 'gone' = 'fail' } }\n\
conditions.x@ = { failed = 'y@' }\nconditions.z@ = { if = 'y@ == \"gone\"' }\n\
readings.n@ = { what = 'n', kind = 'count', max = 3, instead = { 'too many' = 'fail', 'none seen' = 'pass' }, \
second = 'helper' }\n",
        "~ See [y@].\n~ Count [n@].\n\nThen:\n\n1. [x@] Turn.\n2. [z@] Look.\n",
    ),
    kind(
        "[t@]",
        "readings.y@ = { what = 'y', unit = 'mm', information_only = true, instead = { 'no reading' = 'fail' } }\n\
values.m@ = { what = 'm', unit = 'mm', formula = 'mean(y@)', max = '250 mm' }\n\
values.h@ = { what = 'h', unit = 'mm', formula = 'if last(y@) == \"no reading\" then 0 mm else y@', \
information_only = true }\n\
repeats.t@ = { what = 'until', until = 'y@ > 100 mm', at_most = 2, fails = 'Think.' }\n",
        "~ Read [y@]: [h@], [m@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.n@ = { what = 'n', kind = 'count', max = 3, instead = { 'lost count' = 'information only' } }\n\
repeats.t@ = { what = 'studs', times = 'if n@ == \"lost count\" then 1 else n@' }\n",
        "1. Count [n@].\n2. [t@] Stud [t@].\n3. Wipe.\n",
    ),
    // Fasteners.
    kind(
        "",
        "fasteners.b@ = { what = 'bolts', positions = ['1', '2', '3', '4'], order = 'cross', instrument = 'wrench', \
stages = ['by hand', { what = 'half', torque = 'torque / 2' }, \
{ what = 'full', torque = 'torque', within = '25 %', read = true }] }\n",
        "~ Tighten [b@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "readings.n@ = { what = 'n', kind = 'count', information_only = true }\n\
fasteners.b@ = { what = 'bolts', count = 'n@', stages = ['by hand', \
{ what = 'turn', angle = '90 deg', within = '60 deg', read = true }] }\n",
        "~ Count [n@], tighten [b@].\n~ Wipe.\n",
    ),
    kind(
        "",
        "fasteners.b@ = { what = 'studs', positions = ['1', '2'], instrument = 'wrench', \
stages = [{ what = 'snug', unit = 'N·m', min = 20, max = 200, read = true }, \
{ what = 'full', unit = 'N·m', nominal = 'torque', read = true }, \
{ what = 'stretch', unit = 'mm', information_only = true, read = true }, { what = 'again', unit = 'N·m', above = 5 }] }\n",
        "~ Tighten [b@].\n~ Wipe.\n",
    ),
    kind(
        "[t@]",
        "repeats.t@ = { what = 'sides', each = ['left', 'right'] }\n\
fasteners.b@ = { what = 'nuts', positions = ['in', 'out'], order = ['out', 'in'], stages = ['snug', 'tight'] }\n",
        "~ Tighten [b@].\n~ [helper] Wipe.\n",
    ),
    // People: blind second readings, checks, witnesses.
    kind(
        "",
        "readings.y@ = { what = 'y', unit = 'mm', max = '200 mm', second = 'helper', agree = '40 mm' }\n\
checks.k@ = { what = 'k', by = 'helper', alone = '10 min' }\nwitnesses.s@ = { what = 's', by = 'helper' }\n",
        "~ [s@] [k@] Read [y@].\n~ [helper] Wipe.\n",
    ),
];

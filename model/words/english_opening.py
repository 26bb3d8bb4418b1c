"""The sentences before the first row and after the last one, in English: facts, notes, bind-off, weighing, blocking."""

from halfhank.model.words.templates import Template, forms

OPENING: dict[str, Template] = {
    "head.size": "size",
    "head.by": "{wide} x {deep}",
    "head.yarn": "yarn",
    "head.skein": "1 skein of {mass}, {length}",
    "head.yarn-used": "yarn used",
    "head.used": "{mass}, {length}",
    "head.used-bound-off": "{mass}, {length}, bind-off included",
    "head.margin": "; {margin} more as a margin",
    "head.needles": "needles",
    "head.needles-us": "{size} (US {us})",
    "head.gauge": "gauge",
    "head.gauge-of": "{stitch} {stitches} sts x {rows} rows over {length}",
    "head.gauge-blocked": ", blocked",
    "notes.heading": "Notes",
    "made.triangle-from-the-neck": "The shawl is worked from the middle of the neck down to its lower edges.",
    "made.triangle-from-its-lower-edge": "The shawl is worked from its lower edges up to the neck.",
    "made.triangle-from-its-point": "The shawl is worked from its point up to its long edge.",
    "made.triangle-from-its-long-edge": "The shawl is worked from its long edge down to its point.",
    "made.crescent": "The crescent is worked from the neck down to its long lower edge.",
    "made.half-circle": "The half-circle is worked from the neck out to its rim.",
    "made.asymmetric-triangle": "The triangle is worked sideways, from one tip to its widest row.",
    "made.bias-strip": "The strip is worked on the bias, from one end to the other.",
    "made.worked-from-tip-to-tip": "The shawl is worked sideways, from one tip to the other.",
    "made.rectangle": "The rectangle is worked from one short end to the other.",
    "made.other": "The shawl is worked in one piece, in rows.",
    "notes.grows": "It grows {places}.",
    "notes.narrows": "It becomes narrower {places}.",
    "notes.teeth": "For the sawtooth edge, stitches are bound off {places}.",
    "notes.level": "All rows have the same count.",
    "notes.sides": "RS rows start at the lower edge (the right one, seen from the right side) and end at the "
    "upper edge; WS rows start at the upper edge.",
    "notes.sides-named": "The lower edge is the one at which RS rows start, the upper edge the one at which they end.",
    "notes.unknown": "Where a row says `work in` and the name of a stitch pattern, no rows of it are given here: "
    "work it as you did in your swatch, over the stitches named.",
    "notes.edge": "The first and last {stitches} of a row are its edge, worked in {stitch}.",
    "term.garter": "Garter: knit every row; 2 rows make a ridge.",
    "term.stockinette": "Stockinette: knit on RS rows, purl on WS rows.",
    "term.drop": "Drop stitch: a row with extra wraps, and the row in which they are dropped. Each st of the first "
    "row, edge sts too, becomes one long loop; increases between them are not wrapped, and stay on the needle.",
    "term.wing": "Wing: the stitches between an edge and the spine. The first wing is worked first on RS rows.",
    "term.marker": "Markers stand on each side of the spine: slip them as you come to them. Increases beside the "
    "spine lie outside the markers.",
    "notes.mirrored": "The second half has the bands of the first in reverse order, with decreases in place of "
    "increases. These fall on other rows of the bands.",
    "notes.letters": "Letters stand for numbers: the lines below give them for each row.",
    "notes.centred": "For a decrease in the middle of the spine remove the markers, work it over the spine and "
    "one st on each side, and place the markers again on each side of the st that is left.",
    "notes.other-increase": "You may use another increase in place of the one named, if it makes as many stitches.",
    "abbreviations.heading": "Abbreviations",
    "how.st": "stitch (stitches)",
    "how.rep": "repeat",
    "how.RS": "right side (a right-side row)",
    "how.WS": "wrong side (a wrong-side row)",
    "how.sm": "slip the marker from the left needle to the right one",
    "how.brackets": "work what is in the brackets so many times in all as the number after them says",
    "how.in-one": "work all that is in the brackets into the st or sts named after them",
    "bind-off.heading": "Bind off",
    "bind-off.finish": "Finish",
    "bind-off.right-side": "On the next row, a RS row, work {method} over all {stitches}:",
    "bind-off.wrong-side": "On the next row, a WS row, work {method} over all {stitches}:",
    "bind-off-name.standard": "a standard bind-off",
    "bind-off-name.elastic": "an elastic bind-off",
    "bind-off-name.picot": "a picot bind-off",
    "bind-off-name.i-cord": "an i-cord bind-off",
    "bind-off-name.own": "the bind-off of your swatch",
    "bind-off.standard": "K1, *k1, pass the first st on the right needle over the second; rep from * until 1 st "
    "is on the right needle and none on the left one.",
    "bind-off.elastic": "K1, *k1, slip both sts back to the left needle, k2tog tbl; rep from * until 1 st is on "
    "the right needle and none on the left one.",
    "bind-off.by-width": "Use the method of your own swatch, which takes {takes} times the width of the row in "
    "yarn. If you have none, use this one:",
    "bind-off.by-stitch": "Use the method of your own swatch, which takes the yarn of {takes} sts for each st "
    "bound off. If you have none, use this one:",
    "bind-off.picot-on": "Picot, step 1: cast on {cast_on} to the left needle. For each of them knit into the first "
    "st, leave it on the left needle, and put the new loop on the left needle too.",
    "bind-off.picot-off": forms(
        "off",
        one="Step 2: bind off 1 st: k1, k1, pass the first st on the right needle over the second. 1 st is on the "
        "right needle.",
        other="Step 2: bind off {off} sts: k1, [k1, pass the first st on the right needle over the second] {off} "
        "times. 1 st is on the right needle.",
    ),
    "bind-off.picot-back": "Step 3: slip this st back to the left needle.",
    "bind-off.picot-times": forms(
        "count",
        one="Work steps 1 to 3 once: 1 picot.",
        other="Repeat steps 1 to 3 until there are {count} picots.",
    ),
    "bind-off.last": "Bind off the last {count} sts without a picot: k1, *k1, pass the first st on the right "
    "needle over the second; rep from * until 1 st is on the right needle.",
    "bind-off.last-one": "Knit the last st.",
    "bind-off.i-cord": "Cast on {cord} to the left needle: for each, knit into the first st, leave it on, and "
    "put the new loop on the left needle. *K2, k2tog tbl, slip the 3 sts back to the left needle; rep from * "
    "until only these 3 sts are there.",
    "bind-off.draw-through": "Cut the yarn, leaving a tail of 20 cm (8 in). Thread it through the last "
    "{stitches} with a tapestry needle, draw up tight and fasten off.",
    "bind-off.cut": "Cut the yarn and draw it through the last {stitches}.",
    "bind-off.cut-last": "Cut the yarn and draw it through the last st.",
    "weigh.heading": "Weighing",
    "weigh.how": "Weigh only the yarn that is not yet worked, without the shawl. That is what “on the scale” means "
    "here.",
    "weigh.half": "Half of this shawl's yarn, {used}, is used in row {row}. After it {mass} are on the scale.",
    "weigh.repeat": "After row {row}: work another repeat (the {number}) only if at least {mass} are on the "
    "scale; else {next}.",
    "weigh.rows": "From row {row} on, after every {count} rows: work {count} more only if at least {mass} are on "
    "the scale; else {next}.",
    "weigh.next-part": "go on with part {number}, {name}",
    "weigh.next-band": "go on with what follows the repeats in this part",
    "weigh.next-rows": "go on with what follows these rows in this part",
    "weigh.next-turn": "turn back: go on with part {number}, {name}",
    "weigh.next-bind-off": "bind off",
    "weigh.next-finish": "finish",
    "weigh.other-counts": "If you work another number of repeats, the numbers and counts of all rows after them "
    "change. The next row after the last repeat is then the first of what follows.",
    "weigh.with-repeats": forms(
        "count",
        one="{count} repeat: it ends with row {row}, {live}",
        other="{count} repeats: the last ends with row {row}, {live}",
    ),
    "weigh.at-the-end": "; the shawl ends with row {row}, {stitches}",
    "weigh.rewritten": " The rows of part {number}, {name}, are then others than those printed here.",
    "weigh.picots": forms("count", one="; {count} picot", other="; {count} picots"),
    "weigh.turn": "After row {row}, the last of the first half: at least {mass} must be on the scale. If there is "
    "less, unravel the last repeat and {next}.",
    "weigh.turn-bare": "After row {row}, the last of the first half: at least {mass} must be on the scale. If there is "
    "less, unravel some rows and work as many fewer in the second half.",
    "weigh.turn-latest": "There is yarn to turn back after row {row} at the latest, with {mass} on the scale.",
    "weigh.stop-bare": "Stop and bind off when less than {mass} are on the scale: the bind-off takes them.",
    "weigh.stop": "Stop and bind off when less than {mass} are on the scale: {off} for the bind-off and {margin} "
    "as a margin.",
    "blocking.heading": "Blocking",
    "blocking.wash": "Soak the shawl in cool water, press the water out without wringing, and lay it flat.",
    "blocking.straight": "Pin its top edge straight, {wide} wide, and pin it out to a depth of {deep}.",
    "blocking.pinned": "Pin it out to {wide} wide and {deep} deep.",
    "blocking.stretched": "Pin it out to {wide} wide and {deep} deep; this stretches the fabric more than usual.",
    "blocking.curved": "Ease it into its curve without stretching it: {wide} wide and {deep} deep.",
    "blocking.flat": "Smooth it to its size without stretching it: {wide} wide and {deep} deep. Pin the edges.",
    "blocking.spine": "The spine measures {length}.",
    "blocking.dry": "Let it dry, then weave in the ends.",
}

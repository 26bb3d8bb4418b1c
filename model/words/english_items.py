"""How each item of working notation is worked, in English: for abbreviations and chart keys.

The makings are those of the trade's abbreviation lists (common practice, from memory).
"""

from halfhank.model.words.templates import Template, forms

ITEMS: dict[str, Template] = {
    "item.k": "knit",
    "item.p": "purl",
    "item.yo": "yarn over: bring the yarn to the front between the needles, then over the right needle to the back",
    "item.yo twice": "lay the yarn over the right needle twice: 2 sts, of which one is knit and one purled in the "
    "next row where it does not say otherwise",
    "item.k2tog": "knit 2 sts together",
    "item.ssk": "slip 2 sts one by one as if to knit, put them back on the left needle, "
    "knit them together through the back loops",
    "item.p2tog": "purl 2 sts together",
    "item.ssp": "slip 2 sts one by one as if to knit, put them back on the left needle, "
    "purl them together through the back loops",
    "item.k3tog": "knit 3 sts together",
    "item.sssk": "slip 3 sts one by one as if to knit, put them back on the left needle, "
    "knit them together through the back loops",
    "item.p3tog": "purl 3 sts together",
    "item.sssp": "slip 3 sts one by one as if to knit, put them back on the left needle, "
    "purl them together through the back loops",
    "item.s2kp": "slip 2 sts together as if to knit, knit 1, pass the 2 slipped sts over it",
    "item.s2pp": "slip 2 sts one by one as if to knit, put the right needle into both from the left through the back "
    "loops and slip them together, purl 1, pass the 2 slipped sts over it",
    "item.sk2p": "slip 1 st as if to knit, knit 2 sts together, pass the slipped st over",
    "item.sl": "slip as if to purl",
    "item.kfb": "knit into the front and into the back of the same st",
    "item.pfb": "purl into the front and into the back of the same st",
    "item.m1": "make 1: lift the strand between the needles from front to back with the left needle, "
    "knit it through the back loop",
    "item.m1l": "make 1 leaning left: lift the strand between the needles from front to back with the left needle, "
    "knit it through the back loop",
    "item.m1r": "make 1 leaning right: lift the strand between the needles from back to front with the left needle, "
    "knit it through the front loop",
    "item.m1lp": "make 1 purlwise, leaning left on the right side: lift the strand between the needles from front to "
    "back with the left needle, purl it through the back loop",
    "item.m1rp": "make 1 purlwise, leaning right on the right side: lift the strand between the needles from back to "
    "front with the left needle, purl it through the front loop",
    "item.rc": "slip {first} sts to a cable needle and hold them {place}, knit {second} from the left needle, knit the "
    "{first} from the cable needle",
    "item.lc": "slip {first} sts to a cable needle and hold them {place}, knit {second} from the left needle, knit the "
    "{first} from the cable needle",
    "item.at the back": "at the back",
    "item.in front": "in front",
    "item.tbl": "through the back loop",
    "item.wyif": "with the yarn in front",
    "item.with N wraps": "wrap the yarn N times around the needle in place of once, for each st",
    "item.drop wraps": "in this row let the extra wraps of the row before fall from the needle as you come to each st",
    "item.bind off": "work 2 sts, *pass the first over the second, work 1 st; rep from * until N sts are bound off. "
    "At the start of a row the st left on the right needle is the first st of what follows; "
    "later in a row pass the st worked before over first",
    "item.cast on": "make N backward loops on the right needle",
    "item.cast on left": "N times: knit into the first st on the left needle, leave it there, "
    "and put the new loop on the left needle too",
    "item.pass over": "pass the second st on the right needle over the first one and off the needle",
    "item.sl back": "slip N sts from the right needle back to the left needle",
    "item.times": "work what is in the brackets N times in all",
    "item.in": "work all that is in the brackets into one st, or into N sts together",
    "item.work": "N sts in that stitch pattern, for which no rows are given here",
    "item.RS": "right side",
    "item.WS": "wrong side",
    "item.st": "stitch",
    "item.sts": "stitches",
    "key-item.k": "knit",
    "key-item.p": "purl",
    "key-item.yo": "yarn over",
    "key-item.k2tog": "knit 2 together",
    "key-item.ssk": "slip 2 as if to knit, one by one, knit them together",
    "key-item.p2tog": "purl 2 together",
    "key-item.ssp": "slip 2 as if to knit, one by one, purl them together through the back",
    "key-item.k3tog": "knit 3 together",
    "key-item.sssk": "slip 3 as if to knit, one by one, knit them together",
    "key-item.s2kp": "slip 2 together as if to knit, knit 1, pass the slipped stitches over",
    "key-item.sk2p": "slip 1, knit 2 together, pass the slipped stitch over",
    "key-item.p3tog": "purl 3 together",
    "key-item.sssp": "slip 3 as if to knit, one by one, purl them together through the back",
    "key-item.s2pp": "slip 2 as if to knit, one by one, put them back, slip both at once as if to purl them together "
    "through the back, purl 1, pass the slipped stitches over",
    "key-item.sl": "slip as if to purl",
    "key-item.kfb": "knit into the front and the back of one stitch",
    "key-item.pfb": "purl into the front and the back of one stitch",
    "key-item.m1l": "make 1 leaning to the left, from the strand between two stitches",
    "key-item.m1r": "make 1 leaning to the right, from the strand between two stitches",
    "key-item.m1lp": "make 1 purlwise leaning to the left, from the strand between two stitches",
    "key-item.m1rp": "make 1 purlwise leaning to the right, from the strand between two stitches",
    "key-item.m1": "make 1 from the strand between two stitches, either lean",
    "key-item.bind off": "pass each stitch over the one worked after it",
    "key-item.cast on": "make each stitch as a loop on the right needle",
    "key-item.drop wraps": "drop the extra wraps of the row before, in the whole row",
    "key.tbl": "{words} through the back loop",
    "key.wyif": "{words}, yarn in front",
    "key.wraps": "{words}, yarn {wraps} times around the needle",
    "key.in-one": forms(
        "stitches",
        one="work all {count} into the same stitch",
        other="work all {count} into the next {stitches} stitches as one",
    ),
    "key.held-at-back": "hold {held} on a cable needle at the back, knit {worked}, knit the {held} held",
    "key.held-in-front": "hold {held} on a cable needle in front, knit {worked}, knit the {held} held",
}

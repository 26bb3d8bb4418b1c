"""How each item of working notation is worked, in English: for abbreviations and chart keys.

The makings are those of the trade's abbreviation lists (common practice, from memory).
"""

from halfhank.model.words.templates import Template

ITEMS: dict[str, Template] = {
    "item.k": "knit",
    "item.p": "purl",
    "item.yo": "yarn over: lay the yarn over the right needle from front to back",
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
    "item.cast on left": "cast on N sts to the left needle: knit a st, put it on the left needle, N times",
    "item.pass over": "pass the second st on the right needle over the first one and off the needle",
    "item.sl back": "slip N sts from the right needle back to the left needle",
    "item.times": "work what is in the brackets N times in all",
    "item.in": "work all that is in the brackets into one st, or into N sts together",
    "item.work": "N sts in that stitch pattern, for which no rows are given here",
    "item.RS": "right side",
    "item.WS": "wrong side",
    "item.st": "stitch",
    "item.sts": "stitches",
}

/** Things of a list of materials that are no yarn. */
export const otherWord =
  /\b(?:hooks?|needles?|markers?|stuffing|fill(?:ing|er)?|fib(?:er|re) ?fill|fib(?:er|re)|scissors|eyes?|noses?|buttons?|beads?|pins?|starch|zips?|zippers?|pads?|embroidery|floss|tape|felt|elastic|ribbon|magnet|wire|pompom|lining|ring)\b/i;

/*
 * Names of colours that yarn is sold and patterns are written in. Common practice, no source: a word
 * that is missing here is only not recognised as a colour where nothing else tells that it is one.
 */
const names =
  "white|cream|ivory|ecru|black|charcoal|grey|gray|silver|red|burgundy|maroon|crimson|scarlet|rust|" +
  "orange|apricot|peach|coral|salmon|pink|fuchsia|magenta|rose|purple|lilac|lavender|violet|mauve|plum|" +
  "blue|navy|turquoise|teal|aqua|denim|green|mint|sage|olive|khaki|lime|yellow|lemon|mustard|gold|golden|" +
  "indigo|amber|ochre|terracotta|russet|slate|stone|oatmeal|raspberry|cherry|emerald|jade|heather|clay|moss|chalk|" +
  "brown|tan|beige|camel|taupe|caramel|chocolate|bronze|copper|sand|multicolour|multicolor|variegated";

export const colourNames: ReadonlySet<string> = new Set(names.split("|"));

/** Words before a colour that belong to its name: `light blue`. */
export const colourShades: ReadonlySet<string> = new Set(
  "light|dark|deep|pale|bright|soft|dusty|off|hot|royal|sky|mid|medium|neon|pastel|warm|cool".split("|"),
);

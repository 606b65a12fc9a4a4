/*
 * What things are made of yarn, by words that mean the same, and words that often stand for something
 * else left out: crab stitch, a damp cloth, to seal, to frog. Common practice, no source.
 */
const kinds =
  "bear teddy|bunny rabbit hare|fox|cat kitten kitty|dog puppy pup|elephant|lion|tiger|owl|penguin|whale|dolphin|" +
  "octopus squid|dinosaur dino|dragon|unicorn horse pony|sheep lamb|pig piglet|cow|duck duckling|chicken chick hen|" +
  "tortoise|mouse|monkey|giraffe|mole|hedgehog|squirrel|deer reindeer fawn|snail|bee|ladybird ladybug|shark|koala|" +
  "panda|sloth|snowman|gnome|witch|angel|fairy|mermaid|doll|robot|" +
  "shawl shawlette scarf stole cowl|hat beanie bonnet beret|blanket throw afghan|bag tote purse pouch|basket|coaster|" +
  "doily|sock|slipper bootee bootie|mitten mitt glove|cardigan jacket sweater pullover jumper tunic dress vest|poncho|" +
  "cushion pillow|potholder|dishcloth washcloth|teapot cosy cozy|headband|wreath garland bunting|curtain|rug|" +
  "tablecloth runner|bookmark";

/** Each word, in the singular, with those that mean about the same. */
export const madeThings: ReadonlyMap<string, readonly string[]> = new Map(
  kinds.split("|").flatMap((kind) => {
    const words = kind.split(" ");
    return words.map((word) => [word, words] as const);
  }),
);

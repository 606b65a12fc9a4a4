/*
 * Sorts of things that are crocheted, with words that only such things have. Common practice, no source: a
 * word that is missing here is only not known to belong to another sort of thing.
 */

/** A sort of thing, by words in lower case and in the singular. */
export interface SortOfThing {
  /** What the thing is called. */
  readonly things: readonly string[];
  /** What only such things have, or are put on. */
  readonly parts: readonly string[];
}

const sort = (things: string, parts = ""): SortOfThing => ({
  things: things.split(" "),
  parts: parts === "" ? [] : parts.split(" "),
});

export const sortsOfThings = {
  head: sort(
    "hat beanie beret bonnet cap toque tam balaclava headband earwarmer turban hairband helmet",
    "crown brim earflap visor",
  ),
  hands: sort("mitten mitt glove wristwarmer handwarmer gauntlet wrister muff", "thumb thumbhole"),
  feet: sort("sock slipper bootee bootie shoe sandal boot stocking legwarmer", "heel toe sole instep ankle"),
  upper: sort(
    "sweater jumper cardigan pullover vest waistcoat tank tee tunic dress bolero shrug jacket coat poncho cape hoodie romper blouse singlet garment tabard gilet",
    "sleeve armhole yoke neckline collar placket hood",
  ),
  neck: sort("scarf shawl cowl wrap shawlette snood stole neckwarmer kerchief bandana capelet"),
  /** What is tied around a neck of any size. */
  scarves: sort("scarf kerchief bandana"),
  covers: sort("blanket throw afghan bedspread coverlet quilt rug lapghan lovey"),
  cushions: sort("cushion pillow pouf bolster"),
  bags: sort("bag tote purse pouch backpack clutch handbag satchel rucksack sack basket bowl bin tray caddy"),
  tables: sort(
    "coaster placemat doily runner tablecloth trivet potholder napkin mat centrepiece centerpiece hotpad",
  ),
  cloths: sort("dishcloth washcloth facecloth flannel scrubby scrubbie towel cloth"),
  cosies: sort("teapot cosy cozy kettle mug jar bottle vase", "spout"),
  hung: sort("garland bunting wreath bauble mobile bookmark dreamcatcher curtain", "pennant"),
  joined: sort("square hexagon motif medallion granny patch"),
  toys: sort(
    "toy doll amigurumi softie plushie puppet teddy animal creature",
    "leg arm ear foot paw wing fin flipper trunk snout beak horn hoof muzzle mane whisker antler udder tusk antenna",
  ),
} as const satisfies Record<string, SortOfThing>;

export type SortName = keyof typeof sortsOfThings;

/** Sorts that are found in one pattern: toys wear clothes, sets have several things, mugs stand on mats. */
export const goTogether: readonly (readonly [SortName, SortName])[] = [
  ["toys", "head"],
  ["toys", "upper"],
  ["toys", "scarves"],
  ["toys", "hands"],
  ["toys", "feet"],
  ["toys", "bags"],
  ["head", "neck"],
  ["head", "hands"],
  ["head", "upper"],
  ["neck", "hands"],
  ["neck", "upper"],
  ["upper", "feet"],
  ["tables", "cosies"],
  ["tables", "cloths"],
  ["bags", "cosies"],
  ["covers", "cushions"],
];

const kinds = (text: string): readonly (readonly string[])[] =>
  text.split(",").map((kind) => kind.trim().split(" "));

/** Animals and figures that toys are, the names of one kind together. */
export const figures: readonly (readonly string[])[] = kinds(
  "cat kitten kitty feline, dog puppy pup hound dachshund poodle, bear teddy cub panda koala, rabbit bunny hare, mouse rat hamster, fox vixen, seal walrus, pig piglet hog, cow calf bull ox, sheep lamb ewe ram, goat kid, horse pony foal unicorn zebra donkey, duck duckling, chicken hen chick rooster cockerel, goose gosling, owl owlet, penguin, frog toad, turtle tortoise, whale orca, dolphin porpoise, shark, octopus squid jellyfish, crab lobster, snail, bee bumblebee, ladybird ladybug beetle, butterfly moth, caterpillar, elephant, giraffe, lion lioness, tiger, monkey ape gorilla, hippo hippopotamus, rhino rhinoceros, dinosaur dino dragon, hedgehog, squirrel, raccoon, badger, otter beaver, deer fawn reindeer moose, sloth, llama alpaca, crocodile alligator, parrot, puffin, gull seagull, snowman, gnome elf, mermaid, witch, robot, angel, santa",
);

/** Parts that some animals have and others have not: their names, and who has them. */
export interface PartOfFew {
  readonly parts: readonly string[];
  readonly bearers: readonly string[];
}

const birds = "duck chicken goose owl penguin parrot puffin gull";
const partOf = (parts: string, bearers: string): PartOfFew => ({
  parts: parts.split(" "),
  bearers: bearers.split(" "),
});

export const partsOfFew: readonly PartOfFew[] = [
  partOf("trunk", "elephant"),
  partOf("beak bill", `${birds} octopus turtle`),
  partOf("horn antler", "cow goat sheep unicorn dragon dinosaur deer giraffe rhino snail hippo"),
  partOf("hoof", "cow goat sheep horse deer pig giraffe llama"),
  partOf(
    "paw",
    "cat dog bear rabbit mouse fox lion tiger monkey hedgehog squirrel raccoon badger otter sloth",
  ),
  partOf("mane", "lion horse giraffe"),
  partOf("udder", "cow goat sheep"),
  partOf("tusk", "elephant seal"),
  partOf("wing", `${birds} bee butterfly ladybird dragon angel unicorn`),
  partOf("fin fluke", "whale dolphin shark seal mermaid dragon"),
  partOf("antenna feeler", "bee butterfly ladybird snail caterpillar lobster robot"),
  partOf("tentacle", "octopus snail"),
];

import { type Language, survey } from "./language";

const pages = "blogahistoires.over-blog.com/tag/crochet/2; cachalabibi.com/le-crochet/types-de-mailles";

/** "db" is printed for the demi-bride and for the double bride, so it is neither until the pattern explains it. */
export const french: Language = {
  code: "fr",
  name: "French",
  itself: "français|francais",
  row: { words: "rang|rangs|rg|rgs", written: "Rang {n}" },
  round: { words: "tour|tours", written: "Tour {n}" },
  stitches: [
    {
      source: pages,
      names: {
        ch: "ml|maille en l'air|mailles en l'air",
        "sl st": "mc|maille coulée|mailles coulées",
        sc: "ms|maille serrée|mailles serrées",
        hdc: "demi-br|demi-bride|demi-brides|dB|db",
        dc: "br|bride|brides|B|bs",
        tr: "dbr|double bride|doubles brides|double-bride|db",
        yo: "jeté",
      },
    },
    { source: survey, names: { inc: "aug|augmentation|augmentations", dec: "dim|diminution|diminutions" } },
    { source: null, names: { "magic ring": "cercle magique|anneau magique" } },
  ],
  words: {
    in: "dans|sur",
    each: "chaque|toutes",
    next: "prochaine|prochaines",
    first: "première|premières|1ère|1re",
    last: "dernière|dernières",
    same: "même|mêmes",
    st: "m|maille|mailles",
    and: "et",
    turn: "tourner|tournez",
    repeat: "répéter|rép|répétez",
    from: "depuis",
    "from hook": "à partir du crochet|depuis le crochet|en partant du crochet",
    times: "fois",
    around: "tout autour|tout le tour|autour",
    across: "jusqu'à la fin|jusqu'au bout",
    skip: "sauter|sautez|passer",
    join: "fermer|joindre",
    "back loop": "brin arrière",
    "front loop": "brin avant",
    "fasten off": "arrêter le fil|couper le fil",
    the: "un|une|le|la|les|l'|des|du|de|suivante|suivantes|suiv|avec",
  },
  chain: { verbs: "monter|faire|montez|faites", written: "Monter {n} ml" },
};

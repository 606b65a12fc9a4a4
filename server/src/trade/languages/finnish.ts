import { type Language, translationChart } from "./language";

export const finnish: Language = {
  code: "fi",
  name: "Finnish",
  itself: "suomi|suomeksi",
  row: { words: "rivi|rivit", written: "{n}. rivi" },
  round: { words: "krs|kerros|kerrokset", written: "{n}. krs" },
  stitches: [
    {
      source: translationChart,
      names: {
        ch: "kjs|ketjusilmukka|ketjusilmukkaa",
        "sl st": "ps|piilosilmukka|piilosilmukkaa",
        sc: "ks|kiinteä silmukka|kiinteää silmukkaa",
        hdc: "puolip|puolipylväs|puolipylvästä",
        dc: "p|pylväs|pylvästä",
        tr: "pp|2p|pitkä pylväs|kaksoispylväs|kaksoispylvästä",
        dtr: "epp|erikoispitkä pylväs",
      },
    },
    {
      source: null,
      names: {
        inc: "lis|lisäys|lisäystä",
        dec: "kav|kavennus|kavennusta",
        "magic ring": "taikalenkki|taikarengas",
      },
    },
  ],
  words: {
    each: "jokainen|jokaiseen|joka",
    next: "seuraava|seuraavaan",
    first: "ensimmäinen|ensimmäiseen",
    last: "viimeinen|viimeiseen",
    same: "sama|samaan",
    st: "s|silmukka|silmukkaa|silmukkaan",
    and: "ja",
    turn: "käännä",
    repeat: "toista",
    times: "kertaa",
    around: "ympäri",
    the: "virkkaa",
  },
  chain: { verbs: "virkkaa|tee", written: "Virkkaa {n} kjs" },
};

import { type Language, survey } from "./language";

const lists =
  "code-knacker.de/haekelschrift.htm; craftery.de/Haekeln/Haekeln-lernen/Die-wichtigsten-Haekelmaschen; huggingface.co/datasets/FrancophonIA/crochet_terms (ch, sl st, sc)";

export const german: Language = {
  code: "de",
  name: "German",
  itself: "deutsch",
  row: { words: "reihe|reihen|r", written: "{n}. Reihe" },
  round: { words: "runde|runden|rd|rde|rnd", written: "{n}. Runde" },
  stitches: [
    {
      source: lists,
      names: {
        ch: "Lm|Lfm|Luftmasche|Luftmaschen",
        "sl st": "Km|Ktm|Kettm|Kettmasche|Kettmaschen",
        sc: "fM|feste Masche|feste Maschen|festen Maschen",
        hdc: "hStb|halbes Stäbchen|halbe Stäbchen|halben Stäbchen",
        dc: "Stb|Stäbchen",
        tr: "DStb|Doppelstäbchen|doppeltes Stäbchen|doppelte Stäbchen",
        dtr: "dreifStb|3-fach Stb|dreifaches Stäbchen|dreifache Stäbchen",
        dec: "Abn|Abnahme|Abnahmen",
        "magic ring": "Fadenring|FR",
      },
    },
    { source: survey, names: { inc: "M verd|M verdoppeln|verd" } },
    { source: null, names: { inc: "Zun|Zunahme|Zunahmen", "magic ring": "magischer Ring|magischen Ring" } },
  ],
  words: {
    "inc in each st": "jede M verd|jede M verdoppeln|jede Masche verdoppeln|alle M verd|alle M verdoppeln",
    in: "in|ins|im|auf",
    each: "jede|jeder|jedes|jedem|jeden|alle|allen",
    next: "nächste|nächsten|folgende|folgenden|nä",
    first: "erste|ersten|1.",
    last: "letzte|letzten",
    same: "gleiche|gleichen|selbe|selben|dieselbe",
    st: "M|Masche|Maschen|Stelle",
    and: "und|u",
    turn: "wenden|Arbeit wenden",
    repeat: "wiederholen|wdh|wiederhole",
    from: "ab",
    "from hook": "ab Nadel|von der Nadel|ab der Nadel|von der Nadel aus",
    times: "mal|x",
    around: "rundherum|rundum|ringsum",
    across: "bis zum Ende|bis Ende|bis zum Reihenende",
    skip: "überspringen|überspr|auslassen|übergehen",
    join: "schließen|Runde schließen",
    "back loop": "hintere Maschenglied|hMG|hintere MG",
    "front loop": "vordere Maschenglied|vMG|vordere MG",
    "fasten off": "Faden abschneiden|Faden abschneiden und vernähen|abketten",
    the: "den|die|das|der|dem|ein|eine|einen|einer|einem|häkeln|je|noch|mit",
  },
  chain: { verbs: "", written: "{n} Lm anschlagen" },
};

import type { Language } from "./language";

/** Patterns use both punto (older) and maglia (newer) for the same stitches. */
export const italian: Language = {
  code: "it",
  name: "Italian",
  itself: "italiano",
  row: { words: "riga|righe", written: "Riga {n}" },
  round: { words: "giro|giri", written: "Giro {n}" },
  stitches: [
    {
      source:
        "marisellagrafica.altervista.org/uncinettopuntibase.htm; lanagatto.it/it/passione-crochet-labc-della-tecnica-con-video (maglia alta); huggingface.co/datasets/FrancophonIA/crochet_terms (ch, sl st)",
      names: {
        ch: "punto catenella|punti catenella|catenella|catenelle",
        "sl st": "maglia bassissima|maglie bassissime|piccolo punto",
        sc: "punto basso|punti bassi",
        hdc: "mezza maglia alta|mezze maglie alte|mezzo punto alto|mezzi punti alti",
        dc: "maglia alta|maglie alte|punto alto|punti alti",
      },
    },
    {
      source: null,
      names: {
        ch: "cat",
        sc: "mb|maglia bassa|maglie basse",
        tr: "maglia alta doppia|maglie alte doppie",
        inc: "aum|aumento|aumenti",
        dec: "dim|diminuzione|diminuzioni",
        "magic ring": "anello magico|cerchio magico",
      },
    },
  ],
  words: {
    in: "in|nel|nella|nelle|nei|su",
    each: "ogni|ciascuna",
    next: "prossima|prossime|seguente|seguenti",
    first: "prima|prime|primo",
    last: "ultima|ultime|ultimo",
    same: "stessa|stesso",
    st: "m|maglia|maglie|punto|punti",
    and: "e",
    turn: "girare|voltare|gira",
    repeat: "ripetere|rip|ripeti",
    from: "da",
    "from hook": "dall'uncinetto",
    times: "volte",
    around: "tutt'intorno",
    across: "fino alla fine",
    skip: "saltare|salta",
    join: "chiudere|unire",
    the: "un|una|uno|il|la|le|lo|i|gli|con|di",
  },
  chain: { verbs: "avviare|avvia|fare", written: "Avviare {n} punti catenella" },
};

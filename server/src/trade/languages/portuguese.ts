import { type Language, survey } from "./language";

export const portuguese: Language = {
  code: "pt",
  name: "Portuguese",
  itself: "português|portugues",
  row: { words: "carreira|carreiras|carr", written: "{n}ª carreira" },
  round: { words: "volta|voltas", written: "{n}ª volta" },
  stitches: [
    {
      source:
        "crochejolie.com.br/assuntos/receitas-de-croche/ja-viu-esse-simbolo-nas-receitas-e-ficou-perdida-vem-entender; huggingface.co/datasets/FrancophonIA/crochet_terms (ch, sl st, sc)",
      names: {
        ch: "corr|correntinha|correntinhas",
        "sl st": "pbx|pbs|p.bxmo|ponto baixíssimo|pontos baixíssimos",
        sc: "pb|p.b.|ponto baixo|pontos baixos",
        hdc: "p.m.a.|ponto meio alto|pontos meio altos",
        dc: "pa|ponto alto|pontos altos",
      },
    },
    { source: survey, names: { dc: "pontos altos" } },
    {
      source: null,
      names: {
        tr: "pad|ponto alto duplo|pontos altos duplos",
        inc: "aum|aumento|aumentos",
        dec: "dim|diminuição|diminuições",
        "magic ring": "anel mágico|círculo mágico|anel magico",
      },
    },
  ],
  words: {
    in: "em|no|na|nos|nas",
    each: "cada|todos",
    next: "próximo|próxima|próximos|próximas|seguinte|seguintes",
    first: "primeiro|primeira|primeiros",
    last: "último|última|últimos",
    same: "mesmo|mesma",
    st: "pt|ponto|pontos|pts",
    and: "e",
    turn: "virar|vire",
    repeat: "repetir|rep|repita",
    from: "desde",
    "from hook": "a partir da agulha|a contar da agulha",
    times: "vezes",
    around: "ao redor|em toda a volta",
    across: "até o fim|até o final",
    skip: "pular|pule|saltar",
    join: "unir|fechar",
    "back loop": "alça de trás",
    "front loop": "alça da frente",
    "fasten off": "arrematar|cortar o fio",
    the: "um|uma|o|a|os|as|do|da|de|com|faça",
  },
  chain: { verbs: "faça|fazer|subir", written: "Faça {n} corr" },
};

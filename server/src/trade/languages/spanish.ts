import { type Language, survey } from "./language";

const page = "elrincondemaryjoe.blogspot.com/2015/01/como-leer-un-patron-de-ganchillo-o.html";

/** "medio punto" is sc in some countries and hdc in others (trapillocr.com), so it is neither here. */
export const spanish: Language = {
  code: "es",
  name: "Spanish",
  itself: "español|espanol|castellano",
  row: { words: "hilera|hileras|fila|filas", written: "Hilera {n}" },
  round: { words: "vuelta|vueltas|vta", written: "Vuelta {n}" },
  stitches: [
    {
      source: page,
      names: {
        ch: "cad|pc|cd|cadeneta|cadenetas|cadena|cadenas",
        "sl st": "pr|pe|pd|punto raso|puntos rasos|punto deslizado|puntos deslizados|punto enano",
        sc: "pb|punto bajo|puntos bajos",
        hdc: "pma|punto medio alto|puntos medios altos",
        dc: "pa|punto alto|puntos altos",
        tr: "pad|punto alto doble|puntos altos dobles",
        dtr: "pat|punto alto triple|puntos altos triples",
        inc: "aum|aumento|aumentos",
        dec: "dism|disminución|disminuciones",
      },
    },
    { source: survey, names: { inc: "aum", sc: "pb" } },
    { source: null, names: { "magic ring": "anillo mágico|anillo magico|círculo mágico|am" } },
  ],
  words: {
    in: "en|sobre",
    each: "cada|todos",
    next: "siguiente|siguientes|sig",
    first: "primer|primero|primera|primeros",
    last: "último|ultimo|última|últimos",
    same: "mismo|misma",
    st: "pt|punto|puntos|pts|p",
    and: "y",
    turn: "girar|voltear|dar la vuelta",
    repeat: "repetir|rep|repite",
    from: "desde",
    "from hook": "desde la aguja|desde el ganchillo|a partir de la aguja|desde el gancho",
    times: "veces",
    around: "alrededor|todo alrededor",
    across: "hasta el final",
    skip: "saltar|salta",
    join: "unir|cerrar",
    "back loop": "hebra trasera|solo hebra trasera",
    "front loop": "hebra delantera|solo hebra delantera",
    "fasten off": "cortar el hilo|rematar",
    the: "un|una|el|la|los|las|del|de|con",
  },
  chain: { verbs: "hacer|tejer|haz|teje|montar", written: "Tejer {n} cad" },
};

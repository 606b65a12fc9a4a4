/** Letters that look like those of the alphabet, within a word that has some of it. */
function plainLetters(text: string): string {
  return text
    .replace(/\p{L}+/gu, (word) =>
      /[a-z]/i.test(word) ? word.replaceAll("с", "c").replaceAll("е", "e") : word,
    )
    .replaceAll("ı", "i")
    .replaceAll("İ", "I");
}

/** What other languages write, word for word, put into English before anything is counted. */
const inEnglish: readonly (readonly [RegExp, string])[] = [
  [/^(?:Faça )?(\d+) (?:corr\.?|Lm anschlagen)$/gim, "Ch $1."],
  [/^(?:Rg|Tour|Vuelta|Toer|Giro) (\d+)(?:\s*(?:à|-)\s*(\d+))?\s*[:–]/gim, "Rnd $1-$2:"],
  [/^(\d+)(?:\.|ª)? (?:Runde|р|omg|krs):/gim, "Rnd $1:"],
  [/^(\d+)(?:\.|ª) (?:Reihe|carreira):/gim, "Row $1:"],
  [/-:/g, ":"],
  [/jede M verd/gi, "inc in each st"],
  [/1 M verd/gi, "inc"],
  [/(?:dans un cercle|dans un anneau|en anillo|i) m[aá](?:gique|gico|gisk ring)/gi, "in magic ring"],
  [/in den Fadenring|в кольцо амигуруми|in magische ring|nel cerchio magico/gi, "in magic ring"],
  [/taikalenkki, 6 ks/gi, "6 ks in magic ring"],
  [/(?:na|in die) 2[ª.] (?:corr|Lm) (?:a partir da agulha|ab Nadel)/gi, "in 2nd ch from hook"],
  [/(?:em cada|dans chaque|in jede|in elke|en cada) (?:corr|pb|m|Lm|steek|pt)(?!\p{L})/giu, "in each st"],
  [/dans les 3 m suivantes/gi, "in next 3 sts"],
  [/in die (?:nächsten|letzten) 4 M/gi, "in next 4 sts"],
  [/dans la m suivante|in volgende steek/gi, "in next st"],
  [/répéter depuis \* 3 fois/gi, "rep from * 3 times in all"],
  [/(?<!\p{L})(?:ms|fM|pb|сбн|v|punt[oi] bass[oi]|ks)(?!\p{L})/giu, "sc"],
  [/(?<!\p{L})(?:hStb|db)(?!\p{L})/giu, "hdc"],
  [/(?<!\p{L})(?:aug|aum|пр|udt|lis)(?!\p{L})/giu, "inc"],
  [/(?<!\p{L})(?:dim|dism|уб|Abn)(?!\p{L})/giu, "dec"],
  [/1 (?:corr|Lm), (?:virar|wenden)/gi, "ch 1, turn"],
  [/(?<!\p{L})Maschen(?!\p{L})/giu, "sts"],
  [/\)\*(\d)/g, ") x $1"],
];

const heads =
  /^(?:(?:Rg|Tour|Vuelta|Toer|Giro) \d|\d+(?:\.|ª)? (?:Runde|р|omg|krs|Reihe|carreira)|(?:Langue|Idioma)\s*:)/m;

/** A pattern in another language, as far as this counter knows it, in English; any other as it is. */
export function translated(text: string): string {
  const plain = plainLetters(text);
  return heads.test(text)
    ? inEnglish.reduce((said, [form, english]) => said.replace(form, english), plain)
    : plain;
}

import type { Language } from "./language";

/** Names of stitches only: Japanese patterns are charts. */
export const japanese: Language = {
  code: "ja",
  name: "Japanese",
  itself: "日本語",
  row: { words: "", written: "" },
  round: { words: "", written: "" },
  stitches: [
    {
      source:
        'amimono-london.blogspot.com/2010/05/blog-post_28.html (its "dc" for sc is a misprint); a maker’s page on note.com (dc2tog)',
      names: {
        ch: "鎖編み",
        "sl st": "引き抜き編み",
        sc: "細編み|こま編み",
        hdc: "中長編み",
        dc: "長編み",
        tr: "長々編み",
        dc2tog: "長編み2目一度",
      },
    },
  ],
  words: {},
  chain: { verbs: "", written: "" },
};

/** Milliseconds without a new letter: what is asked then takes longer than a letter. */
const pauseMs = 200;

/** Answers for what somebody typed once they pause; for all they typed before it, and for no letter, nothing. */
export function settledOnly<T>(
  answer: (text: string) => Promise<T>,
): (text: string) => Promise<T | undefined> {
  let latest = "";
  return async (text) => {
    latest = text;
    if (text.trim() === "") return undefined;
    await new Promise((done) => setTimeout(done, pauseMs));
    return text === latest ? answer(text) : undefined;
  };
}

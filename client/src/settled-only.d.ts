/** Answers for what somebody typed once they pause; for all they typed before it, and for no letter, nothing. */
export declare function settledOnly<T>(answer: (text: string) => Promise<T>): (text: string) => Promise<T | undefined>;

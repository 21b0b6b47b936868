export const storedTexts = {
  /** What intake stored or answered in English, as the reader of the page is told it. */
  say: (text: string): string => text,
};

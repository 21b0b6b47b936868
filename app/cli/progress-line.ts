const BETWEEN_MS = 100;

/** One line on stderr that tells how far long work has come, when somebody is looking at a terminal. */
export function progressLine(): { show(text: string): void; end(): void } {
  const isWatched = process.stderr.isTTY === true;
  let shownAt = 0;
  return {
    show(text) {
      const now = Date.now();
      if (!isWatched || now - shownAt < BETWEEN_MS) return;
      shownAt = now;
      process.stderr.write(`\r\u001b[K${text}`);
    },
    end() {
      if (isWatched && shownAt > 0) process.stderr.write("\r\u001b[K");
    },
  };
}

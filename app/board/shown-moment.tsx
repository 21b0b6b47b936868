/** A moment ready to be shown: UTC ms, in the plant's zone to the minute, and how long ago. */
export type ShownMoment = { ms: number; exact: string; ago: string };

export function AgoTime({ at }: { at: ShownMoment | null }) {
  if (at === null) return "–";
  return (
    <time dateTime={new Date(at.ms).toISOString()} title={at.exact}>
      {at.ago}
    </time>
  );
}

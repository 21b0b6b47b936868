import NextLink from "next/link";
import type { ComponentProps } from "react";

/**
 * A link to another page of the program.
 *
 * It does not fetch its page before it is pressed: a board of a hundred links would ask the server for a
 * hundred pages, and the server stands in the same building.
 */
export function Link(props: ComponentProps<typeof NextLink>) {
  return <NextLink prefetch={false} {...props} />;
}

import { lookup as systemLookup } from "node:dns";
import { BlockList, isIP, type LookupFunction } from "node:net";

/*
 * Where a webhook may lead. Whoever sets one makes this server send requests, so it must not become a way to what
 * only this machine can reach: its own services, and the address at which cloud machines tell their secrets. The
 * plant's own network is allowed, for that is where most receivers are.
 */

const CLOSED = new BlockList();
CLOSED.addSubnet("0.0.0.0", 8, "ipv4"); // this host (RFC 1122)
CLOSED.addSubnet("127.0.0.0", 8, "ipv4"); // loopback
CLOSED.addSubnet("169.254.0.0", 16, "ipv4"); // link-local (RFC 3927), cloud metadata
CLOSED.addSubnet("224.0.0.0", 3, "ipv4"); // multicast, reserved, broadcast
CLOSED.addAddress("::", "ipv6");
CLOSED.addAddress("::1", "ipv6");
CLOSED.addSubnet("fe80::", 10, "ipv6"); // link-local
CLOSED.addSubnet("ff00::", 8, "ipv6"); // multicast

/** Whether requests to this address of the network are refused. An IPv4 address in IPv6 clothes counts as itself. */
export function isClosed(address: string): boolean {
  const inside = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (inside) return CLOSED.check(inside, "ipv4");
  const version = isIP(address);
  return version === 0 || CLOSED.check(address, version === 6 ? "ipv6" : "ipv4");
}

/** By its name in the words of the page of messages. */
export type AddressFault = "no-url" | "no-web" | "secret" | "closed";

/** What keeps a text from being a webhook's address; null when nothing does. */
export function addressFault(text: string, { allowsOwn }: { allowsOwn: boolean }): AddressFault | null {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    return "no-url";
  }
  if (url.protocol !== "https:" && url.protocol !== "http:") return "no-web";
  if (url.username !== "" || url.password !== "") return "secret";
  const host = url.hostname.replace(/^\[(.*)\]$/, "$1");
  if (
    !allowsOwn &&
    (host === "localhost" || host.endsWith(".localhost") || (isIP(host) !== 0 && isClosed(host)))
  )
    return "closed";
  return null;
}

/** Looks names up and refuses closed addresses at the moment of connecting: a name may lead elsewhere tomorrow. */
export function guardedLookup({ allowsOwn }: { allowsOwn: boolean }): LookupFunction {
  return (hostname, options, answer) => {
    systemLookup(hostname, { ...options, all: true }, (error, found) => {
      if (error) return answer(error, [], undefined);
      const closed = allowsOwn ? undefined : found.find(({ address }) => isClosed(address));
      if (closed)
        return answer(
          new Error(`${hostname} leads to ${closed.address}, which is closed to webhooks.`),
          [],
          undefined,
        );
      const [first] = found;
      if (options.all) return answer(null, found, undefined);
      answer(null, first?.address ?? "", first?.family);
    });
  };
}

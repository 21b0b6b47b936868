import { type NextRequest, NextResponse } from "next/server";

/**
 * Gives every page its own policy on what the browser may load.
 *
 * Scripts run only from this server or with the random number of this one answer; Next puts that number on
 * the scripts it writes itself, which it can only do for pages made at request time (the root layout sees to
 * that). Style attributes stay allowed: charts place their parts with them, and they cannot run anything.
 */
export function proxy(request: NextRequest): NextResponse {
  if (changesSomething(request) && !isFromHere(request)) {
    return new NextResponse("Nothing saved: the request came from another site.", { status: 403 });
  }
  const nonce = Buffer.from(crypto.getRandomValues(new Uint8Array(16))).toString("base64");
  const policy = contentPolicy(nonce, process.env.NODE_ENV === "development");

  const headers = new Headers(request.headers);
  headers.set("content-security-policy", policy);
  // A page cannot see its own address; sign-in leads back to it.
  headers.set("x-steadyrest-address", request.nextUrl.pathname + request.nextUrl.search);
  const response = NextResponse.next({ request: { headers } });
  response.headers.set("content-security-policy", policy);
  return response;
}

/**
 * Addresses under /api answer with data, not with pages, and take files: Next keeps what passes through here
 * in memory and silently cuts it off at 10 MB.
 */
export const config = {
  matcher: ["/((?!api/|_next/static|_next/image|favicon.ico).*)"],
};

function changesSomething({ method }: NextRequest): boolean {
  return method !== "GET" && method !== "HEAD";
}

/**
 * Browsers name the page's origin with every request that changes something; a form or an action that names
 * none does not come from one of our pages. Next itself lets those pass. What is forwarded is here only if it may
 * be believed: app/forwarded.ts.
 */
function isFromHere({ headers }: NextRequest): boolean {
  const origin = headers.get("origin");
  const host = headers.get("x-forwarded-host") ?? headers.get("host");
  return origin !== null && URL.canParse(origin) && new URL(origin).host === host;
}

function contentPolicy(nonce: string, development: boolean): string {
  // React's error overlay in development evaluates text; nothing does in production.
  const scripts = `'self' 'nonce-${nonce}'${development ? " 'unsafe-eval'" : ""}`;
  return [
    "default-src 'self'",
    `script-src ${scripts}`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; ");
}

"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

const EVERY_MS = 1500;

/** Looks again while a scan is under way; its end comes as news, its progress does not. */
export function LookAgain() {
  const router = useRouter();
  useEffect(() => {
    const timer = setInterval(() => router.refresh(), EVERY_MS);
    return () => clearInterval(timer);
  }, [router]);
  return null;
}

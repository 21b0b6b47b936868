const A_MB = 1024 * 1024;

/** What a workbook may hold unpacked, in bytes: STEADYREST_MAX_UNPACKED_MB; undefined leaves the usual limit. */
export function mostUnpackedBytes(
  env: Readonly<Record<string, string | undefined>> = process.env,
): number | undefined {
  const given = Number(env.STEADYREST_MAX_UNPACKED_MB);
  return given > 0 ? given * A_MB : undefined;
}

/** The code of a fault that the operating system reported, such as "ENOENT"; null for any other error. */
export function systemCode(error: unknown): string | null {
  const code = error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;
  return code !== undefined && /^E[A-Z0-9]+$/u.test(code) ? code : null;
}

/** What the operating system said, without code, call and path: "no space left on device". */
export function systemReason(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  return /^E[A-Z0-9]+: ([^,]*)/u.exec(message)?.[1] ?? message;
}

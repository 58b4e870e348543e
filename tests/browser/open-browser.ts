import { execFileSync } from "node:child_process";
import { type Browser, chromium } from "playwright-core";

/** The browser of the system, without a window; none is ever downloaded. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = execFileSync("sh", ["-c", "command -v chromium"], { encoding: "utf8" }).trim();
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
}

// How is a page opened and watched? One browser; every page that is opened must stay silent and ask for nothing.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export async function launch() {
  return chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
}

/** Opens a file. `faults` collects what must not happen: errors, violations of the policy, dialogs, requests. */
export async function open(browser, file, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, offline: true, reducedMotion: "reduce", ...options });
  const page = await context.newPage();
  const faults = [];
  const url = pathToFileURL(file).href;
  page.on("console", (message) => ["error", "warning"].includes(message.type()) && faults.push(`console: ${message.text()}`));
  page.on("pageerror", (error) => faults.push(`error: ${error.message}`));
  page.on("dialog", (dialog) => (faults.push(`dialog: ${dialog.message()}`), dialog.dismiss()));
  page.on("request", (request) => request.url().split("#")[0] !== url && faults.push(`request: ${request.url()}`));
  await page.addInitScript(() => {
    window.violations = [];
    document.addEventListener("securitypolicyviolation", (event) => window.violations.push(`${event.violatedDirective}: ${event.blockedURI}`));
  });
  await page.goto(url);
  return { page, faults, context };
}

/** Ends a visit, and gives what went wrong during it. */
export async function close({ page, faults, context }) {
  const seen = await page.evaluate(() => [...window.violations, ...(window.harmed ? [`harmed ${window.harmed}`] : [])]);
  await context.close();
  return [...faults, ...seen];
}

/** What axe-core has against the page as it stands: WCAG 2.2 A and AA, and its best practices. */
export async function findBarriers(page) {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const { violations } = await window.axe.run(document, { runOnly: tags });
    return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.length} times, first ${nodes[0].html.slice(0, 300)} ${nodes[0].failureSummary.slice(0, 400)}`);
  });
}

// Pictures of the page, to look at: node shots.mjs <folder> [--wide] [--only <state>] [--page <file>]
//
// Every state below at 1280x800 and 390x844, light and dark; `--wide` adds 360 and 1920 across.
// Each picture shows the window; where the page is longer, a second one shows all of it.
import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { parseArgs } from "node:util";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { wide: { type: "boolean" }, only: { type: "string" }, page: { type: "string" } },
});
const [given] = positionals;
if (!given) {
  console.error("Say where the pictures go: node shots.mjs <folder>");
  process.exit(1);
}
if (values.page) process.env.TWO_TURNS_PAGE = resolve(values.page);
const { launch, openPage } = await import("./harness.mjs");

/** What to do before a picture is taken, by the name that the picture gets. */
const states = [{ name: "start", do: async () => {} }];

const sizes = [
  [1280, 800],
  [390, 844],
  ...(values.wide
    ? [
        [360, 740],
        [1920, 1080],
      ]
    : []),
];

const folder = resolve(given);
mkdirSync(folder, { recursive: true });
const browser = await launch("chromium");
try {
  for (const state of states.filter(({ name }) => !values.only || name === values.only)) {
    for (const [width, height] of sizes) {
      for (const colorScheme of ["light", "dark"]) {
        const viewport = { width, height };
        const { page, context, seen } = await openPage(browser, { viewport, colorScheme });
        await state.do(page);
        await page.waitForTimeout(100);
        const path = join(folder, `${state.name}-${width}-${colorScheme}`);
        await page.screenshot({ path: `${path}.png` });
        const long = await page.evaluate(() => document.documentElement.scrollHeight);
        if (long > height) await page.screenshot({ path: `${path}-all.png`, fullPage: true });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        const noise = [...seen.console, ...seen.errors];
        if (wide > width) noise.push(`the page is ${wide} wide and scrolls sideways`);
        console.log([`${path}.png`, ...noise].join("\n  ! "));
        await context.close();
      }
    }
  }
} finally {
  await browser.close();
}

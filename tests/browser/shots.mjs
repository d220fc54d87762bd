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
const { L, choose, open, settled, shippedText, STILL } = await import("./working.mjs");

/** Does actions one after the other. */
async function act(page, ...actions) {
  await page.evaluate((all) => all.forEach((each) => void globalThis.bench.act(each)), actions);
  await settled(page);
}

/** The shipped layout with a few slips. */
const broken = shippedText
  .replace("width_mm = 25.4", "widht_mm = 25.4")
  .replace('role = "water_pump"', 'role = "waterpump"')
  .replace("at_mm = [157.4, 307.5]", 'at_mm = [157.4, "right"]')
  .replace("force_n = 350.0", "force_n = -350.0");

/** The same without its engine. */
const withoutEngine = shippedText.replace(/\[engine\][\s\S]*?(?=\[\[caution)/, "");

const BACK = { tensioner: "back" };

/** What to do before a picture is taken, by the name that the picture gets. */
const states = [
  { name: "start", do: async () => {} },
  { name: "turned", do: (page) => act(page, { turn_to: { crank_deg: 137 } }) },
  {
    name: "what-if",
    do: async (page) => {
      await page.getByRole("tab", { name: L.what_if }).click();
      await act(page, { set_teeth: { cam_left: -1 } });
    },
  },
  {
    name: "what-if-touching",
    do: async (page) => {
      await page.getByRole("tab", { name: L.what_if }).click();
      await act(page, { set_teeth: { cam_left: -3 } });
      await page.locator("engine-banks h3").scrollIntoViewIfNeeded();
    },
  },
  {
    name: "belt-off",
    do: async (page) => {
      await page.getByRole("tab", { name: L.fitting }).click();
      await act(
        page,
        BACK,
        { belt: "off" },
        { turn: { shaft: "crank", deg: 60 } },
        { turn: { shaft: "cam_left", deg: 75 } },
        { turn: { shaft: "cam_right", deg: -100 } },
      );
      await page.getByRole("button", { name: L.find_way }).click();
      await page.getByRole("button", { name: L.find_way }).scrollIntoViewIfNeeded();
    },
  },
  // Three teeth out on the engine that survives two, at a place where a valve would be in its piston.
  {
    name: "engine",
    do: async (page) => {
      await page.getByRole("tab", { name: L.what_if }).click();
      await act(page, { set_teeth: { cam_left: 3 } }, { turn_to: { crank_deg: 350 } });
      await page.locator("engine-pictures").scrollIntoViewIfNeeded();
    },
  },
  {
    name: "sight",
    do: async (page) => {
      await page.getByRole("slider", { name: L.sight_aside }).fill("30");
      await settled(page);
      await page.locator("sight-part").scrollIntoViewIfNeeded();
    },
  },
  {
    name: "tension",
    do: async (page) => {
      await page.locator("tension-part summary").click();
      await page.locator("tension-part").scrollIntoViewIfNeeded();
    },
  },
  // No engine behind the belt: one sentence.
  {
    name: "engine-none",
    do: async (page) => {
      await open(page, "none.toml", withoutEngine);
      await page.getByRole("tab", { name: L.what_if }).click();
    },
  },
  {
    name: "engine-map",
    do: async (page) => {
      await page.getByRole("tab", { name: L.fitting }).click();
      await act(page, BACK, { belt: "off" }, { turn: { shaft: "crank", deg: -30 } });
      await page.locator("contact-map").scrollIntoViewIfNeeded();
    },
  },
  // Back first, so that the slack hangs where the belt leaves the crank.
  {
    name: "right-back",
    do: (page) => act(page, BACK, { turn_to: { crank_deg: -60 } }, { turn_to: { crank_deg: 20 } }),
  },
  // The other way: it hangs where the belt runs into the crank.
  { name: "right-back-behind", do: (page) => act(page, BACK, { turn_to: { crank_deg: -60 } }) },
  {
    name: "problems",
    do: async (page) => {
      await open(page, "my-engine.toml", broken);
      await page.locator("open-file .problems").waitFor();
    },
  },
  { name: "layout", do: (page) => page.getByRole("tab", { name: L.layout }).click() },
  {
    name: "draft",
    do: async (page) => {
      await page.getByRole("tab", { name: L.layout }).click();
      await page.getByRole("textbox", { name: L.layout_text }).fill(broken);
      await page.locator("task-layout .problems").waitFor();
    },
  },
  {
    name: "fitting",
    do: (page) => page.getByRole("tab", { name: L.fitting }).click(),
  },
  {
    name: "fitting-hung",
    do: async (page) => {
      await page.getByRole("tab", { name: L.fitting }).click();
      await act(
        page,
        { hold: { shaft: "cam_left" } },
        { hold: { shaft: "cam_right" } },
        BACK,
        { belt: "off" },
        { turn: { shaft: "crank", deg: -30 } },
        { hang: "in_time" },
      );
    },
  },
  {
    name: "fitting-off",
    do: async (page) => {
      await page.getByRole("tab", { name: L.fitting }).click();
      await act(page, BACK, { belt: "off" }, { turn: { shaft: "crank", deg: -30 } });
    },
  },
  {
    name: "fitting-counts",
    do: async (page) => {
      await page.getByRole("tab", { name: L.fitting }).click();
      await page.getByText(L.paint_heading).click();
      await page.getByLabel(L.show_counts).check();
    },
  },
  { name: "german", do: (page) => choose(page, L.other_language) },
  { name: "menu", do: (page) => page.locator("summary").click() },
  { name: "about", do: (page) => choose(page, L.about) },
];

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
        const { page, context, seen } = await openPage(browser, {
          ...STILL,
          viewport,
          colorScheme,
        });
        await state.do(page);
        await page.mouse.move(0, 0);
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

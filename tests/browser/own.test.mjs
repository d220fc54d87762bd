// Layouts of one's own, built through the page from nothing: three counts, then the form, field by field, as
// somebody would who reads the figures off a sheet of paper. Each comes to the drive that its file makes,
// with its counts; each is then broken in one way, and what the page would try first mends it.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openPage } from "./harness.mjs";
import { inEngines, L, open, STILL, settled, task } from "./working.mjs";

const own = fileURLToPath(new URL("../own/", import.meta.url));
const files = readdirSync(own).filter((name) => name.endsWith(".toml"));

const form = (page) => page.evaluate(() => globalThis.bench.form());
const report = (page) => page.evaluate(() => globalThis.bench.json("report"));

function rowAt(rows, path) {
  for (const row of rows) {
    if (row.path === path) return row;
    const below = [...row.rows, ...row.entries.flatMap((entry) => entry.rows)];
    const found = path.startsWith(row.path) && rowAt(below, path);
    if (found) return found;
  }
  return undefined;
}

/** Every part of the form that has to stand open to reach a field, the outermost first. */
function partsOf(path) {
  const steps = path.split(".").slice(0, -1);
  return steps.flatMap((step, i) => {
    const here = [...steps.slice(0, i), step].join(".");
    return step.includes("[") ? [here.replace(/\[\d+\]$/, ""), here] : [here];
  });
}

async function reach(page, path) {
  for (const part of partsOf(path)) {
    const details = page.locator(`details.part[data-path="${part}"]`);
    if ((await details.getAttribute("open")) === null) await details.locator("> summary").click();
  }
}

/** Fills one field in by hand. */
async function fill(page, row) {
  await reach(page, row.path);
  const field = page.locator(`.field[data-path="${row.path}"]`);
  if (row.kind === "choice" || row.kind === "flag") {
    await field.locator("select").selectOption(row.texts[0] ?? "");
    return;
  }
  const inputs = field.locator("input, textarea");
  for (let i = 0; i < (row.kind === "two" ? 2 : 1); i += 1) {
    await inputs.nth(i).fill(row.texts[i] ?? "");
    await inputs.nth(i).press("Tab");
  }
}

/** Brings a list to as many entries as it should have. */
async function count(page, list, many) {
  await reach(page, `${list}.x`);
  for (;;) {
    const row = rowAt(await form(page), list);
    const now = row?.entries.length ?? 0;
    if (now === many) return;
    const part = page.locator(`details.part[data-path="${list}"]`);
    if (now < many) {
      await part.getByRole("button", { name: row.one_more, exact: true }).click();
    } else {
      await reach(page, `${list}[${now - 1}].x`);
      const entry = page.locator(`details.part[data-path="${list}[${now - 1}]"]`);
      await entry.locator("> .buttons button").last().click();
    }
  }
}

/** Makes the form say what `wanted` says, whatever it says now. */
async function make(page, wanted) {
  let says = await form(page);
  for (const row of wanted) {
    if (row.kind === "tables") {
      await count(page, row.path, row.entries.length);
      for (const entry of row.entries) await make(page, entry.rows);
    } else if (row.kind === "table") {
      await make(page, row.rows);
    } else {
      const now = rowAt(says, row.path);
      if (!now || now.texts.join("|") === row.texts.join("|")) continue;
      await fill(page, row);
      says = await form(page);
    }
  }
}

/** What the file makes, as the form shows it and the report says it, from a page of its own. */
async function target(browser, text) {
  const { page, context } = await openPage(browser, STILL);
  await open(page, "own.toml", text);
  await settled(page);
  const made = { rows: await form(page), report: JSON.parse(await report(page)) };
  await context.close();
  return made;
}

inEngines(["chromium"], (prove) => {
  for (const file of files) {
    prove(`from nothing to ${file}`, {}, async (page, { context }) => {
      const text = readFileSync(join(own, file), "utf8");
      const wanted = await target(context.browser(), text);
      const belt = wanted.report.belt.teeth;
      await task(page, L.layout);
      const counts = page.locator(".three-counts input");
      for (const [i, teeth] of ["22", "44", String(belt)].entries()) {
        await counts.nth(i).click();
        await page.keyboard.type(teeth);
        await page.keyboard.press("Tab");
      }
      // Ids first, so that what names a wheel can name it.
      const wheels = rowAt(wanted.rows, "wheel").entries;
      await count(page, "wheel", wheels.length);
      const ids = wheels.map((wheel) => wheel.rows.find((row) => row.path.endsWith(".id")));
      for (const [i, id] of ids.entries()) await fill(page, { ...id, texts: [`w_${i}`] });
      await make(page, ids);
      await make(page, wanted.rows);
      await make(page, wanted.rows);
      await settled(page);
      const problems = await page.evaluate(() =>
        globalThis.bench.draftProblems.map((p) => `${p.key}: ${p.text}`),
      );
      assert.deepEqual(problems, []);
      assert.deepEqual(JSON.parse(await report(page)), wanted.report);

      // A sprocket counted one tooth wrong where the belt then fits no more, else a smooth wheel's radius
      // entered for its diameter.
      const before = await page.evaluate(() => globalThis.bench.draftText);
      const smooth = rowAt(await form(page), "wheel").entries.flatMap((entry) =>
        entry.rows.filter((row) => row.path.endsWith("outside_diameter_mm") && row.there),
      );
      const broken = smooth[0];
      const half = String(Number(broken.texts[0]) / 2);
      await fill(page, { ...broken, texts: [half] });
      await settled(page);
      const tries = page.locator("adds-up").getByRole("button", { name: L.adds_up_try });
      const offered = Math.min(await tries.count(), 3);
      let mended = false;
      for (let i = 0; i < offered && !mended; i += 1) {
        await tries.nth(i).click();
        await settled(page);
        mended = (await page.evaluate(() => globalThis.bench.draftText)) === before;
        if (!mended) await page.evaluate(() => globalThis.bench.undo());
        await settled(page);
      }
      assert.ok(mended, `none of the first three mends ${broken.path} = ${half}`);
    });
  }
});

// The six layouts that ship, each opened by its picture, turned and put teeth out; and every broken file
// answered on the page as the command line answers it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { inEngines, L, labels, press, report, settled, task } from "./working.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const BROKEN = new URL("../../layouts/broken/", import.meta.url);

/** What `two-turns check` says of the broken files: line, column, key and sentence of every problem. */
function natively() {
  const cargo = ["run", "--quiet", "--package", "cli", "--", "check", "--lang", "en", "--json"];
  try {
    execFileSync("cargo", [...cargo, "layouts/broken"], { cwd: root, maxBuffer: 1 << 26 });
  } catch (found) {
    // 1: done with a finding.
    if (found.status !== 1) throw found;
    return JSON.parse(found.stdout);
  }
  return assert.fail("every broken file was found sound");
}

inEngines(["chromium"], (prove) => {
  prove("each of the six opens, comes round, and says what a tooth out is", {}, async (page) => {
    await task(page, L.layout);
    const titles = await page.evaluate(() => globalThis.bench.shipped);
    assert.equal(titles.length, 6);
    let late = 0;
    for (const title of titles) {
      await task(page, L.layout);
      await page.locator("task-layout").getByRole("button", { name: title, exact: true }).click();
      await page.waitForFunction((wanted) => globalThis.bench.panel.title === wanted, title);
      const { shafts } = await report(page);
      await task(page, L.two_turns);
      await press(page, L.two_turns_forward);
      await settled(page);
      for (const { id, returns_after_crank_turns: turns, best_tooth_error_teeth: best } of shafts) {
        const error = Number(
          await page
            .locator(`[data-key="shafts.${id}.mark_error_teeth"]`)
            .getAttribute("data-value"),
        );
        // Arithmetic: after two turns a shaft is back if it comes back every one or two.
        if (2 % turns === 0) assert.ok(Math.abs(error - best) < 1e-9, `${title}: ${id} ${error}`);
        else {
          late += 1;
          assert.ok(Math.abs(error - best) > 1, `${title}: ${id} ${error}`);
          const told = await page.locator("task-two-turns .caution").allTextContents();
          assert.ok(
            told.some((text) => text.includes(`only after ${turns}`)),
            `${title}: ${id} is told to come back late`,
          );
        }
      }
      await press(page, L.to_the_start);
      await settled(page);
      await task(page, L.what_if);
      const crank = shafts[0];
      for (const shaft of shafts) {
        const name = await page.evaluate(
          (id) => globalThis.bench.panel.what_if.find((row) => row.id === id).name,
          shaft.id,
        );
        await press(page, `${name}: ${L.tooth_behind}`);
        const out = async (key) =>
          Number(
            await page.locator(`[data-key="shafts.${shaft.id}.${key}"]`).getAttribute("data-value"),
          );
        assert.equal(await out("out_deg"), -shaft.degrees_per_tooth);
        assert.equal(await out("out_crank_deg"), -crank.degrees_per_tooth);
        await press(page, L.all_in_time);
      }
    }
    assert.ok(late > 0, "one of them has a mark that two turns do not bring back");
  });

  prove(
    "a phone scrolled to the pictures keeps its drawing as large",
    {
      viewport: { width: 390, height: 844 },
    },
    async (page) => {
      await task(page, L.layout);
      const tags = [60, 24, 60, 24, 60, 24];
      const crowns = () => page.evaluate((t) => [...globalThis.bench.slackCrowns(t)], tags);
      const choose = async () => {
        const again = page.getByRole("button", { name: /^Six in a vee, one/ });
        await again.evaluate((button) => button.click());
        await settled(page);
        await page.waitForTimeout(200);
      };
      await choose();
      const before = await crowns();
      assert.equal(before.length, tags.length);
      await page.evaluate(() => window.scrollTo(0, 520));
      await choose();
      const after = await crowns();
      assert.ok(
        before.every((x, i) => Math.abs(x - after[i]) < 2),
        `${before} and ${after}`,
      );
    },
  );

  prove("each broken file gives its problems, and the bench stays", {}, async (page) => {
    const before = await page.evaluate(() => globalThis.bench.json("pose"));
    const { files } = natively();
    const names = readdirSync(BROKEN).filter((name) => name.endsWith(".toml"));
    assert.deepEqual(files.map(({ file }) => file.split("/").pop()).sort(), names.sort());
    for (const { file, problems } of files) {
      const bytes = [...readFileSync(new URL(file.split("/").pop(), BROKEN))];
      const said = await page.evaluate(
        (all) => globalThis.bench.open(new Uint8Array(all)).problems,
        bytes,
      );
      const short = ({ line, column, key }) => `${line}:${column} ${key}`;
      assert.deepEqual(said.map(short), problems.map(short), file);
      assert.deepEqual(
        said.map(({ text }) => text),
        problems.map(({ message }) => message),
        file,
      );
      assert.ok(said.length > 0, file);
    }
    assert.equal(await page.evaluate(() => globalThis.bench.json("pose")), before);
    assert.ok(labels.de.layout);
  });
});

// What is kept and taken along: work comes back after a killed browser and a closed tab, no tab overwrites
// another's, storage that is forbidden or full is told, links are whole or refused, pictures are the
// command line's.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { gunzipSync, gzipSync } from "node:zlib";
import jsQR from "jsqr";
import { PNG } from "pngjs";
import { engine } from "./engines.mjs";
import { assertAccessible, launchWithProfile, pageUrl, standing } from "./harness.mjs";
import { inEngines, L, open, press, settled, shippedText, task } from "./working.mjs";

const layouts = fileURLToPath(new URL("../../layouts/", import.meta.url));
const notes = (page) => page.locator("kept-notes");
const written = (page) => page.evaluate(() => globalThis.bench.draftText);
const MINE = shippedText.replace("Six in a vee, one camshaft a bank", "Mine");
/** Longer than the pause after which a change is kept, and the time to write it, ms. */
const KEPT = 900;

/** Types a text as the layout's own. */
async function write(page, text) {
  await task(page, L.layout);
  await page.locator(".layout-text").fill(text);
  await page.waitForTimeout(KEPT);
}

/** As the page makes a link, made here by another hand. */
function linkOf(text) {
  return `${pageUrl}#layout=${gzipSync(text).toString("base64url")}`;
}

async function follow(page, link) {
  await page.evaluate((to) => {
    location.href = to;
  }, link);
  await page.waitForTimeout(400);
}

inEngines(
  ["chromium", "firefox"],
  (prove, name) => {
    prove("a page loaded anew has its work again, slips and all", {}, async (page) => {
      const slip = MINE.replace("teeth = 48", "teeth = 480");
      await write(page, MINE);
      await write(page, slip);
      await page.reload();
      await standing(page);
      assert.equal(await written(page), slip);
      assert.equal(await page.evaluate(() => globalThis.bench.panel.title), "Mine");
      assert.match(await notes(page).textContent(), new RegExp(L.restored));
      await notes(page).getByRole("button", { name: L.start_afresh }).click();
      assert.equal(await written(page), shippedText);
      // What was left is among those kept, and comes back whole.
      await task(page, L.layout);
      await page.locator("keep-part summary").click();
      await page.locator(".kept button", { hasText: "Mine" }).first().click();
      assert.equal(await written(page), slip);
      await assertAccessible(page);
    });

    prove("two tabs each keep their own", {}, async (page, { context }) => {
      await write(page, MINE.replace("Mine", "First tab"));
      const second = await context.newPage();
      await second.goto(pageUrl);
      await standing(second);
      assert.equal(await written(second), shippedText, "a living tab's work is not taken over");
      await write(second, MINE.replace("Mine", "Second tab"));
      await write(page, MINE.replace("Mine", "First tab again"));
      for (const [tab, title] of [
        [page, "First tab again"],
        [second, "Second tab"],
      ]) {
        await tab.reload();
        await standing(tab);
        assert.equal(await tab.evaluate(() => globalThis.bench.panel.title), title);
      }
      await second.close();
    });

    const forbid = () => {
      Object.defineProperty(globalThis, "indexedDB", { value: undefined });
    };
    prove(
      "storage that is forbidden is told, and harms nothing",
      { prepare: forbid },
      async (page) => {
        await write(page, MINE);
        assert.match(await notes(page).textContent(), /storage is forbidden/);
        assert.equal(await written(page), MINE);
      },
    );

    const full = () => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    };
    prove("storage that is full is told, and harms nothing", { prepare: full }, async (page) => {
      await write(page, MINE);
      assert.match(await notes(page).textContent(), /storage is full/);
      assert.equal(await written(page), MINE);
    });

    prove("a link holds the layout, and its QR code the link", {}, async (page) => {
      await write(page, MINE);
      await press(page, L.link);
      await page.locator("keep-part dialog[open]").waitFor();
      const link = await page.locator("dialog textarea").inputValue();
      const [, letters] = link.split("#layout=");
      assert.equal(gunzipSync(Buffer.from(letters, "base64url")).toString(), MINE);
      const shown = page.locator("dialog img.qr");
      const png = await shown.evaluate(async (image) => {
        await image.decode();
        const canvas = document.createElement("canvas");
        [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
        canvas.getContext("2d").drawImage(image, 0, 0);
        return canvas.toDataURL("image/png").split(",")[1];
      });
      const { width, height, data } = PNG.sync.read(Buffer.from(png, "base64"));
      assert.equal(jsQR(new Uint8ClampedArray(data), width, height)?.data, link);
    });

    prove("every layout that ships goes through a link", { quiet: false }, async (page) => {
      for (const file of readdirSync(layouts).filter((name) => name.endsWith(".toml"))) {
        const text = readFileSync(join(layouts, file), "utf8");
        await follow(page, linkOf(text));
        assert.equal(await written(page), text, file);
        assert.equal(new URL(page.url()).hash, "");
      }
    });

    prove(
      "a link that is cut or changed is refused, the work untouched",
      { quiet: false },
      async (page) => {
        await write(page, MINE);
        const whole = linkOf(shippedText);
        const start = whole.indexOf("=") + 1;
        for (let cut = start; cut < whole.length; cut += 97) {
          await page.evaluate(
            (to) => {
              location.href = to;
            },
            whole.slice(0, cut),
          );
          await page.waitForFunction(() => location.hash === "");
          await notes(page).getByText(L.bad_link.slice(0, 30)).waitFor();
          assert.equal(await written(page), MINE);
          await notes(page).getByRole("button", { name: L.close }).click();
        }
        const changed = `${whole.slice(0, start + 200)}${whole[start + 200] === "A" ? "B" : "A"}${whole.slice(start + 201)}`;
        for (const bad of [changed, `${pageUrl}#layout=%%%`, `${pageUrl}#layout=`]) {
          await follow(page, bad);
          await notes(page).getByText(L.bad_link.slice(0, 30)).waitFor();
          assert.equal(await written(page), MINE);
        }
        // A whole link from a newer format is told as a file's problem.
        await follow(page, linkOf(shippedText.replace("format = 1", "format = 2")));
        await page.locator("open-file .problems").getByText("format is 2").waitFor();
        assert.equal(await written(page), MINE);
      },
    );

    prove("a file of 5 MB that is no layout, and one from a newer format", {}, async (page) => {
      await write(page, MINE);
      await open(page, "large.bin", Buffer.alloc(5_000_000, 7));
      await page.locator("open-file .problems").waitFor();
      assert.equal(await written(page), MINE);
      await open(page, "newer.toml", shippedText.replace("format = 1", "format = 2"));
      await page.locator("open-file .problems").getByText("format is 2").waitFor();
      assert.equal(await written(page), MINE);
    });

    // A stock Firefox says nothing of downloads to whoever drives it.
    if (name !== "chromium") return;
    prove("pictures come out as files", {}, async (page) => {
      await task(page, L.layout);
      const saved = async (name) => {
        const [download] = await Promise.all([page.waitForEvent("download"), press(page, name)]);
        return readFileSync(await download.path());
      };
      const svg = (await saved(L.picture_svg)).toString();
      assert.match(svg, /^<svg|^<\?xml/);
      const [, width, height] = /viewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"/.exec(svg);
      const png = PNG.sync.read(await saved(L.picture_png));
      assert.ok(Math.abs(png.width / png.height - width / height) < 0.01);
      assert.ok(
        png.width >= 600 && png.data.some((byte, i) => i % 4 < 3 && byte < 60),
        "something is drawn",
      );
      const six = join(layouts, "six-in-a-vee-one-camshaft-a-bank.toml");
      const folder = mkdtempSync(join(tmpdir(), "two-turns-drawn-"));
      const drawn = join(folder, "six.svg");
      const env = { ...process.env, LANG: "en_GB.UTF-8" };
      const command = ["run", "--quiet", "--package", "cli", "--", "draw", six, "-o", drawn];
      execFileSync("cargo", command, { env, cwd: layouts });
      assert.equal(svg.trim(), readFileSync(drawn, "utf8").trim());
      rmSync(folder, { recursive: true });
    });
  },
  () => {
    test("a browser killed in the middle of editing", {
      skip: engine("chromium").missing,
    }, async () => {
      const folder = mkdtempSync(join(tmpdir(), "two-turns-kept-"));
      try {
        let context = await launchWithProfile(folder, { locale: "en-GB" });
        let page = context.pages()[0] ?? (await context.newPage());
        await page.goto(pageUrl);
        await standing(page);
        const slip = MINE.replace("teeth = 48", "teeth = 480");
        await write(page, MINE);
        await write(page, slip);
        // All its processes at once, nothing said to the page.
        execFileSync("pkill", ["-9", "-f", folder]);
        await context.close().catch(() => {});
        context = await launchWithProfile(folder, { locale: "en-GB" });
        page = context.pages()[0] ?? (await context.newPage());
        await page.goto(pageUrl);
        await standing(page);
        await settled(page);
        assert.equal(await written(page), slip);
        assert.equal(await page.evaluate(() => globalThis.bench.panel.title), "Mine");
        await context.close();
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    });
  },
);

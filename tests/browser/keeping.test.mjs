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
import { inEngines, keys, L, open, press, settled, shippedText, task } from "./working.mjs";

const layouts = fileURLToPath(new URL("../../layouts/", import.meta.url));
const notes = (page) => page.locator("kept-notes");
const written = (page) => page.evaluate(() => globalThis.bench.draftText);
/** What is kept: the titles and what was being written, the newest first. */
async function works(page) {
  return page.evaluate(async () => {
    const { keeper } = document.querySelector("two-turns");
    await keeper.now();
    return keeper.works.map(({ title, written }) => ({ title, written }));
  });
}
const titled = (title) => shippedText.replace("Six in a vee, one camshaft a bank", title);
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
    // What rests on our own code alone is proved in one engine, what rests on the browser's storage in both.
    const ours = name === "chromium" ? prove : () => {};
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

    ours("no layout is kept over another, whatever is undone", {}, async (page) => {
      await write(page, titled("First"));
      await open(page, "second.toml", titled("Second"));
      await page.locator("header .title", { hasText: "Second" }).waitFor();
      await write(page, titled("Second, changed"));
      await press(page, L.undo);
      await press(page, L.undo);
      assert.equal(await written(page), titled("First"));
      await write(page, titled("First, changed"));
      const both = [
        { title: "First, changed", written: titled("First, changed") },
        { title: "Second", written: titled("Second") },
      ];
      assert.deepEqual(await works(page), both);
      // A layout from three counts is one of its own, and stays one while the counts change.
      const counts = page.locator(".three-counts input");
      for (const [i, count] of [24, 48, 120].entries()) await counts.nth(i).fill(String(count));
      await counts.nth(2).dispatchEvent("change");
      await settled(page);
      const started = await written(page);
      assert.notEqual(started, titled("First, changed"));
      await counts.nth(2).fill("122");
      await counts.nth(2).dispatchEvent("change");
      await settled(page);
      const kept = await works(page);
      assert.equal(kept[0].written, await written(page));
      assert.notEqual(kept[0].written, started);
      assert.deepEqual(kept.slice(1), both);
      // Taken up again and gone back from: each still has its own.
      await page.locator("keep-part summary").click();
      await page.locator(".kept button", { hasText: "Second" }).first().click();
      assert.equal(await written(page), titled("Second"));
      await write(page, titled("Second, once more"));
      while (!(await written(page)).includes("First, changed")) await press(page, L.undo);
      assert.deepEqual(
        (await works(page)).map(({ title }) => title).sort(),
        // The second as it was when undo left it.
        ["First, changed", "Second", kept[0].title].sort(),
      );
    });

    prove("a rehearsal comes back as it was left", {}, async (page) => {
      await write(page, MINE);
      await page.evaluate(() => {
        for (const action of [
          { turn_to: { crank_deg: -15 } },
          { hold: { shaft: "cam_left" } },
          { tensioner: "back" },
          { belt: "off" },
          { hang: "in_time" },
        ]) {
          globalThis.bench.act(action);
        }
      });
      await settled(page);
      const stands = () =>
        page.evaluate(() => [globalThis.bench.json("moment"), globalThis.bench.json("pose")]);
      const before = await stands();
      await page.reload();
      await standing(page);
      await settled(page);
      assert.deepEqual(await stands(), before);
      assert.match(await notes(page).textContent(), new RegExp(L.restored_how));
      // What somebody else wrote there cannot be: the layout still comes back.
      await page.evaluate(async () => {
        const { keeper } = document.querySelector("two-turns");
        await keeper.now();
        const [work] = keeper.works;
        work.left.sprockets[1].turned.deg += 90;
        await new Promise((resolve) => {
          const asked = indexedDB.open("two-turns");
          asked.onsuccess = () => {
            const put = asked.result.transaction("works", "readwrite");
            put.objectStore("works").put(work);
            put.oncomplete = resolve;
          };
        });
      });
      await page.reload();
      await standing(page);
      await settled(page);
      assert.equal(await written(page), MINE);
      assert.match(await notes(page).textContent(), new RegExp(L.restored_in_time));
      assert.equal(await page.evaluate(() => globalThis.bench.panel.crank.value), 0);
    });

    // Files in memory, named as they are asked for.
    const files = () => {
      globalThis.files = {};
      globalThis.asked = [];
      globalThis.showSaveFilePicker = async ({ suggestedName }) => {
        const name = globalThis.asked.push(suggestedName) + suggestedName;
        const write = async (text) => {
          globalThis.files[name] = text;
        };
        return { name, createWritable: async () => ({ write, close: async () => {} }) };
      };
    };
    /** Puts something into the storage as another hand might. */
    const store = (page, work) =>
      page.evaluate(
        (work) =>
          new Promise((resolve) => {
            const asked = indexedDB.open("two-turns");
            asked.onsuccess = () => {
              const put = asked.result.transaction("works", "readwrite");
              put.objectStore("works").put(work);
              put.oncomplete = resolve;
            };
          }),
        work,
      );
    const stored = (page, id) =>
      page.evaluate(
        (id) =>
          new Promise((resolve) => {
            const asked = indexedDB.open("two-turns");
            asked.onsuccess = () => {
              const got = asked.result.transaction("works").objectStore("works").get(id);
              got.onsuccess = () => resolve(got.result);
            };
          }),
        id,
      );

    ours("what another hand stored does no harm, and stays", {}, async (page) => {
      await write(page, MINE);
      await works(page);
      const later = Date.now() + 60_000;
      const newer = { id: "newer", title: "Newer", written: "format = 2", kept: later };
      await store(page, { ...newer, layout: "format = 2" });
      await store(page, { id: "nonsense", title: 7, layout: null, written: 5, kept: "x" });
      await page.evaluate(() => sessionStorage.clear());
      await page.reload();
      await standing(page);
      assert.match(await notes(page).textContent(), new RegExp(L.restored_not));
      await write(page, titled("Another"));
      await works(page);
      assert.deepEqual(await stored(page, "newer"), { ...newer, layout: "format = 2" });
      assert.deepEqual((await works(page)).map(({ title }) => title).sort(), [
        "Another",
        "Mine",
        "Newer",
      ]);
    });

    ours("what another tab went on with is not kept over", {}, async (page) => {
      await write(page, MINE);
      await works(page);
      const id = await page.evaluate(() => sessionStorage.getItem("two-turns-work"));
      const theirs = { ...(await stored(page, id)), written: titled("Theirs"), title: "Theirs" };
      await store(page, theirs);
      await write(page, titled("Mine, changed"));
      await works(page);
      assert.equal((await stored(page, id)).written, titled("Theirs"));
      const titles = (await works(page)).map(({ title }) => title).sort();
      assert.deepEqual(titles, ["Mine, changed", "Theirs"]);
      // What is taken up is what is there now, not what was listed.
      await store(page, { ...theirs, written: titled("Theirs, changed") });
      await page.locator("keep-part summary").click();
      await page.locator(".kept button", { hasText: "Theirs" }).first().click();
      await page.waitForFunction(
        (text) => globalThis.bench.draftText === text,
        titled("Theirs, changed"),
      );
    });

    ours("a field that is being typed in is kept and saved", { prepare: files }, async (page) => {
      await write(page, MINE);
      const title = page.locator("layout-form textarea, layout-form input").first();
      await title.click();
      await page.keyboard.press("End");
      await page.keyboard.type(" own");
      await keys(page, "Control+s");
      const own = titled("Mine own");
      assert.deepEqual(await page.evaluate(() => globalThis.files), { "1mine-own.toml": own });
      await page.keyboard.press("End");
      await page.keyboard.type(" again");
      await page.reload();
      await standing(page);
      assert.equal(await written(page), titled("Mine own again"));
    });

    ours("a replay is not how things were left", {}, async (page) => {
      await write(page, MINE);
      await page.evaluate(() => {
        for (const crank_deg of [100, 200]) globalThis.bench.act({ turn_to: { crank_deg } });
      });
      await works(page);
      await page.evaluate(() => globalThis.bench.replay());
      await page.waitForTimeout(600);
      await page.reload();
      await standing(page);
      await settled(page);
      assert.equal(await page.evaluate(() => globalThis.bench.panel.crank.value), 200);
    });

    prove("what is typed just before the page goes is kept", {}, async (page) => {
      await task(page, L.layout);
      await page.locator(".layout-text").fill(MINE);
      await page.reload();
      await standing(page);
      assert.equal(await written(page), MINE);
    });

    prove(
      "a link opened at start is beside the work, not over it",
      { quiet: false },
      async (page) => {
        await write(page, titled("Mine"));
        await page.goto("about:blank");
        await page.goto(linkOf(titled("From a link")));
        await standing(page);
        await page.locator("header .title", { hasText: "From a link" }).waitFor();
        await write(page, titled("From a link, changed"));
        assert.deepEqual(
          (await works(page)).map(({ title }) => title),
          ["From a link, changed", "Mine"],
        );
      },
    );

    ours(
      "each layout is saved to its own file, from any task",
      { prepare: files },
      async (page) => {
        const saved = () => page.evaluate(() => globalThis.files);
        await write(page, titled("First"));
        await task(page, L.two_turns);
        await keys(page, "Control+s");
        assert.deepEqual(await saved(), { "1first.toml": titled("First") });
        await open(page, "second.toml", titled("Second"));
        await page.locator("header .title", { hasText: "Second" }).waitFor();
        await keys(page, "Control+s");
        // Typed and saved at once, with the key that takes a field's own.
        await task(page, L.layout);
        await page.locator(".layout-text").fill(titled("Second, changed"));
        await keys(page, "Control+s");
        assert.match(await page.locator("keep-part").textContent(), /2second\.toml: /);
        const second = { "2second.toml": titled("Second, changed") };
        assert.deepEqual(await saved(), { "1first.toml": titled("First"), ...second });
        await press(page, L.undo);
        await press(page, L.undo);
        await write(page, titled("First, changed"));
        await keys(page, "Control+s");
        assert.deepEqual(await saved(), { "1first.toml": titled("First, changed"), ...second });
        assert.equal((await page.evaluate(() => globalThis.asked)).length, 2);
      },
    );

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

    for (const [width, height] of [
      [1280, 800],
      [1366, 768],
      [390, 844],
    ]) {
      const viewport = { width, height };
      prove(`the whole code is in sight, ${width} × ${height}`, { viewport }, async (page) => {
        // With all that may be said beside it.
        await write(page, MINE.replace("teeth = 173", "teeth = 140"));
        await press(page, L.link);
        const dialog = page.locator("keep-part dialog[open]");
        const code = await dialog.locator("img.qr").evaluate(async (image) => {
          await image.decode();
          const { left, top, right, bottom } = image.getBoundingClientRect();
          return { left, top, right, bottom };
        });
        assert(code.left >= 0 && code.top >= 0, JSON.stringify(code));
        assert(code.right <= width && code.bottom <= height, JSON.stringify(code));
        assert(code.right - code.left > 200, JSON.stringify(code));
        await dialog.getByText(L.link_local).waitFor();
        await dialog.getByText(L.link_draft).waitFor();
        const from = await dialog
          .getByRole("textbox")
          .evaluate((field) => [field.scrollTop, field.selectionStart]);
        assert.deepEqual(from, [0, 0], "the link's beginning");
        await assertAccessible(page);
      });
    }

    prove("a link with a text that makes no drive yet is gone on with", {}, async (page) => {
      await write(page, MINE);
      const draft = titled("Sent").replace("teeth = 173", "teeth = 140");
      await task(page, L.two_turns);
      await follow(page, linkOf(draft));
      await page.locator(".problems li").first().waitFor();
      assert.equal(await written(page), draft);
      assert.equal(await page.locator("open-file .problems").count(), 0);
      assert.match(await page.locator("header .title").textContent(), /Sent/);
      // What was here is kept beside it, and a step back.
      assert.deepEqual(
        (await works(page)).map(({ title, written }) => [title, written]),
        [
          ["Sent", draft],
          ["Mine", MINE],
        ],
      );
      await write(page, titled("Sent"));
      assert.equal(await page.locator(".problems li").count(), 0);
      await press(page, L.undo);
      await press(page, L.undo);
      assert.equal(await written(page), MINE);
      // No TOML at all is refused, and a link is not called a file.
      await follow(page, linkOf("format = ["));
      await page.locator("open-file .problems").getByText(L.link_not_opened).waitFor();
      assert.equal(await written(page), MINE);
    });

    ours("every layout that ships goes through a link", { quiet: false }, async (page) => {
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
          // Said without a pointer: just after another address, a driven Firefox takes seconds for one.
          await notes(page).getByRole("button", { name: L.close }).dispatchEvent("click");
        }
        const changed = `${whole.slice(0, start + 200)}${whole[start + 200] === "A" ? "B" : "A"}${whole.slice(start + 201)}`;
        for (const bad of [changed, `${pageUrl}#layout=%%%`, `${pageUrl}#layout=`]) {
          await follow(page, bad);
          await notes(page).getByText(L.bad_link.slice(0, 30)).waitFor();
          assert.equal(await written(page), MINE);
        }
        // A whole link from a newer format is told as a file's problem.
        await follow(page, linkOf(shippedText.replace("format = 1", "format = 2")));
        await page.locator("open-file .problems").getByText("its format is 2").waitFor();
        assert.equal(await written(page), MINE);
      },
    );

    ours("a file of 5 MB that is no layout, and one from a newer format", {}, async (page) => {
      await write(page, MINE);
      await open(page, "large.bin", Buffer.alloc(5_000_000, 7));
      await page.locator("open-file .problems").waitFor();
      assert.equal(await written(page), MINE);
      await open(page, "newer.toml", shippedText.replace("format = 1", "format = 2"));
      await page.locator("open-file .problems").getByText("its format is 2").waitFor();
      assert.equal(
        await page.locator("open-file .problems li").count(),
        1,
        "of a newer file that alone",
      );
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

// The page opens from the disk in every engine found, says nothing, and asks for nothing.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { once } from "node:events";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, describe, test } from "node:test";
import { pathToFileURL } from "node:url";
import { inspect } from "node:util";
import { gunzipSync } from "node:zlib";
import { engine } from "./engines.mjs";
import { assertAccessible, launch, openPage, pagePath, pageUrl } from "./harness.mjs";
import { consoleOf, WebKit } from "./webkit.mjs";

const folder = mkdtempSync(join(tmpdir(), "two-turns-"));
after(() => rmSync(folder, { recursive: true }));

/** A page that does something which the checks must notice: without it they prove nothing. */
function control(name, script, policy = "script-src 'unsafe-inline'") {
  const path = join(folder, `${name}.html`);
  const head = `<meta http-equiv="Content-Security-Policy" content="${policy}">
    <link rel="icon" href="data:,"><title>${name}</title>`;
  writeFileSync(path, `<!doctype html>${head}<script>${script}</script>`);
  return pathToFileURL(path).href;
}
const says = control("says", 'console.error("control")');
const server = createServer((_, answer) => answer.end()).listen(0, "127.0.0.1");
await once(server, "listening");
after(() => server.close());
const host = `127.0.0.1:${server.address().port}`;
const strict = "default-src 'none'; script-src 'unsafe-inline'; img-src data:";
const blocked = control("blocked", `new Image().src = "http://${host}/drop.png"`, strict);
const controls = [
  { url: says, noticed: /error: control/ },
  { url: control("throws", 'throw new Error("control")'), noticed: /errors:.*control/s },
  { url: control("asks", `fetch("http://${host}/")`), noticed: RegExp(`asked:.*${host}`, "s") },
  { url: blocked, noticed: /blocked:.*drop\.png/s },
];

/** What the page carries packed under this id: the letters run on from `#` and leave out `<`. */
function unpacked(page, id) {
  const text = page.match(RegExp(`id="${id}">(.*?)</script>`, "s"))[1].trim();
  const bytes = [];
  for (let at = 0; at < text.length; at += 5) {
    const group = [...text.slice(at, at + 5)].map((letter) => letter.charCodeAt(0));
    const digits = group.map((code) => code - 35 - (code > 60));
    const number = [...digits, 84, 84, 84, 84]
      .slice(0, 5)
      .reduce((sum, digit) => sum * 85 + digit, 0);
    const four = Buffer.alloc(4);
    four.writeUInt32BE(number);
    bytes.push(...four.subarray(0, group.length - 1));
  }
  return gunzipSync(Buffer.from(bytes));
}

test("the page's policy allows its own two scripts, and no request", () => {
  const page = readFileSync(pagePath, "utf8");
  const opening = page.match(/<script type="module">(.*?)<\/script>/s)?.[1];
  const [first, second] = [opening, unpacked(page, "script")].map((script) =>
    createHash("sha256").update(script).digest("base64"),
  );
  const policy = page.match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)?.[1];
  const allowed = `script-src 'sha256-${first}' 'sha256-${second}' 'wasm-unsafe-eval'`;
  const rest = "style-src 'unsafe-inline'; img-src data: blob:";
  assert.equal(policy, `default-src 'none'; ${allowed}; ${rest}`);
});

for (const name of ["chromium", "firefox"]) {
  describe(name, { skip: engine(name).missing }, () => {
    test("the page opens from the disk, silent and alone", async () => {
      const browser = await launch(name);
      try {
        const { page, seen } = await openPage(browser);
        assert.equal(await page.title(), "Two Turns");
        assert.equal(await page.locator("[role=alert]").count(), 0);
        await seen.assertQuiet();
        await assertAccessible(page);
      } finally {
        await browser.close();
      }
    });

    test("a message, an error or a request would have been noticed", async () => {
      const browser = await launch(name);
      try {
        for (const { url, noticed } of controls) {
          const { seen } = await openPage(browser, { url });
          await assert.rejects(seen.assertQuiet(), ({ actual }) => {
            assert.match(inspect(actual), noticed, url);
            return true;
          });
        }
      } finally {
        await browser.close();
      }
    });
  });
}

describe("webkit", { skip: engine("webkit").missing }, () => {
  test("the page opens from the disk, and asks for nothing", async () => {
    const window = await WebKit.launch();
    try {
      await window.open(pageUrl);
      assert.equal(await window.run("return document.title"), "Two Turns");
      assert.equal(await window.run("return document.querySelectorAll('[role=alert]').length"), 0);
      const asked = "return performance.getEntriesByType('resource').map(({ name }) => name)";
      assert.deepEqual(await window.run(asked), []);
    } finally {
      await window.close();
    }
  });

  test("the page says nothing, where a page that does is heard", async () => {
    let longest = 0;
    for (const [url, word] of [
      [says, "ERROR control"],
      [blocked, "drop.png"],
    ]) {
      const { lines, took } = await consoleOf(url, { ms: 20_000, until: word });
      assert(
        lines.some((line) => line.includes(word)),
        `${word} was not heard from ${url}`,
      );
      longest = Math.max(longest, took);
    }
    const { lines } = await consoleOf(pageUrl, { ms: longest + 3_000 });
    assert.deepEqual(lines, []);
  });
});

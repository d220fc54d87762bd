// The same figures everywhere: what the core says as WebAssembly, in Node and in each engine, byte
// for byte what the same source says natively. Native figures come from `tests/src/bin/parity.rs`.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { before, describe, test } from "node:test";
import { fileURLToPath } from "node:url";
import { engine } from "./engines.mjs";
import { launch, openPage, pageUrl } from "./harness.mjs";
import { openCore } from "./parity.mjs";
import { WebKit } from "./webkit.mjs";

const SHIPPED = 6;
const SEEDS = 1000;
/** Random layouts on which a belt is fitted as well. */
const REHEARSED = 100;
const SEEDS_IN_A_BROWSER = 50;

/** What is said natively: the six layouts that ship first, then random ones. */
async function* natively(seeds) {
  const cargo = ["run", "--quiet", "--package", "proofs", "--profile", "test", "--bin", "parity"];
  const program = spawn("cargo", [...cargo, "--", "0", String(seeds)], {
    cwd: fileURLToPath(new URL("../..", import.meta.url)),
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise((done, fail) => program.once("error", fail).once("close", done));
  for await (const line of createInterface({ input: program.stdout })) yield JSON.parse(line);
  assert.equal(await ended, 0, "the native program failed");
}

/** Fails, with the first line that differs, unless two texts are the same byte for byte. */
function assertText(said, native, what) {
  if (said === native) return;
  const [ours, theirs] = [said.split("\n"), native.split("\n")];
  const line = ours.findIndex((text, i) => text !== theirs[i]);
  assert.fail(`${what}, line ${line + 1}: ${ours[line]} here, ${theirs[line]} natively`);
}

/** Fails unless all that is said of one layout is what is said natively, byte for byte. */
function assertSame({ name, report, fitting, tension, steps, rehearsal }, said) {
  assert.equal(said.problems, 0, name);
  assertText(said.report, report, `${name}: report`);
  assertText(said.fitting, fitting, `${name}: fitting`);
  assertText(said.tension, tension, `${name}: tension`);
  assert.equal(said.poses.length, steps.length, name);
  for (const [i, { action, pose }] of steps.entries()) {
    assertText(said.poses[i], pose, `${name}: pose after ${JSON.stringify(action)}`);
  }
  assert.equal(said.moments.length, rehearsal.length, name);
  for (const [i, { action, moment }] of rehearsal.entries()) {
    assertText(said.moments[i], moment, `${name}: readings after ${JSON.stringify(action)}`);
  }
}

/** In a page: what it says of these layouts, after these actions. */
function sayAll(cases) {
  return cases.map(({ layout, actions, fitted }) => {
    const { bench } = globalThis;
    const { problems } = bench.open(new TextEncoder().encode(layout));
    const [report, fitting, tension] = ["report", "fitting", "tension"].map((which) =>
      bench.json(which),
    );
    const poses = actions.map((action) => {
      bench.act(action);
      return bench.json("pose");
    });
    bench.rewind();
    const moments = fitted.map((action) => {
      bench.act(action);
      return bench.json("moment");
    });
    return { problems: problems.length, report, fitting, tension, poses, moments };
  });
}

/**
 * A short stand-in for a long text, the same in Node and in a page: 53 bits of it, so that two texts that
 * differ have one chance in 10^15 to pass for the same.
 */
function short(text) {
  let [a, b] = [0xdeadbeef, 0x41c6ce57];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 2654435761);
    b = Math.imul(b ^ code, 1597334677);
  }
  a = Math.imul(a ^ (a >>> 16), 2246822507) ^ Math.imul(b ^ (b >>> 13), 3266489909);
  b = Math.imul(b ^ (b >>> 16), 2246822507) ^ Math.imul(a ^ (a >>> 13), 3266489909);
  return 4294967296 * (2097151 & b) + (a >>> 0);
}

const asked = ({ layout, steps, rehearsal }) => ({
  layout,
  actions: steps.map(({ action }) => action),
  fitted: rehearsal.map(({ action }) => action),
});

test("in Node, over a thousand random layouts", async () => {
  const { Workbench } = await openCore();
  const bench = new Workbench("en", false);
  let [layouts, said, rehearsed, hung] = [0, 0, 0, 0];
  for await (const native of natively(SEEDS)) {
    const { layout, actions, fitted } = asked(native);
    const { problems } = bench.open(new TextEncoder().encode(layout));
    const [report, fitting] = [bench.reportJson(), bench.fittingJson()];
    const tension = bench.tensionJson();
    const poses = actions.map((action) => {
      assert(bench.act(action, false).done, native.name);
      return bench.poseJson();
    });
    bench.rewind();
    const moments = fitted.map((action) => {
      if (bench.act(action, false).done && action.hang) hung += 1;
      return bench.momentJson();
    });
    assertSame(native, { problems: problems.length, report, fitting, tension, poses, moments });
    layouts += 1;
    said += poses.length;
    if (moments.length > 0) rehearsed += 1;
  }
  assert.equal(layouts, SHIPPED + SEEDS);
  assert.equal(said, 7 * layouts);
  assert.equal(rehearsed, SHIPPED + REHEARSED);
  // Some have a tensioner that frees too little; where every one had, nothing would be compared.
  assert(hung > rehearsed, `belts were hung ${hung} times over ${rehearsed} layouts`);
});

test("in Chromium, over a thousand random layouts", {
  skip: engine("chromium").missing,
}, async () => {
  const browser = await launch("chromium");
  try {
    const { page } = await openPage(browser);
    // The texts are too long to send back a thousand times: the page sends what stands for each.
    const inPage = `(cases) => {
      const short = ${short};
      return (${sayAll})(cases).map(({ problems, report, fitting, tension, poses, moments }) => ({
        problems, report: short(report), fitting: short(fitting), tension: short(tension),
        poses: poses.map(short), moments: moments.map(short),
      }));
    }`;
    const sayShort = await page.evaluateHandle(`(${inPage})`);
    let [layouts, batch] = [0, []];
    const compare = async () => {
      const said = await page.evaluate(([say, cases]) => say(cases), [sayShort, batch.map(asked)]);
      for (const [i, each] of batch.entries()) {
        const native = {
          report: short(each.report),
          fitting: short(each.fitting),
          tension: short(each.tension),
          poses: each.steps.map((s) => short(s.pose)),
          moments: each.rehearsal.map((s) => short(s.moment)),
        };
        if (JSON.stringify({ problems: 0, ...native }) === JSON.stringify(said[i])) continue;
        const [whole] = await page.evaluate(sayAll, [asked(each)]);
        assertSame(each, whole);
        assert.fail(`${each.name}: stands for another text, and yet the texts are the same`);
      }
      layouts += batch.length;
      batch = [];
    };
    for await (const native of natively(SEEDS)) {
      batch.push(native);
      if (batch.length === 50) await compare();
    }
    await compare();
    assert.equal(layouts, SHIPPED + SEEDS);
  } finally {
    await browser.close();
  }
});

describe("in each engine, over some", () => {
  const native = [];
  before(async () => {
    for await (const each of natively(SEEDS_IN_A_BROWSER)) native.push(each);
  });

  test("firefox", { skip: engine("firefox").missing }, async () => {
    const browser = await launch("firefox");
    try {
      const { page } = await openPage(browser);
      const said = await page.evaluate(sayAll, native.map(asked));
      for (const [i, each] of native.entries()) assertSame(each, said[i]);
    } finally {
      await browser.close();
    }
  });

  test("webkit", { skip: engine("webkit").missing }, async () => {
    const window = await WebKit.launch();
    try {
      await window.open(pageUrl);
      for (const each of native.slice(0, 10)) {
        const [said] = await window.run(`return (${sayAll})(arguments[0])`, [asked(each)]);
        assertSame(each, said);
      }
    } finally {
      await window.close();
    }
  });
});

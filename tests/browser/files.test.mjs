// Layout files opened on the page: good ones, broken ones, and what is no layout at all; and what is
// left when the program stops. Present work is lost in no case but the first.
import assert from "node:assert/strict";
import { standing } from "./harness.mjs";
import {
  button,
  forward,
  inEngines,
  L,
  open,
  poseText,
  press,
  reads,
  report,
  settled,
  shippedText,
  task,
} from "./working.mjs";

/** A second layout: one camshaft, a crank of 20 and a belt of 96, which meet after 24 turns. */
const SMALL = `format = 1
title = "One camshaft"
about = "Written for the proofs."
crank_turns = "anticlockwise"

[belt]
teeth = 96
pitch_mm = 8.0
thickness_mm = 5.2
tooth_height_mm = 3.2
pitch_line_differential_mm = 0.7
width_mm = 20.0
tensile_stiffness_n = 300000.0
mass_kg_per_m = 0.08

[[wheel]]
id = "crank"
name = "Crank sprocket"
role = "crank"
face = "toothed"
teeth = 20
at_mm = [0.0, 0.0]
mark = { cover_clock_deg = 180.0, on = "groove" }
friction_n_m = 5.0

[[wheel]]
id = "roller"
name = "Roller"
role = "tensioner"
face = "back"
outside_diameter_mm = 50.0
at_mm = [52.0, 120.0]
friction_n_m = 0.05

[[wheel]]
id = "cam"
name = "Camshaft sprocket"
role = "camshaft"
face = "toothed"
teeth = 40
at_mm = [0.0, 260.0]
mark = { cover_clock_deg = 90.0, on = "groove" }
friction_n_m = 2.0

[tensioner]
wheel = "roller"
kind = "slide"
tightening_clock_deg = 270.0
travel_mm = [-4.0, 25.0]
pinned_mm = 0.0
force_n = 250.0
`;

/** The shipped layout with slips in it, each with its line and what must be said of it. */
const SLIPS = [
  { from: "width_mm = 25.4", to: "widht_mm = 25.4", said: /widht_mm.*width_mm/ },
  { from: 'role = "water_pump"', to: 'role = "waterpump"', said: /waterpump.*water_pump/ },
  { from: "at_mm = [157.4, 307.5]", to: 'at_mm = [157.4, "right"]', said: /number/ },
  { from: "force_n = 350.0", to: "force_n = -350.0", said: /−350/ },
];
const BROKEN = SLIPS.reduce((text, { from, to }) => text.replace(from, to), shippedText);
const lineOf = (piece) => BROKEN.split("\n").indexOf(piece) + 1;

const problems = (page) => page.locator("open-file section.problems");
const title = (page) => page.locator("header .title");

/** Puts the drive somewhere that would be missed. */
async function work(page) {
  await press(page, forward(L.quarter));
  await task(page, L.what_if);
  await press(page, `Left camshaft: ${L.tooth_behind}`);
  await press(page, L.right_back);
  return poseText(page);
}

/**
 * In the page, before anything else: once `globalThis.dead` is set, every call of the core runs onto
 * an instruction that must not be reached, in a module that holds nothing else.
 */
function mortal() {
  const module = "0061736d01000000010401600000030201000707010364696500000a05010300000b";
  const bytes = Uint8Array.from(module.match(/../g), (two) => Number.parseInt(two, 16));
  const { die } = new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports;
  const real = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (...given) => {
    const { instance, module } = await real.apply(WebAssembly, given);
    const exports = { ...instance.exports };
    for (const [name, call] of Object.entries(exports)) {
      if (!name.startsWith("workbench_")) continue;
      exports[name] = (...values) => (globalThis.dead ? die() : call(...values));
    }
    return { instance: { exports }, module };
  };
}

/** A program that stops says so in the console. */
const LOUD = { quiet: false };

inEngines(["chromium", "firefox"], (prove, name) => {
  const inChromium = name === "chromium" ? prove : () => undefined;

  prove("a good file goes on the bench", {}, async (page) => {
    const before = await work(page);
    await open(page, "one-camshaft.toml", SMALL);
    await page.waitForFunction(() => globalThis.bench.panel.title === "One camshaft");
    await settled(page);
    assert.equal(await title(page).textContent(), "One camshaft");
    assert.equal(await problems(page).count(), 0);
    await reads(page, "crank_deg", 0);
    // Even that can be undone, and then all before it.
    const opened = await poseText(page);
    await press(page, L.undo);
    assert.equal(await poseText(page), before);
    assert.match(await title(page).textContent(), /^Six in a vee/);
    assert.equal(await page.locator("all-readings tbody th").count(), 6);
    await press(page, L.undo);
    await press(page, L.redo);
    assert.equal(await poseText(page), before);
    await press(page, L.redo);
    assert.equal(await poseText(page), opened);
    assert.equal(await title(page).textContent(), "One camshaft");
    const { belt, shafts, stripes } = await report(page);
    assert.equal(belt.teeth, 96);
    assert.equal(stripes.crank_turns_to_meet_crank_mark, 24);
    assert.deepEqual(
      shafts.map(({ id, degrees_per_tooth }) => [id, degrees_per_tooth]),
      [
        ["crank", 18],
        ["cam", 9],
      ],
    );
    const rows = page.locator("all-readings tbody th");
    assert.equal(await rows.count(), 3);
    assert.match(
      (await rows.allTextContents()).join(),
      /Crank sprocket.*Roller.*Camshaft sprocket/,
    );
    assert.equal(await page.getByRole("button", { name: /^Camshaft sprocket/ }).count(), 3);
    await task(page, L.two_turns);
    await press(page, forward(L.one_turn));
    await reads(page, "stripes.past_crank_mark_teeth", 20);
    await press(page, L.run_to_meet);
    await reads(page, "crank_deg", 24 * 360);
    await task(page, L.layout);
    await page
      .locator("task-layout")
      .getByRole("button", { name: /^Six in a vee, one/ })
      .click();
    await page.waitForFunction(() => globalThis.bench.panel.wheels.length === 6);
    assert.match(await title(page).textContent(), /^Six in a vee/);
  });

  prove("a broken file leaves the work, and names every slip with its line", {}, async (page) => {
    const before = await work(page);
    await open(page, "broken.toml", BROKEN);
    await problems(page).waitFor();
    assert.equal(await problems(page).getAttribute("role"), "alert");
    assert.equal((await problems(page).locator("h2").textContent()).trim(), "broken.toml");
    assert.match(await problems(page).textContent(), /was not opened\. What was .* still/);
    const items = problems(page).getByRole("listitem");
    assert.equal(await items.count(), SLIPS.length);
    for (const [i, { to, said }] of SLIPS.entries()) {
      const text = (await items.nth(i).textContent()).replace(/\s+/g, " ").trim();
      assert.match(text, RegExp(`^Line ${lineOf(to)} `), text);
      assert.match(text, said);
      assert.match(text, /[.?]$/, "a sentence");
      // With the line number and the key taken away, words remain.
      assert(text.split(" ").length > 5, text);
    }
    assert.equal(await poseText(page), before);
    assert.match(await title(page).textContent(), /^Six in a vee/);
    await reads(page, "shafts.cam_left.out_deg", -7.5);
    // The work goes on with the list still there, and without it.
    await press(page, forward(L.one_degree));
    await press(page, L.undo);
    assert.equal(await poseText(page), before);
    await problems(page).getByRole("button", { name: L.close }).click();
    assert.equal(await problems(page).count(), 0);
    // A good file after a broken one takes the list away.
    await open(page, "broken.toml", BROKEN);
    await problems(page).waitFor();
    await open(page, "good.toml", SMALL);
    await page.waitForFunction(() => globalThis.bench.panel.title === "One camshaft");
    assert.equal(await problems(page).count(), 0);
  });

  prove("what is no layout at all is refused in words", {}, async (page) => {
    const before = await work(page);
    const bits = Buffer.concat([
      Buffer.from("format = 1\n"),
      Buffer.from([0xff, 0xfe, 0x00, 0x80]),
    ]);
    const cases = [
      ["picture.toml", bits, /Line 2\s.*not UTF-8/s],
      ["huge.toml", Buffer.alloc(3_000_000, "# more\n"), /3000000 bytes.*at most/],
      ["empty.toml", "", /format is missing/],
      ["letter.txt", "Dear all,\nthe belt is on.\n", /Line 1\s/],
      ["deep.toml", `x = ${"[".repeat(50_000)}`, /Line 1\s/],
      [
        "nothing-fits.toml",
        shippedText.replace("teeth = 173", "teeth = 120"),
        /belt cannot be fitted/,
      ],
    ];
    for (const [file, content, said] of cases) {
      await open(page, file, content);
      // Of this file: the one before may have said the same.
      const told = problems(page).filter({ hasText: file }).filter({ hasText: said });
      await told.waitFor({ timeout: 5_000 });
      assert.equal((await problems(page).locator("h2").textContent()).trim(), file);
      assert.equal(await poseText(page), before, file);
    }
  });

  prove("a file is dropped on the page", {}, async (page) => {
    const drop = (file, text) =>
      page.evaluate(
        ([fileName, content]) => {
          const dataTransfer = new DataTransfer();
          dataTransfer.items.add(new File([content], fileName, { type: "text/plain" }));
          for (const type of ["dragover", "drop"]) {
            const event = new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer });
            document.body.dispatchEvent(event);
          }
        },
        [file, text],
      );
    const over = await page.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["x"], "x.toml"));
      const event = new DragEvent("dragover", { bubbles: true, cancelable: true, dataTransfer });
      document.body.dispatchEvent(event);
      return event.defaultPrevented;
    });
    assert(over, "the page takes files");
    await page.getByText(L.drop_here).waitFor();
    await drop("one-camshaft.toml", SMALL);
    await page.waitForFunction(() => globalThis.bench.panel.title === "One camshaft");
    assert.equal(await page.getByText(L.drop_here).count(), 0);
    await press(page, forward(L.one_degree));
    await drop("broken.toml", BROKEN);
    await problems(page).waitFor();
    assert.equal(await title(page).textContent(), "One camshaft");
    await reads(page, "crank_deg", 1);
  });

  inChromium("the same file is opened again after it was changed", {}, async (page) => {
    await open(page, "mine.toml", BROKEN);
    await problems(page).waitFor();
    await open(page, "mine.toml", SMALL);
    await page.waitForFunction(() => globalThis.bench.panel.title === "One camshaft");
    assert.equal(await problems(page).count(), 0);
  });

  prove("when the program stops, the layout is there to copy", LOUD, async (page, { seen }) => {
    await page.addInitScript(mortal);
    await page.reload();
    await standing(page);
    await open(page, "one-camshaft.toml", SMALL);
    await page.waitForFunction(() => globalThis.bench.panel.title === "One camshaft");
    await settled(page);
    await seen.assertQuiet();
    await page.evaluate(() => {
      globalThis.dead = true;
    });
    await button(page, forward(L.one_turn)).click();
    const stopped = page.getByRole("alert");
    await stopped.waitFor();
    assert.match(await stopped.textContent(), /The program stopped\. Your layout is not lost\./);
    const text = page.getByRole("textbox", { name: L.layout_text });
    assert.equal(await text.inputValue(), SMALL);
    assert(await text.evaluate((area) => area.readOnly), "to copy, not to write");
    assert(
      seen.errors.some((error) => /RuntimeError/.test(error)),
      `a trap: ${seen.errors}`,
    );
    const many = seen.errors.length;
    // Nothing of the old page is left to work with.
    assert.equal(await page.locator("turn-dial, drive-view, [role=tab], [data-key]").count(), 0);
    await page.keyboard.press("Control+z");
    await page.waitForTimeout(100);
    assert.equal(seen.errors.length, many, "it stopped once");
    await page.getByRole("button", { name: L.reload }).click();
    await page.locator("drive-view").waitFor();
    await settled(page);
    await reads(page, "crank_deg", 0);
  });

  const running = { ...LOUD, reducedMotion: "no-preference" };
  inChromium("when it stops in the middle of a run, too", running, async (page, { seen }) => {
    await page.addInitScript(mortal);
    await page.reload();
    await standing(page);
    await button(page, L.two_turns_forward).click();
    await page.evaluate(() => {
      globalThis.dead = true;
    });
    await page.getByRole("alert").waitFor();
    assert.equal(await page.getByRole("textbox").inputValue(), shippedText);
    await page.waitForTimeout(100);
    assert.equal(seen.errors.length, 1, `it stopped once: ${seen.errors}`);
  });
});

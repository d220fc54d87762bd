// How the proofs work the task Fitting: by the names of its buttons, with keys, a finger or a mouse.
// Knows no figure of any layout.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { figure, L, open, settled, task, words } from "./working.mjs";

const shipped = (name) =>
  readFileSync(new URL(`../../layouts/${name}.toml`, import.meta.url), "utf8");
/** Layouts that ship, as a person has them. */
export const SIX = shipped("six-in-a-vee-one-camshaft-a-bank");
export const FOUR = shipped("four-in-line-two-camshafts-arm");
export const DIESEL = shipped("diesel-four-with-injection-pump");
export const ECCENTRIC = shipped("four-in-line-one-camshaft-eccentric");

/** The title that a layout's text has. */
export const titleOf = (text) => text.match(/^title = "(.*)"$/m)[1];

/** Opens a layout and goes to the task. */
export async function rehearse(page, text) {
  await open(page, "layout.toml", text);
  await page.waitForFunction((title) => globalThis.bench.panel.title === title, titleOf(text));
  await task(page, L.fitting);
}

/** The steps of the usual order as the page shows them, those past folded away. */
export function steps(page) {
  return page.locator("task-fitting .stages li").evaluateAll((all) =>
    all.map((item) => ({
      name: item.querySelector("b").textContent,
      standing: item.querySelector("small")?.textContent ?? "",
      current: item.getAttribute("aria-current") === "step",
      button: item.querySelector("button")?.ariaLabel ?? "",
      folded: item.closest("details.past") !== null,
    })),
  );
}

/** How one step stands, in the page's word for it. */
export async function standingOf(page, name) {
  return (await steps(page)).find((step) => step.name === name)?.standing;
}

/** What is said of the steps that are folded away. */
export async function pastSummary(page) {
  return (await page.locator("task-fitting .past summary").textContent()).trim();
}

/** The step that is next, by name; nothing when all are done. */
export async function next(page) {
  return (await steps(page)).find(({ current }) => current)?.name;
}

/** What the button that does a step is called. */
export const doIt = (name) => `${L.do_it}: ${name}`;

/** The button that does the next step: there is no other. */
export const stepButton = (page) => page.locator("task-fitting .stages button");

/** Does the next step. */
export async function doNext(page) {
  await stepButton(page).click();
  await settled(page);
}

/** Does the steps that come before this one; all of them without one. */
export async function upTo(page, name) {
  for (let i = 0; ; i += 1) {
    const now = await next(page);
    if (now === name) return;
    assert(now && i < 20, `the steps end without ${name}`);
    await doNext(page);
  }
}

/** Everything that the page warns of just now, one a line. */
export async function warnings(page) {
  return (await page.locator("task-fitting .watch li.caution").allTextContents()).join("\n");
}

/** What was told of the last thing done. */
export async function told(page) {
  const said = page.locator("task-fitting .told");
  await page.waitForFunction(
    () =>
      document.querySelector("task-fitting .told")?.textContent.trim() ===
      globalThis.bench.lastTold,
  );
  return (await said.textContent()).trim();
}

/** The readings as the command line prints them after an action. */
export function momentText(page) {
  return page.evaluate(() => globalThis.bench.json("moment"));
}

/** The same, read. */
export async function moment(page) {
  return JSON.parse(await momentText(page));
}

/** The name of what has the focus; nothing where that is the page itself. */
export function focused(page) {
  return page.evaluate(() => {
    const element = document.activeElement;
    return element === document.body ? "" : element.ariaLabel || element.textContent.trim();
  });
}

/** Presses Tab until the focus is on what has this name; gives how often. */
export async function tabTo(page, name) {
  for (let i = 1; i < 400; i += 1) {
    await page.keyboard.press("Tab");
    if ((await focused(page)) === name) return i;
  }
  return assert.fail(`Tab never comes to ${name}`);
}

/**
 * Goes through the whole usual order, `pressIt` pressing the button of each step, which it is told the
 * name of, and looks what came of it. Gives the steps and how the drive stood after each.
 */
export async function wholeOrder(page, pressIt) {
  const [names, stood] = [[], {}];
  for (let now = await next(page); now; now = await next(page)) {
    assert(names.length < 20, `no end: ${names}`);
    const all = await steps(page);
    assert.equal(all.find(({ current }) => current).button, doIt(now));
    assert.equal(all.filter(({ button }) => button).length, 1, "one step can be done");
    assert.equal(all.find(({ current }) => current).standing, L.next_step);
    const past = all.findIndex(({ current }) => current);
    for (const [i, { folded, name, standing }] of all.entries()) {
      assert.equal(folded, i < past, name);
      assert.equal(standing, i < past ? L.done : i === past ? L.next_step : "", name);
    }
    if (past > 0) assert.equal(await pastSummary(page), `✓ ${past} ${L.steps_done}`);
    await pressIt(doIt(now));
    await settled(page);
    names.push(now);
    stood[now] = await moment(page);
    assert.notEqual(await next(page), now, `${now} was done`);
  }
  const all = await steps(page);
  for (const { name, standing } of all) assert.equal(standing, L.done, name);
  assert.equal(await pastSummary(page), `✓ ${all.length} ${L.steps_done}`);
  assert.equal((await page.locator("task-fitting .finished").textContent()).trim(), L.all_done);
  assert.equal(await warnings(page), "");
  return { names, stood };
}

/** Fails unless the belt is tight all round and in time, and every mark is on. */
export async function assertFitted(page) {
  const { shafts, runs, belt_on, tensioner } = await moment(page);
  assert.deepEqual([belt_on, tensioner.state], [true, "pin_out"]);
  assert.match(await page.locator("tensioner-part").textContent(), /The belt is tight\./);
  for (const { from, to, slack_mm } of runs) {
    assert.equal(slack_mm, 0);
    assert.equal(await words(page, `runs.${from}>${to}.slack_mm`), "tight");
  }
  const hands = await page.locator("task-fitting .hand h4 span").allTextContents();
  assert.equal(hands.length, shafts.length);
  for (const [i, { id, held, mark_error_teeth }] of shafts.entries()) {
    assert(!held, `${id} is let go`);
    assert(Math.abs(mark_error_teeth) < 0.5, `${id} reads ${mark_error_teeth} teeth`);
    assert.match(hands[i], /^on\b/, id);
  }
  await task(page, L.two_turns);
  for (const { id, mark_error_teeth } of shafts) {
    assert.equal(await figure(page, `shafts.${id}.mark_error_teeth`), mark_error_teeth);
    assert.match(await words(page, `shafts.${id}.mark_error_teeth`), /^on\b/);
    assert.match(await words(page, `shafts.${id}.ahead_teeth`), /^in time\b/);
  }
  await task(page, L.fitting);
}

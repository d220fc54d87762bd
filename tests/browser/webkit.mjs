// Drives WebKit's own test browser over plain WebDriver, on a screen that exists in memory only.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { createServer } from "node:net";
import { setTimeout as sleep } from "node:timers/promises";
import { engine } from "./engines.mjs";

const SCREEN = ["-a", "-s", "-screen 0 1400x1000x24"];

/** Starts a program on a screen of its own; `stop` ends it with everything that it started. */
function onScreen(program, args, stdio) {
  const { parts, missing } = engine("webkit");
  assert(!missing, `webkit: ${missing}`);
  const child = spawn(parts.screen, [...SCREEN, program, ...args], { stdio, detached: true });
  const ended = new Promise((done) => child.once("exit", done));
  const stop = async () => {
    if (child.exitCode === null) process.kill(-child.pid, "SIGTERM");
    await ended;
  };
  return { child, stop };
}

function freePort() {
  return new Promise((done, fail) => {
    const server = createServer().once("error", fail);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });
}

/** One browser window. `open`, `run` and `waitFor` are what a test needs; `ask` is the rest. */
export class WebKit {
  static async launch() {
    const { parts } = engine("webkit");
    const port = await freePort();
    const driver = onScreen(parts.driver, [`--port=${port}`], "ignore");
    const window = new WebKit(`http://127.0.0.1:${port}`, driver);
    const options = { binary: parts.browser, args: ["--automation"] };
    const wanted = { alwaysMatch: { "webkitgtk:browserOptions": options } };
    try {
      await window.#answering();
      const { sessionId } = await window.ask("POST", "/session", { capabilities: wanted });
      window.session = `/session/${sessionId}`;
    } catch (problem) {
      await driver.stop();
      throw problem;
    }
    return window;
  }

  constructor(host, driver) {
    this.host = host;
    this.driver = driver;
  }

  async #answering() {
    for (let tries = 0; tries < 100; tries += 1) {
      const answer = await fetch(`${this.host}/status`).catch(() => undefined);
      if (answer?.ok) return;
      await sleep(100);
    }
    throw new Error("WebKit's driver did not answer within ten seconds.");
  }

  /** One WebDriver command, as the standard names it. */
  async ask(method, path, body) {
    const request = { method, ...(body && { body: JSON.stringify(body) }) };
    const answer = await fetch(this.host + path, request);
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(`${method} ${path}: ${value.error}: ${value.message}`);
    return value;
  }

  /** Goes to a URL and waits until the app stands. */
  async open(url) {
    await this.ask("POST", `${this.session}/url`, { url });
    await this.waitFor("return !document.querySelector('main[aria-busy]')");
  }

  /** Runs the body of a function in the page and gives what it returns. */
  run(script, ...args) {
    return this.ask("POST", `${this.session}/execute/sync`, { script, args });
  }

  /** Runs a script again and again until it gives something true, for ten seconds at most. */
  async waitFor(script) {
    for (let tries = 0; tries < 100; tries += 1) {
      if (await this.run(script)) return;
      await sleep(100);
    }
    throw new Error(`WebKit waited ten seconds in vain for: ${script}`);
  }

  /** Clicks the first element that a CSS selector finds, as a mouse does. */
  async click(selector) {
    const found = { using: "css selector", value: selector };
    const [element] = Object.values(await this.ask("POST", `${this.session}/element`, found));
    await this.ask("POST", `${this.session}/element/${element}/click`, {});
  }

  /** A picture of the window, as PNG. */
  async screenshot() {
    return Buffer.from(await this.ask("GET", `${this.session}/screenshot`), "base64");
  }

  async close() {
    await this.ask("DELETE", this.session).catch(() => undefined);
    await this.driver.stop();
  }
}

/**
 * What a page says on WebKit's console. WebDriver cannot tell, so the page is opened a second time,
 * undriven, and what the browser writes about it is read.
 *
 * `until` ends the wait as soon as a line holds it; without it the wait is `ms` long.
 */
export async function consoleOf(url, { ms, until }) {
  const flags = ["--enable-write-console-messages-to-stdout=true", url];
  const { child, stop } = onScreen(engine("webkit").parts.browser, flags, "pipe");
  const begun = Date.now();
  let text = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding("utf8").on("data", (piece) => {
      text += piece;
    });
  }
  while (Date.now() - begun < ms && !(until && text.includes(until))) await sleep(50);
  const took = Date.now() - begun;
  await stop();
  // The place comes first, as in `file:///…:1:56: CONSOLE ERROR …`.
  return { lines: text.split("\n").filter((line) => /(^|: )CONSOLE /.test(line)), took };
}

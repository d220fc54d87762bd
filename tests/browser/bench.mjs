// How long the page takes, in Chromium at 1280 × 800: node bench.mjs
//
// Prints medians beside what they should not exceed. Nothing fails here: machines differ, and a
// measurement that gates is soon measured no more.
import { statSync } from "node:fs";
import { launch, openPage, pagePath } from "./harness.mjs";
import { openCore } from "./parity.mjs";

const LOADS = 7;
const BATCHES = 21;
/** The page's clock moves in steps of 0.1 ms, so that many calls are timed together. */
const CALLS = 100;
/** Moves of a drag, px. */
const MOVES = 24;

const median = (figures) => [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)];

function say(what, figure, unit, most) {
  const target =
    most === undefined ? "" : `(${figure <= most ? "within" : "MORE THAN"} ${most} ${unit})`;
  const number = figure.toFixed(unit === "ms" && figure < 10 ? 3 : 1);
  console.log(`${what.padEnd(44)}${number.padStart(9)} ${unit.padEnd(3)}${target}`);
}

/** In the page, before anything else: notes when the drive was first painted. */
function noteFirstPaint() {
  let bench;
  Object.defineProperty(globalThis, "bench", {
    configurable: true,
    get: () => bench,
    set(opened) {
      bench = opened;
      const painted = () => queueMicrotask(() => performance.mark("drive in view"));
      bench.addEventListener("paint", painted, { once: true });
    },
  });
}

/** In the page: ms a call, a figure for each batch, of a frame without and with its pixels made. */
function timeFrames([batches, calls]) {
  const { bench } = globalThis;
  const canvases = ["drive-view canvas", ".dial canvas"].map((each) =>
    document.querySelector(each),
  );
  const [drive, dial] = canvases.map((canvas) => canvas.getContext("2d"));
  const density = devicePixelRatio;
  const size = canvases[1].clientWidth;
  const paint = () => {
    for (const context of [drive, dial]) {
      context.clearRect(0, 0, context.canvas.width, context.canvas.height);
    }
    bench.paintDrive(drive, density);
    bench.paintDial(dial, size, density);
  };
  const raster = () => {
    paint();
    drive.getImageData(0, 0, 1, 1);
    dial.getImageData(0, 0, 1, 1);
  };
  // The task What if is not open: a canvas of the section's own size stands for its own.
  const section = Object.assign(document.createElement("canvas"), { width: 356, height: 320 });
  const sectionContext = section.getContext("2d");
  const paintSection = () => bench.paintSection(sectionContext, 356, 320, 1);
  let deg = 0;
  const act = () => {
    deg += 1;
    bench.act({ turn_to: { crank_deg: deg } }, true);
  };
  /** Each batch from another angle; what was painted before is made into pixels first. */
  const time = (call, n) =>
    Array.from({ length: batches }, (_, i) => {
      bench.act({ turn_to: { crank_deg: 37.3 * i } });
      raster();
      const begun = performance.now();
      for (let k = 0; k < n; k += 1) call();
      const took = performance.now() - begun;
      raster();
      return took / n;
    });
  time(paint, calls);
  return {
    script: time(paint, calls),
    raster: time(raster, calls),
    act: time(act, calls),
    section: time(paintSection, calls),
    shown: drive
      .getImageData(0, 0, canvases[0].width, canvases[0].height)
      .data.some((part) => part > 0),
  };
}

/**
 * In the page: ms a move, a figure for each batch, of a wheel dragged from where the belt fits to where it does
 * not: its path, the problems, the readings and the picture.
 */
function timeDrag([batches, moves]) {
  const { bench } = globalThis;
  const canvas = document.querySelector("drive-view canvas");
  const context = canvas.getContext("2d");
  const pump = bench.wheelIndex("water_pump");
  const spots = Array.from({ length: 100 * 100 }, (_, i) => [
    12 * (i % 100),
    8 * Math.floor(i / 100),
  ]);
  const [x, y] = spots.find(([x, y]) => bench.takeWheel(x, y) === pump);
  let sketched = 0;
  bench.sketch(true);
  const drag = () => {
    bench.takeWheel(x, y);
    const begun = performance.now();
    for (let i = 1; i <= moves; i += 1) {
      bench.moveWheelTo(x, y - i, i > 1);
      bench.pick(pump);
      context.clearRect(0, 0, canvas.width, canvas.height);
      bench.paintDrive(context, devicePixelRatio);
      sketched += bench.panel.draft ? 1 : 0;
    }
    const took = performance.now() - begun;
    bench.undo();
    return took / moves;
  };
  drag();
  sketched = 0;
  const took = Array.from({ length: batches }, drag);
  bench.sketch(false);
  return { took, sketched: sketched / batches };
}

/** Of the core as WebAssembly in Node, whose engine is Chromium's: microseconds a call. */
async function timeCore() {
  const { Workbench } = await openCore();
  const bench = new Workbench("en", false);
  const time = (call) => {
    const batches = Array.from({ length: BATCHES }, () => {
      const begun = performance.now();
      for (let k = 0; k < CALLS; k += 1) call();
      return ((performance.now() - begun) / CALLS) * 1000;
    });
    return median(batches);
  };
  let deg = 0;
  const act = () => {
    deg += 15;
    bench.act({ turn_to: { crank_deg: deg } }, true);
  };
  const figures = time(() => {
    act();
    bench.momentJson();
  });
  const vee = Array.from({ length: Workbench.shippedCount() }, (_, i) => i).find((i) =>
    Workbench.shippedText(i).includes("cam_left_intake"),
  );
  bench.open(new TextEncoder().encode(Workbench.shippedText(vee)));
  const begun = performance.now();
  for (let teeth = -6; teeth <= 6; teeth += 1) {
    bench.act({ set_teeth: { cam_left_intake: teeth, cam_right_intake: teeth } }, true);
    bench.panel(false, true, false);
  }
  return { figures, teeth: performance.now() - begun };
}

const browser = await launch("chromium");
try {
  const loads = [];
  for (let i = 0; i < LOADS; i += 1) {
    const opened = await openPage(browser, { prepare: noteFirstPaint });
    await opened.page.waitForFunction(
      () => performance.getEntriesByName("drive in view").length > 0,
    );
    loads.push(
      await opened.page.evaluate(() => performance.getEntriesByName("drive in view")[0].startTime),
    );
    await opened.context.close();
  }
  const { page } = await openPage(browser);
  const times = await page.evaluate(timeFrames, [BATCHES, CALLS]);
  if (!times.shown) throw new Error("The canvas is empty: nothing was measured.");
  const drag = await page.evaluate(timeDrag, [BATCHES, MOVES]);
  if (drag.sketched === 0 || drag.sketched === MOVES) {
    throw new Error("The drag stays on one side of what fits.");
  }
  say("script of a frame (drive and dial)", median(times.script), "ms", 0.5);
  say("the same with its pixels made", median(times.raster), "ms", 2);
  say("script of the cylinder in section", median(times.section), "ms", 0.5);
  say("an action, and all that the page says after it", median(times.act), "ms");
  say("a wheel dragged, a move", median(drag.took), "ms", 8);
  const core = await timeCore();
  say("an action with its figures, in Node", core.figures, "µs", 60);
  say("four camshafts at −6…+6 teeth, all said, in Node", core.teeth, "ms", 20);
  say("page", statSync(pagePath).size / 1000, "kB", 900);
  say(`navigation to the drive in view, of ${LOADS}`, median(loads), "ms", 400);
} finally {
  await browser.close();
}

// The page's first lines: open the core, then show the page, or say in words why it did not come up.
import { html, render } from "lit";
import { Bench } from "./bench.ts";
import { openCore } from "./boot.ts";
import { Keeper } from "./keeping/keeper.ts";
import { Saving } from "./keeping/saving.ts";
import "./app.ts";

/** A function, because WebKit says nothing of an error after an `await` of the module itself. */
async function begin(place: HTMLElement): Promise<void> {
  try {
    await openCore();
    const bench = new Bench();
    const keeper = new Keeper(bench);
    const saving = new Saving(bench);
    // For the tests, which read the program's own figures beside the page's.
    Object.assign(globalThis, { bench });
    render(
      html`<two-turns .bench=${bench} .keeper=${keeper} .saving=${saving}></two-turns>`,
      place,
    );
    await keeper.begin();
  } catch (problem) {
    const reason = problem instanceof Error ? problem.message : String(problem);
    render(html`<p role="alert">${reason}</p>`, place);
    throw problem;
  } finally {
    // The tests wait for this, too.
    place.removeAttribute("aria-busy");
  }
}

const place = document.getElementById("app");
if (place) begin(place);

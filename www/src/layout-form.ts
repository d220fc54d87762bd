// The layout as a form: one row for every key, filled in by typing or choosing, each with its meaning and
// with what is wrong at it. Knows nothing of the format; the program says which rows there are.
import { html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import type { FormEntry, FormRow } from "../generated/page.js";
import { BenchElement } from "./element.ts";
import "./form-field.ts";

@customElement("layout-form")
export class LayoutForm extends BenchElement {
  protected override follows = ["labels", "layout", "draft", "moved"];
  /** Which tables stand open, by path; entries of lists by their place. */
  #open = new Set<string>();
  #shown = -1;

  /** A field that is still being typed in. */
  readonly #settle = (): void => {
    const field = document.activeElement;
    if (this.contains(field)) field?.dispatchEvent(new Event("change", { bubbles: true }));
  };

  readonly #picked = (): void => {
    const { picked } = this.bench;
    if (picked === this.#shown) return;
    this.#shown = picked;
    if (picked < 0) return;
    this.#open.add("wheel");
    this.#open.add(`wheel[${picked}]`);
    this.requestUpdate();
  };

  override connectedCallback(): void {
    super.connectedCallback();
    this.bench.addEventListener("panel", this.#picked);
    this.bench.addEventListener("settle", this.#settle);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.bench.removeEventListener("panel", this.#picked);
    this.bench.removeEventListener("settle", this.#settle);
  }

  protected override render(): TemplateResult {
    const rows = this.bench.form();
    if (rows.length === 0) return html`<p class="note">${this.bench.labels.form_no_toml}</p>`;
    return html`<div class="rows">${rows.map((row) => this.#row(row))}</div>`;
  }

  #row(row: FormRow): TemplateResult {
    if (row.kind === "table") return this.#table(row);
    if (row.kind === "tables") return this.#list(row);
    return html`<form-field .bench=${this.bench} .row=${row}></form-field>`;
  }

  #table(row: FormRow): TemplateResult {
    const { labels } = this.bench;
    return this.#details(
      row.path,
      html`${row.name}${row.there ? nothing : html` <small>${row.needed ? labels.form_missing : labels.form_not_there}</small>`}`,
      faulty(row.rows) || row.problems.length > 0,
      html`
        <p class="note">${row.meaning}</p>
        ${problems(row.problems)}
        <div class="rows">${row.rows.map((inner) => this.#row(inner))}</div>
        ${
          row.there && !row.needed
            ? html`<div class="buttons"><button type="button" @click=${() => this.bench.removeAt(row.path)}>${labels.form_remove}: ${row.name}</button></div>`
            : nothing
        }
      `,
    );
  }

  #list(row: FormRow): TemplateResult {
    const many = row.entries.length;
    return this.#details(
      row.path,
      html`${row.name} <small>${many}</small>`,
      row.problems.length > 0 || row.entries.some((entry) => faulty(entry.rows)),
      html`
        <p class="note">${row.meaning}</p>
        ${problems(row.problems)}
        <ol class="entries">${row.entries.map((entry, at) => html`<li>${this.#entry(row, entry, at)}</li>`)}</ol>
        ${
          row.more
            ? html`<div class="buttons"><button type="button" @click=${() => this.#add(row, many)}>${row.one_more}</button></div>`
            : nothing
        }
      `,
    );
  }

  #entry(list: FormRow, entry: FormEntry, at: number): TemplateResult {
    const { labels } = this.bench;
    const many = list.entries.length;
    // The crank stays first.
    const first = list.path === "wheel" ? 1 : 0;
    const name = entry.name || `${list.name} ${at + 1}`;
    return this.#details(
      entry.path,
      html`${name}`,
      entry.problems.length > 0 || faulty(entry.rows),
      html`
        ${problems(entry.problems)}
        <div class="rows">${entry.rows.map((inner) => this.#row(inner))}</div>
        <div class="buttons">
          <button type="button" ?disabled=${at <= first} @click=${() => this.#move(list, at, at - 1)}>${labels.form_earlier}</button>
          <button type="button" ?disabled=${at < first || at + 1 >= many} @click=${() => this.#move(list, at, at + 1)}>${labels.form_later}</button>
          ${list.path === "wheel" && list.more ? html`<button type="button" @click=${() => this.#add(list, at + 1)}>${labels.form_add_behind}</button>` : nothing}
          <button type="button" ?disabled=${at < first} @click=${() => this.bench.removeAt(entry.path)}>${labels.form_remove}: ${name}</button>
        </div>
      `,
    );
  }

  #details(
    path: string,
    summary: TemplateResult,
    faulty: boolean,
    inside: TemplateResult,
  ): TemplateResult {
    const open = this.#open.has(path);
    return html`<details
      class="part"
      data-path=${path}
      ?open=${open}
      @toggle=${(event: Event) => this.#toggled(path, event)}
    >
      <summary>${summary}${faulty ? html` <b class="look">${this.bench.labels.look_here}</b>` : nothing}</summary>
      ${open ? inside : nothing}
    </details>`;
  }

  #toggled(path: string, event: Event): void {
    const details = event.target as HTMLDetailsElement;
    if (details.getAttribute("data-path") !== path || details.open === this.#open.has(path)) return;
    if (details.open) this.#open.add(path);
    else this.#open.delete(path);
    const entry = /^wheel\[(\d+)\]$/.exec(path);
    if (entry && details.open) this.bench.pick(Number(entry[1]));
    this.requestUpdate();
  }

  #add(list: FormRow, at: number): void {
    this.bench.addEntry(list.path, at);
    this.#open.add(`${list.path}[${at}]`);
    this.requestUpdate();
  }

  #move(list: FormRow, from: number, to: number): void {
    this.bench.moveEntry(list.path, from, to);
    this.#open.delete(`${list.path}[${from}]`);
    this.#open.add(`${list.path}[${to}]`);
    this.requestUpdate();
  }
}

function faulty(rows: FormRow[]): boolean {
  return rows.some(
    (row) =>
      row.problems.length > 0 ||
      faulty(row.rows) ||
      row.entries.some((entry) => entry.problems.length > 0 || faulty(entry.rows)),
  );
}

function problems(texts: string[]): TemplateResult | typeof nothing {
  if (texts.length === 0) return nothing;
  return html`<ul class="field-problems">${texts.map((text) => html`<li>${text}</li>`)}</ul>`;
}

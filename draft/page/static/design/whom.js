// For whom the draft is looked at: the chart of the pattern, another one, someone kept, or people at the ends of a survey.

import { ask } from "../line.js";
import { make } from "../leaf.js";
import { say } from "../words.js";
import { put, state } from "./state.js";

export class People {
  constructor(select, charts, changed) {
    this.select = select;
    this.charts = charts;
    this.ends = [];
    this.kept = [];
    select.addEventListener("change", () => {
      put({ whom: select.value, size: "" });
      changed();
    });
    this.anew();
    this.#survey(changed);
  }

  anew() {
    const option = (value, text) => make("option", { value }, text);
    this.select.replaceChildren(
      option("", say("design.own_chart")),
      make("optgroup", { label: say("design.charts") }, this.charts.map((name) => option(`chart ${name}`, say("design.chart", { name })))),
      this.kept.length ? make("optgroup", { label: say("design.kept") }, this.kept.map((one) => option(`kept ${one.name}`, one.name))) : "",
      this.ends.length ? make("optgroup", { label: say("design.ends") }, this.ends.map((one) => option(`end ${one.name}`, say(`design.end_${one.name}`)))) : "",
    );
    this.select.value = state.whom;
    if (!this.select.value) this.select.value = "";
  }

  asked() {
    const [sort, ...words] = state.whom.split(" ");
    const name = words.join(" ");
    if (sort === "chart") return { chart: name };
    const person = { end: this.ends, kept: this.kept }[sort]?.find((one) => one.name === name);
    if (!person) return {};
    return { measures: person.measures, figure: person.figure };
  }

  async #survey(changed) {
    try {
      this.ends = (await ask("ends_of_people", {})).people;
      this.kept = (await ask("people", {})).people;
    } catch {
      return;
    }
    this.anew();
    if (/^(end|kept) /.test(state.whom)) changed();
  }
}

// The view of the sheet: moved and enlarged by mouse, touch and keyboard, and kept while the drawing changes.

const MARGIN = 0.06;
const STEP = 1.2;
const [CLOSEST, FARTHEST] = [0.02, 40];

export class Glass {
  constructor(svg, bounds, enlarged) {
    this.enlarged = enlarged;
    this.mm = 1;
    this.svg = svg;
    this.bounds = bounds;
    this.view = [0, 0, 100, 100];
    this.fingers = new Map();
    this.moved = false;
    this.held = false;
    this.isFitted = true;
    svg.addEventListener("wheel", (event) => this.#wheel(event), { passive: false });
    svg.addEventListener("pointerdown", (event) => this.#down(event));
    svg.addEventListener("pointermove", (event) => this.#move(event));
    for (const name of ["pointerup", "pointercancel"]) svg.addEventListener(name, (event) => this.#up(event));
    svg.addEventListener("keydown", (event) => this.#key(event));
    svg.addEventListener("dblclick", (event) => this.zoom(1 / STEP ** 3, this.place(event)));
    new ResizeObserver(() => (this.isFitted ? this.fit() : this.#shown())).observe(svg);
  }

  fit() {
    const [left, top, right, bottom] = this.bounds();
    const [w, h] = [right - left, bottom - top];
    this.view = [left - w * MARGIN, top - h * MARGIN, w * (1 + 2 * MARGIN), h * (1 + 2 * MARGIN)];
    this.isFitted = true;
    this.#shown();
  }

  // The place of an event in the drawing.
  place(event) {
    const matrix = this.svg.getScreenCTM();
    return new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  }

  zoom(by, about = { x: this.view[0] + this.view[2] / 2, y: this.view[1] + this.view[3] / 2 }) {
    const [left, top, right, bottom] = this.bounds();
    const whole = Math.max(right - left, bottom - top, 1);
    const size = Math.max(this.view[2], this.view[3]) * by;
    if (size < whole * CLOSEST || size > whole * FARTHEST) return;
    const [x, y, w, h] = this.view;
    this.view = [about.x - (about.x - x) * by, about.y - (about.y - y) * by, w * by, h * by];
    this.isFitted = false;
    this.#shown();
  }

  pan(across, down) {
    this.view = [this.view[0] + across, this.view[1] + down, this.view[2], this.view[3]];
    this.isFitted = false;
    this.#shown();
  }

  #shown() {
    this.svg.setAttribute("viewBox", this.view.map((value) => value.toFixed(2)).join(" "));
    const matrix = this.svg.getScreenCTM();
    if (!matrix?.a || this.mm === 1 / matrix.a) return;
    this.mm = 1 / matrix.a;
    this.svg.style.setProperty("--mm", String(this.mm));
    this.enlarged();
  }

  #wheel(event) {
    event.preventDefault();
    const by = event.deltaY * (event.deltaMode ? 24 : 1);
    this.zoom(Math.exp(Math.max(-120, Math.min(120, by)) * 0.0018), this.place(event));
  }

  #down(event) {
    this.moved = false;
    if (this.held || event.button > 1) return;
    this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
  }

  #move(event) {
    const before = this.fingers.get(event.pointerId);
    if (!before || this.held) return;
    const now = [event.clientX, event.clientY];
    if (!this.moved && Math.hypot(now[0] - before[0], now[1] - before[1]) < 4) return;
    if (!this.moved) this.svg.setPointerCapture(event.pointerId);
    this.moved = true;
    const mm = 1 / this.svg.getScreenCTM().a;
    if (this.fingers.size === 2) {
      const other = [...this.fingers].find(([id]) => id !== event.pointerId)[1];
      const [was, is] = [before, now].map((at) => Math.hypot(at[0] - other[0], at[1] - other[1]));
      const middle = { clientX: (now[0] + other[0]) / 2, clientY: (now[1] + other[1]) / 2 };
      if (is > 10) this.zoom(was / is, this.place(middle));
      this.pan((-(now[0] - before[0]) * mm) / 2, (-(now[1] - before[1]) * mm) / 2);
    } else {
      this.pan(-(now[0] - before[0]) * mm, -(now[1] - before[1]) * mm);
    }
    this.fingers.set(event.pointerId, now);
  }

  #up(event) {
    this.fingers.delete(event.pointerId);
  }

  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const far = this.view[2] / 10;
    const moves = {
      ArrowLeft: () => this.pan(-far, 0), ArrowRight: () => this.pan(far, 0),
      ArrowUp: () => this.pan(0, -far), ArrowDown: () => this.pan(0, far),
      "+": () => this.zoom(1 / STEP), "=": () => this.zoom(1 / STEP), "-": () => this.zoom(STEP),
      0: () => this.fit(),
    };
    if (!(event.key in moves)) return;
    event.preventDefault();
    moves[event.key]();
  }
}

"""What no checker of markup sees (WCAG 2.2): reflow at 320 pixels, targets of 24 pixels, a focus never hidden."""

from __future__ import annotations

from typing import Any

HERS = "m.bust_girth=98&m.waist_girth=83&m.hip_girth=104&m.stature=168&units=cm&language=de"
WAIT = 90_000

SMALL = """() => [...document.querySelectorAll('a, button, input, select, summary, [tabindex="0"]')]
  .filter((one) => one.offsetParent)
  .map((one) => {
    const place = /radio|checkbox/.test(one.type) ? one.closest('label') ?? one : one;
    const {width, height} = place.getBoundingClientRect();
    return {what: `${one.tagName} ${one.id} ${one.textContent.slice(0, 20)}`, width, height};
  })
  .filter(({width, height}) => width && (width < 24 || height < 24))"""
"""Targets of less than 24 by 24 CSS pixels (2.5.8)."""

HIDDEN = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const {x, y, width, height} = one.getBoundingClientRect();
  const around = [one, ...(one.labels ?? [])];
  const belongs = (other) => other && (other.contains(one) || around.some((part) => part.contains(other)));
  const shares = [0.1, 0.5, 0.9];
  const at = (a, b) => document.elementFromPoint(x + width * a, y + height * b);
  const seen = shares.some((a) => shares.some((b) => belongs(at(a, b))));
  return seen ? '' : `${one.tagName} ${one.id}`;
}"""
"""What has the focus and is wholly hidden by something else (2.4.11); empty where nothing of that is so."""


def test_nothing_is_cut_off_hidden_or_too_small(browser: Any, served: str) -> None:
    """At 320 pixels, which a screen of 1280 has at 400 %, with all that unfolds open, in the longer language."""
    context = browser.new_context(viewport={"width": 320, "height": 400}, locale="de-DE", reduced_motion="reduce")
    context.set_default_timeout(WAIT)
    leaf = context.new_page()
    leaf.goto(served)
    leaf.locator(".card").first.wait_for()
    assert leaf.evaluate("document.documentElement.scrollWidth") <= 320
    leaf.goto("about:blank")
    leaf.goto(f"{served.rpartition('/enter')[0]}/#garment=marlpit&{HERS}")
    leaf.get_by_text("Gezeichnet für").wait_for()
    leaf.locator("#needs li").first.wait_for()
    for folded in leaf.locator("summary:visible").all():
        folded.click()
    leaf.locator(".saying img").first.wait_for()
    assert leaf.evaluate("document.documentElement.scrollWidth") <= 320
    assert leaf.evaluate(SMALL) == []
    leaf.locator("#garment-title").focus()
    hidden = []
    for _ in range(60):
        leaf.keyboard.press("Tab")
        hidden.append(leaf.evaluate(HIDDEN))
    assert len([one for one in hidden if one is not None]) > 50
    assert not [one for one in hidden if one]
    context.close()

"""Whether a page can be used by everybody: axe-core's verdict, the width that it takes, and the way through it by keyboard."""

from functools import cache
from pathlib import Path

WIDE, NARROW = (1280, 800), (360, 740)

LOOKS = ((WIDE, "light"), (NARROW, "dark"))
"""Each width and each scheme once: colours do not depend on the width, nor targets on the colours."""


@cache
def _axe() -> str:
    import axe_playwright_python

    return (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")


def wait_until(page, condition: str) -> None:
    """Waits for an expression of the page, also a promised one, to be true. `wait_for_function` evaluates text again while it
    waits, which the page's policy refuses as soon as the first look was too early."""
    page.evaluate(
        f"""async () => {{
        for (const end = performance.now() + 60_000; performance.now() < end;) {{
            if (await ({condition})) return;
            await new Promise(done => setTimeout(done, 50));
        }}
        throw new Error("it did not come true");
    }}"""
    )


def assert_accessible(page, looks=LOOKS) -> None:
    """No violation of any rule of axe-core, best practice and the size of targets included, and no sideways scrolling."""
    page.evaluate(_axe())
    page.evaluate("scrollTo(0, 0)")  # a target that has slid below a bar that stays is not too small
    for (width, height), scheme in looks:
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(color_scheme=scheme)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, (width, page.title())
        violations = page.evaluate(
            "axe.run(document, {resultTypes: ['violations'], preload: false, rules: {'target-size': {enabled: true}}})"
            ".then(told => told.violations.map(rule => [rule.id, rule.nodes[0].html, rule.nodes[0].failureSummary]))"
        )
        assert not violations, (width, scheme, violations)
    page.set_viewport_size({"width": WIDE[0], "height": WIDE[1]})
    page.emulate_media(color_scheme="light")


_FOCUSED = """selector => {
    const at = document.activeElement, drawn = at.closest(".peel label") || at;
    const box = drawn.getBoundingClientRect(), style = getComputedStyle(drawn);
    return [
        at !== document.body && at.matches(selector), at.outerHTML.slice(0, 120), at === document.body,
        parseFloat(style.outlineWidth) >= 2 && style.outlineStyle !== "none" && box.width > 1 && box.height > 1,
    ];
}"""


def tab_to(page, selector: str, most: int = 150) -> None:
    """Presses Tab until something of the selector has the focus; all that has it on the way must show it. A page that is
    still being opened has nothing to focus."""
    page.locator(selector).first.wait_for(state="attached")
    page.wait_for_load_state()
    for _ in range(most):
        page.keyboard.press("Tab")
        is_there, html, is_nowhere, is_shown = page.evaluate(_FOCUSED, selector)
        assert is_shown or is_nowhere, f"focus cannot be seen on {html}"
        if is_there:
            return
    raise AssertionError(f"the keyboard does not reach {selector}")

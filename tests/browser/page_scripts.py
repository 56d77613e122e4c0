"""What is asked of a page by a script: its tree switched on, stillness, what it says, what can be pressed."""
from __future__ import annotations

#: A click alone does nothing on a phone's placeholder: the pointer has to go down and up in its middle.
TREE_ON = """() => { const e = document.querySelector('flt-semantics-placeholder'); if (!e) return;
  const r = e.getBoundingClientRect();
  const o = {bubbles: true, clientX: r.left + r.width / 2, clientY: r.top + r.height / 2, pointerType: 'touch'};
  for (const t of ['pointerdown', 'pointerup', 'click'])
    e.dispatchEvent(new (t == 'click' ? MouseEvent : PointerEvent)(t, o)); }"""
#: Waits until the tree has stood still for a moment and for some pictures, so that nothing moves away under the
#: pointer: on a busy machine a picture takes longer than the moment. Some seconds at most.
QUIET = """still => new Promise(done => {
  let last = performance.now(), pictures = 0, over = false;
  const end = () => { over = true; seen.disconnect(); clearTimeout(late); done(pictures > 0); };
  const late = setTimeout(end, 40 * still);
  const seen = new MutationObserver(() => { last = performance.now(); pictures = 0; });
  const look = () => { if (over) return;
    pictures += 1;
    if (pictures > 3 && performance.now() - last >= still) end(); else requestAnimationFrame(look); };
  seen.observe(document.body, {subtree: true, childList: true, attributes: true, characterData: true});
  requestAnimationFrame(look); })"""
#: Whether a frame is drawn within so many ms.
DRAWS = """within => new Promise(done => {
  const late = setTimeout(() => done(false), within);
  requestAnimationFrame(() => { clearTimeout(late); done(true); }); })"""
#: Text at 200 %.
LARGE_PRINT = "size => document.documentElement.style.fontSize = size"
#: Everything that can be pressed or written in, with where it stands.
PRESSABLES = """() => [...document.querySelectorAll(
    'flt-semantics-host :is([role=button], [role=checkbox], [role=radio], [role=switch], [role=tab], input, textarea)')]
  .map(e => { const r = e.getBoundingClientRect();
    return {name: (e.getAttribute('aria-label') || e.textContent || '').trim(), role: e.getAttribute('role') || 'field',
            left: r.left, right: r.right, top: r.top, bottom: r.bottom}; })"""
#: Everything that the accessibility tree says.
SPOKEN = """() => [...document.querySelectorAll('flt-semantics-host *')]
  .map(e => e.getAttribute('aria-label') || (e.children.length ? '' : e.textContent))"""
#: Everything that is named: its box, its box less what scrolling parts around it cut away, whether within a button.
SEEN = """() => [...document.querySelectorAll('flt-semantics-host *')].map(e => {
  const words = (e.getAttribute('aria-label') || (e.children.length ? '' : e.textContent) || '').trim();
  if (!words) return null;
  const r = e.getBoundingClientRect();
  let [left, top, right, bottom] = [r.left, r.top, r.right, r.bottom];
  for (let a = e.parentElement; a; a = a.parentElement) {
    if (!/scroll|auto|hidden/.test(getComputedStyle(a).overflowX + getComputedStyle(a).overflowY)) continue;
    const c = a.getBoundingClientRect();
    left = Math.max(left, c.left); right = Math.min(right, c.right);
    top = Math.max(top, c.top); bottom = Math.min(bottom, c.bottom); }
  const within = e.closest('[role=button]');
  return {words, role: e.getAttribute('role') || '', box: [r.left, r.top, r.right, r.bottom],
          seen: [left, top, right, bottom], inner: !!within && within !== e}; }).filter(b => b)"""

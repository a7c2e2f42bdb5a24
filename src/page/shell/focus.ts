import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';

/** What a keyboard can go on from. A field is no such thing: on a tablet it would call up the keys of the screen. */
const TO_GO_ON = 'button:not(:disabled), a[href], summary';

/**
 * Keeps the place of whoever works by keyboard: where what they were at goes away (a row that was taken back, a form that
 * was saved) or can be used no more, they go on from its neighbor, or from the top of what is shown. The browser would
 * send them back to the start of the page.
 */
export function useFocusKept(within: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const main = within.current;
    if (!main) return;
    let at: Element | undefined;
    let around: readonly Element[] = [];
    let neighbors: readonly HTMLElement[] = [];
    const note = ({ target }: FocusEvent) => {
      if (!(target instanceof Element) || target === main) return;
      at = target;
      around = ancestorsOf(target, main);
      neighbors = nearestFirst([...main.querySelectorAll<HTMLElement>(TO_GO_ON)], target);
    };
    const look = () => {
      const isLost = document.activeElement === document.body || document.activeElement === null;
      if (!isLost || !at || (at.isConnected && !at.matches(':disabled'))) return;
      const left = around.find((each) => each.isConnected);
      const next = neighbors.find((each) => left?.contains(each) && canTake(each));
      at = undefined;
      (next ?? main).focus({ preventScroll: true });
    };
    // After the page is drawn: whoever draws may have a better place in mind.
    const watcher = new MutationObserver(() => requestAnimationFrame(() => requestAnimationFrame(look)));
    watcher.observe(main, { childList: true, subtree: true, attributeFilter: ['disabled'] });
    main.addEventListener('focusin', note);
    return () => {
      watcher.disconnect();
      main.removeEventListener('focusin', note);
    };
  }, [within]);
}

/** From the inside out, without the whole. */
function ancestorsOf(element: Element, whole: Element): Element[] {
  const ancestors: Element[] = [];
  for (let each = element.parentElement; each && each !== whole; each = each.parentElement)
    ancestors.push(each);
  return ancestors;
}

/** What comes after it before what came ahead of it, each by how near it is. */
function nearestFirst(all: readonly HTMLElement[], to: Element): HTMLElement[] {
  const others = all.filter((each) => each !== to);
  const isAhead = (each: HTMLElement) =>
    (to.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_PRECEDING) !== 0;
  return [...others.filter((each) => !isAhead(each)), ...others.filter(isAhead).reverse()];
}

const canTake = (element: HTMLElement) =>
  element.isConnected && !element.matches(':disabled') && element.checkVisibility();

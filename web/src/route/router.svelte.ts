// Where the page stands. Links are plain <a href>; clicks on those of this page are taken over here.
import type { WhichCellar } from '../api/client';
import { readPlace, writePlace, type Place } from './paths';

class Router {
  place: Place = $state(readPlace('/', ''));

  start() {
    this.#read();
    window.addEventListener('popstate', () => this.#read());
    document.addEventListener('click', (event) => {
      if (event.defaultPrevented || event.button !== 0) return;
      if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
      const link = (event.target as Element | null)?.closest?.('a[href]');
      const href = link?.getAttribute('href') ?? '';
      if (!link || !href.startsWith('/') || href.startsWith('/api/') || link.hasAttribute('download') || link.getAttribute('target')) return;
      event.preventDefault();
      this.go(href);
    });
  }

  get cellar(): WhichCellar {
    return this.place.cellar;
  }

  // An address in the same cellar as now.
  to(path: string, query: Record<string, string | number | undefined> = {}): string {
    return writePlace(path, this.place.cellar, query);
  }

  // Goes to an address made by `to` or `writePlace`. `replace` leaves no step to go back to.
  go(href: string, how: { replace?: boolean; keepScroll?: boolean } = {}) {
    if (how.replace) history.replaceState(null, '', href);
    else history.pushState(null, '', href);
    this.#read();
    if (!how.keepScroll) {
      window.scrollTo(0, 0);
      // A screen reader is told of the new place by its title.
      requestAnimationFrame(() => {
        const title = document.querySelector<HTMLElement>('main h1');
        if (title && !document.activeElement?.matches('main input, main textarea, main select')) {
          title.tabIndex = -1;
          title.focus({ preventScroll: true });
        }
      });
    }
  }

  #read() {
    this.place = readPlace(location.pathname, location.search);
  }
}

export const router = new Router();

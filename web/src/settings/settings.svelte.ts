// How this keeper reads numbers and days on this device. Kept in local storage; nothing of it is in the book.
import type { Scheme } from '../look/lightness';

export interface Choices {
  scheme: 'auto' | Scheme;
  volume: 'L' | 'US gal';
  temperature: 'C' | 'F';
  gravity: 'SG' | 'P';
  mass: 'g' | 'oz';
  pressure: 'bar' | 'psi';
  gas: 'vol' | 'g/L';
  locale: string; // empty: the browser's
  by: string; // who books here
}

export const k_usual: Choices = {
  scheme: 'auto',
  volume: 'L',
  temperature: 'C',
  gravity: 'SG',
  mass: 'g',
  pressure: 'bar',
  gas: 'vol',
  locale: '',
  by: '',
};

const k_key = 'undercroft.settings';

function kept(): Choices {
  try {
    return { ...k_usual, ...JSON.parse(localStorage.getItem(k_key) ?? '{}') };
  } catch {
    return { ...k_usual };
  }
}

class Settings {
  choices: Choices = $state(kept());
  #system_dark = $state(false);
  #printing = $state(false);

  start() {
    const dark = window.matchMedia?.('(prefers-color-scheme: dark)');
    const print = window.matchMedia?.('print');
    this.#system_dark = dark?.matches ?? false;
    this.#printing = print?.matches ?? false;
    this.#dress();
    dark?.addEventListener('change', (event) => {
      this.#system_dark = event.matches;
      this.#dress();
    });
    // Paper is white whatever the screen is.
    print?.addEventListener('change', (event) => {
      this.#printing = event.matches;
      this.#dress();
    });
    window.addEventListener('storage', (event) => {
      if (event.key !== k_key) return;
      this.choices = kept();
      this.#dress();
    });
  }

  get scheme(): Scheme {
    if (this.#printing) return 'light';
    if (this.choices.scheme !== 'auto') return this.choices.scheme;
    return this.#system_dark ? 'dark' : 'light';
  }

  get locale(): string | undefined {
    return this.choices.locale || undefined;
  }

  set(change: Partial<Choices>) {
    this.choices = { ...this.choices, ...change };
    try {
      localStorage.setItem(k_key, JSON.stringify(this.choices));
    } catch {
      // A browser that keeps nothing: the choice holds until the page is closed.
    }
    this.#dress();
  }

  #dress() {
    document.documentElement.dataset.scheme = this.scheme;
  }
}

export const settings = new Settings();

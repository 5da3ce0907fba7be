// Whether the program answers, and how far each cellar's book is. When a book moves on, what is on screen is asked again.
import { isoDay } from '../days/days';
import { router } from '../route/router.svelte';
import { client, type Query, type WhichCellar } from './client';
import type { BookAnswer } from './types';

const k_every_ms = 4_000;
const k_every_while_lost_ms = 1_500;
const k_moved_on = 'undercroft.moved-on'; // local storage: tells other tabs

class Live {
  connected = $state(true);
  lost_at: number | null = $state(null);
  sequence: Record<WhichCellar, number> = { own: -1, demo: -1 };
  // How often each book was seen to move on: what is on screen depends on it.
  moves: Record<WhichCellar, number> = $state({ own: 0, demo: 0 });
  book: Record<WhichCellar, BookAnswer | null> = $state({ own: null, demo: null });
  fault: unknown = $state(null);
  #back: (() => void)[] = [];
  #timer = 0;

  start() {
    client.onHeard(({ sequence, connected, cellar }) => {
      this.#connected(connected);
      if (sequence !== undefined && sequence !== this.sequence[cellar]) {
        if (this.sequence[cellar] >= 0) this.moves[cellar]++;
        this.sequence[cellar] = sequence;
        localStorage.setItem(k_moved_on, `${cellar} ${sequence}`);
      }
    });
    document.addEventListener('visibilitychange', () => {
      if (!document.hidden) void this.look();
    });
    window.addEventListener('online', () => void this.look());
    window.addEventListener('storage', (event) => {
      if (event.key === k_moved_on && event.newValue !== `${router.cellar} ${this.sequence[router.cellar]}`) void this.look();
    });
    void this.look();
  }

  // Called each time the program answers again after a silence.
  onBack(then: () => void) {
    this.#back.push(then);
  }

  async look() {
    window.clearTimeout(this.#timer);
    const cellar = router.cellar;
    try {
      this.book[cellar] = await client.get<BookAnswer>('/book', cellar);
      this.fault = null;
    } catch (why) {
      this.fault = why;
    }
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => {
      if (!document.hidden) void this.look();
    }, this.connected ? k_every_ms : k_every_while_lost_ms);
  }

  get here(): BookAnswer | null {
    return this.book[router.cellar];
  }

  // Today in the cellar, as the program says it.
  get today(): string {
    return this.here?.today ?? isoDay(Date.now());
  }

  #connected(connected: boolean) {
    if (connected === this.connected) return;
    this.connected = connected;
    this.lost_at = connected ? null : Date.now();
    if (connected) for (const then of this.#back) then();
    else void this.look();
  }
}

export const live = new Live();

// An answer that stays on screen while it is asked again, and is asked again when the book moves on.
export class Asked<T> {
  value: T | null = $state.raw(null);
  fault: unknown = $state.raw(null);
  asking = $state(false);
  #again = $state(0);

  // `what` is read inside an effect, so a change of what it reads asks anew; null asks nothing.
  constructor(what: () => { path: string; query?: Query } | null) {
    let asked_before = '';
    $effect(() => {
      const wanted = what();
      const cellar = router.cellar;
      void live.moves[cellar];
      void this.#again;
      if (!wanted) {
        this.value = null;
        this.fault = null;
        asked_before = '';
        return;
      }
      const this_one = JSON.stringify([wanted, cellar]);
      if (this_one !== asked_before) {
        this.value = null; // another thing: never show the old one under its name
        asked_before = this_one;
      }
      const stop = new AbortController();
      this.asking = true;
      client
        .get<T>(wanted.path, cellar, wanted.query ?? {}, stop.signal)
        .then((value) => {
          this.value = value;
          this.fault = null;
        })
        .catch((why: unknown) => {
          if (!stop.signal.aborted) this.fault = why;
        })
        .finally(() => {
          if (!stop.signal.aborted) this.asking = false;
        });
      return () => stop.abort();
    });
  }

  again = () => {
    this.#again++;
  };
}

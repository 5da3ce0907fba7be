// The sitting being prepared: one tray of acts a cellar, one preview, one booking. Kept in local storage; other tabs see it.
import { client, Fault, NoConnection, type WhichCellar } from '../api/client';
import { live } from '../api/live.svelte';
import type { Act, SittingAnswer } from '../api/types';
import { router } from '../route/router.svelte';
import { settings } from '../settings/settings.svelte';
import { emptyDraft, readDraft, sittingBody, stillOpen, type Draft } from './draft';
import { sittingKey } from './key';

const k_preview_after_ms = 250;

function storageKey(cellar: WhichCellar): string {
  return `undercroft.draft.${cellar}`;
}

class Sitting {
  drafts: Record<WhichCellar, Draft> = $state({ own: fresh(), demo: fresh() });
  preview: SittingAnswer | null = $state.raw(null);
  // Why the preview was refused, or why it was not booked.
  fault: unknown = $state.raw(null);
  // The book moved on between preview and booking: what it would do now.
  stale: { fault: Fault; seen: SittingAnswer | null; now: SittingAnswer | null } | null = $state.raw(null);
  booked: SittingAnswer | null = $state.raw(null);
  // The form that was opened last: its first field takes the focus.
  newest = $state(0);
  previewing = $state(false);
  booking = $state(false);
  #timer = 0;
  #changed = false; // since the preview on screen
  #asked = new AbortController();

  start() {
    for (const cellar of ['own', 'demo'] as const) this.#read(cellar);
    window.addEventListener('storage', (event) => {
      for (const cellar of ['own', 'demo'] as const) if (event.key === storageKey(cellar)) this.#read(cellar);
    });
    // What was sent and not answered is sent again under the same key: it is booked once, whichever of the two arrived.
    live.onBack(() => {
      if (this.draft.unsent && !this.booking) void this.#sendAgain();
    });
  }

  get draft(): Draft {
    return this.drafts[router.cellar];
  }

  // Where the draft was begun, when that is not the book that is open now.
  get elsewhere(): string {
    const begun = this.draft.book;
    const open = live.here?.book.name;
    return begun && open && begun !== open ? begun : '';
  }

  // Begins an act. One of the same word about the same thing is there already: that one is gone on with, unless `another`.
  add(act: Act, another = false) {
    this.booked = null;
    const same = !another && this.draft.acts.some((held) => held.act.act === act.act && held.act.reason === act.reason && about(held.act) === about(act));
    if (!same) {
      const id = Math.max(0, ...this.draft.acts.map((held) => held.id)) + 1;
      this.draft.acts.push({ id, act });
      if (!this.draft.book) this.draft.book = live.here?.book.name ?? '';
      this.newest = id;
    }
    this.changed();
  }

  remove(id: number) {
    this.draft.acts = this.draft.acts.filter((held) => held.id !== id);
    this.changed();
  }

  // Leaves it: the acts are gone, nothing was booked.
  leave() {
    this.#set(router.cellar, fresh());
    this.preview = null;
    this.fault = null;
    this.stale = null;
  }

  // Something was typed: keep it, and look what it would do.
  changed() {
    this.stale = null;
    this.draft.unsent = null;
    this.#keep(router.cellar);
    this.#changed = true;
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => void this.look(), k_preview_after_ms);
  }

  async look() {
    window.clearTimeout(this.#timer);
    this.#asked.abort();
    this.#changed = false;
    const body = sittingBody(this.draft);
    if (body.acts.length === 0 || body.acts.some((act) => stillOpen(act))) {
      this.preview = null;
      this.fault = null;
      return;
    }
    const asked = (this.#asked = new AbortController());
    this.previewing = true;
    try {
      this.preview = await client.post<SittingAnswer>('/sittings/preview', router.cellar, body, asked.signal);
      this.fault = null;
    } catch (why) {
      if (asked.signal.aborted) return;
      this.fault = why;
      if (!(why instanceof NoConnection)) this.preview = null;
    } finally {
      if (asked === this.#asked) this.previewing = false;
    }
  }

  // Books the tray as it was previewed. Sent again, it is booked once.
  async book(): Promise<boolean> {
    const cellar = router.cellar;
    const draft = this.drafts[cellar];
    if (this.elsewhere) return false;
    if (!draft.unsent && (this.#changed || this.previewing || !this.preview)) {
      // Typed since it was last shown: booked only when it brings nothing that must be seen first.
      const shown = new Set(this.preview?.cautions.map((c) => c.id));
      await this.look();
      const now = this.preview as SittingAnswer | null;
      if (this.fault || !now || now.objection || now.cautions.some((c) => !shown.has(c.id))) return false;
    }
    const seen = this.preview;
    const body =
      draft.unsent ??
      sittingBody(draft, seen?.touched ? { sequence: seen.book.sequence, touched: seen.touched } : undefined);
    this.booking = true;
    this.stale = null;
    try {
      this.booked = await client.post<SittingAnswer>('/sittings', cellar, body);
      this.fault = null;
      this.preview = null;
      this.#set(cellar, fresh());
      void live.look();
      return true;
    } catch (why) {
      if (why instanceof Fault && why.kind === 'stale' && why.sitting) {
        this.stale = { fault: why, seen, now: why.sitting };
        draft.unsent = null;
      } else if (why instanceof NoConnection) {
        draft.unsent = $state.snapshot(body) as Draft['unsent'];
        this.fault = why;
      } else {
        draft.unsent = null;
        this.fault = why;
      }
      this.#keep(cellar);
      return false;
    } finally {
      this.booking = false;
    }
  }

  // Goes on from the book as it is now.
  takeNow() {
    if (this.stale?.now) this.preview = this.stale.now;
    this.stale = null;
  }

  async #sendAgain() {
    await live.look(); // which book answers now?
    if (this.draft.unsent && !this.elsewhere) await this.book();
  }

  #read(cellar: WhichCellar) {
    let text: string | null = null;
    try {
      text = localStorage.getItem(storageKey(cellar));
    } catch {
      return; // a browser that keeps nothing
    }
    const had = this.drafts[cellar].acts.length > 0;
    this.drafts[cellar] = readDraft(text) ?? fresh();
    if (had && cellar === router.cellar) {
      this.preview = null;
      this.fault = null;
    }
  }

  #set(cellar: WhichCellar, draft: Draft) {
    this.drafts[cellar] = draft;
    this.#keep(cellar);
  }

  #keep(cellar: WhichCellar) {
    try {
      const draft = this.drafts[cellar];
      if (draft.acts.length) localStorage.setItem(storageKey(cellar), JSON.stringify(draft));
      else localStorage.removeItem(storageKey(cellar));
    } catch {
      // It holds until the page is closed.
    }
  }
}

function fresh(): Draft {
  return emptyDraft(sittingKey(Date.now()), settings.choices.by);
}

function about(act: Act): unknown {
  return act.vessel ?? act.subject ?? act.from ?? act.run ?? act.entry ?? act.name;
}

export const sitting = new Sitting();

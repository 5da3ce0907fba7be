// A question that is sent with a body and asked anew, after a pause, whenever what it is made of changes.
import { router } from '../route/router.svelte';
import { client } from './client';
import { live } from './live.svelte';

const k_pause_ms = 350; // while somebody types

export class Posted<T> {
  value: T | null = $state.raw(null);
  fault: unknown = $state.raw(null);
  asking = $state(false);

  // `what` is read inside an effect; null asks nothing and forgets the answer.
  constructor(what: () => { path: string; body: Record<string, unknown> } | null) {
    $effect(() => {
      const wanted = what();
      const where = router.cellar;
      void live.moves[where];
      if (!wanted) {
        this.value = null;
        this.fault = null;
        return;
      }
      const stop = new AbortController();
      const timer = window.setTimeout(() => {
        this.asking = true;
        client
          .post<T>(wanted.path, where, wanted.body, stop.signal)
          .then((answer) => {
            this.value = answer;
            this.fault = null;
          })
          .catch((why: unknown) => {
            if (stop.signal.aborted) return;
            this.fault = why;
            this.value = null;
          })
          .finally(() => {
            if (!stop.signal.aborted) this.asking = false;
          });
      }, k_pause_ms);
      return () => {
        window.clearTimeout(timer);
        stop.abort();
      };
    });
  }
}

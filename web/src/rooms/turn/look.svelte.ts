// The what-ifs of a turn: each step's acts are previewed on top of those before it, so that every arch shows today beside what-if.
import { client } from '../../api/client';
import { live } from '../../api/live.svelte';
import type { Act, SittingAnswer } from '../../api/types';
import { router } from '../../route/router.svelte';

export interface LookedAt {
  sitting: SittingAnswer | null;
  fault: unknown;
  asking: boolean;
}

const k_after_ms = 160;

// `acts` is read inside an effect; an empty list asks nothing. The last answer stays until the next is there.
export function lookAhead(acts: () => Act[]): LookedAt {
  const looked: LookedAt = $state({ sitting: null, fault: null, asking: false });
  $effect(() => {
    const wanted = acts();
    const cellar = router.cellar;
    void live.sequence[cellar];
    if (wanted.length === 0) {
      looked.sitting = null;
      looked.fault = null;
      looked.asking = false;
      return;
    }
    const stop = new AbortController();
    looked.asking = true;
    const timer = window.setTimeout(() => {
      client
        .post<SittingAnswer>('/sittings/preview', cellar, { acts: wanted }, stop.signal)
        .then((answer) => {
          looked.sitting = answer;
          looked.fault = null;
        })
        .catch((why: unknown) => {
          if (stop.signal.aborted) return;
          looked.sitting = null;
          looked.fault = why;
        })
        .finally(() => {
          if (!stop.signal.aborted) looked.asking = false;
        });
    }, k_after_ms);
    return () => {
      window.clearTimeout(timer);
      stop.abort();
    };
  });
  return looked;
}
